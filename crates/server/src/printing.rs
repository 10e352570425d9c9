//! Printed sheets, kept while the film does not change.

use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::{PrintedSheet, SheetName, SheetOptions, gather_sheets};

use crate::desk::Desk;
use crate::problem::ServerError;

/// How many printed sheets are kept: both of one version, on both papers.
const KEPT: usize = 4;

/// What a sheet was printed from.
#[derive(Debug, Clone, PartialEq, Eq)]
struct From {
    cut: String,
    sheet: SheetName,
    letter: bool,
    revision: u64,
}

/// A sheet, and whether every roll on it is proved.
#[derive(Debug)]
pub(crate) struct Printed {
    pub(crate) sheet: PrintedSheet,
    pub(crate) proved: bool,
    pub(crate) without_pictures: Vec<String>,
    pub(crate) revision: u64,
}

/// The sheets printed last, newest at the end.
#[derive(Debug, Default)]
pub(crate) struct Press(Mutex<Vec<(From, Arc<Printed>)>>);

impl Press {
    /// A sheet of a version as it stands now. What it needs is gathered while
    /// the production is held; it is set without it.
    ///
    /// # Errors
    /// [`ServerError::Act`] when the strand check refuses the version.
    pub(crate) fn print(
        &self,
        desk: &Desk,
        cut: &str,
        sheet: SheetName,
        letter: bool,
    ) -> Result<Arc<Printed>, ServerError> {
        let (mut gathered, from) = {
            let production = desk.production();
            let from = From {
                cut: cut.to_owned(),
                sheet,
                letter,
                revision: production.revision()?.number(),
            };
            if let Some(kept) = self.kept(&from) {
                return Ok(kept);
            }
            let options = SheetOptions {
                only: Some(sheet),
                letter,
                join: None,
            };
            (gather_sheets(&production, cut, &options)?, from)
        };
        let printed = Arc::new(Printed {
            sheet: gathered.print_one(sheet)?,
            proved: gathered.is_proved(),
            without_pictures: gathered.without_pictures().to_vec(),
            revision: from.revision,
        });
        self.keep(from, Arc::clone(&printed));
        Ok(printed)
    }

    fn kept(&self, from: &From) -> Option<Arc<Printed>> {
        let all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let found = all.iter().find(|(of, _)| of == from);
        found.map(|(_, printed)| Arc::clone(printed))
    }

    fn keep(&self, from: From, printed: Arc<Printed>) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.push((from, printed));
        let surplus = all.len().saturating_sub(KEPT);
        all.drain(..surplus);
    }
}
