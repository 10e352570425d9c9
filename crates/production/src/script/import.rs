//! Bringing a script in: a screenplay as Fountain text, a table of setups, or the list of
//! wild sounds.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use onestrand_plan::{FountainScript, Pasted, PlanError, ReadSheet, Scene, Seconds, read_pasted};
use onestrand_store::{
    Act, ActionRecord, Production, SceneRecord, ScriptPart, SetupRecord, ShownRecord,
};

use super::at_work::{one_act, put_at};
use super::kept::{Kept, KeptScript};
use super::letters::with_actions;
use super::report::reported;
use super::wild::wild_acts;
use crate::documents::ScriptImported;
use crate::{ImportProblem, ProductionError};

/// Brings a script in. A screenplay gives scenes and actions: setups that are there keep
/// the actions whose words are still in it. A table gives setups, and scenes and actions
/// where there are none yet. Both may be brought in, in either order. A camera report adds
/// its takes to its rolls; a roll that is not known yet is known on paper then.
///
/// # Errors
/// [`ProductionError::Import`] with every problem; nothing is changed then.
pub fn import_script(
    production: &mut Production,
    path: &Path,
) -> Result<ScriptImported, ProductionError> {
    let bytes = std::fs::read(path).map_err(crate::error::file("read", path))?;
    import_script_text(production, path, bytes)
}

/// The same with the bytes at hand; `path` names them in what is said of problems.
///
/// # Errors
/// As [`import_script`].
pub fn import_script_text(
    production: &mut Production,
    path: &Path,
    bytes: Vec<u8>,
) -> Result<ScriptImported, ProductionError> {
    let text = String::from_utf8(bytes).map_err(|e| not_text(path, &e))?;
    let refused = |error: PlanError| of_plan(path, &error);
    let kept = KeptScript::read(production)?;
    let mut import = Import {
        kept: &kept,
        next: production.next_script_id()?,
        acts: Vec::new(),
        remarks: Vec::new(),
    };
    let mut columns = Vec::new();
    let mut takes = 0;
    let head = Head::of(&text);
    let kind = if head.is_report() {
        let report = reported(production, path, &text)?;
        takes = report.takes;
        import.acts = report.acts;
        import.remarks = report.remarks;
        "camera_report"
    } else if head.is_wild_list() {
        let sounds = onestrand_plan::read_wild_sounds(&text).map_err(refused)?;
        import.acts = wild_acts(&kept, import.next, sounds);
        "wild_sounds"
    } else {
        match read_pasted(&text).map_err(refused)? {
            Pasted::Screenplay(read) => {
                import.screenplay(read);
                "screenplay"
            }
            Pasted::Sheet(read) => {
                columns.clone_from(&read.strange_columns);
                import.sheet(read);
                "table"
            }
        }
    };
    let Import { acts, remarks, .. } = import;
    if !acts.is_empty() {
        let file = path.file_name().unwrap_or_default().to_string_lossy();
        let what = if takes > 0 { "camera report" } else { "script" };
        production.act(&format!("{what} brought in from {file}"), &one_act(acts))?;
    }
    let now = KeptScript::read(production)?;
    Ok(ScriptImported {
        kind: kind.to_owned(),
        scenes: now.scenes.len(),
        actions: now.scenes.iter().map(|s| s.it.actions.len()).sum(),
        setups: now.setups.len(),
        wild_sounds: now.wild_sounds.len(),
        takes,
        unknown_columns: columns,
        remarks,
    })
}

/// What the first line names, where it is that of a table.
struct Head(BTreeSet<String>);

impl Head {
    fn of(text: &str) -> Self {
        let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
        let first = text.lines().next().unwrap_or_default().to_lowercase();
        let names = first.split([',', '\t']).map(|name| name.trim().to_owned());
        Self(names.collect())
    }

    fn names(&self, name: &str) -> bool {
        self.0.contains(name)
    }

    /// A camera report: roll, slate and the counter at the start.
    fn is_report(&self) -> bool {
        ["roll", "slate", "start"]
            .iter()
            .all(|name| self.names(name))
    }

    /// The list of wild sounds: a sound and no setup.
    fn is_wild_list(&self) -> bool {
        self.names("sound") && !self.names("setup")
    }
}

fn not_text(path: &Path, error: &std::string::FromUtf8Error) -> ProductionError {
    let valid = &error.as_bytes()[..error.utf8_error().valid_up_to()];
    let lines = valid.iter().filter(|byte| **byte == b'\n').count();
    ProductionError::Import {
        path: path.to_owned(),
        problems: vec![ImportProblem {
            line: lines as u64 + 1,
            column: String::new(),
            message: "this is no text in UTF-8; save it as plain text, UTF-8".to_owned(),
        }],
    }
}

pub(super) fn of_plan(path: &Path, error: &PlanError) -> ProductionError {
    let problems = error.problems().iter().map(|found| ImportProblem {
        line: found.line.unwrap_or(1),
        column: found.place.clone(),
        message: found.message.clone(),
    });
    ProductionError::Import {
        path: path.to_owned(),
        problems: problems.collect(),
    }
}

struct Import<'a> {
    kept: &'a KeptScript,
    next: i64,
    acts: Vec<Act>,
    remarks: Vec<String>,
}

impl Import<'_> {
    fn screenplay(&mut self, read: FountainScript) {
        self.remarks
            .extend(read.remarks.iter().map(ToString::to_string));
        let scenes: Vec<SceneRecord> = scenes_with_notes(&read);
        let before: Vec<&SceneRecord> = self.kept.scenes.iter().map(|s| &s.it).collect();
        let now = carried(&before, &scenes);
        let actions = before.iter().flat_map(|scene| &scene.actions);
        let names: BTreeSet<String> = actions.map(|a| a.name.clone()).collect();
        for kept in &self.kept.setups {
            let setup = with_actions(&kept.it, &names, &now);
            let lost = kept.it.shown.len() - setup.shown.len();
            if lost > 0 {
                let what = if lost == 1 { "an action" } else { "actions" };
                self.remarks.push(format!(
                    "setup {} showed {what} whose words are no more in the text",
                    setup.name
                ));
            }
            if setup != kept.it {
                self.acts
                    .push(put_at(kept.id, kept.place, ScriptPart::Setup(setup)));
            }
        }
        self.put_scenes(scenes);
    }

    fn sheet(&mut self, read: ReadSheet) {
        self.add_scenes(&read.script.scenes);
        let setups = read.script.setups.into_iter().map(|setup| SetupRecord {
            name: setup.name,
            scene: setup.scene,
            shown: setup
                .shown
                .into_iter()
                .map(|shown| ShownRecord {
                    action: shown.action,
                    off_camera: !shown.on_camera,
                })
                .collect(),
            size: setup.size,
            movement: setup.movement,
            action: setup.action,
            sound: setup.sound,
            mover: setup.mover,
            direction: setup.direction,
            cast: setup.cast,
            props: setup.props,
            seconds: said(setup.seconds),
            takes: setup.takes,
            dissolve: setup.dissolve.count(),
            note: setup.note,
        });
        let setups: Vec<SetupRecord> = setups.collect();
        let same = |kept: &SetupRecord, new: &SetupRecord| kept.name == new.name;
        self.put_all(&self.kept.setups, setups, same, ScriptPart::Setup);
    }

    /// Scenes and actions that a table names and the text does not have.
    fn add_scenes(&mut self, named: &[Scene]) {
        let mut scenes: Vec<SceneRecord> = self.kept.scenes.iter().map(|s| s.it.clone()).collect();
        let known: BTreeSet<String> = scenes
            .iter()
            .flat_map(|s| s.actions.iter().map(|a| a.name.clone()))
            .collect();
        for scene in named {
            let new = scene.actions.iter().filter(|a| !known.contains(&a.name));
            let new: Vec<ActionRecord> = new.map(action).collect();
            if new.is_empty() {
                continue;
            }
            match scenes.iter_mut().find(|s| s.number == scene.number) {
                Some(there) => {
                    let names: Vec<&str> = new.iter().map(|a| a.name.as_str()).collect();
                    self.remarks.push(format!(
                        "scene {} had no {}; it stands at its end now",
                        scene.number,
                        names.join(", ")
                    ));
                    there.actions.extend(new);
                }
                None => scenes.push(SceneRecord {
                    number: scene.number.clone(),
                    heading: scene.heading.clone(),
                    actions: new,
                    note: String::new(),
                }),
            }
        }
        self.put_scenes(scenes);
    }

    fn put_scenes(&mut self, scenes: Vec<SceneRecord>) {
        let same = |kept: &SceneRecord, new: &SceneRecord| kept.number == new.number;
        self.put_all(&self.kept.scenes, scenes, same, ScriptPart::Scene);
    }

    /// Puts all parts of a kind in the place of those there are. What is the same thing
    /// keeps its number; what stays as it is is left alone.
    fn put_all<T: Clone + PartialEq>(
        &mut self,
        kept: &[Kept<T>],
        new: Vec<T>,
        same: impl Fn(&T, &T) -> bool,
        part: fn(T) -> ScriptPart,
    ) {
        let mut left: Vec<&Kept<T>> = kept.iter().collect();
        for (nth, it) in new.into_iter().enumerate() {
            let place = crate::list_places::anew(nth);
            let was = left.iter().position(|kept| same(&kept.it, &it));
            let was = was.map(|at| left.remove(at));
            if was.is_some_and(|was| was.it == it && was.place == place) {
                continue;
            }
            let id = was.map_or_else(
                || {
                    self.next += 1;
                    self.next - 1
                },
                |was| was.id,
            );
            self.acts.push(put_at(id, place, part(it)));
        }
        let gone = left.iter().map(|kept| Act::PutScript {
            id: kept.id,
            part: None,
        });
        self.acts.extend(gone);
    }
}

/// Seconds as they are kept; none are kept as nothing.
pub(super) fn said(seconds: Seconds) -> String {
    match seconds {
        Seconds::ZERO => String::new(),
        seconds => seconds.to_string(),
    }
}

fn action(action: &onestrand_plan::Action) -> ActionRecord {
    ActionRecord {
        name: action.name.clone(),
        text: action.text.clone(),
        speaker: action.speaker.clone(),
    }
}

/// The scenes of a screenplay, the writer's notes with the scene they stand in.
fn scenes_with_notes(read: &FountainScript) -> Vec<SceneRecord> {
    let begins = |scene: &Scene| scene.line.unwrap_or(0);
    let scenes = &read.script.scenes;
    let record = |(nth, scene): (usize, &Scene)| {
        let end = scenes.get(nth + 1).map_or(u64::MAX, begins);
        let here = |line: u64| line < end && (nth == 0 || line >= begins(scene));
        let notes = read.notes.iter().filter(|(line, _)| here(*line));
        let notes: Vec<&str> = notes.map(|(_, note)| note.as_str()).collect();
        SceneRecord {
            number: scene.number.clone(),
            heading: scene.heading.clone(),
            actions: scene.actions.iter().map(action).collect(),
            note: notes.join("\n"),
        }
    };
    scenes.iter().enumerate().map(record).collect()
}

/// What the actions that were there are called in a new text: those whose words are still
/// in it, the first of several alike with the first. A scene without a heading came out of
/// a table, which has other words or none: its actions keep their names where the text has
/// such.
fn carried(before: &[&SceneRecord], scenes: &[SceneRecord]) -> BTreeMap<String, String> {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut by_words: BTreeMap<(String, Option<String>), Vec<String>> = BTreeMap::new();
    let mut names = BTreeSet::new();
    for action in scenes.iter().rev().flat_map(|s| s.actions.iter().rev()) {
        let words = (plain(&action.text), action.speaker.clone());
        by_words.entry(words).or_default().push(action.name.clone());
        names.insert(action.name.clone());
    }
    let mut now = BTreeMap::new();
    for scene in before {
        let of_a_table = scene.heading.is_empty();
        for action in &scene.actions {
            let words = (plain(&action.text), action.speaker.clone());
            let by_name = || names.get(&action.name).cloned().filter(|_| of_a_table);
            let found = by_words.get_mut(&words).and_then(Vec::pop);
            if let Some(name) = found.or_else(by_name) {
                now.insert(action.name.clone(), name);
            }
        }
    }
    now
}
