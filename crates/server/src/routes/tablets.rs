//! The tablet's door, from the main machine: open, shut, who is in.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::tablets::{TabletDoorDocument, TabletProblem};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look, open, shut))
        .routes(routes!(send_away))
}

/// Which film a tablet is to be let in for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
struct LetTabletIn {
    /// The film.
    film: String,
}

/// The tablet's door as it is.
#[utoipa::path(get, path = "/api/tablets", tag = "tablets", operation_id = "tablet_door",
    responses((status = 200, body = TabletDoorDocument), (status = "default", body = ProblemDocument)))]
async fn look(State(house): State<Arc<House>>) -> Json<TabletDoorDocument> {
    Json(house.tablets.document())
}

/// Opens the door on the local network, where it is shut, and gives a code that lets one
/// tablet in.
#[utoipa::path(post, path = "/api/tablets", tag = "tablets", operation_id = "let_tablet_in", request_body = LetTabletIn,
    responses((status = 200, body = TabletDoorDocument), (status = "default", body = ProblemDocument)))]
async fn open(
    State(house): State<Arc<House>>,
    Json(asked): Json<LetTabletIn>,
) -> Result<Json<TabletDoorDocument>, ServerError> {
    away(move || {
        let desk = house.film(&asked.film)?;
        Ok(Json(house.tablets.let_in(&house, &desk.film)?))
    })
    .await
}

/// Shuts the door and sends all tablets away.
#[utoipa::path(delete, path = "/api/tablets", tag = "tablets", operation_id = "shut_tablet_door",
    responses((status = 200, body = TabletDoorDocument), (status = "default", body = ProblemDocument)))]
async fn shut(State(house): State<Arc<House>>) -> Json<TabletDoorDocument> {
    Json(house.tablets.shut())
}

/// Sends one tablet away.
#[utoipa::path(delete, path = "/api/tablets/{tablet}", tag = "tablets", operation_id = "send_tablet_away",
    params(("tablet" = u32, Path)),
    responses((status = 200, body = TabletDoorDocument), (status = "default", body = ProblemDocument)))]
async fn send_away(
    State(house): State<Arc<House>>,
    Path(tablet): Path<u32>,
) -> Result<Json<TabletDoorDocument>, ServerError> {
    match house.tablets.send_away(tablet) {
        true => Ok(Json(house.tablets.document())),
        false => Err(TabletProblem::NoTablet.into()),
    }
}
