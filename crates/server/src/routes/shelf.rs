//! The shelf, the world outside, and lengths reckoned without a film.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use onestrand_film::Quantity;
use onestrand_production::documents::{GaugeDocument, TemplateDocument};
use onestrand_production::{
    ProductionError, ReckonRequest, gauge_document, ready, reckon, templates,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::pictures::{Keep, jpeg};
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading;
use crate::shelf::{EXAMPLE, NewFilm, ShelvedDocument};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(begin))
        .routes(routes!(face))
        .routes(routes!(example))
        .routes(routes!(reckoned))
}

/// The shelf and what the program needs from outside.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ShelfDocument {
    /// Its folder.
    dir: String,
    /// The films on it.
    films: Vec<ShelvedDocument>,
    /// The film the program was opened with.
    first: Option<String>,
    /// The name the example has or will have in addresses.
    example: String,
    /// The gauges, to choose from.
    gauges: Vec<GaugeDocument>,
    /// The templates a new film may be made from.
    templates: Vec<TemplateDocument>,
    /// What is missing on this machine, in words with what to do.
    missing: Vec<String>,
    /// This program's version.
    version: String,
}

/// The shelf.
#[utoipa::path(get, path = "/api/shelf", tag = "shelf", operation_id = "look_at_shelf",
    responses((status = 200, body = ShelfDocument), (status = "default", body = ProblemDocument)))]
async fn look(State(house): State<Arc<House>>) -> Result<Json<ShelfDocument>, ServerError> {
    away(move || {
        let outside = ready();
        Ok(Json(ShelfDocument {
            dir: house.shelf.dir().display().to_string(),
            films: house.shelf.films()?,
            first: house.first.clone(),
            example: EXAMPLE.to_owned(),
            gauges: onestrand_film::Gauge::ALL
                .into_iter()
                .map(gauge_document)
                .collect(),
            templates: templates(),
            missing: outside.missing(),
            version: env!("CARGO_PKG_VERSION").to_owned(),
        }))
    })
    .await
}

/// Begins a film.
#[utoipa::path(post, path = "/api/films", tag = "shelf", operation_id = "begin_film", request_body = NewFilm,
    responses((status = 200, body = ShelvedDocument), (status = "default", body = ProblemDocument)))]
async fn begin(
    State(house): State<Arc<House>>,
    Json(new): Json<NewFilm>,
) -> Result<Json<ShelvedDocument>, ServerError> {
    away(move || Ok(Json(house.begin(&new)?))).await
}

/// The picture that stands for a film on the shelf.
#[utoipa::path(get, path = "/api/films/{film}/face", tag = "shelf", operation_id = "face",
    params(("film" = String, Path)),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "there is none yet"),
        (status = "default", body = ProblemDocument)))]
async fn face(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Response, ServerError> {
    away(move || Ok(jpeg(house.shelf.face(&film)?, Keep::Never))).await
}

/// Begins to make the example film on the shelf.
#[utoipa::path(post, path = "/api/example", tag = "shelf", operation_id = "make_example",
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn example(State(house): State<Arc<House>>) -> Result<Json<JobDocument>, ServerError> {
    away(move || Ok(Json(reading::begin_example(&house)?))).await
}

/// A length to be reckoned.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Length {
    /// `50ft`, `37ft60`, `2724fr`, `2:31.3` or `15.24m`.
    quantity: String,
    /// The gauge.
    gauge: String,
    /// Frames a second.
    speed: String,
}

/// A length in every unit the page shows.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ReckonedDocument {
    /// Frames.
    frames: u32,
    /// Whole feet.
    feet: u32,
    /// Frames beyond them.
    rest: u32,
    /// Time as `m:ss.s`.
    clock: String,
    /// Metres.
    metres: String,
    /// What was taken for granted.
    assumptions: Vec<String>,
}

/// Reckons a length.
#[utoipa::path(get, path = "/api/reckon", tag = "shelf", operation_id = "reckon", params(Length),
    responses((status = 200, body = ReckonedDocument), (status = "default", body = ProblemDocument)))]
async fn reckoned(Query(length): Query<Length>) -> Result<Json<ReckonedDocument>, ServerError> {
    let unit = |e| ServerError::Act(ProductionError::Unit(e));
    let quantity: Quantity = length.quantity.parse().map_err(unit)?;
    let document = reckon(&ReckonRequest {
        quantity,
        gauge: length.gauge.parse().map_err(unit)?,
        speed: length.speed.parse().map_err(unit)?,
        shrinkage: None,
        track: None,
        hub_mm: None,
        thickness_mm: None,
        flange_mm: None,
    })
    .map_err(unit)?;
    Ok(Json(ReckonedDocument {
        frames: document.frames,
        feet: document.footage.feet,
        rest: document.footage.frames,
        clock: document.clock,
        metres: document.metres,
        assumptions: document.assumptions,
    }))
}
