//! The light of the shots: the card, scenes solved, pictures in another light, paper, CDL.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use onestrand_production::documents::{GradingCard, LightAsked, LightSolved};
use onestrand_production::{decision_list, gather_grading, grading_card, lit_picture, solve_light};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::pictures::{Keep, jpeg};
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(card))
        .routes(routes!(solve))
        .routes(routes!(lit))
        .routes(routes!(list_of_corrections))
        .routes(routes!(card_on_paper))
}

/// The grading card of a film.
#[utoipa::path(get, path = "/api/films/{film}/light", tag = "light", operation_id = "grading_card",
    params(("film" = String, Path)),
    responses((status = 200, body = GradingCard), (status = "default", body = ProblemDocument)))]
async fn card(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<GradingCard>, ServerError> {
    away(move || Ok(Json(grading_card(&house.film(&film)?.production())?))).await
}

/// Measures patches and solves their shots together. Nothing is kept.
#[utoipa::path(post, path = "/api/films/{film}/light/solved", tag = "light", operation_id = "solve_light",
    params(("film" = String, Path)), request_body = LightAsked,
    responses((status = 200, body = LightSolved), (status = "default", body = ProblemDocument)))]
async fn solve(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(asked): Json<LightAsked>,
) -> Result<Json<LightSolved>, ServerError> {
    away(move || Ok(Json(solve_light(&house.film(&film)?.production(), &asked)?))).await
}

/// Points of red, green and blue light.
#[derive(Debug, Clone, Copy, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct LightWanted {
    /// Red. Unit: points.
    red: i16,
    /// Green.
    green: i16,
    /// Blue.
    blue: i16,
}

/// A frame as it would be in another light, half the size of its browsing picture.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}/lit/{frame}", tag = "light", operation_id = "lit_picture",
    params(("film" = String, Path), ("roll" = String, Path), ("frame" = u32, Path), LightWanted),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn lit(
    State(house): State<Arc<House>>,
    Path((film, roll, frame)): Path<(String, String, u32)>,
    Query(wanted): Query<LightWanted>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let points = [wanted.red, wanted.green, wanted.blue];
        let picture = lit_picture(&desk.production(), &roll, frame, points)?;
        Ok(jpeg(Some(picture), Keep::Never))
    })
    .await
}

/// The grading card as an ASC CDL collection (`.ccc`).
#[utoipa::path(get, path = "/api/films/{film}/light/cdl", tag = "light", operation_id = "decision_list",
    params(("film" = String, Path)),
    responses((status = 200, content_type = "application/xml", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn list_of_corrections(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Response, ServerError> {
    away(move || {
        let (text, _count) = decision_list(&house.film(&film)?.production())?;
        Ok(([(header::CONTENT_TYPE, "application/xml")], text).into_response())
    })
    .await
}

/// On which paper.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OnPaper {
    /// Whether it is Letter; A4 when not said.
    #[serde(default)]
    letter: bool,
}

/// The grading card of a version as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/grading-card", tag = "light", operation_id = "grading_card_on_paper",
    params(("film" = String, Path), ("cut" = String, Path), OnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn card_on_paper(
    State(house): State<Arc<House>>,
    Path((film, cut)): Path<(String, String)>,
    Query(paper): Query<OnPaper>,
) -> Result<Response, ServerError> {
    away(move || {
        let mut gathered = {
            let desk = house.film(&film)?;
            let production = desk.production();
            gather_grading(&production, &cut, paper.letter)?
        };
        let printed = gathered.print()?;
        Ok(([(header::CONTENT_TYPE, "application/pdf")], printed.pdf).into_response())
    })
    .await
}
