//! Follows a projector through what is seen and heard of it.

use crate::error::FollowError;
use crate::event::{Event, Seen};
use crate::live::{Comes, Live, Lost};
use crate::machine::{Habits, Machine};
use crate::normal::{NORMAL_95, Part, half_range};
use crate::readings::{Reading, seen};

/// Two taps closer than this are one. Unit: seconds.
const TWICE: f64 = 0.25;
/// An event that comes so late is still put where it belongs. Unit: seconds.
const HELD_BACK: f64 = 6.0;
/// Farther off than this it is lost: half a second and more at any speed. Unit: frames.
const WIDE: f64 = 18.0;
/// Below this share a reading is not the only one.
const SURE: f64 = 0.7;
/// Readings closer than this say the same for the hand. Unit: frames.
const APART: f64 = 3.0;
/// So many taps that fit nothing and it is lost.
const STRAYS: usize = 2;

/// A projector that is followed.
#[derive(Debug, Clone)]
pub struct Follower {
    habits: Habits,
    cuts: Vec<u32>,
    /// What is known up to the first of `recent`.
    base: Vec<Reading>,
    recent: Vec<Event>,
    now: Vec<Reading>,
    last_tap: Option<(f64, Option<u32>)>,
}

impl Follower {
    /// Follows a version with cuts at these running frames, in any order.
    ///
    /// # Errors
    /// [`FollowError::CannotBe`] where a habit is not above 0.
    pub fn new(habits: Habits, cuts: &[u32]) -> Result<Self, FollowError> {
        use crate::error::positive;
        positive("the speed of the projector", habits.nominal)?;
        positive("how far its speed may be off", habits.off_nominal)?;
        positive("how far taps scatter", habits.hand)?;
        positive("the time of warming", habits.warms_in)?;
        positive("the run-up", habits.run_up)?;
        let mut cuts = cuts.to_vec();
        cuts.sort_unstable();
        cuts.dedup();
        let fresh = vec![Reading::fresh(&habits, f64::NEG_INFINITY)];
        Ok(Self {
            habits,
            cuts,
            base: fresh.clone(),
            recent: Vec::new(),
            now: fresh,
            last_tap: None,
        })
    }

    /// Takes in what was seen.
    ///
    /// # Errors
    /// [`FollowError`] for a tap that cannot be; nothing is changed then.
    pub fn see(&mut self, event: Event) -> Result<(), FollowError> {
        if !event.at.is_finite() {
            let what = "the time of an event";
            return Err(FollowError::CannotBe {
                what,
                found: event.at,
            });
        }
        self.can_be(&event)?;
        match event.seen {
            Seen::Tap { cut } => {
                let last = cut.or(self.last_tap.and_then(|(_, cut)| cut));
                self.last_tap = Some((event.at, last));
            }
            Seen::Started { .. } => self.last_tap = None,
            _ => {}
        }
        self.put(event);
        Ok(())
    }

    fn can_be(&self, event: &Event) -> Result<(), FollowError> {
        let number = |what, found: f64| match found.is_finite() {
            true => Ok(()),
            false => Err(FollowError::CannotBe { what, found }),
        };
        match event.seen {
            Seen::Tap { cut } => return self.tap_can_be(event.at, cut),
            Seen::Started { frame } => number("the frame in the gate", frame)?,
            Seen::Counter { frame, error } => {
                number("the counter", frame)?;
                crate::error::positive("how far the counter may be off", error)?;
            }
            Seen::Heard { count, error } => {
                number("the count", count)?;
                crate::error::positive("how far the count may be off", error)?;
            }
            Seen::Counts { from, shares } => {
                number("the frame at count 0", from)?;
                let least = shares.iter().copied().fold(f64::INFINITY, f64::min);
                let sum = shares.iter().sum::<f64>();
                number("how likely it is", if least < 0.0 { f64::NAN } else { sum })?;
                crate::error::positive("how likely it is", sum)?;
            }
            Seen::Slipped { frames } if frames > 0.0 => {}
            Seen::Slipped { frames } => {
                let what = "a slip of the count";
                return Err(FollowError::CannotBe {
                    what,
                    found: frames,
                });
            }
        }
        Ok(())
    }

    fn tap_can_be(&self, at: f64, cut: Option<u32>) -> Result<(), FollowError> {
        if let Some(frame) = cut.filter(|cut| self.cuts.binary_search(cut).is_err()) {
            return Err(FollowError::NoSuchCut { frame });
        }
        let Some((last, named)) = self.last_tap else {
            return Ok(());
        };
        if at < last {
            return Err(FollowError::Earlier { seconds: last - at });
        }
        if at - last < TWICE {
            return Err(FollowError::TappedTwice { seconds: at - last });
        }
        // What the hand named last, or what its last tap was surely taken for.
        let sure = self.now.first().filter(|reading| reading.share > 0.95);
        let before = named.max(sure.and_then(|reading| reading.last));
        match (cut, before) {
            (Some(frame), Some(before)) if frame <= before => {
                Err(FollowError::WrongOrder { frame, before })
            }
            _ => Ok(()),
        }
    }

    /// Puts an event where its time is, and reckons anew from there.
    fn put(&mut self, event: Event) {
        let place = self.recent.partition_point(|one| one.at <= event.at);
        self.recent.insert(place, event);
        if place + 1 == self.recent.len() {
            self.now = self.after(&self.now, &event);
        } else {
            self.now = self
                .recent
                .iter()
                .fold(self.base.clone(), |now, one| self.after(&now, one));
        }
        let newest = self.recent.last().map_or(event.at, |one| one.at);
        let old = self
            .recent
            .partition_point(|one| one.at < newest - HELD_BACK);
        let folded: Vec<Event> = self.recent.drain(..old).collect();
        for one in &folded {
            self.base = self.after(&self.base, one);
        }
    }

    fn after(&self, before: &[Reading], event: &Event) -> Vec<Reading> {
        // The clock begins with the first event.
        let begun: Vec<Reading>;
        let before = if before.iter().any(|one| one.machine.at.is_infinite()) {
            begun = vec![Reading::fresh(&self.habits, event.at)];
            &begun
        } else {
            before
        };
        seen(before, event, &self.cuts, &self.habits)
    }

    fn best(&self) -> Option<&Reading> {
        self.now.first().filter(|reading| reading.is_somewhere())
    }

    /// Where it is at a time; nothing while nothing is known.
    #[must_use]
    pub fn live(&self, at: f64) -> Option<Live> {
        let best = self.best()?;
        let machine = best.machine.later(&self.habits, at);
        let (late, late_variance) = machine.late();
        Some(Live {
            frame: self.frame_of(best, &machine, at),
            frame_error: self.frame_error(&machine, at),
            speed: machine.speed(),
            speed_error: NORMAL_95 * machine.speed_variance().sqrt(),
            still_to_come: machine.still_to_come(),
            late,
            late_error: NORMAL_95 * late_variance.sqrt(),
        })
    }

    fn frame_of(&self, reading: &Reading, machine: &Machine, at: f64) -> f64 {
        machine.frame() + reading.still_behind(&self.habits, at)
    }

    /// Half the range of 95 of 100, over all readings that are carried on.
    fn frame_error(&self, best: &Machine, at: f64) -> f64 {
        let all: Vec<Part> = self
            .now
            .iter()
            .filter(|reading| reading.is_somewhere())
            .map(|reading| {
                let machine = reading.machine.later(&self.habits, at);
                Part {
                    share: reading.share,
                    off: machine.frame() - best.frame(),
                    deviation: machine.frame_variance().sqrt(),
                }
            })
            .collect();
        half_range(&all)
    }

    /// When a frame comes, as far as is known now; nothing for a frame that is gone.
    #[must_use]
    pub fn comes(&self, frame: f64) -> Option<Comes> {
        let best = self.best()?;
        let mut at = best.machine.at;
        for _ in 0..30 {
            let machine = best.machine.later(&self.habits, at);
            let left = frame - self.frame_of(best, &machine, at);
            // A machine that is known to stand has no next frame.
            if machine.speed() <= 0.0 {
                return None;
            }
            let next = at + left / machine.speed();
            if (next - at).abs() < 1e-6 {
                break;
            }
            at = next.max(best.machine.at);
        }
        let machine = best.machine.later(&self.habits, at);
        if self.frame_of(best, &machine, at) - frame > 0.5 {
            return None;
        }
        Some(Comes {
            frame,
            at,
            error_frames: self.frame_error(&machine, at),
        })
    }

    /// Whether it is lost at a time, and how to find it again.
    #[must_use]
    pub fn lost(&self, at: f64) -> Option<Lost> {
        let Some(best) = self.best() else {
            return Some(Lost::NotYet);
        };
        let taps = best
            .taken
            .iter()
            .rev()
            .take_while(|cut| cut.is_none())
            .count();
        if taps >= STRAYS {
            return Some(Lost::Strays { taps });
        }
        let machine = best.machine.later(&self.habits, at);
        let other = self
            .now
            .iter()
            .skip(1)
            .map(|reading| reading.machine.later(&self.habits, at).frame())
            .find(|frame| (frame - machine.frame()).abs() > APART);
        if let Some(other) = other.filter(|_| best.share < SURE) {
            let one = machine.frame();
            return Some(Lost::TwoReadings { one, other });
        }
        let alone = NORMAL_95 * machine.frame_variance().sqrt();
        (alone > WIDE).then_some(Lost::TooWide { frames: alone })
    }

    /// What each tap was taken for, in order; nothing for one that fits no cut.
    #[must_use]
    pub fn taken(&self) -> &[Option<u32>] {
        self.now.first().map_or(&[], |reading| &reading.taken)
    }

    /// The cut to tap next at a time: the next that is still to come.
    #[must_use]
    pub fn next_cut(&self, at: f64) -> Option<u32> {
        let Some(best) = self.best() else {
            return self.cuts.first().copied();
        };
        let machine = best.machine.later(&self.habits, at);
        let frame = self.frame_of(best, &machine, at);
        // One that has just gone by may still be tapped late.
        let slack = machine.speed() * 3.0 * self.habits.hand;
        self.cuts
            .iter()
            .copied()
            .filter(|cut| best.last.is_none_or(|last| *cut > last))
            .find(|cut| f64::from(*cut) > frame - slack)
    }

    /// How far what is heard is tied to frames, one standard deviation; nothing where it is not.
    #[must_use]
    pub fn heard_error(&self) -> Option<f64> {
        let machine = &self.best()?.machine;
        let error = machine.count_variance().sqrt();
        (error < 1e3).then_some(error)
    }
}
