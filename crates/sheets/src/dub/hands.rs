//! What the hands do in the mix, on paper.

use onestrand_film::Fps;

use crate::plan::PlanHead;

/// A hand score to print.
#[derive(Clone, Debug)]
pub struct HandScore {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The speed at which the film will run.
    pub true_speed: Fps,
    /// How many moves can be made at once.
    pub hands: u32,
    /// The moves, by their beginning.
    pub moves: Vec<HandMove>,
    /// The most at once, and the running frame at which they begin to be.
    pub most: (u32, u32),
    /// What would make it playable: a sentence each, the smallest first.
    pub remedies: Vec<String>,
}

/// One move of a fader.
#[derive(Clone, Debug, PartialEq)]
pub struct HandMove {
    /// What is done, such as `river down`.
    pub what: String,
    /// The fader or column.
    pub fader: String,
    /// Running frame at which it begins.
    pub from: u32,
    /// Running frame at which it is done.
    pub to: u32,
    /// The level before and after. Unit: dB; none is silence.
    pub levels: (Option<f64>, Option<f64>),
}
