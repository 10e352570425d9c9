//! The programme of a shelf on the command line.

use std::path::Path;

use onestrand_production::documents::{ProgrammeDocument, ProgrammeForm, ProgrammeRow};
use onestrand_production::{
    self as acts, Cancel, FilmChange, PrintedSheet, Production, ProductionError, ShownFilm,
};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Paper, Programme};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{keep, unfit};

pub(crate) fn programme(given: Programme, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let form = form(&given)?;
    let shelf = &given.shelf;
    let mut find = |row: &ProgrammeRow| shown(shelf, row);
    let plan = acts::plan_programme(&form, &mut find)?;
    if given.keep || given.from.is_some() {
        acts::keep_programme(shelf, &form)?;
    }
    let letter = given.paper == Paper::Letter;
    if let Some(file) = &given.sheet {
        write(file, &acts::print_programme(&form, &plan, letter)?)?;
    }
    if let Some(file) = &given.labels {
        write(file, &acts::print_programme_labels(&form, &plan, letter)?)?;
    }
    let mut written = Vec::new();
    if let Some(on) = &given.shown {
        let when = (on.as_str(), given.by.as_str());
        for run in acts::handling_of_showing(&form, &plan, when, &mut find)? {
            let mut production = open(&shelf.join(&run.film), cancel, bar)?;
            let said = keep(&mut production, &FilmChange::HandleRoll(run.handling))?;
            written.push(format!("{}: {said}", run.film));
        }
    }
    let is_yes = plan.rows.iter().all(|row| row.problem.is_empty());
    let mut words = match given.csv {
        true => acts::programme_table(&plan).trim_end().to_owned(),
        false => told(&plan),
    };
    for line in &written {
        words.push_str(&format!("\nwritten down: {line}"));
    }
    let document = json!({ "form": form, "programme": plan, "written": written });
    Ok(Answer {
        is_yes,
        ..Answer::yes(&document, words)
    })
}

/// What is kept, and what is said otherwise now.
fn form(given: &Programme) -> Result<ProgrammeForm, ProductionError> {
    let mut form = acts::kept_programme(&given.shelf)?.form;
    if let Some(table) = &given.from {
        form.rows = acts::programme_of_table(table)?;
    }
    for (said, place) in [
        (&given.title, &mut form.title),
        (&given.place, &mut form.place),
        (&given.day, &mut form.day),
        (&given.machine, &mut form.machine),
        (&given.lens, &mut form.lens_mm),
        (&given.screen, &mut form.screen),
    ] {
        if let Some(said) = said {
            place.clone_from(said);
        }
    }
    for (said, place) in [
        (given.reel, &mut form.reel_feet),
        (given.leader, &mut form.leader_feet),
        (given.spacing, &mut form.spacing_feet),
        (given.change, &mut form.changeover_seconds),
    ] {
        *place = said.unwrap_or(*place);
    }
    if form.rows.is_empty() {
        return Err(unfit(
            "the programme has no rows yet".to_owned(),
            "write them into a table and name it with --from; --help says its columns",
        ));
    }
    Ok(form)
}

fn shown(shelf: &Path, row: &ProgrammeRow) -> Result<ShownFilm, ProductionError> {
    let is_plain = Path::new(&row.film)
        .file_name()
        .is_some_and(|name| name == row.film.as_str());
    let dir = shelf.join(&row.film);
    if !is_plain || !Production::is_here(&dir) {
        return Err(unfit(
            format!("there is no film {} on the shelf", row.film),
            "name the folder of the film as it is called on the shelf",
        ));
    }
    acts::shown_film(&Production::open(&dir)?, &row.cut)
}

fn write(path: &Path, sheet: &PrintedSheet) -> Result<(), ProductionError> {
    std::fs::write(path, &sheet.pdf).map_err(|source| ProductionError::File {
        what: "write the sheet",
        source,
        path: path.to_owned(),
    })
}

fn told(plan: &ProgrammeDocument) -> String {
    let mut told = Vec::new();
    for row in &plan.rows {
        let reel = match (row.reel, row.before.as_str()) {
            (Some(reel), "") => format!("reel {reel}"),
            (Some(reel), before) => format!("reel {reel}, {before}"),
            (None, _) => String::new(),
        };
        let how = match row.gauge.as_str() {
            "" => String::new(),
            gauge => format!("  {gauge}, {} f/s", row.speed),
        };
        told.push(format!(
            "{:>8}  {:>7}  {}{how}  {reel}",
            row.begins, row.clock, row.title
        ));
        if !row.problem.is_empty() {
            told.push(format!("          cannot be shown so: {}", row.problem));
        }
    }
    for reel in &plan.reels {
        told.push(format!(
            "reel {}: {} ft {} fr with leaders, {} of film",
            reel.reel, reel.footage.feet, reel.footage.frames, reel.clock
        ));
    }
    for throw in &plan.throws {
        told.push(format!(
            "{}: lens {} m from the screen",
            throw.gauge, throw.throw_m
        ));
    }
    told.push(format!("in all {}, {} changes", plan.clock, plan.changes));
    told.extend(plan.remarks.iter().cloned());
    told.join("\n")
}
