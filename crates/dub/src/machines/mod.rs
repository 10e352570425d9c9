//! Machines as their timings show them: the projector and the tape recorder.

mod projector;
mod student;
mod tape;

pub use projector::{Predicted, ProjectorFit, Tap, fit_projector, frames_off};
pub use tape::{
    CounterRow, Spacing, TapeFit, TapeMachine, Timing, counter_table, fit_tape, spacing_leader,
    tape_play,
};
