//! The deeds still to be done, written one after the other.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{JoinKind, JoinTable};
use onestrand_film::{FrameName, RollId};

use super::coming::{Coming, Outlook};
use super::left::pos;
use super::whole::name;
use super::{BenchState, CannotBe, Deed, Film, Laid, Next, Place, Taking, WorkLeft, WorkStep};

/// Writes deeds and does them on a bench of its own.
pub(super) struct Writer<'a> {
    pub(super) state: BenchState,
    pub(super) table: &'a JoinTable,
    pub(super) left: WorkLeft,
    pub(super) coming: Vec<Coming>,
    /// The piece that comes next on the reel.
    pub(super) next: usize,
    /// Whether the first piece brings the head leader along, and the last one the
    /// tail leader.
    pub(super) leaders: [bool; 2],
    /// The join with the tail leader.
    tail: Option<JoinKind>,
    backward: BTreeSet<usize>,
    through: &'a [RollId],
}

impl<'a> Writer<'a> {
    pub(super) fn new(
        state: &BenchState,
        table: &'a JoinTable,
        outlook: Outlook,
        order: &[Taking],
        through: &'a [RollId],
    ) -> Self {
        let backward = order.iter().filter(|t| t.backward);
        let mut writer = Self {
            state: state.clone(),
            table,
            left: WorkLeft::default(),
            coming: outlook.coming,
            leaders: outlook.leaders,
            tail: outlook.tail,
            next: 0,
            backward: backward.map(|t| t.strip).collect(),
            through,
        };
        writer.count_pins();
        writer
    }

    /// Everything, from what lies ready to the tail leader.
    pub(super) fn all(&mut self, order: &[Taking]) -> Result<(), CannotBe> {
        self.follow()?;
        self.hang_what_is_in_hand()?;
        let mut of_strip: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (i, coming) in self.coming.iter().enumerate() {
            if let Some(strip) = coming.part.strip {
                of_strip.entry(strip).or_default().push(i);
            }
        }
        let beside = self.beside();
        for taking in order {
            let mut pieces = of_strip.get(&taking.strip).cloned().unwrap_or_default();
            if taking.backward {
                pieces.reverse();
            }
            for i in pieces {
                if i < self.next {
                    continue;
                }
                if self.is_on_roll(i) {
                    self.take(i)?;
                    self.hang_what_fell_off(&beside[i])?;
                    self.follow()?;
                } else if self.is_on_made(i) {
                    self.take_off_made(i)?;
                    self.hang_what_is_in_hand()?;
                    self.follow()?;
                }
            }
        }
        self.end()
    }

    fn count_pins(&mut self) {
        let hanging = u32::try_from(self.state.pins().count()).unwrap_or(u32::MAX);
        self.left.pins_peak = self.left.pins_peak.max(hanging);
    }

    /// Does a deed and writes it down, with the piece that it is about.
    pub(super) fn does(&mut self, deed: Deed, about: Option<usize>) -> Result<(), CannotBe> {
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
        let stood = |state: &BenchState| match (&deed, state.made_stands()) {
            (
                Deed::Cut { .. }
                | Deed::Unjoin { .. }
                | Deed::UnjoinOther { .. }
                | Deed::WindMade { .. },
                Some((made, _)),
            ) if state.is_made_mounted() => i64::from(made),
            (Deed::Cut { roll, .. } | Deed::Wind { roll, .. }, _) => i64::from(state.stands(roll)),
            _ => 0,
        };
        let before = stood(&self.state);
        let parted = self.parted(&deed);
        let (links, gone) = (self.state.reel().len(), self.state.gone().len());
        self.state.apply(&deed, self.table, usize::MAX)?;
        let reel = self.state.reel();
        let is_join = matches!(deed, Deed::Join { .. });
        let outgoing = links.checked_sub(1).filter(|_| is_join);
        let outgoing = outgoing.and_then(|i| reel[i].film.last_seen(reel[i].laid));
        let incoming = reel.get(links).filter(|_| is_join);
        let incoming = incoming.and_then(|l| l.film.first_seen(l.laid));
        let (opens, outgoing, incoming) = parted.unwrap_or((None, outgoing, incoming));
        let spoils = self.state.gone()[gone..].iter();
        let spoils = spoils.map(|g| (g.roll.clone(), g.frames)).collect();
        let wind = stood(&self.state) - before;
        let part = about.map(|i| &self.coming[i].part);
        self.left.wound += wind.unsigned_abs();
        self.left.steps.push(WorkStep {
            strip: part.and_then(|p| p.strip),
            film: part.map(|p| p.film.clone()),
            from_pin,
            wind,
            outgoing,
            outgoing_laid: match links.checked_sub(1).filter(|_| is_join) {
                Some(last) => self.state.reel()[last].laid,
                None => Laid::Right,
            },
            incoming,
            opens,
            spoils,
            deed,
        });
        if matches!(self.left.steps.last(), Some(s) if matches!(s.deed, Deed::Hang { .. })) {
            self.count_pins();
        }
        Ok(())
    }

    /// The first frame seen of a piece, which names it.
    pub(super) fn frame(&self, i: usize) -> Option<FrameName> {
        match &self.coming[i].part.film {
            Film::Roll { roll, begin, .. } => Some(name(roll, *begin)),
            Film::Other { .. } => None,
        }
    }

    /// Where a piece is: its length and link.
    pub(super) fn place(&self, i: usize) -> Option<(usize, usize)> {
        let frame = self.frame(i)?;
        self.state.where_is(&frame.roll, frame.frame.index())
    }

    /// Whether the blade must still go through before a frame.
    pub(super) fn hangs_on(&self, roll: &RollId, before: u32) -> bool {
        let Some(behind) = before.checked_sub(1) else {
            return false;
        };
        let place = self.state.where_is(roll, before);
        place.is_some() && place == self.state.where_is(roll, behind)
    }

    /// The places where the blade goes: the nearer one first.
    fn blades(&self, i: usize) -> [Option<u32>; 2] {
        let mut blades = self.coming[i].blades;
        if self.is_backward(i) {
            blades.reverse();
        }
        blades
    }

    pub(super) fn is_backward(&self, i: usize) -> bool {
        let strip = self.coming[i].part.strip;
        strip.is_some_and(|s| self.backward.contains(&s))
    }

    /// Whether a place is the head or the tail of a whole roll, where no blade
    /// ever goes.
    fn is_roll_end(&self, roll: &RollId, at: u32) -> bool {
        at == 0 || self.state.rolls.get(roll) == Some(&at)
    }

    /// Whether a piece is still to be taken off its roll.
    pub(super) fn is_on_roll(&self, i: usize) -> bool {
        let Some((length, _)) = self.place(i) else {
            return false;
        };
        if self.state.lengths[length].place != Place::Roll {
            return false;
        }
        let Film::Roll { roll, .. } = &self.coming[i].part.film else {
            return false;
        };
        let [near, far] = self.blades(i);
        let held = |at: Option<u32>| at.is_some_and(|at| self.hangs_on(roll, at));
        // The end of a roll is wound off, where no blade frees it.
        let wound_off = |at: u32| {
            let wound = self.state.is_wound(roll) && self.state.stands(roll) == at;
            !self.is_roll_end(roll, at) || wound
        };
        held(near) || held(far) || !far.is_none_or(wound_off)
    }

    /// The first place that a roll must be wound to for a piece, onward: where the
    /// blade goes, or where the roll stands if film ends there already.
    pub(super) fn first_place(&self, i: usize, stands: u32) -> u32 {
        let Film::Roll { roll, .. } = &self.coming[i].part.film else {
            return stands;
        };
        match self.coming[i].blades {
            [Some(low), Some(high)] if !self.hangs_on(roll, low) && low != 0 => {
                stands.clamp(low, high.max(low))
            }
            [Some(low), _] => low,
            _ => stands,
        }
    }

    /// Takes a piece off its roll.
    fn take(&mut self, i: usize) -> Result<(), CannotBe> {
        let Film::Roll { roll, .. } = self.coming[i].part.film.clone() else {
            return Ok(());
        };
        if self.state.mounted() != Some(&roll) {
            self.does(Deed::Mount { roll: roll.clone() }, Some(i))?;
        }
        if self.through.contains(&roll) && !self.state.is_wound(&roll) {
            let frames = self.state.rolls.get(&roll).copied().unwrap_or(0);
            self.wind(&roll, frames, i)?;
        }
        let [near, far] = self.blades(i);
        if let (Some(near), Some(far)) = (near, far) {
            let stands = self.state.stands(&roll);
            let on_the_way = (stands.min(far)..=stands.max(far)).contains(&near);
            if self.is_roll_end(&roll, near) && !on_the_way {
                self.wind(&roll, near, i)?;
            }
        }
        self.cut_free(i)?;
        if let Some(far) = far
            && self.is_roll_end(&roll, far)
            && self.state.stands(&roll) != far
        {
            self.wind(&roll, far, i)?;
        }
        self.put(i)
    }

    fn wind(&mut self, roll: &RollId, to: u32, about: usize) -> Result<(), CannotBe> {
        let roll = roll.clone();
        let to = pos(to);
        self.does(Deed::Wind { roll, to }, Some(about))
    }

    /// Cuts a piece free of what hangs on it, its joins' share left on.
    fn cut_free(&mut self, i: usize) -> Result<(), CannotBe> {
        let Film::Roll { roll, .. } = self.coming[i].part.film.clone() else {
            return Ok(());
        };
        for at in self.blades(i).into_iter().flatten() {
            if self.hangs_on(&roll, at) {
                let (roll, before) = (roll.clone(), pos(at));
                self.does(Deed::Cut { roll, before }, Some(i))?;
            }
        }
        Ok(())
    }

    /// On the reel, if its turn has come; else on a pin.
    pub(super) fn put(&mut self, i: usize) -> Result<(), CannotBe> {
        if i == self.next {
            return self.join();
        }
        let Some(frame) = self.frame(i) else {
            return Ok(());
        };
        let pin = self.state.free_pin();
        self.does(Deed::Hang { frame, pin }, Some(i))
    }

    /// Everything whose turn has come and that is off its roll.
    fn follow(&mut self) -> Result<(), CannotBe> {
        let waits = |w: &Self| w.is_on_roll(w.next) || w.is_on_made(w.next);
        while self.next < self.coming.len() && !waits(self) {
            self.join()?;
        }
        Ok(())
    }

    /// For each piece those before and behind it on its roll.
    fn beside(&self) -> Vec<Vec<usize>> {
        let film = |i: &usize| match &self.coming[*i].part.film {
            Film::Roll { roll, begin, .. } => Some((roll, *begin)),
            Film::Other { .. } => None,
        };
        let mut on_rolls: Vec<usize> = (0..self.coming.len()).collect();
        on_rolls.sort_by_key(film);
        let mut beside = vec![Vec::new(); self.coming.len()];
        for pair in on_rolls.windows(2) {
            beside[pair[0]].push(pair[1]);
            beside[pair[1]].push(pair[0]);
        }
        beside
    }

    /// What was cut free and neither hung nor joined.
    fn hang_what_is_in_hand(&mut self) -> Result<(), CannotBe> {
        let all: Vec<usize> = (self.next..self.coming.len()).collect();
        self.hang_what_fell_off(&all)
    }

    fn hang_what_fell_off(&mut self, pieces: &[usize]) -> Result<(), CannotBe> {
        for i in pieces.iter().copied() {
            if i < self.next {
                continue;
            }
            let of = self.place(i).map(|(c, _)| &self.state.lengths[c].place);
            let fell_off = match of {
                Some(Place::Roll) => !self.is_on_roll(i),
                Some(Place::Made) => !self.is_on_made(i),
                _ => false,
            };
            if fell_off {
                self.put(i)?;
            }
        }
        Ok(())
    }

    /// Joins the next piece to the reel, with all that hangs together with it.
    fn join(&mut self) -> Result<(), CannotBe> {
        let first = self.next;
        let more = self.coming[first + 1..].iter();
        let last = first + more.take_while(|c| c.joined_before).count();
        self.part_from_wrong(first, last)?;
        let film = (first..=last).find_map(|i| self.frame(i));
        let next = match (&self.coming[first].part.film, film) {
            (Film::Other { position, frames }, None)
                if last + 1 == self.coming.len() && self.leaders[1] =>
            {
                Next::Last {
                    position: *position,
                    frames: *frames,
                }
            }
            (Film::Other { position, frames }, None) => Next::Other {
                position: *position,
                frames: *frames,
            },
            (Film::Other { position, frames }, _) if first == last => Next::Other {
                position: *position,
                frames: *frames,
            },
            (_, Some(frame)) => Next::Film(frame),
            (_, None) => return Ok(()),
        };
        let kind = self.coming[first].kind;
        let laid = Laid::Right;
        self.next = last + 1;
        if first == 0 && self.leaders[0] {
            return self.does(Deed::Lead, Some(first));
        }
        self.does(Deed::Join { next, kind, laid }, Some(first))
    }

    /// The rewinds are cleared, and the tail leader joined if nothing is waited
    /// for.
    fn end(&mut self) -> Result<(), CannotBe> {
        if self.state.mounted().is_some() || self.state.is_made_mounted() {
            self.does(Deed::Unmount, None)?;
        }
        if let Some(kind) = self.tail
            && self.next == self.coming.len()
            && !self.state.is_ended()
        {
            let (next, laid) = (Next::TailLeader, Laid::Right);
            self.does(Deed::Join { next, kind, laid }, None)?;
        }
        Ok(())
    }
}
