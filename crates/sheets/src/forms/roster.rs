//! The class roster as a form: all sessions at a glance, then each with its turns.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::Press;
use super::proof::TITLE_MOST;
use super::record::{Figure, FormRecord, missing_words, paper_word};
use crate::cautions::cautions;
use crate::roster::{RosterSession, RosterSheet, RosterTurn};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Class roster";
/// Teams side by side in the table of all sessions.
const TEAMS_ABREAST: usize = 6;
/// Reasons of the lower bound that are printed, the strongest first.
const REASONS_MOST: usize = 6;

/// Prints a class roster, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_roster_sheet(sheet: &RosterSheet) -> Result<Printed, SheetError> {
    let press = Press::new(FORM, "roster.typ", include_str!("roster.typ"));
    press.ready(&record(sheet))?.print()
}

#[derive(Serialize)]
struct RosterRecord {
    form: FormRecord,
    proved: String,
    reasons: Vec<[String; 3]>,
    glances: Vec<Glance>,
    sessions: Vec<SessionRecord>,
    waiting: Vec<[String; 3]>,
    remarks: Vec<String>,
}

/// All sessions of a few teams.
#[derive(Serialize)]
struct Glance {
    teams: Vec<String>,
    /// For each session, what each team does in it.
    rows: Vec<Vec<String>>,
}

#[derive(Serialize)]
struct SessionRecord {
    number: String,
    length: String,
    turns: Vec<TurnRecord>,
}

#[derive(Serialize)]
struct TurnRecord {
    time: String,
    team: String,
    step: String,
    sitting: String,
    things: String,
    waits_for: String,
}

fn record(sheet: &RosterSheet) -> RosterRecord {
    RosterRecord {
        form: furniture(sheet),
        proved: words::plain(&sheet.proved),
        reasons: reasons(sheet),
        glances: sheet
            .teams
            .chunks(abreast(sheet.teams.len()))
            .map(|teams| glance(sheet, teams))
            .collect(),
        sessions: sheet.sessions.iter().map(session).collect(),
        waiting: sheet
            .waiting
            .iter()
            .map(|one| [&one.team, &one.step, &one.waits_for].map(|text| words::plain(text)))
            .collect(),
        remarks: sheet
            .remarks
            .iter()
            .map(|said| words::plain(said))
            .collect(),
    }
}

/// How many teams stand side by side, so that no table is nearly empty.
fn abreast(teams: usize) -> usize {
    teams.div_ceil(teams.div_ceil(TEAMS_ABREAST).max(1)).max(1)
}

fn reasons(sheet: &RosterSheet) -> Vec<[String; 3]> {
    let mut strongest: Vec<_> = sheet.reasons.iter().collect();
    strongest.sort_by_key(|reason| std::cmp::Reverse(reason.sessions));
    let one = |reason: &&crate::roster::RosterReason| {
        [
            words::plain(&reason.of),
            reason.minutes.map(hours).unwrap_or_default(),
            words::counted(reason.sessions, "session", "sessions"),
        ]
    };
    strongest.iter().take(REASONS_MOST).map(one).collect()
}

fn glance(sheet: &RosterSheet, teams: &[String]) -> Glance {
    let does = |session: &RosterSession, team: &String| {
        let mut steps: Vec<String> = Vec::new();
        for turn in session.turns.iter().filter(|turn| turn.team == *team) {
            if steps.last() != Some(&turn.step) {
                steps.push(turn.step.clone());
            }
        }
        words::plain(&steps.join(", "))
    };
    Glance {
        teams: teams.iter().map(|team| words::plain(team)).collect(),
        rows: sheet
            .sessions
            .iter()
            .map(|session| teams.iter().map(|team| does(session, team)).collect())
            .collect(),
    }
}

fn session(session: &RosterSession) -> SessionRecord {
    SessionRecord {
        number: session.number.to_string(),
        length: hours(session.minutes),
        turns: session.turns.iter().map(turn).collect(),
    }
}

fn turn(turn: &RosterTurn) -> TurnRecord {
    let (sitting, of) = turn.sitting;
    TurnRecord {
        time: format!("{}–{}", hours(turn.from), hours(turn.to)),
        team: words::plain(&turn.team),
        step: words::plain(&turn.step),
        sitting: match of {
            0 | 1 => String::new(),
            of => format!("sitting {sitting} of {of}"),
        },
        things: words::plain(&turn.things.join(", ")),
        waits_for: words::plain(&turn.waits_for),
    }
}

/// Minutes as `h:mm`.
fn hours(minutes: u32) -> String {
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

fn furniture(sheet: &RosterSheet) -> FormRecord {
    let needed = u32::try_from(sheet.sessions.len()).unwrap_or(u32::MAX);
    let teams = u32::try_from(sheet.teams.len()).unwrap_or(u32::MAX);
    let title = words::plain(&sheet.title);
    let in_full = match title.chars().count() > TITLE_MOST {
        true => vec![format!("The title in full: {title}")],
        false => Vec::new(),
    };
    let steps = sheet.sessions.iter().flat_map(|session| &session.turns);
    let said = steps.flat_map(|turn| [turn.team.as_str(), turn.step.as_str()]);
    let said: Vec<&str> = said.chain([&*sheet.title]).collect();
    let mut assumptions = vec![
        "A sitting lies in one session and is not broken. Hours of work are rounded up to whole \
         slots, those of a session down. The hours of each step are as they were given: write \
         the true ones down, and plan the rest anew."
            .to_owned(),
        "The lower bound is what no plan can do with less. A thing used for so long, a team with \
         so much to do, and both in every stretch of the course: the greatest counts."
            .to_owned(),
    ];
    assumptions.extend(missing_words(&said.join("\n")));
    FormRecord {
        form: FORM,
        kind: "who, when, with what".to_owned(),
        title: words::short(&title, TITLE_MOST),
        version: String::new(),
        facts: String::new(),
        day: String::new(),
        hand: "by",
        manner: "print on one side, hang it by the bench",
        got: "How this was planned",
        paper: paper_word(sheet.paper),
        figures: vec![
            Figure::counted(needed, "session needed", "sessions needed"),
            Figure::new(words::count(sheet.at_least), "lower bound"),
            Figure::counted(sheet.given, "session given", "sessions given"),
            Figure::counted(teams, "team", "teams"),
        ],
        not_cuttable: Vec::new(),
        not_proved: Vec::new(),
        foot: vec![
            "Who stands here has the thing for that time. Change turns by word of the teacher \
             only, and write it down."
                .to_owned(),
            "No film is cut before its scan is proved: tick the box when it is.".to_owned(),
        ],
        totals: vec![format!(
            "needs {needed}, lower bound {}",
            words::count(sheet.at_least)
        )],
        assumptions,
        in_full,
        cautions: cautions(&[
            "blades",
            "polyester",
            "solvent",
            "hot_lamp",
            "eyes_and_hands",
        ]),
    }
}
