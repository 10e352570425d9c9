//! The archive box on the command line.

use std::path::Path;

use onestrand_production::documents::{AccessionWords, StatementWords};
use onestrand_production::{self as acts, BoxAsked, Cancel, FilmChange, SayAccession};

use crate::answer::Answer;
use crate::arguments::{ArchiveBox, BoxWork, Say};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{keep, unfit};
use crate::words;

pub(crate) fn archive_box(given: ArchiveBox, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match given.other {
        Some(other) => box_work(other, cancel, bar),
        None => make(given, cancel, bar),
    }
}

fn make(given: ArchiveBox, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let (Some(dir), Some(out)) = (given.dir, given.out) else {
        return Err(unfit(
            "no production or no box is named".to_owned(),
            "onestrand box DIR --out BOX",
        ));
    };
    let asked = BoxAsked {
        scans: !given.without_scans,
        media: given.media,
        mixes: match (given.without_mix, given.mix.is_empty()) {
            (true, _) => Some(Vec::new()),
            (false, true) => None,
            (false, false) => Some(given.mix),
        },
        finishes: given.finish,
        sheets: !given.without_sheets,
    };
    let production = open(&dir, cancel, bar)?;
    let made = acts::make_box(&production, &asked, &out, cancel, bar)?;
    let words = acts::box_words(&made);
    Ok(Answer::yes(&made, words))
}

fn box_work(work: BoxWork, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match work {
        BoxWork::Check { place, media } => {
            let found = acts::check_box(&place, &media, cancel, bar)?;
            let words = acts::box_checked_words(&found);
            let is_yes = found.ok;
            Ok(Answer {
                is_yes,
                ..Answer::yes(&found, words)
            })
        }
        BoxWork::Open { place, out } => {
            let taken = acts::open_box(&place, &out, cancel, bar)?;
            let words = acts::unboxed_words(&taken);
            Ok(Answer::yes(&taken, words))
        }
        BoxWork::Facts { dir } => {
            let production = open(&dir, cancel, bar)?;
            facts(&production)
        }
        BoxWork::Say(said) => {
            let Say {
                dir,
                what,
                value,
                known,
                source,
            } = said;
            let statement = StatementWords {
                what,
                value,
                known,
                source,
            };
            changed(&dir, cancel, bar, |words| {
                words.statements.push(statement);
                Ok(())
            })
        }
        BoxWork::Unsay { dir, number } => changed(&dir, cancel, bar, |words| {
            if number == 0 || number > words.statements.len() {
                return Err(unfit(
                    format!("there is no statement {number}"),
                    "look at `onestrand box facts DIR`: they are numbered there",
                ));
            }
            words.statements.remove(number - 1);
            Ok(())
        }),
        BoxWork::Keep {
            dir,
            number,
            keeper,
            kept,
            look_again,
        } => changed(&dir, cancel, bar, |words| {
            for (said, place) in [
                (number, &mut words.number),
                (keeper, &mut words.keeper),
                (kept, &mut words.kept),
                (look_again, &mut words.look_again),
            ] {
                if let Some(said) = said {
                    *place = said;
                }
            }
            Ok(())
        }),
    }
}

fn facts(production: &acts::Production) -> Outcome {
    let found = acts::accession_document(production)?;
    let words = words::accession(&found);
    Ok(Answer::yes(&found, words))
}

fn changed(
    dir: &Path,
    cancel: &Cancel,
    bar: &mut Bar,
    change: impl FnOnce(&mut AccessionWords) -> Result<(), acts::ProductionError>,
) -> Outcome {
    let mut production = open(dir, cancel, bar)?;
    let mut words = acts::accession_document(&production)?.words;
    change(&mut words)?;
    keep(
        &mut production,
        &FilmChange::SayAccession(SayAccession { words }),
    )?;
    facts(&production)
}
