//! The film cut in the camera as a form: one step after the other, to be ticked.

use onestrand_film::Frames;
use serde::Serialize;

use super::furniture::{count_of, film_words, plan_form, say_missing};
use crate::forms::record::{Figure, FormRecord};
use crate::plan::{InCameraSheet, InCameraStep, PlanHead};
use crate::words;

/// What the form calls itself.
pub(super) const FORM: &str = "Cut in the camera";

#[derive(Serialize)]
pub(super) struct InCameraRecord {
    pub(super) form: FormRecord,
    steps: Vec<StepRecord>,
    problems: Vec<String>,
}

#[derive(Serialize)]
struct StepRecord {
    /// `load`, `take` or `wind_back`.
    act: &'static str,
    /// What is done: `Load roll 1`, the setup, `Cover the lens, wind back 48 frames`.
    what: String,
    /// What happens in the setup.
    action: String,
    from: CounterRecord,
    to: Option<CounterRecord>,
    /// What the light does, a line each.
    light: Vec<String>,
}

/// The counter in feet and frames, and in frames.
#[derive(Serialize)]
struct CounterRecord {
    feet: String,
    frames: String,
}

fn counter(head: &PlanHead, at: Frames) -> CounterRecord {
    CounterRecord {
        feet: short(head, at),
        frames: words::count(at.count()),
    }
}

/// `12+34`.
fn short(head: &PlanHead, at: Frames) -> String {
    let (feet, frames) = {
        let each = head.gauge.spec().frames_per_foot;
        (at.count() / each, at.count() % each)
    };
    format!("{feet}+{frames}")
}

pub(super) fn record(sheet: &InCameraSheet) -> InCameraRecord {
    let head = &sheet.head;
    let problems = sheet.problems.iter();
    InCameraRecord {
        form: furniture(sheet),
        steps: sheet.steps.iter().map(|one| step(head, one)).collect(),
        problems: problems.map(|said| words::plain(said)).collect(),
    }
}

fn step(head: &PlanHead, step: &InCameraStep) -> StepRecord {
    let nothing = StepRecord {
        act: "load",
        what: String::new(),
        action: String::new(),
        from: counter(head, Frames::ZERO),
        to: None,
        light: Vec::new(),
    };
    match step {
        InCameraStep::Load { roll } => StepRecord {
            what: format!("Load roll {roll}, counter to 0"),
            ..nothing
        },
        InCameraStep::WindBack { from, to } => StepRecord {
            act: "wind_back",
            what: format!("Cover the lens, wind back {}", frames_of(*from, *to)),
            from: counter(head, *from),
            to: Some(counter(head, *to)),
            ..nothing
        },
        InCameraStep::Take {
            setup,
            action,
            from,
            to,
            light_up,
            light_down,
        } => StepRecord {
            act: "take",
            what: words::plain(setup),
            action: words::plain(action),
            from: counter(head, *from),
            to: Some(counter(head, *to)),
            light: light(head, (*from, *to), *light_up, *light_down),
        },
    }
}

fn frames_of(from: Frames, to: Frames) -> String {
    words::counted(from.count().abs_diff(to.count()), "frame", "frames")
}

/// `up over 48 frames, to 2+36`, `down over 48 frames, from 9+0`.
fn light(head: &PlanHead, (from, to): (Frames, Frames), up: Frames, down: Frames) -> Vec<String> {
    let many = |frames: Frames| words::counted(frames.count(), "frame", "frames");
    let at = |count: u32| short(head, Frames::new(count).unwrap_or(Frames::MAX));
    let mut said = Vec::new();
    if up > Frames::ZERO {
        let full = at(from.count().saturating_add(up.count()));
        said.push(format!("up over {}, full at {full}", many(up)));
    }
    if down > Frames::ZERO {
        let begins = at(to.count().saturating_sub(down.count()));
        said.push(format!("down over {}, from {begins}", many(down)));
    }
    said
}

fn furniture(sheet: &InCameraSheet) -> FormRecord {
    let head = &sheet.head;
    let mut form = plan_form(head, FORM, "in the order of the screen", &[]);
    let of = |is: fn(&&InCameraStep) -> bool| count_of(sheet.steps.iter().filter(is).count());
    form.figures = vec![
        Figure::counted(
            of(|one| matches!(one, InCameraStep::Load { .. })),
            "roll",
            "rolls",
        ),
        Figure::counted(
            of(|one| matches!(one, InCameraStep::Take { .. })),
            "setup",
            "setups",
        ),
        Figure::counted(
            of(|one| matches!(one, InCameraStep::WindBack { .. })),
            "dissolve",
            "dissolves",
        ),
        Figure::counted(
            sheet.frames.count(),
            "frame on the screen",
            "frames on the screen",
        ),
    ];
    form.foot =
        vec!["Tick a step when it is done. Cover the lens before the film goes back.".to_owned()];
    form.totals = vec![film_words(head, sheet.frames)];
    form.assumptions = vec![
        "Each setup is taken once, in the order of the script. The counter is 0 at the head of \
         the film that can be used; feet+frames, and frames."
            .to_owned(),
        format!(
            "A dissolve: the light goes down to nothing over the last frames, the film is wound \
             back by as many with the lens covered, and the light comes up over the first frames \
             of the next setup. {} are reckoned as the most the camera winds back: what it does \
             is in its own book, and is tried on a test first.",
            words::counted(sheet.wind_back.count(), "frame", "frames")
        ),
    ];
    form.got = "How to do it";
    let takes = sheet.steps.iter().filter_map(|one| match one {
        InCameraStep::Take { action, .. } => Some(&**action),
        _ => None,
    });
    let problems = sheet.problems.iter().map(String::as_str);
    say_missing(&mut form, head, takes.chain(problems));
    form
}
