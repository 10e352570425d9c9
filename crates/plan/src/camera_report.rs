//! The camera report as it comes back: what was shot, and whether its counters agree.

use std::collections::BTreeMap;

use onestrand_film::{FramePos, FrameRange, Frames, Gauge, parse_position};

use crate::coverage::RollLeft;
use crate::found::{Found, PlanError, unless};
use crate::script::{Row, Table};

const COLUMNS: [&str; 7] = ["roll", "slate", "take", "start", "end", "mark", "remark"];

/// A take as the report has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReportedTake {
    /// The roll.
    pub roll: String,
    /// The setup as the slate says it: `3A`.
    pub setup: String,
    /// Which take of it.
    pub take: u16,
    /// The counter at start and end.
    pub frames: FrameRange,
    /// Hold, NG, or what else was marked.
    pub mark: String,
    /// What was remarked; what stood in columns of the user's own comes behind it.
    pub remark: String,
    /// Line of the report.
    pub line: u64,
}

/// All takes of a report.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CameraReport {
    /// In the order of the report.
    pub takes: Vec<ReportedTake>,
}

impl CameraReport {
    /// How many takes each setup has.
    #[must_use]
    pub fn takes_by_setup(&self) -> BTreeMap<String, u32> {
        let mut all = BTreeMap::new();
        for take in &self.takes {
            *all.entry(take.setup.clone()).or_default() += 1;
        }
        all
    }

    /// What is left of each roll, when they can be used up to `usable_to`.
    #[must_use]
    pub fn rolls_left(&self, usable_to: Frames) -> Vec<RollLeft> {
        let mut all: Vec<RollLeft> = Vec::new();
        for take in &self.takes {
            let end = Frames::new(take.frames.end().index()).unwrap_or(Frames::MAX);
            match all.iter_mut().find(|roll| roll.roll == take.roll) {
                Some(roll) => roll.used_to = roll.used_to.max(end),
                None => all.push(RollLeft {
                    roll: take.roll.clone(),
                    used_to: end,
                    usable_to,
                }),
            }
        }
        all
    }
}

/// Reads a camera report from CSV: `roll,slate,take,start,end` and, if wanted, `mark` and
/// `remark`. Counters are frames, or feet and frames such as `12+34`.
///
/// # Errors
/// [`PlanError::Problems`], all at once, each with its line: what cannot be read,
/// counters that run backwards or stand still, that go back behind the take before, or
/// beyond the `load` of a roll, and a take that is reported twice.
pub fn read_camera_report(
    text: &str,
    gauge: Gauge,
    load: Frames,
) -> Result<CameraReport, PlanError> {
    let mut found = Vec::new();
    let table = Table::read(text, &COLUMNS, &mut found);
    table.want(&COLUMNS[..5], &mut found);
    let mut report = CameraReport::default();
    let mut seen: BTreeMap<(String, u16), u64> = BTreeMap::new();
    let mut counters: BTreeMap<String, (FramePos, u64)> = BTreeMap::new();
    for row in table.rows() {
        let Some(take) = take_of(row, gauge, &mut found) else {
            continue;
        };
        let mut wrong = |said: String| {
            let place = format!("{}-T{}", take.setup, take.take);
            found.push(Found::new(Some(row.line), place, said));
        };
        if let Some(first) = seen.insert((take.setup.to_uppercase(), take.take), row.line) {
            wrong(format!("is reported twice, first on line {first}"));
        }
        let (start, end) = (take.frames.begin(), take.frames.end());
        if let Some((before, line)) = counters.get(&take.roll)
            && start < *before
        {
            wrong(format!(
                "starts at {start}, but the take on line {line} of {} ended at {before}",
                take.roll
            ));
        }
        if end.index() > load.count() {
            wrong(format!("ends at {end}, beyond the load of {load} frames"));
        }
        counters.insert(take.roll.clone(), (end, row.line));
        report.takes.push(take);
    }
    unless(found, report)
}

fn take_of(row: Row<'_>, gauge: Gauge, found: &mut Vec<Found>) -> Option<ReportedTake> {
    let some = |text: &str| match text {
        "" => Err("is empty"),
        text => Ok(text.to_owned()),
    };
    let roll = row.value("roll", found, some);
    let setup = row.value("slate", found, some);
    let take = row.value("take", found, |text| {
        let take = text.parse::<u16>().ok().filter(|take| *take > 0);
        take.ok_or_else(|| format!("cannot read {text:?} as a take, such as 2"))
    });
    let start = row.value("start", found, |text| parse_position(text, gauge));
    let end = row.value("end", found, |text| parse_position(text, gauge));
    let (start, end) = (start?, end?);
    if start >= end {
        let said = if start == end {
            format!("the counter stands still at {start}; a take has a length")
        } else {
            format!(
                "the counter runs backwards, from {start} to {end}; is one of them what was left?"
            )
        };
        found.push(Found::new(Some(row.line), "", said));
        return None;
    }
    let frames = FrameRange::new(start, end).ok()?;
    let remarks = [row.text("remark").to_owned(), row.strange()];
    let remarks: Vec<String> = remarks.into_iter().filter(|r| !r.is_empty()).collect();
    Some(ReportedTake {
        roll: roll?,
        setup: setup?,
        take: take?,
        frames,
        mark: row.text("mark").to_owned(),
        remark: remarks.join("; "),
        line: row.line,
    })
}
