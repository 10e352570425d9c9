//! The roster planned: as few sessions as possible, then everybody done early.

use super::better::{better, by_rules};
use super::bound::{RosterBounds, bounds};
use super::every_way::{Tried, within};
use super::lay::Laid;
use super::parts::Work;
use super::problems::{problems, remarks};
use super::turns::{Turn, turns};
use super::{Roster, RosterStep};
use crate::found::{Found, PlanError, unless};

/// Steps of the search for a plan of so many sessions, times sittings: each step looks at
/// all of them.
const MOST_STEPS: usize = 20_000_000;
/// Numbers of sessions that are searched for at most, from the bound up.
const MOST_LEVELS: usize = 4;
/// Tries at moving a sitting in the order, times sittings.
const MOST_TRIES: usize = 300_000;

/// A roster planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterPlan {
    /// Sessions until the last team is done.
    pub sessions: usize,
    /// Sessions that were given. A plan that needs more goes on with sessions as long as
    /// the longest of them.
    pub given: usize,
    /// Who has what when, by time.
    pub turns: Vec<Turn>,
    /// How few sessions could do.
    pub bounds: RosterBounds,
    /// What is proved of the number of sessions.
    pub proof: RosterProof,
    /// When each team is done, in the order of the roster; teams without a turn are not
    /// among them.
    pub ends: Vec<TeamEnd>,
    /// What is not planned, because nobody knows yet when it may begin.
    pub waiting: Vec<WaitingStep>,
    /// What should be looked at, though it keeps nobody from planning.
    pub remarks: Vec<Found>,
}

/// What is proved of the number of sessions. Of how early each team is done nothing is
/// proved: that is as good as was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RosterProof {
    /// The plan needs no more sessions than the lower bound: none needs fewer.
    BoundMet,
    /// Every way of needing fewer sessions was tried, and none does.
    EveryWayTried,
    /// Neither: fewer sessions may do, though not fewer than the lower bound.
    NotProved,
}

impl RosterProof {
    /// Whether no plan needs fewer sessions.
    #[must_use]
    pub const fn is_best(self) -> bool {
        matches!(self, Self::BoundMet | Self::EveryWayTried)
    }
}

/// When a team is done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TeamEnd {
    /// The team.
    pub team: String,
    /// The session, from 1.
    pub session: usize,
    /// The slot behind its last sitting in it.
    pub slot: u32,
}

/// A step that is not planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WaitingStep {
    /// The team.
    pub team: String,
    /// The step.
    pub step: String,
    /// What it, or the step before it, waits for.
    pub waits_for: String,
}

impl RosterPlan {
    /// Whether the sessions that were given do.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.sessions <= self.given
    }
}

/// Plans a roster: fewest sessions until the last team is done, then the last team done
/// soonest, then all teams together as early as was found.
///
/// # Errors
/// [`PlanError::Problems`]: all at once, each with its line or its team and step.
///
/// # Examples
/// ```
/// use onestrand_plan::{plan_roster, read_roster, read_things};
/// let table = "team,step,hours,needs\nAda;Ben,cut,2,bench\nAda;Ben,splice,1,bench;splicer\n";
/// let mut roster = read_roster(table, 30)?.roster;
/// roster.things = read_things(&["bench=1", "splicer=1"])?;
/// roster.sessions = vec![6; 10];
/// let plan = plan_roster(&roster)?;
/// assert_eq!((plan.sessions, plan.bounds.at_least), (2, 2));
///
/// roster.things = read_things(&["bench=1"])?;
/// assert_eq!(plan_roster(&roster).expect_err("no splicer").problems().len(), 2);
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn plan_roster(roster: &Roster) -> Result<RosterPlan, PlanError> {
    unless(problems(roster), ())?;
    let work = Work::of(roster);
    let mut bounds = bounds(roster, &work);
    let tries = MOST_TRIES / work.parts().max(1);
    let laid = by_rules(&work).unwrap_or_else(|| Laid::new(&work, Vec::new()));
    let laid = better(&work, laid, tries / 2);
    let (laid, proof) = fewest(&work, laid, &mut bounds);
    let laid = better(&work, laid, tries);
    Ok(RosterPlan {
        sessions: laid.worth.sessions,
        given: roster.sessions.len(),
        turns: turns(roster, &work, &laid),
        bounds,
        proof,
        ends: ends(roster, &work, &laid),
        waiting: waiting(roster),
        remarks: remarks(roster),
    })
}

/// Looks for plans of fewer sessions, from the bound up, each number as far as the steps
/// go. Numbers that every way forbids raise the bound.
fn fewest(work: &Work, best: Laid, bounds: &mut RosterBounds) -> (Laid, RosterProof) {
    let reckoned = bounds.at_least;
    let mut best = best;
    for sessions in (reckoned..best.worth.sessions).take(MOST_LEVELS) {
        match within(work, sessions, MOST_STEPS / work.parts().max(1)) {
            Tried::Found(laid) => {
                best = laid;
                break;
            }
            Tried::None if bounds.at_least == sessions => bounds.at_least = sessions + 1,
            Tried::None | Tried::NotKnown => {}
        }
    }
    let proof = match best.worth.sessions {
        sessions if sessions == reckoned => RosterProof::BoundMet,
        sessions if sessions == bounds.at_least => RosterProof::EveryWayTried,
        _ => RosterProof::NotProved,
    };
    (best, proof)
}

fn ends(roster: &Roster, work: &Work, laid: &Laid) -> Vec<TeamEnd> {
    let mut ends = Vec::new();
    for ((team, parts), starts) in roster.teams.iter().zip(&work.teams).zip(&laid.starts) {
        if let Some((part, start)) = parts.last().zip(starts.last()) {
            let session = work.course.session_of(*start);
            ends.push(TeamEnd {
                team: team.name.clone(),
                session: session + 1,
                slot: start + part.length - work.course.begin(session),
            });
        }
    }
    ends
}

fn waiting(roster: &Roster) -> Vec<WaitingStep> {
    let mut all = Vec::new();
    for team in &roster.teams {
        let mut cause: Option<&RosterStep> = None;
        for step in &team.steps {
            let waits = cause.or((!step.is_free()).then_some(step));
            if let Some(waits) = waits {
                all.push(WaitingStep {
                    team: team.name.clone(),
                    step: step.name.clone(),
                    waits_for: waits.waits_for.clone(),
                });
            }
            cause = waits;
        }
    }
    all
}
