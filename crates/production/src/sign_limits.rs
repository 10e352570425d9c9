//! From where on signs are told: limits that the user may move, kept with the film.

use std::ops::Range;

use onestrand_signs::{SignLimits, SignRecord};
use onestrand_store::{Act, Production, TakeRecord, Workprints};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::{RollReport, SignDocument};
use crate::error::unfit;
use crate::film_view::report;
use crate::signs_seen::judged;

/// The name under which the limits are kept.
pub(crate) const SETTING: &str = "sign_limits";

/// A limit of a sign, as it is set, and what it means.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SignLimitDocument {
    /// Its name, for the change.
    pub limit: String,
    /// The kinds of sign that it decides on, in a few words.
    pub of: String,
    /// What it says, in a sentence.
    pub words: String,
    /// Its unit.
    pub unit: String,
    /// How it is set.
    pub value: f64,
    /// How it is set unless somebody moves it.
    pub usual: f64,
    /// The least it can be.
    pub least: f64,
    /// The most it can be.
    pub most: f64,
}

/// Another limit of a sign.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MoveSignLimit {
    /// Its name.
    pub limit: String,
    /// A number, with a point or a comma; the usual one when not said.
    #[serde(default)]
    pub value: Option<String>,
}

/// Name, kinds of sign, sentence, unit, least and most.
type Known = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    f64,
    f64,
);

/// Every limit that decides on a sign which is told, in the order in which they are
/// shown. Black and clear film is told with the breaks and has none.
const KNOWN: [Known; 13] = [
    (
        "soft_below",
        "soft",
        "Frames less sharp than this share of the best frame of their take are called soft.",
        "of the sharpest",
        0.0,
        1.0,
    ),
    (
        "stops_off",
        "over, under",
        "Frames lighter or darker than the middle of their take by this much are called over or under.",
        "stops",
        0.0,
        8.0,
    ),
    (
        "shake_above",
        "shake",
        "A picture that moves to and fro by this much is called shaking.",
        "% of the width",
        0.0,
        20.0,
    ),
    (
        "shake_over_weave",
        "shake",
        "A shake must also be this many times the usual weave of the roll.",
        "times",
        0.0,
        50.0,
    ),
    (
        "weave_above",
        "weave",
        "A take that trembles by this much from end to end is told.",
        "% of the width",
        0.0,
        20.0,
    ),
    (
        "hair_above",
        "hair",
        "A hair in the gate is told when it takes this much of the picture.",
        "% of the picture",
        0.0,
        10.0,
    ),
    (
        "scratch_above",
        "scratch",
        "A line along the film is told when it stands out by this much.",
        "% of the level beside it",
        0.0,
        100.0,
    ),
    (
        "fog_above",
        "fog",
        "Stray light is told when it lifts the whole picture by this much.",
        "% of full light",
        0.0,
        100.0,
    ),
    (
        "flicker_above",
        "flicker",
        "Light that comes and goes by this much through a take is told.",
        "stops",
        0.0,
        8.0,
    ),
    (
        "dust_above",
        "dust",
        "A take with more specks than this on each frame is told.",
        "specks a frame",
        0.0,
        10_000.0,
    ),
    (
        "stands_against",
        "hair, scratch",
        "The picture must move by this much before what stands still is taken for a hair or a line.",
        "% of the width",
        0.0,
        100.0,
    ),
    (
        "shortest_part",
        "soft, over, under, fog",
        "Shorter parts than this are not told.",
        "frames",
        1.0,
        10_000.0,
    ),
    (
        "shortest_run",
        "shake, hair, scratch",
        "Shorter runs than this are not told.",
        "frames",
        1.0,
        10_000.0,
    ),
];

/// The limits as they are set.
pub(crate) fn limits(production: &Production) -> Result<SignLimits, ProductionError> {
    let kept = production.setting(SETTING)?;
    // Limits of another version that mean nothing here are the usual ones.
    let limits = kept.and_then(|text| serde_json::from_str(&text).ok());
    Ok(limits
        .filter(|limits: &SignLimits| limits.out_of_range().is_none())
        .unwrap_or_default())
}

/// Every limit with its value.
///
/// # Errors
/// [`ProductionError::Store`].
pub(crate) fn sign_limits(
    production: &Production,
) -> Result<Vec<SignLimitDocument>, ProductionError> {
    let (now, usual) = (
        numbers(&limits(production)?),
        numbers(&SignLimits::default()),
    );
    let of = |values: &Value, name: &str| {
        let value = values.get(name).and_then(Value::as_f64).unwrap_or_default();
        // A limit of 0.35 is kept in fewer digits than it is worked with.
        (value * 1e4).round() / 1e4
    };
    let one = |&(limit, of_kinds, words, unit, least, most): &Known| SignLimitDocument {
        limit: limit.to_owned(),
        of: of_kinds.to_owned(),
        words: words.to_owned(),
        unit: unit.to_owned(),
        value: of(&now, limit),
        usual: of(&usual, limit),
        least,
        most,
    };
    Ok(KNOWN.iter().map(one).collect())
}

fn numbers(limits: &SignLimits) -> Value {
    serde_json::to_value(limits).unwrap_or_default()
}

impl MoveSignLimit {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let known = KNOWN.iter().find(|known| known.0 == self.limit);
        let &(name, of, _, unit, least, most) = known.ok_or_else(|| {
            unfit(
                format!("there is no limit called {}", self.limit),
                "move one that the list of limits names",
            )
        })?;
        let mut values = numbers(&limits(production)?);
        let usual = numbers(&SignLimits::default());
        let is_count = unit == "frames";
        let (value, words) = match &self.value {
            None => {
                let value = usual.get(name).cloned().unwrap_or_default();
                (value, format!("the usual limit of {of}"))
            }
            Some(text) => {
                let value = number(text).filter(|v| (least..=most).contains(v));
                let value = value.filter(|v| !is_count || v.fract() == 0.0);
                let value = value.ok_or_else(|| {
                    unfit(
                        format!("{text} is no limit for {of}"),
                        "give a number within the range beside it",
                    )
                })?;
                let kept = if is_count {
                    Value::from(value as u64)
                } else {
                    Value::from(value)
                };
                (kept, format!("the limit of {of} to {value} {unit}"))
            }
        };
        values[name] = value;
        let is_usual = values == usual;
        let act = Act::PutSetting {
            name: SETTING.to_owned(),
            value: (!is_usual).then(|| values.to_string()),
        };
        Ok((words, act))
    }
}

fn number(text: &str) -> Option<f64> {
    text.trim().replace(',', ".").parse().ok()
}

/// What the reading of a roll found, with its signs by the takes and limits of today;
/// nothing without a workprint.
pub(crate) fn roll_report(
    production: &Production,
    prints: &Workprints,
    roll: &str,
) -> Result<Option<RollReport>, ProductionError> {
    let Some(info) = prints.info(roll)? else {
        return Ok(None);
    };
    let mut found = report(&info.report);
    let limits = limits(production)?;
    let takes = production.takes_of(roll)?;
    if limits == SignLimits::default() && are_as_found(&takes, &found) {
        return Ok(Some(found));
    }
    // Without a record, or with one of another version, the signs stay as they were
    // told when the roll was read.
    let record = prints
        .signs(roll)?
        .and_then(|kept| SignRecord::from_bytes(&kept));
    if let Some(record) = record {
        let spans: Vec<Range<u32>> = takes.iter().map(|take| take.first..take.thrown).collect();
        found.signs.retain(told_with_the_breaks);
        found.signs.extend(judged(&record, &spans, &limits));
        found.signs.sort_by_key(|sign| (sign.first, sign.thrown));
    }
    Ok(Some(found))
}

/// Whether takes begin where the reading found them to.
fn are_as_found(takes: &[TakeRecord], found: &RollReport) -> bool {
    let now = takes.iter().map(|take| take.first);
    let read = found.breaks.iter().map(|one| one.at);
    now.filter(|at| *at > 0).eq(read.filter(|at| *at > 0))
}

/// Flashes, fogged ends, leader and black come with the breaks and know no limits.
fn told_with_the_breaks(sign: &SignDocument) -> bool {
    let is_fogged_end = sign.kind == "fog" && sign.unit == "frames";
    is_fogged_end || ["flash", "leader", "black"].contains(&sign.kind.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(name: &str, value: f64) -> Option<SignLimits> {
        let mut values = numbers(&SignLimits::default());
        let is_count = values[name].is_u64();
        values[name] = if is_count {
            Value::from(value as u64)
        } else {
            Value::from(value)
        };
        serde_json::from_value(values).ok()
    }

    /// The range that is shown is the one by which limits are refused.
    #[test]
    fn the_ranges_shown_are_those_of_the_limits() {
        for &(name, _, _, _, least, most) in &KNOWN {
            let refused = |value| with(name, value).and_then(|limits| limits.out_of_range());
            assert_eq!((refused(least), refused(most)), (None, None), "{name}");
            assert_eq!(refused(most + 1.0), Some(name), "{name}");
            // Below the least there is nothing that could be written as a count.
            if least == 0.0 {
                assert_eq!(refused(-0.1), Some(name), "{name}");
            } else {
                assert_eq!(refused(0.0), Some(name), "{name}");
            }
        }
    }
}
