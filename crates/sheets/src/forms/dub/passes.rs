//! The log of passes as a form.

use onestrand_typeset::Printed;

use super::furniture::{admit_missing, dub_form, footage_words, frame_words};
use super::lists::{Cell, ColumnRecord, ListRecord, print};
use crate::dub::{MixLog, MixPass, PassKept};
use crate::forms::record::Figure;
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Mix log";

/// Prints a mix log, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_mix_log(log: &MixLog) -> Result<Printed, SheetError> {
    print(FORM, &record(log))
}

fn record(log: &MixLog) -> ListRecord {
    let mut form = dub_form(
        &log.head,
        FORM,
        "a row for each pass",
        &["hearing", "mains"],
    );
    let counted = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let kept = log.passes.iter().filter(|pass| pass.kept == PassKept::Kept);
    form.figures = vec![
        Figure::counted(counted(log.passes.len()), "pass so far", "passes so far"),
        Figure::new(words::count(counted(kept.count())), "kept"),
    ];
    form.foot = vec![
        "Write the frame at which the recording began, the speed found on this pass, and the frame of each fault."
            .to_owned(),
        "Every pass runs through the splices again: look at them before the next one.".to_owned(),
    ];
    let said = log.passes.iter().flat_map(|pass| &pass.faults);
    let said: Vec<&str> = said.map(|(_, words)| words.as_str()).collect();
    admit_missing(&mut form, &said);
    ListRecord {
        form,
        before: Vec::new(),
        columns: vec![
            ColumnRecord::words("pass", 20.0),
            ColumnRecord::figures("start frame", 30.0),
            ColumnRecord::figures("speed, f/s", 22.0),
            ColumnRecord::words("faults at", 0.0),
            ColumnRecord::words("keep", 26.0),
        ],
        rows: log.passes.iter().map(|pass| row(log, pass)).collect(),
        none: "",
        blank: log.blank_rows.min(200),
        boxes: vec![4],
    }
}

/// Where recording began: `1,728, 24 ft 0 fr`; before the first picture there are no feet.
fn start(log: &MixLog, at: i64) -> String {
    let frames = frame_words(at);
    match u32::try_from(at) {
        Ok(at) => format!("{frames}, {}", footage_words(log.head.gauge, at)),
        Err(_) => frames,
    }
}

fn row(log: &MixLog, pass: &MixPass) -> Vec<Cell> {
    let fault = |(at, said): &(u32, String)| match words::plain(said).as_str() {
        "" => words::count(*at),
        said => format!("{}: {said}", words::count(*at)),
    };
    vec![
        Cell::large(words::plain(&pass.pass)),
        Cell::figure(start(log, pass.start)),
        Cell::figure(pass.speed.map_or(String::new(), |s| format!("{s:.2}"))),
        Cell::Words {
            lines: pass.faults.iter().map(fault).collect(),
        },
        Cell::Boxes {
            lines: Vec::new(),
            words: vec!["keep", "give up"],
            ticked: match pass.kept {
                PassKept::Open => None,
                PassKept::Kept => Some(0),
                PassKept::GivenUp => Some(1),
            },
        },
    ]
}
