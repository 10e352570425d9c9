//! Frame cards: how to find the two ends of a strip on film without numbers.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::Strand;
use onestrand_film::{FramePos, FrameRange, Frames, Gauge, RollId, Shrinkage};

use crate::chain::{Seen, nearest, safe_chain};
use crate::steps::{BenchAct, Step, Towards};
use crate::{Count, Doubt, Extent, LandmarkChain, LandmarkKind, Landmarks, WorkCount};

/// The longest single count, where the user says nothing: six seconds at 24
/// frames a second, eight at 18. Unit: frames. Ours, to be changed at will.
pub const USUAL_LIMIT: u32 = 144;

/// One end of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StripEnd {
    /// Where its first frame is.
    Head,
    /// Where its last frame is.
    Tail,
}

/// What the blade has to do there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Blade {
    /// A cut is made.
    Cuts,
    /// The film was cut there before.
    CutBefore,
    /// The roll begins or ends there.
    RollEnds,
}

/// One end of a strip, and how it is found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutPlace {
    /// The cut goes on the line before this frame.
    pub at: FramePos,
    /// Whether there is anything to cut.
    pub blade: Blade,
    /// The frame kept that is nearest to the cut: the first kept at the head,
    /// the last kept at the tail.
    pub kept: FramePos,
    /// Frames between the frame kept and the cut, for the join to eat.
    pub eaten: Frames,
    /// The frame on the other side of the blade: the last thrown at the head,
    /// the first thrown at the tail; none where the roll ends.
    pub thrown: Option<FramePos>,
    /// The position that this frame is wanted for, if it is wanted elsewhere;
    /// its first one, counted from 1.
    pub thrown_in: Option<usize>,
    /// The main way: from what is sure, on the film as it hangs together before
    /// the strip is cut at either end.
    pub main: LandmarkChain,
    /// How far the main way may be off.
    pub main_doubt: Doubt,
    /// Whether the main way leads over the other end of the strip: it is then
    /// counted, and the place marked, before that end is cut.
    pub before_other_cut: bool,
    /// From the strip's other end, once that is cut; none at the end that is cut
    /// first.
    pub from_other_cut: Option<Count>,
    /// Or from nearer by, on what still hangs together when the blade comes here.
    pub nearer: Option<Count>,
    /// How far the nearer way may be off.
    pub nearer_doubt: Option<Doubt>,
}

/// Where the strip goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Goes {
    /// On this pin, counted from 1.
    Pin(u32),
    /// On the take-up reel.
    Reel,
}

/// The card of one strip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrameCard {
    /// First and last position of the strip, counted from 1.
    pub positions: (usize, usize),
    /// The roll.
    pub roll: RollId,
    /// The frames shown.
    pub shown: FrameRange,
    /// The frames taken: shown, and eaten by the joins.
    pub taken: FrameRange,
    /// Which end is cut first.
    pub first_cut: StripEnd,
    /// Where the strip goes.
    pub goes: Goes,
    /// Its head.
    pub head: CutPlace,
    /// Its tail.
    pub tail: CutPlace,
}

/// Places where the blade has been, by roll.
pub type CutsMade = BTreeMap<RollId, BTreeSet<FramePos>>;

/// By what rules cards are made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardRules {
    /// No single count is longer. Unit: frames.
    pub limit: u32,
    /// Shrinkage of the rolls on which it was measured.
    pub shrinkage: BTreeMap<RollId, Shrinkage>,
}

impl Default for CardRules {
    fn default() -> Self {
        Self {
            limit: USUAL_LIMIT,
            shrinkage: BTreeMap::new(),
        }
    }
}

/// What cards are made from.
#[derive(Debug, Clone, Copy)]
pub struct CardMaker<'a> {
    /// What is taken.
    pub work: &'a WorkCount,
    /// The rolls.
    pub strand: &'a Strand,
    /// What can be counted from.
    pub landmarks: &'a Landmarks,
    /// The rules.
    pub rules: &'a CardRules,
}

/// The film about a strip that hangs together.
struct Stretch {
    begin: FramePos,
    end: FramePos,
    frames: FramePos,
}

impl CardMaker<'_> {
    /// The cards of a plan, in the order in which the strips are taken. `made`
    /// are the cuts made before the first step.
    #[must_use]
    pub fn by_steps(&self, steps: &[Step], mut made: CutsMade) -> Vec<FrameCard> {
        let mut cards = Vec::new();
        // What the next strip to come off a roll meets, and which way it is wound.
        let mut before: Option<CutsMade> = None;
        let mut wound = Towards::Tail;
        for step in steps {
            match (step.act, &step.roll, step.pin) {
                (BenchAct::Wind, ..) => {
                    wound = step.direction.unwrap_or(wound);
                    if step.position.is_some() && before.is_none() {
                        before = Some(made.clone());
                    }
                }
                (BenchAct::Cut, Some(roll), _) => {
                    if before.is_none() {
                        before = Some(made.clone());
                    }
                    if let Some(at) = step.frame {
                        made.entry(roll.clone()).or_default().insert(at);
                    }
                }
                (BenchAct::Hang, ..) | (BenchAct::TakeUp, Some(_), None) => {
                    let was = before.take().unwrap_or_else(|| made.clone());
                    let first = match wound {
                        Towards::Tail => StripEnd::Head,
                        Towards::Head => StripEnd::Tail,
                    };
                    let goes = match (step.act, step.pin) {
                        (BenchAct::Hang, Some(pin)) => Goes::Pin(pin),
                        _ => Goes::Reel,
                    };
                    let taken = |e: &&Extent| Some(e.positions.0) == step.position;
                    if let Some(extent) = self.work.extents.iter().find(taken) {
                        cards.push(self.card(extent, &was, first, goes));
                    }
                }
                _ => {}
            }
        }
        cards
    }

    /// The card of one strip, when so much of its roll is cut already.
    #[must_use]
    pub fn card(
        &self,
        extent: &Extent,
        made: &CutsMade,
        first_cut: StripEnd,
        goes: Goes,
    ) -> FrameCard {
        let stretch = self.stretch(extent, made);
        FrameCard {
            positions: extent.positions,
            roll: extent.roll.clone(),
            shown: extent.shown,
            taken: extent.taken,
            first_cut,
            goes,
            head: self.place(extent, &stretch, StripEnd::Head, first_cut),
            tail: self.place(extent, &stretch, StripEnd::Tail, first_cut),
        }
    }

    fn stretch(&self, extent: &Extent, made: &CutsMade) -> Stretch {
        let length = self.strand.roll(&extent.roll).map(|r| r.frames.count());
        let frames = length.and_then(|n| FramePos::new(n).ok());
        let frames = frames.unwrap_or(extent.taken.end());
        let cuts = made.get(&extent.roll);
        let lies = |cut: &FramePos| *cut <= extent.taken.begin();
        let begin = cuts.and_then(|c| c.iter().copied().filter(lies).max());
        let lies = |cut: &FramePos| *cut >= extent.taken.end();
        let end = cuts.and_then(|c| c.iter().copied().find(lies));
        Stretch {
            begin: begin.unwrap_or(FramePos::ZERO),
            end: end.unwrap_or(frames),
            frames,
        }
    }

    /// What can be counted from between two places, ends included.
    fn seen(&self, roll: &RollId, stretch: &Stretch) -> Vec<Seen> {
        let end_kind = |at: FramePos| {
            if at == FramePos::ZERO {
                LandmarkKind::Head
            } else if at == stretch.frames {
                LandmarkKind::Tail
            } else {
                LandmarkKind::LastCut
            }
        };
        let (begin, end) = (stretch.begin, stretch.end);
        let inside = |(at, _): &(FramePos, &LandmarkKind)| begin < *at && *at < end;
        let known = self.landmarks.of_roll(roll).filter(inside);
        let mut seen = vec![(begin, end_kind(begin))];
        // A take that begins where the film ends now is no longer seen to begin.
        seen.extend(known.map(|(at, kind)| (at, kind.clone())));
        seen.push((end, end_kind(end)));
        seen
    }

    fn place(
        &self,
        extent: &Extent,
        stretch: &Stretch,
        end: StripEnd,
        first: StripEnd,
    ) -> CutPlace {
        let (taken, shown) = (extent.taken, extent.shown);
        let (at, other, kept) = match end {
            StripEnd::Head => (taken.begin(), taken.end(), shown.begin()),
            StripEnd::Tail => (taken.end(), taken.begin(), shown.last()),
        };
        let blade = if at == FramePos::ZERO || at == stretch.frames {
            Blade::RollEnds
        } else if at == stretch.begin || at == stretch.end {
            Blade::CutBefore
        } else {
            Blade::Cuts
        };
        let seen = self.seen(&extent.roll, stretch);
        let main =
            safe_chain(&seen, at, self.rules.limit).unwrap_or(LandmarkChain { counts: Vec::new() });
        let is_second = end != first;
        // Once the other end is cut, only what lies on this side of it hangs on.
        let on_this_side = |(place, _): &Seen| match end {
            StripEnd::Head => *place < other,
            StripEnd::Tail => *place > other,
        };
        let hangs: Vec<Seen> = match is_second {
            true => seen.into_iter().filter(on_this_side).collect(),
            false => seen,
        };
        let from_other_cut = is_second.then(|| Count::between(LandmarkKind::LastCut, other, at));
        let least = from_other_cut.as_ref().map_or(main.frames(), |c| c.frames);
        let least = least.min(main.frames());
        let nearer = nearest(&hangs, at).filter(|near| near.frames < least);
        let doubt = |frames| self.doubt(&extent.roll, frames);
        let begins = main.counts.first().map(|c| c.at);
        CutPlace {
            at,
            blade,
            kept,
            eaten: Frames::new(match end {
                StripEnd::Head => shown.begin().index() - taken.begin().index(),
                StripEnd::Tail => taken.end().index() - shown.end().index(),
            })
            .unwrap_or_default(),
            thrown: thrown(at, end, stretch.frames),
            thrown_in: thrown(at, end, stretch.frames).and_then(|f| self.wanted_in(extent, f)),
            main_doubt: doubt(main.unchecked()),
            before_other_cut: is_second
                && begins.is_some_and(|b| !on_this_side(&(b, LandmarkKind::PaperSlip))),
            main,
            from_other_cut,
            nearer_doubt: nearer.as_ref().map(|near| doubt(near.frames)),
            nearer,
        }
    }

    fn doubt(&self, roll: &RollId, frames: Frames) -> Doubt {
        let gauge = self.strand.roll(roll).map_or(Gauge::Super8, |r| r.gauge);
        let measured = self.rules.shrinkage.contains_key(roll);
        Doubt::of(frames, gauge, measured)
    }

    /// Which strip wants a frame.
    fn wanted_in(&self, this: &Extent, frame: FramePos) -> Option<usize> {
        let wants = |e: &&Extent| e.roll == this.roll && e.taken.contains(frame);
        let other = self.work.extents.iter().find(wants)?;
        Some(other.positions.0)
    }
}

fn thrown(at: FramePos, end: StripEnd, frames: FramePos) -> Option<FramePos> {
    match end {
        StripEnd::Head => at.index().checked_sub(1),
        StripEnd::Tail => Some(at.index()).filter(|at| *at < frames.index()),
    }
    .and_then(|f| FramePos::new(f).ok())
}
