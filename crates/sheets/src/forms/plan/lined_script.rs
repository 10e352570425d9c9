//! The lined script as a form: which line runs how through which action.

use serde::Serialize;

use super::furniture::{count_of, plan_form, say_missing};
use crate::forms::record::{Figure, FormRecord};
use crate::plan::{LinedAction, LinedScene, LinedScript, ScriptLine};
use crate::words;

/// What the form calls itself.
pub(super) const FORM: &str = "Lined script";
/// Lines side by side on one page; more go on the next.
const LINES_ACROSS: usize = 8;
/// Letters of an action that stand together; a longer one may go on on the next page.
const TOGETHER: usize = 900;
/// The longest name of a line in the running head of its column.
const NAME_MOST: usize = 14;

#[derive(Serialize)]
pub(super) struct LinedRecord {
    pub(super) form: FormRecord,
    scenes: Vec<SceneRecord>,
}

/// A scene, or as much of it as has room side by side.
#[derive(Serialize)]
struct SceneRecord {
    number: String,
    heading: String,
    /// Which of its lines stand here, where they do not all: `lines 9 to 16 of 20`.
    which: String,
    lines: Vec<LineHead>,
    rows: Vec<RowRecord>,
}

#[derive(Serialize)]
struct LineHead {
    setup: String,
    take: String,
    circled: bool,
    ng: bool,
}

#[derive(Serialize)]
struct RowRecord {
    name: String,
    speaker: String,
    text: String,
    /// Whether this is the end of an action, below which a rule is drawn.
    last: bool,
    lines: Vec<Drawn>,
}

/// A line as it runs through a row.
#[derive(Serialize, Clone, PartialEq)]
struct Drawn {
    /// `none`, `led` down to where it begins, `on` or `off` camera.
    how: &'static str,
    begins: bool,
    ends: bool,
    circled: bool,
    ng: bool,
}

pub(super) fn record(script: &LinedScript) -> LinedRecord {
    LinedRecord {
        form: furniture(script),
        scenes: script
            .scenes
            .iter()
            .flat_map(|scene| side_by_side(scene, &script.lines))
            .collect(),
    }
}

/// The scene once for as many lines as have room side by side.
fn side_by_side(scene: &LinedScene, lines: &[ScriptLine]) -> Vec<SceneRecord> {
    let here: Vec<&ScriptLine> = lines.iter().filter(|line| shows(line, scene)).collect();
    let parts: Vec<&[&ScriptLine]> = match here.len() {
        0 => vec![&[]],
        _ => here.chunks(LINES_ACROSS).collect(),
    };
    let many = parts.len() > 1;
    let part = |(at, part): (usize, &&[&ScriptLine])| {
        let first = at * LINES_ACROSS + 1;
        SceneRecord {
            number: words::plain(&scene.number),
            heading: words::plain(&scene.heading),
            which: match many {
                false => String::new(),
                true => format!(
                    "lines {first} to {} of {}",
                    first + part.len() - 1,
                    here.len()
                ),
            },
            lines: part.iter().map(|line| head(line)).collect(),
            rows: rows(scene, part),
        }
    };
    parts.iter().enumerate().map(part).collect()
}

fn shows(line: &ScriptLine, scene: &LinedScene) -> bool {
    let mut names = scene.actions.iter().map(|action| &action.name);
    names.any(|name| line.shown.iter().any(|shown| &shown.action == name))
}

/// The slate over a line, its take below where it has one.
fn head(line: &ScriptLine) -> LineHead {
    let name = words::short(&words::plain(&line.name), NAME_MOST);
    let (setup, take) = match name.rsplit_once("-T") {
        Some((setup, take)) => (format!("{setup}-"), format!("T{take}")),
        None => (name, String::new()),
    };
    LineHead {
        setup,
        take,
        circled: line.circled,
        ng: line.ng,
    }
}

fn rows(scene: &LinedScene, lines: &[&ScriptLine]) -> Vec<RowRecord> {
    let mut rows = Vec::new();
    for (at, action) in scene.actions.iter().enumerate() {
        let drawn: Vec<Drawn> = lines.iter().map(|line| drawn(scene, at, line)).collect();
        let texts = together(&words::plain(&action.text));
        let last = texts.len() - 1;
        for (part, text) in texts.into_iter().enumerate() {
            rows.push(row(action, text, part, last, &drawn));
        }
    }
    rows
}

fn row(action: &LinedAction, text: String, part: usize, last: usize, drawn: &[Drawn]) -> RowRecord {
    let first = part == 0;
    let within = |line: &Drawn| Drawn {
        begins: line.begins && first,
        ends: line.ends && part == last,
        ..line.clone()
    };
    RowRecord {
        name: words::plain(&action.name),
        speaker: match (first, words::plain(&action.speaker)) {
            (_, speaker) if speaker.is_empty() => String::new(),
            (true, speaker) => speaker,
            (false, speaker) => format!("{speaker} (goes on)"),
        },
        text,
        last: part == last,
        lines: drawn.iter().map(within).collect(),
    }
}

/// How a line runs through the action at a place of the scene.
fn drawn(scene: &LinedScene, at: usize, line: &ScriptLine) -> Drawn {
    let on_camera = |at: usize| {
        let name = &scene.actions.get(at)?.name;
        let shown = line.shown.iter().find(|shown| &shown.action == name)?;
        Some(shown.on_camera)
    };
    let here = on_camera(at);
    let before = at.checked_sub(1).and_then(on_camera);
    // A line that comes again after a gap is led there from its slate too.
    let later = (at + 1..scene.actions.len()).any(|at| on_camera(at).is_some());
    Drawn {
        how: match here {
            Some(true) => "on",
            Some(false) => "off",
            None if later => "led",
            None => "none",
        },
        begins: here.is_some() && before.is_none(),
        ends: here.is_some() && on_camera(at + 1).is_none(),
        circled: line.circled,
        ng: line.ng,
    }
}

/// A long text in parts that stand together, parted between words.
fn together(text: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    for word in text.split(' ') {
        let full = parts
            .last()
            .is_some_and(|part| part.len() + word.len() > TOGETHER);
        match parts.last_mut() {
            Some(part) if !full || part.is_empty() => {
                if !part.is_empty() {
                    part.push(' ');
                }
                part.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

fn furniture(script: &LinedScript) -> FormRecord {
    let takes = script.lines.iter().filter(|line| line.shot).count();
    let planned = script.lines.len() - takes;
    let kind = match takes {
        0 => "as it is planned, a line a setup",
        _ => "as it was shot, a line a take",
    };
    let head = &script.head;
    let mut form = plan_form(head, FORM, kind, &[]);
    let actions = script.scenes.iter().map(|scene| scene.actions.len()).sum();
    form.figures = vec![
        Figure::counted(count_of(script.scenes.len()), "scene", "scenes"),
        Figure::counted(count_of(actions), "action", "actions"),
    ];
    if takes == 0 {
        form.figures
            .push(Figure::counted(count_of(planned), "setup", "setups"));
    } else {
        let circled = script.lines.iter().filter(|line| line.circled).count();
        let ng = script.lines.iter().filter(|line| line.ng).count();
        form.figures.extend([
            Figure::counted(count_of(takes), "take", "takes"),
            Figure::counted(count_of(circled), "circled", "circled"),
            Figure::counted(count_of(ng), "NG", "NG"),
            Figure::counted(count_of(planned), "setup not shot", "setups not shot"),
            Figure::counted(nothing_shows(script), "action not shot", "actions not shot"),
        ]);
    }
    form.foot = vec![
        "Straight: on camera. Wavy: off camera. Dotted: the line begins, or goes on, further down."
            .to_owned(),
    ];
    form.assumptions = vec![
        "A line runs through every action that a setup or a take shows. A slate without the number \
         of a take is a setup that is planned and not shot yet. An action without a straight line \
         is seen by nobody."
            .to_owned(),
    ];
    if script.lines.iter().any(|line| line.ng) {
        form.assumptions.push(
            "Thin and broken, with NG at the slate: a take that is no good. What only such takes \
             show counts as not shot."
                .to_owned(),
        );
    }
    form.got = "How to read it";
    let scenes = script.scenes.iter();
    let said = scenes.flat_map(|scene| {
        let actions = scene.actions.iter();
        let texts = actions.flat_map(|action| [&*action.speaker, &*action.text]);
        texts.chain([&*scene.heading])
    });
    say_missing(&mut form, head, said);
    form
}

/// How many actions no take that is good for something has on camera.
fn nothing_shows(script: &LinedScript) -> u32 {
    let seen: std::collections::BTreeSet<&str> = script
        .lines
        .iter()
        .filter(|line| line.shot && !line.ng)
        .flat_map(|line| &line.shown)
        .filter(|shown| shown.on_camera)
        .map(|shown| &*shown.action)
        .collect();
    let actions = script.scenes.iter().flat_map(|scene| &scene.actions);
    count_of(
        actions
            .filter(|action| !seen.contains(&*action.name))
            .count(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_text_is_parted_between_words_and_none_is_lost() {
        let text = "a word and another ".repeat(200);
        let plain = words::plain(&text);
        let parts = together(&plain);
        assert!(parts.len() > 2 && parts.iter().all(|part| part.len() <= TOGETHER));
        assert_eq!(parts.join(" "), plain);
        assert_eq!(together(""), [""]);
    }
}
