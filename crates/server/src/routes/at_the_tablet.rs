//! What a tablet can ask at its own door: its film's bench, the pictures of it, and to
//! tick off or to tell what happened. No request names a film: it is that of the code.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use axum::{Extension, Json};
use futures_util::{Stream, StreamExt};
use onestrand_production::documents::{
    BenchRoomDocument, BenchWrite, GaugeDocument, MeaningDocument,
};
use onestrand_production::{
    FilmChange, MeaningRequest, bench_meaning, bench_room, production_document,
};
use serde::{Deserialize, Serialize};
use tokio_stream::wrappers::BroadcastStream;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::pictures::{Pictures, SmallPicture, one_picture, small_one};
use crate::desk::ChangeRequest;
use crate::events::EventDocument;
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::routes::long_work::SILENT_LINE;
use crate::tablets::{CookieName, LetIn, TabletProblem};

/// Where a tablet comes in.
pub(crate) const TABLET: &str = "/api/bench/tablet";

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(here, enter))
        .routes(routes!(bench))
        .routes(routes!(meaning))
        .routes(routes!(write))
        .routes(routes!(picture))
        .routes(routes!(small))
        .routes(routes!(events))
}

/// How long a tablet's browser keeps its cookie, also where the system ends the browser
/// of a tablet that sleeps; with the program it opens nothing any more. Unit: seconds.
const KEPT: u32 = 7 * 24 * 60 * 60;

/// What a tablet knows of its film besides the bench.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
struct TabletFilmDocument {
    /// The film's name in addresses.
    film: String,
    /// Its title.
    title: String,
    /// What this tablet is called.
    tablet: String,
    /// Its gauge, for drawing.
    gauge: GaugeDocument,
    /// Its rolls.
    rolls: Vec<TabletRollDocument>,
}

/// A roll, as far as its pictures go.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
struct TabletRollDocument {
    /// Its name.
    roll: String,
    /// The name of its pictures; none where it has none.
    pictures: Option<String>,
}

/// A code, typed on the tablet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
struct TabletEnters {
    /// The code that stands on the main machine.
    code: String,
    /// What this tablet is called: who ticked, in the log.
    #[serde(default)]
    name: String,
}

/// What was done at the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
struct TabletWrites {
    /// A name of the tablet's own for this: sent again under the same name, it is
    /// written down once.
    key: String,
    /// The revision of the bench that the tablet showed.
    revision: u64,
    /// A tick, what happened, or a remark; anything else is refused.
    write: BenchWrite,
}

/// That it is written down, on the disk.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
struct TabletKeptDocument {
    /// The revision it led to.
    revision: u64,
    /// Whether it was written down before, and nothing was done now.
    already: bool,
}

/// What a tablet is told without asking.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
#[serde(tag = "event", rename_all = "snake_case")]
enum TabletEventDocument {
    /// The film was changed: the bench is to be asked for anew.
    Changed {
        /// The revision now.
        revision: u64,
    },
    /// Events were lost: the bench is to be asked for anew.
    Lost,
}

fn film_of(house: &Arc<House>, who: &LetIn) -> Result<TabletFilmDocument, ServerError> {
    let desk = house.film(&who.film)?;
    let production = desk.production();
    let document = production_document(&production, &desk.prints())?;
    let rolls = document.rolls.into_iter().map(|roll| TabletRollDocument {
        roll: roll.roll,
        pictures: roll.pictures,
    });
    Ok(TabletFilmDocument {
        film: who.film.clone(),
        title: document.title,
        tablet: who.name.clone(),
        gauge: document.gauge,
        rolls: rolls.collect(),
    })
}

/// The film that this tablet was let in for.
#[utoipa::path(get, path = "/api/bench/tablet", tag = "at the tablet", operation_id = "tablet_film",
    responses((status = 200, body = TabletFilmDocument), (status = "default", body = ProblemDocument)))]
async fn here(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
) -> Result<Json<TabletFilmDocument>, ServerError> {
    away(move || Ok(Json(film_of(&house, &who)?))).await
}

/// Exchanges the code for a cookie.
#[utoipa::path(post, path = "/api/bench/tablet", tag = "at the tablet", operation_id = "tablet_enters", request_body = TabletEnters,
    responses((status = 200, body = TabletFilmDocument), (status = "default", body = ProblemDocument)))]
async fn enter(
    State(house): State<Arc<House>>,
    Extension(name): Extension<CookieName>,
    Json(asked): Json<TabletEnters>,
) -> Result<Response, ServerError> {
    away(move || {
        let token = house.tablets.enter(&asked.code, &asked.name)?;
        let who = house.tablets.who(&token).ok_or(TabletProblem::NotLetIn)?;
        let document = film_of(&house, &who)?;
        let cookie = format!(
            "{}={token}; HttpOnly; SameSite=Strict; Path=/; Max-Age={KEPT}",
            name.0
        );
        let mut response = Json(document).into_response();
        if let Ok(value) = HeaderValue::from_str(&cookie) {
            response.headers_mut().insert(header::SET_COOKIE, value);
        }
        Ok(response)
    })
    .await
}

/// The bench of the tablet's film.
#[utoipa::path(get, path = "/api/bench/tablet/bench", tag = "at the tablet", operation_id = "tablet_bench",
    responses((status = 200, body = BenchRoomDocument), (status = "default", body = ProblemDocument)))]
async fn bench(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
) -> Result<Json<BenchRoomDocument>, ServerError> {
    away(move || {
        let desk = house.film(&who.film)?;
        let production = desk.production();
        Ok(Json(bench_room(&production)?))
    })
    .await
}

/// What a report would mean; nothing is written down.
#[utoipa::path(post, path = "/api/bench/tablet/meaning", tag = "at the tablet", operation_id = "tablet_meaning", request_body = MeaningRequest,
    responses((status = 200, body = MeaningDocument), (status = "default", body = ProblemDocument)))]
async fn meaning(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
    Json(request): Json<MeaningRequest>,
) -> Result<Json<MeaningDocument>, ServerError> {
    away(move || {
        let desk = house.film(&who.film)?;
        let production = desk.production();
        Ok(Json(bench_meaning(&production, &request)?))
    })
    .await
}

/// Ticks the next act off, or writes down what happened, in the tablet's name.
#[utoipa::path(post, path = "/api/bench/tablet/writes", tag = "at the tablet", operation_id = "tablet_writes", request_body = TabletWrites,
    responses((status = 200, body = TabletKeptDocument), (status = "default", body = ProblemDocument)))]
async fn write(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
    Json(asked): Json<TabletWrites>,
) -> Result<Json<TabletKeptDocument>, ServerError> {
    if !is_a_tablets(&asked.write) {
        return Err(TabletProblem::MayNot.into());
    }
    away(move || {
        let request = ChangeRequest {
            key: asked.key,
            revision: asked.revision,
            change: FilmChange::AtTheBench(asked.write),
        };
        let kept = house.film(&who.film)?.change_by(&request, &who.name)?;
        Ok(Json(TabletKeptDocument {
            revision: kept.revision,
            already: kept.already,
        }))
    })
    .await
}

/// A tablet ticks off and tells what happened, be it in words alone; nothing else.
const fn is_a_tablets(write: &BenchWrite) -> bool {
    match write {
        BenchWrite::Tick { .. } | BenchWrite::Happened { .. } | BenchWrite::Remark { .. } => true,
        BenchWrite::Begin { .. }
        | BenchWrite::Strike { .. }
        | BenchWrite::GoAhead { .. }
        | BenchWrite::PlanAnew { .. }
        | BenchWrite::Seen { .. }
        | BenchWrite::Mend {}
        | BenchWrite::TakeOff {} => false,
    }
}

/// One picture of a roll of the tablet's film.
#[utoipa::path(get, path = "/api/bench/tablet/rolls/{roll}/pictures/{frame}", tag = "at the tablet", operation_id = "tablet_picture",
    params(("roll" = String, Path), ("frame" = u32, Path), Pictures),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "no scan shows this frame"),
        (status = "default", body = ProblemDocument)))]
async fn picture(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
    Path((roll, frame)): Path<(String, u32)>,
    Query(query): Query<Pictures>,
) -> Result<Response, ServerError> {
    one_picture(house, who.film, roll, frame, query).await
}

/// A small picture of a roll of the tablet's film.
#[utoipa::path(get, path = "/api/bench/tablet/rolls/{roll}/small/{frame}", tag = "at the tablet", operation_id = "tablet_small_picture",
    params(("roll" = String, Path), ("frame" = u32, Path), SmallPicture),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "no scan shows this frame"),
        (status = "default", body = ProblemDocument)))]
async fn small(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
    Path((roll, frame)): Path<(String, u32)>,
    Query(query): Query<SmallPicture>,
) -> Result<Response, ServerError> {
    small_one(house, who.film, roll, frame, query).await
}

/// That the film was changed, as it is, until the tablet is sent away.
#[utoipa::path(get, path = "/api/bench/tablet/events", tag = "at the tablet", operation_id = "tablet_events",
    responses((status = 200, body = TabletEventDocument, content_type = "text/event-stream")))]
async fn events(
    State(house): State<Arc<House>>,
    Extension(who): Extension<LetIn>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let told = BroadcastStream::new(house.events.listen());
    let film = who.film;
    let heard = told.filter_map(move |event| {
        let word = event.map_or(Some(TabletEventDocument::Lost), |event| word(&event, &film));
        std::future::ready(word.map(|word| {
            Ok(Event::default()
                .json_data(&word)
                .unwrap_or_else(|_| Event::default()))
        }))
    });
    let stream = heard.take_until(Box::pin(house.tablets.until_gone(who.id)));
    Sse::new(stream).keep_alive(KeepAlive::new().interval(SILENT_LINE))
}

/// Of all that is told, what concerns the film of a tablet, and no word of what it was.
fn word(event: &EventDocument, of: &str) -> Option<TabletEventDocument> {
    match event {
        EventDocument::Changed { film, revision, .. } if film == of => {
            Some(TabletEventDocument::Changed {
                revision: *revision,
            })
        }
        EventDocument::Lost => Some(TabletEventDocument::Lost),
        _ => None,
    }
}
