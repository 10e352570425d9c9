//! Writing into the log of the bench.

use onestrand_bench::{Deed, Entry, WorkLeft, plan_anew};
use onestrand_store::{Act, Production, StoreError};

use super::begin::{begin, no_order, pins_fit};
use super::happened::{deed, written};
use super::line::BenchLine;
use super::report::what_happened;
use super::room::{Room, Written, cuts_roll};
use super::seen::seen;
use super::words::deed_words;
use crate::change_acts::text_fits;
use crate::documents::BenchWrite;
use crate::error::unfit;
use crate::{ProductionError, strand};

impl BenchWrite {
    /// What it says in the journal, and the act that writes it down. `by` names the
    /// tablet it comes from; empty on the main machine.
    ///
    /// # Errors
    /// [`ProductionError::CannotBe`] when it cannot have happened,
    /// [`ProductionError::Unfit`], [`ProductionError::CutRefused`],
    /// [`ProductionError::NoWorkOrder`], [`ProductionError::Store`].
    pub fn act(&self, production: &Production, by: &str) -> Result<(String, Act), ProductionError> {
        let (words, lines) = match self {
            Self::Begin {
                cut,
                pins,
                tails,
                to_and_fro,
            } => begin(production, cut, *pins, (*tails, *to_and_fro))?,
            Self::Tick { lines } => tick(production, *lines)?,
            Self::Happened { lines, happened } => what_happened(production, *lines, happened)?,
            Self::Strike { line, reason } => strike(production, *line, reason)?,
            Self::GoAhead { roll, words } => go_ahead(production, roll, words)?,
            Self::PlanAnew { pins } => planned_anew(production, *pins)?,
            Self::Seen { lines, scan, film } => seen(production, *lines, scan, film)?,
            Self::Mend {} => mend(production)?,
            Self::Remark { words } => remark(production, words)?,
            Self::TakeOff {} => take_off(production)?,
        };
        let lines = lines
            .iter()
            .map(|line| Ok(serde_json::to_string(line).map_err(StoreError::from)?))
            .collect::<Result<_, ProductionError>>()?;
        let by = by.to_owned();
        Ok((words, Act::WriteBench { by, lines }))
    }
}

/// The words for the journal, and the lines.
pub(super) type Said = (String, Vec<BenchLine>);

/// A tick is for the act that was shown, not for the one that has come since.
pub(super) fn still(room: &Room, lines: u32) -> Result<(), ProductionError> {
    match room.len() == lines {
        true => Ok(()),
        false => Err(ProductionError::Store(StoreError::Stale {
            found: lines.into(),
            now: room.len().into(),
        })),
    }
}

fn tick(production: &Production, lines: u32) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    let work = room.working()?;
    still(&room, lines)?;
    let left = room.left()?;
    let step = left.steps.first().ok_or_else(|| {
        unfit(
            "nothing is left to be done".to_owned(),
            "the tail leader is joined; wind the film on its reel",
        )
    })?;
    if let Some(roll) = cuts_roll(&step.deed) {
        room.may_cut(production, &roll.to_string())?;
    }
    let words = deed_words(&step.deed, work);
    let deed = written(&step.deed);
    Ok((words, vec![BenchLine::Deed { deed }]))
}

impl Room {
    /// Whether a roll may be cut: its scan is proved complete, or the user goes
    /// ahead without.
    pub(super) fn may_cut(
        &self,
        production: &Production,
        roll: &str,
    ) -> Result<(), ProductionError> {
        if self.gone_ahead.contains_key(roll) {
            return Ok(());
        }
        let strand = strand::strand(production)?;
        let proved = strand.rolls().any(|r| r.id.to_string() == roll && r.proved);
        match proved {
            true => Ok(()),
            false => Err(unfit(
                format!("the scan of {roll} is not proved complete"),
                "measure the roll and compare with the frames found, or write that you go ahead \
                 without",
            )),
        }
    }
}

fn strike(production: &Production, line: u32, reason: &str) -> Result<Said, ProductionError> {
    text_fits("reason", reason)?;
    let room = Room::of(production)?;
    room.working()?;
    let struck = room.strikable(line)?;
    if let Some(entry) = struck.entry {
        room.log.clone().add(Entry::Strike { entry })?;
    }
    let words = format!("line {line} of the bench struck out");
    let reason = reason.trim().to_owned();
    Ok((
        words,
        vec![BenchLine::Strike {
            number: line,
            reason,
        }],
    ))
}

impl Room {
    /// A line that may be struck out by its kind.
    fn strikable(&self, line: u32) -> Result<&Written, ProductionError> {
        let none = || {
            unfit(
                format!("line {line} cannot be struck out"),
                "look at the list of what was done",
            )
        };
        let written = self.since_begun().find(|l| l.number == line);
        let written = written.ok_or_else(none)?;
        let kind = matches!(
            written.line,
            BenchLine::Deed { .. } | BenchLine::GoAhead { .. } | BenchLine::Remark { .. }
        );
        match kind && written.struck_by.is_none() {
            true => Ok(written),
            false => Err(none()),
        }
    }

    /// Whether a line can be struck out as things are.
    pub(super) fn can_be_struck(&self, line: u32) -> bool {
        let Ok(written) = self.strikable(line) else {
            return false;
        };
        let fits = |entry| self.log.clone().add(Entry::Strike { entry }).is_ok();
        written.entry.is_none_or(fits)
    }
}

fn go_ahead(production: &Production, roll: &str, words: &str) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    room.working()?;
    production.roll(roll)?;
    text_fits("reason", words)?;
    if words.trim().is_empty() {
        return Err(unfit(
            format!("nothing is written about {roll}"),
            "write why you go ahead without a proved scan",
        ));
    }
    let said = format!("going ahead with {roll}, whose scan is not proved");
    let roll = roll.to_owned();
    let words = words.trim().to_owned();
    Ok((said, vec![BenchLine::GoAhead { roll, words }]))
}

fn planned_anew(production: &Production, pins: u32) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    let work = room.working()?;
    let pins = pins_fit(pins)?;
    let table = room.log.table();
    let state = work.seen_from(room.log.state(), table);
    let anew = plan_anew(&state, &work.strips, table, pins).map_err(no_order)?;
    let order = anew.order.into_iter().map(Into::into).collect();
    let words = format!("the rest planned anew with {pins} pins");
    Ok((words, vec![BenchLine::Order { pins, order }]))
}

fn mend(production: &Production) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    if room.wrong_joins()? == 0 {
        return Err(unfit(
            "every join on the reel is as the version has it".to_owned(),
            "go on with the next act",
        ));
    }
    let words = "what lies wrongly on the reel is to be joined anew".to_owned();
    Ok((words, vec![BenchLine::Mend {}]))
}

impl Room {
    /// How many joins would be opened to have the reel as the version has it.
    pub(super) fn wrong_joins(&self) -> Result<u64, ProductionError> {
        let work = self.working()?;
        let table = self.log.table();
        let state = work.seen_from(self.log.state(), table);
        let mended = WorkLeft::mending(&state, &work.strips, &work.order, &work.through, table)?;
        let opened = mended.steps.iter().filter(|s| s.deed.code() == "open");
        Ok(u64::try_from(opened.count()).unwrap_or(u64::MAX))
    }
}

fn remark(production: &Production, words: &str) -> Result<Said, ProductionError> {
    Room::of(production)?.working()?;
    text_fits("remark", words)?;
    let words = words.trim().to_owned();
    if words.is_empty() {
        return Err(unfit("nothing is written".to_owned(), "write the remark"));
    }
    let said = "a remark at the bench".to_owned();
    Ok((said, vec![BenchLine::Remark { words }]))
}

fn take_off(production: &Production) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    let work = room.working()?;
    let for_good = room.since_begun().any(|l| {
        matches!(&l.line, BenchLine::Deed { deed: words }
            if l.struck_by.is_none()
                && deed(words, &work.strips)
                    .is_ok_and(|d| d.is_for_good() || matches!(d, Deed::TurnBack { .. })))
    });
    if for_good {
        return Err(unfit(
            format!(
                "film was cut or turned back for {}: it cannot come off the bench",
                work.name
            ),
            "go on, or say what really happened",
        ));
    }
    let words = format!("{} comes off the bench, nothing cut", work.name);
    Ok((words, vec![BenchLine::TakeOff {}]))
}
