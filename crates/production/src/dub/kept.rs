//! Sounds, columns and cues as they are kept.

use onestrand_store::{Act, DubKind, DubRecord, Production, StoreError};
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::ProductionError;
use crate::documents::{ColumnWords, CueWords, PassWords, SoundWords};

/// What may be kept as a part of the sound.
pub(crate) trait Part: Serialize + DeserializeOwned {
    /// As the store knows it.
    const KIND: DubKind;
    /// What it is called among words for the user.
    fn called(&self) -> &str;
}

impl Part for SoundWords {
    const KIND: DubKind = DubKind::Sound;
    fn called(&self) -> &str {
        &self.name
    }
}

impl Part for ColumnWords {
    const KIND: DubKind = DubKind::Column;
    fn called(&self) -> &str {
        &self.name
    }
}

impl Part for CueWords {
    const KIND: DubKind = DubKind::Cue;
    fn called(&self) -> &str {
        &self.name
    }
}

impl Part for PassWords {
    const KIND: DubKind = DubKind::Pass;
    fn called(&self) -> &str {
        &self.pass
    }
}

/// A part with its number and its place in its list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Kept<T> {
    pub(crate) id: i64,
    pub(crate) place: i64,
    pub(crate) words: T,
}

impl<T: Part> Kept<T> {
    /// All of them, in the order of the list.
    pub(crate) fn all(production: &Production) -> Result<Vec<Self>, ProductionError> {
        let parts = production.dub(T::KIND)?;
        parts
            .into_iter()
            .map(|(id, record)| Self::read(id, &record))
            .collect()
    }

    /// One of them; what is of another kind counts as not there.
    pub(crate) fn one(production: &Production, id: i64) -> Result<Self, ProductionError> {
        let record = production.dub_part(id)?;
        if record.kind != T::KIND {
            return Err(not_there::<T>(id).into());
        }
        Self::read(id, &record)
    }

    fn read(id: i64, record: &DubRecord) -> Result<Self, ProductionError> {
        let words = serde_json::from_str(&record.body).map_err(|_| unreadable::<T>(id))?;
        let place = record.place;
        Ok(Self { id, place, words })
    }

    /// The act that keeps it.
    pub(crate) fn put(&self) -> Result<Act, ProductionError> {
        let body = serde_json::to_string(&self.words).map_err(|_| unreadable::<T>(self.id))?;
        Ok(Act::PutDub {
            id: self.id,
            part: Some(Box::new(DubRecord {
                kind: T::KIND,
                place: self.place,
                body,
            })),
        })
    }
}

fn not_there<T: Part>(id: i64) -> StoreError {
    StoreError::NotFound {
        what: T::KIND.word(),
        name: id.to_string(),
    }
}

fn unreadable<T: Part>(id: i64) -> StoreError {
    StoreError::Unreadable {
        what: T::KIND.word(),
        found: id.to_string(),
    }
}
