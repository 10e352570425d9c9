//! The lined script, from the script and the takes of the film.

use onestrand_sheets::{LineShown, LinedAction, LinedScene, LinedScript, ScriptLine};

use super::ScriptSheetsToPrint;
use crate::documents::{LinedTakeDocument, SetupWords};

pub(super) fn script(gathered: &ScriptSheetsToPrint) -> LinedScript {
    let scenes = gathered.script.scenes.iter().map(|scene| &scene.scene);
    let scenes = scenes.filter(|scene| gathered.has_scene(&scene.number));
    let action = |action: &crate::documents::ActionWords| LinedAction {
        name: action.name.clone(),
        speaker: action.speaker.clone().unwrap_or_default(),
        text: action.text.clone(),
    };
    LinedScript {
        head: gathered.head.clone(),
        scenes: scenes
            .map(|scene| LinedScene {
                number: scene.number.clone(),
                heading: scene.heading.clone(),
                actions: scene.actions.iter().map(action).collect(),
            })
            .collect(),
        lines: lines(gathered),
    }
}

/// A line for each take of each setup, in the order of the script; a setup that was not
/// shot keeps the line it was planned with. What shows no action, as a title, has none.
fn lines(gathered: &ScriptSheetsToPrint) -> Vec<ScriptLine> {
    let mut lines = Vec::new();
    let setups = gathered.setups().map(|one| &one.setup);
    for setup in setups.filter(|setup| !setup.shown.is_empty()) {
        let takes = gathered.script.takes.iter();
        let mut takes: Vec<&LinedTakeDocument> =
            takes.filter(|take| take.setup == setup.name).collect();
        takes.sort_by_key(|take| take.take);
        if takes.is_empty() {
            lines.push(line(setup, None));
        }
        for take in takes {
            lines.push(line(setup, Some(take)));
        }
    }
    lines
}

fn line(setup: &SetupWords, take: Option<&LinedTakeDocument>) -> ScriptLine {
    let shown = setup.shown.iter().map(|shown| LineShown {
        action: shown.action.clone(),
        on_camera: !shown.off_camera,
    });
    ScriptLine {
        name: match take {
            Some(take) => format!("{}-T{}", take.setup, take.take),
            None => setup.name.clone(),
        },
        shot: take.is_some(),
        circled: take.is_some_and(|take| take.rating == "circled"),
        ng: take.is_some_and(|take| take.rating == crate::script::NG),
        shown: shown.collect(),
    }
}
