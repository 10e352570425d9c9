//! What the blocks ahead must still move, whatever the plan: they lie on the rolls left
//! as homes, runs of the script, of which some are too full and some too empty.

use std::collections::BTreeMap;

/// For each block and each count of rolls left, the fewest blocks that must leave their
/// home, and the fewest that must come to one, from this block on.
#[derive(Debug)]
pub(super) struct Homes {
    leave: Vec<Vec<u16>>,
    come: Vec<Vec<u16>>,
}

/// More than any film has blocks.
const NEVER: u16 = 10_000;

impl Homes {
    /// `waste` are the frames that stay empty over all rolls.
    pub(super) fn new(sizes: &[u32], room: &[u32], waste: i64) -> Self {
        let largest = sizes.iter().max().map_or(1, |s| i64::from(*s));
        let spans = Spans::new(sizes);
        // Rolls differ in room by the film kept back at most.
        let mut costs: BTreeMap<u32, (RunCosts, RunCosts)> = BTreeMap::new();
        for room in room {
            costs.entry(*room).or_insert_with(|| {
                let room = i64::from(*room);
                let come = |held: i64| {
                    let wanted = (room - waste - held).max(0);
                    u16::try_from((wanted + largest - 1) / largest).unwrap_or(NEVER)
                };
                (spans.leave(room), spans.of_held(come))
            });
        }
        let table = |last: Vec<u16>, cost: &dyn Fn(u32, usize, usize) -> u16| {
            let mut rows = vec![last];
            for room in room.iter().rev() {
                let later = rows.last().expect("there is a row");
                let from = |from: usize| {
                    let all = (from..=sizes.len()).map(|to| later[to] + cost(*room, from, to));
                    all.min().unwrap_or(NEVER)
                };
                rows.push((0..=sizes.len()).map(from).collect());
            }
            rows
        };
        let leave = |room: u32, from: usize, to: usize| costs[&room].0[from][to - from];
        let come = |room: u32, from: usize, to: usize| costs[&room].1[from][to - from];
        // Without a roll left, all that is ahead has to lie elsewhere.
        let ahead = |from| u16::try_from(sizes.len() - from).unwrap_or(NEVER);
        Self {
            leave: table((0..=sizes.len()).map(ahead).collect(), &leave),
            come: table(vec![0; sizes.len() + 1], &come),
        }
    }

    /// The fewest moves still to come with so many rolls left, from block `front` on, of
    /// which `gone` lie on a roll already, while `behind` moved blocks wait for one.
    pub(super) fn moves(&self, rolls: usize, front: usize, gone: usize, behind: usize) -> usize {
        let leave = usize::from(self.leave[rolls][front]).saturating_sub(gone);
        let come = usize::from(self.come[rolls][front]).saturating_sub(behind);
        leave.max(come)
    }
}

/// A number for each run of the script, by where it begins and how many blocks it has.
type RunCosts = Vec<Vec<u16>>;

/// All runs of the script, by where they begin and how many blocks they have.
struct Spans<'s> {
    sizes: &'s [u32],
}

impl<'s> Spans<'s> {
    const fn new(sizes: &'s [u32]) -> Self {
        Self { sizes }
    }

    /// For each run, something that goes by the frames it holds.
    fn of_held(&self, cost: impl Fn(i64) -> u16) -> RunCosts {
        let from = |from: usize| {
            let mut held = 0;
            let mut row = vec![cost(0)];
            for size in &self.sizes[from..] {
                held += i64::from(*size);
                row.push(cost(held));
            }
            row
        };
        (0..=self.sizes.len()).map(from).collect()
    }

    /// For each run, the fewest blocks that must leave it so that the rest has room.
    fn leave(&self, room: i64) -> RunCosts {
        let from = |from: usize| {
            // Largest first, as far as the run has been looked at.
            let (mut sorted, mut held): (Vec<u32>, i64) = (Vec::new(), 0);
            let mut row = vec![0];
            for size in &self.sizes[from..] {
                held += i64::from(*size);
                let place = sorted.partition_point(|other| other >= size);
                sorted.insert(place, *size);
                row.push(count_to(&sorted, held - room));
            }
            row
        };
        (0..=self.sizes.len()).map(from).collect()
    }
}

/// How many of the largest weigh at least `over` together.
fn count_to(sorted: &[u32], mut over: i64) -> u16 {
    let mut count = 0;
    for size in sorted {
        if over <= 0 {
            break;
        }
        over -= i64::from(*size);
        count += 1;
    }
    count
}
