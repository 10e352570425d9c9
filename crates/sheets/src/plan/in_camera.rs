//! The film cut in the camera.

use onestrand_film::Frames;

use super::PlanHead;

/// What is done at the camera, step by step, where the film is shot in the order of the
/// screen and its dissolves are made by winding back.
#[derive(Clone, Debug)]
pub struct InCameraSheet {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The steps in order.
    pub steps: Vec<InCameraStep>,
    /// The film on the screen.
    pub frames: Frames,
    /// How far back the camera is reckoned to wind.
    pub wind_back: Frames,
    /// What keeps it from being planned, a line each; then there are no steps.
    pub problems: Vec<String>,
}

/// A step. The counter counts from the head of the film that can be used.
#[derive(Clone, Debug)]
pub enum InCameraStep {
    /// A new roll is put in.
    Load {
        /// Which one, from 1.
        roll: usize,
    },
    /// A setup is taken.
    Take {
        /// Its name.
        setup: String,
        /// What happens, in a few words.
        action: String,
        /// The counter at its beginning.
        from: Frames,
        /// The counter at its end.
        to: Frames,
        /// Frames at its beginning over which the light comes up.
        light_up: Frames,
        /// Frames at its end over which the light goes down.
        light_down: Frames,
    },
    /// The film is wound back with the lens covered.
    WindBack {
        /// The counter before.
        from: Frames,
        /// The counter after.
        to: Frames,
    },
}
