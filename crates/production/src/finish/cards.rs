//! Titles that are not photographed yet, drawn into the finish.

use std::collections::BTreeMap;

use onestrand_finish::CardFilm;
use onestrand_store::Production;

use crate::titles::{KeptTitle, TitleFilm, title_pictures_name};
use crate::{ProductionError, Progress};

/// How wide a card is drawn at most. Unit: pixels.
const WIDEST: u32 = 4096;

/// The cards of a finish, each drawn once.
#[derive(Debug, Default)]
pub(super) struct Cards {
    drawn: Vec<DrawnCard>,
    by_name: BTreeMap<String, Option<usize>>,
}

impl Cards {
    /// Which card is drawn for this title; none where the film has no such title, or it
    /// cannot be drawn: then black stands for it, and that is said once.
    pub(super) fn of(
        &mut self,
        production: &Production,
        name: &str,
        width: u32,
        progress: &mut dyn Progress,
    ) -> Result<Option<usize>, ProductionError> {
        let key = name.trim().to_uppercase();
        if let Some(known) = self.by_name.get(&key) {
            return Ok(*known);
        }
        let found = match KeptTitle::named(production, name)? {
            None => None,
            Some(kept) => {
                // Even: a card is drawn for moving pictures.
                let width = width.clamp(16, WIDEST) / 2 * 2;
                match TitleFilm::draw(production, &kept.title, width) {
                    Ok(film) => {
                        let mark = title_pictures_name(production, &kept.title)?;
                        let alike = film.first_alike();
                        self.drawn.push(DrawnCard { film, alike, mark });
                        Some(self.drawn.len() - 1)
                    }
                    Err(problem) => {
                        progress.note(&format!("the card “{name}” stands black: {problem}"));
                        None
                    }
                }
            }
        };
        self.by_name.insert(key, found);
        Ok(found)
    }

    pub(super) fn into_films(self) -> Vec<Box<dyn CardFilm>> {
        let boxed = |card| Box::new(card) as Box<dyn CardFilm>;
        self.drawn.into_iter().map(boxed).collect()
    }
}

/// A title as film.
#[derive(Debug)]
struct DrawnCard {
    film: TitleFilm,
    alike: Vec<u32>,
    mark: String,
}

impl CardFilm for DrawnCard {
    fn size(&self) -> (u32, u32) {
        self.film.size()
    }

    fn first_alike(&self, frame: u32) -> u32 {
        let last = self.alike.len().saturating_sub(1);
        let at = (frame as usize).min(last);
        self.alike.get(at).copied().unwrap_or(0)
    }

    fn frame(&self, frame: u32) -> Vec<u8> {
        self.film.frame(frame)
    }

    fn mark(&self) -> String {
        format!("{} {:?}", self.mark, self.film.size())
    }
}
