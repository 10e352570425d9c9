//! Takes into rolls: none straddles a roll end, setups stay whole, on the fewest rolls,
//! then near the order of the script.

mod block_set;
mod fewest_moved;
mod fewest_rolls;
mod homes;
mod near_order;

use onestrand_film::Frames;

use fewest_moved::{Laid, fewest_moved, moved};

use crate::block::{self, Block, StockRules};
use crate::found::{PlanError, unless};

/// Steps of each search: so many that both together stay under a second where a step is
/// some fifty nanoseconds.
const STEPS: u64 = 8_000_000;

/// A setup, or a part of one too long for any roll, on its roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackedBlock {
    /// The setup as the slate says it.
    pub setup: String,
    /// Its takes that lie here.
    pub takes: u32,
    /// Their frames.
    pub frames: Frames,
    /// Whether it is shot out of the order of the script.
    pub moved: bool,
    /// Which part of the setup this is and of how many, where no roll holds it whole.
    pub part: Option<(usize, usize)>,
}

/// What is shot on one roll, in the order of the script.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PackedRoll {
    /// Its setups.
    pub blocks: Vec<PackedBlock>,
    /// Frames used by them.
    pub frames: Frames,
    /// Frames that may still be used; what is kept back is not counted.
    pub spare: Frames,
}

/// All takes on rolls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Packing {
    /// The rolls in the order they are loaded.
    pub rolls: Vec<PackedRoll>,
    /// Takes altogether.
    pub takes: u32,
    /// Frames altogether.
    pub frames: Frames,
    /// Blocks shot out of the order of the script: all of them minus the longest run in
    /// script order whose roll numbers never fall.
    pub moved: usize,
    /// No plan needs fewer rolls than this.
    pub rolls_at_least: usize,
    /// No plan on as many rolls moves fewer blocks than this.
    pub moved_at_least: usize,
}

impl Packing {
    /// Whether no plan has fewer rolls, proved.
    #[must_use]
    pub fn is_fewest_rolls(&self) -> bool {
        self.rolls.len() == self.rolls_at_least
    }

    /// Whether no plan on as many rolls moves fewer blocks, proved.
    #[must_use]
    pub const fn is_fewest_moved(&self) -> bool {
        self.moved == self.moved_at_least
    }

    /// Frames that may still be used over all rolls.
    #[must_use]
    pub fn spare(&self) -> Frames {
        Frames::total(self.rolls.iter().map(|roll| roll.spare))
    }
}

/// Lays the blocks on the fewest rolls, and among such plans on one that moves the
/// fewest blocks.
///
/// A setup that no roll holds whole is divided between takes into as few parts as its
/// takes in order allow, and each part is a block. Up to 25 blocks the plan is as a
/// rule proved best; [`Packing`] says whether it is, and by how much it may be off.
///
/// # Errors
/// [`PlanError::Problems`]: no setups, two of one name, setups without takes, takes
/// without length or longer than the load, nothing left of the load. All at once.
///
/// # Examples
/// ```
/// # use onestrand_film::Frames;
/// # use onestrand_plan::{Block, StockRules, pack};
/// let frames = |n| Frames::new(n).expect("in range");
/// let rules = StockRules::of_load(frames(3552));
/// let blocks = [Block::even("1", 2, frames(366)), Block::even("2", 2, frames(294))];
/// assert_eq!(pack(&blocks, &rules)?.rolls.len(), 1);
/// let refused = pack(&blocks, &StockRules::of_load(frames(300))).expect_err("too long");
/// assert_eq!(refused.problems().len(), 1);
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn pack(blocks: &[Block], rules: &StockRules) -> Result<Packing, PlanError> {
    unless(block::problems(blocks, rules), ())?;
    let parts = parts(blocks, rules.load);
    let sizes: Vec<u32> = parts.iter().map(|part| part.frames.count()).collect();
    let first = first_plan(&sizes, rules);
    let bound = first.bound;
    let mut room = vec![rules.load.count(); first.count];
    if let Some(last) = room.last_mut() {
        *last -= rules.kept_back.count();
    }
    let laid = near_script(&sizes, &room, first.rolls);
    Ok(packing(parts, &room, &laid, bound))
}

/// The fewest rolls, numbered by where in the script their blocks lie; what is kept
/// back lies on the last.
fn first_plan(sizes: &[u32], rules: &StockRules) -> FirstPlan {
    let back = sizes.len();
    let mut all = sizes.to_vec();
    all.extend((rules.kept_back != Frames::ZERO).then(|| rules.kept_back.count()));
    // A step looks at all blocks.
    let steps = STEPS * 25 / all.len().max(25) as u64;
    let packed = fewest_rolls::fewest_rolls(&all, rules.load.count(), steps);
    let mut bins = packed.bins;
    // The middle of a roll's blocks, doubled so as to stay whole; kept film goes last.
    bins.sort_by_key(|bin| {
        let sum: usize = bin.iter().filter(|at| **at != back).sum();
        (bin.contains(&back), sum * 1000 / bin.len().max(1))
    });
    let mut rolls = vec![0; sizes.len()];
    for (roll, bin) in bins.iter().enumerate() {
        for at in bin.iter().filter(|at| **at != back) {
            rolls[*at] = roll;
        }
    }
    FirstPlan {
        rolls,
        count: bins.len(),
        bound: packed.bound,
    }
}

struct FirstPlan {
    rolls: Vec<usize>,
    /// Rolls in use; the last may hold nothing but what is kept back.
    count: usize,
    /// No plan has fewer.
    bound: usize,
}

fn near_script(sizes: &[u32], room: &[u32], first: Vec<usize>) -> Laid {
    let mut laid = fewest_moved(sizes, room, first, STEPS);
    if laid.bound < moved(&laid.rolls) {
        near_order::go_downhill(sizes, room, &mut laid.rolls);
    }
    laid
}

/// What is laid as a whole: a setup, or a part of one too long for any roll.
fn parts(blocks: &[Block], load: Frames) -> Vec<PackedBlock> {
    blocks.iter().flat_map(|b| parts_of(b, load)).collect()
}

fn parts_of(block: &Block, load: Frames) -> Vec<PackedBlock> {
    let mut parts: Vec<PackedBlock> = Vec::new();
    for take in &block.takes {
        let more = parts.last().and_then(|part| part.frames.checked_add(*take));
        match (parts.last_mut(), more.filter(|sum| *sum <= load)) {
            (Some(part), Some(frames)) => {
                part.frames = frames;
                part.takes += 1;
            }
            _ => parts.push(PackedBlock {
                setup: block.setup.clone(),
                takes: 1,
                frames: *take,
                moved: false,
                part: None,
            }),
        }
    }
    let all = parts.len();
    if all > 1 {
        for (at, part) in parts.iter_mut().enumerate() {
            part.part = Some((at + 1, all));
        }
    }
    parts
}

fn packing(parts: Vec<PackedBlock>, room: &[u32], laid: &Laid, bound: usize) -> Packing {
    let kept = fewest_moved::kept(&laid.rolls);
    let mut rolls: Vec<PackedRoll> = room.iter().map(|room| empty_roll(*room)).collect();
    let takes = parts.iter().map(|part| part.takes).sum();
    let frames = Frames::total(parts.iter().map(|part| part.frames));
    for (at, mut part) in parts.into_iter().enumerate() {
        part.moved = kept.binary_search(&at).is_err();
        let roll = &mut rolls[laid.rolls[at]];
        roll.frames = Frames::total([roll.frames, part.frames]);
        roll.spare = roll.spare.saturating_sub(part.frames);
        roll.blocks.push(part);
    }
    Packing {
        takes,
        frames,
        moved: laid.rolls.len() - kept.len(),
        rolls_at_least: bound,
        moved_at_least: laid.bound,
        rolls,
    }
}

fn empty_roll(room: u32) -> PackedRoll {
    PackedRoll {
        blocks: Vec::new(),
        frames: Frames::ZERO,
        // A room is a part of a load, which is a count of frames.
        spare: Frames::new(room).unwrap_or(Frames::MAX),
    }
}
