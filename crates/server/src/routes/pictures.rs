//! Pictures of rolls: one, a run of them, small ones.

use std::convert::Infallible;
use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use futures_util::stream;
use onestrand_film::FrameRange;
use onestrand_production::{ProductionError, contact_strip, small_picture};
use onestrand_store::{PictureRun, Workprints};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(picture))
        .routes(routes!(run))
        .routes(routes!(small))
        .routes(routes!(strip))
}

/// Which pictures are meant, so that they may be kept by the browser.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub(super) struct Pictures {
    /// The name of the roll's pictures, from its log. With it the browser may
    /// keep them.
    #[serde(default)]
    pictures: Option<String>,
}

/// Whether the browser may keep a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Keep {
    /// Asked for under the name that the roll's pictures have now: another
    /// workprint has another name.
    Forever,
    /// What comes under this address may become something else.
    Never,
}

impl Keep {
    fn of(prints: &Workprints, roll: &str, named: Option<&str>) -> Result<Self, ServerError> {
        let now = prints.identity(roll)?;
        let is_named = now.is_some() && now.as_deref() == named;
        Ok(if is_named { Self::Forever } else { Self::Never })
    }

    pub(super) fn header(self) -> HeaderValue {
        HeaderValue::from_static(match self {
            Self::Forever => "private, max-age=31536000, immutable",
            Self::Never => "no-store",
        })
    }
}

/// A picture as it is served, or that there is none.
pub(super) fn jpeg(bytes: Option<Vec<u8>>, keep: Keep) -> Response {
    match bytes {
        Some(bytes) => (
            [
                (header::CONTENT_TYPE, HeaderValue::from_static("image/jpeg")),
                (header::CACHE_CONTROL, keep.header()),
            ],
            Bytes::from(bytes),
        )
            .into_response(),
        None => StatusCode::NO_CONTENT.into_response(),
    }
}

/// One picture of a roll.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}/pictures/{frame}", tag = "pictures", operation_id = "picture",
    params(("film" = String, Path), ("roll" = String, Path), ("frame" = u32, Path), Pictures),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "no scan shows this frame"),
        (status = "default", body = ProblemDocument)))]
async fn picture(
    State(house): State<Arc<House>>,
    Path((film, roll, frame)): Path<(String, String, u32)>,
    Query(query): Query<Pictures>,
) -> Result<Response, ServerError> {
    one_picture(house, film, roll, frame, query).await
}

/// One picture, as it is served.
pub(super) async fn one_picture(
    house: Arc<House>,
    film: String,
    roll: String,
    frame: u32,
    query: Pictures,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let mut prints = desk.prints();
        let keep = Keep::of(&prints, &roll, query.pictures.as_deref())?;
        Ok(jpeg(prints.picture(&roll, frame)?, keep))
    })
    .await
}

/// A run of frames.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Run {
    /// The first frame.
    first: u32,
    /// How many; at most 96.
    count: u32,
    /// The name of the roll's pictures.
    #[serde(default)]
    pictures: Option<String>,
}

/// The longest run of one request: four seconds at 24 frames a second.
pub(super) const LONGEST_RUN: u32 = 96;

/// The pictures of a run of frames in one answer: for each frame a length of
/// four bytes, least first, then so many bytes of JPEG; length 0 where no scan
/// shows the frame.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}/run", tag = "pictures", operation_id = "run_of_pictures",
    params(("film" = String, Path), ("roll" = String, Path), Run),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn run(
    State(house): State<Arc<House>>,
    Path((film, roll)): Path<(String, String)>,
    Query(run): Query<Run>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let count = run.count.clamp(1, LONGEST_RUN);
        let range = FrameRange::of(run.first, run.first.saturating_add(count))
            .map_err(|e| ServerError::Act(ProductionError::Unit(e)))?;
        let mut prints = desk.prints();
        let keep = Keep::of(&prints, &roll, run.pictures.as_deref())?;
        let pictures = prints.run_together(&roll, range)?;
        drop(prints);
        let parts = one_after_another(pictures);
        let length: usize = parts.iter().map(Bytes::len).sum();
        let parts = parts.into_iter().map(Ok::<Bytes, Infallible>);
        Ok((
            [
                (
                    header::CONTENT_TYPE,
                    HeaderValue::from_static("application/octet-stream"),
                ),
                (header::CACHE_CONTROL, keep.header()),
                (header::CONTENT_LENGTH, HeaderValue::from(length)),
            ],
            Body::from_stream(stream::iter(parts)),
        )
            .into_response())
    })
    .await
}

/// How large a small picture is to be.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub(super) struct SmallPicture {
    /// At least so high. Unit: pixels.
    height: u16,
    /// The name of the roll's pictures.
    #[serde(default)]
    pictures: Option<String>,
}

/// One small picture of a roll.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}/small/{frame}", tag = "pictures", operation_id = "small_picture",
    params(("film" = String, Path), ("roll" = String, Path), ("frame" = u32, Path), SmallPicture),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "no scan shows this frame"),
        (status = "default", body = ProblemDocument)))]
async fn small(
    State(house): State<Arc<House>>,
    Path((film, roll, frame)): Path<(String, String, u32)>,
    Query(query): Query<SmallPicture>,
) -> Result<Response, ServerError> {
    small_one(house, film, roll, frame, query).await
}

/// One small picture, as it is served.
pub(super) async fn small_one(
    house: Arc<House>,
    film: String,
    roll: String,
    frame: u32,
    query: SmallPicture,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let mut prints = desk.small_prints();
        let keep = Keep::of(&prints, &roll, query.pictures.as_deref())?;
        let found = prints.picture(&roll, frame)?;
        drop(prints);
        let smaller = found
            .map(|whole| small_picture(&whole, (1, query.height)))
            .transpose()?;
        Ok(jpeg(smaller, keep))
    })
    .await
}

/// Small pictures of many frames.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Strip {
    /// The frames, parted by commas.
    frames: String,
    /// Each at least so high. Unit: pixels.
    height: u16,
    /// The name of the roll's pictures.
    #[serde(default)]
    pictures: Option<String>,
}

/// The most pictures of one strip.
const LONGEST_STRIP: usize = onestrand_production::CONTACT_STRIP_MAX;

/// Small pictures of many frames as one JPEG, in columns from the top down. The
/// header `x-onestrand-cells` says width and height of a picture, width and
/// height of a cell, and how many stand in a column.
#[utoipa::path(get, path = "/api/films/{film}/rolls/{roll}/strip", tag = "pictures", operation_id = "strip_of_pictures",
    params(("film" = String, Path), ("roll" = String, Path), Strip),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn strip(
    State(house): State<Arc<House>>,
    Path((film, roll)): Path<(String, String)>,
    Query(query): Query<Strip>,
) -> Result<Response, ServerError> {
    let frames = frames_of(&query.frames)?;
    away(move || {
        let desk = house.film(&film)?;
        let mut prints = desk.small_prints();
        let keep = Keep::of(&prints, &roll, query.pictures.as_deref())?;
        let strip = contact_strip(&mut prints, &roll, &frames, (1, query.height))?;
        drop(prints);
        let (picture, cell) = (strip.picture, strip.cell);
        let cells = format!(
            "{} {} {} {} {}",
            picture.0, picture.1, cell.0, cell.1, strip.rows
        );
        let mut response = jpeg(Some(strip.jpeg), keep);
        if let Ok(value) = HeaderValue::from_str(&cells) {
            response.headers_mut().insert("x-onestrand-cells", value);
        }
        Ok(response)
    })
    .await
}

fn frames_of(text: &str) -> Result<Vec<u32>, ServerError> {
    let frames: Result<Vec<u32>, _> = text.split(',').map(str::parse).collect();
    match frames {
        Ok(frames) if frames.len() <= LONGEST_STRIP => Ok(frames),
        _ => Err(ServerError::Unreadable {
            why: format!("1 to {LONGEST_STRIP} frames are wanted, parted by commas"),
        }),
    }
}

/// The body of a run, in parts: each length, and the JPEG where it lies.
pub(super) fn one_after_another(pictures: PictureRun) -> Vec<Bytes> {
    let mut rest = Bytes::from(pictures.bytes);
    let mut parts = Vec::with_capacity(2 * pictures.lengths.len());
    for length in pictures.lengths {
        let jpeg = rest.split_to(length.unwrap_or(0));
        let length = u32::try_from(jpeg.len()).unwrap_or(0);
        parts.push(Bytes::copy_from_slice(&length.to_le_bytes()));
        if length > 0 {
            parts.push(jpeg);
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use onestrand_store::PictureRun;

    use super::one_after_another;

    #[test]
    fn a_run_says_how_long_each_picture_is() {
        let run = PictureRun {
            bytes: vec![7, 8, 9],
            lengths: vec![Some(2), None, Some(1)],
        };
        let body = one_after_another(run).concat();
        assert_eq!(body, [2, 0, 0, 0, 7, 8, 0, 0, 0, 0, 1, 0, 0, 0, 9]);
    }
}
