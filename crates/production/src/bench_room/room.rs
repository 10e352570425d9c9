//! The log of a film's bench, read and folded.

use std::borrow::Cow;
use std::collections::BTreeMap;

use onestrand_bench::{BenchLog, BenchState, Deed, Entry, Taking, Winding, WorkLeft};
use onestrand_cut::{JoinTable, Strips, TrialCut};
use onestrand_film::RollId;
use onestrand_store::{BenchLineRecord, Production, StoreError};

use super::happened::deed;
use super::line::{Begin, BenchLine, TurnBack};
use crate::ProductionError;
use crate::error::unfit;

/// A line with when and by whom it was written.
#[derive(Debug, Clone)]
pub(super) struct Written {
    pub(super) number: u32,
    pub(super) at: String,
    pub(super) by: String,
    pub(super) line: BenchLine,
    /// Its number among the entries of the fold, from 0.
    pub(super) entry: Option<usize>,
    pub(super) struck_by: Option<u32>,
}

/// The version on the bench.
#[derive(Debug, Clone)]
pub(super) struct Work {
    pub(super) name: String,
    pub(super) begun: String,
    /// The line that began it.
    pub(super) line: u32,
    pub(super) version: TrialCut,
    pub(super) strips: Strips,
    pub(super) pins: u32,
    pub(super) winding: Winding,
    pub(super) order: Vec<Taking>,
    pub(super) through: Vec<RollId>,
    /// Whether joins that lie wrongly on the reel are opened.
    pub(super) mends: bool,
    /// Of a re-cut: what the made film is turned back with.
    pub(super) turn_back: Option<TurnBack>,
    /// Of a re-cut: the version the film was made as, and its strips.
    pub(super) made_of: Option<(String, Strips)>,
}

/// The version that the film on the reel was made as.
#[derive(Debug, Clone)]
pub(super) struct MadeAs {
    pub(super) name: String,
    pub(super) version: TrialCut,
    line: u32,
}

/// The bench of a film.
#[derive(Debug)]
pub(super) struct Room {
    pub(super) lines: Vec<Written>,
    pub(super) work: Option<Work>,
    /// The version that was on the bench when film was joined last.
    pub(super) made_as: Option<MadeAs>,
    pub(super) log: BenchLog,
    /// Rolls that the user goes ahead with, and the words.
    pub(super) gone_ahead: BTreeMap<String, String>,
}

impl Room {
    /// Reads the log of a film.
    pub(super) fn of(production: &Production) -> Result<Self, ProductionError> {
        let records = production.bench_lines()?;
        let table = JoinTable::usual(production.meta().gauge);
        Self::read(&records, &table)
    }

    fn read(records: &[BenchLineRecord], table: &JoinTable) -> Result<Self, ProductionError> {
        let mut lines: Vec<Written> = Vec::with_capacity(records.len());
        for record in records {
            let line: BenchLine = serde_json::from_str(&record.line).map_err(StoreError::from)?;
            lines.push(Written {
                number: record.number,
                at: record.at.clone(),
                by: record.by.clone(),
                line,
                entry: None,
                struck_by: None,
            });
        }
        let mut folded = Folded::default();
        for index in 0..lines.len() {
            folded.line(&mut lines, index, table)?;
        }
        Ok(Self {
            log: BenchLog::read(rolls(&lines)?, table.clone(), folded.entries)?,
            lines,
            work: folded.work,
            made_as: folded.made_as,
            gone_ahead: folded.gone_ahead,
        })
    }

    /// How many lines there are.
    pub(super) fn len(&self) -> u32 {
        u32::try_from(self.lines.len()).unwrap_or(u32::MAX)
    }

    /// The version on the bench.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] when there is none.
    pub(super) fn working(&self) -> Result<&Work, ProductionError> {
        self.work.as_ref().ok_or_else(|| {
            unfit(
                "no version is on the bench".to_owned(),
                "begin one in the Bench room",
            )
        })
    }

    /// What is left to be done.
    pub(super) fn left(&self) -> Result<WorkLeft, ProductionError> {
        let work = self.working()?;
        let state = self.log.state();
        Ok(work.left_from(state, self.log.table())?)
    }

    /// Frames wound before the version on the bench was begun: those of the version that
    /// it is made of.
    pub(super) fn wound_before(&self) -> u64 {
        let begun = self.work.as_ref().filter(|w| w.made_of.is_some());
        let Some(line) = begun.map(|w| w.line) else {
            return 0;
        };
        let before = self.lines.iter().filter(|l| l.number < line);
        let entries = before.filter(|l| l.entry.is_some()).count();
        self.log.at(entries).map_or(0, |state| state.wound())
    }

    /// The lines of the version on the bench.
    pub(super) fn since_begun(&self) -> impl Iterator<Item = &Written> {
        let from = self.work.as_ref().map_or(u32::MAX, |w| w.line);
        self.lines.iter().filter(move |l| l.number >= from)
    }
}

/// What the lines come to.
#[derive(Default)]
struct Folded {
    work: Option<Work>,
    made_as: Option<MadeAs>,
    entries: Vec<Entry>,
    gone_ahead: BTreeMap<String, String>,
}

impl Folded {
    fn line(
        &mut self,
        lines: &mut [Written],
        index: usize,
        table: &JoinTable,
    ) -> Result<(), ProductionError> {
        let written = lines[index].clone();
        match &written.line {
            BenchLine::Begin(begin) => {
                let mut work = Work::of(begin, &written, table)?;
                let made = self.made_as.as_ref().filter(|_| begin.turn_back.is_some());
                work.made_of = made.map(|m| (m.name.clone(), Strips::of(&m.version, table)));
                self.work = Some(work);
            }
            BenchLine::Order { pins, order } => {
                if let Some(work) = &mut self.work {
                    work.pins = *pins;
                    work.order = order.iter().map(|t| (*t).into()).collect();
                }
            }
            BenchLine::GoAhead { roll, words } => {
                self.gone_ahead.insert(roll.clone(), words.clone());
            }
            BenchLine::Deed { deed: words } => {
                let strips = self.work.as_ref().map(|w| &w.strips);
                let deed = deed(words, strips.ok_or_else(damaged)?)?;
                self.is_made_as(&deed);
                lines[index].entry = Some(self.entries.len());
                self.entries.push(Entry::Deed(deed));
            }
            BenchLine::Strike { number, .. } => {
                let at = usize::try_from(*number).unwrap_or(usize::MAX);
                let struck = at.checked_sub(1).and_then(|i| lines.get_mut(i));
                let struck = struck.ok_or_else(damaged)?;
                struck.struck_by = Some(written.number);
                match (&struck.line, struck.entry) {
                    (_, Some(entry)) => {
                        lines[index].entry = Some(self.entries.len());
                        self.entries.push(Entry::Strike { entry });
                    }
                    (BenchLine::GoAhead { roll, .. }, None) => {
                        self.gone_ahead.remove(roll);
                    }
                    _ => {}
                }
            }
            BenchLine::Mend {} => {
                if let Some(work) = &mut self.work {
                    work.mends = true;
                }
            }
            BenchLine::Remark { .. } => {}
            BenchLine::TakeOff {} => self.work = None,
        }
        Ok(())
    }

    /// Film that is joined or led on is from then on made as the version on the bench.
    fn is_made_as(&mut self, deed: &Deed) {
        let Some(work) = &self.work else { return };
        let is_known = self.made_as.as_ref().is_some_and(|m| m.line == work.line);
        if !is_known && matches!(deed, Deed::Join { .. } | Deed::Lead) {
            self.made_as = Some(MadeAs {
                name: work.name.clone(),
                version: work.version.clone(),
                line: work.line,
            });
        }
    }
}

impl Work {
    fn of(begin: &Begin, written: &Written, table: &JoinTable) -> Result<Self, ProductionError> {
        let version = begin.version.to_model()?;
        let through = begin.through.iter().map(|r| RollId::new(r));
        let winding = Winding::ALL.into_iter();
        Ok(Self {
            name: begin.cut.clone(),
            begun: written.at.clone(),
            line: written.number,
            strips: Strips::of(&version, table),
            version,
            pins: begin.pins,
            winding: winding
                .clone()
                .find(|w| w.code() == begin.winding)
                .unwrap_or_default(),
            order: begin.order.iter().map(|t| (*t).into()).collect(),
            through: through.collect::<Result<_, _>>()?,
            mends: false,
            turn_back: begin.turn_back.clone(),
            made_of: None,
        })
    }

    /// What the made film is turned back with, if that is still to be done.
    fn still_to_turn(&self, state: &BenchState) -> Option<&TurnBack> {
        let turn_back = self.turn_back.as_ref();
        turn_back.filter(|t| t.before == state.turned_back())
    }

    /// The bench as the version is seen from it: of a re-cut, the made film turned back.
    pub(super) fn seen_from<'a>(
        &self,
        state: &'a BenchState,
        table: &JoinTable,
    ) -> Cow<'a, BenchState> {
        let Some(turn_back) = self.still_to_turn(state) else {
            return Cow::Borrowed(state);
        };
        let mut turned = state.clone();
        let others = turn_back.others.clone();
        // Where there is nothing to turn back, nothing is made either.
        let _nothing_made = turned.apply(&Deed::TurnBack { others }, table, usize::MAX);
        Cow::Owned(turned)
    }

    /// What is left of it from a state of the bench.
    pub(super) fn left_from(
        &self,
        state: &BenchState,
        table: &JoinTable,
    ) -> Result<WorkLeft, onestrand_bench::CannotBe> {
        if let Some(turn_back) = self.still_to_turn(state)
            && !state.reel().is_empty()
        {
            let (strips, order) = (&self.strips, &self.order);
            return WorkLeft::turned_back(state, &turn_back.others, strips, order, table);
        }
        let left = match self.mends {
            true => WorkLeft::mending,
            false => WorkLeft::of,
        };
        left(state, &self.strips, &self.order, &self.through, table)
    }

    /// The number of the first position of a strip, and of its last, from 1.
    pub(super) fn positions(&self, strip: usize) -> Option<(usize, usize)> {
        let (first, last) = self.strips.strips.get(strip)?.positions;
        Some((first + 1, last + 1))
    }

    /// The positions that film had in the version it was made as.
    pub(super) fn was_at(&self, roll: &RollId, frame: u32) -> Option<(usize, usize)> {
        let (_, strips) = self.made_of.as_ref()?;
        let (first, last) = strips.strips.get(strip_of(strips, roll, frame)?)?.positions;
        Some((first + 1, last + 1))
    }

    /// The strip that most of some film is of, counted from 0.
    pub(super) fn strip_of(&self, roll: &RollId, frame: u32) -> Option<usize> {
        strip_of(&self.strips, roll, frame)
    }
}

fn strip_of(strips: &Strips, roll: &RollId, frame: u32) -> Option<usize> {
    let holds = |s: &onestrand_cut::Strip| {
        let span = s.span.as_ref();
        span.is_some_and(|s| {
            s.roll == *roll && (s.range.begin().index()..s.range.end().index()).contains(&frame)
        })
    };
    strips.strips.iter().position(holds)
}

/// All rolls that ever came on the bench; of a roll that was read anew the length
/// at first.
fn rolls(lines: &[Written]) -> Result<Vec<(RollId, u32)>, ProductionError> {
    let mut rolls: BTreeMap<RollId, u32> = BTreeMap::new();
    for written in lines {
        if let BenchLine::Begin(begin) = &written.line {
            for (name, frames) in &begin.rolls {
                rolls.entry(RollId::new(name)?).or_insert(*frames);
            }
        }
    }
    Ok(rolls.into_iter().collect())
}

fn damaged() -> ProductionError {
    unfit(
        "the log of the bench names what is not in it".to_owned(),
        "go back to the newest backup, and keep this file for inspection",
    )
}

/// Whether a deed parts or spoils film of a roll.
pub(super) fn cuts_roll(deed: &Deed) -> Option<&RollId> {
    match deed {
        Deed::Cut { roll, .. } => Some(roll),
        _ => None,
    }
}
