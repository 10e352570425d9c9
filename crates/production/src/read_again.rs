//! A roll's scan read anew, without the page.

use onestrand_intake::Cancel;
use onestrand_store::{Production, Workprints};
use serde::Serialize;

use crate::film_view::not_kept;
use crate::{LostWorkprint, ProductionError, Progress};

/// The answer of `roll again`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReadAgain {
    /// The roll.
    pub roll: String,
    /// Whether its scan was read; otherwise all that is kept of it was there.
    pub read: bool,
    /// What had not been kept: `pictures`, `transfer`, `breaks` or `signs`.
    pub lacked: Vec<String>,
}

/// Reads the scan of a roll again where its pictures have been thrown away, or
/// where an older program did not keep all that this one does. What was decided
/// about the roll stays.
///
/// # Errors
/// [`ProductionError::ScanChanged`] when the scan is not what was read,
/// [`ProductionError::Store`] when there is no such roll,
/// [`ProductionError::Intake`].
pub fn read_again(
    production: &Production,
    roll: &str,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ReadAgain, ProductionError> {
    let lost = LostWorkprint::or_older(production, roll)?;
    let prints = Workprints::open(production.dir())?;
    let lacked = match (&lost, prints.info(roll)?) {
        (Some(_), None) => vec!["pictures".to_owned()],
        (Some(_), Some(_)) => not_kept(&prints, roll)?,
        (None, _) => Vec::new(),
    };
    if let Some(lost) = &lost {
        progress.note(&format!("the scan of {roll} is read again"));
        lost.make_again(cancel, progress)?;
    }
    Ok(ReadAgain {
        roll: roll.to_owned(),
        read: lost.is_some(),
        lacked,
    })
}
