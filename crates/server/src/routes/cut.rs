//! Trial cuts: as they stand, and as they would stand.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::{ComparedDocument, CutChange, CutDocument, WaysDocument};
use onestrand_production::{WaysAsked, WaysRequest, compare_cuts, cut_document, try_cut};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(cut))
        .routes(routes!(on_trial))
        .routes(routes!(ways_out))
        .routes(routes!(compared))
}

/// A version with its check.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}", tag = "cut", operation_id = "cut",
    params(("film" = String, Path), ("cut" = String, Path)),
    responses((status = 200, body = CutDocument), (status = "default", body = ProblemDocument)))]
async fn cut(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
) -> Result<Json<CutDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(cut_document(&production, &cut)?))
    })
    .await
}

/// A version as it would stand after a change; nothing is kept.
#[utoipa::path(post, path = "/api/films/{film}/cuts/{cut}/trial", tag = "cut", operation_id = "try_cut",
    params(("film" = String, Path), ("cut" = String, Path)), request_body = CutChange,
    responses((status = 200, body = CutDocument), (status = "default", body = ProblemDocument)))]
async fn on_trial(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
    Json(change): Json<CutChange>,
) -> Result<Json<CutDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(try_cut(&production, &cut, &change)?))
    })
    .await
}

/// The ways out of one conflict, of a version that has many.
#[utoipa::path(post, path = "/api/films/{film}/cuts/{cut}/ways", tag = "cut", operation_id = "ways_out",
    params(("film" = String, Path), ("cut" = String, Path)), request_body = WaysRequest,
    responses((status = 200, body = WaysDocument), (status = "default", body = ProblemDocument)))]
async fn ways_out(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
    Json(request): Json<WaysRequest>,
) -> Result<Json<WaysDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        // An edit does not wait for what is looked for here.
        let asked = WaysAsked::new(&desk.production(), &cut, &request)?;
        Ok(Json(asked.answer()?))
    })
    .await
}

/// What leads from one version to another.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/compared/{to}", tag = "cut", operation_id = "compared",
    params(("film" = String, Path), ("cut" = String, Path), ("to" = String, Path)),
    responses((status = 200, body = ComparedDocument), (status = "default", body = ProblemDocument)))]
async fn compared(
    State(house): State<Arc<House>>,
    Path((film, cut, to)): Path<(String, String, String)>,
) -> Result<Json<ComparedDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(compare_cuts(&production, &cut, &to)?))
    })
    .await
}
