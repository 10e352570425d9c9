#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cautions;
mod changes;
mod cutting;
mod error;
mod forms;
mod frame_cards;
mod handling;
mod head;
mod joins_inspection;
mod lined;
mod outs;
mod picture;
mod pin_labels;
mod pull;
mod reel_labels;
mod rolls;
mod way;
mod words;
mod work_order;

pub use changes::{ChangeList, ChangeRow, ChangedFilm};
pub use cutting::{After, CuttingRow, CuttingSheet, Piece, Standing};
pub use error::SheetError;
pub use forms::{
    cutting_sheet, print_change_list, print_cutting_sheet, print_frame_cards,
    print_handling_ledger, print_inspection_sheet, print_joins_inspection, print_lined_sheet,
    print_log_sheet, print_outs_list, print_pin_labels, print_pull_list, print_reel_labels,
    print_scan_sheet, print_trim_labels, print_work_order, pull_list,
};
pub use frame_cards::{CardEnd, CardFrame, Fate, FrameCards, OnBench, StripCard};
pub use handling::{HandledEntry, HandledRoll, HandlingLedger};
pub use head::{Head, JoinBite, JoinKind, Paper, Proof, RollState};
pub use joins_inspection::{JoinSide, JoinToSee, JoinsInspection};
pub use lined::{LinedRow, LinedSheet, ScreeningNote};
pub use onestrand_typeset::Printed;
pub use outs::{Out, OutsList, OutsReel};
pub use pin_labels::{PinLabel, PinLabels};
pub use pull::{Landmark, Lies, Mount, Pin, PullList, PullOrder, Strip};
pub use reel_labels::{ReelLabel, ReelLabels, ReelLies};
pub use rolls::{
    Chosen, FoundByHand, FoundJoin, InspectedRoll, InspectionSheet, LogSheet, LoggedRoll,
    LoggedTake, ScanRow, ScanSheet, TrimLabel, TrimLabels,
};
pub use way::{Edge, MayBeOff, StripEnd, WayCount};
pub use work_order::{JoinMade, TakenUp, WorkMount, WorkOrderSheet, WorkStrip};
