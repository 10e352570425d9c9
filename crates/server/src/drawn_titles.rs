//! Titles that were drawn lately, so that running one does not letter it for each frame.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use onestrand_production::documents::TitleWords;
use onestrand_production::{Production, ProductionError, TitleFilm, title_pictures_name};

/// How many are kept: a page shows one title large and each design of it small.
const KEPT: usize = 16;

/// What a drawn title is known by: its pictures' name and its width.
type Key = (String, u32);

/// Titles that were drawn lately, the last used first.
#[derive(Debug, Default)]
pub(crate) struct DrawnTitles(Mutex<VecDeque<(Key, Arc<TitleFilm>)>>);

impl DrawnTitles {
    /// The title drawn so wide, anew only where it was not lately.
    pub(crate) fn film(
        &self,
        production: &Production,
        title: &TitleWords,
        width: u32,
    ) -> Result<Arc<TitleFilm>, ProductionError> {
        let key = (title_pictures_name(production, title)?, width);
        if let Some(film) = self.known(&key) {
            return Ok(film);
        }
        let film = Arc::new(TitleFilm::draw(production, title, width)?);
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.push_front((key, Arc::clone(&film)));
        kept.truncate(KEPT);
        Ok(film)
    }

    fn known(&self, key: &Key) -> Option<Arc<TitleFilm>> {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let at = kept.iter().position(|(known, _)| known == key)?;
        let found = kept.remove(at)?;
        let film = Arc::clone(&found.1);
        kept.push_front(found);
        Some(film)
    }
}
