//! The list of effects on paper.

use onestrand_film::Fps;

use crate::plan::PlanHead;

/// The effects of a film to print.
#[derive(Clone, Debug)]
pub struct EffectsList {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The speed at which the film will run.
    pub true_speed: Fps,
    /// The effects, in the order of the film.
    pub rows: Vec<EffectRow>,
    /// Blank rows to write into.
    pub blank_rows: u32,
}

/// Where an effect is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EffectPlace {
    /// Running frame.
    pub frame: u32,
    /// What the counter of the timed tape says then, if tape and film start together; none
    /// where it was not timed.
    pub counter: Option<f64>,
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
    /// The counter of that tape where the effect lies on it.
    pub counter: String,
    /// How long it is. Unit: seconds; none where it is not known.
    pub seconds: Option<f64>,
    /// How the first sound is marked: yellow leader, a cross, a count.
    pub first_sound: String,
    /// Where it is wanted.
    pub at: Vec<EffectPlace>,
    /// A remark.
    pub note: String,
}
