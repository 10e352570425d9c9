//! The acts of a plan, one by one.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::Strips;
use onestrand_film::{FramePos, RollId};

use crate::plan::{Plan, Take};
use crate::wanted::{Wanted, WantedStrip};

/// What is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BenchAct {
    /// Put a roll on the rewinds.
    Mount,
    /// Wind it until a frame lies at the splicer.
    Wind,
    /// Cut before that frame.
    Cut,
    /// Hang the strip just cut on a pin.
    Hang,
    /// Lead a strip to the take-up reel: the one just cut, or one from a pin, or
    /// leader or a card, which come from no roll.
    TakeUp,
    /// Join it to what is on the reel; the last act joins the tail leader.
    Join,
    /// Take the roll off the rewinds, where it stands.
    Unmount,
}

impl BenchAct {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Mount => "mount",
            Self::Wind => "wind",
            Self::Cut => "cut",
            Self::Hang => "hang",
            Self::TakeUp => "take_up",
            Self::Join => "join",
            Self::Unmount => "unmount",
        }
    }
}

/// Towards which end of its roll film is wound on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Towards {
    /// To lower frame numbers.
    Head,
    /// To higher frame numbers.
    Tail,
}

impl Towards {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::Tail => "tail",
        }
    }
}

/// One act.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What is done.
    pub act: BenchAct,
    /// With which roll; none for leader and cards.
    pub roll: Option<RollId>,
    /// Wound to, or cut before.
    pub frame: Option<FramePos>,
    /// The pin, counted from 1.
    pub pin: Option<u32>,
    /// First position of the strip in the cut, counted from 1; none at the tail
    /// leader.
    pub position: Option<usize>,
    /// Which way it is wound.
    pub direction: Option<Towards>,
}

/// Where a strip of the cut is while the steps are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    OnItsRoll,
    /// Leader and cards.
    Ready,
    Hangs(u32),
    OnTheReel,
}

struct Writer<'a> {
    wanted: &'a Wanted,
    strips: &'a Strips,
    steps: Vec<Step>,
    places: Vec<Place>,
    /// The strip that comes next on the reel.
    next: usize,
    pins: BTreeSet<u32>,
    mounted: Option<usize>,
    stands: BTreeMap<usize, u32>,
    /// Places where the blade went, by roll.
    cuts: BTreeSet<(usize, u32)>,
}

/// The acts of a plan.
pub(crate) fn steps(plan: &Plan, wanted: &Wanted, strips: &Strips) -> Vec<Step> {
    let place = |strip: &onestrand_cut::Strip| match strip.span {
        Some(_) => Place::OnItsRoll,
        None => Place::Ready,
    };
    let mut writer = Writer {
        wanted,
        strips,
        steps: Vec::new(),
        places: strips.strips.iter().map(place).collect(),
        next: 0,
        pins: BTreeSet::new(),
        mounted: None,
        stands: BTreeMap::new(),
        cuts: BTreeSet::new(),
    };
    writer.follow();
    for take in &plan.takes {
        let through = plan.through.get(take.roll).copied().unwrap_or(false);
        writer.take(*take, through);
    }
    writer.end();
    writer.steps
}

impl Writer<'_> {
    fn step(&mut self, act: BenchAct, roll: Option<usize>) -> &mut Step {
        let roll = roll.map(|r| self.wanted.rolls[r].id.clone());
        self.steps.push(Step {
            act,
            roll,
            frame: None,
            pin: None,
            position: None,
            direction: None,
        });
        let last = self.steps.len() - 1;
        &mut self.steps[last]
    }

    fn position(&self, strip: usize) -> usize {
        self.strips.strips[strip].positions.0 + 1
    }

    fn take(&mut self, take: Take, through: bool) {
        self.mount(take.roll, through);
        let strip = self.wanted.rolls[take.roll].strips[take.strip];
        let (near, far) = match take.backward {
            false => (strip.begin, strip.end),
            true => (strip.end, strip.begin),
        };
        let position = Some(self.position(strip.strip));
        for place in [near, far] {
            self.wind(take.roll, place, position);
            self.cut(take.roll, place, position);
        }
        self.put(take.roll, strip);
        self.follow();
    }

    fn mount(&mut self, roll: usize, through: bool) {
        if self.mounted == Some(roll) {
            return;
        }
        if let Some(before) = self.mounted.replace(roll) {
            self.step(BenchAct::Unmount, Some(before));
        }
        self.step(BenchAct::Mount, Some(roll));
        let new = !self.stands.contains_key(&roll);
        self.stands.entry(roll).or_insert(0);
        if new && through {
            self.wind(roll, self.wanted.rolls[roll].frames, None);
        }
    }

    fn wind(&mut self, roll: usize, to: u32, position: Option<usize>) {
        let Some(at) = self.stands.insert(roll, to).filter(|at| *at != to) else {
            return;
        };
        let direction = if to > at {
            Towards::Tail
        } else {
            Towards::Head
        };
        let step = self.step(BenchAct::Wind, Some(roll));
        step.frame = FramePos::new(to).ok();
        step.position = position;
        step.direction = Some(direction);
    }

    /// Cuts, unless film ends there already.
    fn cut(&mut self, roll: usize, at: u32, position: Option<usize>) {
        let inside = at > 0 && at < self.wanted.rolls[roll].frames;
        if inside && self.cuts.insert((roll, at)) {
            let step = self.step(BenchAct::Cut, Some(roll));
            step.frame = FramePos::new(at).ok();
            step.position = position;
        }
    }

    fn put(&mut self, roll: usize, strip: WantedStrip) {
        if strip.strip == self.next {
            self.take_up(Some(roll), strip.strip, None);
            return;
        }
        // The lowest pin that is free.
        let pin = (1..).find(|pin| !self.pins.contains(pin)).unwrap_or(0);
        self.pins.insert(pin);
        self.places[strip.strip] = Place::Hangs(pin);
        let position = self.position(strip.strip);
        let step = self.step(BenchAct::Hang, Some(roll));
        step.pin = Some(pin);
        step.position = Some(position);
    }

    fn take_up(&mut self, roll: Option<usize>, strip: usize, pin: Option<u32>) {
        let position = Some(self.position(strip));
        let step = self.step(BenchAct::TakeUp, roll);
        step.pin = pin;
        step.position = position;
        self.step(BenchAct::Join, roll).position = position;
        self.places[strip] = Place::OnTheReel;
        self.next = strip + 1;
    }

    /// Everything whose turn has come: leader, cards, and what hangs.
    fn follow(&mut self) {
        while let Some(place) = self.places.get(self.next).copied() {
            let strip = self.next;
            match place {
                Place::Ready => self.take_up(None, strip, None),
                Place::Hangs(pin) => {
                    self.pins.remove(&pin);
                    let roll = self.roll_of(strip);
                    self.take_up(roll, strip, Some(pin));
                }
                Place::OnItsRoll | Place::OnTheReel => return,
            }
        }
    }

    fn roll_of(&self, strip: usize) -> Option<usize> {
        let has = |roll: &crate::wanted::WantedRoll| roll.strips.iter().any(|s| s.strip == strip);
        self.wanted.rolls.iter().position(has)
    }

    fn end(&mut self) {
        if let Some(last) = self.mounted.take() {
            self.step(BenchAct::Unmount, Some(last));
        }
        // The tail leader.
        self.step(BenchAct::Join, None);
    }
}
