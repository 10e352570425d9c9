//! Every way of doing the work there is, act by act: no table, no bound, no
//! order left out. Only for small cuts.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_bench::{Extent, Winding};

/// Changes, frames wound, pins.
pub(crate) type Figures = (usize, u64, usize);

#[derive(Debug, Clone)]
struct Bench {
    /// Extents still on each roll, by begin: (begin, end, place in the cut).
    rolls: Vec<Vec<(u32, u32, usize)>>,
    lengths: Vec<u32>,
    /// Where each roll stands; none while it was never mounted.
    stands: Vec<Option<u32>>,
    /// With tails: whether it is worked from there.
    from_tail: Vec<bool>,
    mounted: Option<usize>,
    mountings: usize,
    wound: u64,
    reel: usize,
    hanging: BTreeSet<usize>,
    pins: usize,
}

/// The figures of every plan.
pub(crate) fn figures(
    extents: &[Extent],
    lengths: &BTreeMap<String, u32>,
    winding: Winding,
) -> BTreeSet<Figures> {
    let names: BTreeSet<String> = extents.iter().map(|e| e.roll.to_string()).collect();
    let mut rolls = vec![Vec::new(); names.len()];
    for (place, extent) in extents.iter().enumerate() {
        let name = extent.roll.to_string();
        let r = names.iter().position(|n| *n == name).expect("listed");
        let (begin, end) = (extent.taken.begin().index(), extent.taken.end().index());
        rolls[r].push((begin, end, place));
    }
    for roll in &mut rolls {
        roll.sort_unstable();
    }
    let bench = Bench {
        lengths: names.iter().map(|n| lengths[n]).collect(),
        stands: vec![None; rolls.len()],
        from_tail: vec![false; rolls.len()],
        rolls,
        mounted: None,
        mountings: 0,
        wound: 0,
        reel: 0,
        hanging: BTreeSet::new(),
        pins: 0,
    };
    let mut found = BTreeSet::new();
    go_on(bench, winding, &mut found);
    found
}

fn go_on(bench: Bench, winding: Winding, found: &mut BTreeSet<Figures>) {
    if bench.rolls.iter().all(Vec::is_empty) {
        assert!(bench.hanging.is_empty());
        found.insert((bench.mountings - 1, bench.wound, bench.pins));
        return;
    }
    for roll in 0..bench.rolls.len() {
        if bench.rolls[roll].is_empty() {
            continue;
        }
        let mut on = bench.clone();
        if on.mounted != Some(roll) {
            on.mounted = Some(roll);
            on.mountings += 1;
        }
        match (winding, on.stands[roll]) {
            (Winding::Tails, None) => {
                let mut through = on.clone();
                let length = through.lengths[roll];
                through.wind(roll, 0);
                through.wind(roll, length);
                through.from_tail[roll] = true;
                through.take_each(roll, winding, found);
                on.wind(roll, 0);
                on.take_each(roll, winding, found);
            }
            _ => on.take_each(roll, winding, found),
        }
    }
}

impl Bench {
    fn wind(&mut self, roll: usize, to: u32) {
        let at = self.stands[roll].unwrap_or(0);
        self.wound += u64::from(at.max(to) - at.min(to));
        self.stands[roll] = Some(to);
    }

    fn take_each(&self, roll: usize, winding: Winding, found: &mut BTreeSet<Figures>) {
        for index in 0..self.rolls[roll].len() {
            for backward in [false, true] {
                let mut on = self.clone();
                let (begin, end, place) = on.rolls[roll].remove(index);
                let (near, far) = if backward { (end, begin) } else { (begin, end) };
                // What one pass forbids: to wind the other way, and so to leave
                // anything behind.
                let at = on.stands[roll].unwrap_or(0);
                let left = &on.rolls[roll];
                let allowed = match (winding, on.from_tail[roll]) {
                    (Winding::ToAndFro, _) => true,
                    (_, true) => backward && near <= at && left.iter().all(|s| s.0 < begin),
                    (_, false) => !backward && near >= at && left.iter().all(|s| s.0 > begin),
                };
                if !allowed {
                    continue;
                }
                on.wind(roll, near);
                on.wind(roll, far);
                if on.reel == place {
                    on.reel += 1;
                } else {
                    on.hanging.insert(place);
                    on.pins = on.pins.max(on.hanging.len());
                }
                while on.hanging.remove(&on.reel) {
                    on.reel += 1;
                }
                go_on(on, winding, found);
            }
        }
    }
}
