//! What a reading saw of breaks, fades and bare film, as documents say it.

use onestrand_film::Fps;
use onestrand_inspect::{Finding, speed_at_start};

use crate::documents::{BreakDocument, SignDocument, TakeDocument};
use crate::reading::rounded;

/// Fades and dissolves.
pub(crate) fn gradual(findings: &[Finding]) -> Vec<SignDocument> {
    let one = |finding: &Finding| match *finding {
        Finding::Gradual { kind, from, until } => Some(stretch(kind.word(), from, until)),
        _ => None,
    };
    findings.iter().filter_map(one).collect()
}

/// Flashes inside takes, fog, leader and black.
pub(crate) fn signs(findings: &[Finding]) -> Vec<SignDocument> {
    let one = |finding: &Finding| match *finding {
        Finding::Fog { from, until } => Some(stretch("fog", from, until)),
        Finding::Black { from, until } => Some(stretch("black", from, until)),
        Finding::Leader { from, until, level } => Some(SignDocument {
            measure: rounded(level / 255.0),
            unit: "of clear film".to_owned(),
            ..stretch("leader", from, until)
        }),
        Finding::Flash { at, frames, stops } => Some(SignDocument {
            measure: rounded(stops),
            unit: "stops over the take".to_owned(),
            ..stretch("flash", at, at + frames)
        }),
        _ => None,
    };
    findings.iter().filter_map(one).collect()
}

/// Frames of one kind, measured by their number.
fn stretch(kind: &str, from: u32, until: u32) -> SignDocument {
    SignDocument {
        kind: kind.to_owned(),
        first: from,
        thrown: until,
        measure: f64::from(until - from),
        unit: "frames".to_owned(),
        place: None,
        area: None,
        most: None,
        least: None,
        clipped_percent: None,
    }
}

/// The takes of film run at `speed`, with how fast the camera ran when each
/// flashed one began.
pub(crate) fn with_start_speeds(mut takes: Vec<TakeDocument>, speed: Fps) -> Vec<TakeDocument> {
    for take in takes.iter_mut().filter(|take| take.flash_frames > 0) {
        take.start_speed = Some(start_speed(take.flash_stops as f32, speed));
    }
    takes
}

/// How fast a camera that settles at `speed` ran in a frame so many stops over.
/// Unit: frames a second.
pub(crate) fn start_speed(stops: f32, speed: Fps) -> f64 {
    let start = speed_at_start(stops, speed.as_f64());
    (start * 10.0).round() / 10.0
}

/// Where takes begin, with what speaks for it.
pub(crate) fn breaks(findings: &[Finding], takes: &[TakeDocument]) -> Vec<BreakDocument> {
    let one = |take: &TakeDocument| {
        let evidence = findings.iter().find_map(|finding| match finding {
            Finding::Break { at, evidence, .. } if *at == take.first => Some(*evidence),
            _ => None,
        });
        let told = evidence.unwrap_or_default();
        BreakDocument {
            at: take.first,
            begins: take.begins.to_owned(),
            strength: evidence.map(|evidence| rounded(evidence.strength())),
            changed: rounded(told.changed),
            stands_out: rounded(told.stands_out),
            in_one_place: told.only_in_one_place,
            stays: rounded(told.stays),
            flash_frames: take.flash_frames,
            flash_stops: take.flash_stops,
            exposure_step: rounded(told.exposure_step),
            rack: rounded(told.rack),
            edge: rounded(told.edge),
        }
    };
    // Where the first take begins there is nothing before it.
    takes.iter().skip(1).map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_inspect::GradualKind;

    #[test]
    fn a_take_that_begins_1_2_stops_over_began_at_7_8_frames_a_second() {
        let take = |flash_frames, flash_stops| TakeDocument {
            first: 0,
            thrown: 10,
            begins: "camera_stop",
            flash_frames,
            flash_stops,
            start_speed: None,
        };
        let takes = with_start_speeds(vec![take(1, 1.2), take(0, 0.0)], Fps::EIGHTEEN);
        assert_eq!(takes[0].start_speed, Some(7.8));
        assert_eq!(takes[1].start_speed, None, "there is no flash to tell it");
    }

    #[test]
    fn a_break_is_kept_with_what_speaks_for_it_and_a_dissolve_without() {
        let take = |first, begins| TakeDocument {
            first,
            thrown: first + 10,
            begins,
            flash_frames: 0,
            flash_stops: 0.0,
            start_speed: None,
        };
        let mut evidence = onestrand_inspect::BreakEvidence::default();
        (evidence.changed, evidence.stands_out, evidence.rack) = (0.5, 9.0, 52.0);
        let found = Finding::Break {
            at: 10,
            begins: onestrand_inspect::Begins::Join,
            flash_frames: 0,
            flash_stops: 0.0,
            evidence,
        };
        let takes = [take(0, "roll_start"), take(10, "join"), take(20, "fade")];
        let breaks = breaks(&[found], &takes);
        let told: Vec<_> = breaks.iter().map(|b| (b.at, b.strength, b.rack)).collect();
        assert_eq!(told, [(10, Some(4.5), 52.0), (20, None, 0.0)]);
    }

    #[test]
    fn each_finding_stands_in_its_own_list() {
        let findings = [
            Finding::Leader {
                from: 0,
                until: 24,
                level: 204.0,
            },
            Finding::Gradual {
                kind: GradualKind::FadeIn,
                from: 24,
                until: 40,
            },
            Finding::Black {
                from: 90,
                until: 99,
            },
        ];
        let words = |signs: Vec<SignDocument>| -> Vec<(String, u32, u32, f64)> {
            let one = |sign: SignDocument| (sign.kind, sign.first, sign.thrown, sign.measure);
            signs.into_iter().map(one).collect()
        };
        assert_eq!(
            words(signs(&findings)),
            [
                ("leader".to_owned(), 0, 24, 0.8),
                ("black".to_owned(), 90, 99, 9.0)
            ]
        );
        assert_eq!(
            words(gradual(&findings)),
            [("fade_in".to_owned(), 24, 40, 16.0)]
        );
    }
}
