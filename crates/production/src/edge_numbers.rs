//! Numbers read on the edge of a roll, and those that follow between them.

use onestrand_bench::{EdgeConflict, EdgeReading, edge_numbers};
use onestrand_film::{FramePos, Gauge};
use onestrand_store::{
    Act, EdgeNumberRecord, EdgeRecord, InspectionRecord, Production, RollRecord,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{EdgeDocument, EdgeNumberDocument};
use crate::error::unfit;

/// The largest step that makes sense: 16 mm has a number every 20 or 40 frames, common
/// practice, from memory. Unit: frames.
const MOST_STEP: u32 = 400;

/// A number was read on the edge of a roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct EdgeNumberRead {
    /// The roll.
    pub roll: String,
    /// The frame it stands at.
    pub frame: u32,
    /// As it was read: `4127`, `KD 0101`.
    pub number: String,
    /// Frames from one number to the next on this stock; said once for a roll. Nothing
    /// leaves it as it is.
    #[serde(default)]
    pub step: Option<u32>,
}

/// There is no such number at that frame after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct EdgeNumberGone {
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
}

impl EdgeNumberRead {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        if matches!(roll.to_model()?.gauge, Gauge::Super8 | Gauge::Regular8) {
            return Err(unfit(
                format!("film of {} has no numbers on its edge", roll.gauge),
                "count from a camera stop, a join or a mark of your own",
            ));
        }
        let number = self.number.trim();
        text_fits("edge number", number)?;
        if self.frame >= roll.frames {
            return Err(unfit(
                format!(
                    "{} has frames 0 to {}",
                    self.roll,
                    roll.frames.saturating_sub(1)
                ),
                "name the frame that the number stands at",
            ));
        }
        let mut edge = roll.inspection.edge.clone();
        edge.step = self.step.unwrap_or(edge.step);
        if edge.step > MOST_STEP || self.step == Some(0) {
            return Err(unfit(
                format!("a number every {} frames makes no sense", edge.step),
                "count the frames from one number to the next",
            ));
        }
        edge.read.retain(|one| one.frame != self.frame);
        edge.read.push(EdgeNumberRecord {
            frame: self.frame,
            number: number.to_owned(),
        });
        edge.read.sort_by_key(|one| one.frame);
        let roll = with(roll, edge);
        following(&roll)?;
        let words = format!("edge number {number} at {}\u{b7}{}", self.roll, self.frame);
        Ok((words, put(roll)))
    }
}

impl EdgeNumberGone {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let mut edge = roll.inspection.edge.clone();
        edge.read.retain(|one| one.frame != self.frame);
        if edge.read.len() == roll.inspection.edge.read.len() {
            return Err(unfit(
                format!(
                    "no edge number is listed at {}\u{b7}{}",
                    self.roll, self.frame
                ),
                "name the frame at which it was written down",
            ));
        }
        let words = format!("no edge number at {}\u{b7}{}", self.roll, self.frame);
        Ok((words, put(with(roll, edge))))
    }
}

fn with(roll: RollRecord, edge: EdgeRecord) -> RollRecord {
    let inspection = InspectionRecord {
        edge,
        ..roll.inspection.clone()
    };
    RollRecord { inspection, ..roll }
}

fn put(roll: RollRecord) -> Act {
    Act::PutRoll {
        name: roll.name.clone(),
        roll: Some(Box::new(roll)),
    }
}

/// The numbers read and those that follow, in the order of the film.
fn following(roll: &RollRecord) -> Result<Vec<EdgeReading>, ProductionError> {
    let edge = &roll.inspection.edge;
    let mut readings = Vec::with_capacity(edge.read.len());
    for one in &edge.read {
        readings.push(EdgeReading {
            at: FramePos::new(one.frame)?,
            number: one.number.clone(),
        });
    }
    let mut joins = Vec::with_capacity(roll.inspection.joins.len());
    for join in &roll.inspection.joins {
        joins.push(FramePos::new(join.frame)?);
    }
    // With one reading nothing follows, and the step is not asked.
    if readings.len() > 1 && edge.step == 0 {
        return Err(unfit(
            "it is not said how many frames lie from one number to the next".to_owned(),
            "count them on the film and say the step: on 16 mm it is 20 or 40, by stock",
        ));
    }
    edge_numbers(edge.step, &readings, &joins).map_err(refused)
}

fn refused(conflict: EdgeConflict) -> ProductionError {
    let hint = match &conflict {
        EdgeConflict::NoNumber { .. } => "write it as it stands there, with the number at its end",
        EdgeConflict::OtherStock { .. } => {
            "read both again, or write the join between them down in the inspection"
        }
        _ => "look at both places again, and count the step; frames may be missing between them",
    };
    unfit(conflict.to_string(), hint)
}

/// The edge numbers that can be counted from. Where a join found later parts what was
/// read, or frames changed, only what was read is told.
pub(crate) fn edge_numbers_of(roll: &RollRecord) -> Result<Vec<EdgeReading>, ProductionError> {
    if let Ok(all) = following(roll) {
        return Ok(all);
    }
    let read = roll.inspection.edge.read.iter();
    read.map(|one| {
        Ok(EdgeReading {
            at: FramePos::new(one.frame)?,
            number: one.number.clone(),
        })
    })
    .collect()
}

/// What stands in the inspection of a roll.
pub(crate) fn edge_document(roll: &RollRecord) -> Result<EdgeDocument, ProductionError> {
    let edge = &roll.inspection.edge;
    let follow = edge_numbers_of(roll)?.len().saturating_sub(edge.read.len());
    Ok(EdgeDocument {
        step: (edge.step > 0).then_some(edge.step),
        read: edge
            .read
            .iter()
            .map(|one| EdgeNumberDocument {
                frame: one.frame,
                number: one.number.clone(),
            })
            .collect(),
        follow,
    })
}
