//! The requests of the page, by subject.

mod archive;
mod at_the_tablet;
mod bench;
mod camera;
mod cue_forms;
mod cut;
mod dub;
mod dub_sheets;
mod family;
mod film;
mod finish;
mod following;
mod hearing;
mod lights;
mod logs;
mod long_work;
mod mix_file;
mod music;
mod on_action;
mod pictures;
mod places;
mod programme;
mod reading_back;
mod recordings;
mod roster;
mod scans_in_one_go;
mod script;
mod script_sheets;
mod sheets;
mod shelf;
mod showing;
mod sounds;
mod tablets;
mod title_sheets;
mod titles;

use std::sync::Arc;

use utoipa::OpenApi;
use utoipa_axum::router::OpenApiRouter;

use crate::house::House;

pub(crate) use at_the_tablet::TABLET;
pub(crate) use family::FamilyAnswers;
pub(crate) use on_action::SmallPictures;
pub(crate) use reading_back::ReadBack;

/// What the description says of itself.
#[derive(OpenApi)]
#[openapi(info(
    title = "Onestrand",
    description = "The requests that the page of Onestrand makes. They are answered on this machine only, to whoever holds the cookie that the one-time code was exchanged for; those under `/api/bench/tablet` at the tablet's door only, to the tablet that was let in by a code.",
    version = "1"
))]
struct Description;

/// All requests with their description.
pub(crate) fn all() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::with_openapi(Description::openapi())
        .merge(shelf::router())
        .merge(places::router())
        .merge(roster::router())
        .merge(programme::router())
        .merge(family::router())
        .merge(archive::router())
        .merge(finish::router())
        .merge(scans_in_one_go::router())
        .merge(film::router())
        .merge(cut::router())
        .merge(dub::router())
        .merge(cue_forms::router())
        .merge(dub_sheets::router())
        .merge(sounds::router())
        .merge(mix_file::router())
        .merge(hearing::router())
        .merge(lights::router())
        .merge(music::router())
        .merge(recordings::router())
        .merge(following::router())
        .merge(on_action::router())
        .merge(reading_back::router())
        .merge(script::router())
        .merge(script_sheets::router())
        .merge(title_sheets::router())
        .merge(titles::router())
        .merge(bench::router())
        .merge(tablets::router())
        .merge(pictures::router())
        .merge(sheets::router())
        .merge(showing::router())
        .merge(camera::router())
        .merge(logs::router())
        .merge(long_work::router())
}

/// The requests of the tablet's door, a listener of its own.
pub(crate) fn at_the_tablet() -> OpenApiRouter<Arc<House>> {
    at_the_tablet::router()
}
