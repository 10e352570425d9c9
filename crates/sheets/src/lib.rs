#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod cautions;
mod cutting;
mod error;
mod forms;
mod head;
mod picture;
mod pull;
mod words;

pub use cutting::{After, CuttingRow, CuttingSheet, Piece, Standing};
pub use error::SheetError;
pub use forms::{cutting_sheet, print_cutting_sheet, print_pull_list, pull_list};
pub use head::{Head, JoinBite, JoinKind, Paper, Proof, RollState};
pub use onestrand_typeset::Printed;
pub use pull::{Landmark, Lies, Mount, Pin, PullList, PullOrder, Strip};
