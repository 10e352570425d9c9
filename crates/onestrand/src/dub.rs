//! Sound on the command line: cues and machines.

use onestrand_production::{self as acts, Cancel};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Cue, Projector, ProjectorTimings, Tape};
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
    }
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
