//! The Bench room: what comes next, what a report would mean, the life of a strip.
//! What is written down goes through the changes of a film.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use onestrand_production::documents::{
    BenchRoomDocument, MeaningDocument, SeenDocument, StripHistoryDocument,
};
use onestrand_production::{
    MeaningRequest, SeenRequest, bench_meaning, bench_room, seen_on_the_reel, strip_history,
};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(bench))
        .routes(routes!(meaning))
        .routes(routes!(seen))
        .routes(routes!(history))
}

/// The bench of a film.
#[utoipa::path(get, path = "/api/films/{film}/bench", tag = "bench", operation_id = "bench_room",
    params(("film" = String, Path)),
    responses((status = 200, body = BenchRoomDocument), (status = "default", body = ProblemDocument)))]
async fn bench(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<BenchRoomDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(bench_room(&production)?))
    })
    .await
}

/// What a report would mean; nothing is written down.
#[utoipa::path(post, path = "/api/films/{film}/bench/meaning", tag = "bench", operation_id = "bench_meaning",
    params(("film" = String, Path)), request_body = MeaningRequest,
    responses((status = 200, body = MeaningDocument), (status = "default", body = ProblemDocument)))]
async fn meaning(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<MeaningRequest>,
) -> Result<Json<MeaningDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(bench_meaning(&production, &request)?))
    })
    .await
}

/// What a scan of the reel would bring into the log; nothing is written down.
#[utoipa::path(post, path = "/api/films/{film}/bench/seen", tag = "bench", operation_id = "seen_on_the_reel",
    params(("film" = String, Path)), request_body = SeenRequest,
    responses((status = 200, body = SeenDocument), (status = "default", body = ProblemDocument)))]
async fn seen(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<SeenRequest>,
) -> Result<Json<SeenDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(seen_on_the_reel(&production, &request)?))
    })
    .await
}

/// Which frame is asked about.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WhichFrame {
    /// The roll.
    roll: String,
    /// The frame.
    frame: u32,
}

/// What happened to a frame and the length it is in.
#[utoipa::path(get, path = "/api/films/{film}/bench/history", tag = "bench", operation_id = "strip_history",
    params(("film" = String, Path), WhichFrame),
    responses((status = 200, body = StripHistoryDocument), (status = "default", body = ProblemDocument)))]
async fn history(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(which): Query<WhichFrame>,
) -> Result<Json<StripHistoryDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(strip_history(&production, &which.roll, which.frame)?))
    })
    .await
}
