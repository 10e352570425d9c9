//! What is wanted for a showing: made-up reels, and the hall.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::{ReelPlanDocument, ThrowDocument};
use onestrand_production::{ReelPlanRequest, ThrowRequest, reel_plan, throw};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(reels_made_up))
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

/// How far the projector stands, how large the picture is, what the last row reads.
#[utoipa::path(post, path = "/api/throw", tag = "showing", operation_id = "throw",
    request_body = ThrowRequest,
    responses((status = 200, body = ThrowDocument), (status = "default", body = ProblemDocument)))]
async fn hall(Json(request): Json<ThrowRequest>) -> Result<Json<ThrowDocument>, ServerError> {
    away(move || Ok(Json(throw(&request)?))).await
}
