//! The class roster on paper: who has what in which session, and how few could do.

use crate::head::Paper;

/// A class roster to print.
#[derive(Clone, Debug)]
pub struct RosterSheet {
    /// What it is of: the class, the club, the shelf.
    pub title: String,
    /// The sessions that are used, in order, also those in which nobody has a turn.
    pub sessions: Vec<RosterSession>,
    /// The teams in order.
    pub teams: Vec<String>,
    /// Sessions that were given.
    pub given: u32,
    /// The lower bound: no plan needs fewer sessions.
    pub at_least: u32,
    /// What is proved of it, in words.
    pub proved: String,
    /// Why it is as high as that, a line a reason.
    pub reasons: Vec<RosterReason>,
    /// What is not planned, since nobody knows yet when it may begin.
    pub waiting: Vec<RosterWaiting>,
    /// What should be looked at, in words.
    pub remarks: Vec<String>,
    /// The paper.
    pub paper: Paper,
}

/// A session.
#[derive(Clone, Debug)]
pub struct RosterSession {
    /// Its number, from 1.
    pub number: u32,
    /// How long it is. Unit: minutes.
    pub minutes: u32,
    /// Its turns, by time.
    pub turns: Vec<RosterTurn>,
}

/// A turn of a team.
#[derive(Clone, Debug)]
pub struct RosterTurn {
    /// When it begins. Unit: minutes from the beginning of the session.
    pub from: u32,
    /// When it ends. Unit: minutes from the beginning of the session.
    pub to: u32,
    /// The team.
    pub team: String,
    /// What it does.
    pub step: String,
    /// Which sitting of how many.
    pub sitting: (u16, u16),
    /// What it has for itself, each by its number: `bench 1`.
    pub things: Vec<String>,
    /// What must be true before it may begin; empty where nothing must.
    pub waits_for: String,
}

/// A reason of the lower bound.
#[derive(Clone, Debug)]
pub struct RosterReason {
    /// Whose it is: `the bench`, `Ada`.
    pub of: String,
    /// Its work in all. Unit: minutes; none where all is reckoned together.
    pub minutes: Option<u32>,
    /// No plan needs fewer sessions because of it.
    pub sessions: u32,
}

/// A step that is not planned.
#[derive(Clone, Debug)]
pub struct RosterWaiting {
    /// The team.
    pub team: String,
    /// The step.
    pub step: String,
    /// What it, or a step before it, waits for.
    pub waits_for: String,
}
