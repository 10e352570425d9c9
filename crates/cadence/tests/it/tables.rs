//! One checker for each table in `tests/tables`.

use onestrand_film::Fps;
use onestrand_telecine::{Look, Roll, Scene, Transfer};

use super::score::{CODING, Outcome, find};

fn rows(text: &str) -> Vec<csv::StringRecord> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .records()
        .map(|row| row.expect("the table is well formed"))
        .collect()
}

fn speed(text: &str) -> Fps {
    text.parse().expect("a speed")
}

fn numbers(text: &str) -> Vec<u32> {
    text.split(' ')
        .map(|number| number.parse().expect("a number"))
        .collect()
}

/// Walkers, shown at a speed in a file of a rate.
fn shown(film: &str, file: &str, frames: u32) -> Outcome {
    let roll = Roll::new((192, 144), Look::FAIR, 48, &[(Scene::Walk, frames)]);
    let (film, file) = (speed(film), speed(file));
    let terms = |speed: Fps| (speed.num(), speed.den());
    find(&roll, &Transfer::clean(terms(film), terms(file)), CODING)
}

fn is_rotation(one: &[u32], other: &[u32]) -> bool {
    let twice = [other, other].concat();
    one.len() == other.len() && twice.windows(one.len()).any(|part| part == one)
}

#[test]
fn every_row_of_the_cadences_comes_out_as_written_up_to_rotation() {
    let rows = rows(include_str!("../tables/cadences.csv"));
    assert_eq!(rows.len(), 20, "C001 to C020");
    for row in rows {
        let outcome = shown(&row[1], &row[2], 240);
        let pattern = numbers(&row[5]);
        assert_eq!(pattern.len().to_string(), row[3], "{row:?}");
        assert_eq!(pattern.iter().sum::<u32>().to_string(), row[4], "{row:?}");
        let found = &outcome.found.cadence;
        assert!(is_rotation(found, &pattern), "{row:?}: {found:?}");
        assert_eq!(outcome.frames.len(), 240, "{row:?}");
        let extra = speed(&row[2]).as_f64() - speed(&row[1]).as_f64();
        assert_eq!(format!("{extra:.2}"), row[6], "{row:?}");
        let repeats = extra * 240.0 / speed(&row[1]).as_f64();
        assert!(
            (outcome.found.repeats as f64 - repeats).abs() < 1.0,
            "{row:?}"
        );
    }
}

#[test]
fn every_row_of_the_repeating_file_frames() {
    let rows = rows(include_str!("../tables/repeats.csv"));
    assert_eq!(rows.len(), 7, "C030 to C036");
    for row in rows {
        let outcome = shown(&row[1], &row[2], 300);
        let second: u64 = row[2].parse().expect("a whole rate");
        let starts: Vec<u64> = outcome
            .frames
            .iter()
            .filter_map(|frame| frame.shown_by)
            .collect();
        let repeats: Vec<u32> = (0..second)
            .filter(|k| !starts.contains(k))
            .map(|k| k as u32)
            .collect();
        assert_eq!(repeats, numbers(&row[3]), "{row:?}");
    }
}

#[test]
fn every_row_of_the_changed_speeds() {
    for row in rows(include_str!("../tables/speeds.csv")) {
        let ratio = speed(&row[2]).as_f64() / speed(&row[1]).as_f64();
        let wanted = speed(&row[3]).as_f64();
        assert!((ratio - wanted).abs() < 1e-9, "{row:?}");
        if !row[4].is_empty() {
            let cents: f64 = row[4].parse().expect("cents");
            assert!((1200.0 * ratio.log2() - cents).abs() < 0.06, "{row:?}");
        }
        if !row[5].is_empty() {
            let longer: f64 = row[5].parse().expect("seconds");
            assert!((3600.0 / ratio - 3600.0 - longer).abs() < 0.05, "{row:?}");
        }
    }
}

#[test]
fn c042_the_classic_names_come_out() {
    // 18 into 60 fields is 3:3:4, 16 into 60 is 3:4:4:4, 16 into 50 seven 3s and a 4.
    for (film, file, name) in [
        ("18", "60", vec![3, 3, 4]),
        ("16", "60", vec![3, 4, 4, 4]),
        ("16", "50", vec![3, 3, 3, 3, 3, 3, 3, 4]),
        ("24", "60", vec![2, 3]),
    ] {
        let found = shown(film, file, 240).found.cadence;
        assert!(is_rotation(&found, &name), "{film} into {file}: {found:?}");
    }
}

#[test]
fn c043_and_c045_one_frame_a_second_twice_and_every_frame_three_times() {
    let counts = |film: &str, file: &str| -> Vec<u64> {
        let outcome = shown(film, file, 240);
        let length =
            |frame: &onestrand_cadence::FilmFrame| frame.file_frames.1 - frame.file_frames.0;
        outcome.frames.iter().map(length).collect()
    };
    let native = counts("24", "25");
    for second in native.chunks_exact(24) {
        assert_eq!(
            second.iter().filter(|count| **count == 2).count(),
            1,
            "{second:?}"
        );
    }
    assert!(counts("50/3", "50").iter().all(|count| *count == 3));
}

#[test]
fn c044_film_at_its_own_speed_falls_one_file_frame_behind_in_a_thousand() {
    // 24 at its own speed into 29.97 against the plain 1, 1, 1, 2: after 33.37 s,
    // a thousand file frames, one repeat is left out.
    let outcome = shown("24", "30000/1001", 1700);
    let begins = |film: usize| outcome.frames[film].file_frames.0;
    let behind: Vec<u64> = (0..1700)
        .step_by(4)
        .map(|film| film as u64 * 5 / 4 - begins(film))
        .collect();
    assert!(
        behind
            .windows(2)
            .all(|two| two[0] <= two[1] && two[1] <= two[0] + 1)
    );
    let first = behind
        .iter()
        .position(|by| *by == 1)
        .expect("it falls behind")
        * 5;
    let second = behind.iter().position(|by| *by == 2).expect("and again") * 5;
    let seconds = (second - first) as f64 * 1001.0 / 30_000.0;
    assert!((seconds - 33.37).abs() < 0.2, "{seconds}");
}

#[test]
fn c048_dropping_the_seven_repeats_a_second_leaves_eighteen() {
    let outcome = shown("18", "25", 360);
    let starts: Vec<u64> = outcome
        .frames
        .iter()
        .filter_map(|frame| frame.shown_by)
        .collect();
    for second in 0..20_u64 {
        let here = starts
            .iter()
            .filter(|k| (second * 25..(second + 1) * 25).contains(*k));
        assert_eq!(here.count(), 18, "second {second}");
    }
}
