//! A projector followed while the mix runs.

use std::sync::{Arc, PoisonError};

use axum::Json;
use axum::body::Bytes;
use axum::extract::{Path, Query, State};
use onestrand_production::documents::{FollowedDocument, RunAsked, RunSeen};
use onestrand_production::{Ear, FollowedRun, ProductionError};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(begin))
        .routes(routes!(seen))
        .routes(routes!(hear))
}

/// Begins to follow a projector that runs a version. It is held in memory until eight newer
/// ones are; what is kept of it is its line in the log of the mix.
#[utoipa::path(post, path = "/api/films/{film}/cuts/{cut}/run", tag = "dub", operation_id = "begin_run",
    params(("film" = String, Path), ("cut" = String, Path)), request_body = RunAsked,
    responses((status = 200, body = FollowedDocument), (status = "default", body = ProblemDocument)))]
async fn begin(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
    Json(asked): Json<RunAsked>,
) -> Result<Json<FollowedDocument>, ServerError> {
    away(move || {
        let mut followed = {
            let desk = house.film(&film)?;
            let production = desk.production();
            FollowedRun::begin(&production, &cut, &asked)?
        };
        let known = followed.seen(&RunSeen::default())?;
        let run = house.runs.hold(&film, followed);
        Ok(Json(FollowedDocument { run, ..known }))
    })
    .await
}

/// Tells what was seen of the projector, and answers where it is. A tap that cannot be is
/// refused with words; what came before it in the list is taken in.
#[utoipa::path(post, path = "/api/films/{film}/runs/{run}/seen", tag = "dub", operation_id = "run_seen",
    params(("film" = String, Path), ("run" = String, Path)), request_body = RunSeen,
    responses((status = 200, body = FollowedDocument), (status = "default", body = ProblemDocument)))]
async fn seen(
    State(house): State<Arc<House>>,
    Path((film, run)): Path<(String, String)>,
    Json(seen): Json<RunSeen>,
) -> Result<Json<FollowedDocument>, ServerError> {
    away(move || with(&house, &film, run, |followed| followed.seen(&seen))).await
}

/// Which sound it is.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Hearing {
    /// The time of the first sample, on the clock of the page. Unit: seconds.
    at: f64,
    /// Samples a second.
    rate: f64,
    /// Blades of the shutter where light is heard through a cell; nothing for the claw.
    blades: Option<u8>,
    /// How late the microphone is. Unit: seconds.
    #[serde(default)]
    lag: f64,
}

/// Hears a piece of sound: 32-bit floating point, least byte first, one channel. Nothing of it
/// is kept.
#[utoipa::path(post, path = "/api/films/{film}/runs/{run}/heard", tag = "dub", operation_id = "run_heard",
    params(("film" = String, Path), ("run" = String, Path), Hearing),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = FollowedDocument), (status = "default", body = ProblemDocument)))]
async fn hear(
    State(house): State<Arc<House>>,
    Path((film, run)): Path<(String, String)>,
    Query(hearing): Query<Hearing>,
    samples: Bytes,
) -> Result<Json<FollowedDocument>, ServerError> {
    away(move || {
        let ear = Ear {
            blades: hearing.blades,
            rate: hearing.rate,
            at: hearing.at,
            lag: hearing.lag,
        };
        let samples: Vec<f32> = samples
            .chunks_exact(4)
            .map(|four| f32::from_le_bytes([four[0], four[1], four[2], four[3]]))
            .collect();
        with(&house, &film, run, |followed| followed.hear(&ear, &samples))
    })
    .await
}

fn with(
    house: &House,
    film: &str,
    run: String,
    act: impl FnOnce(&mut FollowedRun) -> Result<FollowedDocument, ProductionError>,
) -> Result<Json<FollowedDocument>, ServerError> {
    let Some(followed) = house.runs.find(film, &run) else {
        let what = "run";
        return Err(ServerError::NotThere { what, name: run });
    };
    let known = act(&mut followed.lock().unwrap_or_else(PoisonError::into_inner))?;
    Ok(Json(FollowedDocument { run, ..known }))
}
