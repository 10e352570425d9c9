//! What a user says in words must be one of the words that are known.

use onestrand_store::StoreError;

use crate::ProductionError;

/// Something that was just said, read as the model reads it. What cannot be
/// read is refused before it is kept: once kept, it could never be read again.
///
/// # Errors
/// [`ProductionError::Unfit`] for an unknown word.
pub(crate) fn known<T>(read: Result<T, StoreError>) -> Result<T, ProductionError> {
    read.map_err(|problem| match problem {
        StoreError::Unreadable { what, found } => ProductionError::Unfit {
            message: format!("{found:?} is not {what}"),
            hint: "choose one of the words that are offered".to_owned(),
        },
        other => other.into(),
    })
}
