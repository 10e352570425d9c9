//! Strokes and frames: the story, and every choice tried.

use onestrand_film::{Fps, FramePos};
use onestrand_hearing::{HearingError, Strokes, fit_strokes};
use proptest::prelude::*;

const STORY: [f64; 7] = [2.104, 3.228, 4.262, 5.292, 6.363, 7.420, 8.510];

fn frames(numbers: &[u32]) -> Vec<FramePos> {
    numbers
        .iter()
        .map(|&number| FramePos::new(number).expect("a small number"))
        .collect()
}

fn measured() -> Fps {
    "18.36".parse().expect("a speed")
}

/// Story 11 to the printed digit.
#[test]
fn strokes_three_to_five_of_the_story() {
    for which in [Strokes::InARow, Strokes::Any] {
        let found = fit_strokes(
            &STORY,
            1.0152,
            &frames(&[1349, 1368, 1387]),
            measured(),
            which,
            2,
        )
        .unwrap();
        assert_eq!(found[0].strokes, [2, 3, 4]);
        assert_eq!(format!("{:.1}", found[0].worst_ms), "13.5");
        assert_eq!(format!("{:.1}", found[0].half_frame_ms), "27.2");
        assert!(found[0].holds());
        assert!(found[1].worst_ms > found[0].worst_ms);
    }
}

/// Every choice of strokes in order, by counting up in bits.
fn tried(heard: &[f64], play: f64, shown: &[f64]) -> f64 {
    (0_u32..1 << heard.len())
        .filter(|bits| bits.count_ones() as usize == shown.len())
        .map(|bits| {
            let chosen = (0..heard.len()).filter(|at| bits >> at & 1 == 1);
            let gaps: Vec<f64> = chosen
                .zip(shown)
                .map(|(at, time)| time - heard[at] / play)
                .collect();
            let mean = gaps.iter().sum::<f64>() / gaps.len() as f64;
            gaps.iter().map(|gap| (gap - mean).powi(2)).sum()
        })
        .fold(f64::INFINITY, f64::min)
}

proptest! {
    #[test]
    fn no_choice_is_better(
        steps in prop::collection::vec(0.05..2.0_f64, 4..12),
        marks in prop::collection::vec(1_u32..60, 1..5),
        play in 0.9..1.1_f64,
    ) {
        let mut time = 0.0;
        let heard: Vec<f64> = steps.iter().map(|step| { time += step; time }).collect();
        let mut frame = 100;
        let marked: Vec<u32> = marks.iter().map(|step| { frame += step; frame }).collect();
        prop_assume!(marked.len() <= heard.len());
        let found = fit_strokes(&heard, play, &frames(&marked), measured(), Strokes::Any, 3).unwrap();
        let shown: Vec<f64> = marked.iter().map(|&frame| f64::from(frame) / 18.36).collect();
        let worth = |off: &[f64]| off.iter().map(|ms| (ms / 1000.0).powi(2)).sum::<f64>();
        prop_assert!((worth(&found[0].off_ms) - tried(&heard, play, &shown)).abs() < 1e-9);
        prop_assert!(found.windows(2).all(|pair| worth(&pair[0].off_ms) <= worth(&pair[1].off_ms) + 1e-12));
        // What is said of a stroke is so: played and laid, it lies that far off.
        for (at, &stroke) in found[0].strokes.iter().enumerate() {
            let late = found[0].begins_seconds + heard[stroke] / play - shown[at];
            prop_assert!((late * 1000.0 - found[0].off_ms[at]).abs() < 1e-6);
        }
    }
}

/// Long lists do not take long: 300 strokes, 12 marks, each choice is 10^20.
#[test]
fn long_lists_are_searched_whole() {
    let mut time = 0.0;
    let heard: Vec<f64> = (0..300_u32)
        .map(|at| {
            time += 0.4 + 0.2 * f64::from(at * at * 37 % 1009) / 1009.0;
            time
        })
        .collect();
    let marked: Vec<u32> = (0..12)
        .map(|at| (heard[100 + 2 * at] * 18.36).round() as u32)
        .collect();
    let found = fit_strokes(&heard, 1.0, &frames(&marked), measured(), Strokes::Any, 1).unwrap();
    let planted: Vec<usize> = (0..12).map(|at| 100 + 2 * at).collect();
    assert_eq!(found[0].strokes, planted);
}

#[test]
fn refusals_say_what_is_wrong() {
    let marked = frames(&[10, 20, 30]);
    let ask = |heard: &[f64], play: f64, marked: &[FramePos]| {
        fit_strokes(heard, play, marked, measured(), Strokes::Any, 1).unwrap_err()
    };
    assert_eq!(
        ask(&[1.0], 1.0, &marked),
        HearingError::TooFewStrokes {
            heard: 1,
            marked: 3
        }
    );
    assert!(matches!(
        ask(&STORY, 0.0, &marked),
        HearingError::OutOfRange { .. }
    ));
    assert!(matches!(
        ask(&STORY, 1.0, &[]),
        HearingError::OutOfRange { .. }
    ));
    assert!(matches!(
        ask(&[3.0, 2.0, 1.0], 1.0, &marked),
        HearingError::NotForward { at: 1, .. }
    ));
    assert!(matches!(
        ask(&[1.0, f64::NAN, 2.0], 1.0, &marked),
        HearingError::OutOfRange { .. }
    ));
}
