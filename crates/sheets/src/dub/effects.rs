//! The list of effects on paper.

use crate::plan::PlanHead;

/// The effects of a film to print.
#[derive(Clone, Debug)]
pub struct EffectsList {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The effects, in the order of the film.
    pub rows: Vec<EffectRow>,
    /// Blank rows to write into.
    pub blank_rows: u32,
}

/// An effect; words ready for the eye. What is empty leaves a line to write on.
#[derive(Clone, Debug)]
pub struct EffectRow {
    /// Its number.
    pub number: String,
    /// What it is.
    pub sound: String,
    /// The tape or file it is on.
    pub tape: String,
    /// The counter of that tape.
    pub counter: String,
    /// How long it is. Unit: seconds; none where it is not known.
    pub seconds: Option<f64>,
    /// How the first sound is marked: yellow leader, a cross, a count.
    pub first_sound: String,
    /// Running frames at which it is wanted.
    pub at: Vec<u32>,
    /// A remark.
    pub note: String,
}
