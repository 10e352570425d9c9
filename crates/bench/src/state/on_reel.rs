//! What is on the take-up reel, seen as the version has it.

use super::version::Version;
use super::{BenchState, Film, Part};

/// Where the film of a part ends on its roll.
pub(super) fn end_of(part: &Part) -> u32 {
    match &part.film {
        Film::Roll { end, .. } => *end,
        Film::Other { .. } => u32::MAX,
    }
}

/// The links of the reel as parts of a version.
pub(super) fn on_the_reel(state: &BenchState, version: &Version<'_>) -> Vec<Part> {
    let links = state.reel().iter();
    links
        .map(|link| Part {
            strip: version.strip_of(&link.film),
            film: link.film.clone(),
            laid: link.laid,
            on_the_reel: true,
        })
        .collect()
}

/// The last tail has still to be joined: what its join will eat is not seen.
pub(super) fn shorten(part: &mut Part, eaten: u32) {
    if let Film::Roll { begin, end, .. } = &mut part.film {
        let eaten = eaten.min(*end - *begin);
        match part.laid.is_tail_first() {
            true => *begin += eaten,
            false => *end -= eaten,
        }
    }
}
