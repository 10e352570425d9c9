//! The lettering of a title as outlines, true to size.

use onestrand_store::Production;

use super::field::Field;
use super::lettered::set_title;
use super::reckoned::Shop;
use super::stand_kept::stand_of;
use crate::ProductionError;
use crate::documents::TitleWords;

/// The lettering of a title as outlines. Lengths in millimetres on the artwork.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct TitleOutlines {
    /// The data of an SVG path, from the upper left corner of the camera's field.
    pub(crate) path: String,
    /// A line round the letters; 0 for none.
    pub(crate) pen_mm: f64,
    /// How high the cel is: the field, or the crawl where that is higher.
    pub(crate) high_mm: f64,
}

/// The lettering of a title as outlines on the field of the stand.
///
/// # Errors
/// [`ProductionError::Lettering`] where it cannot be set, [`ProductionError::Unfit`] for a
/// stand that cannot be read.
pub(crate) fn title_outlines(
    production: &Production,
    title: &TitleWords,
) -> Result<TitleOutlines, ProductionError> {
    let stand = stand_of(production)?;
    let shop = Shop::of(production, &stand)?;
    let card = set_title(production, title, &shop)?;
    let field = Field::of(&shop)?;
    let shown = field.shown_mm;
    // What is lettered is the projected picture; it lies in the middle of the field.
    let at = (
        (field.seen_mm.0 - shown.0) / 2.0,
        (field.seen_mm.1 - shown.1) / 2.0,
    );
    Ok(TitleOutlines {
        path: card.path_data_at(shown, at),
        pen_mm: card.pen_mm(shown),
        high_mm: field.seen_mm.1.max(shown.1 * card.full_height()),
    })
}
