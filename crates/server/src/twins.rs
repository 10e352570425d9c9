//! Looking for takes that show the same action while the page goes on working.

use std::sync::{Arc, PoisonError};

use onestrand_production::{FilmPart, ProductionError, TwinSearch};

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::reading::beside;
use crate::routes::SmallPictures;

/// Begins a search; one of another take's waits until it has ended, since both keep
/// what they find in one place.
pub(crate) fn begin_search(
    house: &Arc<House>,
    desk: &Arc<Desk>,
    search: TwinSearch,
) -> JobDocument {
    let words = "looking for the same action";
    let job = house.jobs.begin("twins", &desk.film, None, words);
    let document = job.document();
    let (desk, running) = (Arc::clone(desk), Arc::clone(&job));
    beside(words, &job, move || {
        let _turn = match desk.searching.try_lock() {
            Ok(turn) => turn,
            Err(_) => {
                running.waits("waits until another search has ended");
                desk.searching
                    .lock()
                    .unwrap_or_else(PoisonError::into_inner)
            }
        };
        let mut source = SmallPictures(&desk);
        let ended = search.look(&mut source, &running.cancel, &mut running.teller());
        // What was found before it was stopped is found all the same.
        if matches!(ended, Ok(()) | Err(ProductionError::Stopped)) {
            desk.was_changed(&desk.production(), "look for twins", vec![FilmPart::Twins]);
        }
        Ok(ended?)
    });
    document
}
