//! Real film, which nobody here drew.

use std::path::PathBuf;

use onestrand_cadence::{FaultKind, Transfer};

use super::coded::planes;
use super::score::{Outcome, find_in, settings};

fn clip(name: &str) -> PathBuf {
    let media = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video");
    media.join(name)
}

fn found_in(name: &str, rate: (u32, u32)) -> (Vec<Vec<u8>>, Outcome) {
    let planes = planes(&clip(name));
    let outcome = find_in(planes.iter().cloned(), Vec::new(), settings(rate));
    (planes, outcome)
}

#[test]
fn a_chase_of_1907_repeated_from_18_to_25_comes_out_frame_for_frame() {
    let (_, outcome) = found_in("repeats_18_to_25.mp4", (25, 1));
    assert_eq!(outcome.found.transfer, Transfer::Repeated);
    assert_eq!(
        outcome.found.film_speed.map(|speed| speed.to_string()),
        Some("18".to_owned())
    );
    let rows = std::fs::read_to_string(clip("repeated_frames.csv")).expect("the truth is here");
    let rows: Vec<Vec<u64>> = rows
        .lines()
        .skip(1)
        .map(|row| {
            row.split(',')
                .skip(1)
                .map(|cell| cell.parse().expect("a number"))
                .collect()
        })
        .collect();
    let first: Vec<u64> = rows
        .iter()
        .filter(|row| row[2] == 0)
        .map(|row| row[0])
        .collect();
    let shown: Vec<u64> = outcome
        .frames
        .iter()
        .filter_map(|frame| frame.shown_by)
        .collect();
    assert_eq!(shown, first);
}

#[test]
fn films_of_one_frame_each_keep_them_all() {
    // A feature of 1922 with titles that stand still for 370 file frames, a chase
    // with gunfire, carriages of 1899.
    for (name, frames, rate) in [
        ("nosferatu_1922_excerpt.mp4", 1191, (25, 1)),
        ("tears_of_steel_a.mp4", 987, (24, 1)),
        ("edison_1899_coaches.mp4", 819, (30_000, 1001)),
    ] {
        let (_, outcome) = found_in(name, rate);
        assert_eq!(outcome.found.transfer, Transfer::OneToOne, "{name}");
        assert_eq!(outcome.frames.len(), frames, "{name}");
        assert!(
            outcome.found.faults.is_empty(),
            "{name}: {:?}",
            outcome.found.faults
        );
    }
}

#[test]
fn what_is_called_doubled_is_the_same_picture_twice_among_others_that_move() {
    for (name, least) in [
        ("camera_roll_b.mp4", 4),
        ("camera_stops_b.mp4", 4),
        ("bbb_trailer.webm", 1),
    ] {
        let (planes, outcome) = found_in(name, (25, 1));
        let doubled = outcome.frames.iter().filter_map(|frame| {
            let (first, last) = frame.file_frames;
            (last > first + 1).then_some((first as usize, last as usize - 1))
        });
        let apart = |a: usize, b: usize| {
            let squares = planes[a]
                .iter()
                .zip(&planes[b])
                .map(|(a, b)| f64::from(a.abs_diff(*b)).powi(2));
            squares.sum::<f64>() / planes[a].len() as f64
        };
        let mut count = 0;
        for (first, again) in doubled {
            assert!(apart(first, again) < 0.5, "{name} {first}");
            assert!(
                apart(first.saturating_sub(1), first) > 3.0,
                "{name} {first}"
            );
            count += 1;
        }
        assert_eq!(outcome.found.faults.len(), count, "{name}");
        assert!(
            outcome
                .found
                .faults
                .iter()
                .all(|fault| fault.kind == FaultKind::Doubled)
        );
        assert!(count >= least, "{name}: {count}");
    }
}

#[test]
fn an_animated_film_of_24_stored_with_every_25th_frame_twice_is_thinned() {
    let (planes, outcome) = found_in("sintel_excerpt.mp4", (24, 1));
    assert_eq!(outcome.found.transfer, Transfer::Repeated);
    assert_eq!((planes.len(), outcome.frames.len()), (652, 626));
    assert!((outcome.found.step - 0.96).abs() < 1e-3);
}
