//! Titles as they are kept.

use onestrand_store::{Act, Production, StoreError, TitleRecord};

use crate::ProductionError;
use crate::documents::TitleWords;

/// A title with its number and its place in the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct KeptTitle {
    pub(crate) id: i64,
    pub(crate) place: i64,
    pub(crate) title: TitleWords,
}

impl KeptTitle {
    /// All of them, in the order of the list.
    pub(crate) fn all(production: &Production) -> Result<Vec<Self>, ProductionError> {
        let titles = production.titles()?;
        titles.into_iter().map(Self::read).collect()
    }

    /// One of them.
    pub(crate) fn one(production: &Production, id: i64) -> Result<Self, ProductionError> {
        Self::read((id, production.title(id)?))
    }

    /// The one of this name, as the cut and the slate name it.
    pub(crate) fn named(
        production: &Production,
        name: &str,
    ) -> Result<Option<Self>, ProductionError> {
        let all = Self::all(production)?;
        let is = |kept: &Self| kept.title.name.eq_ignore_ascii_case(name.trim());
        Ok(all.into_iter().find(is))
    }

    fn read((id, record): (i64, TitleRecord)) -> Result<Self, ProductionError> {
        let title = serde_json::from_str(&record.body).map_err(|_| unreadable(id))?;
        let place = record.place;
        Ok(Self { id, place, title })
    }

    /// The act that keeps it.
    pub(crate) fn put(&self) -> Result<Act, ProductionError> {
        let body = serde_json::to_string(&self.title).map_err(|_| unreadable(self.id))?;
        let place = self.place;
        Ok(Act::PutTitle {
            id: self.id,
            title: Some(TitleRecord { place, body }),
        })
    }
}

fn unreadable(id: i64) -> StoreError {
    StoreError::Unreadable {
        what: "a title",
        found: id.to_string(),
    }
}
