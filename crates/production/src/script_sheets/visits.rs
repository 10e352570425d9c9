//! The visits to the places of the scenes that are shot, with their photographs.

use onestrand_sheets::{Visit, VisitsSheet};

use super::ScriptSheetsToPrint;
use crate::documents::RecceWords;
use crate::script::photograph_in;

/// Whether there is a visit to one of the places.
pub(super) fn are_there(gathered: &ScriptSheetsToPrint) -> bool {
    here(gathered).next().is_some()
}

fn here(gathered: &ScriptSheetsToPrint) -> impl Iterator<Item = &RecceWords> {
    let visits = gathered.script.recces.iter().map(|one| &one.recce);
    visits.filter(|one| gathered.is_about(&one.scenes))
}

pub(super) fn sheet(gathered: &ScriptSheetsToPrint) -> VisitsSheet {
    VisitsSheet {
        head: gathered.head.clone(),
        visits: here(gathered).map(|one| visit(gathered, one)).collect(),
    }
}

fn visit(gathered: &ScriptSheetsToPrint, recce: &RecceWords) -> Visit {
    let read = match &*recce.photograph {
        "" => Ok(None),
        name => photograph_in(&gathered.dir, name).map(Some),
    };
    // Words are printed without their photograph rather than not at all.
    let (photograph, lost) = match read {
        Ok(photograph) => (photograph, String::new()),
        Err(problem) => (None, format!("Without its photograph: {problem}.")),
    };
    Visit {
        place: recce.place.clone(),
        scenes: recce.scenes.clone(),
        words: recce.words.clone(),
        photograph,
        lost,
    }
}
