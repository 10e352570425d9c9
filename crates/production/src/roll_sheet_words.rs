//! What the sheets about rolls say of takes, signs and joins.

use onestrand_sheets::FoundByHand;
use onestrand_store::{RollJoinRecord, RollRecord, TakeRecord};

use crate::ProductionError;
use crate::documents::{HundredDocument, InspectionDocument, SignDocument, WoundDocument};

/// Setup and take as they are said together, `3A-T2`; empty when not named.
pub(crate) fn slate_of(take: &TakeRecord) -> Result<String, ProductionError> {
    let slate = take.to_model()?.slate;
    Ok(slate.map(|slate| slate.to_string()).unwrap_or_default())
}

/// How a take begins, with the light of its first frame.
pub(crate) fn begins_words(take: &TakeRecord) -> String {
    let begins = match take.begins.as_str() {
        "roll_start" => "head of the roll".to_owned(),
        other => other.replace('_', " "),
    };
    match take.flash_stops.filter(|stops| *stops > 0.0) {
        Some(stops) => format!("{begins}, first frame {stops:.1} stops over"),
        None => begins,
    }
}

/// The signs on a take, those of a kind together. How it begins tells of the
/// flash already.
pub(crate) fn of_the_take(signs: &[SignDocument], take: &TakeRecord) -> Vec<String> {
    let here = signs
        .iter()
        .filter(|sign| sign.first < take.thrown && take.first < sign.thrown)
        .filter(|sign| sign.kind != "flash");
    together(&here.collect::<Vec<_>>())
}

/// The signs that are the film's and not the camera's: what a person can see on
/// it on the bench.
pub(crate) fn of_the_film(signs: &[SignDocument]) -> Vec<String> {
    const OF_THE_FILM: [&str; 3] = ["fog", "scratch", "dust"];
    let here = signs
        .iter()
        .filter(|sign| OF_THE_FILM.contains(&sign.kind.as_str()));
    together(&here.collect::<Vec<_>>())
}

/// A sign alone is told with its place; more of one kind and unit by their number
/// and the most that was measured.
fn together(signs: &[&SignDocument]) -> Vec<String> {
    let mut told: Vec<&str> = Vec::new();
    let mut all = Vec::new();
    for sign in signs {
        if told.contains(&sign.kind.as_str()) {
            continue;
        }
        told.push(&sign.kind);
        let alike: Vec<_> = signs.iter().filter(|one| one.kind == sign.kind).collect();
        // Fog is told by where it lies, not by how much of it there is.
        if alike.len() == 1 || sign.unit == "frames" {
            all.extend(alike.iter().map(|one| alone(one)));
            continue;
        }
        let measures = alike.iter().map(|one| one.measure);
        let (far, which) = if sign.kind == "soft" {
            (measures.fold(f64::INFINITY, f64::min), "least")
        } else {
            (measures.fold(f64::NEG_INFINITY, f64::max), "most")
        };
        all.push(format!(
            "{} in {} places, {which} {} {}",
            sign.kind,
            alike.len(),
            short_number(far),
            sign.unit
        ));
    }
    all
}

/// A sign with its place and measure: `hair 470 to 480, lower right: 0.13 % of
/// the picture`.
fn alone(sign: &SignDocument) -> String {
    let last = sign.thrown.saturating_sub(1);
    let span = if last == sign.first {
        sign.first.to_string()
    } else {
        format!("{} to {last}", sign.first)
    };
    let place = sign.place.as_deref().map(|place| format!(", {place}"));
    let place = place.unwrap_or_default();
    if sign.unit == "frames" {
        return format!("{} {span}{place}", sign.kind);
    }
    let measure = short_number(sign.measure);
    format!("{} {span}{place}: {measure} {}", sign.kind, sign.unit)
}

/// Two figures behind the point are more than any sign is known by.
fn short_number(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The joins that were found by hand, of each kind how many; and how many joins and
/// camera stops the reading found between the takes.
pub(crate) fn joins_words(takes: &[TakeRecord], found: &[RollJoinRecord]) -> String {
    let mut by_hand = Vec::new();
    for kind in ["tape", "cement", "weld", "not-known"] {
        let count = found.iter().filter(|join| join.kind == kind).count();
        if count > 0 {
            by_hand.push(format!("{count} {}", kind.replace('-', " ")));
        }
    }
    let count = |word: &str| takes.iter().filter(|take| take.begins == word).count();
    let one = |n: usize, single: &str, many: &str| {
        (n > 0).then(|| format!("{n} {}", if n == 1 { single } else { many }))
    };
    let said: Vec<String> = [
        one(count("join"), "join", "joins"),
        one(count("camera_stop"), "camera stop", "camera stops"),
    ]
    .into_iter()
    .flatten()
    .collect();
    match (by_hand.is_empty(), said.is_empty()) {
        (true, _) => said.join(", "),
        (false, true) => by_hand.join(", "),
        (false, false) => format!("{}; between takes {}", by_hand.join(", "), said.join(", ")),
    }
}

/// A base, where it is known.
pub(crate) fn unless_unknown(base: &str) -> String {
    if base == "not-known" {
        String::new()
    } else {
        base.to_owned()
    }
}

/// What a roll is fit for, as it is said.
pub(crate) fn fit_words(fit: &str) -> &str {
    match fit {
        "project" => "projecting",
        "scan-only" => "scanning only",
        "never-cut" => "keeping: never cut",
        other => other,
    }
}

/// Where a roll is wound and what its number is: `club reel, part 2; 1974/12`.
pub(crate) fn kept_words(found: &InspectionDocument) -> String {
    let reels = found
        .on_reels
        .iter()
        .map(|on| format!("{}, part {}", on.reel, on.place));
    let number = Some(found.accession.clone()).filter(|number| !number.is_empty());
    reels.chain(number).collect::<Vec<_>>().join("; ")
}

/// A hundred frames on the ruler: `377.6 mm, new 381.0`.
pub(crate) fn hundred_words(hundred: &HundredDocument) -> String {
    let words = |mm: &String| format!("{mm} mm, new {}", hundred.new_mm);
    hundred.mm.as_ref().map(words).unwrap_or_default()
}

/// A length by the ruler, with what is left open.
pub(crate) fn wound_words(wound: Option<&WoundDocument>) -> String {
    let words = |wound: &WoundDocument| {
        format!(
            "about {} ft {} fr ({} to {} frames)",
            wound.footage.feet, wound.footage.frames, wound.between.0, wound.between.1
        )
    };
    wound.map(words).unwrap_or_default()
}

/// What stands on the label of a take whose strip is not slit.
pub(crate) fn strip_remark(roll: &RollRecord) -> String {
    match &roll.inspection.half {
        Some(half) if !half.slit => format!("strip {}, side {}: not slit", half.strip, half.side),
        _ => String::new(),
    }
}

/// What the hand has found, as it stands on paper.
pub(crate) fn found_words(found: &InspectionDocument) -> FoundByHand {
    let said = found.condition.clone();
    FoundByHand {
        picture: said.picture,
        lies: match found.lies.as_str() {
            "" => String::new(),
            lies => format!("{lies} out"),
        },
        acid: said.acid,
        vinegar: said.vinegar,
        warping: said.warping,
        perforations: said.perforations,
        scratches: said.scratches,
        fading: said.fading,
        sound: said.sound,
        by: said.by,
        note: said.note,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sign(kind: &str, first: u32, measure: f64, unit: &str) -> SignDocument {
        SignDocument {
            kind: kind.to_owned(),
            first,
            thrown: first + 10,
            measure,
            unit: unit.to_owned(),
            place: None,
            area: None,
            most: None,
            least: None,
            clipped_percent: None,
        }
    }

    #[test]
    fn signs_of_a_kind_are_told_together_and_lone_ones_with_their_place() {
        let signs = [
            sign("shake", 30, 0.44, "% of width"),
            sign("hair", 30, 0.13, "% of the picture"),
            sign("shake", 60, 0.27, "% of width"),
            sign("soft", 70, 0.41, "of the best frame of the take"),
            sign("soft", 90, 0.5, "of the best frame of the take"),
            sign("fog", 0, 10.0, "frames"),
            sign("fog", 90, 10.0, "frames"),
        ];
        let all: Vec<&SignDocument> = signs.iter().collect();
        assert_eq!(
            together(&all),
            [
                "shake in 2 places, most 0.44 % of width",
                "hair 30 to 39: 0.13 % of the picture",
                "soft in 2 places, least 0.41 of the best frame of the take",
                "fog 0 to 9",
                "fog 90 to 99",
            ]
        );
        assert_eq!(of_the_film(&signs), ["fog 0 to 9", "fog 90 to 99"]);
    }
}
