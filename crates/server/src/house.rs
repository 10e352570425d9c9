//! All that one running program holds.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use onestrand_production::{Cancel, Quiet, habits, take_parts_back};

use crate::desk::Desk;
use crate::drawn_titles::DrawnTitles;
use crate::events::Events;
use crate::following::Runs;
use crate::jobs::Jobs;
use crate::places::Places;
use crate::playing::PlayingMixes;
use crate::problem::ServerError;
use crate::reading;
use crate::routes::FamilyAnswers;
use crate::shelf::{NewFilm, Opened, Shelf, ShelvedDocument};
use crate::tablets::TabletDoor;
use crate::turns::Turns;

/// What is shared by all requests.
#[derive(Debug)]
pub(crate) struct House {
    pub(crate) shelf: Shelf,
    pub(crate) jobs: Jobs,
    pub(crate) places: Places,
    pub(crate) events: Events,
    pub(crate) turns: Turns,
    pub(crate) tablets: Arc<TabletDoor>,
    /// Titles that were drawn lately.
    pub(crate) titles: DrawnTitles,
    /// Mixes that are being heard.
    pub(crate) playing: PlayingMixes,
    /// Projectors that are followed.
    pub(crate) runs: Runs,
    /// What family reels showed lately.
    pub(crate) family: FamilyAnswers,
    /// The film the program was opened with, if with one.
    pub(crate) first: Option<String>,
}

impl House {
    /// `door` makes the tablet's door, which tells of itself as all else does.
    pub(crate) fn new(
        shelf: PathBuf,
        first: Option<String>,
        places: Places,
        door: impl FnOnce(Events) -> TabletDoor,
    ) -> Self {
        let events = Events::new();
        Self {
            shelf: Shelf::new(shelf, events.clone()),
            jobs: Jobs::new(events.clone()),
            places,
            tablets: Arc::new(door(events.clone())),
            events,
            turns: Turns::default(),
            titles: DrawnTitles::default(),
            playing: PlayingMixes::default(),
            runs: Runs::default(),
            family: FamilyAnswers::default(),
            first,
        }
    }

    /// Begins a film; scans copied into its folder may be brought in from there.
    pub(crate) fn begin(self: &Arc<Self>, new: &NewFilm) -> Result<ShelvedDocument, ServerError> {
        let like = match &new.like {
            Some(film) => Some(habits(&self.film(film)?.production())?),
            None => None,
        };
        let document = self.shelf.begin(new, like.as_ref())?;
        self.places.add(Path::new(&document.dir));
        Ok(document)
    }

    /// A film; its interrupted work is carried on when it is opened now.
    pub(crate) fn film(self: &Arc<Self>, name: &str) -> Result<Arc<Desk>, ServerError> {
        let (desk, opened) = self.shelf.film(name)?;
        if opened == Opened::Now {
            self.places.add(desk.dir());
            // A safe copy that was put here as a film finds its sounds beside it.
            take_parts_back(desk.dir(), &Cancel::new(), &mut Quiet)?;
            reading::carry_on(self, &desk)?;
        }
        Ok(desk)
    }
}
