//! What is wanted for a showing: made-up reels, and the hall.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use onestrand_production::documents::{ReelPlanDocument, ThrowDocument};
use onestrand_production::{ReelPlanRequest, ThrowRequest, gather_reel_labels, reel_plan, throw};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::sent;
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(reels_made_up))
        .routes(routes!(labels_of_reels))
        .routes(routes!(hall))
}

/// What goes on which reel; nothing is kept.
#[utoipa::path(post, path = "/api/films/{film}/reel-plan", tag = "showing", operation_id = "reel_plan",
    params(("film" = String, Path)), request_body = ReelPlanRequest,
    responses((status = 200, body = ReelPlanDocument), (status = "default", body = ProblemDocument)))]
async fn reels_made_up(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<ReelPlanRequest>,
) -> Result<Json<ReelPlanDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(reel_plan(&production, &request)?))
    })
    .await
}

/// The labels of those reels, their cans and leaders, as a PDF; nothing is kept.
#[utoipa::path(post, path = "/api/films/{film}/reel-plan/labels", tag = "showing", operation_id = "reel_labels",
    params(("film" = String, Path), LabelPaper), request_body = ReelPlanRequest,
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn labels_of_reels(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(paper): Query<LabelPaper>,
    Json(request): Json<ReelPlanRequest>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let letter = paper.paper.as_deref() == Some("letter");
        let labels = gather_reel_labels(&desk.production(), &request, letter)?;
        // The film is free while the sheet is set.
        let printed = labels.print()?;
        Ok(sent(
            "application/pdf",
            printed.pdf,
            Some(&printed.file_name),
        ))
    })
    .await
}

/// On what labels are printed.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct LabelPaper {
    /// `a4` or `letter`.
    paper: Option<String>,
}

/// How far the projector stands, how large the picture is, what the last row reads.
#[utoipa::path(post, path = "/api/throw", tag = "showing", operation_id = "throw",
    request_body = ThrowRequest,
    responses((status = 200, body = ThrowDocument), (status = "default", body = ProblemDocument)))]
async fn hall(Json(request): Json<ThrowRequest>) -> Result<Json<ThrowDocument>, ServerError> {
    away(move || Ok(Json(throw(&request)?))).await
}
