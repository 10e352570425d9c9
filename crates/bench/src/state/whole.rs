//! The state itself, and what each deed does to it.

use std::collections::BTreeMap;

use onestrand_cut::JoinTable;
use onestrand_film::{FrameName, FramePos, FrameRange, RollId};

use super::made_film::MadeFilm;
use super::whereabouts::Whereabouts;
use super::{CannotBe, Deed, Film, Gone, Length, Link, Place};

/// The bench as it is at a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BenchState {
    pub(super) lengths: Vec<Length>,
    pub(super) whereabouts: Whereabouts,
    pub(super) gone: Vec<Gone>,
    pub(super) let_go: Vec<(RollId, FrameRange)>,
    pub(super) rolls: BTreeMap<RollId, u32>,
    pub(super) mounted: Option<RollId>,
    stands: BTreeMap<RollId, u32>,
    /// The film that was turned back last.
    pub(super) made: Option<MadeFilm>,
    pub(super) wound: u64,
    pub(super) ended: Option<super::Made>,
    cuts: usize,
    joins: usize,
    pub(super) mountings: usize,
}

/// Where the frames of a roll are; they sum to the roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RollCount {
    /// On the take-up reel.
    pub on_the_reel: u32,
    /// On pins and on the bench.
    pub hanging: u32,
    /// On the film turned back.
    pub made: u32,
    /// With the roll, or on reels of outs.
    pub left: u32,
    /// No more.
    pub gone: u32,
}

pub(super) fn name(roll: &RollId, frame: u32) -> FrameName {
    FrameName {
        roll: roll.clone(),
        frame: FramePos::new(frame).unwrap_or(FramePos::MAX),
    }
}

pub(super) fn range(begin: u32, end: u32) -> Option<FrameRange> {
    FrameRange::new(FramePos::new(begin).ok()?, FramePos::new(end).ok()?).ok()
}

impl BenchState {
    /// A bench with these rolls, whole and heads out, and a head leader on the
    /// take-up reel.
    #[must_use]
    pub fn new(rolls: impl IntoIterator<Item = (RollId, u32)>) -> Self {
        let rolls: BTreeMap<RollId, u32> = rolls.into_iter().collect();
        let whole = rolls
            .iter()
            .filter(|(_, frames)| **frames > 0)
            .map(|(roll, frames)| {
                let film = Film::Roll {
                    roll: roll.clone(),
                    begin: 0,
                    end: *frames,
                };
                Length::of(film, Place::Roll)
            });
        let reel = Length {
            links: Vec::new(),
            tail: None,
            place: Place::TakeUp,
        };
        let lengths: Vec<Length> = std::iter::once(reel).chain(whole).collect();
        let mut state = Self {
            lengths,
            whereabouts: Whereabouts::default(),
            gone: Vec::new(),
            let_go: Vec::new(),
            rolls,
            mounted: None,
            stands: BTreeMap::new(),
            made: None,
            wound: 0,
            ended: None,
            cuts: 0,
            joins: 0,
            mountings: 0,
        };
        (1..state.lengths.len()).for_each(|length| state.note(length));
        state
    }

    /// All film that hangs together, the reel first.
    #[must_use]
    pub fn lengths(&self) -> &[Length] {
        &self.lengths
    }

    /// What is on the take-up reel, from its head.
    #[must_use]
    pub fn reel(&self) -> &[Link] {
        self.lengths.first().map_or(&[], |c| c.links.as_slice())
    }

    /// Frames that are no more, in the order in which they went.
    #[must_use]
    pub fn gone(&self) -> &[Gone] {
        &self.gone
    }

    /// The roll on the rewinds.
    #[must_use]
    pub const fn mounted(&self) -> Option<&RollId> {
        self.mounted.as_ref()
    }

    /// The frame of a roll that lies at the splicer, or did when it came off.
    #[must_use]
    pub fn stands(&self, roll: &RollId) -> u32 {
        self.stands.get(roll).copied().unwrap_or(0)
    }

    /// Frames wound so far.
    #[must_use]
    pub const fn wound(&self) -> u64 {
        self.wound
    }

    /// Cuts made, joins made and rolls put on so far, joins opened again counted.
    #[must_use]
    pub const fn done(&self) -> (usize, usize, usize) {
        (self.cuts, self.joins, self.mountings)
    }

    /// Whether the tail leader is joined.
    #[must_use]
    pub const fn is_ended(&self) -> bool {
        self.ended.is_some()
    }

    /// What hangs on pins: the pin, and its length.
    pub fn pins(&self) -> impl Iterator<Item = (u32, &Length)> {
        self.lengths.iter().filter_map(|c| match c.place {
            Place::Pin(pin) => Some((pin, c)),
            _ => None,
        })
    }

    /// Where the frames of a roll are.
    #[must_use]
    pub fn count(&self, roll: &RollId) -> RollCount {
        let mut count = RollCount::default();
        for length in &self.lengths {
            let of = |l: &&Link| matches!(&l.film, Film::Roll { roll: r, .. } if r == roll);
            let frames: u32 = length
                .links
                .iter()
                .filter(of)
                .map(|l| l.film.frames())
                .sum();
            match length.place {
                Place::TakeUp => count.on_the_reel += frames,
                Place::Pin(_) | Place::Bench => count.hanging += frames,
                Place::Made => count.made += frames,
                Place::Roll | Place::Outs(_) => count.left += frames,
            }
        }
        let gone = self.gone.iter().filter(|g| g.roll == *roll);
        count.gone = gone.map(|g| g.frames.len().count()).sum();
        count
    }

    /// The rolls, each with its length in frames.
    pub fn rolls(&self) -> impl Iterator<Item = (&RollId, u32)> {
        self.rolls.iter().map(|(r, n)| (r, *n))
    }

    /// Does a deed. `entry` is its number in the log.
    ///
    /// # Errors
    /// [`CannotBe`] when it cannot have happened; nothing is changed then.
    pub fn apply(&mut self, deed: &Deed, table: &JoinTable, entry: usize) -> Result<(), CannotBe> {
        match deed {
            Deed::Mount { roll } => self.mount(roll),
            Deed::Unmount => {
                self.unmount();
                Ok(())
            }
            Deed::TurnBack { others } => self.turn_back(others),
            Deed::MountMade => self.mount_made(),
            Deed::WindMade { to } => self.wind_made(to.index()),
            Deed::Lead => self.lead(),
            Deed::Wind { roll, to } => self.wind(roll, to.index()),
            Deed::Cut { roll, before } => self.cut(roll, before.index()),
            Deed::Hang { frame, pin } => self.hang(frame, *pin),
            Deed::Join { next, kind, laid } => {
                let made = super::Made { kind: *kind, entry };
                self.join(next, made, *laid, table)?;
                self.joins += 1;
                Ok(())
            }
            Deed::Open { join } => self.open(*join, table, entry),
            Deed::Tear { roll, frames } => self.tear(roll, *frames, entry),
            Deed::LetGo { roll, frames } => self.let_go_of(roll, *frames),
            Deed::Unjoin { frame, join } => {
                let length = self.loose(frame)?;
                self.unjoin(length, *join, table, entry)
            }
            Deed::UnjoinOther { position, join } => {
                let place = super::rests::loose_others(self).get(position).copied();
                let (length, _) = place.ok_or(CannotBe::NoJoin { join: *join })?;
                self.unjoin(length, *join, table, entry)
            }
            Deed::MakeUp { frame, reel } => {
                let length = self.loose(frame)?;
                self.lengths[length].place = Place::Outs(reel.clone());
                Ok(())
            }
        }
    }

    fn mount(&mut self, roll: &RollId) -> Result<(), CannotBe> {
        if !self.rolls.contains_key(roll) {
            return Err(CannotBe::NoRoll { roll: roll.clone() });
        }
        if self.mounted.as_ref() != Some(roll) {
            self.unmount();
            self.mounted = Some(roll.clone());
            self.mountings += 1;
        }
        Ok(())
    }

    fn wind(&mut self, roll: &RollId, to: u32) -> Result<(), CannotBe> {
        let frames = self.rolls.get(roll).copied();
        let frames = frames.ok_or_else(|| CannotBe::NoRoll { roll: roll.clone() })?;
        if to > frames {
            let frame = name(roll, to);
            return Err(CannotBe::Beyond { frame });
        }
        if self.mounted.as_ref() != Some(roll) {
            return Err(CannotBe::NotMounted { roll: roll.clone() });
        }
        let stood = self.stands.insert(roll.clone(), to).unwrap_or(0);
        self.wound += u64::from(stood.abs_diff(to));
        Ok(())
    }

    fn cut(&mut self, roll: &RollId, before: u32) -> Result<(), CannotBe> {
        let ends_there = || CannotBe::EndsThere {
            frame: name(roll, before),
        };
        let (length, link) = self.find(roll, before)?;
        let behind = before.checked_sub(1).ok_or_else(ends_there)?;
        if !self.lengths[length].links[link].film.holds(roll, behind) {
            return Err(ends_there());
        }
        if self.lengths[length].place == Place::Roll {
            if self.mounted.as_ref() != Some(roll) {
                return Err(CannotBe::NotMounted { roll: roll.clone() });
            }
            self.wind(roll, before)?;
        }
        if self.lengths[length].place == Place::Made {
            self.wind_made_to(length, link, before)?;
        }
        self.divide(length, link, before);
        self.cuts += 1;
        Ok(())
    }

    fn hang(&mut self, frame: &FrameName, pin: u32) -> Result<(), CannotBe> {
        if pin == 0 {
            return Err(CannotBe::NoPin { pin });
        }
        let length = self.loose(frame)?;
        let there = |c: &Length| c.place == Place::Pin(pin);
        if let Some(other) = self.lengths.iter().position(there)
            && other != length
        {
            let frame = first_frame(&self.lengths[other]).unwrap_or_else(|| frame.clone());
            return Err(CannotBe::PinTaken { pin, frame });
        }
        self.lengths[length].place = Place::Pin(pin);
        Ok(())
    }

    fn let_go_of(&mut self, roll: &RollId, frames: FrameRange) -> Result<(), CannotBe> {
        let (begin, end) = (frames.begin().index(), frames.end().index());
        let all = self.rolls.get(roll).copied();
        let all = all.ok_or_else(|| CannotBe::NoRoll { roll: roll.clone() })?;
        if end > all {
            let frame = name(roll, end - 1);
            return Err(CannotBe::Beyond { frame });
        }
        if self.within(roll, begin, end).is_empty() {
            self.find(roll, begin)?;
        }
        self.let_go.push((roll.clone(), frames));
        Ok(())
    }

    /// Whether a roll was ever wound.
    pub(super) fn is_wound(&self, roll: &RollId) -> bool {
        self.stands.contains_key(roll)
    }

    /// The length of a frame that may be carried elsewhere: not on the reel.
    pub(super) fn loose(&self, frame: &FrameName) -> Result<usize, CannotBe> {
        let (length, _) = self.find(&frame.roll, frame.frame.index())?;
        match self.lengths[length].place {
            Place::TakeUp => Err(CannotBe::OnTheReel {
                frame: frame.clone(),
            }),
            _ => Ok(length),
        }
    }

    /// The pin of the lowest number that is free.
    #[must_use]
    pub fn free_pin(&self) -> u32 {
        let taken: Vec<u32> = self.pins().map(|(pin, _)| pin).collect();
        (1..).find(|pin| !taken.contains(pin)).unwrap_or(u32::MAX)
    }
}

pub(super) fn first_frame(length: &Length) -> Option<FrameName> {
    length.links.iter().find_map(|l| match &l.film {
        Film::Roll { roll, begin, .. } => Some(name(roll, *begin)),
        Film::Other { .. } => None,
    })
}
