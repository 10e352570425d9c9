//! The likeliest way a reel runs through the rolls: Viterbi, with a bounded number of
//! places kept at every frame.

use std::collections::HashMap;

use super::Wanted;
use super::planned::Planned;
use super::steps::{FAULT, FOREIGN};
use crate::rolls::RollSketches;
use crate::sketch::{Sketch, dot, likeness, likeness_woven};
use crate::way::Way;

/// What one frame of the reel is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum At {
    /// A frame of a roll.
    Frame(usize, usize, Way),
    /// A picture that no roll has, after this one.
    Foreign(Option<(usize, usize, Way)>),
    /// Nothing is seen in it: leader, black.
    Nothing,
}

/// Places kept at every frame.
const KEPT: usize = 120;
/// Places anywhere in the rolls that are added at every frame.
const ADDED: usize = 8;
/// A jump to anywhere. Unit of all costs: what a usual true frame is unlike.
const JUMP: f32 = 45.0;
/// Something where nothing should be, or the other way round.
const UNLIKE: f32 = 48.0;

/// More than this no frame is unlike.
const MOST: f32 = 64.0;
/// A frame that is less unlike than this is one of the rolls'.
const KNOWN: f32 = 0.2;
/// More unlike than this no true frame is, however dark or busy: each so much more
/// counts one.
const NEVER: f32 = 0.08;
/// See there.
const STRANGE: f32 = 0.006;
/// So many frames before and after tell what is usual here.
const AROUND: usize = 10;

/// The rolls, the plan and what a true frame is usually like.
pub(super) struct Walk<'a> {
    pub(super) rolls: &'a [RollSketches],
    pub(super) planned: Planned<'a>,
    /// Where each piece of the plan begins when it lies in any of the four ways.
    begins: Vec<At>,
    /// How unlike a true frame usually is about each frame of the scan.
    usual: Vec<f32>,
}

/// What every frame of the reel is.
pub(super) fn course<'a>(
    scan: &RollSketches,
    rolls: &'a [RollSketches],
    plan: &'a [Wanted],
) -> (Walk<'a>, Vec<At>) {
    let mut walk = Walk {
        rolls,
        begins: Vec::new(),
        planned: Planned::of(plan),
        usual: Vec::new(),
    };
    walk.begins = walk.planned.begins();
    let anywhere: Vec<Vec<At>> = (0..scan.frames()).map(|t| walk.anywhere(scan, t)).collect();
    walk.usual = walk.usually(scan, &anywhere);
    let course = walk.follow(scan, &anywhere);
    (walk, course)
}

impl Walk<'_> {
    /// The places in all rolls that a frame is most like.
    fn anywhere(&self, scan: &RollSketches, t: usize) -> Vec<At> {
        if !scan.is_seen(t) {
            return Vec::new();
        }
        let mut best: Vec<(f32, At)> = Vec::new();
        let sketch = Sketch {
            strength: 1.0,
            fine: scan.fine(t).to_vec(),
        };
        for way in Way::ALL {
            let cells = way.cells(&sketch.coarse());
            let mut found: Vec<(f32, At)> = Vec::new();
            for (number, roll) in self.rolls.iter().enumerate() {
                let like = |(cells_of, per): (&[i8], f32)| dot(&cells, cells_of) as f32 * per;
                let likes: Vec<f32> = roll.coarse().map(like).collect();
                for (frame, &here) in likes.iter().enumerate() {
                    let before = frame.checked_sub(1).map_or(f32::MIN, |f| likes[f]);
                    let next = likes.get(frame + 1).copied().unwrap_or(f32::MIN);
                    if here >= before && here > next {
                        found.push((here, At::Frame(number, frame, way)));
                    }
                }
            }
            let most = ADDED * 3;
            if found.len() > most {
                found.select_nth_unstable_by(most, |a, b| b.0.total_cmp(&a.0));
                found.truncate(most);
            }
            best.extend(found);
        }
        for (like, at) in &mut best {
            *like = self.like(scan, t, *at);
        }
        best.sort_by(|a, b| b.0.total_cmp(&a.0));
        best.truncate(ADDED);
        best.into_iter().map(|(_, at)| at).collect()
    }

    fn like(&self, scan: &RollSketches, t: usize, at: At) -> f32 {
        let At::Frame(roll, frame, way) = at else {
            return 0.0;
        };
        let of_roll = self.rolls[roll].fine(frame);
        if way == Way::AS_SCANNED {
            likeness_woven(scan.fine(t), of_roll)
        } else {
            likeness_woven(&way.cells(scan.fine(t)), of_roll)
        }
    }

    fn is_about_like(&self, scan: &RollSketches, t: usize, at: At) -> bool {
        let At::Frame(roll, frame, way) = at else {
            return true;
        };
        if way == Way::AS_SCANNED {
            return true;
        }
        let cells = way.cells(scan.middle(t));
        likeness(&cells, self.rolls[roll].middle(frame)) > 0.6
    }

    /// How unlike a true frame usually is on this reel, and here: dark and busy pictures
    /// are less like themselves.
    fn usually(&self, scan: &RollSketches, anywhere: &[Vec<At>]) -> Vec<f32> {
        let best = |(t, places): (usize, &Vec<At>)| {
            let unlike = places.first().map(|&at| 1.0 - self.like(scan, t, at));
            unlike.filter(|&unlike| unlike < KNOWN)
        };
        let unlike: Vec<Option<f32>> = anywhere.iter().enumerate().map(best).collect();
        let middle = |of: &[Option<f32>], share: f32| {
            let mut of: Vec<f32> = of.iter().flatten().copied().collect();
            of.sort_by(f32::total_cmp);
            of.get((of.len() as f32 * share) as usize).copied()
        };
        let everywhere = middle(&unlike, 0.5).unwrap_or(0.02);
        let here = |t: usize| {
            let around = t.saturating_sub(AROUND)..(t + AROUND + 1).min(unlike.len());
            let known = unlike[around.clone()].iter().flatten().count();
            if known * 3 < around.len() * 2 {
                return everywhere.clamp(0.004, 0.02);
            }
            let here = middle(&unlike[around], 0.7).unwrap_or(everywhere);
            here.max(everywhere).clamp(0.004, 0.02)
        };
        (0..unlike.len()).map(here).collect()
    }

    /// What it costs to take a frame of the reel for something.
    pub(super) fn cost(&self, scan: &RollSketches, t: usize, at: At) -> f32 {
        match at {
            At::Nothing if scan.is_seen(t) => UNLIKE,
            At::Nothing => 0.5,
            At::Foreign(_) => FOREIGN,
            At::Frame(roll, frame, _) => match (scan.is_seen(t), self.rolls[roll].is_seen(frame)) {
                (false, false) => 0.5,
                (true, true) => {
                    let unlike = 1.0 - self.like(scan, t, at);
                    let foreign = (unlike - NEVER).max(0.0) / STRANGE;
                    (unlike / self.usual[t] + foreign).min(MOST)
                }
                _ => MOST,
            },
        }
    }

    fn follow(&self, scan: &RollSketches, anywhere: &[Vec<At>]) -> Vec<At> {
        // What is kept at each frame: what it is, what it cost, where it came from.
        let mut kept: Vec<Vec<(At, f32, usize)>> = Vec::with_capacity(scan.frames());
        for (t, anywhere) in anywhere.iter().enumerate() {
            let mut reached: HashMap<At, (f32, usize)> = HashMap::new();
            let mut reach = |at: At, cost: f32, from: usize| {
                let entry = reached.entry(at).or_insert((cost, from));
                if cost < entry.0 {
                    *entry = (cost, from);
                }
            };
            let jumps = || {
                let begins = self.begins.iter().copied();
                let begins = begins.filter(|&at| self.is_about_like(scan, t, at));
                anywhere.iter().copied().chain(begins)
            };
            match t.checked_sub(1).map(|before| &kept[before]) {
                None => {
                    reach(At::Nothing, 0.0, 0);
                    reach(At::Foreign(None), FAULT, 0);
                    jumps().for_each(|at| reach(at, JUMP, 0));
                    if let Some(Wanted::Frame(roll, frame)) = self.planned.wanted(0) {
                        reach(At::Frame(roll, frame, Way::AS_SCANNED), 0.0, 0);
                    }
                }
                Some(before) => {
                    for (from, &(at, cost, _)) in before.iter().enumerate() {
                        self.next(at, &mut |to, price| reach(to, cost + price, from));
                    }
                    if let Some((from, cheapest)) = cheapest(before) {
                        jumps().for_each(|at| reach(at, cheapest + JUMP, from));
                    }
                }
            }
            kept.push(self.best_of(scan, t, reached));
        }
        back(&kept)
    }

    fn best_of(
        &self,
        scan: &RollSketches,
        t: usize,
        reached: HashMap<At, (f32, usize)>,
    ) -> Vec<(At, f32, usize)> {
        let mut here: Vec<(At, f32, usize)> = reached
            .into_iter()
            .map(|(at, (cost, from))| (at, cost + self.cost(scan, t, at), from))
            .collect();
        here.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        here.truncate(KEPT);
        here
    }
}

fn cheapest(kept: &[(At, f32, usize)]) -> Option<(usize, f32)> {
    kept.first().map(|first| (0, first.1))
}

fn back(kept: &[Vec<(At, f32, usize)>]) -> Vec<At> {
    let mut course = Vec::with_capacity(kept.len());
    let mut place = 0;
    for here in kept.iter().rev() {
        let Some(&(at, _, from)) = here.get(place) else {
            return Vec::new();
        };
        course.push(at);
        place = from;
    }
    course.reverse();
    course
}
