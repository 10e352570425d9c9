//! The shooting script.

use onestrand_film::Frames;

use super::PlanHead;

/// A shooting script to print: scenes with their setups in the order of the script.
#[derive(Clone, Debug)]
pub struct ShootingScript {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The scenes; setups that belong to none, such as titles, in one without number.
    pub scenes: Vec<ScriptedScene>,
}

/// A scene and the setups that show it.
#[derive(Clone, Debug)]
pub struct ScriptedScene {
    /// Its number as the slate says it; empty for what belongs to no scene.
    pub number: String,
    /// Where and when, in the maker's words.
    pub heading: String,
    /// Its setups.
    pub setups: Vec<ScriptedSetup>,
}

/// A setup as it is planned, in the maker's words.
#[derive(Clone, Debug, Default)]
pub struct ScriptedSetup {
    /// As the slate says it: `2A`.
    pub name: String,
    /// The actions it shows: `2a, 2b`.
    pub shows: String,
    /// Size and angle.
    pub size: String,
    /// How the camera moves.
    pub movement: String,
    /// What happens.
    pub action: String,
    /// What is heard.
    pub sound: String,
    /// Who or what moves.
    pub mover: String,
    /// Which way, on the screen.
    pub direction: String,
    /// Cast and props.
    pub needed: String,
    /// Estimated seconds of a take, as they are read: `7.5`; empty where not said.
    pub seconds: String,
    /// Takes that are planned.
    pub takes: u32,
    /// Film of one take, its run-up with it.
    pub frames: Frames,
}

impl ScriptedSetup {
    /// Film of all its takes.
    pub(crate) fn all_frames(&self) -> Frames {
        times(self.frames, self.takes)
    }
}

/// So many takes of one length.
pub(crate) fn times(frames: Frames, takes: u32) -> Frames {
    Frames::new(frames.count().saturating_mul(takes)).unwrap_or(Frames::MAX)
}
