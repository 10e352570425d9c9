//! The class roster: out of a table or off the shelf, planned, as words, table and sheet.

mod form;
mod kept;
mod planned;
mod sheet;
mod table;

pub use form::{RosterFilm, plan_shelf, usual_roster};
pub use kept::{KeptRoster, keep_roster, kept_roster};
pub use planned::RosterAsked;
pub use sheet::{print_roster, roster_words};
pub use table::{plan_roster_table, roster_table};

use onestrand_plan::PlanError;

use crate::ProductionError;

/// The shortest time counted when nothing else is said. Unit: minutes.
const USUAL_SLOT: u16 = 30;

fn refused(source: PlanError) -> ProductionError {
    ProductionError::Roster { source }
}
