//! The titles of a film.

use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, State};
use onestrand_production::documents::{TitleCardDocument, TitleWords, TitlesDocument};
use onestrand_production::{keep_for_title, title_card, titles_document};
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

/// The largest picture or typeface that is taken. Unit: bytes.
const LARGEST: usize = 64 << 20;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(titles))
        .routes(routes!(card))
        .routes(routes!(keep))
        .layer(DefaultBodyLimit::max(LARGEST))
}

/// The titles of a film, with the copy stand.
#[utoipa::path(get, path = "/api/films/{film}/titles", tag = "titles", operation_id = "titles",
    params(("film" = String, Path)),
    responses((status = 200, body = TitlesDocument), (status = "default", body = ProblemDocument)))]
async fn titles(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<TitlesDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(titles_document(&production)?))
    })
    .await
}

/// How a title is set, measured and exposed. It need not be kept: so a card can be looked
/// at while it is written.
#[utoipa::path(post, path = "/api/films/{film}/titles/card", tag = "titles", operation_id = "title_card",
    params(("film" = String, Path)), request_body = TitleWords,
    responses((status = 200, body = TitleCardDocument), (status = "default", body = ProblemDocument)))]
async fn card(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(title): Json<TitleWords>,
) -> Result<Json<TitleCardDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(title_card(&production, &title)?))
    })
    .await
}

/// A file that was kept for titles.
#[derive(Debug, Clone, Serialize, ToSchema)]
struct TitleFileKept {
    /// By what a title names it.
    name: String,
}

/// Keeps artwork, a JPEG or a PNG, or a typeface in the film's own folder.
#[utoipa::path(post, path = "/api/films/{film}/titles/files", tag = "titles", operation_id = "keep_for_title",
    params(("film" = String, Path)),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = TitleFileKept), (status = "default", body = ProblemDocument)))]
async fn keep(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    body: Bytes,
) -> Result<Json<TitleFileKept>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let name = keep_for_title(&desk.production(), &body)?;
        Ok(Json(TitleFileKept { name }))
    })
    .await
}
