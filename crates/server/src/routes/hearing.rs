//! Sounds listened to: loops, speed, strokes, beats.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use onestrand_production::documents::{ListenAsked, ListenedDocument, LoopWords};
use onestrand_production::{Listening, round_heard};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::jobs::JobDocument;
use crate::listening::begin_listening;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(listen))
        .routes(routes!(listened))
        .routes(routes!(loop_heard))
}

/// Begins to listen to a sound. Nothing is kept of the film; what is found is fetched when
/// the work is done.
#[utoipa::path(post, path = "/api/films/{film}/sounds/{id}/listen", tag = "dub", operation_id = "listen",
    params(("film" = String, Path), ("id" = i64, Path)), request_body = ListenAsked,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn listen(
    State(house): State<Arc<House>>,
    Path((film, id)): Path<(String, i64)>,
    Json(asked): Json<ListenAsked>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let listening = Listening::of(&desk.production(), id, &asked)?;
        Ok(Json(begin_listening(&house, &desk, listening)))
    })
    .await
}

/// What a listening found, by the number of its work.
#[utoipa::path(get, path = "/api/films/{film}/listened/{job}", tag = "dub", operation_id = "listened",
    params(("film" = String, Path), ("job" = u64, Path)),
    responses((status = 200, body = ListenedDocument), (status = "default", body = ProblemDocument)))]
async fn listened(
    State(house): State<Arc<House>>,
    Path((film, job)): Path<(String, u64)>,
) -> Result<Json<ListenedDocument>, ServerError> {
    away(move || Ok(Json(house.film(&film)?.listened.of(job)?))).await
}

/// A loop that is not kept yet. Unit of all: samples of the sound as it is kept.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct LoopAsked {
    /// Where it comes back to.
    from: u64,
    /// Where it goes back from.
    to: u64,
    /// How long both are heard together.
    crossed: u64,
}

/// Some seconds round the seam of a loop, as the mix will play them: 32-bit floating point at
/// 48 kHz, two channels side by side.
#[utoipa::path(get, path = "/api/films/{film}/sounds/{id}/loop", tag = "dub", operation_id = "loop_heard",
    params(("film" = String, Path), ("id" = i64, Path), LoopAsked),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn loop_heard(
    State(house): State<Arc<House>>,
    Path((film, id)): Path<(String, i64)>,
    Query(asked): Query<LoopAsked>,
) -> Result<Response, ServerError> {
    away(move || {
        let round = LoopWords {
            from: asked.from,
            to: asked.to,
            crossed: asked.crossed,
        };
        let play = {
            let desk = house.film(&film)?;
            let production = desk.production();
            round_heard(&production, id, round)?
        };
        let samples = play()?;
        let bytes: Vec<u8> = samples.iter().flat_map(|s| s.to_le_bytes()).collect();
        let kind = [(header::CONTENT_TYPE, "application/octet-stream")];
        Ok((kind, bytes).into_response())
    })
    .await
}
