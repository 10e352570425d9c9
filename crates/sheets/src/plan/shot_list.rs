//! The shot list of a day.

use onestrand_film::Frames;

use super::PlanHead;

/// What is to be shot on a day, gathered by place and light.
#[derive(Clone, Debug)]
pub struct ShotList {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The groups in the order in which they are gone to.
    pub groups: Vec<ShotGroup>,
}

/// All that is shot in one place by one light.
#[derive(Clone, Debug)]
pub struct ShotGroup {
    /// Where, and by what light: `Landing, exterior, day`.
    pub place: String,
    /// What the sun does there on the day, in words; empty where it is not known.
    pub sun: String,
    /// Whether it is inside, where lamps and mains may hurt.
    pub inside: bool,
    /// The shots.
    pub shots: Vec<ShotToTake>,
}

/// A setup to shoot.
#[derive(Clone, Debug, Default)]
pub struct ShotToTake {
    /// As the slate says it: `2A`.
    pub name: String,
    /// Size, angle and move.
    pub view: String,
    /// What happens.
    pub action: String,
    /// Cast and props.
    pub needed: String,
    /// Estimated seconds of a take, as they are read; empty where not said.
    pub seconds: String,
    /// Takes that are planned, a box to tick for each.
    pub takes: u32,
    /// Film of one take, its run-up with it.
    pub frames: Frames,
}
