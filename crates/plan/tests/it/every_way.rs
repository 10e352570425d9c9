//! The packing against every way to lay blocks on rolls, and against what a clock-free
//! search proves on films of an evening.

use onestrand_film::Frames;
use onestrand_plan::{Block, Packing, StockRules, pack};

/// A small stream of numbers that is the same on every machine (an xorshift of
/// Marsaglia 2003).
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, limit: u32) -> u32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        u32::try_from((self.0 >> 16) % u64::from(limit)).expect("below the limit")
    }
}

fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

fn blocks(sizes: &[u32]) -> Vec<Block> {
    let named = sizes.iter().enumerate();
    named
        .map(|(at, size)| Block::even(&format!("{at}"), 1, frames(*size)))
        .collect()
}

/// Blocks minus the longest run that never falls, by looking at every subset.
fn moved_by_subsets(rolls: &[usize]) -> usize {
    let best = (0_u32..1 << rolls.len())
        .filter(|set| {
            let run: Vec<usize> = (0..rolls.len())
                .filter(|at| set >> at & 1 == 1)
                .map(|at| rolls[at])
                .collect();
            run.windows(2).all(|two| two[0] <= two[1])
        })
        .map(u32::count_ones)
        .max()
        .unwrap_or(0);
    rolls.len() - best as usize
}

/// The fewest rolls and the fewest moved on them, by trying every roll for every block.
fn by_every_way(sizes: &[u32], load: u32, kept_back: u32) -> (usize, usize) {
    for count in 1..=sizes.len() + 1 {
        let mut best: Option<usize> = None;
        let ways = count.pow(u32::try_from(sizes.len()).expect("few"));
        for way in 0..ways {
            let mut code = way;
            let rolls: Vec<usize> = sizes
                .iter()
                .map(|_| {
                    let roll = code % count;
                    code /= count;
                    roll
                })
                .collect();
            let fits = (0..count).all(|roll| {
                let held: u32 = sizes
                    .iter()
                    .zip(&rolls)
                    .filter(|(_, r)| **r == roll)
                    .map(|(s, _)| s)
                    .sum();
                let room = if roll + 1 == count {
                    load - kept_back
                } else {
                    load
                };
                held <= room
            });
            if fits {
                let moved = moved_by_subsets(&rolls);
                best = Some(best.map_or(moved, |b| b.min(moved)));
            }
        }
        if let Some(moved) = best {
            return (count, moved);
        }
    }
    unreachable!("each block fits a roll of its own, and one is left for what is kept back")
}

/// A plan keeps its own promises.
fn is_sound(plan: &Packing, sizes: &[u32], load: u32, kept_back: u32) {
    let mut rolls = vec![usize::MAX; sizes.len()];
    for (number, roll) in plan.rolls.iter().enumerate() {
        let last = number + 1 == plan.rolls.len();
        let room = if last { load - kept_back } else { load };
        assert!(roll.frames.count() <= room);
        assert_eq!(roll.frames.count() + roll.spare.count(), room);
        for block in &roll.blocks {
            let at: usize = block.setup.parse().expect("a number");
            assert_eq!(block.frames.count(), sizes[at]);
            assert_eq!(rolls[at], usize::MAX, "laid twice");
            rolls[at] = number;
        }
    }
    assert!(rolls.iter().all(|roll| *roll != usize::MAX), "all are laid");
    assert!(plan.rolls_at_least <= plan.rolls.len() && plan.moved_at_least <= plan.moved);
    if sizes.len() <= 12 {
        assert_eq!(moved_by_subsets(&rolls), plan.moved);
    }
}

#[test]
fn small_films_are_laid_as_well_as_can_be() {
    let mut numbers = Numbers(0x9E37_79B9_7F4A_7C15);
    let mut moved = [0_usize; 8];
    for case in 0..4000 {
        let count = 1 + numbers.below(if case % 8 == 0 { 7 } else { 6 }) as usize;
        let load = 10 + numbers.below(40);
        let sizes: Vec<u32> = (0..count)
            .map(|_| 1 + numbers.below(load * 2 / 3))
            .collect();
        let kept_back = if case % 3 == 0 {
            numbers.below(load / 2)
        } else {
            0
        };
        let rules = StockRules {
            kept_back: frames(kept_back),
            ..StockRules::of_load(frames(load))
        };
        let plan = pack(&blocks(&sizes), &rules).expect("sound blocks");
        is_sound(&plan, &sizes, load, kept_back);
        let best = by_every_way(&sizes, load, kept_back);
        assert_eq!(
            (plan.rolls.len(), plan.moved),
            best,
            "{sizes:?} on {load}, {kept_back} back"
        );
        assert!(plan.is_fewest_rolls() && plan.is_fewest_moved());
        moved[plan.moved] += 1;
    }
    assert!(
        moved[1] > 100 && moved[2] > 20,
        "the cases ask something: {moved:?}"
    );
}

/// Setups of 5 to 40 seconds at 18 with run-up, one to three takes each, as many as
/// `count`: an evening's film, on cartridges of 3,552 frames.
fn evening(numbers: &mut Numbers, count: usize) -> Vec<u32> {
    let mut size = || (1 + numbers.below(3)) * ((5 + numbers.below(36)) * 18 + 24);
    (0..count).map(|_| size()).collect()
}

#[test]
fn films_of_an_evening_are_proved() {
    let mut numbers = Numbers(0x2545_F491_4F6C_DD1D);
    let (mut tight, mut unproved) = (0, 0);
    for case in 0..300 {
        let sizes = evening(&mut numbers, 12 + case % 14);
        let plan = pack(&blocks(&sizes), &StockRules::of_load(frames(3552))).expect("sound");
        is_sound(&plan, &sizes, 3552, 0);
        assert!(plan.is_fewest_rolls(), "{case}: {sizes:?}");
        unproved += usize::from(!plan.is_fewest_moved());
        tight += usize::from(plan.spare().count() < 355);
    }
    // One of them, 25 blocks on eight rolls of which 216 frames stay empty in all, takes
    // more steps than a plan may have, and says so.
    assert!(unproved <= 1, "{unproved} were not proved");
    assert!(
        tight > 20,
        "some leave less than a tenth of a roll: {tight}"
    );
}

#[test]
fn a_long_film_is_laid_well_with_its_bound() {
    let mut numbers = Numbers(0x1234_5678_9ABC_DEF1);
    let sizes = evening(&mut numbers, 200);
    let plan = pack(&blocks(&sizes), &StockRules::of_load(frames(3552))).expect("sound");
    is_sound(&plan, &sizes, 3552, 0);
    assert!(
        plan.is_fewest_rolls(),
        "49 rolls, all but 58 frames of each used"
    );
    // Found: 41 of 200 moved, where 11 are proved needful. Nothing says that 41 is best.
    assert!(
        plan.moved <= 45 && !plan.is_fewest_moved(),
        "{} moved",
        plan.moved
    );
}

#[test]
fn rolls_that_are_all_but_full_are_proved_as_a_rule() {
    let mut numbers = Numbers(0x77);
    let mut unproved = 0;
    for case in 0..200 {
        let sizes = evening(&mut numbers, 18 + case % 8);
        let sum: u32 = sizes.iter().sum();
        let load = (sum + numbers.below(400)).div_ceil(3 + u32::try_from(case % 5).expect("few"));
        if sizes.iter().all(|size| *size <= load) {
            let plan = pack(&blocks(&sizes), &StockRules::of_load(frames(load))).expect("sound");
            is_sound(&plan, &sizes, load, 0);
            unproved += usize::from(!(plan.is_fewest_rolls() && plan.is_fewest_moved()));
        }
    }
    // Of 1,975 such films 18 were not proved, all on six or seven rolls.
    assert!(unproved <= 4, "{unproved} of 200 were not proved");
}
