//! Takes as they are named when two are laid beside each other.

use onestrand_film::FrameRange;
use onestrand_store::{Production, TakeRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::MatchedTake;
use crate::error::unfit;

/// A take by its roll and first frame.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize, ToSchema)]
pub struct TakePlace {
    /// Its roll.
    pub roll: String,
    /// Its first frame.
    #[serde(rename = "in")]
    pub first: u32,
}

/// The take that begins there.
///
/// # Errors
/// [`ProductionError::Unfit`] when none does; [`ProductionError::Store`].
pub(super) fn take_at(
    production: &Production,
    place: &TakePlace,
) -> Result<TakeRecord, ProductionError> {
    let found = production
        .takes_of(&place.roll)?
        .into_iter()
        .find(|take| take.first == place.first);
    found.ok_or_else(|| {
        unfit(
            format!("no take begins at {}·{}", place.roll, place.first),
            "look at the roll once more; another window may have changed it",
        )
    })
}

/// The take that holds a frame.
pub(super) fn holding<'a>(
    takes: &'a [TakeRecord],
    roll: &str,
    frame: u32,
) -> Option<&'a TakeRecord> {
    takes
        .iter()
        .find(|take| take.roll == roll && (take.first..take.thrown).contains(&frame))
}

pub(super) fn range(take: &TakeRecord) -> Result<FrameRange, ProductionError> {
    Ok(FrameRange::of(take.first, take.thrown)?)
}

/// `3-T2`, where it has a slate.
pub(super) fn slate(take: &TakeRecord) -> Option<String> {
    let slate = take.setup.as_deref().zip(take.take);
    slate.map(|(setup, number)| format!("{setup}-T{number}"))
}

pub(super) fn told(take: &TakeRecord) -> MatchedTake {
    MatchedTake {
        roll: take.roll.clone(),
        first: take.first,
        thrown: take.thrown,
        slate: slate(take),
    }
}
