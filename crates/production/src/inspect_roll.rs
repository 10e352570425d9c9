//! The inspection of a roll: what is found with the film in the hand.

use onestrand_film::Frames;
use onestrand_store::{Act, InspectionRecord, Production, RollJoinRecord, RollRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{ConditionWords, InspectionDocument, RollJoinDocument};
use crate::edge_numbers::edge_document;
use crate::error::unfit;
use crate::reels::{one_of, where_wound};
use crate::roll_measures::{hundred_document, shrinkage, wound_document};

/// Shrinkage above which film is kept off sprockets. Unit: per cent. To be
/// calibrated on one's own machine.
const TOO_SHRUNK: f64 = 0.8;
/// The level of an acid strip at which one acts.
const ACID_ACTS: f64 = 1.5;

/// What was found on a roll; all of it is replaced. Joins, the hundred frames and
/// the measure on the reel have changes of their own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct InspectRoll {
    /// The roll.
    pub roll: String,
    /// The number it has in a collection.
    #[serde(default)]
    pub accession: String,
    /// `heads`, `tails` or empty.
    #[serde(default)]
    pub lies: String,
    /// In what state it is.
    #[serde(default)]
    pub condition: ConditionWords,
}

/// A join was found on a roll, or is said to be another.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct JoinFound {
    /// The roll.
    pub roll: String,
    /// The first frame after it.
    pub frame: u32,
    /// `tape`, `cement`, `weld` or `not-known`.
    pub kind: String,
    /// What is to be said of it.
    #[serde(default)]
    pub note: String,
}

/// There is no join there after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct JoinGone {
    /// The roll.
    pub roll: String,
    /// The first frame after it.
    pub frame: u32,
}

impl InspectRoll {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let said = &self.condition;
        for (what, text) in [
            ("accession number", &self.accession),
            ("picture", &said.picture),
            ("warping", &said.warping),
            ("perforations", &said.perforations),
            ("scratches", &said.scratches),
            ("fading", &said.fading),
            ("sound", &said.sound),
            ("name", &said.by),
            ("note", &said.note),
        ] {
            text_fits(what, text)?;
        }
        one_of("way it lies", &self.lies, &["heads", "tails", ""])?;
        one_of(
            "smell of vinegar",
            &said.vinegar,
            &["none", "slight", "strong", ""],
        )?;
        acid_level(&said.acid)?;
        let inspection = InspectionRecord {
            accession: self.accession.trim().to_owned(),
            lies: self.lies.clone(),
            condition: said.into(),
            ..roll.inspection.clone()
        };
        let words = format!("the inspection of {}", self.roll);
        Ok((words, with(roll, inspection)))
    }
}

/// A level of an acid strip, nothing where none was laid in.
fn acid_level(text: &str) -> Result<Option<f64>, ProductionError> {
    if text.is_empty() {
        return Ok(None);
    }
    match text.parse::<f64>() {
        Ok(level) if (0.0..=3.0).contains(&level) => Ok(Some(level)),
        _ => Err(unfit(
            format!("{text:?} is no level of an acid strip"),
            "strips are read from 0 to 3, such as 0.5",
        )),
    }
}

impl JoinFound {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        one_of(
            "kind of join",
            &self.kind,
            &["tape", "cement", "weld", "not-known"],
        )?;
        text_fits("note", &self.note)?;
        if self.frame == 0 || self.frame >= roll.frames {
            return Err(unfit(
                format!(
                    "a join of {} lies before a frame from 1 to {}",
                    self.roll,
                    roll.frames.saturating_sub(1)
                ),
                "name the first frame after the join",
            ));
        }
        let mut inspection = roll.inspection.clone();
        inspection.joins.retain(|join| join.frame != self.frame);
        inspection.joins.push(RollJoinRecord {
            frame: self.frame,
            kind: self.kind.clone(),
            note: self.note.clone(),
        });
        inspection.joins.sort_by_key(|join| join.frame);
        let words = format!("a join before {}\u{b7}{}", self.roll, self.frame);
        Ok((words, with(roll, inspection)))
    }
}

impl JoinGone {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let roll = production.roll(&self.roll)?;
        let mut inspection = roll.inspection.clone();
        inspection.joins.retain(|join| join.frame != self.frame);
        if inspection.joins.len() == roll.inspection.joins.len() {
            return Err(unfit(
                format!("no join is listed before {}\u{b7}{}", self.roll, self.frame),
                "name the first frame after the join",
            ));
        }
        let words = format!("no join before {}\u{b7}{}", self.roll, self.frame);
        Ok((words, with(roll, inspection)))
    }
}

fn with(roll: RollRecord, inspection: InspectionRecord) -> Act {
    Act::PutRoll {
        name: roll.name.clone(),
        roll: Some(Box::new(RollRecord { inspection, ..roll })),
    }
}

/// What was found on a roll with the film in the hand.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such roll.
pub fn inspection(
    production: &Production,
    roll: &str,
) -> Result<InspectionDocument, ProductionError> {
    inspection_document(production, &production.roll(roll)?)
}

/// What was found on a roll, with what follows from it.
pub(crate) fn inspection_document(
    production: &Production,
    roll: &RollRecord,
) -> Result<InspectionDocument, ProductionError> {
    let gauge = roll.to_model()?.gauge;
    let found = &roll.inspection;
    let mut joins = Vec::with_capacity(found.joins.len());
    for join in &found.joins {
        joins.push(RollJoinDocument {
            frame: join.frame,
            footage: gauge.footage(Frames::new(join.frame)?).into(),
            kind: join.kind.clone(),
            note: join.note.clone(),
        });
    }
    Ok(InspectionDocument {
        accession: found.accession.clone(),
        lies: found.lies.clone(),
        condition: (&found.condition).into(),
        hundred: hundred_document(roll)?,
        wound: wound_document(roll)?,
        joins,
        edge: edge_document(roll)?,
        on_reels: where_wound(production, roll)?,
        cautions: cautions(roll)?,
    })
}

/// What to be careful of with a roll as it was found.
pub(crate) fn cautions(roll: &RollRecord) -> Result<Vec<String>, ProductionError> {
    let found = &roll.inspection;
    let mut all = Vec::new();
    let percent = shrinkage(roll)?.map_or(0.0, |s| s.to_string().parse::<f64>().unwrap_or(0.0));
    if percent > TOO_SHRUNK {
        all.push(format!(
            "Shrunk by {percent:.2} %: keep it off machines that pull by sprockets, and have it scanned first."
        ));
    }
    let acid = acid_level(&found.condition.acid)?.unwrap_or(0.0);
    if acid >= ACID_ACTS || ["slight", "strong"].contains(&found.condition.vinegar.as_str()) {
        all.push(
            "Vinegar: the base gives off acid. Wear gloves, let in air, keep it apart from sound \
             film, and ask an archive before you run, clean or cut it."
                .to_owned(),
        );
    }
    if roll.gauge == "35" && roll.base == "not-known" {
        all.push(
            "The base is not known and may be nitrate: do not run, cut, scan or stack it, keep it \
             cool and away from people, and ask an archive or the fire service first."
                .to_owned(),
        );
    }
    if found.half.as_ref().is_some_and(|half| !half.slit) {
        all.push(
            "Not slit: a cut goes through both halves. In a scan of the whole strip side B runs \
             the other way, last frame first and turned by half a turn."
                .to_owned(),
        );
    }
    Ok(all)
}
