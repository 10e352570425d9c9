//! The lined script.

use super::PlanHead;

/// A lined script to print: what happens at the left, a line for each setup or take.
#[derive(Clone, Debug)]
pub struct LinedScript {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The scenes in the order of the film.
    pub scenes: Vec<LinedScene>,
    /// The lines in the order in which they stand, left to right. One that shows
    /// nothing of a scene is not drawn there.
    pub lines: Vec<ScriptLine>,
}

/// A scene.
#[derive(Clone, Debug)]
pub struct LinedScene {
    /// Its number.
    pub number: String,
    /// Where and when.
    pub heading: String,
    /// What happens, in order.
    pub actions: Vec<LinedAction>,
}

/// An action, or a speech.
#[derive(Clone, Debug)]
pub struct LinedAction {
    /// Its name: `2a`.
    pub name: String,
    /// Who speaks; empty where nobody does.
    pub speaker: String,
    /// What happens, or what is said.
    pub text: String,
}

/// A line drawn through the script.
#[derive(Clone, Debug)]
pub struct ScriptLine {
    /// The slate over it: `3A`, or `3A-T2`.
    pub name: String,
    /// Whether it is a take that was shot; else it is a setup as planned.
    pub shot: bool,
    /// Whether the take is circled; its slate is ringed and its line heavier.
    pub circled: bool,
    /// Whether the take is no good: its line is thin and broken, NG stands at its slate,
    /// and it shows nothing.
    pub ng: bool,
    /// What it shows.
    pub shown: Vec<LineShown>,
}

/// An action as a line has it.
#[derive(Clone, Debug)]
pub struct LineShown {
    /// The name of the action.
    pub action: String,
    /// On camera the line is straight, off camera wavy.
    pub on_camera: bool,
}
