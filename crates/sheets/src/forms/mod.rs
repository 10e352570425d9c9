//! The forms: models turned into records, records handed to their templates.

mod changes;
mod cutting;
mod dub;
mod film_drawn;
mod frame_cards;
mod grading;
mod handling_ledger;
mod inspection;
mod joins_inspection;
mod labels;
mod lined;
mod log;
mod outs;
mod part_sheet;
mod pin_labels;
mod plan;
mod proof;
mod pull;
mod record;
mod reel_labels;
mod refusal;
mod roster;
mod ruler;
mod scan;
mod standing;
mod titles;
mod way;
mod work_order;

use onestrand_typeset::{Job, Printed, Typeset, print, typeset};
use serde::Serialize;

use crate::SheetError;
use crate::picture::{self, Placing};

pub use changes::print_change_list;
pub use cutting::{cutting_sheet, print_cutting_sheet};
pub use dub::{
    print_dubbing_chart, print_effects_list, print_hand_score, print_mix_log, print_music_list,
    print_tape_table,
};
pub use frame_cards::print_frame_cards;
pub use grading::print_grading_card;
pub use handling_ledger::print_handling_ledger;
pub use inspection::print_inspection_sheet;
pub use joins_inspection::print_joins_inspection;
pub use labels::print_trim_labels;
pub use lined::print_lined_sheet;
pub use log::print_log_sheet;
pub use outs::print_outs_list;
pub use part_sheet::print_part_sheet;
pub use pin_labels::print_pin_labels;
pub use plan::{
    print_camera_report, print_floor_plans, print_lined_script, print_location_folder, print_plan,
    print_shooting_script, print_shot_list, print_sound_report, print_stock_sheet,
    print_wild_sounds, set_plan,
};
pub use pull::{print_pull_list, pull_list};
pub use reel_labels::print_reel_labels;
pub use roster::print_roster_sheet;
pub use scan::print_scan_sheet;
pub use titles::{
    field_chart_svg, print_exposure_sheet, print_field_chart, print_stand_drawing, print_title_cel,
    print_title_list, title_cel_svg,
};
pub use work_order::print_work_order;

use record::FrameRecord;

/// The page furniture all forms share.
const FORM: (&str, &str) = ("form.typ", include_str!("form.typ"));
/// The drawn marks of joins.
const MARKS: (&str, &str) = ("marks.typ", include_str!("marks.typ"));
/// The shape of an empty frame; most small-gauge pictures are about 4 : 3.
const EMPTY_ASPECT: f64 = 4.0 / 3.0;

/// A form under way: its name and the job that grows picture by picture.
struct Press {
    form: &'static str,
    job: Job,
}

impl Press {
    /// A form with its own template.
    fn new(form: &'static str, file: &'static str, template: &'static str) -> Self {
        let job = Job::new(file, template)
            .template(FORM.0, FORM.1)
            .template(MARKS.0, MARKS.1);
        Self { form, job }
    }

    /// A frame of the strand: its picture, or the empty frame with its number.
    fn frame(
        &mut self,
        what: &str,
        name: &onestrand_film::FrameName,
        bytes: Option<&[u8]>,
    ) -> Result<FrameRecord, SheetError> {
        self.frame_as(what, name, bytes, Placing::IN_A_ROW)
    }

    /// The same, placed as it lies somewhere else.
    fn frame_as(
        &mut self,
        what: &str,
        name: &onestrand_film::FrameName,
        bytes: Option<&[u8]>,
        placing: Placing,
    ) -> Result<FrameRecord, SheetError> {
        let of = name.to_string();
        let placed = bytes
            .map(|bytes| picture::place(&mut self.job, self.form, &of, bytes, placing))
            .transpose()?;
        Ok(FrameRecord {
            aspect: placed.as_ref().map_or(EMPTY_ASPECT, |placed| placed.aspect),
            alt: match placed {
                Some(_) => format!("picture of the {what}, {name}"),
                None => format!("empty frame for the {what}, {name}"),
            },
            file: placed.map(|placed| placed.name.to_string()),
            number: name.frame.to_string(),
        })
    }

    /// The form with its figures, to be set.
    fn ready(self, figures: &impl Serialize) -> Result<Ready, SheetError> {
        let sheet = self.form;
        let json =
            serde_json::to_vec(figures).map_err(|source| SheetError::Figures { sheet, source })?;
        Ok(Ready {
            sheet,
            job: self.job.data(json),
        })
    }
}

/// A form with all its figures and pictures.
struct Ready {
    sheet: &'static str,
    job: Job,
}

impl Ready {
    /// Sets it, keeping what the typesetting remarked.
    fn typeset(self) -> Result<Typeset, SheetError> {
        let sheet = self.sheet;
        typeset(self.job).map_err(|source| SheetError::Form { sheet, source })
    }

    /// Sets it, to be looked at too.
    fn print(self) -> Result<Printed, SheetError> {
        let sheet = self.sheet;
        print(self.job).map_err(|source| SheetError::Form { sheet, source })
    }
}

#[cfg(test)]
mod tests;
