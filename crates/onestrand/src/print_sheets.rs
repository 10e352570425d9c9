//! Printing forms: those of a version, and those about rolls.

use onestrand_production::{self as acts, Cancel, ProductionError};

use crate::answer::Answer;
use crate::arguments::{
    BenchOnPaper, BenchSide, FilmSide, FormName, OutermostEnd, Paper, PrintSheets,
};
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::words;

/// Prints what was asked for: the sheets of the version that is named, or those
/// about rolls where none is.
pub(crate) fn print(given: PrintSheets, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    if let Some(wanted) = of_rolls(given.cut.as_deref(), given.only) {
        return roll_sheets(&given, &wanted, cancel, bar);
    }
    let Some(cut) = &given.cut else {
        return Err(ProductionError::Unfit {
            message: "this sheet is about a version, and none was named".to_owned(),
            hint: "name it, for example with --cut v1".to_owned(),
        });
    };
    if given.only == Some(FormName::ChangeList) {
        return change_list(&given, cut, cancel, bar);
    }
    if given.csv {
        return as_csv(&given, cut, cancel, bar);
    }
    let options = acts::SheetOptions {
        only: given.only.and_then(sheet_name),
        letter: given.paper == Paper::Letter,
        join: given.join.map(join_kind),
        bench: bench(&given.bench),
    };
    let production = open(&given.dir, cancel, bar)?;
    let printed = acts::sheets(&production, cut, &given.out, &options, cancel, bar)?;
    let words = words::sheets(&printed);
    Ok(Answer::yes(&printed, words))
}

/// A sheet of the version in rows; the cutting sheet where none is named.
fn as_csv(given: &PrintSheets, cut: &str, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let sheet = given.only.and_then(sheet_name);
    let sheet = sheet.unwrap_or(acts::SheetName::CuttingSheet);
    let bench = bench(&given.bench);
    let how = (given.join.map(join_kind), &bench);
    let production = open(&given.dir, cancel, bar)?;
    let written = acts::write_cut_table(&production, cut, sheet, &given.out, how)?;
    let words = words::sheets(&written);
    Ok(Answer::yes(&written, words))
}

/// The changes from the version that is joined now to the one that is named.
fn change_list(given: &PrintSheets, cut: &str, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let Some(from) = &given.from else {
        return Err(ProductionError::Unfit {
            message: "a change list leads from one version to another, and the first was not named"
                .to_owned(),
            hint: format!("name it, for example with --from v1 --cut {cut}"),
        });
    };
    let production = open(&given.dir, cancel, bar)?;
    let between = (from.as_str(), cut);
    let form = sheet_form(given);
    let printed = acts::change_list(&production, between, &given.out, form, cancel, bar)?;
    let words = words::sheets(&printed);
    Ok(Answer::yes(&printed, words))
}

const fn sheet_form(given: &PrintSheets) -> acts::SheetForm {
    match (given.csv, given.paper) {
        (true, _) => acts::SheetForm::Csv,
        (false, Paper::A4) => acts::SheetForm::A4,
        (false, Paper::Letter) => acts::SheetForm::Letter,
    }
}

fn roll_sheets(
    given: &PrintSheets,
    wanted: &[acts::RollSheet],
    cancel: &Cancel,
    bar: &mut Bar,
) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let asked = acts::PrintRolls {
        wanted,
        roll: given.roll.as_deref(),
        out: &given.out,
        form: sheet_form(given),
    };
    let printed = acts::roll_sheets(&production, &asked, cancel, bar)?;
    let words = words::sheets(&printed);
    Ok(Answer::yes(&printed, words))
}

/// How the bench is, as far as it was said.
fn bench(given: &BenchOnPaper) -> acts::BenchPaper {
    acts::BenchPaper {
        pins: given.pins,
        tails: given.tails,
        to_and_fro: given.to_and_fro,
        emulsion_up: given.up.map(|side| side == FilmSide::Emulsion),
        head_left: given.head.map(|side| side == BenchSide::Left),
        longest_count: given.longest_count,
        lies: match given.lies {
            None => acts::ReelLies::NotSaid,
            Some(OutermostEnd::Heads) => acts::ReelLies::HeadsOut,
            Some(OutermostEnd::Tails) => acts::ReelLies::TailsOut,
        },
    }
}

/// The sheet of a version that is meant, if it is one.
const fn sheet_name(word: FormName) -> Option<acts::SheetName> {
    match word {
        FormName::CuttingSheet => Some(acts::SheetName::CuttingSheet),
        FormName::PullList => Some(acts::SheetName::PullList),
        FormName::LinedSheet => Some(acts::SheetName::LinedSheet),
        FormName::WorkOrder => Some(acts::SheetName::WorkOrder),
        FormName::FrameCards => Some(acts::SheetName::FrameCards),
        FormName::PinLabels => Some(acts::SheetName::PinLabels),
        FormName::OutsList => Some(acts::SheetName::OutsList),
        FormName::ReelLabels => Some(acts::SheetName::ReelLabels),
        FormName::JoinsInspection => Some(acts::SheetName::JoinsInspection),
        FormName::ChangeList
        | FormName::LogSheet
        | FormName::TrimLabels
        | FormName::InspectionSheet
        | FormName::ScanSheet
        | FormName::HandlingLedger => None,
    }
}

/// The sheets about rolls that are meant: one by its name, all where neither a
/// version nor a sheet is named, and none otherwise.
fn of_rolls(cut: Option<&str>, only: Option<FormName>) -> Option<Vec<acts::RollSheet>> {
    match (only, cut) {
        (Some(FormName::LogSheet), _) => Some(vec![acts::RollSheet::Log]),
        (Some(FormName::TrimLabels), _) => Some(vec![acts::RollSheet::TrimLabels]),
        (Some(FormName::InspectionSheet), _) => Some(vec![acts::RollSheet::Inspection]),
        (Some(FormName::ScanSheet), _) => Some(vec![acts::RollSheet::Scan]),
        (Some(FormName::HandlingLedger), _) => Some(vec![acts::RollSheet::Handling]),
        (None, None) => Some(acts::RollSheet::ALL.to_vec()),
        // All the others are about a version.
        (Some(_), _) | (None, Some(_)) => None,
    }
}
