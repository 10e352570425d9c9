//! What is still to be done, from the bench as it is.

use onestrand_cut::{JoinTable, Strips};
use onestrand_film::{FrameName, FramePos, FrameRange, RollId};

use super::whole::name;
use super::{AsMade, BenchState, CannotBe, Deed, Film, Laid, Next, Part, Place};

/// One strip in the order in which they are taken from their rolls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Taking {
    /// The strip of the version, counted from 0.
    pub strip: usize,
    /// Whether its tail comes first.
    pub backward: bool,
}

/// One deed still to be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkStep {
    /// The deed.
    pub deed: Deed,
    /// The strip of the version it is about, counted from 0.
    pub strip: Option<usize>,
    /// The film it is about, as it will be seen.
    pub film: Option<Film>,
    /// The pin that the film comes off.
    pub from_pin: Option<u32>,
    /// Frames wound to get there, with a sign: towards the tail is positive.
    pub wind: i64,
    /// Of a join: the last frame before it, if it is of a roll.
    pub outgoing: Option<FrameName>,
    /// Of a join: the first frame behind it, if it is of a roll.
    pub incoming: Option<FrameName>,
    /// Frames that it spoils.
    pub spoils: Vec<(RollId, FrameRange)>,
}

/// All that is left.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WorkLeft {
    /// In order.
    pub steps: Vec<WorkStep>,
    /// Pins wanted at the worst moment from now on.
    pub pins_peak: u32,
    /// Frames still to be wound.
    pub wound: u64,
}

struct Writer<'a> {
    state: BenchState,
    strips: &'a Strips,
    table: &'a JoinTable,
    left: WorkLeft,
}

impl WorkLeft {
    /// What is left of a version, its strips taken in this order. `through` names
    /// rolls that are wound to their tail before their first cut.
    ///
    /// # Errors
    /// [`CannotBe`] when the order does not fit the bench.
    pub fn of(
        state: &BenchState,
        strips: &Strips,
        order: &[Taking],
        through: &[RollId],
        table: &JoinTable,
    ) -> Result<Self, CannotBe> {
        let mut writer = Writer {
            state: state.clone(),
            strips,
            table,
            left: Self::default(),
        };
        writer.follow()?;
        for taking in order {
            writer.take(*taking, through)?;
        }
        writer.end()?;
        Ok(writer.left)
    }
}

impl Writer<'_> {
    fn does(&mut self, deed: Deed, part: Option<&Part>) -> Result<(), CannotBe> {
        let from_pin = match &deed {
            Deed::Join {
                next: Next::Film(frame),
                ..
            } => {
                let length = self.state.loose(frame)?;
                match self.state.lengths[length].place {
                    Place::Pin(pin) => Some(pin),
                    _ => None,
                }
            }
            _ => None,
        };
        let stood = |state: &BenchState| match &deed {
            Deed::Cut { roll, .. } | Deed::Wind { roll, .. } => i64::from(state.stands(roll)),
            _ => 0,
        };
        let before = stood(&self.state);
        let (links, gone) = (self.state.reel().len(), self.state.gone().len());
        self.state.apply(&deed, self.table, usize::MAX)?;
        let reel = self.state.reel();
        let is_join = matches!(deed, Deed::Join { .. });
        let outgoing = links.checked_sub(1).filter(|_| is_join);
        let outgoing = outgoing.and_then(|i| reel[i].film.last_seen(reel[i].laid));
        let incoming = reel.get(links).filter(|_| is_join);
        let incoming = incoming.and_then(|l| l.film.first_seen(l.laid));
        let spoils = self.state.gone()[gone..].iter();
        let spoils = spoils.map(|g| (g.roll.clone(), g.frames)).collect();
        let wind = stood(&self.state) - before;
        self.left.wound += wind.unsigned_abs();
        let hanging = u32::try_from(self.state.pins().count()).unwrap_or(u32::MAX);
        self.left.pins_peak = self.left.pins_peak.max(hanging);
        self.left.steps.push(WorkStep {
            deed,
            strip: part.and_then(|p| p.strip),
            film: part.map(|p| p.film.clone()),
            from_pin,
            wind,
            outgoing,
            incoming,
            spoils,
        });
        Ok(())
    }

    fn as_made(&self) -> AsMade {
        AsMade::of(&self.state, self.strips, self.table)
    }

    /// Takes what is left of a strip off its roll.
    fn take(&mut self, taking: Taking, through: &[RollId]) -> Result<(), CannotBe> {
        let made = self.as_made();
        let mut parts: Vec<Part> = made
            .parts
            .into_iter()
            .filter(|p| p.strip == Some(taking.strip) && !p.on_the_reel && self.on_roll(p))
            .collect();
        if taking.backward {
            parts.reverse();
        }
        for part in parts {
            let Film::Roll { roll, .. } = part.film.clone() else {
                continue;
            };
            self.put_on(&roll, through, &part)?;
            self.free(&part, taking.backward)?;
            self.put(&part)?;
            self.follow()?;
        }
        Ok(())
    }

    fn on_roll(&self, part: &Part) -> bool {
        self.place_of(part) == Some(Place::Roll)
    }

    fn place_of(&self, part: &Part) -> Option<Place> {
        let Film::Roll { roll, begin, .. } = &part.film else {
            return None;
        };
        let (length, _) = self.state.find(roll, *begin).ok()?;
        Some(self.state.lengths[length].place.clone())
    }

    fn put_on(&mut self, roll: &RollId, through: &[RollId], part: &Part) -> Result<(), CannotBe> {
        if self.state.mounted() != Some(roll) {
            self.does(Deed::Mount { roll: roll.clone() }, Some(part))?;
        }
        let frames = self.state.rolls().find(|(r, _)| *r == roll);
        let frames = frames.map_or(0, |(_, n)| n);
        let untouched = self.state.stands(roll) == 0;
        if through.contains(roll) && untouched {
            let to = FramePos::new(frames).unwrap_or(FramePos::MAX);
            let roll = roll.clone();
            self.does(Deed::Wind { roll, to }, Some(part))?;
        }
        Ok(())
    }

    /// Cuts a part free of what hangs on it, its joins' share left on.
    fn free(&mut self, part: &Part, backward: bool) -> Result<(), CannotBe> {
        let (Film::Roll { roll, begin, end }, Some(strip)) = (&part.film, part.strip) else {
            return Ok(());
        };
        let head = u32::from(self.strips.joints[strip].bite.in_head);
        let tail = u32::from(self.strips.joints[strip + 1].bite.out_tail);
        let mut places = [begin.saturating_sub(head), end + tail];
        if backward {
            places.reverse();
        }
        for place in places {
            let Some(behind) = place.checked_sub(1) else {
                continue;
            };
            let hangs_on = match (self.state.find(roll, place), self.state.find(roll, behind)) {
                (Ok(one), Ok(other)) => one == other,
                _ => false,
            };
            if hangs_on {
                let before = FramePos::new(place).unwrap_or(FramePos::MAX);
                let roll = roll.clone();
                self.does(Deed::Cut { roll, before }, Some(part))?;
            }
        }
        Ok(())
    }

    /// On the reel, if its turn has come; else on a pin.
    fn put(&mut self, part: &Part) -> Result<(), CannotBe> {
        let Film::Roll { roll, begin, .. } = &part.film else {
            return Ok(());
        };
        let made = self.as_made();
        let is_next = made.next().is_some_and(|next| next.film == part.film);
        let frame = name(roll, *begin);
        if is_next {
            return self.join(part);
        }
        let pin = self.state.free_pin();
        self.does(Deed::Hang { frame, pin }, Some(part))
    }

    fn join(&mut self, part: &Part) -> Result<(), CannotBe> {
        let next = match &part.film {
            Film::Roll { roll, begin, .. } => Next::Film(name(roll, *begin)),
            Film::Other { position, frames } => Next::Other {
                position: *position,
                frames: *frames,
            },
        };
        let joint = part.strip.and_then(|s| self.strips.joints.get(s));
        let Some(joint) = joint else {
            return Ok(());
        };
        let deed = Deed::Join {
            next,
            kind: joint.kind,
            laid: Laid::Right,
        };
        self.does(deed, Some(part))
    }

    /// Everything whose turn has come and that is off its roll.
    fn follow(&mut self) -> Result<(), CannotBe> {
        while let Some(part) = self.as_made().next().cloned() {
            match self.place_of(&part) {
                None => {}
                Some(Place::Pin(_) | Place::Bench | Place::Outs(_)) => self.free(&part, false)?,
                Some(Place::Roll | Place::TakeUp) => return Ok(()),
            }
            self.join(&part)?;
        }
        Ok(())
    }

    fn end(&mut self) -> Result<(), CannotBe> {
        if self.state.mounted().is_some() {
            self.does(Deed::Unmount, None)?;
        }
        let kind = self.strips.joints.last().map(|j| j.kind);
        if let Some(kind) = kind
            && self.as_made().next().is_none()
            && !self.state.is_ended()
        {
            let deed = Deed::Join {
                next: Next::TailLeader,
                kind,
                laid: Laid::Right,
            };
            self.does(deed, None)?;
        }
        Ok(())
    }
}
