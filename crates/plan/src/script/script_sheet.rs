//! The script as a table: a row for each setup.

use std::collections::BTreeSet;

use onestrand_film::Frames;

use super::{Action, Row, Scene, Script, Setup, Shown, Table};
use crate::found::{Found, PlanError, unless};
use crate::seconds::Seconds;

/// The columns of the form.
const COLUMNS: [&str; 15] = [
    "scene",
    "setup",
    "actions",
    "size",
    "move",
    "action",
    "sound",
    "mover",
    "direction",
    "cast",
    "props",
    "seconds",
    "takes",
    "dissolve",
    "note",
];

/// The most takes of a setup: what a slate can say.
const MOST_TAKES: u16 = 999;

/// A table as it was read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReadSheet {
    /// The script.
    pub script: Script,
    /// Columns that the form does not have; what stood there is kept in the notes.
    pub strange_columns: Vec<String>,
}

/// Reads the script from CSV, or from a table pasted with tabs.
///
/// Columns in any order: `scene,setup,actions,size,move,action,sound,mover,direction,
/// cast,seconds,takes`, and `props`, `dissolve` and `note` if wanted. `actions` are names such as
/// `2a;2b`; one in brackets, `(2b)`, goes on off camera. `cast` and `props` are parted by
/// semicolons. No `takes` means one. Scenes and actions are those that the setups name,
/// in the order in which they are named first.
///
/// # Errors
/// [`PlanError::Problems`], all at once, each with its line: what cannot be read, and
/// what [`Script::check`] says.
///
/// # Examples
/// ```
/// # use onestrand_plan::read_script_sheet;
/// let read = read_script_sheet("scene,setup,actions,seconds,takes\n2,2,2a,15,2\n2,2A,2a,11,2\n")?;
/// assert_eq!((read.script.setups.len(), read.script.actions().count()), (2, 1));
/// let refused = read_script_sheet("setup,actions,seconds\n2,,0\n2,2a,soon\n").expect_err("wrong");
/// assert_eq!(refused.problems().len(), 4);
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn read_script_sheet(text: &str) -> Result<ReadSheet, PlanError> {
    let mut found = Vec::new();
    let table = Table::read(text, &COLUMNS, &mut found);
    table.want(&["setup", "actions", "seconds"], &mut found);
    let mut script = Script::default();
    let mut known = BTreeSet::new();
    for row in table.rows() {
        let setup = setup_of(row, &mut found);
        enter(&mut script, &mut known, &setup);
        script.setups.push(setup);
    }
    if let Err(PlanError::Problems { problems }) = script.check() {
        found.extend(problems);
    }
    let strange_columns = table.strange;
    unless(
        found,
        ReadSheet {
            script,
            strange_columns,
        },
    )
}

/// Whether a text is a table with the columns of the form, and not a screenplay.
pub(super) fn is_sheet(text: &str) -> bool {
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let first = text.lines().next().unwrap_or_default().to_lowercase();
    let names: Vec<&str> = first.split([',', '\t']).map(str::trim).collect();
    names.len() > 1 && names.contains(&"setup")
}

fn setup_of(row: Row<'_>, found: &mut Vec<Found>) -> Setup {
    let text = |column: &str| row.text(column).to_owned();
    let seconds = row.value("seconds", found, |text| match text {
        "" => Ok(Seconds::ZERO),
        text => text.parse::<Seconds>(),
    });
    let takes = row.value("takes", found, |text| match text {
        "" => Ok(1),
        text => text
            .parse::<u16>()
            .ok()
            .filter(|takes| *takes <= MOST_TAKES)
            .ok_or_else(|| format!("cannot read {text:?} as a number of takes, 1 to {MOST_TAKES}")),
    });
    let name = row.value("setup", found, |text| {
        let fits =
            (1..=12).contains(&text.len()) && text.chars().all(|c| c.is_ascii_alphanumeric());
        fits.then(|| text.to_owned())
            .ok_or_else(|| format!("cannot read {text:?} as a setup, such as 2A"))
    });
    let dissolve = row.value("dissolve", found, |text| match text {
        "" => Ok(Frames::ZERO),
        text => text.parse::<Frames>(),
    });
    let note = [row.text("note").to_owned(), row.strange()];
    let note: Vec<String> = note.into_iter().filter(|n| !n.is_empty()).collect();
    Setup {
        name: name.unwrap_or_else(|| text("setup")),
        scene: scene_of(row),
        shown: list(row.text("actions")).iter().map(|a| shown(a)).collect(),
        size: text("size"),
        movement: text("move"),
        action: text("action"),
        sound: text("sound"),
        mover: text("mover"),
        direction: text("direction"),
        cast: list(row.text("cast")),
        props: list(row.text("props")),
        // What could not be read is told of; it is not to be told of twice.
        seconds: seconds.unwrap_or(Seconds::ONE),
        takes: takes.unwrap_or(1),
        dissolve: dissolve.unwrap_or(Frames::ZERO),
        note: note.join("; "),
        line: Some(row.line),
    }
}

/// The scene as written, or as the setup's name begins.
fn scene_of(row: Row<'_>) -> String {
    let written = row.text("scene");
    if !written.is_empty() {
        return written.to_owned();
    }
    let setup = row.text("setup").chars();
    setup.take_while(char::is_ascii_digit).collect()
}

fn list(text: &str) -> Vec<String> {
    let parts = text.split(';').map(str::trim);
    parts.filter(|p| !p.is_empty()).map(str::to_owned).collect()
}

fn shown(text: &str) -> Shown {
    let inside = text.strip_prefix('(').and_then(|t| t.strip_suffix(')'));
    Shown {
        action: inside.unwrap_or(text).trim().to_owned(),
        on_camera: inside.is_none(),
    }
}

/// Enters the scene and the actions that a setup names, where they are new.
fn enter(script: &mut Script, known: &mut BTreeSet<String>, setup: &Setup) {
    for shown in &setup.shown {
        if !known.insert(shown.action.clone()) {
            continue;
        }
        let number = scene_number(&shown.action, &setup.scene);
        let at = script.scenes.iter().position(|s| s.number == number);
        let at = at.unwrap_or_else(|| {
            script.scenes.push(Scene {
                number,
                heading: String::new(),
                actions: Vec::new(),
                line: setup.line,
            });
            script.scenes.len() - 1
        });
        script.scenes[at].actions.push(Action {
            name: shown.action.clone(),
            text: if setup.shown.len() == 1 {
                setup.action.clone()
            } else {
                String::new()
            },
            speaker: None,
            line: setup.line,
        });
    }
}

/// `2` of `2a`; an action without a number belongs to the scene of its setup.
fn scene_number(action: &str, scene: &str) -> String {
    let number: String = action.chars().take_while(char::is_ascii_digit).collect();
    if number.is_empty() {
        scene.to_owned()
    } else {
        number
    }
}
