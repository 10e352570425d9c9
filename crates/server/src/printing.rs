//! Printed sheets, kept while the film does not change.

use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::{
    BenchPaper, ChangesToPrint, DubSheetName, DubSheetsAsked, DubSheetsToPrint, PrintedSheet,
    Production, RollSheet, RollSheetToPrint, ScriptSheet, ScriptSheetsAsked, ScriptSheetsToPrint,
    SheetName, SheetOptions, SheetsToPrint, TitleSheetName, TitleSheetsAsked, TitleSheetsToPrint,
    gather_changes, gather_dub_sheets, gather_roll_sheet, gather_script_sheets, gather_sheets,
    gather_title_sheets,
};

use crate::desk::Desk;
use crate::problem::ServerError;

/// How many printed sheets are kept: as many as one looks at in turn.
const KEPT: usize = 6;

/// Which sheet, and what it is about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Subject {
    /// A version, at a bench.
    Cut(String, SheetName, BenchPaper),
    /// What leads from one version to another: the change list.
    Changes { from: String, to: String },
    /// A roll, or all of them.
    Rolls(Option<String>, RollSheet),
    /// The film before it is shot: for where and when.
    Script(ScriptSheet, ScriptSheetsAsked),
    /// The titles, or one of them.
    Titles(TitleSheetName, TitleSheetsAsked),
    /// The sound of a version.
    Dub(String, DubSheetName, DubSheetsAsked),
}

/// What a sheet was printed from.
#[derive(Debug, Clone, PartialEq, Eq)]
struct From {
    of: Subject,
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

impl Printed {
    /// A plan claims nothing of a scan, and has no pictures of rolls.
    const fn of_plan(sheet: PrintedSheet, revision: u64) -> Self {
        Self {
            sheet,
            proved: true,
            without_pictures: Vec::new(),
            revision,
        }
    }
}

/// The sheets printed last, newest at the end.
#[derive(Debug, Default)]
pub(crate) struct Press(Mutex<Vec<(From, Arc<Printed>)>>);

impl Press {
    /// A sheet as the film stands now. What it needs is gathered while the
    /// production is held; it is set without it.
    ///
    /// # Errors
    /// [`ServerError::Act`] when the strand check refuses the version, or when
    /// there is no such version or roll.
    pub(crate) fn print(
        &self,
        desk: &Desk,
        of: Subject,
        letter: bool,
    ) -> Result<Arc<Printed>, ServerError> {
        let (gathered, from) = {
            let production = desk.production();
            let from = From {
                of,
                letter,
                revision: production.revision()?.number(),
            };
            if let Some(kept) = self.kept(&from) {
                return Ok(kept);
            }
            (Gathered::of(&production, &from)?, from)
        };
        let printed = Arc::new(gathered.print(from.revision)?);
        self.keep(from, Arc::clone(&printed));
        Ok(printed)
    }

    /// A sheet to be fetched and not looked at: one that is kept, or else, of the plan,
    /// one without its pages as drawings, which is not kept. Others as [`Press::print`].
    ///
    /// # Errors
    /// As [`Press::print`].
    pub(crate) fn fetch(
        &self,
        desk: &Desk,
        of: Subject,
        letter: bool,
    ) -> Result<Arc<Printed>, ServerError> {
        let Subject::Script(sheet, _) = of else {
            return self.print(desk, of, letter);
        };
        let (gathered, revision) = {
            let production = desk.production();
            let revision = production.revision()?.number();
            let from = From {
                of,
                letter,
                revision,
            };
            if let Some(kept) = self.kept(&from) {
                return Ok(kept);
            }
            (Gathered::of(&production, &from)?, revision)
        };
        let Gathered::Script(gathered, _) = gathered else {
            return gathered.print(revision).map(Arc::new);
        };
        let sheet = gathered.set_one(sheet)?;
        Ok(Arc::new(Printed::of_plan(sheet, revision)))
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

/// All that a sheet needs, apart from the production.
enum Gathered {
    Cut(Box<SheetsToPrint>, SheetName),
    Changes(Box<ChangesToPrint>),
    Rolls(Box<RollSheetToPrint>),
    Script(Box<ScriptSheetsToPrint>, ScriptSheet),
    Titles(Box<TitleSheetsToPrint>, TitleSheetName),
    Dub(Box<DubSheetsToPrint>, DubSheetName),
}

impl Gathered {
    fn of(production: &Production, from: &From) -> Result<Self, ServerError> {
        Ok(match &from.of {
            Subject::Cut(cut, sheet, bench) => {
                let options = SheetOptions {
                    only: Some(*sheet),
                    letter: from.letter,
                    join: None,
                    bench: bench.clone(),
                };
                let gathered = gather_sheets(production, cut, &options)?;
                Self::Cut(Box::new(gathered), *sheet)
            }
            Subject::Changes { from: old, to } => {
                let gathered = gather_changes(production, (old, to), from.letter)?;
                Self::Changes(Box::new(gathered))
            }
            Subject::Rolls(roll, sheet) => {
                let gathered = gather_roll_sheet(production, *sheet, roll.as_deref(), from.letter)?;
                Self::Rolls(Box::new(gathered))
            }
            Subject::Script(sheet, asked) => {
                let asked = ScriptSheetsAsked {
                    letter: from.letter,
                    ..asked.clone()
                };
                let gathered = gather_script_sheets(production, &asked)?;
                Self::Script(Box::new(gathered), *sheet)
            }
            Subject::Titles(sheet, asked) => {
                let asked = TitleSheetsAsked {
                    letter: from.letter,
                    ..asked.clone()
                };
                let gathered = gather_title_sheets(production, &asked)?;
                Self::Titles(Box::new(gathered), *sheet)
            }
            Subject::Dub(cut, sheet, asked) => {
                let asked = DubSheetsAsked {
                    letter: from.letter,
                    ..asked.clone()
                };
                let gathered = gather_dub_sheets(production, cut, &asked)?;
                Self::Dub(Box::new(gathered), *sheet)
            }
        })
    }

    fn print(self, revision: u64) -> Result<Printed, ServerError> {
        Ok(match self {
            Self::Cut(mut gathered, sheet) => Printed {
                sheet: gathered.print_one(sheet)?,
                proved: gathered.is_proved(),
                without_pictures: gathered.without_pictures().to_vec(),
                revision,
            },
            Self::Changes(mut gathered) => Printed {
                sheet: gathered.print()?,
                proved: gathered.is_proved(),
                without_pictures: gathered.without_pictures().to_vec(),
                revision,
            },
            Self::Rolls(gathered) => Printed {
                sheet: gathered.print()?,
                proved: gathered.is_proved(),
                without_pictures: gathered.without_pictures().to_vec(),
                revision,
            },
            Self::Script(gathered, sheet) => Printed::of_plan(gathered.print_one(sheet)?, revision),
            Self::Titles(gathered, sheet) => Printed::of_plan(gathered.print_one(sheet)?, revision),
            Self::Dub(mut gathered, sheet) => {
                Printed::of_plan(gathered.print_one(sheet)?, revision)
            }
        })
    }
}
