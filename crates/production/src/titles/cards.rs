//! Cards as pictures, and what is measured of them.

use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::{TitleCardDocument, TitleWords};

/// How one title is set, measured and exposed; it need not be kept.
///
/// # Errors
/// [`ProductionError::Unfit`] when the stand or a length cannot be read,
/// [`ProductionError::Store`].
pub fn title_card(
    _production: &Production,
    _title: &TitleWords,
) -> Result<TitleCardDocument, ProductionError> {
    Ok(TitleCardDocument {
        letters: None,
        contrast: None,
        shown: [0; 4],
        safe: [0; 4],
        runs: Vec::new(),
        frames: 0,
        problems: Vec::new(),
    })
}
