//! The sound of a film: what is laid where.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use onestrand_production::documents::DubDocument;
use onestrand_production::dub_document;
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new().routes(routes!(dub))
}

/// Which version.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OfVersion {
    /// The version.
    cut: String,
}

/// The sound of a film as it stands in a version: columns, cues, sounds, echoes of joins,
/// and whose hands move what.
#[utoipa::path(get, path = "/api/films/{film}/dub", tag = "dub", operation_id = "dub",
    params(("film" = String, Path), OfVersion),
    responses((status = 200, body = DubDocument), (status = "default", body = ProblemDocument)))]
async fn dub(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(of): Query<OfVersion>,
) -> Result<Json<DubDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(dub_document(&production, &of.cut)?))
    })
    .await
}
