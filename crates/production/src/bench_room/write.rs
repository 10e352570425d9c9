//! Writing into the log of the bench.

use onestrand_bench::{Deed, Entry, Film, Next, Place};
use onestrand_store::{Act, CutRecord, Production, StoreError};

use super::happened::{deed, written};
use super::line::{Begin, BenchLine};
use super::room::{Room, Work, cuts_roll};
use super::words::deed_words;
use crate::BenchOptions;
use crate::ProductionError;
use crate::bench_order::work_order;
use crate::change_acts::text_fits;
use crate::documents::{BenchWrite, HappenedWords};
use crate::error::unfit;
use crate::strand;

/// More pins than any bin has.
const MOST_PINS: u32 = 999;

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
            Self::PlanAnew { pins } => plan_anew(production, *pins)?,
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

type Said = (String, Vec<BenchLine>);

fn begin(
    production: &Production,
    cut: &str,
    pins: u32,
    (tails, to_and_fro): (bool, bool),
) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    if let Some(work) = &room.work
        && !room.log.state().is_ended()
    {
        return Err(unfit(
            format!("{} is on the bench", work.name),
            "finish it, or take it off before anything is cut",
        ));
    }
    if !room.log.state().reel().is_empty() {
        return Err(unfit(
            "a film is joined already: another version of it is a re-cut".to_owned(),
            "`onestrand recut` gives its price and its order of work; the Bench room cannot lead a \
             re-cut yet",
        ));
    }
    let options = BenchOptions {
        join: None,
        pins: pins_fit(pins)?,
        tails,
        to_and_fro,
    };
    let (order, strips, checked) = work_order(production, cut, options)?;
    let plan = order.plan.as_ref().ok_or_else(|| {
        let fewest = order.fewest.iter().map(|f| f.pins).min();
        unfit(
            format!("{pins} pins do not suffice for {cut}"),
            &fewest.map_or_else(
                || "own more pins, or wind to and fro".to_owned(),
                |n| {
                    format!(
                        "the fewest known are {n}, where rolls may be wound as the work wants it"
                    )
                },
            ),
        )
    })?;
    let (order, through) = plan.takings(&strips);
    let rolls = checked.strand.rolls();
    let begin = Begin {
        cut: cut.to_owned(),
        version: CutRecord::new(&checked.cut, ""),
        winding: options.winding().code().to_owned(),
        pins,
        rolls: rolls
            .map(|r| (r.id.to_string(), r.frames.count()))
            .collect(),
        order: order.into_iter().map(Into::into).collect(),
        through: through.iter().map(ToString::to_string).collect(),
    };
    let words = format!("{cut} goes on the bench");
    Ok((words, vec![BenchLine::Begin(Box::new(begin))]))
}

fn pins_fit(pins: u32) -> Result<u32, ProductionError> {
    match pins <= MOST_PINS {
        true => Ok(pins),
        false => Err(unfit(
            format!("{pins} pins are more than any trim bin has"),
            "say how many strips can hang at a time",
        )),
    }
}

/// A tick is for the act that was shown, not for the one that has come since.
fn still(room: &Room, lines: u32) -> Result<(), ProductionError> {
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

fn what_happened(
    production: &Production,
    lines: u32,
    happened: &[HappenedWords],
) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    still(&room, lines)?;
    let (words, _) = room.with(happened)?;
    let lines = happened.iter().cloned();
    let lines = lines.map(|deed| BenchLine::Deed { deed }).collect();
    Ok((words.join("; "), lines))
}

impl Room {
    /// What the bench would be with more deeds, and their words.
    pub(super) fn with(
        &self,
        happened: &[HappenedWords],
    ) -> Result<(Vec<String>, onestrand_bench::BenchLog), ProductionError> {
        let work = self.working()?;
        if happened.is_empty() {
            return Err(unfit("nothing was said".to_owned(), "say what happened"));
        }
        let mut log = self.log.clone();
        let mut words = Vec::new();
        for one in happened {
            let deed = deed(one, &work.strips)?;
            if let HappenedWords::MadeUp { reel, .. } = one {
                named(reel)?;
            }
            cut_off(&log, work, &deed)?;
            words.push(deed_words(&deed, work));
            log.add(Entry::Deed(deed))?;
        }
        Ok((words, log))
    }
}

fn named(reel: &str) -> Result<(), ProductionError> {
    text_fits("name of the reel", reel)?;
    match reel.trim().is_empty() {
        false => Ok(()),
        true => Err(unfit(
            "the reel of outs has no name".to_owned(),
            "write on it what it is called, such as Outs 1",
        )),
    }
}

/// A length that still holds film of two shots has not been cut apart.
fn cut_off(
    log: &onestrand_bench::BenchLog,
    work: &Work,
    deed: &Deed,
) -> Result<(), ProductionError> {
    let frame = match deed {
        Deed::Hang { frame, .. } => frame,
        Deed::Join {
            next: Next::Film(frame),
            ..
        } => frame,
        _ => return Ok(()),
    };
    let lengths = log.state().lengths().iter();
    let mut on_roll = lengths.filter(|l| l.place == Place::Roll);
    let holds = |film: &Film| film.holds(&frame.roll, frame.frame.index());
    let Some(length) = on_roll.find(|l| l.links.iter().any(|k| holds(&k.film))) else {
        return Ok(());
    };
    let shots = work.strips.strips.iter().filter(|strip| {
        strip.span.as_ref().is_some_and(|span| {
            length.links.iter().any(|link| match &link.film {
                Film::Roll { roll, begin, end } => {
                    *roll == span.roll
                        && span.range.begin().index() < *end
                        && *begin < span.range.end().index()
                }
                Film::Other { .. } => false,
            })
        })
    });
    match shots.count() > 1 {
        true => Err(ProductionError::CannotBe(
            onestrand_bench::CannotBe::NotCutOff {
                frame: frame.clone(),
            },
        )),
        false => Ok(()),
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
    fn strikable(&self, line: u32) -> Result<&super::room::Written, ProductionError> {
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

fn plan_anew(production: &Production, pins: u32) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    let work = room.working()?;
    let pins = pins_fit(pins)?;
    let order = work.order.iter().map(|t| (*t).into()).collect();
    let words = format!("the rest planned anew with {pins} pins");
    Ok((words, vec![BenchLine::Order { pins, order }]))
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
            if l.struck_by.is_none() && deed(words, &work.strips).is_ok_and(|d| d.is_for_good()))
    });
    if for_good {
        return Err(unfit(
            format!(
                "film was cut for {}: it cannot come off the bench",
                work.name
            ),
            "go on, or say what really happened",
        ));
    }
    let words = format!("{} comes off the bench, nothing cut", work.name);
    Ok((words, vec![BenchLine::TakeOff {}]))
}
