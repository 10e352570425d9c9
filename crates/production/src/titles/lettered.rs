//! Titles as they are lettered.

use crate::documents::{CardDesignDocument, StandWords, TitleWords};

/// The card designs there are.
pub(super) fn designs() -> Vec<CardDesignDocument> {
    Vec::new()
}

/// Changes whenever the pictures of a title do.
pub(super) fn fingerprint(title: &TitleWords, stand: &StandWords) -> String {
    let mut all = serde_json::to_vec(title).unwrap_or_default();
    all.extend(serde_json::to_vec(stand).unwrap_or_default());
    blake3::hash(&all).to_hex()[..16].to_owned()
}
