//! The archive box: a film with all that belongs to it, for the day when nobody who made
//! it is there to be asked.

mod accession;
mod accession_paper;
mod actions;
mod box_plan;
mod check_box;
mod core_terms;
mod find_again;
mod open_box;
mod open_text;
mod papers;
mod read_me;
mod scans;
mod words;
mod write_box;

pub use accession::{SayAccession, accession_document};
pub use box_plan::{BoxAsked, BoxPlan};
pub use check_box::check_box;
pub use open_box::open_box;
pub use words::{box_checked_words, box_words, unboxed_words};

pub(crate) use accession::SETTING as ACCESSION;
pub(crate) use find_again::{files_in, scan_among};

use std::path::Path;

use onestrand_archive::ArchiveError;
use onestrand_intake::Cancel;
use onestrand_store::Production;

use crate::documents::BoxDocument;
use crate::{ProductionError, Progress};

/// Where the production lies in the payload: a folder that opens as it is.
const PRODUCTION: &str = "production";
/// Where the list of scans lies in the payload.
const SCANS: &str = "scans.json";
/// Signs that readers of manifests disagree on.
const HARD_SIGNS: [char; 3] = ['%', '\n', '\r'];

/// Makes an archive box of a film.
///
/// # Errors
/// [`ProductionError::Unfit`] for scans that are not found, all named;
/// [`ProductionError::ScanChanged`], [`ProductionError::Archive`] and others: nothing of a
/// box is left then.
pub fn make_box(
    production: &Production,
    asked: &BoxAsked,
    out: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<BoxDocument, ProductionError> {
    let rolls = production.rolls()?;
    let rolls = rolls
        .iter()
        .map(|roll| onestrand_film::RollId::new(&roll.name));
    let rolls = rolls.collect::<Result<Vec<_>, _>>()?;
    if asked.sheets {
        let with_scans: Vec<_> = rolls
            .into_iter()
            .filter(|roll| !scans::is_lost(production, roll.as_str()))
            .collect();
        crate::workprint::ready_workprints(production, &with_scans, cancel, progress)?;
    }
    BoxPlan::gather(production, asked, cancel, progress)?.write(out, cancel, progress)
}

/// Bytes done told to whoever waits; stops when the user does.
fn telling<'a>(progress: &'a mut dyn Progress, cancel: &'a Cancel) -> impl FnMut(u64) -> bool + 'a {
    move |bytes| {
        progress.at(bytes);
        !cancel.is_cancelled()
    }
}

fn stopped_if(cancel: &Cancel) -> Result<(), ProductionError> {
    match cancel.is_cancelled() {
        true => Err(ArchiveError::Stopped.into()),
        false => Ok(()),
    }
}
