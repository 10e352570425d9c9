//! Rosters: each plan replayed slot by slot, small ones held against every way there is.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_plan::{
    Roster, RosterNeed, RosterPlan, RosterProof, RosterStep, RosterTeam, RosterThing, Turn,
    plan_roster, read_roster, read_sessions, read_things,
};
use proptest::prelude::*;

fn step(name: &str, slots: u16, needs: &[&str]) -> RosterStep {
    let needs = needs.iter().map(|thing| RosterNeed {
        thing: (*thing).to_owned(),
        count: 1,
    });
    RosterStep {
        name: name.to_owned(),
        slots,
        sitting: None,
        needs: needs.collect(),
        waits_for: String::new(),
        from: None,
        line: None,
    }
}

fn team(name: &str, steps: Vec<RosterStep>) -> RosterTeam {
    RosterTeam {
        name: name.to_owned(),
        steps,
    }
}

fn things(counts: &[(&str, u16)]) -> Vec<RosterThing> {
    let one = |(name, count): &(&str, u16)| RosterThing {
        name: (*name).to_owned(),
        count: *count,
    };
    counts.iter().map(one).collect()
}

/// Length of a session, counted from 1, as the plan goes on.
fn length_of(roster: &Roster, session: usize) -> u32 {
    let longest = roster.sessions.iter().max().copied().unwrap_or(0);
    let given = roster.sessions.get(session - 1).copied();
    u32::from(given.unwrap_or(longest))
}

/// Everything about a plan that is not as it says: reckoned from the turns alone.
fn faults(roster: &Roster, plan: &RosterPlan) -> Vec<String> {
    let mut faults = Vec::new();
    // No single thing twice in a slot, none beyond how many there are, no team twice.
    let mut busy: BTreeSet<(usize, u32, String)> = BTreeSet::new();
    for turn in &plan.turns {
        if turn.to > length_of(roster, turn.session) || turn.from >= turn.to {
            faults.push(format!("does not lie in its session: {turn:?}"));
        }
        for slot in turn.from..turn.to {
            let mut names = vec![format!("team {}", turn.team)];
            for used in &turn.things {
                let there = roster.things.iter().find(|thing| thing.name == used.thing);
                if there.is_none_or(|t| used.number == 0 || used.number > u32::from(t.count)) {
                    faults.push(format!("there is no such thing: {used:?}"));
                }
                names.push(format!("{} {}", used.thing, used.number));
            }
            for (number, group) in roster.apart.iter().enumerate() {
                if group.contains(&turn.team) {
                    names.push(format!("group {number}"));
                }
            }
            for name in names {
                if !busy.insert((turn.session, slot, name.clone())) {
                    faults.push(format!("{name} twice in {} {slot}", turn.session));
                }
            }
        }
    }
    for team in &roster.teams {
        faults.extend(faults_of_team(team, plan));
    }
    let last = plan.turns.iter().map(|turn| turn.session).max();
    if last.unwrap_or(0) != plan.sessions {
        faults.push(format!("says {} sessions, has {last:?}", plan.sessions));
    }
    faults
}

/// Steps in their order and of their length, nothing too early, all there.
fn faults_of_team(team: &RosterTeam, plan: &RosterPlan) -> Vec<String> {
    let mut faults = Vec::new();
    let mut turns = plan.turns.iter().filter(|turn| turn.team == team.name);
    let mut before = (0, 0);
    for step in &team.steps {
        if !step.waits_for.is_empty() && step.from.is_none() {
            break;
        }
        let mut left = u32::from(step.slots);
        while left > 0 {
            let Some(turn) = turns.next() else {
                faults.push(format!("{} {} is not all there", team.name, step.name));
                return faults;
            };
            let wanted: BTreeMap<&str, usize> = step
                .needs
                .iter()
                .map(|need| (need.thing.as_str(), usize::from(need.count)))
                .collect();
            let mut had: BTreeMap<&str, usize> = BTreeMap::new();
            for used in &turn.things {
                *had.entry(&used.thing).or_default() += 1;
            }
            let length = u32::from(step.sitting.unwrap_or(step.slots)).min(left);
            let is_right = turn.step == step.name
                && turn.to - turn.from == length
                && (turn.session, turn.from) >= before
                && turn.session >= usize::from(step.from.unwrap_or(1))
                && wanted == had;
            if !is_right {
                faults.push(format!(
                    "{turn:?} is not what {step:?} asks after {before:?}"
                ));
            }
            before = (turn.session, turn.to);
            left -= length.min(left);
        }
    }
    faults.extend(turns.map(|turn| format!("is too many: {turn:?}")));
    faults
}

/// A sitting to be tried everywhere: its length, earliest session and needs.
type Sitting = (u32, usize, Vec<String>);

/// The fewest sessions, by trying every slot for every sitting, in no clever way.
fn fewest_by_every_way(roster: &Roster) -> usize {
    let mut teams: Vec<Vec<Sitting>> = Vec::new();
    for team in &roster.teams {
        let mut all = Vec::new();
        for step in &team.steps {
            let mut left = step.slots;
            while left > 0 {
                let length = step.sitting.unwrap_or(step.slots).min(left);
                let mut needs: Vec<String> = step.needs.iter().map(|n| n.thing.clone()).collect();
                for (number, group) in roster.apart.iter().enumerate() {
                    if group.contains(&team.name) {
                        needs.push(format!("group {number}"));
                    }
                }
                all.push((
                    u32::from(length),
                    usize::from(step.from.unwrap_or(1)),
                    needs,
                ));
                left -= length;
            }
        }
        teams.push(all);
    }
    (0..)
        .find(|sessions| {
            let mut taken = BTreeMap::new();
            place(roster, &teams, *sessions, (0, 0), (1, 0), &mut taken)
        })
        .expect("some number of sessions does")
}

type Taken = BTreeMap<(usize, u32, String), u32>;

fn place(
    roster: &Roster,
    teams: &[Vec<Sitting>],
    sessions: usize,
    (team, at): (usize, usize),
    ready: (usize, u32),
    taken: &mut Taken,
) -> bool {
    let Some(sittings) = teams.get(team) else {
        return true;
    };
    let Some((length, from, needs)) = sittings.get(at) else {
        return place(roster, teams, sessions, (team + 1, 0), (1, 0), taken);
    };
    let count = |name: &str| {
        let thing = roster.things.iter().find(|thing| thing.name == name);
        thing.map_or(1, |thing| u32::from(thing.count))
    };
    for session in ready.0.max(*from)..=sessions {
        let first = if session == ready.0 { ready.1 } else { 0 };
        let end = length_of(roster, session);
        for slot in first..end {
            if slot + length > end {
                break;
            }
            let places: Vec<(usize, u32, String)> = (slot..slot + length)
                .flat_map(|s| needs.iter().map(move |name| (session, s, name.clone())))
                .collect();
            for place in &places {
                *taken.entry(place.clone()).or_default() += 1;
            }
            let fits = places.iter().all(|place| taken[place] <= count(&place.2));
            let next = (session, slot + length);
            if fits && self::place(roster, teams, sessions, (team, at + 1), next, taken) {
                return true;
            }
            for place in &places {
                *taken.get_mut(place).expect("was taken") -= 1;
            }
        }
    }
    false
}

fn drawn_roster() -> impl Strategy<Value = Roster> {
    let sets: [&[&str]; 5] = [
        &[],
        &["bench"],
        &["splicer"],
        &["bench", "splicer"],
        &["projector"],
    ];
    let step = (
        1_u16..4,
        0_usize..5,
        prop::option::of(1_u16..3),
        prop::option::of(1_u16..4),
    );
    let step = step.prop_map(move |(slots, set, sitting, from)| RosterStep {
        sitting,
        from: from.filter(|from| *from > 1),
        ..self::step("work", slots, sets[set])
    });
    let teams = prop::collection::vec(prop::collection::vec(step, 1..3), 1..4);
    let sessions = prop::collection::vec(1_u16..4, 1..4);
    (teams, sessions, 1_u16..3, any::<bool>()).prop_map(|(teams, mut sessions, benches, apart)| {
        sessions[0] = 3;
        let teams: Vec<RosterTeam> = teams
            .into_iter()
            .enumerate()
            .map(|(at, steps)| team(&format!("T{at}"), steps))
            .collect();
        let apart = match apart && teams.len() > 1 {
            true => vec![vec!["T0".to_owned(), "T1".to_owned()]],
            false => Vec::new(),
        };
        Roster {
            teams,
            things: things(&[("bench", benches), ("splicer", 1), ("projector", 1)]),
            sessions,
            apart,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    /// The plan holds, the bounds are none too high, and what is called best is best.
    #[test]
    fn small_rosters_against_every_way(roster in drawn_roster()) {
        let plan = plan_roster(&roster).expect("a roster without problems");
        prop_assert_eq!(faults(&roster, &plan), Vec::<String>::new());
        let fewest = fewest_by_every_way(&roster);
        let bounds = &plan.bounds;
        prop_assert!(bounds.at_least <= fewest, "{:?} above {}", bounds, fewest);
        for each in bounds.by_team.iter().map(|b| b.sessions)
            .chain(bounds.by_thing.iter().map(|b| b.sessions))
            .chain([bounds.together])
        {
            prop_assert!(each <= bounds.at_least);
        }
        // So small a roster is always searched to its end.
        prop_assert!(plan.proof.is_best());
        prop_assert_eq!((plan.sessions, bounds.at_least), (fewest, fewest));
        let reckoned = bounds.by_team.iter().map(|b| b.sessions)
            .chain(bounds.by_thing.iter().map(|b| b.sessions))
            .chain([bounds.together])
            .max();
        let is_reckoned = reckoned == Some(fewest);
        prop_assert_eq!(plan.proof == RosterProof::BoundMet, is_reckoned);
    }
}

/// Eight teams with one bench, one splicer, one projector, ten weeks: the class of the
/// brief. The hours are ours.
fn class() -> Roster {
    let steps = vec![
        step("view", 1, &["projector"]),
        step("log", 2, &[]),
        step("break down", 2, &["bench"]),
        step("cut", 3, &["bench", "splicer"]),
        step("splice", 2, &["splicer"]),
        step("project", 1, &["projector"]),
    ];
    let names = ["Ada", "Ben", "Cleo", "Dora", "Emil", "Fay", "Gus", "Hedy"];
    Roster {
        teams: names.iter().map(|name| team(name, steps.clone())).collect(),
        things: things(&[("bench", 1), ("splicer", 1), ("projector", 1)]),
        sessions: vec![6; 10],
        apart: Vec::new(),
    }
}

#[test]
fn a_class_of_eight_meets_its_bound() {
    let roster = class();
    let plan = plan_roster(&roster).expect("a class");
    assert_eq!(faults(&roster, &plan), Vec::<String>::new());
    // Eight times five slots at the bench, and as many at the splicer, six a session.
    let bench = &plan.bounds.by_thing[0];
    assert_eq!((bench.slots, bench.sessions), (40, 7));
    assert!(
        plan.proof.is_best(),
        "{:?} of {:?}",
        plan.sessions,
        plan.bounds
    );
    assert!(plan.fits());
}

#[test]
fn sixty_teams_come_near_the_bound_and_are_not_called_best() {
    let one = class().teams.remove(0).steps;
    let teams = (0..60).map(|at| team(&format!("T{at}"), one.clone()));
    let roster = Roster {
        teams: teams.collect(),
        ..class()
    };
    let plan = plan_roster(&roster).expect("a large class");
    assert_eq!(faults(&roster, &plan), Vec::<String>::new());
    let least = plan.bounds.at_least;
    assert!(
        plan.sessions <= least + 3,
        "{} above {least}",
        plan.sessions
    );
    assert_eq!(plan.proof.is_best(), plan.sessions == least);
    assert!(!plan.fits());
}

#[test]
fn a_verifier_that_finds_nothing_wrong_would_prove_nothing() {
    let roster = class();
    let good = plan_roster(&roster).expect("a class");
    let spoil = |change: fn(&mut Vec<Turn>)| {
        let mut plan = good.clone();
        change(&mut plan.turns);
        faults(&roster, &plan)
    };
    assert!(!spoil(|turns| turns.truncate(40)).is_empty());
    assert!(!spoil(|turns| turns[3].from += 1).is_empty());
    assert!(!spoil(|turns| turns[0].session += 4).is_empty());
    assert!(!spoil(|turns| turns.iter_mut().for_each(|turn| turn.things.clear())).is_empty());
}

#[test]
fn sittings_too_long_to_share_a_session_count_one_each() {
    // Three slots of four: the slots alone would say three sessions.
    let teams = (0..4).map(|at| team(&format!("T{at}"), vec![step("cut", 3, &["bench"])]));
    let roster = Roster {
        teams: teams.collect(),
        things: things(&[("bench", 1)]),
        sessions: vec![4; 3],
        apart: Vec::new(),
    };
    let plan = plan_roster(&roster).expect("a roster");
    assert_eq!((plan.bounds.by_thing[0].sessions, plan.sessions), (4, 4));
    assert!(!plan.fits());
}

#[test]
fn nothing_is_cut_before_its_scan_is_proved() {
    let table = "team,step,hours,needs,waits_for,from\n\
                 Ada,view,1,,,\nAda,cut,1,bench,scan proved,4\nAda,project,1,,,\n\
                 Ben,view,1,,,\nBen,cut,1,bench,scan proved,\nBen,project,1,,,\n";
    let mut roster = read_roster(table, 60).expect("a table").roster;
    roster.things = read_things(&["bench=1"]).expect("things");
    roster.sessions = read_sessions("5x3", 60).expect("sessions");
    let plan = plan_roster(&roster).expect("a roster");
    assert_eq!(faults(&roster, &plan), Vec::<String>::new());
    let cut: Vec<(&str, usize)> = plan
        .turns
        .iter()
        .filter(|turn| turn.step == "cut")
        .map(|turn| (turn.team.as_str(), turn.session))
        .collect();
    assert_eq!(cut, [("Ada", 4)]);
    let waiting: Vec<(&str, &str)> = plan
        .waiting
        .iter()
        .map(|one| (one.team.as_str(), one.step.as_str()))
        .collect();
    assert_eq!(waiting, [("Ben", "cut"), ("Ben", "project")]);
    assert_eq!((plan.sessions, plan.bounds.at_least), (4, 4));
}

#[test]
fn everything_wrong_is_told_at_once_with_its_line() {
    let wrong = read_roster("team,step,hours,needs\nAda,cut,soon,bench:x\n", 30);
    let lines = |found: &[onestrand_plan::Found]| -> Vec<String> {
        found.iter().map(ToString::to_string).collect()
    };
    assert_eq!(
        lines(wrong.expect_err("two things").problems()),
        [
            "line 2, column hours: cannot read \"soon\" as hours, such as 2, 1.5 or 1:30",
            "line 2, column needs: cannot read \"bench:x\" as a thing and how many, such as \
             splicer:2",
        ]
    );
    let table = "team,step,hours,needs,from\nAda;Ben,cut,0,bench,\nBen,splice,9,press:2,0\n";
    let mut roster = read_roster(table, 30).expect("a table").roster;
    roster.things = things(&[("bench", 1), ("press", 1), ("Bench", 0)]);
    roster.sessions = vec![4, 0];
    roster.apart = vec![vec!["Ada".to_owned(), "Cy".to_owned()]];
    let found = plan_roster(&roster).expect_err("much is wrong");
    let text = lines(found.problems()).join("\n");
    for said in [
        "line 2, Ada, cut: takes no time",
        "line 2, Ben, cut: takes no time",
        "line 3, Ben, splice: a sitting of 18 slots is longer than any session, by 14",
        "line 3, Ben, splice: needs 2 of press, and there is 1",
        "line 3, Ben, splice: sessions are counted from 1",
        "session 2: has no time",
        "the Bench: stands twice",
        "the Bench: there is none of it",
        "apart, Ada + Cy: there is no team \"Cy\"",
    ] {
        assert!(text.contains(said), "{said} is not in\n{text}");
    }
}

#[test]
fn a_team_that_cuts_unscanned_film_is_remarked() {
    let plan = plan_roster(&class()).expect("a class");
    assert_eq!(plan.remarks.len(), 8);
    let mut safe = class();
    for team in &mut safe.teams {
        team.steps[2].waits_for = "scan proved".to_owned();
        team.steps[2].from = Some(2);
    }
    assert!(plan_roster(&safe).expect("a class").remarks.is_empty());
}

#[test]
fn hours_are_read_as_people_write_them() {
    let table = "team,step,hours,sitting\nA,a,1.5,\nA,b,1:30,0:45\nA,c,2,\nA,d,0.1,\n";
    let roster = read_roster(table, 30).expect("a table").roster;
    let slots: Vec<u16> = roster.teams[0]
        .steps
        .iter()
        .map(|step| step.slots)
        .collect();
    assert_eq!(slots, [3, 3, 4, 1]);
    assert_eq!(roster.teams[0].steps[1].sitting, Some(2));
    assert_eq!(read_sessions("2x2:15, 3", 30).expect("sessions"), [4, 4, 6]);
    assert!(read_sessions("soon", 30).is_err());
}
