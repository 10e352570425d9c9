//! Lists that are kept whole with the film, under a name.

use onestrand_store::{Act, Production};
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::ProductionError;

/// The list under a name. What a later version of the program wrote in a way that
/// cannot be read here is left alone and counts as nothing.
pub(crate) fn read<T: DeserializeOwned>(
    production: &Production,
    name: &str,
) -> Result<Vec<T>, ProductionError> {
    let text = production.setting(name)?;
    Ok(text
        .and_then(|text| serde_json::from_str(&text).ok())
        .unwrap_or_default())
}

/// The act that puts a list in the place of what stands under a name.
pub(crate) fn put<T: Serialize>(name: &str, all: &[T]) -> Act {
    let value = (!all.is_empty())
        .then(|| serde_json::to_string(all).ok())
        .flatten();
    Act::PutSetting {
        name: name.to_owned(),
        value,
    }
}
