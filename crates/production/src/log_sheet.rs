//! The log as CSV, and places on rolls as its form has them.

use std::collections::BTreeMap;

use onestrand_film::{FrameRange, Gauge, RollId, parse_position};
use onestrand_store::{Production, RollRecord};

use crate::table::Line;
use crate::{ImportProblem, ProductionError};

/// The columns of our own form.
pub(crate) const COLUMNS: [&str; 11] = [
    "roll",
    "slate",
    "take",
    "in",
    "out",
    "size",
    "move",
    "direction",
    "action",
    "use",
    "note",
];
/// The rolls that lines may name.
pub(crate) struct Rolls(BTreeMap<String, (Gauge, u32)>);

impl Rolls {
    pub(crate) fn of(production: &Production) -> Result<Self, ProductionError> {
        let mut all = BTreeMap::new();
        for roll in production.rolls()? {
            let gauge = RollRecord::to_model(&roll)?.gauge;
            all.insert(roll.name, (gauge, roll.frames));
        }
        Ok(Self(all))
    }

    /// The roll and frames that a line names, inside the roll.
    pub(crate) fn span(
        &self,
        line: Line<'_>,
        problems: &mut Vec<ImportProblem>,
    ) -> Option<(RollId, FrameRange)> {
        let roll = line.parse("roll", problems, RollId::new)?;
        let Some((gauge, frames)) = self.0.get(roll.as_str()).copied() else {
            let known: Vec<&str> = self.0.keys().map(String::as_str).collect();
            let known = known.join(", ");
            problems.push(line.wrong("roll", &format!("no roll named {roll}; there are: {known}")));
            return None;
        };
        let begin = line.parse("in", problems, |t| parse_position(t, gauge));
        let end = line.parse("out", problems, |t| parse_position(t, gauge));
        let range = match FrameRange::new(begin?, end?) {
            Ok(range) => range,
            Err(found) => {
                problems.push(line.wrong("out", &found.to_string()));
                return None;
            }
        };
        if range.end().index() > frames {
            let message = format!("{roll} has {frames} frames, this ends at {}", range.end());
            problems.push(line.wrong("out", &message));
            return None;
        }
        Some((roll, range))
    }
}

/// The log as CSV.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn export_log(production: &Production) -> Result<String, ProductionError> {
    let mut out = csv::Writer::from_writer(Vec::new());
    let written = "a form in memory can be written";
    out.write_record(COLUMNS).expect(written);
    for take in production.takes()? {
        let chosen = match take.rating.as_str() {
            "circled" => "yes",
            "hold" => "maybe",
            "ng" => "no",
            _ => "",
        };
        let number = take.take.map(|t| t.to_string()).unwrap_or_default();
        out.write_record([
            take.roll.as_str(),
            take.setup.as_deref().unwrap_or(""),
            &number,
            &take.first.to_string(),
            &take.thrown.to_string(),
            &take.size,
            &take.camera_move,
            &take.direction,
            &take.action,
            chosen,
            &take.note,
        ])
        .expect(written);
    }
    let bytes = out.into_inner().expect(written);
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
