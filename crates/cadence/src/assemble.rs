//! From turns of the machine to film frames with numbers.

use std::collections::VecDeque;

use crate::faults::{Boundary, Part, doubled, doubled_in_blends};
use crate::film_frame::{Fault, FaultKind, FilmFrame, Standing};
use crate::motion::Motion;
use crate::passing::{passed, size};
use crate::recipe::recipe;
use crate::shown::{MOMENT, Shown};
use crate::skips::{self, Jump, jump};
use crate::steps::Step;
use crate::stride::Stride;

/// Turns that must be known after one before it is told.
const AHEAD: usize = skips::AROUND_MOST + 1;
/// A film frame with less of it in any file frame is not shown.
const SHOWN_LEAST: f32 = 0.2;
/// A file frame with more of one film frame than this shows it alone.
const ALONE: f32 = 0.999_999;
/// Below this nothing is seen, and frames are counted.
const SEEN_LEAST: f32 = 0.15;
/// Above this sum of speed and exposure, in film frames, not every film frame has
/// a file frame of its own.
const MIXED: f64 = 1.02;
/// Noise of coding as the planes show it, where it cannot be measured. Unit:
/// levels squared.
const CODING: f32 = 4.0;
/// How much larger, beside what films do, noise is at full size.
const FULL_SIZE: f32 = 10.0;
/// How much of a new measure of the noise is taken.
const NEWS: f32 = 0.1;
/// A change so many times the usual one is a cut.
const CUT: f32 = 6.0;
/// A blend with less of the film frame than this is unmixed even beside a cut.
const MUCH: f32 = 0.9;
/// At the head of the roll the phase is known too badly to unmix. Unit: file
/// frames.
const HEAD: u64 = 6;

/// A film frame in the gate for a turn of the machine.
#[derive(Debug, Clone)]
struct Turn {
    turn: i64,
    /// File frames with the share of it in each.
    shown: Vec<(u64, f32)>,
    /// How well changes are seen there, at best.
    seen: f32,
    /// Change from the turn before.
    boundary: Boundary,
}

/// Puts film frames together from what the file frames show.
#[derive(Debug, Default)]
pub(crate) struct Assembler {
    /// Told turns that serve as neighbours, then those still to be told.
    turns: VecDeque<Turn>,
    told: usize,
    shown: VecDeque<(u64, Shown)>,
    /// What the last two file frames show, newest first, and the step to the
    /// newest.
    last: Option<Shown>,
    before: Option<Shown>,
    step: Step,
    noise: Option<f32>,
    number: u32,
    /// Whether each file frame shows one film frame, by rule.
    is_plain: bool,
    /// Whether film frames lack a file frame of their own, so that movement from
    /// film frame to film frame is not seen.
    is_mixed: bool,
    /// Whether file frames blend film frames.
    is_open: bool,
    faults: Vec<Fault>,
    held: Option<FilmFrame>,
}

impl Assembler {
    /// For files of which every frame is a film frame.
    pub(crate) fn plain() -> Self {
        Self {
            is_plain: true,
            ..Self::default()
        }
    }

    /// For files that repeat or blend: film frames a file frame, and the share
    /// of a film frame that passes an open shutter.
    pub(crate) fn new(step: f64, open: f64) -> Self {
        Self {
            is_mixed: step + open > MIXED,
            is_open: open >= MOMENT,
            ..Self::default()
        }
    }

    pub(crate) fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Takes what the next file frame shows, and how it differs from the
    /// one before.
    pub(crate) fn push(&mut self, k: u64, shown: Shown, stride: &Stride, step: &Step) {
        for (turn, share) in shown.turns() {
            self.open(turn);
            if let Some(of) = self.turns.iter_mut().find(|t| t.turn == turn) {
                of.shown.push((k, share));
                of.seen = of.seen.max(stride.seen);
            }
        }
        if let Some(last) = self.last {
            self.boundaries(&last, &shown, step, stride.seen);
            if let Some(before) = self.before {
                self.over_two(&before, &shown, step.two);
            }
        }
        self.listen(&shown, step);
        self.before = self.last.replace(shown);
        self.step = *step;
        self.shown.push_back((k, shown));
    }

    /// Measures the noise of coding where a blend stands between the two film
    /// frames that it blends, each alone: what their sum does not give is noise.
    fn listen(&mut self, here: &Shown, step: &Step) {
        let (Some(blend), Some(first)) = (self.last, self.before) else {
            return;
        };
        let alone = |shown: &Shown| shown.turns().nth(1).is_none().then_some(shown.first);
        let (Some(old), Some(new)) = (alone(&first), alone(here)) else {
            return;
        };
        let [of_old, of_new, rest] = blend.weights;
        if new != old + 1 || blend.first != old || of_new <= 0.0 || rest > 0.0 {
            return;
        }
        let left = of_old * self.step.one + of_new * step.one - of_old * of_new * step.two;
        let noise = left.max(0.0) / (1.0 + of_old * of_old + of_new * of_new);
        let known = self.noise.unwrap_or(noise);
        self.noise = Some(known + NEWS * (noise - known));
    }

    /// Opens turns up to and with `turn`; one that nothing shows stays empty.
    fn open(&mut self, turn: i64) {
        let mut next = self.turns.back().map_or(turn, |last| last.turn + 1);
        while next <= turn {
            self.turns.push_back(Turn {
                turn: next,
                shown: Vec::new(),
                seen: 0.0,
                boundary: Boundary::default(),
            });
            next += 1;
        }
    }

    /// Shares out a change among the boundaries that were passed.
    fn boundaries(&mut self, last: &Shown, here: &Shown, step: &Step, seen: f32) {
        let weights = passed(last, here);
        let whole = size(&weights, None).max(1e-4);
        for (turn, weight) in weights.iter().copied() {
            let part = Part {
                weight,
                size: whole,
                without: size(&weights, Some(turn)),
            };
            if let Some(of) = self.turns.iter_mut().find(|t| t.turn == turn) {
                of.boundary.add(step, part, seen);
                of.boundary
                    .add_two(step.one / part.size, part.without / part.size);
            }
        }
    }

    /// Tells the boundaries between three file frames what changed from the first to the
    /// third.
    fn over_two(&mut self, before: &Shown, here: &Shown, two: f32) {
        let weights = passed(before, here);
        let whole = size(&weights, None).max(1e-4);
        for (turn, _) in weights.iter().copied() {
            let share = size(&weights, Some(turn)) / whole;
            if let Some(of) = self.turns.iter_mut().find(|t| t.turn == turn) {
                of.boundary.add_two(two / whole, share);
            }
        }
    }

    /// Film frames that no later file frame can change; all of them at the end.
    pub(crate) fn told(&mut self, is_end: bool) -> Vec<FilmFrame> {
        let mut frames = Vec::new();
        let ahead = if is_end { 0 } else { AHEAD };
        while self.told + ahead < self.turns.len() {
            self.tell(is_end, &mut frames);
        }
        if is_end {
            frames.extend(self.held.take());
        }
        frames
    }

    fn tell(&mut self, is_end: bool, frames: &mut Vec<FilmFrame>) {
        let at = self.told;
        let boundaries: Vec<Boundary> = self.turns.iter().map(|turn| turn.boundary).collect();
        let stands =
            doubled(&boundaries, at) || (self.is_open && doubled_in_blends(&boundaries, at));
        let is_doubled = stands && self.held.is_some();
        let is_last = is_end && at + 1 == self.turns.len();
        let turn = self.turns[at].clone();
        let share = turn.shown.iter().map(|s| s.1).fold(0.0, f32::max);
        self.told += 1;
        if is_doubled {
            self.double(&turn);
        } else if share >= SHOWN_LEAST {
            frames.extend(self.held.take());
            if let Some(jump) = self.jump(&boundaries, at) {
                self.skip(jump, frames);
            }
            self.held = Some(self.film_frame(&turn));
            self.number += 1;
        } else if self.held.is_some() && !is_last {
            // At either end of the roll a sliver is no film frame.
            frames.extend(self.held.take());
            self.miss(frames);
        }
        while self.told > AHEAD {
            self.turns.pop_front();
            self.told -= 1;
        }
        let needed = self.turns[0].shown.first().map_or(0, |s| s.0);
        while self.shown.front().is_some_and(|s| s.0 < needed) {
            self.shown.pop_front();
        }
    }

    /// The film frame before stands for this turn too.
    fn double(&mut self, turn: &Turn) {
        let before = self.turns.iter().find(|t| t.turn == turn.turn - 1);
        let before = before.map(|before| before.shown.clone());
        let Some(held) = &mut self.held else { return };
        if let Some((last, _)) = turn.shown.last() {
            held.file_frames.1 = last + 1;
        }
        // A file frame that blends both turns shows one film frame all the same.
        for (k, share) in before.unwrap_or_default() {
            let both = share + share_of(turn, k);
            if both > held.share + 1e-6 {
                (held.shown_by, held.share) = (Some(k), both.min(1.0));
            }
        }
        if held.standing == Standing::Blended && held.share >= ALONE {
            held.standing = Standing::Clean;
            held.unmix.clear();
            held.recipe = None;
        }
        self.faults.push(Fault {
            kind: FaultKind::Doubled,
            at: held.number,
            frames: 1,
            frames_low: 1,
            frames_high: 1,
        });
    }

    /// Whether the picture jumped along its own movement on the way to a turn.
    fn jump(&self, boundaries: &[Boundary], at: usize) -> Option<Jump> {
        let motions: Vec<Motion> = boundaries.iter().map(Boundary::motion).collect();
        if self.is_mixed {
            None
        } else {
            jump(&motions, at)
        }
    }

    fn skip(&mut self, jump: Jump, frames: &mut Vec<FilmFrame>) {
        let (likeliest, fewest, most) = jump.frames;
        self.faults.push(Fault {
            kind: FaultKind::Skipped,
            at: self.number,
            frames: likeliest,
            frames_low: fewest,
            frames_high: most,
        });
        for _ in 0..likeliest {
            frames.push(missing(self.number));
            self.number += 1;
        }
    }

    fn miss(&mut self, frames: &mut Vec<FilmFrame>) {
        frames.push(missing(self.number));
        let one_more = self.faults.last_mut().filter(|fault| {
            fault.kind == FaultKind::Skipped && fault.at + fault.frames == self.number
        });
        match one_more {
            Some(fault) => {
                fault.frames += 1;
                fault.frames_low += 1;
                fault.frames_high += 1;
            }
            None => self.faults.push(Fault {
                kind: FaultKind::Skipped,
                at: self.number,
                frames: 1,
                frames_low: 1,
                frames_high: 1,
            }),
        }
        self.number += 1;
    }

    /// File frames around a turn, without those that show the scene beyond a cut;
    /// a blend with much of another scene needs them.
    fn same_scene(&self, turn: i64, share: f32) -> Vec<(u64, Shown)> {
        let sizes: Vec<f32> = self.turns.iter().map(|t| t.boundary.size()).collect();
        let mut sorted = sizes.clone();
        sorted.sort_unstable_by(f32::total_cmp);
        let usual = sorted[sorted.len() / 2];
        let cuts = || {
            let all = self.turns.iter().zip(&sizes);
            all.filter(|(_, size)| **size > CUT * usual)
                .map(|(t, _)| t.turn)
        };
        let needs = share < MUCH;
        let from = cuts()
            .filter(|cut| *cut < turn || (*cut == turn && !needs))
            .max();
        let until = cuts()
            .filter(|cut| *cut > turn + 1 || (*cut == turn + 1 && !needs))
            .min();
        let is_inside = |shown: &Shown| {
            shown.turns().all(|(t, _)| {
                from.is_none_or(|from| t >= from) && until.is_none_or(|until| t < until)
            })
        };
        self.shown
            .iter()
            .filter(|(_, shown)| is_inside(shown))
            .copied()
            .collect()
    }

    fn film_frame(&self, turn: &Turn) -> FilmFrame {
        let most = turn.shown.iter().map(|s| s.1).fold(0.0, f32::max);
        // Of file frames that show as much the first is named.
        let best = turn.shown.iter().find(|s| s.1 >= most - 1e-6);
        let (best, share) = best.copied().unwrap_or((0, 0.0));
        let standing = if self.is_plain {
            Standing::Clean
        } else if turn.seen < SEEN_LEAST {
            Standing::Counted
        } else if share >= ALONE {
            Standing::Clean
        } else {
            Standing::Blended
        };
        let is_unmixed = standing == Standing::Blended && best >= HEAD;
        let recipe = is_unmixed.then(|| {
            let same_scene = self.same_scene(turn.turn, share_of(turn, best));
            recipe(&same_scene, turn.turn, best)
        });
        let recipe = recipe.flatten().map(Box::new);
        let noise = self.noise.map_or(CODING, |noise| FULL_SIZE * noise);
        let differ = turn.boundary.size() / 2.0;
        let noise = f64::from(noise / (differ + noise).max(1e-3));
        let unmix = recipe.as_ref().map(|recipe| recipe.whole(noise));
        let first = turn.shown.first().map_or(0, |s| s.0);
        let last = turn.shown.last().map_or(0, |s| s.0);
        FilmFrame {
            number: self.number,
            standing,
            shown_by: Some(best),
            share,
            file_frames: (first, last + 1),
            unmix: unmix.unwrap_or_default(),
            recipe,
        }
    }
}

fn missing(number: u32) -> FilmFrame {
    FilmFrame {
        number,
        standing: Standing::Missing,
        shown_by: None,
        share: 0.0,
        file_frames: (0, 0),
        unmix: Vec::new(),
        recipe: None,
    }
}

/// How much of a turn a file frame shows.
fn share_of(turn: &Turn, file_frame: u64) -> f32 {
    let shown = turn.shown.iter().find(|shown| shown.0 == file_frame);
    shown.map_or(0.0, |shown| shown.1)
}
