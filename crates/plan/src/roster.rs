//! A class at one bench: which team has what in which session, and how few sessions
//! could do.

mod better;
mod bound;
mod course;
mod every_way;
mod lay;
mod parts;
mod plan;
mod problems;
mod read;
mod turns;

pub use bound::{RosterBounds, TeamBound, ThingBound};
pub use plan::{RosterPlan, RosterProof, TeamEnd, WaitingStep, plan_roster};
pub use read::{ReadRoster, read_roster, read_sessions, read_things};
pub use turns::{ThingUsed, Turn};

/// What is to be done, by whom, with what, and when there is time for it.
///
/// Time is counted in slots, whole and equally long (half an hour, say); how long one is
/// is the caller's business.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Roster {
    /// The teams. Each does one thing at a time, its steps in their order.
    pub teams: Vec<RosterTeam>,
    /// The things that are shared.
    pub things: Vec<RosterThing>,
    /// Slots of each session, the first session first.
    pub sessions: Vec<u16>,
    /// Groups of teams of which only one works at a time: they share a person.
    pub apart: Vec<Vec<String>>,
}

/// A team and its work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterTeam {
    /// Its name, which no other team has.
    pub name: String,
    /// What it does, in order.
    pub steps: Vec<RosterStep>,
}

/// A step of the work of a team.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterStep {
    /// What is done: `view`, `cut`, `splice`.
    pub name: String,
    /// How long it takes. Unit: slots, at least 1.
    pub slots: u16,
    /// The longest sitting; none where it is done in one. Unit: slots.
    pub sitting: Option<u16>,
    /// What it needs all the time.
    pub needs: Vec<RosterNeed>,
    /// What must be true before it may begin: `scan proved`; empty where nothing must.
    pub waits_for: String,
    /// The session, from 1, in which it may begin at the earliest. A step that waits for
    /// something and has no such session is not planned, nor what comes after it.
    pub from: Option<u16>,
    /// Line of the table it stands on, where it was read.
    pub line: Option<u64>,
}

/// How many of a thing a step needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterNeed {
    /// The thing.
    pub thing: String,
    /// How many, at least 1.
    pub count: u16,
}

/// A thing that is shared, and how many there are of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterThing {
    /// Its name: `splicer`.
    pub name: String,
    /// How many there are.
    pub count: u16,
}

impl RosterStep {
    /// Whether it is known when it may begin.
    #[must_use]
    pub fn is_free(&self) -> bool {
        self.waits_for.is_empty() || self.from.is_some()
    }

    pub(crate) fn place(&self, team: &str) -> String {
        format!("{team}, {}", self.name)
    }
}

/// Names are the same whatever their case and the space about them.
pub(crate) fn key(name: &str) -> String {
    name.trim().to_lowercase()
}
