//! The log of passes on paper.

use crate::plan::PlanHead;

/// A mix log to print: what was done, and room for what will be.
#[derive(Clone, Debug)]
pub struct MixLog {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The passes so far.
    pub passes: Vec<MixPass>,
    /// Blank rows to write into.
    pub blank_rows: u32,
}

/// A pass.
#[derive(Clone, Debug)]
pub struct MixPass {
    /// Its number or name.
    pub pass: String,
    /// Running frame at which recording began; below 0 in the leader.
    pub start: i64,
    /// The speed that was found. Unit: frames a second; none where it was not
    /// measured.
    pub speed: Option<f64>,
    /// Running frames with what went wrong there.
    pub faults: Vec<(u32, String)>,
    /// Whether it is kept.
    pub kept: PassKept,
}

/// Whether a pass is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassKept {
    /// Not decided: an empty box.
    Open,
    /// Kept.
    Kept,
    /// Given up.
    GivenUp,
}
