//! Music beside the picture.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::{MusicAsked, MusicDocument};
use onestrand_production::music_beside;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new().routes(routes!(music))
}

/// Music beside a sequence of a version: where its bars end, and what could be done so that
/// both come out together. Nothing is changed; what is taken of it is an ordinary change.
#[utoipa::path(post, path = "/api/films/{film}/cuts/{cut}/music", tag = "dub", operation_id = "music_beside",
    params(("film" = String, Path), ("cut" = String, Path)), request_body = MusicAsked,
    responses((status = 200, body = MusicDocument), (status = "default", body = ProblemDocument)))]
async fn music(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
    Json(asked): Json<MusicAsked>,
) -> Result<Json<MusicDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(music_beside(&production, &cut, &asked)?))
    })
    .await
}
