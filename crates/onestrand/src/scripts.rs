//! The shooting script and the plan, on the command line.

use onestrand_production::{self as acts, Cancel, PlanAsked};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::{Paper, Plan, Script};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn script(given: Script, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match given {
        Script::Import { dir, file } => {
            let mut production = open(&dir, cancel, bar)?;
            let done = acts::import_script(&mut production, &file)?;
            let words = words::script_imported(&done);
            Ok(Answer::yes(&done, words))
        }
        Script::Export { dir, wild_sounds } => {
            let production = open(&dir, cancel, bar)?;
            let csv = match wild_sounds {
                true => acts::export_wild_sounds(&production)?,
                false => acts::export_script(&production)?,
            };
            Ok(Answer::yes(&json!({ "csv": csv }), csv))
        }
        Script::Sheets(given) => {
            let production = open(&given.dir, cancel, bar)?;
            let asked = acts::ScriptSheetsAsked {
                letter: given.paper == Paper::Letter,
                place: given.place,
                day: given.day,
                scenes: given.scenes,
            };
            let only = given.only.as_deref();
            let printed = acts::script_sheets(&production, &given.out, only, &asked, cancel, bar)?;
            let words = words::sheets(&printed);
            Ok(Answer::yes(&printed, words))
        }
        Script::Show { dir } => {
            let production = open(&dir, cancel, bar)?;
            let script = acts::script_document(&production)?;
            let words = words::script(&script);
            Ok(Answer::yes(&script, words))
        }
    }
}

pub(crate) fn plan(given: Plan, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let asked = PlanAsked {
        load: given.load,
        run_up: given.runup,
        kept_back: given.kept_back,
        one_wind: given.one_wind,
        cut: given.cut,
        one_more: given.one_more,
        in_camera: given.in_camera,
        wind_back: given.wind_back,
    };
    let plan = acts::plan_film(&production, &asked, cancel, bar)?;
    let words = words::plan(&plan, production.meta());
    Ok(Answer::yes(&plan, words))
}
