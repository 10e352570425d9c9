//! A programme of a shelf: what is shown in which order, on which reels, for how long; and
//! that it was shown, written into the ledgers of the originals.

mod kept;
mod paper;
mod planned;
mod shown;
mod table;
mod told;

pub use kept::{KeptProgramme, keep_programme, kept_programme};
pub use paper::{print_programme, print_programme_labels};
pub use planned::{ShownFilm, plan_programme, shown_film};
pub use shown::{ShownHandling, handling_of_showing};
pub use table::{programme_of_table, programme_table};
