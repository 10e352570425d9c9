//! The bench as it is: which lengths of film exist, what is joined to what and
//! how, and where each hangs or lies. A fold over what was done.

mod as_made;
mod cannot;
mod deed;
mod film;
mod history;
mod join;
mod left;
mod log;
mod meaning;
mod order;
mod tear;
mod whole;

pub use as_made::{AsMade, Part};
pub use cannot::CannotBe;
pub use deed::{Deed, Laid, Next};
pub use film::{Film, Gone, How, Length, Link, Made, Place};
pub use history::{StripEvent, history};
pub use left::{Taking, WorkLeft, WorkStep};
pub use log::{BenchLog, Entry};
pub use meaning::{Meaning, StripChange};
pub use whole::{BenchState, RollCount};
