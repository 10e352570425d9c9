//! How long the acts take at this bench, by the clock of its log.

use onestrand_bench::{Deed, Entry, LearnedTimes, Tick, TickKind};
use onestrand_film::Gauge;

use super::room::Room;

/// What the lines of the version on the bench say, those struck out left aside.
pub(super) fn times(room: &Room, gauge: Gauge) -> LearnedTimes {
    let mut before: Option<f64> = None;
    let mut ticks = Vec::new();
    let mut stood = std::collections::BTreeMap::new();
    for written in room.since_begun() {
        let Some(at) = seconds(&written.at) else {
            continue;
        };
        let since = before.replace(at).map(|b| at - b);
        let entry = written.entry.and_then(|e| room.log.entries().get(e));
        let (Some(Entry::Deed(deed)), Some(since), None) = (entry, since, written.struck_by) else {
            continue;
        };
        ticks.push(Tick {
            seconds: since,
            kind: TickKind::of(deed),
            wound: wound(deed, &mut stood),
        });
    }
    LearnedTimes::of(&ticks, gauge)
}

/// Frames wound for a deed, by where its roll stood.
fn wound(deed: &Deed, stood: &mut std::collections::BTreeMap<String, u32>) -> u64 {
    let (roll, to) = match deed {
        Deed::Cut { roll, before: to } | Deed::Wind { roll, to } => (roll, to.index()),
        _ => return 0,
    };
    let from = stood.insert(roll.to_string(), to).unwrap_or(0);
    u64::from(from.abs_diff(to))
}

fn seconds(at: &str) -> Option<f64> {
    let time: jiff::Timestamp = at.parse().ok()?;
    Some(time.as_millisecond() as f64 / 1000.0)
}
