//! What a ruler says of a roll: a hundred frames, and the film on its reel.

use onestrand_film::{
    Fps, Frames, Gauge, Length, Quantity, Shrinkage, UnitError, Winding, frames_wound,
};
use onestrand_store::{Act, Production, RollRecord, WoundRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::{HundredDocument, WoundDocument, WoundWords};
use crate::error::unfit;

/// Thickness of polyester stock, where it was not measured. Unit: millimetres.
const POLYESTER_MM: f64 = 0.10;
/// How far a thickness from a table may be off. Unit: millimetres.
const THICKNESS_OFF_MM: f64 = 0.005;
/// How far a measured thickness may be off. Unit: millimetres.
const MICROMETER_OFF_MM: f64 = 0.001;
/// How far a ruler may be off. Unit: millimetres.
const RULER_OFF_MM: f64 = 0.5;

/// A hundred frames were measured; what follows of shrinkage is kept with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MeasureHundred {
    /// The roll.
    pub roll: String,
    /// Their length, such as `377.6`; nothing strikes the measure off. Unit:
    /// millimetres.
    #[serde(default)]
    pub mm: Option<String>,
}

/// The film was measured on its reel.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MeasureWound {
    /// The roll.
    pub roll: String,
    /// What the ruler says; nothing strikes the measure off.
    #[serde(default)]
    pub wound: Option<WoundWords>,
}

impl MeasureHundred {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let mut roll = production.roll(&self.roll)?;
        let gauge = roll.to_model()?.gauge;
        let measured = self.mm.as_deref().map(str::trim).filter(|t| !t.is_empty());
        let words = match measured {
            None => {
                roll.inspection.hundred_mm = None;
                roll.shrinkage = None;
                format!("no hundred frames of {} are measured", self.roll)
            }
            Some(text) => {
                let (_, text) = millimetres("the length of a hundred frames", text, 1.0, 2_500.0)?;
                let shrinkage = hundred(gauge, &text)?;
                roll.shrinkage = Some(shrinkage.to_string());
                let words = format!(
                    "a hundred frames of {} measure {text} mm: {shrinkage} % shrunk",
                    self.roll
                );
                roll.inspection.hundred_mm = Some(text);
                words
            }
        };
        // The frames that the measured length holds follow from the shrinkage.
        roll.expected = expected(&roll)?;
        let act = Act::PutRoll {
            name: roll.name.clone(),
            roll: Some(Box::new(roll)),
        };
        Ok((words, act))
    }
}

impl MeasureWound {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let mut roll = production.roll(&self.roll)?;
        roll.inspection.wound = match &self.wound {
            None => None,
            Some(words) => {
                let record = plain(words)?;
                roll.inspection.wound = Some(record.clone());
                wound_document(&roll)?;
                Some(record)
            }
        };
        let act = Act::PutRoll {
            name: roll.name.clone(),
            roll: Some(Box::new(roll)),
        };
        Ok((format!("{} measured on its reel", self.roll), act))
    }
}

/// The figures as they are kept: with a point, and within what a reel can be.
fn plain(words: &WoundWords) -> Result<WoundRecord, ProductionError> {
    let thickness = words.thickness_mm.as_deref().map(str::trim);
    let record = WoundRecord {
        across_mm: millimetres("across the film", &words.across_mm, 5.0, 1_000.0)?.1,
        hub_mm: millimetres("across the hub", &words.hub_mm, 5.0, 400.0)?.1,
        thickness_mm: match thickness.filter(|t| !t.is_empty()) {
            None => None,
            Some(text) => Some(millimetres("the thickness of the film", text, 0.05, 0.3)?.1),
        },
    };
    let number = |text: &str| text.parse::<f64>().unwrap_or(0.0);
    if number(&record.across_mm) <= number(&record.hub_mm) {
        return Err(unfit(
            "the film is no wider across than its hub".to_owned(),
            "measure from edge to edge through the middle, the film and then the hub",
        ));
    }
    Ok(record)
}

/// A measure in millimetres, its comma made a point, within bounds.
pub(crate) fn millimetres(
    what: &str,
    text: &str,
    least: f64,
    most: f64,
) -> Result<(f64, String), ProductionError> {
    let plain = text.trim().trim_end_matches("mm").trim().replace(',', ".");
    let digits = plain.chars().all(|c| c.is_ascii_digit() || c == '.');
    match plain.parse::<f64>() {
        Ok(number) if digits && plain.len() <= 12 && (least..=most).contains(&number) => {
            Ok((number, plain))
        }
        _ => Err(unfit(
            format!("{what}: {text:?} is no measure from {least} to {most} mm"),
            "write millimetres, such as 377.6",
        )),
    }
}

fn hundred(gauge: Gauge, mm: &str) -> Result<Shrinkage, ProductionError> {
    let new = hundred_new(gauge);
    Shrinkage::from_hundred_frames(gauge, mm).map_err(|problem| match problem {
        UnitError::OutOfRange { .. } => unfit(
            format!(
                "a hundred frames of new {} measure {new} mm; {mm} is longer than that, or 5 % less",
                gauge.spec().name
            ),
            "count the hundred frames again, with the film flat and free; film that is not shrunk measures as new",
        ),
        other => other.into(),
    })
}

/// A hundred frames of new film. Unit: millimetres.
fn hundred_new(gauge: Gauge) -> String {
    let um = gauge.spec().pitch_um;
    format!("{}.{}", um / 10, um % 10)
}

/// The shrinkage of a roll as exactly as it is known: from the hundred frames,
/// or as it was said.
pub(crate) fn shrinkage(roll: &RollRecord) -> Result<Option<Shrinkage>, ProductionError> {
    if let Some(mm) = &roll.inspection.hundred_mm {
        return Ok(Some(hundred(roll.to_model()?.gauge, mm)?));
    }
    Ok(roll.shrinkage.as_deref().map(str::parse).transpose()?)
}

/// The frames that the measured length of a roll holds.
pub(crate) fn expected(roll: &RollRecord) -> Result<Option<u32>, ProductionError> {
    let Some(text) = &roll.measured else {
        return Ok(None);
    };
    let measured: Quantity = text.parse()?;
    let speed: Fps = roll.film_speed.parse()?;
    let shrinkage = shrinkage(roll)?.unwrap_or(Shrinkage::NONE);
    let frames = measured.frames(roll.to_model()?.gauge, speed, shrinkage)?;
    Ok(Some(frames.count()))
}

/// A hundred frames against new film.
pub(crate) fn hundred_document(roll: &RollRecord) -> Result<HundredDocument, ProductionError> {
    let gauge = roll.to_model()?.gauge;
    Ok(HundredDocument {
        mm: roll.inspection.hundred_mm.clone(),
        new_mm: hundred_new(gauge),
        source: gauge.spec().pitch_source.to_owned(),
        shrinkage: shrinkage(roll)?.map(|s| s.to_string()),
    })
}

/// The film on its reel, with what the ruler and the thickness leave open.
pub(crate) fn wound_document(roll: &RollRecord) -> Result<Option<WoundDocument>, ProductionError> {
    let Some(wound) = &roll.inspection.wound else {
        return Ok(None);
    };
    let gauge = roll.to_model()?.gauge;
    let shrinkage = shrinkage(roll)?.unwrap_or(Shrinkage::NONE);
    let number = |text: &str| text.parse::<f64>().unwrap_or(0.0);
    let (across, hub) = (number(&wound.across_mm), number(&wound.hub_mm));
    let (thin, likely, thick) = thickness(roll, gauge);
    let frames = |across: f64, hub: f64, mm: f64| -> Result<u32, ProductionError> {
        Ok(frames_wound(across, Winding::new(hub.max(5.0), mm)?, gauge, shrinkage)?.count())
    };
    let nearest = frames(across, hub, likely)?;
    let between = (
        frames(across - RULER_OFF_MM, hub + RULER_OFF_MM, thick)?,
        frames(across + RULER_OFF_MM, hub - RULER_OFF_MM, thin)?,
    );
    let footage = gauge.footage(Frames::new(nearest)?);
    let metres = Length::by_pitch(Frames::new(nearest)?, gauge, shrinkage).metres_text(2);
    Ok(Some(WoundDocument {
        measured: wound.into(),
        thickness_mm: format!("{likely:.3}"),
        thickness_taken: wound.thickness_mm.is_none(),
        frames: nearest,
        footage: footage.into(),
        between,
        sum: format!(
            "length = \u{3c0} ({across}\u{b2} \u{2212} {hub}\u{b2}) / (4 \u{d7} {likely:.3}) mm = {metres} m"
        ),
    }))
}

/// Thickness of the film of a roll: the thinnest, likeliest and thickest it may be.
fn thickness(roll: &RollRecord, gauge: Gauge) -> (f64, f64, f64) {
    let about = |mm: f64, off: f64| (mm - off, mm, mm + off);
    let wound = roll.inspection.wound.as_ref();
    let measured = wound.and_then(|w| w.thickness_mm.as_deref());
    if let Some(mm) = measured.and_then(|text| text.parse::<f64>().ok()) {
        return about(mm, MICROMETER_OFF_MM);
    }
    let triacetate = f64::from(gauge.spec().thickness_um.unwrap_or(145)) / 1_000.0;
    match roll.base.as_str() {
        "polyester" => about(POLYESTER_MM, THICKNESS_OFF_MM),
        "triacetate" => about(triacetate, THICKNESS_OFF_MM),
        // Nobody knows which it is, so it may be either.
        _ => (
            POLYESTER_MM - THICKNESS_OFF_MM,
            triacetate,
            triacetate + THICKNESS_OFF_MM,
        ),
    }
}
