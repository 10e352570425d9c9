//! What happens in the film, as a function of the time of the action.
//!
//! Every scene has its own clock, in frames of the take the makers liked best.
//! A camera that saw the same action from nearer by, or in another take, reads
//! the same clock through [`action_time`]; so a match found in the pictures is
//! a match of the action itself.

mod clock;
pub(crate) mod motion;
mod people;
mod things;

pub use clock::action_time;
pub(crate) use people::{
    Held, Pose, bram_aboard, bram_at_lever, bram_casts_off, ida_aboard, ida_at_landing, ida_runs,
    reach,
};
pub use things::{
    BellState, FerryState, RopeState, bell, bell_strokes, ferry_leaving, foot_is_down, lever,
    lever_is_home, loaf_is_open, rope,
};

use crate::story::MarkKind;

/// Whether what `kind` names has happened by `time` on the clock of its scene.
///
/// Unit of `time`: frames of the scene's clock, see [`action_time`].
#[must_use]
pub fn has_happened(kind: MarkKind, time: f32) -> bool {
    match kind {
        MarkKind::RopeLeavesBollard => !rope(time).on_bollard,
        MarkKind::Splash => rope(time).splash_age.is_some(),
        MarkKind::BellStroke(nth) => bell_strokes(time) >= nth,
        MarkKind::Lever => lever_is_home(time),
        MarkKind::LoafRustle => loaf_is_open(time),
        MarkKind::FootOnDeck => foot_is_down(time),
    }
}
