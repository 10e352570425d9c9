//! The class roster, read back.

use onestrand_sheets::{
    Paper, RosterReason, RosterSession, RosterSheet, RosterTurn, RosterWaiting, print_roster_sheet,
};

use crate::paper;
use crate::plan::set;

fn turn(from: u32, to: u32, team: &str, step: &str) -> RosterTurn {
    RosterTurn {
        from,
        to,
        team: team.to_owned(),
        step: step.to_owned(),
        sitting: (1, if step == "splice" { 2 } else { 1 }),
        things: match step {
            "cut" => vec!["bench 1".to_owned(), "splicer 2".to_owned()],
            _ => Vec::new(),
        },
        waits_for: match step {
            "cut" => "scan proved".to_owned(),
            _ => String::new(),
        },
    }
}

fn sheet(on: Paper, teams: usize) -> RosterSheet {
    let teams: Vec<String> = (1..=teams).map(|at| format!("Team {at}")).collect();
    let turns = |step: &str| {
        let each = teams.iter().zip(0_u32..);
        each.map(|(team, at)| turn(30 * at, 30 * at + 90, team, step))
            .collect()
    };
    RosterSheet {
        title: "Harbour School".to_owned(),
        sessions: ["cut", "splice"]
            .iter()
            .zip(1..)
            .map(|(step, number)| RosterSession {
                number,
                minutes: 600,
                turns: turns(step),
            })
            .chain([RosterSession {
                number: 3,
                minutes: 600,
                turns: Vec::new(),
            }])
            .collect(),
        teams: teams.clone(),
        given: 10,
        at_least: 2,
        proved: "3 sessions. The lower bound is 2: whether 2 would do is not known.".to_owned(),
        reasons: vec![RosterReason {
            of: "the bench".to_owned(),
            minutes: Some(510),
            sessions: 2,
        }],
        waiting: vec![RosterWaiting {
            team: "Team 1".to_owned(),
            step: "project".to_owned(),
            waits_for: "music chosen".to_owned(),
        }],
        remarks: vec!["Team 1, cut: look at this.".to_owned()],
        paper: on,
    }
}

#[test]
fn the_lower_bound_stands_beside_the_plan_and_the_cautions_with_it() {
    let pdf = set(print_roster_sheet(&sheet(Paper::A4, 3)));
    let text = paper::flat(&pdf);
    for said in [
        "3 sessions needed",
        "2 lower bound",
        "whether 2 would do is not known",
        "the bench 8:30 2 sessions",
        "needs 3, lower bound 2",
        "0:30–2:00 Team 2 cut bench 1, splicer 2 scan proved",
        "sitting 1 of 2",
        "Nobody has a turn.",
        "Team 1 project music chosen",
        "Team 1, cut: look at this.",
        "No film is cut before its scan is proved",
        "Splicer and blade cut fingers",
        "In a classroom only after the school has assessed it",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
    assert_eq!(pdf, set(print_roster_sheet(&sheet(Paper::A4, 3))));
}

#[test]
fn few_teams_and_many_are_tidy_on_either_paper() {
    for on in [Paper::A4, Paper::Letter] {
        for teams in [1, 8, 19] {
            paper::assert_tidy(&set(print_roster_sheet(&sheet(on, teams))));
        }
    }
}
