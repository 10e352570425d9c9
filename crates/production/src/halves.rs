//! Double-run film: two halves of one strip, each a roll of its own.

use onestrand_film::Gauge;
use onestrand_store::{Act, HalfRecord, Production, RollRecord};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::HalfDocument;
use crate::error::unfit;

/// Two rolls are the halves of one strip that ran through the camera twice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct PairHalves {
    /// What the strip is called.
    pub strip: String,
    /// The roll that was run first.
    pub a: String,
    /// The roll that was run after the spools were changed over.
    pub b: String,
    /// Whether the strip has been slit.
    #[serde(default)]
    pub slit: bool,
}

/// A strip has been slit, or was not after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SlitStrip {
    /// The strip.
    pub strip: String,
    /// Whether it has been slit.
    pub slit: bool,
}

/// The rolls of a strip are no halves after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct PartHalves {
    /// The strip.
    pub strip: String,
}

impl PairHalves {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let strip = self.strip.trim();
        text_fits("name of the strip", strip)?;
        if strip.is_empty() || strip.chars().count() > 16 {
            return Err(unfit(
                "a strip's name has 1 to 16 letters".to_owned(),
                "call it by the rolls it holds, such as R4",
            ));
        }
        if self.a == self.b {
            return Err(unfit(
                format!("{} cannot be both halves", self.a),
                "the second run is a roll of its own, such as R4a and R4b",
            ));
        }
        let mut acts = Vec::new();
        for (name, side) in [(&self.a, "A"), (&self.b, "B")] {
            let roll = production.roll(name)?;
            is_double_run(&roll)?;
            if let Some(half) = roll.inspection.half.as_ref().filter(|h| h.strip != strip) {
                return Err(unfit(
                    format!("{name} is a half of strip {} already", half.strip),
                    "part the halves of that strip first",
                ));
            }
            acts.push(with_half(
                roll,
                Some(HalfRecord {
                    strip: strip.to_owned(),
                    side: side.to_owned(),
                    slit: self.slit,
                }),
            ));
        }
        let others = rolls_of(production, strip)?
            .into_iter()
            .filter(|roll| roll.name != self.a && roll.name != self.b);
        acts.extend(others.map(|roll| with_half(roll, None)));
        let words = format!("{} and {} are the halves of strip {strip}", self.a, self.b);
        Ok((words, Act::All { acts }))
    }
}

impl SlitStrip {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let acts = of_strip(production, &self.strip)?.into_iter().map(|roll| {
            let half = roll.inspection.half.clone();
            let slit = self.slit;
            with_half(roll, half.map(|half| HalfRecord { slit, ..half }))
        });
        let acts = Act::All {
            acts: acts.collect(),
        };
        let words = if self.slit { "is slit" } else { "is not slit" };
        Ok((format!("strip {} {words}", self.strip), acts))
    }
}

impl PartHalves {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let rolls = of_strip(production, &self.strip)?;
        let acts = rolls.into_iter().map(|roll| with_half(roll, None));
        let acts = Act::All {
            acts: acts.collect(),
        };
        Ok((format!("strip {} has no halves", self.strip), acts))
    }
}

fn is_double_run(roll: &RollRecord) -> Result<(), ProductionError> {
    if roll.to_model()?.gauge == Gauge::Regular8 {
        return Ok(());
    }
    Err(unfit(
        format!(
            "{} is {}; only regular 8 is run twice and slit",
            roll.name, roll.gauge
        ),
        "bring it in with --gauge regular8 if it is that",
    ))
}

fn with_half(roll: RollRecord, half: Option<HalfRecord>) -> Act {
    let name = roll.name.clone();
    let mut roll = roll;
    roll.inspection.half = half;
    Act::PutRoll {
        name,
        roll: Some(Box::new(roll)),
    }
}

/// The rolls of a strip, which must be known.
fn of_strip(production: &Production, strip: &str) -> Result<Vec<RollRecord>, ProductionError> {
    let rolls = rolls_of(production, strip)?;
    if rolls.is_empty() {
        return Err(unfit(
            format!("there is no strip {strip}"),
            "say first which two rolls are its halves",
        ));
    }
    Ok(rolls)
}

fn rolls_of(production: &Production, strip: &str) -> Result<Vec<RollRecord>, ProductionError> {
    let mut rolls = production.rolls()?;
    let is_of = |half: &HalfRecord| half.strip == strip;
    rolls.retain(|roll| roll.inspection.half.as_ref().is_some_and(is_of));
    Ok(rolls)
}

/// The half that a roll is, with how it lies on the strip.
pub(crate) fn half_document(
    production: &Production,
    roll: &RollRecord,
) -> Result<Option<HalfDocument>, ProductionError> {
    let Some(half) = &roll.inspection.half else {
        return Ok(None);
    };
    let others = rolls_of(production, &half.strip)?.into_iter();
    let other = others.map(|r| r.name).find(|name| *name != roll.name);
    Ok(Some(HalfDocument {
        strip: half.strip.clone(),
        side: half.side.clone(),
        slit: half.slit,
        words: half_words(half, other.as_deref()),
        other,
    }))
}

/// How a half lies: `side B of strip R4, not slit: in a scan of the whole strip it
/// runs the other way …`.
fn half_words(half: &HalfRecord, other: Option<&str>) -> String {
    let HalfRecord { strip, side, slit } = half;
    let beside = other.map_or_else(String::new, |name| format!(", beside {name}"));
    if *slit {
        return format!("side {side} of strip {strip}, slit");
    }
    let way = if side == "B" {
        "in a scan of the whole strip it runs the other way: last frame first, and turned \
         by half a turn"
    } else {
        "in a scan of the whole strip it runs the way of the strip"
    };
    format!(
        "side {side} of strip {strip}{beside}, not slit: {way}; a cut goes through both halves, so cut nothing before it is slit"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_second_half_runs_the_other_way_until_it_is_slit() {
        let half = |side: &str, slit| HalfRecord {
            strip: "R4".to_owned(),
            side: side.to_owned(),
            slit,
        };
        let first = half_words(&half("A", false), Some("R4b"));
        assert!(
            first.contains("beside R4b, not slit: in a scan of the whole strip it runs the way"),
            "{first}"
        );
        let second = half_words(&half("B", false), Some("R4a"));
        assert!(
            second.contains("last frame first") && second.contains("both halves"),
            "{second}"
        );
        assert_eq!(
            half_words(&half("B", true), Some("R4a")),
            "side B of strip R4, slit"
        );
    }
}
