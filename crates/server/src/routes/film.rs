//! One film: what it is, its rolls, its changes.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::{ProductionDocument, RollDocument, RollLogDocument};
use onestrand_production::{FilmPart, PaperRoll, add_paper_roll, production_document, roll_log};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::desk::{ChangeRequest, KeptDocument, StepRequest, Way};
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::not_under_way;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(film))
        .routes(routes!(log))
        .routes(routes!(change))
        .routes(routes!(undo))
        .routes(routes!(redo))
        .routes(routes!(journal))
        .routes(routes!(paper))
}

/// A film.
#[utoipa::path(get, path = "/api/films/{film}", tag = "film", operation_id = "film", params(("film" = String, Path)),
    responses((status = 200, body = ProductionDocument), (status = "default", body = ProblemDocument)))]
async fn film(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<ProductionDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(production_document(&production, &desk.prints())?))
    })
    .await
}

/// A roll with its log.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}", tag = "rolls", operation_id = "roll_log",
    params(("film" = String, Path), ("roll" = String, Path)),
    responses((status = 200, body = RollLogDocument), (status = "default", body = ProblemDocument)))]
async fn log(
    State(house): State<Arc<House>>,
    Path((film, roll)): Path<(String, String)>,
) -> Result<Json<RollLogDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(roll_log(&production, &desk.prints(), &roll)?))
    })
    .await
}

/// Changes the film.
#[utoipa::path(post, path = "/api/films/{film}/changes", tag = "film", operation_id = "change_film",
    params(("film" = String, Path)), request_body = ChangeRequest,
    responses((status = 200, body = KeptDocument), (status = "default", body = ProblemDocument)))]
async fn change(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<ChangeRequest>,
) -> Result<Json<KeptDocument>, ServerError> {
    away(move || Ok(Json(house.film(&film)?.change(&request)?))).await
}

/// Takes the last change back.
#[utoipa::path(post, path = "/api/films/{film}/undo", tag = "film", operation_id = "undo",
    params(("film" = String, Path)), request_body = StepRequest,
    responses((status = 200, body = KeptDocument), (status = "default", body = ProblemDocument)))]
async fn undo(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<StepRequest>,
) -> Result<Json<KeptDocument>, ServerError> {
    away(move || Ok(Json(house.film(&film)?.step(&request.key, Way::Back)?))).await
}

/// Makes the change again that was taken back last.
#[utoipa::path(post, path = "/api/films/{film}/redo", tag = "film", operation_id = "redo",
    params(("film" = String, Path)), request_body = StepRequest,
    responses((status = 200, body = KeptDocument), (status = "default", body = ProblemDocument)))]
async fn redo(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<StepRequest>,
) -> Result<Json<KeptDocument>, ServerError> {
    away(move || Ok(Json(house.film(&film)?.step(&request.key, Way::Forth)?))).await
}

/// A line of the journal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct JournalLine {
    /// Its number.
    seq: i64,
    /// When, in UTC.
    at: String,
    /// What was done.
    words: String,
    /// `done`, `undone` or `dropped`.
    state: String,
}

/// How many lines of the journal the page shows.
const LINES: u32 = 200;

/// What was changed, newest first.
#[utoipa::path(get, path = "/api/films/{film}/journal", tag = "film", operation_id = "journal", params(("film" = String, Path)),
    responses((status = 200, body = Vec<JournalLine>), (status = "default", body = ProblemDocument)))]
async fn journal(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<Vec<JournalLine>>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let lines = desk.production().journal(LINES)?;
        let one = |line: onestrand_store::JournalEntry| JournalLine {
            seq: line.seq,
            at: line.at,
            words: line.words,
            state: line.state,
        };
        Ok(Json(lines.into_iter().map(one).collect()))
    })
    .await
}

/// A roll known on paper only.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct PaperForm {
    /// Its name.
    roll: String,
    /// Its length. Unit: frames.
    frames: u32,
    /// `triacetate`, `polyester` or `not-known`.
    base: String,
    /// `project`, `scan-only` or `never-cut`.
    fit: String,
}

/// Adds a roll known on paper only.
#[utoipa::path(post, path = "/api/films/{film}/paper", tag = "rolls", operation_id = "paper_roll",
    params(("film" = String, Path)), request_body = PaperForm,
    responses((status = 200, body = RollDocument), (status = "default", body = ProblemDocument)))]
async fn paper(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(form): Json<PaperForm>,
) -> Result<Json<RollDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let _beginning = house.jobs.beginning();
        not_under_way(&house, &desk, form.roll.trim())?;
        let mut production = desk.production();
        let roll = PaperRoll {
            roll: form.roll,
            frames: form.frames,
            gauge: None,
            base: form.base,
            fit: form.fit,
            wind: None,
        };
        let document = add_paper_roll(&mut production, &roll)?;
        let name = document.roll.clone();
        let parts = vec![FilmPart::Roll(name.clone()), FilmPart::Takes(name.clone())];
        desk.was_changed(&production, &format!("{name} on paper"), parts);
        Ok(Json(document))
    })
    .await
}
