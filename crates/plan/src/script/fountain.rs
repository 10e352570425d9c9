//! Fountain screenplay text as scenes and actions.

use super::fountain_lines::{Kind, Told, read_lines};
use super::{Action, Scene, Script, action_letter};
use crate::found::{Found, PlanError, unless};

/// What a Fountain text holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FountainScript {
    /// The title page: keys and what stands behind them, several lines apart.
    pub title_page: Vec<(String, String)>,
    /// Scenes with their actions; there are no setups yet.
    pub script: Script,
    /// Notes of the writer (`[[…]]`), each with its line.
    pub notes: Vec<(u64, String)>,
    /// What was read in another way than it may have been meant.
    pub remarks: Vec<Found>,
}

/// Reads a screenplay. Each paragraph of a scene, and each speech, becomes an action.
///
/// Source: the published Fountain syntax, version 1.1. A heading need not be followed by
/// an empty line here, since a scene lost is worse than a line of action taken for one.
///
/// # Errors
/// [`PlanError::Problems`]: no scene, two scenes of one number, a part put aside with
/// `/*` and never closed. All at once, each with its line.
///
/// # Examples
/// ```
/// # use onestrand_plan::read_fountain;
/// let read = read_fountain("EXT. LANDING - DAY\n\nIda runs.\n\nIDA\nWait!\n")?;
/// let actions: Vec<_> = read.script.actions().map(|a| a.name.as_str()).collect();
/// assert_eq!(actions, ["1a", "1b"]);
/// assert!(read_fountain("Ida runs.").is_err());
/// # Ok::<(), onestrand_plan::PlanError>(())
/// ```
pub fn read_fountain(text: &str) -> Result<FountainScript, PlanError> {
    let (lines, open) = read_lines(text);
    let mut reader = Reader::default();
    for told in &lines {
        reader.take(told);
    }
    reader.number();
    let mut found: Vec<Found> = open
        .map(|open| {
            let said = "a part put aside with /* is never closed; close it with */";
            Found::new(Some(open.line), "", said)
        })
        .into_iter()
        .collect();
    if let Err(PlanError::Problems { problems }) = reader.read.script.check() {
        found.extend(problems);
    }
    unless(found, reader.read)
}

#[derive(Default)]
struct Reader {
    read: FountainScript,
    /// Numbers that the text itself gives, beside the scenes.
    given: Vec<Option<String>>,
    speaker: Option<(u64, String)>,
    /// Whether the last action is a speech that may go on.
    in_speech: bool,
}

impl Reader {
    fn take(&mut self, told: &Told) {
        let text = told.text.as_str();
        match told.kind {
            Kind::TitlePage => self.title_page(told),
            Kind::Heading => self.heading(told),
            Kind::Action | Kind::Centred => self.action(told),
            Kind::Character => {
                self.speaker = Some((told.line, text.to_owned()));
                self.in_speech = false;
            }
            Kind::Speech | Kind::Parenthetical | Kind::Lyric => self.speech(told),
            Kind::Note => self.read.notes.push((told.line, text.to_owned())),
            Kind::Transition | Kind::Section | Kind::Synopsis | Kind::PageBreak => {}
        }
    }

    fn title_page(&mut self, told: &Told) {
        let page = &mut self.read.title_page;
        if let (true, Some((_, value))) = (told.goes_on, page.last_mut()) {
            if !value.is_empty() {
                value.push('\n');
            }
            value.push_str(&told.text);
            return;
        }
        let (key, value) = told.text.split_once(':').unwrap_or((&told.text, ""));
        page.push((key.trim().to_owned(), value.trim().to_owned()));
    }

    fn heading(&mut self, told: &Told) {
        let (heading, number) = number_of(&told.text);
        self.given.push(number.map(str::to_owned));
        self.speaker = None;
        self.in_speech = false;
        self.read.script.scenes.push(Scene {
            number: String::new(),
            heading: heading.to_owned(),
            actions: Vec::new(),
            line: Some(told.line),
        });
    }

    fn action(&mut self, told: &Told) {
        self.in_speech = false;
        if told.goes_on && self.go_on(&told.text) {
            return;
        }
        self.push(told, None);
    }

    fn speech(&mut self, told: &Told) {
        if self.in_speech && self.go_on(&told.text) {
            return;
        }
        let speaker = self.speaker.take();
        let line = speaker.as_ref().map_or(told.line, |(line, _)| *line);
        let begun = Told {
            line,
            ..told.clone()
        };
        self.in_speech = self.push(&begun, speaker.map(|(_, name)| name));
    }

    /// Adds a line to the last action of the scene.
    fn go_on(&mut self, text: &str) -> bool {
        let scene = self.read.script.scenes.last_mut();
        let Some(action) = scene.and_then(|scene| scene.actions.last_mut()) else {
            return false;
        };
        action.text.push('\n');
        action.text.push_str(text);
        true
    }

    fn push(&mut self, told: &Told, speaker: Option<String>) -> bool {
        let Some(scene) = self.read.script.scenes.last_mut() else {
            let said = "stands before the first scene and belongs to none";
            let remark = Found::new(Some(told.line), "", said);
            self.read.remarks.push(remark);
            return false;
        };
        scene.actions.push(Action {
            name: String::new(),
            text: told.text.clone(),
            speaker,
            line: Some(told.line),
        });
        true
    }

    /// Scenes without a number of their own get the next one that is free.
    fn number(&mut self) {
        let taken: std::collections::BTreeSet<String> =
            self.given.iter().flatten().cloned().collect();
        let mut next = 1_u32;
        for (scene, given) in self.read.script.scenes.iter_mut().zip(&self.given) {
            scene.number = given.clone().unwrap_or_else(|| {
                while taken.contains(&next.to_string()) {
                    next += 1;
                }
                next += 1;
                (next - 1).to_string()
            });
            for (nth, action) in scene.actions.iter_mut().enumerate() {
                action.name = format!("{}{}", scene.number, action_letter(nth));
            }
        }
    }
}

/// A heading and the number that stands behind it: `EXT. LANDING #2A#`.
fn number_of(text: &str) -> (&str, Option<&str>) {
    let inside = text.trim_end().strip_suffix('#');
    let split = inside.and_then(|text| text.rsplit_once('#'));
    match split {
        Some((heading, number)) if !number.trim().is_empty() => {
            (heading.trim_end(), Some(number.trim()))
        }
        _ => (text, None),
    }
}
