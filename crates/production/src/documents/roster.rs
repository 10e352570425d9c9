//! The class roster: who has what when, with the lower bound beside it; and the form it is
//! asked with on the shelf.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// The answer of `roster`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RosterDocument {
    /// Sessions until the last team is done.
    pub sessions: usize,
    /// Sessions that were given.
    pub given: usize,
    /// Whether the sessions given do. A plan that needs more goes on with sessions as long
    /// as the longest.
    pub fits: bool,
    /// Whether no plan needs fewer sessions.
    pub best: bool,
    /// How that is known: `bound_met`, `every_way_tried`, or `not_proved`.
    pub proof: String,
    /// How few sessions could do.
    pub lower_bound: RosterBoundDocument,
    /// The shortest time counted. Unit: minutes.
    pub slot_minutes: u16,
    /// How long each session is, as many as are given or used. Unit: minutes.
    pub session_minutes: Vec<u32>,
    /// The teams, in their order.
    pub teams: Vec<RosterTeamDocument>,
    /// The things there are.
    pub things: Vec<RosterThingWords>,
    /// Who has what when, by time.
    pub turns: Vec<TurnDocument>,
    /// What is not planned, since nobody knows yet when it may begin.
    pub waiting: Vec<WaitingDocument>,
    /// What should be looked at.
    pub remarks: Vec<RosterRemark>,
    /// Columns of the table that nobody asked for.
    pub strange_columns: Vec<String>,
}

/// How few sessions could do, whatever plan is made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RosterBoundDocument {
    /// No plan needs fewer sessions.
    pub at_least: usize,
    /// What things and teams ask for together.
    pub together: usize,
    /// What each thing asks for.
    pub by_thing: Vec<ThingBoundDocument>,
    /// What each team asks for.
    pub by_team: Vec<TeamBoundDocument>,
}

/// What a thing asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ThingBoundDocument {
    /// The thing.
    pub thing: String,
    /// How long it is used, summed over all of its kind. Unit: minutes.
    pub minutes: u32,
    /// No plan needs fewer sessions.
    pub sessions: usize,
}

/// What a team asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TeamBoundDocument {
    /// The team.
    pub team: String,
    /// Its work in all. Unit: minutes.
    pub minutes: u32,
    /// No plan needs fewer sessions.
    pub sessions: usize,
}

/// A team of the roster.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RosterTeamDocument {
    /// Its name.
    pub team: String,
    /// The session in which it is done, from 1; none when it has no turn.
    pub done_in: Option<usize>,
    /// When in that session. Unit: minutes from its beginning.
    pub done_at: Option<u32>,
}

/// A thing that is shared, and how many there are.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RosterThingWords {
    /// `bench`, `splicer`, `projector`.
    pub thing: String,
    /// How many there are.
    pub count: u16,
}

/// One sitting of a team.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TurnDocument {
    /// The session, from 1.
    pub session: usize,
    /// When it begins. Unit: minutes from the beginning of the session.
    pub from: u32,
    /// When it ends. Unit: minutes from the beginning of the session.
    pub to: u32,
    /// The team.
    pub team: String,
    /// The step.
    pub step: String,
    /// Which sitting of the step, from 1.
    pub sitting: u16,
    /// Of how many.
    pub sittings: u16,
    /// What the team has for itself then.
    pub things: Vec<ThingUsedDocument>,
    /// What must be true before it may begin; empty where nothing must.
    pub waits_for: String,
}

/// One of the things of a kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ThingUsedDocument {
    /// The thing.
    pub thing: String,
    /// Which of them, from 1.
    pub number: u32,
}

/// A step that is not planned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct WaitingDocument {
    /// The team.
    pub team: String,
    /// The step.
    pub step: String,
    /// What it, or a step before it, waits for.
    pub waits_for: String,
}

/// Something found in a roster.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RosterRemark {
    /// Line of the table, where there is one.
    pub line: Option<u64>,
    /// Which team and step, or which thing.
    pub place: String,
    /// What was found.
    pub message: String,
}

/// A roster as it is asked for on the shelf: every film is a team, all do the same steps.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RosterForm {
    /// How many sessions there are.
    pub sessions: u16,
    /// How long each is, in hours: `2:30`.
    pub hours: String,
    /// The things there are.
    pub things: Vec<RosterThingWords>,
    /// The steps in order.
    pub steps: Vec<RosterStepWords>,
    /// What is said of single films.
    #[serde(default)]
    pub films: Vec<RosterFilmWords>,
    /// Groups of films whose teams share a person, by their names in addresses.
    #[serde(default)]
    pub apart: Vec<Vec<String>>,
}

/// A step of the roster on the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RosterStepWords {
    /// What is done.
    pub step: String,
    /// How long it takes, in hours: `1:30`.
    pub hours: String,
    /// The longest sitting in hours; empty where it is done in one.
    #[serde(default)]
    pub sitting: String,
    /// What it needs all the time.
    #[serde(default)]
    pub needs: Vec<String>,
    /// Whether it may begin only when the scan of the film is proved.
    #[serde(default)]
    pub after_proof: bool,
}

/// What is said of a film in the roster.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RosterFilmWords {
    /// The film, by its name in addresses.
    pub film: String,
    /// It takes no part.
    #[serde(default)]
    pub left_out: bool,
    /// The session from which its scan should be proved, where it is not yet.
    #[serde(default)]
    pub proved_from: Option<u16>,
}

/// A template that a new film may be made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TemplateDocument {
    /// The name by which it is asked for.
    pub template: String,
    /// What it is called.
    pub title: String,
    /// What it is for.
    pub words: String,
    /// The gauge.
    pub gauge: String,
    /// Frames a second.
    pub speed: String,
    /// The usual join of its first version; none where none is begun.
    pub join: Option<String>,
    /// Pins of the trim bin.
    pub pins: u32,
    /// Run-up of each take. Unit: frames.
    pub run_up: u32,
    /// Whether a script is begun.
    pub script: bool,
}
