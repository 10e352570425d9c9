//! Making productions.

use std::path::Path;

use onestrand_store::{Meta, Production};

use crate::ProductionError;

/// Makes a new production.
///
/// # Errors
/// [`ProductionError::Store`], [`ProductionError::Unfit`] for an empty title.
pub fn new_production(dir: &Path, meta: &Meta) -> Result<Production, ProductionError> {
    if meta.title.trim().is_empty() {
        return Err(ProductionError::Unfit {
            message: "the film has no title".to_owned(),
            hint: "give it a working title; it can be changed later".to_owned(),
        });
    }
    Ok(Production::create(dir, meta)?)
}
