//! Sound on the command line: cues and machines.

use onestrand_production::{self as acts, Cancel};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Cue, CueSheets, Paper, Projector, ProjectorTimings, Tape};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn cue(command: Cue, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Cue::Import { dir, file, cut } => {
            let mut production = open(&dir, cancel, bar)?;
            let imported = acts::import_cues(&mut production, &file, cut.as_deref())?;
            let words = words::cues_imported(&imported);
            Ok(Answer::yes(&imported, words))
        }
        Cue::Export { dir, cut } => {
            let production = open(&dir, cancel, bar)?;
            let cut = acts::version_for_sound(&production, cut.as_deref())?;
            let csv = acts::cues_csv(&production, &cut)?;
            Ok(Answer::yes(&json!({ "cut": cut, "csv": csv }), csv))
        }
        Cue::List { dir, cut } => {
            let production = open(&dir, cancel, bar)?;
            let cut = acts::version_for_sound(&production, cut.as_deref())?;
            let cues = acts::cue_list(&production, &cut)?;
            let words = words::cues(&cut, &cues);
            Ok(Answer::yes(&cues, words))
        }
        Cue::Sheets(given) => sheets(given, cancel, bar),
        Cue::Captions { dir, cut, out } => {
            let production = open(&dir, cancel, bar)?;
            let cut = acts::version_for_sound(&production, cut.as_deref())?;
            let (found, file) = match &out {
                Some(out) => {
                    let found = acts::write_captions(&production, &cut, out)?;
                    (found, out.to_str())
                }
                None => (acts::captions(&production, &cut)?, None),
            };
            let words = words::captions(&found, file);
            Ok(Answer::yes(&found, words))
        }
    }
}

fn sheets(given: CueSheets, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let cut = acts::version_for_sound(&production, given.cut.as_deref())?;
    let timings = given
        .timings
        .as_deref()
        .map(acts::timings_form)
        .transpose()?;
    let asked = acts::DubSheetsAsked {
        letter: given.paper == Paper::Letter,
        timings,
        tape: given.tape,
    };
    let (to, only) = ((cut.as_str(), given.out.as_path()), given.only.as_deref());
    let printed = acts::dub_sheets(&production, to, only, &asked, cancel, bar)?;
    let words = words::dub_sheets(&printed);
    Ok(Answer::yes(&printed, words))
}

pub(crate) fn projector(command: Projector) -> Outcome {
    let Projector::Fit(ProjectorTimings {
        file,
        predict,
        creep,
    }) = command;
    let found = acts::projector_of_timings(&file, creep, &predict)?;
    let words = words::projector(&found, creep);
    Ok(Answer::yes(&found, words))
}

pub(crate) fn tape(command: Tape) -> Outcome {
    let Tape::Fit { file, predict } = command;
    let found = acts::tape_of_timings(&file, &predict)?;
    let words = words::tape(&found);
    Ok(Answer::yes(&found, words))
}
