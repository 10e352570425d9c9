//! Signs of faults, as documents say them.

use std::ops::Range;

use onestrand_inspect::TakeSpan;
use onestrand_signs::{LineRun, LineTone, Place, Sign, SignKind, SignLimits, SignRecord};

use crate::documents::{AreaDocument, SignDocument};
use crate::reading::rounded;

/// The signs of a roll whose takes are known, with the limits as they come.
pub(crate) fn signs(record: &SignRecord, takes: &[TakeSpan]) -> Vec<SignDocument> {
    let spans: Vec<_> = takes.iter().map(|take| take.from..take.until).collect();
    judged(record, &spans, &SignLimits::default())
}

/// The signs of a kept record by a person's own takes and limits.
///
/// Black and clear film is told with the breaks, which know leader from it.
pub(crate) fn judged(
    record: &SignRecord,
    takes: &[Range<u32>],
    limits: &SignLimits,
) -> Vec<SignDocument> {
    let signs = record.signs(takes, limits);
    signs
        .iter()
        .filter(|sign| !matches!(sign.kind, SignKind::Black | SignKind::Clear))
        .map(document)
        .collect()
}

fn document(sign: &Sign) -> SignDocument {
    SignDocument {
        kind: sign.kind.word().to_owned(),
        first: sign.from,
        thrown: sign.until,
        measure: rounded(sign.measure),
        unit: sign.kind.unit().to_owned(),
        place: sign.place.map(place_words),
        area: sign.place.and_then(area),
        most: sign.compare.map(|pair| pair.seen),
        least: sign.compare.map(|pair| pair.beside),
        clipped_percent: sign.clipped.map(|share| rounded(100.0 * share)),
    }
}

/// Where a sign is, to be drawn on the picture.
fn area(place: Place) -> Option<AreaDocument> {
    match place {
        Place::Box {
            left,
            top,
            right,
            bottom,
        } => Some(AreaDocument {
            left,
            top,
            right,
            bottom,
        }),
        Place::Line { x, .. } => {
            let at = (f64::from(x) * 10.0).round().clamp(0.0, 1000.0) as u16;
            Some(AreaDocument {
                left: at,
                top: 0,
                right: at,
                bottom: 1000,
            })
        }
        _ => None,
    }
}

/// Where a sign is, in a few words.
fn place_words(place: Place) -> String {
    match place {
        Place::Box {
            left,
            top,
            right,
            bottom,
        } => box_words((left, right), (top, bottom)),
        Place::Line { x, tone, run } => line_words(x, tone, run),
        _ => "in the picture".to_owned(),
    }
}

/// A rectangle by the third of the picture that its middle lies in.
fn box_words(across: (u16, u16), down: (u16, u16)) -> String {
    let third = |(from, until): (u16, u16)| (u32::from(from) + u32::from(until)) * 3 / 2000;
    let is_whole = |(from, until): (u16, u16)| until.saturating_sub(from) > 600;
    let side = match third(across) {
        _ if is_whole(across) => "",
        0 => "left",
        1 => "middle",
        _ => "right",
    };
    let height = match third(down) {
        _ if is_whole(down) => "",
        0 => "upper",
        1 => "",
        _ => "lower",
    };
    match (height, side) {
        ("", "") => "all over".to_owned(),
        ("", side) => side.to_owned(),
        (height, "") => format!("{height} part"),
        (height, side) => format!("{height} {side}"),
    }
}

/// A line by its place, its tone and when it was made.
fn line_words(x: f32, tone: LineTone, run: LineRun) -> String {
    let side = match tone {
        LineTone::Dark => "dark line, base side",
        LineTone::Light => "light line, emulsion side",
    };
    let made = match run {
        LineRun::WithTheCamera => "begins and ends with the camera",
        LineRun::AcrossStops => "runs across camera stops",
        LineRun::WithinATake => "within one take",
    };
    format!("{side}, at {x:.0} % of the width, {made}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_said_in_words() {
        assert_eq!(box_words((807, 995), (840, 958)), "lower right");
        assert_eq!(box_words((0, 1000), (0, 1000)), "all over");
        assert_eq!(box_words((0, 333), (0, 1000)), "left");
        assert_eq!(box_words((100, 900), (0, 250)), "upper part");
        assert_eq!(
            line_words(31.03, LineTone::Dark, LineRun::AcrossStops),
            "dark line, base side, at 31 % of the width, runs across camera stops"
        );
    }

    #[test]
    fn a_sign_of_too_much_light_says_how_much_is_clipped() {
        let sign = Sign {
            kind: SignKind::Over,
            from: 10,
            until: 20,
            measure: 1.2,
            place: None,
            compare: None,
            clipped: Some(0.1234),
        };
        assert_eq!(document(&sign).clipped_percent, Some(12.34));
    }
}
