//! Prints the sheets of the plan of "The Ten-Past Boat" into a folder, to be looked at:
//!
//! `cargo run -p onestrand-sheets --example plan_samples -- FOLDER`

#[path = "../tests/it/boat_plan.rs"]
mod boat_plan;

use std::error::Error;
use std::fs;
use std::path::PathBuf;

use onestrand_sheets::{
    Paper, PlanPaper, PlanSheet, Printed, SheetError, print_camera_report, print_floor_plans,
    print_lined_script, print_location_folder, print_plan, print_shooting_script, print_shot_list,
    print_sound_report, print_stock_sheet, print_wild_sounds,
};

fn one(sheet: PlanSheet) -> Result<Printed, SheetError> {
    print_plan(&PlanPaper::Sheets(vec![sheet]))
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(
        std::env::args()
            .nth(1)
            .ok_or("which folder shall they go to?")?,
    );
    fs::create_dir_all(&folder)?;
    for (word, paper) in [("a4", Paper::A4), ("letter", Paper::Letter)] {
        let sheets: [(&str, Result<Printed, SheetError>); 12] = [
            ("script", print_shooting_script(&boat_plan::script(paper))),
            (
                "lined-planned",
                print_lined_script(&boat_plan::lined(paper, false)),
            ),
            (
                "lined-shot",
                print_lined_script(&boat_plan::lined(paper, true)),
            ),
            ("shots", print_shot_list(&boat_plan::shots(paper))),
            (
                "camera",
                print_camera_report(&boat_plan::camera_report(paper)),
            ),
            ("sound", print_sound_report(&boat_plan::sound_report(paper))),
            ("wild", print_wild_sounds(&boat_plan::wild_sounds(paper))),
            ("stock", print_stock_sheet(&boat_plan::stock(paper))),
            ("floor", print_floor_plans(&[boat_plan::floor(paper)])),
            ("folder", print_location_folder(&boat_plan::folder(paper))),
            ("visits", one(PlanSheet::Visits(boat_plan::visits(paper)))),
            (
                "in-camera",
                one(PlanSheet::InCamera(boat_plan::in_camera(paper))),
            ),
        ];
        for (name, printed) in sheets {
            let printed = printed.map_err(|error| format!("{name}: {error}"))?;
            fs::write(folder.join(format!("{name}-{word}.pdf")), printed.pdf)?;
        }
    }
    Ok(())
}
