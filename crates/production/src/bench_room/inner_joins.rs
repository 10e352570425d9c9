//! Joins inside lengths that hang or lie on the bench.

use onestrand_bench::{BenchState, Film, Length, Link, Place};
use onestrand_film::FrameName;

use super::words::frame;
use crate::documents::InnerJoinDocument;

/// All of them, pin by pin: of what is on the reel or still with its roll none.
pub(super) fn inner_joins(state: &BenchState) -> Vec<InnerJoinDocument> {
    let mut loose: Vec<(&Length, String)> = Vec::new();
    for length in state.lengths() {
        let place = match &length.place {
            Place::Pin(pin) => format!("pin {pin}"),
            Place::Bench => "loose on the bench".to_owned(),
            Place::Made => "on the made film, turned back".to_owned(),
            _ => continue,
        };
        loose.push((length, place));
    }
    loose.sort_by(|a, b| a.0.place.cmp(&b.0.place));
    loose
        .iter()
        .flat_map(|(length, place)| of_length(length, place))
        .collect()
}

fn of_length(length: &Length, place: &str) -> Vec<InnerJoinDocument> {
    let first = |link: &Link| link.film.first_seen(link.laid);
    let Some(named) = length.links.iter().find_map(first) else {
        return Vec::new();
    };
    let pairs = (1..).zip(length.links.windows(2));
    let one = |(join, pair): (usize, &[Link])| {
        let [before, behind] = pair else { return None };
        Some(InnerJoinDocument {
            place: place.to_owned(),
            roll: named.roll.to_string(),
            frame: named.frame.index(),
            join,
            words: format!(
                "{} | {}",
                side(before, before.film.last_seen(before.laid)),
                side(behind, first(behind))
            ),
            kind: behind.join?.kind.word().to_owned(),
        })
    };
    pairs.filter_map(one).collect()
}

fn side(link: &Link, name: Option<FrameName>) -> String {
    match (&link.film, name) {
        (Film::Other { position, .. }, _) => format!("shot {position}"),
        (_, Some(name)) => frame(&name.roll, name.frame.index()),
        (_, None) => "leader".to_owned(),
    }
}
