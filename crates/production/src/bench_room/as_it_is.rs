//! The strip of a version as it is on the bench, for whoever shows it.

use onestrand_bench::{AsMade, Film, Laid};
use onestrand_cut::TrialCut;
use onestrand_store::Production;

use super::room::Room;
use crate::ProductionError;

/// A version as it was begun, and its film from head to tail.
pub(crate) type AsItIs = (TrialCut, Vec<(Film, Laid)>);

/// The version as it was begun, and its film from head to tail: what is on the reel, then
/// what comes; none where this version is not the one on the bench.
pub(crate) fn strip_as_it_is(
    production: &Production,
    cut: &str,
) -> Result<Option<AsItIs>, ProductionError> {
    let room = Room::of(production)?;
    let Some(work) = room.work.as_ref().filter(|work| work.name == cut) else {
        return Ok(None);
    };
    let table = room.log.table();
    let seen = work.seen_from(room.log.state(), table);
    let parts = AsMade::of(&seen, &work.strips, table).parts;
    let film = parts.into_iter().map(|part| (part.film, part.laid));
    Ok(Some((work.version.clone(), film.collect())))
}
