//! The acts of a re-cut, one by one.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_film::{FrameName, FramePos};

use super::lengths::{Edge, Freed, Lies, Source};
use super::{Bench, RecutDeed, RecutSource, RecutStep};
use crate::plan::{Plan, Take};
use crate::recut::joints;
use crate::steps::Towards;
use crate::wanted::Wanted;

/// Where a length is while the steps are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Lies,
    Ready,
    Hangs(u32),
    OnTheReel,
}

struct Writer<'a> {
    bench: &'a Bench<'a>,
    wanted: &'a Wanted,
    sources: &'a [Source],
    steps: Vec<RecutStep>,
    places: Vec<Place>,
    next: usize,
    pins: BTreeSet<u32>,
    mounted: Option<usize>,
    stands: BTreeMap<usize, u32>,
    /// Places where the blade went.
    cuts: BTreeSet<(usize, i64)>,
    opened: BTreeSet<usize>,
}

/// The acts of a plan.
pub(super) fn steps(
    bench: &Bench<'_>,
    plan: &Plan,
    wanted: &Wanted,
    sources: &[Source],
) -> Vec<RecutStep> {
    let place = |length: &super::lengths::Length| match length.source {
        Lies::Ready => Place::Ready,
        _ => Place::Lies,
    };
    let mut writer = Writer {
        bench,
        wanted,
        sources,
        steps: Vec::new(),
        places: bench.lengths.iter().map(place).collect(),
        next: 0,
        pins: BTreeSet::new(),
        mounted: None,
        stands: BTreeMap::new(),
        cuts: BTreeSet::new(),
        opened: BTreeSet::new(),
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
    fn step(&mut self, deed: RecutDeed, roll: Option<usize>) -> &mut RecutStep {
        self.steps.push(RecutStep {
            deed,
            source: roll.map(|r| self.sources[r].named.clone()),
            place: None,
            frame: None,
            opens_after: None,
            opens_before: None,
            pin: None,
            positions: None,
            put_back: false,
            direction: None,
        });
        let last = self.steps.len() - 1;
        &mut self.steps[last]
    }

    fn take(&mut self, take: Take, through: bool) {
        self.mount(take.roll, through);
        let strip = self.wanted.rolls[take.roll].strips[take.strip];
        let length = &self.bench.lengths[strip.strip];
        let (near, far) = match take.backward {
            false => (length.head, length.tail),
            true => (length.tail, length.head),
        };
        for edge in [near, far] {
            self.wind(take.roll, edge.place, Some(length.positions));
            self.free(take.roll, edge, length.positions);
        }
        self.put(take.roll, strip.strip);
        self.follow();
    }

    fn mount(&mut self, roll: usize, through: bool) {
        if self.mounted == Some(roll) {
            return;
        }
        if let Some(before) = self.mounted.replace(roll) {
            self.step(RecutDeed::Unmount, Some(before));
        }
        self.step(RecutDeed::Mount, Some(roll));
        let new = !self.stands.contains_key(&roll);
        self.stands.entry(roll).or_insert(0);
        if new && through {
            let all = i64::from(self.wanted.rolls[roll].frames);
            self.wind(roll, all, None);
        }
    }

    fn wind(&mut self, roll: usize, to: i64, positions: Option<(usize, usize)>) {
        let to = u32::try_from(to).unwrap_or(0);
        let Some(at) = self.stands.insert(roll, to).filter(|at| *at != to) else {
            return;
        };
        let direction = if to > at {
            Towards::Tail
        } else {
            Towards::Head
        };
        let frame = self.name(roll, to);
        let step = self.step(RecutDeed::Wind, Some(roll));
        step.place = Some(to);
        step.frame = frame;
        step.positions = positions;
        step.direction = Some(direction);
    }

    /// Opens a join or cuts, unless it was done before or film ends there.
    fn free(&mut self, roll: usize, edge: Edge, positions: (usize, usize)) {
        let place = u32::try_from(edge.place).ok();
        let frame = place.and_then(|place| self.name(roll, place));
        match edge.freed {
            Freed::Open(joint) if self.opened.insert(joint) => {
                let strips = &self.bench.olds.strips;
                let before = joint.checked_sub(1).and_then(|i| strips.get(i));
                let before = before.map(|s| s.positions.1);
                let behind = strips.get(joint).map(|s| s.positions.0);
                let step = self.step(RecutDeed::Open, Some(roll));
                step.place = place;
                step.frame = frame;
                step.opens_after = before;
                step.opens_before = behind;
                step.positions = Some(positions);
            }
            Freed::Cut if self.cuts.insert((roll, edge.place)) => {
                let step = self.step(RecutDeed::Cut, Some(roll));
                step.place = place;
                step.frame = frame;
                step.positions = Some(positions);
            }
            _ => {}
        }
    }

    /// The frame behind a place; none behind the last one, and on leader.
    fn name(&self, roll: usize, place: u32) -> Option<FrameName> {
        match &self.sources[roll].named {
            RecutSource::Roll(id) => {
                let there = place < self.wanted.rolls[roll].frames;
                let frame = FramePos::new(place).ok().filter(|_| there)?;
                Some(FrameName {
                    roll: id.clone(),
                    frame,
                })
            }
            RecutSource::Reel => {
                let mut left = place;
                for strip in &self.bench.olds.strips {
                    let frames = strip.end - strip.begin;
                    if left >= frames {
                        left -= frames;
                        continue;
                    }
                    let Some(joints::Film::Roll(id)) = self.bench.films.film(strip.film) else {
                        return None;
                    };
                    return Some(FrameName {
                        roll: id.clone(),
                        frame: FramePos::new(strip.begin + left).ok()?,
                    });
                }
                None
            }
        }
    }

    fn put(&mut self, roll: usize, length: usize) {
        if length == self.next {
            self.take_up(Some(roll), length, None);
            return;
        }
        // The lowest pin that is free.
        let pin = (1..).find(|pin| !self.pins.contains(pin)).unwrap_or(0);
        self.pins.insert(pin);
        self.places[length] = Place::Hangs(pin);
        let positions = self.bench.lengths[length].positions;
        let step = self.step(RecutDeed::Hang, Some(roll));
        step.pin = Some(pin);
        step.positions = Some(positions);
    }

    fn take_up(&mut self, roll: Option<usize>, length: usize, pin: Option<u32>) {
        let film = &self.bench.lengths[length];
        let (positions, joined, put_back) = (film.positions, film.joined, film.put_back);
        let step = self.step(RecutDeed::TakeUp, roll);
        step.pin = pin;
        step.positions = Some(positions);
        if joined {
            let step = self.step(RecutDeed::Join, roll);
            step.positions = Some(positions);
            step.put_back = put_back;
        }
        self.places[length] = Place::OnTheReel;
        self.next = length + 1;
    }

    /// Everything whose turn has come: leader, cards, and what hangs.
    fn follow(&mut self) {
        while let Some(place) = self.places.get(self.next).copied() {
            let length = self.next;
            match place {
                Place::Ready => self.take_up(None, length, None),
                Place::Hangs(pin) => {
                    self.pins.remove(&pin);
                    let lies = self.bench.lengths[length].source;
                    let roll = self.sources.iter().position(|s| s.lies == lies);
                    self.take_up(roll, length, Some(pin));
                }
                Place::Lies | Place::OnTheReel => return,
            }
        }
    }

    fn end(&mut self) {
        if let Some(last) = self.mounted.take() {
            self.step(RecutDeed::Unmount, Some(last));
        }
        if self.bench.tail_made {
            self.step(RecutDeed::Join, None);
        }
    }
}
