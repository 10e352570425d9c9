//! The Bench room: the log of the bench as it is kept with the film, what it
//! says, and what may be written into it.

mod acts_left;
mod as_it_is;
mod begin;
mod cards;
mod document;
mod frozen;
mod handled;
mod happened;
mod history;
mod inner_joins;
mod line;
mod made_acts;
mod meaning;
mod remade;
mod report;
mod room;
mod seen;
mod times;
mod versions_told;
mod words;
mod write;

pub(crate) use frozen::{cut_is_free, roll_is_free};
pub(crate) use handled::DoneAtTheBench;
pub use history::strip_history;
pub use meaning::{MeaningRequest, bench_meaning};
pub(crate) use remade::remade;
pub use seen::{SeenRequest, seen_on_the_reel};

pub(crate) use as_it_is::strip_as_it_is;
pub use document::bench_room;
