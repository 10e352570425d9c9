//! What the blocks ahead must still move, whatever the plan: they lie on the rolls left
//! as homes, runs of the script, of which some are too full and some too empty.

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
        let table = |last: Vec<u16>, cost: &dyn Fn(usize, usize, i64) -> u16| {
            let mut rows = vec![last];
            for room in room.iter().rev() {
                let later = rows.last().expect("there is a row");
                let from = |from: usize| {
                    let all =
                        (from..=sizes.len()).map(|to| later[to] + cost(from, to, i64::from(*room)));
                    all.min().unwrap_or(NEVER)
                };
                rows.push((0..=sizes.len()).map(from).collect());
            }
            rows
        };
        let held = |from: usize, to: usize| -> i64 {
            let home = sizes.get(from..to).unwrap_or(&[]);
            home.iter().map(|s| i64::from(*s)).sum()
        };
        let leave =
            |from: usize, to: usize, room: i64| must_leave(&sizes[from..to], held(from, to) - room);
        let come = |from: usize, to: usize, room: i64| {
            let wanted = (room - waste - held(from, to)).max(0);
            u16::try_from((wanted + largest - 1) / largest).unwrap_or(NEVER)
        };
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

/// The fewest blocks of a home that weigh at least `over` together.
fn must_leave(home: &[u32], mut over: i64) -> u16 {
    if over <= 0 {
        return 0;
    }
    let mut sizes = home.to_vec();
    sizes.sort_unstable_by(|a, b| b.cmp(a));
    let mut count = 0;
    for size in sizes {
        if over <= 0 {
            break;
        }
        over -= i64::from(size);
        count += 1;
    }
    count
}
