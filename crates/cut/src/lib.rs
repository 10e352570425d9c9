#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod assembly;
mod change;
mod check;
mod claims;
mod compare;
mod conflict;
mod join;
mod pace;
mod piece;
mod questions;
mod remedy;
mod slate;
mod strand;
mod strips;
mod twin;

pub use assembly::assembly;
pub use change::{Change, Refusal};
pub use check::{Certificate, CheckRules, RollCount, check};
pub use compare::{Act, Beside, ChangeLine, Comparison, NotThisVersion, RowState, Stay, compare};
pub use conflict::{Conflict, ConflictKind, Severity};
pub use join::{Bite, JoinKind, JoinRow, JoinTable};
pub use pace::Pace;
pub use piece::{Effect, Piece, PieceKind, TrialCut};
pub use questions::{
    Answer, Facts, LightMeasure, LineSide, Mover, NotMeasured, Question, QuestionKey,
    QuestionKeyError, QuestionKind, QuestionLimits, TakeWords, ViewSize, Way, questions,
};
pub use remedy::{Remedy, RemedyKind, WaysOut};
pub use slate::{Slate, SlateError};
pub use strand::{Base, Fit, Rating, Roll, Strand, Take, Wind};
pub use strips::{Joint, Strip, Strips};
pub use twin::{NoTwins, TakeTwins, Twin, TwinBy, Twins};
