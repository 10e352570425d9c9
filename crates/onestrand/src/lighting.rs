//! The light of the shots on the command line.

use std::path::Path;

use onestrand_production::documents::{FrameAsked, GradedShot, LightAsked, LightSolved};
use onestrand_production::{
    self as acts, Cancel, FilmChange, LightChange, LightChangeKind, Production, ProductionError,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Light, LightCdl, LightSet, LightSolve, Paper};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{keep, take_named, unfit};
use crate::words;

pub(crate) fn light(command: Light, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Light::List { dir } => {
            let production = open(&dir, cancel, bar)?;
            let card = acts::grading_card(&production)?;
            Ok(Answer::yes(&card, words::grading_card(&card)))
        }
        Light::Measure { dir, frame, at } => {
            let production = open(&dir, cancel, bar)?;
            let patch = acts::patch_typed("", &frame, &at)?;
            let found = acts::measure_light(&production, &patch)?;
            Ok(Answer::yes(&found, words::light_measured(&found)))
        }
        Light::Solve(given) => solve(given, cancel, bar),
        Light::Set(given) => set(given, cancel, bar),
        Light::Strike { dir, shot } => strike(&dir, &shot, cancel, bar),
        Light::Cdl(given) => cdl(&given, cancel, bar),
        Light::Sheet {
            dir,
            cut,
            out,
            paper,
        } => {
            let production = open(&dir, cancel, bar)?;
            let letter = paper == Paper::Letter;
            let printed = acts::print_grading(&production, &cut, &out, letter, cancel, bar)?;
            let files = printed.files.iter().map(|file| file.path.as_str());
            let words = files.collect::<Vec<_>>().join("\n");
            Ok(Answer::yes(&printed, words))
        }
    }
}

fn solve(given: LightSolve, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let asked = LightAsked {
        patches: acts::read_patches(&given.file)?,
        held: given.held.map(|name| FrameAsked {
            roll: name.roll.to_string(),
            frame: name.frame.index(),
        }),
        cut: given.cut,
    };
    let solved = acts::solve_light(&production, &asked)?;
    let mut words = words::light_solved(&solved);
    if given.keep {
        let shots = shots_of(&solved, &given.reason);
        if shots.is_empty() {
            return Err(unfit(
                "no shot got points".to_owned(),
                "drag a thing that several shots show, then solve again",
            ));
        }
        let patches = asked.patches;
        words.push_str(&kept(
            &mut production,
            LightChangeKind::Keep { shots, patches },
        )?);
    }
    Ok(Answer::yes(&solved, words))
}

/// The shots that were solved, with whole points.
fn shots_of(solved: &LightSolved, reason: &str) -> Vec<GradedShot> {
    let one = |shot: &onestrand_production::documents::ShotSolved| {
        let [red, green, blue] = shot.points?;
        Some(GradedShot {
            roll: shot.roll.clone(),
            first: shot.first,
            thrown: shot.thrown,
            red,
            green,
            blue,
            reason: reason.to_owned(),
        })
    };
    solved.shots.iter().filter_map(one).collect()
}

fn kept(production: &mut Production, to: LightChangeKind) -> Result<String, ProductionError> {
    let change = FilmChange::Light(Box::new(LightChange { to }));
    Ok(format!("\nkept: {}", keep(production, &change)?))
}

fn set(given: LightSet, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let [red, green, blue] = match given.points.as_slice() {
        [all] => [*all; 3],
        [red, green, blue] => [*red, *green, *blue],
        _ => {
            return Err(unfit(
                "a light is one number or three".to_owned(),
                "write --points 5,5,7: red, green, blue",
            ));
        }
    };
    let (roll, frame) = take_named(&production, &given.shot)?;
    let (first, thrown) = acts::shot_holding(&production, given.cut.as_deref(), &roll, frame)?;
    let shots = vec![GradedShot {
        roll,
        first,
        thrown,
        red,
        green,
        blue,
        reason: given.reason,
    }];
    let patches = Vec::new();
    let words = kept(&mut production, LightChangeKind::Keep { shots, patches })?;
    let card = acts::grading_card(&production)?;
    Ok(Answer::yes(&card, words.trim().to_owned()))
}

fn strike(dir: &Path, shot: &str, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(dir, cancel, bar)?;
    let (roll, frame) = take_named(&production, shot)?;
    let card = acts::grading_card(&production)?;
    let Some(found) = acts::light_of_frame(&card, &roll, frame).cloned() else {
        return Err(unfit(
            format!("{roll}\u{b7}{frame} has no light of its own"),
            "onestrand light list says which shots have",
        ));
    };
    let to = LightChangeKind::Strike {
        roll: found.roll,
        first: found.first,
        thrown: found.thrown,
    };
    let words = kept(&mut production, to)?;
    let card = acts::grading_card(&production)?;
    Ok(Answer::yes(&card, words.trim().to_owned()))
}

fn cdl(given: &LightCdl, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let file = |what, path: &Path| {
        let path = path.to_owned();
        move |source| ProductionError::File { what, source, path }
    };
    if let Some(path) = &given.from {
        let text = std::fs::read_to_string(path).map_err(file("read", path))?;
        let (shots, left) = acts::points_of_decision_list(&text)?;
        let mut words: Vec<String> = left.clone();
        let document = json!({ "shots": shots, "problems": left });
        words.insert(0, format!("{} shots with points", shots.len()));
        if given.keep && !shots.is_empty() {
            let patches = Vec::new();
            words.push(kept(
                &mut production,
                LightChangeKind::Keep { shots, patches },
            )?);
        }
        return Ok(Answer::yes(&document, words.join("\n")));
    }
    let (text, count) = acts::decision_list(&production)?;
    let Some(path) = &given.out else {
        return Ok(Answer::yes(
            &json!({ "corrections": count, "ccc": text }),
            text,
        ));
    };
    std::fs::write(path, &text).map_err(file("write", path))?;
    let words = format!("{count} corrections in {}", path.display());
    let document = json!({ "corrections": count, "path": path.display().to_string() });
    Ok(Answer::yes(&document, words))
}
