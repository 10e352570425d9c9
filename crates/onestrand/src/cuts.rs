//! Commands about the versions of a film.

use onestrand_production::{self as acts, BenchOptions, Cancel, DescribeCut, FilmChange, NewCut};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Bench, Cut, CutDescribe, CutNew, Exchange, word};
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::in_the_hand::keep;
use crate::words;

pub(crate) fn cut(command: Cut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Cut::New(given) => new(given, cancel, bar),
        Cut::Describe(given) => describe(given, cancel, bar),
        Cut::Compare { dir, from, to } => {
            let production = open(&dir, cancel, bar)?;
            let found = acts::compare_cuts(&production, &from, &to)?;
            let words = words::compared(&found);
            Ok(Answer::yes(&found, words))
        }
        Cut::Import {
            dir,
            file,
            name,
            join,
        } => {
            let mut production = open(&dir, cancel, bar)?;
            let done = acts::import_version(&mut production, &file, &name, join.map(join_kind))?;
            let words = words::cut_imported(&done);
            Ok(Answer::yes(&done, words))
        }
        Cut::Export { dir, cut } => {
            let production = open(&dir, cancel, bar)?;
            let csv = acts::export_cut(&production, &cut)?;
            Ok(Answer::yes(&json!({ "csv": csv }), csv))
        }
        Cut::List { dir } => {
            let production = open(&dir, cancel, bar)?;
            let cuts = acts::list_cuts(&production)?;
            let words = words::cuts(&cuts);
            Ok(Answer::yes(&json!({ "cuts": cuts }), words))
        }
    }
}

/// The work order. That the pins do not suffice is a no, told with how many would.
pub(crate) fn bench(given: &Bench, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let options = BenchOptions {
        join: given.join.map(join_kind),
        pins: given.pins,
        tails: given.tails,
        to_and_fro: given.to_and_fro,
    };
    let order = acts::bench_order(&production, &given.cut, options)?;
    let words = words::bench(&order, production.meta());
    let is_yes = order.feasible;
    Ok(Answer {
        is_yes,
        ..Answer::yes(&order, words)
    })
}

/// Writes a version for other programs.
pub(crate) fn exchange(given: &Exchange, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let done = acts::write_exchange(&production, &given.cut, &given.otio)?;
    let words = words::exchanged(&done);
    Ok(Answer::yes(&done, words))
}

fn new(given: CutNew, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let change = FilmChange::NewCut(NewCut {
        cut: given.name,
        from: given.from,
        assembled: given.assembled,
        usual_join: given.join.map(word),
        note: given.note,
    });
    kept(&mut production, &change)
}

fn describe(given: CutDescribe, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let change = FilmChange::DescribeCut(DescribeCut {
        cut: given.cut,
        name: given.name,
        note: given.note,
    });
    kept(&mut production, &change)
}

/// Carries a change of the versions out, and tells all versions as they stand then.
fn kept(production: &mut acts::Production, change: &FilmChange) -> Outcome {
    let done = keep(production, change)?;
    let cuts = acts::list_cuts(production)?;
    let words = format!("{done}.\n{}", words::cuts(&cuts));
    Ok(Answer::yes(&json!({ "done": done, "cuts": cuts }), words))
}
