//! Voice and effects recorded in the room, each second kept as it comes.

use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{Path, Query, State};
use onestrand_production::{
    RecordedDocument, RecordingDocument, RecordingWords, begin_recording, close_recording,
    finish_recording, keep_recorded, recordings, throw_recording_away,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(listed, begin))
        .routes(routes!(keep, throw_away))
        .routes(routes!(finish))
}

/// Recordings that are being made or were left half, as by a crash.
#[utoipa::path(get, path = "/api/films/{film}/recordings", tag = "dub", operation_id = "recordings",
    params(("film" = String, Path)),
    responses((status = 200, body = Vec<RecordingDocument>), (status = "default", body = ProblemDocument)))]
async fn listed(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<Vec<RecordingDocument>>, ServerError> {
    away(move || Ok(Json(recordings(house.film(&film)?.dir())))).await
}

/// Begins a recording.
#[utoipa::path(post, path = "/api/films/{film}/recordings", tag = "dub", operation_id = "begin_recording",
    params(("film" = String, Path)), request_body = RecordingWords,
    responses((status = 200, body = RecordingDocument), (status = "default", body = ProblemDocument)))]
async fn begin(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(about): Json<RecordingWords>,
) -> Result<Json<RecordingDocument>, ServerError> {
    away(move || Ok(Json(begin_recording(house.film(&film)?.dir(), &about)?))).await
}

/// Where samples belong.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct KeptAt {
    /// The sample of each channel that the first of them is.
    at: u64,
    /// How far into the recording the frame is heard that it was recorded from, once the
    /// picture runs; noted, so that a half recording lies right too. Unit: samples.
    #[serde(default)]
    offset: Option<u64>,
}

/// What is kept of a recording.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct KeptSamplesDocument {
    /// Samples of each channel.
    samples: u64,
}

/// Keeps samples of a recording: 32-bit floating point, least byte first, channels in turn.
/// They are on the disk when this is answered; sent again, they are written again in the
/// same place.
#[utoipa::path(post, path = "/api/films/{film}/recordings/{recording}", tag = "dub", operation_id = "keep_recorded",
    params(("film" = String, Path), ("recording" = String, Path), KeptAt),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = KeptSamplesDocument), (status = "default", body = ProblemDocument)))]
async fn keep(
    State(house): State<Arc<House>>,
    Path((film, recording)): Path<(String, String)>,
    Query(kept): Query<KeptAt>,
    samples: Bytes,
) -> Result<Json<KeptSamplesDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let samples = keep_recorded(desk.dir(), &recording, kept.at, &samples, kept.offset)?;
        Ok(Json(KeptSamplesDocument { samples }))
    })
    .await
}

/// How a recording is finished.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct FinishRecording {
    /// How far into it the frame is heard that it was recorded from: the count-in and how
    /// late the machine is. Unit: samples.
    offset: u64,
}

/// Makes a recording a sound of the film; asked again, it says the same.
#[utoipa::path(post, path = "/api/films/{film}/recordings/{recording}/done", tag = "dub", operation_id = "finish_recording",
    params(("film" = String, Path), ("recording" = String, Path)), request_body = FinishRecording,
    responses((status = 200, body = RecordedDocument), (status = "default", body = ProblemDocument)))]
async fn finish(
    State(house): State<Arc<House>>,
    Path((film, recording)): Path<(String, String)>,
    Json(how): Json<FinishRecording>,
) -> Result<Json<RecordedDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        // Read as a whole before the film is held: others go on meanwhile.
        close_recording(desk.dir(), &recording)?;
        let mut production = desk.production();
        let recorded = finish_recording(&mut production, &recording, how.offset)?;
        let part = onestrand_production::FilmPart::Dub(recorded.id);
        desk.was_changed(&production, "a recording is kept", vec![part]);
        Ok(Json(recorded))
    })
    .await
}

/// Throws a recording away that is not a sound of the film.
#[utoipa::path(delete, path = "/api/films/{film}/recordings/{recording}", tag = "dub", operation_id = "throw_recording_away",
    params(("film" = String, Path), ("recording" = String, Path)),
    responses((status = 200, body = Vec<RecordingDocument>), (status = "default", body = ProblemDocument)))]
async fn throw_away(
    State(house): State<Arc<House>>,
    Path((film, recording)): Path<(String, String)>,
) -> Result<Json<Vec<RecordingDocument>>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        throw_recording_away(desk.dir(), &recording)?;
        Ok(Json(recordings(desk.dir())))
    })
    .await
}
