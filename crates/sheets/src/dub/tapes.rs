//! A table of tape counters on paper.

use onestrand_film::Fps;

use crate::plan::PlanHead;

/// A table of a tape's counter to print.
#[derive(Clone, Debug)]
pub struct TapeTable {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The machine and the tape, in words.
    pub tape: String,
    /// The law T = a·C + b·C². Unit: seconds a count, seconds a count squared.
    pub law: (f64, f64),
    /// The timings it was fitted to: count, seconds.
    pub timings: Vec<(f64, f64)>,
    /// The speed at which the film will run.
    pub true_speed: Fps,
    /// The rows: even counts and cues together, forward.
    pub rows: Vec<TapeCount>,
}

/// A row of the table.
#[derive(Clone, Debug)]
pub struct TapeCount {
    /// What the counter says.
    pub count: f64,
    /// Time on the tape. Unit: seconds.
    pub seconds: f64,
    /// Running frame of the film, if tape and film start together; none before
    /// the film begins or after it.
    pub frame: Option<u32>,
    /// How many frames one count is here.
    pub frames_a_count: f64,
    /// The cue that lies here; empty for an even count.
    pub cue: String,
}
