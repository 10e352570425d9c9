//! The titles of a film.

use std::sync::Arc;

use axum::Json;
use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use onestrand_production::documents::{
    TitleCardDocument, TitleStandDocument, TitleWords, TitlesDocument,
};
use onestrand_production::{
    TitleFilm, keep_for_title, kept_title, title_card, title_pictures_name, title_stand,
    titles_document,
};
use onestrand_store::PictureRun;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::pictures::{self, Keep, LONGEST_RUN};
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

/// The largest picture or typeface that is taken. Unit: bytes.
const LARGEST: usize = 64 << 20;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(titles))
        .routes(routes!(card))
        .routes(routes!(stand))
        .routes(routes!(keep))
        .routes(routes!(drawn))
        .routes(routes!(frame))
        .routes(routes!(run))
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

/// The copy stand of a film, reckoned.
#[utoipa::path(get, path = "/api/films/{film}/titles/stand", tag = "titles", operation_id = "title_stand",
    params(("film" = String, Path)),
    responses((status = 200, body = TitleStandDocument), (status = "default", body = ProblemDocument)))]
async fn stand(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<TitleStandDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(title_stand(&production)?))
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

/// How a title is drawn.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct HowDrawn {
    /// Pixels across; its height follows from the projected picture.
    width: u32,
    /// As this frame of it is exposed, counted from 0; else the card with all its
    /// lettering, as it lies under the camera.
    #[serde(default)]
    at: Option<u32>,
}

/// A title as a picture. It need not be kept: so a card is seen while it is written.
#[utoipa::path(post, path = "/api/films/{film}/titles/drawn", tag = "titles", operation_id = "title_drawn",
    params(("film" = String, Path), HowDrawn), request_body = TitleWords,
    responses((status = 200, content_type = "image/jpeg", body = String), (status = "default", body = ProblemDocument)))]
async fn drawn(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(how): Query<HowDrawn>,
    Json(title): Json<TitleWords>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        let title = house.titles.film(&production, &title, how.width)?;
        drop(production);
        let jpeg = title.jpeg(how.at)?;
        Ok(([(header::CONTENT_TYPE, "image/jpeg")], jpeg).into_response())
    })
    .await
}

/// Which picture of a kept title.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WhichFrame {
    /// Pixels across.
    width: u32,
    /// The name of the title's pictures, from the list of titles. With it the browser may
    /// keep them.
    #[serde(default)]
    drawn: Option<String>,
}

/// A frame of a title as it will be exposed, counted from 0.
#[utoipa::path(get, path = "/api/films/{film}/titles/{id}/frames/{frame}", tag = "titles", operation_id = "title_frame",
    params(("film" = String, Path), ("id" = i64, Path), ("frame" = u32, Path), WhichFrame),
    responses((status = 200, content_type = "image/jpeg", body = String), (status = "default", body = ProblemDocument)))]
async fn frame(
    State(house): State<Arc<House>>,
    Path((film, id, frame)): Path<(String, i64, u32)>,
    Query(which): Query<WhichFrame>,
) -> Result<Response, ServerError> {
    away(move || {
        let (title, keep) = kept_and_drawn(&house, &film, id, &which)?;
        let headers = [
            (header::CONTENT_TYPE, HeaderValue::from_static("image/jpeg")),
            (header::CACHE_CONTROL, keep.header()),
        ];
        Ok((headers, title.jpeg(Some(frame))?).into_response())
    })
    .await
}

/// A kept title drawn, and whether the browser may keep its pictures.
fn kept_and_drawn(
    house: &Arc<House>,
    film: &str,
    id: i64,
    which: &WhichFrame,
) -> Result<(Arc<TitleFilm>, Keep), ServerError> {
    let desk = house.film(film)?;
    let production = desk.production();
    let title = kept_title(&production, id)?;
    let now = title_pictures_name(&production, &title)?;
    let keep = match which.drawn.as_ref() == Some(&now) {
        true => Keep::Forever,
        false => Keep::Never,
    };
    let title = house.titles.film(&production, &title, which.width)?;
    Ok((title, keep))
}

/// A run of frames of a title.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct RunOfTitle {
    /// The first frame, counted from 0.
    first: u32,
    /// How many; at most 96.
    count: u32,
    /// Pixels across.
    width: u32,
    /// The name of the title's pictures. With it the browser may keep them.
    #[serde(default)]
    drawn: Option<String>,
}

/// The pictures of a run of frames of a title as they will be exposed, in one answer: for
/// each frame a length of four bytes, least first, then so many bytes of JPEG. A card that
/// stands longer than the title shows its last frame on.
#[utoipa::path(get, path = "/api/films/{film}/titles/{id}/run", tag = "titles", operation_id = "title_run",
    params(("film" = String, Path), ("id" = i64, Path), RunOfTitle),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn run(
    State(house): State<Arc<House>>,
    Path((film, id)): Path<(String, i64)>,
    Query(run): Query<RunOfTitle>,
) -> Result<Response, ServerError> {
    away(move || {
        let RunOfTitle { width, drawn, .. } = run;
        let (title, keep) = kept_and_drawn(&house, &film, id, &WhichFrame { width, drawn })?;
        let frames = title.jpegs(run.first, run.count.clamp(1, LONGEST_RUN))?;
        let run = PictureRun {
            lengths: frames.iter().map(|jpeg| Some(jpeg.len())).collect(),
            bytes: frames.concat(),
        };
        let body = pictures::one_after_another(run).concat();
        let octets = HeaderValue::from_static("application/octet-stream");
        let headers = [
            (header::CONTENT_TYPE, octets),
            (header::CACHE_CONTROL, keep.header()),
        ];
        Ok((headers, Body::from(body)).into_response())
    })
    .await
}
