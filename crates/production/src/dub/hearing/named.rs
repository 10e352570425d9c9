//! Sounds and columns by what they are called, for a script.

use onestrand_store::{Production, StoreError};

use crate::ProductionError;
use crate::documents::{ColumnWords, SoundWords};
use crate::dub::kept::{Kept, Part};
use crate::error::unfit;

/// A sound by its name, or by its number.
///
/// # Errors
/// [`ProductionError::Store`] when there is none.
pub fn sound_named(production: &Production, name: &str) -> Result<i64, ProductionError> {
    named::<SoundWords>(production, name)
}

/// A column by its name, or by its number; the first when nothing is said.
///
/// # Errors
/// [`ProductionError::Store`] when there is none of that name, [`ProductionError::Unfit`]
/// when there is none at all.
pub fn column_named(production: &Production, name: Option<&str>) -> Result<i64, ProductionError> {
    if let Some(name) = name {
        return named::<ColumnWords>(production, name);
    }
    let first = Kept::<ColumnWords>::all(production)?.into_iter().next();
    let none = || {
        unfit(
            "the chart has no column yet".to_owned(),
            "rule one in the room Dubbing, or bring cues in",
        )
    };
    first.map(|column| column.id).ok_or_else(none)
}

fn named<T: Part>(production: &Production, name: &str) -> Result<i64, ProductionError> {
    let all = Kept::<T>::all(production)?;
    let same = |kept: &&Kept<T>| kept.words.called().eq_ignore_ascii_case(name.trim());
    let number = |kept: &&Kept<T>| kept.id.to_string() == name.trim();
    let found = all.iter().find(same).or_else(|| all.iter().find(number));
    found.map(|kept| kept.id).ok_or_else(|| {
        ProductionError::Store(StoreError::NotFound {
            what: T::KIND.word(),
            name: name.to_owned(),
        })
    })
}
