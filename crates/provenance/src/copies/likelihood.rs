//! What each finding says of how two copies are akin.

use super::sharpness::More;
use super::specks::{Softness, Specks};

/// How two copies may be akin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kinship {
    /// The second was printed from the first, or from a copy of it.
    FirstIsNearer,
    /// The first was printed from the second.
    SecondIsNearer,
    /// Both were printed from a third.
    OfAThird,
    /// Both are scans of one strip.
    OneStrip,
}

impl Kinship {
    /// All four, in the order of every table here.
    pub const ALL: [Self; 4] = [
        Self::FirstIsNearer,
        Self::SecondIsNearer,
        Self::OfAThird,
        Self::OneStrip,
    ];
}

/// What was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EvidenceKind {
    /// How soft the dirt that both show is, beside each copy's own.
    Dirt,
    /// How much of all dirt both show.
    DirtShared,
    /// Which shows more of the picture.
    Window,
    /// Which is sharper.
    Sharpness,
    /// Which has more contrast.
    Contrast,
}

/// One finding and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct CopyEvidence {
    /// What was looked at.
    pub kind: EvidenceKind,
    /// For each of [`Kinship::ALL`], the natural logarithm of how probable the finding is,
    /// the largest being 0.
    pub speaks: [f64; 4],
    /// What was found, in words; the copies are called the first and the second.
    pub words: String,
}

/// A finding is something else altogether so often, and then says nothing.
const ELSE: f64 = 0.03;
/// Specks that must be seen of each kind.
const LEAST: usize = 4;
/// How much softer dirt becomes in printing, and how far that goes: natural logarithms.
const PRINTED: (f64, f64) = (0.45, 0.28);
/// How far dirt that lies there itself may differ from a copy's own.
const REAL: f64 = 0.1;

/// How probable a value is about a mean.
fn about(value: f64, mean: f64, spread: f64) -> f64 {
    let off = (value - mean) / spread;
    (-0.5 * off * off).exp() / spread
}

fn spoken(probable: [f64; 4]) -> [f64; 4] {
    let most = probable
        .iter()
        .copied()
        .fold(0.0, f64::max)
        .max(f64::MIN_POSITIVE);
    probable.map(|p| (p / most * (1.0 - ELSE) + ELSE).ln())
}

/// Dirt that both copies show: real where it is as sharp as a copy's own, printed in where
/// it is softer.
pub(super) fn dirt(specks: &Specks) -> Result<CopyEvidence, String> {
    let both = [0, 1].map(|i| Softness::of(&specks.both[i]));
    let own = [0, 1].map(|i| Softness::of(&specks.own[i]));
    if both[0].count.min(both[1].count) < LEAST {
        return Err("there is too little dirt that both show".to_owned());
    }
    if own[0].count.min(own[1].count) < LEAST {
        return Err("there is too little dirt that only one of them shows".to_owned());
    }
    let softer = [0, 1].map(|i| f64::from(both[i].of - own[i].of));
    let error = [0, 1].map(|i| f64::from(both[i].error.hypot(own[i].error)));
    let real = |i: usize| about(softer[i], 0.0, REAL.hypot(error[i]));
    let printed = |i: usize| about(softer[i], PRINTED.0, PRINTED.1.hypot(error[i]));
    let speaks = [
        real(0) * printed(1),
        printed(0) * real(1),
        printed(0) * printed(1),
        real(0) * real(1),
    ];
    let times = softer.map(f64::exp);
    Ok(CopyEvidence {
        kind: EvidenceKind::Dirt,
        speaks: spoken(speaks),
        words: format!(
            "{} specks are on both. In the first they are {:.1} times as soft as its own dirt, in the second {:.1} times: dirt that was printed in is soft, dirt that lies there is sharp",
            both[0].count, times[0], times[1]
        ),
    })
}

/// Two scans of one strip show the same dirt.
pub(super) fn dirt_shared(specks: &Specks) -> Result<CopyEvidence, String> {
    let (both, all) = specks.shared();
    if all < 3 * LEAST {
        return Err("there is too little dirt to say how much of it both show".to_owned());
    }
    let share = both as f64 / all as f64;
    // A fresh print of a film that was kept clean since shows all of its dirt too.
    let copy = 0.85 * about(share, 0.4, 0.3) + 0.15 * about(share, 0.97, 0.05);
    let strip = about(share, 0.95, 0.08);
    Ok(CopyEvidence {
        kind: EvidenceKind::DirtShared,
        speaks: spoken([copy, copy, copy, strip]),
        words: format!("{both} of {all} specks are on both"),
    })
}

/// A window that shows less is a printer's.
pub(super) fn window(more: [Option<f32>; 4]) -> Result<CopyEvidence, String> {
    let seen: Vec<f64> = more.into_iter().flatten().map(f64::from).collect();
    if seen.len() < 2 {
        return Err("the scans do not show how much of the picture each copy has".to_owned());
    }
    let mean = seen.iter().sum::<f64>() / seen.len() as f64;
    let crops = |more: f64| about(more, 18.0, 14.0);
    let speaks = [
        crops(mean),
        crops(-mean),
        about(mean, 0.0, 16.0),
        about(mean, 0.0, 2.5),
    ];
    let which = if mean >= 0.0 { "first" } else { "second" };
    Ok(CopyEvidence {
        kind: EvidenceKind::Window,
        speaks: spoken(speaks),
        words: format!(
            "the {which} shows more of the picture, {:.1} % of its width on a side: a printer's window is smaller than a camera's gate",
            mean.abs() / 10.0
        ),
    })
}

/// A print is never sharper than what it was made of.
pub(super) fn sharpness(more: Option<More>) -> Result<CopyEvidence, String> {
    let Some(More { of, error }) = more else {
        return Err("there are too few edges to tell which is sharper".to_owned());
    };
    let (of, error) = (f64::from(of), f64::from(error));
    let spread = 0.3_f64.hypot(error);
    let speaks = [
        about(of, 0.45, spread),
        about(of, -0.45, spread),
        about(of, 0.0, spread),
        about(of, 0.0, 0.15_f64.hypot(error)),
    ];
    let which = if of >= 0.0 { "first" } else { "second" };
    Ok(CopyEvidence {
        kind: EvidenceKind::Sharpness,
        speaks: spoken(speaks),
        words: format!(
            "the {which} shows fine detail {:.1} times as strongly; the scanners' own focus is in that too",
            of.abs().exp()
        ),
    })
}

/// Printing on reversal stock makes harder.
pub(super) fn contrast(more: Option<More>) -> Result<CopyEvidence, String> {
    let Some(More { of, error }) = more else {
        return Err("there is too little light and dark to compare contrast".to_owned());
    };
    let (of, error) = (f64::from(of), f64::from(error));
    let spread = 0.22_f64.hypot(error);
    let speaks = [
        about(of, 0.12, spread),
        about(of, -0.12, spread),
        about(of, 0.0, spread),
        about(of, 0.0, 0.12_f64.hypot(error)),
    ];
    let which = if of >= 0.0 { "second" } else { "first" };
    Ok(CopyEvidence {
        kind: EvidenceKind::Contrast,
        speaks: spoken(speaks),
        words: format!(
            "the {which} has {:.2} times the contrast; that says little, for scans are set by hand",
            of.abs().exp()
        ),
    })
}

/// Before anything is seen, two scans of one strip are the least probable.
const BEFORE: [f64; 4] = [0.3, 0.3, 0.3, 0.1];

/// All findings together.
pub(super) fn together(evidence: &[CopyEvidence]) -> Vec<(Kinship, f64)> {
    let mut sums = BEFORE.map(f64::ln);
    for found in evidence {
        sums.iter_mut()
            .zip(found.speaks)
            .for_each(|(sum, speaks)| *sum += speaks);
    }
    let most = sums.iter().copied().fold(f64::MIN, f64::max);
    let all: f64 = sums.iter().map(|sum| (sum - most).exp()).sum();
    let share = |sum: f64| (sum - most).exp() / all;
    Kinship::ALL.into_iter().zip(sums.map(share)).collect()
}
