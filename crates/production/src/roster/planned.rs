//! A plan as the document that is handed out.

use onestrand_plan::{Found, Roster, RosterPlan, RosterProof, Turn, plan_roster};

use super::{USUAL_SLOT, refused};
use crate::ProductionError;
use crate::documents::{
    RosterBoundDocument, RosterDocument, RosterRemark, RosterTeamDocument, RosterThingWords,
    TeamBoundDocument, ThingBoundDocument, ThingUsedDocument, TurnDocument, WaitingDocument,
};

/// What is asked beside the table of teams.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterAsked {
    /// How long each session is: `10x2:30`.
    pub sessions: String,
    /// How many there are of each thing: `bench=1`.
    pub things: Vec<String>,
    /// Groups of teams of which only one works at a time: `Ada+Ben`.
    pub apart: Vec<String>,
    /// The shortest time counted. Unit: minutes. Range: 1 to 240.
    pub slot_minutes: u16,
}

impl Default for RosterAsked {
    fn default() -> Self {
        Self {
            sessions: String::new(),
            things: Vec::new(),
            apart: Vec::new(),
            slot_minutes: USUAL_SLOT,
        }
    }
}

/// Plans it and puts slots into minutes.
pub(super) fn planned(
    roster: &Roster,
    slot_minutes: u16,
) -> Result<RosterDocument, ProductionError> {
    let plan = plan_roster(roster).map_err(refused)?;
    let minutes = |slots: u32| slots * u32::from(slot_minutes);
    let longest = roster.sessions.iter().copied().max().unwrap_or(0);
    let lengths = (0..plan.sessions.max(plan.given)).map(|at| {
        let slots = roster.sessions.get(at).copied().unwrap_or(longest);
        minutes(u32::from(slots))
    });
    Ok(RosterDocument {
        sessions: plan.sessions,
        given: plan.given,
        fits: plan.fits(),
        best: plan.proof.is_best(),
        proof: proof_word(plan.proof).to_owned(),
        lower_bound: bound(&plan, slot_minutes),
        slot_minutes,
        session_minutes: lengths.collect(),
        teams: teams(roster, &plan, slot_minutes),
        things: things(roster),
        turns: plan.turns.iter().map(|t| turn(t, slot_minutes)).collect(),
        waiting: waiting(&plan),
        remarks: plan.remarks.iter().map(remark).collect(),
        strange_columns: Vec::new(),
    })
}

const fn proof_word(proof: RosterProof) -> &'static str {
    match proof {
        RosterProof::BoundMet => "bound_met",
        RosterProof::EveryWayTried => "every_way_tried",
        RosterProof::NotProved => "not_proved",
    }
}

fn bound(plan: &RosterPlan, slot_minutes: u16) -> RosterBoundDocument {
    let minutes = |slots: u32| slots * u32::from(slot_minutes);
    let by_thing = plan.bounds.by_thing.iter().map(|one| ThingBoundDocument {
        thing: one.thing.clone(),
        minutes: minutes(one.slots),
        sessions: one.sessions,
    });
    let by_team = plan.bounds.by_team.iter().map(|one| TeamBoundDocument {
        team: one.team.clone(),
        minutes: minutes(one.slots),
        sessions: one.sessions,
    });
    RosterBoundDocument {
        at_least: plan.bounds.at_least,
        together: plan.bounds.together,
        by_thing: by_thing.collect(),
        by_team: by_team.collect(),
    }
}

fn teams(roster: &Roster, plan: &RosterPlan, slot_minutes: u16) -> Vec<RosterTeamDocument> {
    let one = |team: &onestrand_plan::RosterTeam| {
        let end = plan.ends.iter().find(|end| end.team == team.name);
        RosterTeamDocument {
            team: team.name.clone(),
            done_in: end.map(|end| end.session),
            done_at: end.map(|end| end.slot * u32::from(slot_minutes)),
        }
    };
    roster.teams.iter().map(one).collect()
}

fn things(roster: &Roster) -> Vec<RosterThingWords> {
    let one = |thing: &onestrand_plan::RosterThing| RosterThingWords {
        thing: thing.name.clone(),
        count: thing.count,
    };
    roster.things.iter().map(one).collect()
}

fn turn(turn: &Turn, slot_minutes: u16) -> TurnDocument {
    let things = turn.things.iter().map(|used| ThingUsedDocument {
        thing: used.thing.clone(),
        number: used.number,
    });
    TurnDocument {
        session: turn.session,
        from: turn.from * u32::from(slot_minutes),
        to: turn.to * u32::from(slot_minutes),
        team: turn.team.clone(),
        step: turn.step.clone(),
        sitting: turn.sitting.0,
        sittings: turn.sitting.1,
        things: things.collect(),
        waits_for: turn.waits_for.clone(),
    }
}

fn waiting(plan: &RosterPlan) -> Vec<WaitingDocument> {
    let one = |step: &onestrand_plan::WaitingStep| WaitingDocument {
        team: step.team.clone(),
        step: step.step.clone(),
        waits_for: step.waits_for.clone(),
    };
    plan.waiting.iter().map(one).collect()
}

fn remark(found: &Found) -> RosterRemark {
    RosterRemark {
        line: found.line,
        place: found.place.clone(),
        message: found.message.clone(),
    }
}
