//! A roster out of a table, and sessions and things out of a line of words.

use super::{Roster, RosterNeed, RosterStep, RosterTeam, RosterThing, key};
use crate::found::{Found, PlanError, unless};
use crate::script::{Row, Table};

const COLUMNS: [&str; 7] = [
    "team",
    "step",
    "hours",
    "needs",
    "waits_for",
    "from",
    "sitting",
];

/// A roster as its table has it: its teams. Things and sessions are said beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadRoster {
    /// The teams, in the order in which they first stand.
    pub roster: Roster,
    /// Columns that nobody asked for, as written.
    pub strange: Vec<String>,
}

/// Reads teams and steps from CSV, a row a step in its order:
/// `team,step,hours` and, if wanted, `needs,waits_for,from,sitting`.
///
/// `team` names one team or several (`Ada;Ben`), `hours` and `sitting` are hours (`1.5`,
/// `1:30`) and become slots of `slot_minutes`, rounded up; `needs` is `bench;splicer:2`;
/// `from` is a session.
///
/// # Errors
/// [`PlanError::Problems`], all at once, each with its line.
pub fn read_roster(text: &str, slot_minutes: u16) -> Result<ReadRoster, PlanError> {
    let mut found = Vec::new();
    let table = Table::read(text, &COLUMNS, &mut found);
    table.want(&COLUMNS[..3], &mut found);
    let mut roster = Roster::default();
    for row in table.rows() {
        let Some(step) = step_of(row, slot_minutes, &mut found) else {
            continue;
        };
        for name in row.text("team").split(';').map(str::trim) {
            let same = |team: &&mut RosterTeam| key(&team.name) == key(name);
            match roster.teams.iter_mut().find(same) {
                Some(team) => team.steps.push(step.clone()),
                None => roster.teams.push(RosterTeam {
                    name: name.to_owned(),
                    steps: vec![step.clone()],
                }),
            }
        }
    }
    let strange = table.strange;
    unless(found, ReadRoster { roster, strange })
}

fn step_of(row: Row<'_>, slot_minutes: u16, found: &mut Vec<Found>) -> Option<RosterStep> {
    let slots = row.value("hours", found, |text| slots_up(text, slot_minutes));
    let sitting = row.value("sitting", found, |text| match text {
        "" => Ok(None),
        text => slots_up(text, slot_minutes).map(Some),
    });
    let from = row.value("from", found, |text| match text {
        "" => Ok(None),
        text => text
            .parse()
            .map(Some)
            .map_err(|_| format!("cannot read {text:?} as the number of a session, such as 3")),
    });
    let needs = row.value("needs", found, needs_of);
    Some(RosterStep {
        name: row.text("step").to_owned(),
        slots: slots?,
        sitting: sitting?,
        needs: needs?,
        waits_for: row.text("waits_for").to_owned(),
        from: from?,
        line: Some(row.line),
    })
}

fn needs_of(text: &str) -> Result<Vec<RosterNeed>, String> {
    let each = text.split(';').map(str::trim).filter(|one| !one.is_empty());
    each.map(|one| {
        let (thing, count) = one.split_once(':').unwrap_or((one, "1"));
        let count = count.trim().parse().map_err(|_| {
            format!("cannot read {one:?} as a thing and how many, such as splicer:2")
        })?;
        Ok(RosterNeed {
            thing: thing.trim().to_owned(),
            count,
        })
    })
    .collect()
}

fn slots_up(text: &str, slot_minutes: u16) -> Result<u16, String> {
    let slots = minutes(text)?.div_ceil(u32::from(slot_minutes.max(1)));
    u16::try_from(slots).map_err(|_| format!("{text:?} is too long"))
}

/// Minutes of `2`, `1.5` or `1:30` hours.
fn minutes(text: &str) -> Result<u32, String> {
    let text = text.trim();
    let why = || format!("cannot read {text:?} as hours, such as 2, 1.5 or 1:30");
    let number = |part: &str| part.parse::<u32>().ok().filter(|n| *n <= 9_999);
    let (whole, minutes) = if let Some((hours, minutes)) = text.split_once(':') {
        (hours, number(minutes).filter(|m| *m < 60))
    } else if let Some((hours, part)) = text.split_once(['.', ',']) {
        let tens = u32::try_from(part.len()).ok().filter(|digits| *digits <= 4);
        let minutes = number(part).zip(tens);
        let minutes = minutes.map(|(part, tens)| (part * 60).div_ceil(10_u32.pow(tens)));
        (hours, minutes)
    } else {
        (text, Some(0))
    };
    let whole = number(whole).ok_or_else(why)?;
    Ok(whole * 60 + minutes.ok_or_else(why)?)
}

/// Reads how long each session is: `10x2:30`, `2,2,3`, `8x2,3`; in slots, rounded down.
///
/// # Errors
/// [`PlanError::Problems`]: each part that cannot be read.
pub fn read_sessions(text: &str, slot_minutes: u16) -> Result<Vec<u16>, PlanError> {
    let mut found = Vec::new();
    let mut sessions = Vec::new();
    for part in text.split([',', ';']).map(str::trim) {
        let (times, hours) = part.split_once(['x', '×']).unwrap_or(("1", part));
        let slots = minutes(hours).map(|m| m / u32::from(slot_minutes.max(1)));
        match (times.trim().parse::<u16>(), slots) {
            // More than this nobody reads; the plan refuses it with its reason.
            (Ok(times), Ok(slots)) => {
                let slots = u16::try_from(slots).unwrap_or(u16::MAX);
                sessions.extend(std::iter::repeat_n(slots, usize::from(times.min(1_000))));
            }
            (Err(_), _) | (_, Err(_)) => {
                let said = format!(
                    "cannot read {part:?} as sessions, such as 10x2:30 (ten of two and a half hours)"
                );
                found.push(Found::new(None, "sessions", said));
            }
        }
    }
    unless(found, sessions)
}

/// Reads how many there are of each thing: `bench=1`.
///
/// # Errors
/// [`PlanError::Problems`]: each that cannot be read.
pub fn read_things<T: AsRef<str>>(each: &[T]) -> Result<Vec<RosterThing>, PlanError> {
    let mut found = Vec::new();
    let mut things = Vec::new();
    for text in each.iter().map(AsRef::as_ref) {
        let parts = text.split_once(['=', ':']);
        let parts = parts.and_then(|(name, count)| Some((name, count.trim().parse().ok()?)));
        match parts {
            Some((name, count)) => things.push(RosterThing {
                name: name.trim().to_owned(),
                count,
            }),
            None => {
                let said = format!("cannot read {text:?} as a thing and how many, such as bench=1");
                found.push(Found::new(None, "things", said));
            }
        }
    }
    unless(found, things)
}
