//! The camera report as it comes back: rolls that are known by their counters only, with
//! the takes that were shot on them.

use std::collections::BTreeMap;
use std::path::Path;

use onestrand_film::Frames;
use onestrand_plan::{ReportedTake, read_camera_report};
use onestrand_store::{Act, Production, SetupRecord, StoreError, TakeRecord};

use super::kept::KeptScript;
use super::stock::stock_of;
use crate::log_places::rating;
use crate::paper_roll::{PaperRoll, on_paper};
use crate::{ImportProblem, ProductionError};

/// What a report brings.
pub(super) struct Reported {
    pub(super) takes: usize,
    pub(super) acts: Vec<Act>,
    pub(super) remarks: Vec<String>,
}

/// Reads a report: takes join those that are known of their rolls, and a roll that is not
/// known yet is known on paper from now on.
pub(super) fn reported(
    production: &Production,
    path: &Path,
    text: &str,
) -> Result<Reported, ProductionError> {
    let gauge = production.meta().gauge;
    let usual = gauge.spec().load.map(|(frames, _)| frames);
    let load = Frames::new(usual.unwrap_or(stock_of(production)?.load))?;
    let report = read_camera_report(text, gauge, load)
        .map_err(|error| super::import::of_plan(path, &error))?;
    let kept = KeptScript::read(production)?;
    let mut work = Work {
        production,
        kept: &kept,
        load,
        problems: Vec::new(),
        done: Reported {
            takes: report.takes.len(),
            acts: Vec::new(),
            remarks: Vec::new(),
        },
    };
    let mut rolls: BTreeMap<&str, Vec<&ReportedTake>> = BTreeMap::new();
    for take in &report.takes {
        rolls.entry(&take.roll).or_default().push(take);
    }
    for (roll, takes) in rolls {
        work.roll(roll, &takes)?;
    }
    if work.problems.is_empty() {
        return Ok(work.done);
    }
    Err(ProductionError::Import {
        path: path.to_owned(),
        problems: work.problems,
    })
}

struct Work<'a> {
    production: &'a Production,
    kept: &'a KeptScript,
    load: Frames,
    problems: Vec<ImportProblem>,
    done: Reported,
}

impl Work<'_> {
    fn roll(&mut self, name: &str, takes: &[&ReportedTake]) -> Result<(), ProductionError> {
        let known = match self.production.roll(name) {
            Ok(roll) => Some(roll),
            Err(StoreError::NotFound { .. }) => None,
            Err(other) => return Err(other.into()),
        };
        if known.as_ref().is_some_and(|roll| !roll.scans.is_empty()) {
            self.wrong(
                takes[0].line,
                "roll",
                format!(
                    "{name} was read from a scan; bring the report in under Rolls, where it is laid \
                     beside the takes that were found"
                ),
            );
            return Ok(());
        }
        if known.is_none() {
            let paper = PaperRoll {
                roll: name.to_owned(),
                frames: self.load.count(),
                gauge: None,
                base: "not-known".to_owned(),
                fit: "project".to_owned(),
                wind: None,
            };
            let roll = on_paper(self.production, &paper)?;
            self.done.remarks.push(format!(
                "{name} is known on paper now, {} frames",
                self.load
            ));
            self.done.acts.push(Act::PutRoll {
                name: name.to_owned(),
                roll: Some(Box::new(roll)),
            });
        }
        let mut all = match known {
            Some(_) => self.production.takes_of(name)?,
            None => Vec::new(),
        };
        for take in takes {
            let record = self.take(take);
            // The same take once more is the same take, put right.
            all.retain(|one| (&one.setup, one.take) != (&record.setup, record.take));
            let over = all.iter().find(|one| {
                one.setup.is_some() && one.first < record.thrown && record.first < one.thrown
            });
            if let Some(over) = over {
                let other = format!(
                    "{}-T{}",
                    over.setup.as_deref().unwrap_or(""),
                    over.take.unwrap_or(0)
                );
                let said = format!(
                    "runs over {other}, which lies at {} to {}",
                    over.first, over.thrown
                );
                self.wrong(take.line, "start", said);
                continue;
            }
            // A stretch that nobody has named makes way.
            all.retain(|one| one.thrown <= record.first || record.thrown <= one.first);
            all.push(record);
        }
        all.sort_by_key(|take| take.first);
        self.done.acts.push(Act::PutTakes {
            roll: name.to_owned(),
            takes: all,
        });
        Ok(())
    }

    /// A take of the report, with what its setup was planned to be.
    fn take(&mut self, take: &ReportedTake) -> TakeRecord {
        let rated = rating(&take.mark);
        let known = rated.clone().unwrap_or("none");
        let mark = rated.is_err().then(|| take.mark.clone());
        let note: Vec<String> = mark
            .into_iter()
            .chain(std::iter::once(take.remark.clone()))
            .filter(|part| !part.is_empty())
            .collect();
        let planned = self.kept.setups.iter();
        let planned = planned
            .map(|kept| &kept.it)
            .find(|setup| setup.name.eq_ignore_ascii_case(&take.setup))
            .cloned();
        if planned.is_none() && !self.kept.setups.is_empty() {
            self.done.remarks.push(format!(
                "{}-T{} is of a setup that the script does not have",
                take.setup, take.take
            ));
        }
        let planned = planned.unwrap_or_default();
        TakeRecord {
            roll: take.roll.clone(),
            first: take.frames.begin().index(),
            thrown: take.frames.end().index(),
            setup: Some(take.setup.to_uppercase()),
            take: Some(take.take),
            rating: known.to_owned(),
            direction: direction(&planned),
            size: planned.size,
            camera_move: planned.movement,
            action: planned.action,
            note: note.join("; "),
            begins: "camera_stop".to_owned(),
            flash_frames: 0,
            flash_stops: None,
            looked: false,
            pin: None,
        }
    }

    fn wrong(&mut self, line: u64, column: &str, message: String) {
        self.problems.push(ImportProblem {
            line,
            column: column.to_owned(),
            message,
        });
    }
}

fn direction(setup: &SetupRecord) -> String {
    let parts = [setup.mover.as_str(), setup.direction.as_str()];
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}
