//! Prints how the measures follow the strength of planted faults, which faults
//! are missed, what is told that is not there, and what it costs.
//!
//! `cargo run -p onestrand-signs --example rates [SEEDS] [KIND]`

#![allow(
    clippy::print_stdout,
    reason = "an example program speaks on standard output"
)]

#[path = "../tests/it/drawn/mod.rs"]
mod drawn;
#[path = "../tests/it/reading.rs"]
mod reading;
#[path = "../tests/it/trials.rs"]
mod trials;

use onestrand_inspect::PlaneRef;
use onestrand_signs::{SignKind, SignLimits, SignReader};
use std::time::Instant;
use trials::{Trial, rank_correlation, trials};

fn main() {
    let mut arguments = std::env::args().skip(1);
    let seeds: u64 = arguments
        .next()
        .and_then(|text| text.parse().ok())
        .unwrap_or(4);
    let only = arguments.next();
    for trial in trials() {
        if only.as_deref().is_none_or(|word| word == trial.kind.word()) {
            print_trial(&trial, seeds);
        }
    }
    if only.as_deref().is_none_or(|word| word == "clean") {
        print_clean(seeds);
    }
    if only.as_deref().is_none_or(|word| word == "cost") {
        print_cost();
    }
}

/// Time of a frame, on ordinary rolls: of each frame the shortest of some
/// readings, because a machine has other things to do.
fn print_cost() {
    const READINGS: usize = 6;
    let roll = drawn::DrawnRoll::new(drawn::RollPlan::ordinary(3, 6));
    let planes: Vec<Vec<u8>> = roll.planes().collect();
    let mut shortest = vec![std::time::Duration::MAX; planes.len()];
    for _ in 0..READINGS {
        let mut reader = SignReader::new();
        for (plane, shortest) in planes.iter().zip(&mut shortest) {
            let Ok(plane) = PlaneRef::new(plane) else {
                return;
            };
            let begun = Instant::now();
            reader.push(plane);
            *shortest = begun.elapsed().min(*shortest);
        }
    }
    let all: std::time::Duration = shortest.iter().sum();
    let frames = planes.len() as f64;
    let mut reader = SignReader::new();
    for plane in planes.iter().flat_map(|plane| PlaneRef::new(plane)) {
        reader.push(plane);
    }
    let record = reader.finish();
    let judged = (0..READINGS).map(|_| {
        let begun = Instant::now();
        std::hint::black_box(record.signs(&roll.takes(), &SignLimits::default()));
        begun.elapsed()
    });
    let judged = judged.min().unwrap_or_default();
    println!(
        "cost: {:.3} ms a frame to read, {:.3} ms to judge",
        all.as_secs_f64() * 1000.0 / frames,
        judged.as_secs_f64() * 1000.0 / frames
    );
}

fn print_trial(trial: &Trial, seeds: u64) {
    let rolls: Vec<_> = (1..=seeds).map(|seed| trial.on_roll(seed)).collect();
    let outcomes: Vec<_> = rolls
        .iter()
        .flat_map(|roll| roll.outcomes.clone())
        .collect();
    let rises = match trial.kind {
        SignKind::Soft | SignKind::Under | SignKind::Black => -1.0,
        _ => 1.0,
    };
    let pairs: Vec<(f32, f32)> = outcomes
        .iter()
        .map(|outcome| (rises * outcome.strength, outcome.measure))
        .collect();
    println!("{} ({})", trial.kind.word(), trial.unit);
    println!("  rank correlation {:.3}", rank_correlation(&pairs));
    for strength in trial.strengths {
        let of = outcomes
            .iter()
            .filter(|o| o.strength.total_cmp(&strength).is_eq());
        let measures: Vec<String> = of.clone().map(|o| format!("{:.2}", o.measure)).collect();
        let found = of.clone().filter(|o| o.found).count();
        let off: Vec<String> = of
            .filter_map(|o| o.missed_by)
            .map(|(from, until)| format!("{from:+}/{until:+}"))
            .collect();
        println!(
            "  {strength:6.2}{} found {found} of {seeds}  measures {}  ends off {}",
            if trial.is_seen(strength) {
                " seen"
            } else {
                "     "
            },
            measures.join(" "),
            off.join(" ")
        );
    }
    let seen = outcomes.iter().filter(|o| trial.is_seen(o.strength));
    let missed = seen.clone().filter(|o| !o.found).count();
    let others: Vec<_> = rolls.iter().flat_map(|roll| roll.others.clone()).collect();
    println!(
        "  missed {missed} of {}; told beside the planted: {} in {} frames",
        seen.count(),
        others.len(),
        rolls.iter().map(|roll| roll.frames).sum::<u32>()
    );
    for sign in others {
        println!(
            "    {} {}..{} {:.3} {:?}",
            sign.kind.word(),
            sign.from,
            sign.until,
            sign.measure,
            sign.place
        );
    }
}

fn print_clean(seeds: u64) {
    println!("clean rolls");
    let (mut frames, mut told) = (0_u32, 0_usize);
    for seed in 1..=2 * seeds {
        let roll = reading::read(drawn::RollPlan::ordinary(seed, 8));
        let signs = roll.record.signs(&roll.takes, &SignLimits::default());
        frames += roll.record.frames();
        told += signs.len();
        for sign in signs {
            println!(
                "    {} {}..{} {:.3} {:?}",
                sign.kind.word(),
                sign.from,
                sign.until,
                sign.measure,
                sign.place
            );
        }
    }
    println!("  {told} signs in {frames} frames");
}
