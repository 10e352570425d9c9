//! The measure of each kind rises with the strength of what was planted, and
//! what a person sees is told.

use crate::trials::{Trial, rank_correlation, trials};
use onestrand_signs::SignKind;

/// Rolls drawn for each kind.
const SEEDS: u64 = 3;

fn trial_of(kind: SignKind) -> Trial {
    trials()
        .into_iter()
        .find(|trial| trial.kind == kind)
        .expect("every kind that is asked has its trial")
}

/// Asserts the rank correlation, and how many of the seen may be missed.
fn follows(kind: SignKind, least: f32, may_miss: usize) {
    let trial = trial_of(kind);
    let outcomes: Vec<_> = (1..=SEEDS)
        .flat_map(|seed| trial.on_roll(seed).outcomes)
        .collect();
    let sense = match kind {
        SignKind::Soft | SignKind::Under | SignKind::Black => -1.0,
        _ => 1.0,
    };
    let pairs: Vec<_> = outcomes
        .iter()
        .map(|o| (sense * o.strength, o.measure))
        .collect();
    let correlation = rank_correlation(&pairs);
    assert!(correlation >= least, "{kind:?} {correlation}: {outcomes:?}");
    let missed: Vec<_> = outcomes
        .iter()
        .filter(|o| trial.is_seen(o.strength) && !o.found)
        .collect();
    assert!(missed.len() <= may_miss, "{kind:?} missed {missed:?}");
}

#[test]
fn sharpness_follows_the_spread_of_a_point() {
    follows(SignKind::Soft, 0.95, 0);
}

#[test]
fn light_follows_stops_over() {
    follows(SignKind::Over, 0.95, 0);
}

#[test]
fn light_follows_stops_under() {
    follows(SignKind::Under, 0.95, 0);
}

#[test]
fn movement_follows_the_shake() {
    follows(SignKind::Shake, 0.95, 0);
}

#[test]
fn a_hair_is_told_by_its_length() {
    follows(SignKind::Hair, 0.95, 1);
}

#[test]
fn a_line_is_told_by_its_contrast() {
    follows(SignKind::Scratch, 0.95, 0);
}

#[test]
fn stray_light_is_told_by_how_much_it_lifts() {
    follows(SignKind::Fog, 0.95, 0);
}

#[test]
fn flicker_is_told_in_stops() {
    follows(SignKind::Flicker, 0.95, 0);
}

#[test]
fn specks_are_counted() {
    follows(SignKind::Dust, 0.95, 0);
}

#[test]
fn black_and_clear_frames_are_told_by_their_share() {
    follows(SignKind::Black, 0.95, 0);
    follows(SignKind::Clear, 0.95, 0);
}
