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
    production: &Production,
    title: &TitleWords,
) -> Result<TitleCardDocument, ProductionError> {
    let stand = super::stand_kept::stand_of(production)?;
    let reckoned = super::reckoned::Reckoned::of(title, &stand, production.meta().speed)?;
    Ok(TitleCardDocument {
        words: reckoned.words,
        by_rule: reckoned.by_rule,
        hold: reckoned.hold,
        letters: None,
        contrast: None,
        shown: [0; 4],
        safe: [0; 4],
        runs: Vec::new(),
        frames: reckoned.whole,
        problems: reckoned.problems,
    })
}
