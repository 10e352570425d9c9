//! What a step amounts to where it stands.

use crate::steps::Step;

/// Frames on either side that a step is held against.
pub(crate) const AROUND: usize = 16;

/// Below this a change cannot be told from coding. Unit: levels squared.
const FAINT: f32 = 0.25;

/// Steps in shares of what a whole film frame makes there.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(crate) struct Stride {
    /// From the file frame before to this: near 1 where a film frame has
    /// passed, near 0 where none has.
    pub(crate) one: f32,
    /// How far this frame lies off the middle between its two neighbours: what
    /// tells a blend, which lies between them, from a film frame of its own.
    pub(crate) bend: f32,
    /// How well changes are seen there, 0 to 1.
    pub(crate) seen: f32,
    /// What a film frame's passing makes there. Unit: levels squared.
    pub(crate) usual: f32,
}

/// The stride at `at`; nothing is seen where too few frames are around.
pub(crate) fn stride(steps: &[Step], at: usize) -> Stride {
    let from = at.saturating_sub(AROUND).max(1);
    let until = (at + AROUND + 1).min(steps.len());
    if from + 8 > until || at == 0 {
        return Stride::default();
    }
    let usual = usual(&steps[from..until]).max(1e-6);
    let next = steps.get(at + 1).copied().unwrap_or_default();
    let bend = (2.0 * steps[at].one + 2.0 * next.one - next.two).max(0.0);
    Stride {
        one: (steps[at].one / usual).sqrt().min(1.5),
        bend: (bend / usual).sqrt().min(2.5),
        seen: seen(usual),
        usual,
    }
}

/// How well a change of so many levels squared is seen, 0 to 1.
pub(crate) fn seen(change: f32) -> f32 {
    change / (change + FAINT)
}

/// What a film frame's passing amounts to: high among the steps, since many
/// may be repeats, and below the very highest, which are cuts and flashes.
pub(crate) fn usual(around: &[Step]) -> f32 {
    let mut ones: Vec<f32> = around.iter().map(|step| step.one).collect();
    let low = ones.len() * 28 / 33;
    let high = (ones.len() * 31 / 33).max(low + 1);
    let order = |a: &f32, b: &f32| a.total_cmp(b);
    ones.sort_unstable_by(order);
    ones[low..high].iter().sum::<f32>() / (high - low) as f32
}
