//! The titles of a film: what is kept of each, what is reckoned of it, and how it looks
//! frame by frame until it is photographed.

mod cards;
mod cel;
mod changes;
mod document;
mod field;
mod hold;
mod kept;
mod lettered;
mod lettered_card;
mod light;
mod opened_sum;
mod outlines;
mod pictures;
mod reckoned;
mod sheet;
mod sheet_said;
mod sheet_words;
mod stand;
mod stand_kept;
mod stand_of_film;
mod stand_opened;
mod title_film;
mod to_plan;

pub use cards::title_card;
pub use cel::{TitleCelMade, TitleCelRequest, title_cel};
pub use changes::{TitleChange, TitleChangeKind};
pub use document::titles_document;
pub use hold::{TitleHoldRequest, title_hold};
pub use lettered::title_pictures_name;
pub use lettered_card::{TitleLetteredRequest, letter_title};
pub use light::{TitleLightRequest, title_light};
pub use pictures::keep_for_title;
pub use sheet::{SheetFor, title_sheet};
pub use sheet_said::{TitleSheetRequest, title_sheet_said};
pub use stand::{TitleFieldRequest, title_field};
pub use stand_of_film::title_stand;
pub use title_film::TitleFilm;

use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::TitleWords;

pub(crate) use document::title_pictures;
pub(crate) use kept::KeptTitle;
pub(crate) use outlines::{TitleOutlines, title_outlines};
pub(crate) use stand_kept::STAND;
pub(crate) use to_plan::plan_titles;

/// A title as it is kept, by its number.
///
/// # Errors
/// [`ProductionError::Store`] when there is none, or it cannot be read.
pub fn kept_title(production: &Production, id: i64) -> Result<TitleWords, ProductionError> {
    Ok(kept::KeptTitle::one(production, id)?.title)
}
