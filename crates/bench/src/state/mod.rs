//! The bench as it is: which lengths of film exist, what is joined to what and
//! how, and where each hangs or lies. A fold over what was done.

mod anew;
mod as_made;
mod as_was_made;
mod beam;
mod cannot;
mod coming;
mod deed;
mod film;
mod history;
mod join;
mod left;
mod log;
mod made_film;
mod made_run;
mod meaning;
mod mending;
mod on_reel;
mod order;
mod parting;
mod remade;
mod rests;
mod seen;
mod staying;
mod still;
mod tear;
mod times;
mod version;
mod whereabouts;
mod whole;
mod writer;

pub use anew::{Anew, NoOrder, plan_anew};
pub use as_made::{AsMade, Part};
pub use cannot::CannotBe;
pub use deed::{Deed, Laid, Next};
pub use film::{Film, Gone, How, Length, Link, Made, Place};
pub use history::{StripEvent, history};
pub use left::{Taking, WorkLeft, WorkStep};
pub use log::{BenchLog, Entry};
pub use meaning::{Meaning, StripChange};
pub use remade::Remade;
pub use seen::{NotSeen, SeenFilm, deeds_to_show, film_on_the_reel, takings_seen};
pub use times::{FEWEST_TICKS, LONGEST_TICK, LearnedTimes, Tick, TickKind};
pub use whole::{BenchState, RollCount};
