//! On a given number of rolls, the fewest setups out of the order of the script.
//!
//! Rolls are filled one after another. What matters of the rolls filled so far is which
//! blocks they hold and how far along the script the kept run has come (the *front*):
//! of two ways to the same, the one with fewer moves is enough. A block behind the front
//! that is not in the run is moved, wherever it lies or will lie; so is one before the
//! front that lies on a roll already. Since at most W frames of all rolls stay empty,
//! k full rolls hold at least k loads less W. Ways are followed with at most m moves,
//! m growing from 0, so the first plan found has the fewest.

use std::collections::HashMap;
use std::hash::BuildHasherDefault;

use super::block_set::{BlockSet, Mixing};
use super::homes::Homes;

/// A roll for each block, and how few moves could do.
#[derive(Debug)]
pub(super) struct Laid {
    /// The roll of each block.
    pub(super) rolls: Vec<usize>,
    /// No plan on as many rolls moves fewer blocks than this.
    pub(super) bound: usize,
}

/// Blocks minus the longest run in script order whose roll numbers never fall.
pub(super) fn moved(rolls: &[usize]) -> usize {
    rolls.len() - kept(rolls).len()
}

/// The places of a longest run whose roll numbers never fall.
pub(super) fn kept(rolls: &[usize]) -> Vec<usize> {
    let mut best: Vec<(usize, Option<usize>)> = Vec::new();
    for (at, roll) in rolls.iter().enumerate() {
        let before = (0..at).filter(|b| rolls[*b] <= *roll);
        let link = before.max_by_key(|b| (best[*b].0, std::cmp::Reverse(*b)));
        best.push((link.map_or(1, |b| best[b].0 + 1), link));
    }
    let mut run = Vec::new();
    let mut at = (0..rolls.len()).max_by_key(|a| (best[*a].0, std::cmp::Reverse(*a)));
    while let Some(here) = at {
        run.push(here);
        at = best[here].1;
    }
    run.reverse();
    run
}

/// Blocks up to which all ways are followed; of more, only the most hopeful are.
const ALL_WAYS: usize = 32;
/// Ways followed from roll to roll where there are too many for all.
const HOPEFUL: usize = 300;
/// How far beyond the front blocks are looked for then.
const REACH: usize = 14;
/// How many moved blocks may wait for a later roll then.
const WAITING: usize = 8;
/// How early frames may be wasted, in parts of a hundred of an even share: who wastes
/// little early has more freedom at the end. Each is tried.
const THRIFT: [i64; 4] = [100, 80, 60, 30];

/// Betters a plan that fits. `room` is what each roll can hold.
pub(super) fn fewest_moved(sizes: &[u32], room: &[u32], first: Vec<usize>, budget: u64) -> Laid {
    let mut laid = Laid {
        rolls: first,
        bound: 0,
    };
    if sizes.len() > BlockSet::MOST {
        return laid;
    }
    let homes = Homes::new(sizes, room, waste(sizes, room));
    laid.bound = homes.moves(room.len(), 0, 0, 0);
    let mut left = if sizes.len() <= ALL_WAYS { budget } else { 0 };
    while laid.bound < moved(&laid.rolls) && left > 0 {
        let mut search = Search::new((sizes, room), &homes, laid.bound, left);
        match search.run() {
            Some(found) => laid.rolls = found,
            None if search.steps == 0 => break,
            None => laid.bound += 1,
        }
        left = search.steps;
    }
    for thrift in THRIFT {
        let most = moved(&laid.rolls);
        if laid.bound >= most {
            break;
        }
        let mut search = Search::new((sizes, room), &homes, most - 1, HOPEFUL_STEPS);
        search.most = Most::hopeful(thrift);
        if let Some(found) = search.run() {
            laid.rolls = found;
        }
    }
    laid
}

/// Steps of a search that follows the hopeful ways only.
const HOPEFUL_STEPS: u64 = 1_500_000;

/// What a search goes no further than.
#[derive(Debug, Clone, Copy)]
struct Most {
    ways: usize,
    reach: usize,
    waiting: usize,
    thrift: Option<i64>,
}

impl Most {
    const ALL: Self = Self {
        ways: usize::MAX,
        reach: usize::MAX,
        waiting: usize::MAX,
        thrift: None,
    };

    const fn hopeful(thrift: i64) -> Self {
        Self {
            ways: HOPEFUL,
            reach: REACH,
            waiting: WAITING,
            thrift: Some(thrift),
        }
    }
}

fn waste(sizes: &[u32], room: &[u32]) -> i64 {
    let sum = |all: &[u32]| all.iter().map(|s| i64::from(*s)).sum::<i64>();
    sum(room) - sum(sizes)
}

/// One way to fill the rolls so far.
#[derive(Debug, Clone, Copy)]
struct Way {
    held: BlockSet,
    /// The first block of the script that is not behind the front.
    front: u16,
    moves: u16,
    /// Frames held.
    frames: i64,
    /// The way it went on from, on the roll before.
    from: u32,
}

struct Search<'s> {
    sizes: &'s [u32],
    room: &'s [u32],
    /// Frames that stay empty over all rolls, whatever the plan.
    waste: i64,
    largest: i64,
    moves: usize,
    homes: &'s Homes,
    /// Rolls still empty after the one being filled.
    rolls_left: usize,
    most: Most,
    /// Blocks from here on are too far ahead for the roll being filled.
    end: usize,
    steps: u64,
    next: Vec<Way>,
    known: HashMap<(BlockSet, u16), u32, BuildHasherDefault<Mixing>>,
}

/// The roll being filled.
#[derive(Clone, Copy)]
struct Filling {
    way: Way,
    /// Frames that still fit.
    left: i64,
    /// Frames that must still come.
    wanted: i64,
}

impl Filling {
    fn with(mut self, at: usize, size: i64) -> Self {
        self.way.held.insert(at);
        self.way.frames += size;
        self.left -= size;
        self.wanted -= size;
        self
    }

    fn moving(mut self) -> Self {
        self.way.moves += 1;
        self
    }
}

impl<'s> Search<'s> {
    fn new(
        (sizes, room): (&'s [u32], &'s [u32]),
        homes: &'s Homes,
        moves: usize,
        steps: u64,
    ) -> Self {
        Self {
            sizes,
            room,
            waste: waste(sizes, room),
            homes,
            rolls_left: room.len(),
            largest: sizes.iter().max().map_or(0, |s| i64::from(*s)),
            moves,
            most: Most::ALL,
            end: sizes.len(),
            steps,
            next: Vec::new(),
            known: HashMap::default(),
        }
    }

    /// A plan with at most so many moves; nothing if there is none, or if the steps
    /// came to an end.
    fn run(&mut self) -> Option<Vec<usize>> {
        let start = Way {
            held: BlockSet::EMPTY,
            front: 0,
            moves: 0,
            frames: 0,
            from: 0,
        };
        let mut levels = vec![vec![start]];
        let mut full = 0;
        let budget = self.steps;
        for (roll, room) in self.room.iter().enumerate() {
            full += i64::from(*room);
            self.rolls_left -= 1;
            if self.most.thrift.is_some() {
                self.steps = budget / self.room.len() as u64;
            }
            let floor = full - self.waste_until(roll);
            let before = levels.last().expect("there is a beginning").clone();
            for (from, way) in before.iter().enumerate() {
                self.fill_from(way, from, i64::from(*room), floor);
            }
            self.known.clear();
            let mut next = std::mem::take(&mut self.next);
            if next.len() > self.most.ways {
                next.sort_by_key(|way| (way.moves, -way.frames));
                next.truncate(self.most.ways);
            }
            levels.push(next);
        }
        let last = levels.last()?.iter().enumerate();
        let best = last.min_by_key(|(_, way)| way.moves)?.0;
        Some(self.trace(&levels, best))
    }

    /// Frames that may stay empty up to a roll.
    fn waste_until(&self, roll: usize) -> i64 {
        // The last rolls have to take what is left, and get all that was saved.
        let is_late = roll + 3 >= self.room.len();
        match self.most.thrift {
            Some(thrift) if !is_late => {
                let (roll, rolls) = (roll as i64 + 1, self.room.len() as i64);
                self.waste * roll * thrift / (rolls * 100)
            }
            _ => self.waste,
        }
    }

    /// Goes back along a way and reads off the rolls.
    fn trace(&self, levels: &[Vec<Way>], last: usize) -> Vec<usize> {
        let mut rolls = vec![0; self.sizes.len()];
        let mut at = last;
        for roll in (0..self.room.len()).rev() {
            let (way, before) = (&levels[roll + 1][at], way_before(levels, roll, at));
            for (block, place) in rolls.iter_mut().enumerate() {
                if way.held.has(block) && !before.held.has(block) {
                    *place = roll;
                }
            }
            at = way.from as usize;
        }
        rolls
    }

    fn fill_from(&mut self, way: &Way, from: usize, room: i64, floor: i64) {
        let mut filling = Filling {
            way: *way,
            left: room,
            wanted: floor - way.frames,
        };
        filling.way.from = u32::try_from(from).unwrap_or(u32::MAX);
        let front = usize::from(way.front);
        self.end = self.sizes.len().min(front.saturating_add(self.most.reach));
        let behind: i64 = (0..front)
            .filter(|at| !way.held.has(*at))
            .map(|at| i64::from(self.sizes[at]))
            .sum();
        self.run_on(filling, front, behind);
    }

    /// Carries the kept run on from block `at`, or ends it there.
    fn run_on(&mut self, filling: Filling, at: usize, behind: i64) {
        if self.steps == 0 {
            return;
        }
        self.steps -= 1;
        let mut stopped = filling;
        stopped.way.front = u16::try_from(at).unwrap_or(u16::MAX);
        if !self.is_hopeless(&stopped.way) {
            self.bring_back(stopped, 0, at, behind);
        }
        // The run goes on with the next block that it keeps; what it passes is moved.
        let mut passing = filling;
        let mut passed = behind;
        for next in at..self.end {
            if passing.way.held.has(next) {
                continue;
            }
            let size = i64::from(self.sizes[next]);
            if size <= passing.left {
                self.run_on(passing.with(next, size), next + 1, passed);
            }
            passing = passing.moving();
            passed += size;
            if usize::from(passing.way.moves) > self.moves {
                return;
            }
        }
    }

    /// Whether what is still to come takes more moves than are allowed.
    fn is_hopeless(&self, way: &Way) -> bool {
        let front = usize::from(way.front);
        let (here, all) = (way.held.count_below(front), way.held.count());
        let more = self
            .homes
            .moves(self.rolls_left, front, all - here, front - here);
        usize::from(way.moves) + more > self.moves
    }

    /// Brings blocks from behind the front, which are moved already, from `at` on.
    /// `behind` are the frames of those still to be looked at.
    fn bring_back(&mut self, filling: Filling, at: usize, front: usize, behind: i64) {
        if self.steps == 0 || filling.wanted > behind + self.still_ahead(&filling) {
            return;
        }
        self.steps -= 1;
        let Some(next) = (at..front).find(|at| !filling.way.held.has(*at)) else {
            self.bring_ahead(filling, front);
            return;
        };
        let size = i64::from(self.sizes[next]);
        if size <= filling.left {
            self.bring_back(filling.with(next, size), next + 1, front, behind - size);
        }
        self.bring_back(filling, next + 1, front, behind - size);
    }

    /// The most frames that blocks from ahead of the front can bring.
    fn still_ahead(&self, filling: &Filling) -> i64 {
        let more = self.moves.saturating_sub(usize::from(filling.way.moves));
        self.largest * i64::try_from(more).unwrap_or(i64::MAX / (self.largest + 1))
    }

    /// Brings blocks from ahead of the front, which moves them, from `at` on.
    fn bring_ahead(&mut self, filling: Filling, at: usize) {
        if filling.wanted <= 0 {
            self.keep(filling.way);
        }
        if usize::from(filling.way.moves) >= self.moves || self.steps == 0 {
            return;
        }
        if filling.wanted > self.still_ahead(&filling) {
            return;
        }
        self.steps -= 1;
        for next in at..self.end {
            let size = i64::from(self.sizes[next]);
            if size <= filling.left && !filling.way.held.has(next) {
                self.bring_ahead(filling.with(next, size).moving(), next + 1);
            }
        }
    }

    /// Notes a way, unless one is known that comes as far with as few moves.
    fn keep(&mut self, mut way: Way) {
        while way.held.has(usize::from(way.front)) {
            way.front += 1;
        }
        let front = usize::from(way.front);
        let waiting = front - way.held.count_below(front);
        if waiting > self.most.waiting || self.is_hopeless(&way) {
            return;
        }
        let place = u32::try_from(self.next.len()).unwrap_or(u32::MAX);
        let known = *self.known.entry((way.held, way.front)).or_insert(place);
        match self.next.get_mut(known as usize) {
            Some(before) if before.moves <= way.moves => {}
            Some(before) => *before = way,
            None => self.next.push(way),
        }
    }
}

fn way_before(levels: &[Vec<Way>], roll: usize, at: usize) -> &Way {
    &levels[roll][levels[roll + 1][at].from as usize]
}
