//! The Bench room as a document.

use std::collections::BTreeMap;

use onestrand_bench::{AsMade, BenchTimes, CardRules, Deed, Film, Length, WorkCount, WorkLeft};
use onestrand_cut::Strand;
use onestrand_store::Production;

use super::acts_left::{Acts, span};
use super::cards::Cards;
use super::inner_joins::inner_joins;
use super::line::BenchLine;
use super::room::{Room, Work, Written, cuts_roll};
use super::times::times;
use super::versions_told::{assumptions, versions};
use super::words::{deed_words, frame, frames, shot};
use crate::documents::{
    BenchLineDocument, BenchRollDocument, BenchRoomDocument, BenchTimesDocument, BenchWaitDocument,
    CountOf, HangingDocument, MountedDocument, OnTheBenchDocument, PinDocument,
};
use crate::landmarks::{landmarks, shrinkages};
use crate::{ProductionError, bench_set_up, strand};

/// The bench of a film, as it is now.
///
/// # Errors
/// [`ProductionError::Store`], [`ProductionError::CannotBe`] when the log of the
/// bench contradicts itself.
pub fn bench_room(production: &Production) -> Result<BenchRoomDocument, ProductionError> {
    let room = Room::of(production)?;
    let strand = strand::strand(production)?;
    let on_the_bench = match &room.work {
        Some(work) => Some(Told::new(production, &room, work, &strand)?.document()?),
        None => None,
    };
    Ok(BenchRoomDocument {
        revision: production.revision()?.number(),
        lines: room.len(),
        versions: versions(production, &room, &strand)?,
        assumptions: assumptions(production, room.log.table()),
        set_up: bench_set_up(production)?,
        on_the_bench,
    })
}

/// All that the document of a version on the bench is told from.
struct Told<'a> {
    room: &'a Room,
    work: &'a Work,
    strand: &'a Strand,
    cards: Cards<'a>,
    left: WorkLeft,
}

impl<'a> Told<'a> {
    fn new(
        production: &Production,
        room: &'a Room,
        work: &'a Work,
        strand: &'a Strand,
    ) -> Result<Self, ProductionError> {
        let count = WorkCount::of(&work.version, strand, room.log.table());
        let rolls = count.rolls();
        let cards = Cards {
            strand,
            landmarks: landmarks(production, &rolls)?,
            rules: CardRules {
                limit: bench_set_up(production)?.longest_count,
                shrinkage: shrinkages(production, &rolls)?,
            },
            count,
        };
        Ok(Self {
            left: room.left()?,
            room,
            work,
            strand,
            cards,
        })
    }

    fn document(&self) -> Result<OnTheBenchDocument, ProductionError> {
        let (room, work, left) = (self.room, self.work, &self.left);
        let state = room.log.state();
        let seen = work.seen_from(state, room.log.table());
        let made = AsMade::of(&seen, &work.strips, room.log.table());
        let done = self.done();
        let of = |code: &str| done.get(code).copied().unwrap_or(0);
        let to_do = |code: &str| {
            let all = left.steps.iter().filter(|s| s.deed.code() == code);
            u64::try_from(all.count()).unwrap_or(u64::MAX)
        };
        let counted = |code: &str| CountOf {
            done: of(code),
            all: of(code) + to_do(code),
        };
        let acts = Acts {
            room,
            work,
            cards: &self.cards,
            done: done.clone(),
        };
        let learned = times(room, self.strand.gauge());
        let usual = learned.times;
        let wound = state.wound().saturating_sub(room.wound_before());
        let hanging = u64::try_from(state.pins().count()).unwrap_or(u64::MAX);
        let on_reel = made.parts.iter().filter(|p| p.on_the_reel);
        Ok(OnTheBenchDocument {
            cut: work.name.clone(),
            made_of: work.made_of.as_ref().map(|(name, _)| name.clone()),
            begun: work.begun.clone(),
            join: work.version.usual_join().word().to_owned(),
            pins_owned: work.pins,
            winding: work.winding.code().to_owned(),
            planned_frames: work.version.frames().count().into(),
            frames: made.frames(),
            reel_frames: on_reel.map(|p| u64::from(p.film.frames())).sum(),
            done: left.steps.is_empty() && state.is_ended(),
            roll: self.mounted(),
            wound: CountOf {
                done: wound,
                all: wound + left.wound,
            },
            cuts: counted("cut"),
            joins: counted("join"),
            opened: self.opened(counted("open"), counted("unjoin")),
            mends: work.mends,
            wrong_joins: match work.mends {
                true => 0,
                false => room.wrong_joins()?,
            },
            pins_taken: CountOf {
                done: hanging,
                all: work.pins.into(),
            },
            minutes_left: (!left.steps.is_empty()).then(|| self.minutes(&usual)),
            times: BenchTimesDocument {
                cut: usual.cut_seconds,
                join: usual.join_seconds,
                mount: usual.mount_seconds,
                foot: usual.foot_seconds,
                learned_from: u32::try_from(learned.cuts + learned.joins).unwrap_or(u32::MAX),
            },
            pins: self.pins(),
            inner_joins: inner_joins(state),
            acts: acts.all(left),
            waits: self.waits(),
            done_lines: self.lines(),
            rolls: self.rolls(),
            passed: made
                .passed
                .iter()
                .filter_map(|part| {
                    let positions = work.positions(part.strip?)?;
                    let count = frames(part.film.frames().into());
                    Some(format!("{} of {}", count, shot(positions)))
                })
                .collect(),
        })
    }

    /// Deeds of this version that stand, by kind.
    fn done(&self) -> BTreeMap<&'static str, u64> {
        let mut done = BTreeMap::new();
        for written in self.room.since_begun().filter(|l| l.struck_by.is_none()) {
            if let Some(deed) = self.deed(written) {
                *done.entry(deed.code()).or_default() += 1;
            }
        }
        done
    }

    fn deed(&self, written: &Written) -> Option<&Deed> {
        let entry = self.room.log.entries().get(written.entry?)?;
        match entry {
            onestrand_bench::Entry::Deed(deed) => Some(deed),
            onestrand_bench::Entry::Strike { .. } => None,
        }
    }

    fn mounted(&self) -> Option<MountedDocument> {
        let state = self.room.log.state();
        if let (true, Some((stands, frames))) = (state.is_made_mounted(), state.made_stands()) {
            let made_of = self.work.made_of.as_ref();
            return Some(MountedDocument {
                roll: made_of.map_or_else(String::new, |(name, _)| name.clone()),
                is_made: true,
                stands,
                frames,
                lies: lies(stands, frames).to_owned(),
            });
        }
        let roll = state.mounted()?;
        let frames = self.strand.roll(roll).map_or(0, |r| r.frames.count());
        let stands = state.stands(roll);
        Some(MountedDocument {
            roll: roll.to_string(),
            is_made: false,
            stands,
            frames,
            lies: lies(stands, frames).to_owned(),
        })
    }

    /// Joins opened on the reel and off it.
    fn opened(&self, on: CountOf, off: CountOf) -> CountOf {
        CountOf {
            done: on.done + off.done,
            all: on.all + off.all,
        }
    }

    /// An estimate has no seconds.
    fn minutes(&self, times: &BenchTimes) -> f64 {
        (self.left.minutes(times, self.strand.gauge()) * 10.0).round() / 10.0
    }

    fn pins(&self) -> Vec<PinDocument> {
        let hung: BTreeMap<u32, &Length> = self.room.log.state().pins().collect();
        let last = hung.keys().next_back().copied().unwrap_or(0);
        (1..=self.work.pins.max(last))
            .map(|pin| PinDocument {
                pin,
                hangs: hung.get(&pin).and_then(|l| self.hangs(l)),
            })
            .collect()
    }

    fn hangs(&self, length: &Length) -> Option<HangingDocument> {
        let film = length.links.iter().map(|l| &l.film);
        let first = film.clone().find(|f| matches!(f, Film::Roll { .. }))?;
        let Film::Roll { roll, begin, end } = first else {
            return None;
        };
        let middle = begin.midpoint(*end);
        let strip = self.work.strip_of(roll, middle);
        let positions = strip.and_then(|s| self.work.positions(s));
        let takes = self.strand.takes_of(roll).iter();
        let take = takes.rev().find(|t| t.span.range.begin().index() <= middle);
        let slate = take.and_then(|t| t.slate.as_ref());
        Some(HangingDocument {
            position: positions.map(|p| p.0),
            last_position: positions.map(|p| p.1),
            take: slate.map_or_else(|| frame(roll, *begin), ToString::to_string),
            span: span(first)?,
            frames: length.frames(),
        })
    }

    fn waits(&self) -> Option<BenchWaitDocument> {
        let step = self.left.steps.first()?;
        let roll = cuts_roll(&step.deed)?;
        let proved = self.strand.roll(roll).is_some_and(|r| r.proved);
        if proved || self.room.gone_ahead.contains_key(roll.as_str()) {
            return None;
        }
        Some(BenchWaitDocument {
            roll: roll.to_string(),
            why: format!(
                "The scan of {roll} is not proved complete: frames found and frames expected are \
                 not known to be the same, so a count may lead to another frame."
            ),
            hint: "Measure the roll on the bench and write its length in Rolls, or write here why \
                   you go ahead without."
                .to_owned(),
        })
    }

    fn lines(&self) -> Vec<BenchLineDocument> {
        let lines: Vec<&Written> = self.room.since_begun().collect();
        // Whether a line can be struck out takes a fold of all: asked for the last few.
        let asked = lines.len().saturating_sub(LATELY);
        let told = lines
            .iter()
            .enumerate()
            .map(|(i, written)| BenchLineDocument {
                number: written.number,
                at: written.at.clone(),
                by: written.by.clone(),
                kind: written.line.kind().to_owned(),
                words: self.line_words(written),
                struck_by: written.struck_by,
                can_be_struck: i >= asked && self.room.can_be_struck(written.number),
            });
        told.rev().collect()
    }

    fn line_words(&self, written: &Written) -> String {
        match &written.line {
            BenchLine::Begin(begin) => match &begin.turn_back {
                Some(_) => format!(
                    "put on the bench to be made of the film on the reel: {}",
                    begin.cut
                ),
                None => format!("put on the bench: {}", begin.cut),
            },
            BenchLine::Order { pins, .. } => format!("the rest planned anew with {pins} pins"),
            BenchLine::GoAhead { roll, words } => {
                format!("going ahead with {roll}, not proved: {words}")
            }
            BenchLine::Deed { .. } => {
                let deed = self.deed(written);
                deed.map_or_else(String::new, |d| deed_words(d, self.work))
            }
            BenchLine::Strike { number, reason } if reason.is_empty() => {
                format!("line {number} was a mistake")
            }
            BenchLine::Strike { number, reason } => format!("line {number} struck out: {reason}"),
            BenchLine::Mend {} => "the reel is to be mended".to_owned(),
            BenchLine::Remark { words } => words.clone(),
            BenchLine::TakeOff {} => "off the bench".to_owned(),
        }
    }

    fn rolls(&self) -> Vec<BenchRollDocument> {
        let state = self.room.log.state();
        let mut wanted = self.cards.count.rolls();
        // Of a re-cut also those that only the film before took from.
        for (roll, _) in state.rolls() {
            let count = state.count(roll);
            if count.on_the_reel + count.hanging + count.made + count.gone > 0
                && !wanted.contains(roll)
            {
                wanted.push(roll.clone());
            }
        }
        let told = wanted.iter().map(|roll| {
            let count = state.count(roll);
            let frames = state
                .rolls()
                .find(|(r, _)| *r == roll)
                .map_or(0, |(_, n)| n);
            BenchRollDocument {
                roll: roll.to_string(),
                frames,
                on_the_reel: count.on_the_reel,
                hanging: count.hanging,
                made: count.made,
                left: count.left,
                gone: count.gone,
                proved: self.strand.roll(roll).is_some_and(|r| r.proved),
                gone_ahead: self.room.gone_ahead.get(roll.as_str()).cloned(),
            }
        });
        told.collect()
    }
}

/// So many lines at the end are asked whether they can be struck out.
const LATELY: usize = 12;

/// How film lies that stands at a frame.
const fn lies(stands: u32, frames: u32) -> &'static str {
    match stands {
        0 => "heads out",
        at if at >= frames => "tails out",
        _ => "part on either reel",
    }
}
