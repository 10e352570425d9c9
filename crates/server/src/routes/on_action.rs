//! Match on action: two takes beside each other, and which takes show the same.

use std::sync::{Arc, PoisonError};

use axum::Json;
use axum::extract::{Path, State};
use onestrand_film::FrameRange;
use onestrand_production::documents::{MatchedDocument, TwinsDocument};
use onestrand_production::{
    Cancel, MatchPlan, MatchRequest, PictureSource, Quiet, TakePlace, TwinSearch, twins_document,
};
use onestrand_store::StoreError;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::twins::begin_search;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(matched))
        .routes(routes!(twins, look_for_twins))
}

/// Pictures of a film, fetched a few at a time, so that nobody waits long for them.
pub(crate) struct SmallPictures<'a>(pub(crate) &'a Desk);

impl PictureSource for SmallPictures<'_> {
    fn run(&mut self, roll: &str, range: FrameRange) -> Result<Vec<Option<Vec<u8>>>, StoreError> {
        self.0.small_prints().run(roll, range)
    }

    fn identity(&mut self, roll: &str) -> Result<Option<String>, StoreError> {
        self.0.small_prints().identity(roll)
    }
}

/// Two takes beside each other, and where to cut from one to the other.
#[utoipa::path(post, path = "/api/films/{film}/match", tag = "cut", operation_id = "match_takes",
    params(("film" = String, Path)), request_body = MatchRequest,
    responses((status = 200, body = MatchedDocument), (status = "default", body = ProblemDocument)))]
async fn matched(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<MatchRequest>,
) -> Result<Json<MatchedDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let plan = MatchPlan::new(&desk.production(), &request)?;
        let mut memory = desk.matched.lock().unwrap_or_else(PoisonError::into_inner);
        let mut source = SmallPictures(&desk);
        let answer = plan.answer(&mut memory, &mut source, &Cancel::new(), &mut Quiet)?;
        Ok(Json(answer))
    })
    .await
}

/// Which takes show the same action, as far as they were marked or looked for.
#[utoipa::path(get, path = "/api/films/{film}/twins", tag = "cut", operation_id = "twins",
    params(("film" = String, Path)),
    responses((status = 200, body = TwinsDocument), (status = "default", body = ProblemDocument)))]
async fn twins(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<TwinsDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        let found = twins_document(&production, &mut SmallPictures(&desk))?;
        Ok(Json(found))
    })
    .await
}

/// For which take twins are sought.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct LookForTwins {
    /// One take beside all others; all takes of each scene when not said.
    #[serde(default)]
    of: Option<TakePlace>,
}

/// Begins to look for takes that show the same action.
#[utoipa::path(post, path = "/api/films/{film}/twins", tag = "cut", operation_id = "look_for_twins",
    params(("film" = String, Path)), request_body = LookForTwins,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn look_for_twins(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(request): Json<LookForTwins>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let search = TwinSearch::new(&desk.production(), request.of.as_ref())?;
        Ok(Json(begin_search(&house, &desk, search)))
    })
    .await
}
