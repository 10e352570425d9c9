//! The shooting script: scenes, what happens in them, and the setups that show it.

mod fountain;
mod fountain_lines;
mod script_sheet;
mod table;
mod wild_sheet;

pub use fountain::{FountainScript, read_fountain};
pub use script_sheet::{ReadSheet, read_script_sheet};
pub(crate) use table::{Row, Table};
pub use wild_sheet::read_wild_sounds;

use std::collections::{BTreeMap, BTreeSet};

use onestrand_film::{Fps, Frames};

use crate::block::Block;
use crate::found::{Found, PlanError, unless};
use crate::seconds::Seconds;

/// What was pasted, or lay in a file of unknown kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Pasted {
    /// A screenplay: scenes and actions.
    Screenplay(FountainScript),
    /// A table: setups and what they show.
    Sheet(ReadSheet),
}

/// Reads a table if the first line names its columns, `setup` among them; else a
/// screenplay.
///
/// # Errors
/// As [`read_script_sheet`] and [`read_fountain`].
pub fn read_pasted(text: &str) -> Result<Pasted, PlanError> {
    if script_sheet::is_sheet(text) {
        return read_script_sheet(text).map(Pasted::Sheet);
    }
    read_fountain(text).map(Pasted::Screenplay)
}

/// A scene: one place at one time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scene {
    /// Its number as the slate will say it: `2`.
    pub number: String,
    /// Where and when: `EXT. LANDING - DAY`. Empty where only a number is known.
    pub heading: String,
    /// What happens, in order.
    pub actions: Vec<Action>,
    /// Line of the text it came from.
    pub line: Option<u64>,
}

/// What happens: the unit in which coverage is counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// Its name: the number of the scene and a small letter, `2a`.
    pub name: String,
    /// What happens, or what is said.
    pub text: String,
    /// Who speaks, where the action is a speech.
    pub speaker: Option<String>,
    /// Line of the text it came from.
    pub line: Option<u64>,
}

/// An action as a setup has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The action's name.
    pub action: String,
    /// Whether the camera sees it; else it is only heard, or goes on out of the picture.
    pub on_camera: bool,
}

/// One place of the camera, and what it is to show.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Setup {
    /// As the slate says it: `2` the master, `2A` a closer angle, `M` a title.
    pub name: String,
    /// The number of its scene; empty for a title.
    pub scene: String,
    /// What it shows, in order.
    pub shown: Vec<Shown>,
    /// How large: the user's own words, as all that follows here.
    pub size: String,
    /// How the camera moves.
    pub movement: String,
    /// What happens, in a few words.
    pub action: String,
    /// What is heard.
    pub sound: String,
    /// Who or what moves through the picture.
    pub mover: String,
    /// Which way, on the screen.
    pub direction: String,
    /// Who is needed.
    pub cast: Vec<String>,
    /// What is needed.
    pub props: Vec<String>,
    /// How long a take is thought to run.
    pub seconds: Seconds,
    /// How many takes are planned.
    pub takes: u16,
    /// Frames over which it turns into the next one where the film is cut in the camera;
    /// none is a cut.
    pub dissolve: Frames,
    /// What stood in columns of the user's own.
    pub note: String,
    /// Line of the text it came from.
    pub line: Option<u64>,
}

impl Setup {
    /// Whether this is a title: its name has no scene number (`M`, `E`).
    #[must_use]
    pub fn is_title(&self) -> bool {
        is_title(&self.name)
    }

    fn place(&self) -> String {
        format!("setup {}", self.name)
    }
}

/// Whether a name is that of a title: it has no scene number.
#[must_use]
pub fn is_title(name: &str) -> bool {
    !name.starts_with(|c: char| c.is_ascii_digit())
}

/// A sound to be got on the spot, without the camera.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WildSound {
    /// What is heard.
    pub sound: String,
    /// Where it is to be had.
    pub place: String,
    /// How long; zero where it is not said.
    pub seconds: Seconds,
    /// How far the microphone stands, in the user's words.
    pub distance: String,
    /// What stood in columns of the user's own.
    pub note: String,
}

/// The shooting script.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Script {
    /// In the order of the film.
    pub scenes: Vec<Scene>,
    /// In the order of the script.
    pub setups: Vec<Setup>,
    /// What is to be recorded besides.
    pub wild_sounds: Vec<WildSound>,
}

impl Script {
    /// All actions in the order of the film.
    pub fn actions(&self) -> impl Iterator<Item = &Action> {
        self.scenes.iter().flat_map(|scene| &scene.actions)
    }

    /// Says everything that keeps a script from being planned, all at once.
    ///
    /// # Errors
    /// [`PlanError::Problems`]: no scenes, two scenes or two setups of one name, setups
    /// that show nothing or something that happens nowhere, takes without length or
    /// number.
    pub fn check(&self) -> Result<(), PlanError> {
        let mut found = Vec::new();
        if self.scenes.is_empty() {
            let said = "has no scene; begin one with INT or EXT and the place, or with a full stop";
            found.push(Found::new(Some(1), "the script", said));
        }
        found.extend(doubled(
            self.scenes.iter().map(|s| (&*s.number, s.line)),
            "scene",
            "number",
        ));
        found.extend(doubled(
            self.setups.iter().map(|s| (&*s.name, s.line)),
            "setup",
            "letter",
        ));
        let known: BTreeSet<&str> = self.actions().map(|action| &*action.name).collect();
        for setup in &self.setups {
            found.extend(of_setup(setup, &known));
        }
        unless(found, ())
    }

    /// Each setup with its takes as film: ⌈seconds · speed⌉ and the run-up for each
    /// take. A title has no run-up of its own: its seconds are all of it.
    #[must_use]
    pub fn blocks(&self, speed: Fps, run_up: Frames) -> Vec<Block> {
        let block = |setup: &Setup| {
            let more = if setup.is_title() {
                Frames::ZERO
            } else {
                run_up
            };
            let frames = Frames::total([setup.seconds.frames_up(speed), more]);
            // A take without length stays one, so that it is told.
            let frames = if setup.seconds == Seconds::ZERO {
                Frames::ZERO
            } else {
                frames
            };
            Block {
                line: setup.line,
                ..Block::even(&setup.name, setup.takes, frames)
            }
        };
        self.setups.iter().map(block).collect()
    }
}

fn doubled<'a>(
    names: impl Iterator<Item = (&'a str, Option<u64>)>,
    what: &str,
    give: &str,
) -> Vec<Found> {
    let mut seen: BTreeMap<String, Option<u64>> = BTreeMap::new();
    let mut found = Vec::new();
    for (name, line) in names {
        if let Some(first) = seen.get(&name.to_uppercase()) {
            let first = first.map_or(String::new(), |line| format!(", first on line {line}"));
            let said = format!("stands twice{first}; give the second another {give}");
            found.push(Found::new(line, format!("{what} {name}"), said));
        } else {
            seen.insert(name.to_uppercase(), line);
        }
    }
    found
}

fn of_setup(setup: &Setup, known: &BTreeSet<&str>) -> Vec<Found> {
    let mut wrong = Vec::new();
    if setup.shown.is_empty() && !setup.is_title() {
        wrong.push("shows no action; name what it covers, such as 2a;2b".to_owned());
    }
    let strange = setup.shown.iter().filter(|s| !known.contains(&*s.action));
    for shown in strange {
        wrong.push(format!("shows {}, which happens nowhere", shown.action));
    }
    if setup.seconds == Seconds::ZERO {
        wrong.push("has no length; give the seconds of a take".to_owned());
    }
    if setup.takes == 0 {
        wrong.push("has no take; plan one, or leave the setup out".to_owned());
    }
    let found = wrong.into_iter();
    found
        .map(|said| Found::new(setup.line, setup.place(), said))
        .collect()
}

/// The letter of the nth action of a scene, from 0: `a` to `z`, then `aa`.
pub fn action_letter(nth: usize) -> String {
    let letter = char::from(b'a' + u8::try_from(nth % 26).unwrap_or(0));
    match nth / 26 {
        0 => letter.to_string(),
        more => format!("{}{letter}", action_letter(more - 1)),
    }
}
