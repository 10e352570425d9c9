#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cautions;
mod cutting;
mod error;
mod forms;
mod head;
mod picture;
mod pull;
mod rolls;
mod words;

pub use cutting::{After, CuttingRow, CuttingSheet, Piece, Standing};
pub use error::SheetError;
pub use forms::{
    cutting_sheet, print_cutting_sheet, print_inspection_sheet, print_log_sheet, print_pull_list,
    print_scan_sheet, print_trim_labels, pull_list,
};
pub use head::{Head, JoinBite, JoinKind, Paper, Proof, RollState};
pub use onestrand_typeset::Printed;
pub use pull::{Landmark, Lies, Mount, Pin, PullList, PullOrder, Strip};
pub use rolls::{
    Chosen, FoundByHand, FoundJoin, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll,
    LoggedTake, ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
