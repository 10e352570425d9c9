#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cautions;
mod changes;
mod cutting;
mod error;
mod forms;
mod head;
mod lined;
mod picture;
mod pull;
mod rolls;
mod words;

pub use changes::{ChangeList, ChangeRow, ChangedFilm};
pub use cutting::{After, CuttingRow, CuttingSheet, Piece, Standing};
pub use error::SheetError;
pub use forms::{
    cutting_sheet, print_change_list, print_cutting_sheet, print_inspection_sheet,
    print_lined_sheet, print_log_sheet, print_pull_list, print_scan_sheet, print_trim_labels,
    pull_list,
};
pub use head::{Head, JoinBite, JoinKind, Paper, Proof, RollState};
pub use lined::{LinedRow, LinedSheet, ScreeningNote};
pub use onestrand_typeset::Printed;
pub use pull::{Landmark, Lies, Mount, Pin, PullList, PullOrder, Strip};
pub use rolls::{
    Chosen, FoundByHand, FoundJoin, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll,
    LoggedTake, ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
