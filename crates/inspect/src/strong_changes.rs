//! Strong changes inside a take: a light switched, a hand before the lens. A person on
//! the bench can tell between which two frames one is.

/// What a workprint keeps of a frame, against the frame before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeenFrame {
    /// Mean level, as [`FrameMeasures::mean`](crate::FrameMeasures::mean).
    pub level: f32,
    /// Difference from the frame before, as
    /// [`FrameMeasures::change`](crate::FrameMeasures::change).
    pub change: f32,
}

/// What changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChangeKind {
    /// It becomes lighter at once.
    Lighter,
    /// It becomes darker at once.
    Darker,
    /// Something else is to be seen at once.
    Picture,
}

/// A change between two frames.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrongChange {
    /// The first frame after it.
    pub at: u32,
    /// What changes.
    pub kind: ChangeKind,
    /// How many times the greatest change beside it. Range: from 4 on.
    pub stands_out: f32,
}

/// Frames looked at on either side: a change nearer than this to the end of a take is
/// not told, since the end itself is nearer by. Unit: frames.
pub const BESIDE: usize = 12;

/// So many times what changes at any of the frames beside it, on both sides. A choice;
/// what it finds and what it invents on drawn film is measured in
/// `tests/it/strong_changes.rs`.
const STANDS_OUT: f32 = 4.0;
/// Less than this the eye may overlook at the bench. Unit: levels of the mean.
const LEAST_LIGHT: f32 = 12.0;
/// The same for the picture. Unit: levels of the mean difference.
const LEAST_PICTURE: f32 = 12.0;
/// What is kept on both sides: so much of the step of the light stays. No unit.
const STAYS: f32 = 0.6;

/// The strong changes in frames that follow each other inside one take. `first` is the
/// number of the first of them.
#[must_use]
pub fn strong_changes(frames: &[SeenFrame], first: u32) -> Vec<StrongChange> {
    let mut found: Vec<StrongChange> = Vec::new();
    let last = frames.len().saturating_sub(BESIDE);
    for at in (BESIDE + 1)..last {
        let light = |n: usize| frames[n].level - frames[n - 1].level;
        let of_light = stands_out(at, |n| light(n).abs(), LEAST_LIGHT);
        let of_light = of_light.filter(|_| stays(frames, at));
        let of_picture = stands_out(at, |n| frames[n].change, LEAST_PICTURE);
        let (kind, by) = match (of_light, of_picture) {
            (Some(by), _) if light(at) > 0.0 => (ChangeKind::Lighter, by),
            (Some(by), _) => (ChangeKind::Darker, by),
            (None, Some(by)) => (ChangeKind::Picture, by),
            (None, None) => continue,
        };
        found.push(StrongChange {
            at: first + u32::try_from(at).unwrap_or(u32::MAX),
            kind,
            stands_out: by,
        });
    }
    found
}

/// By how much a measure stands out from both sides, where it does.
fn stands_out(at: usize, measure: impl Fn(usize) -> f32, least: f32) -> Option<f32> {
    let here = measure(at);
    let before = (at - BESIDE)..at;
    let behind = (at + 1)..=(at + BESIDE - 1);
    let beside = before.chain(behind).map(&measure).fold(0.0, f32::max);
    // Where nothing changes at all, a level is the least that can be told apart.
    let by = here / beside.max(1.0);
    (here >= least && by >= STANDS_OUT).then_some(by)
}

/// Whether the light stays as it became: lightning is told as a flash.
fn stays(frames: &[SeenFrame], at: usize) -> bool {
    let mean = |of: &[SeenFrame]| of.iter().map(|f| f.level).sum::<f32>() / of.len() as f32;
    let step = frames[at].level - frames[at - 1].level;
    let kept = mean(&frames[at..at + BESIDE]) - mean(&frames[at - BESIDE..at]);
    kept / step >= STAYS
}
