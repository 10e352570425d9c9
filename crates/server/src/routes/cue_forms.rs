//! Cues as a form, out and in, and what they say as captions.

use std::path::Path as FilePath;
use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::response::Response;
use onestrand_production::{
    CaptionsDocument, CuesImported, SheetCsv, captions, cues_csv, import_cues_text, read_cues,
};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{as_table, sent};
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

/// The largest form that is taken: a hundred thousand lines. Unit: bytes.
const LARGEST: usize = 16 << 20;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(form))
        .routes(routes!(bring_in))
        .routes(routes!(said))
        .routes(routes!(vtt))
        .layer(DefaultBodyLimit::max(LARGEST))
}

/// Which version.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OfCut {
    /// The version.
    cut: String,
}

/// The cues as a form, as they stand in a version.
#[utoipa::path(get, path = "/api/films/{film}/dub/cues/csv", tag = "dub", operation_id = "cues_csv",
    params(("film" = String, Path), OfCut),
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn form(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(of): Query<OfCut>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let csv = cues_csv(&desk.production(), &of.cut)?;
        Ok(as_table(SheetCsv {
            sheet: "cues",
            file_name: format!("{}-cues.csv", of.cut),
            csv,
        }))
    })
    .await
}

/// How a form of cues is brought in.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct CuesIn {
    /// The version they are laid to.
    cut: String,
    /// The name of the file, to say where its problems are.
    name: String,
    /// Whether they are laid; otherwise it is only said what would be.
    #[serde(default)]
    keep: bool,
}

/// Brings a form of cues in, as one step, or says what it would bring.
#[utoipa::path(post, path = "/api/films/{film}/dub/cues", tag = "dub", operation_id = "bring_cues_in",
    params(("film" = String, Path), CuesIn),
    request_body(content = String, content_type = "text/csv"),
    responses((status = 200, body = CuesImported), (status = "default", body = ProblemDocument)))]
async fn bring_in(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(how): Query<CuesIn>,
    body: Bytes,
) -> Result<Json<CuesImported>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let (named, cut) = (FilePath::new(&how.name), Some(how.cut.as_str()));
        let mut production = desk.production();
        if !how.keep {
            let (_, _, would) = read_cues(&production, named, body.to_vec(), cut)?;
            return Ok(Json(would));
        }
        let done = import_cues_text(&mut production, named, body.to_vec(), cut)?;
        if done.cues > 0 {
            // They only stand beside whatever another window has done.
            desk.was_changed(&production, &format!("cues of {}", how.name), Vec::new());
        }
        Ok(Json(done))
    })
    .await
}

/// What the cues of a version say, as captions, and what of it is left out.
#[utoipa::path(get, path = "/api/films/{film}/dub/captions", tag = "dub", operation_id = "captions",
    params(("film" = String, Path), OfCut),
    responses((status = 200, body = CaptionsDocument), (status = "default", body = ProblemDocument)))]
async fn said(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(of): Query<OfCut>,
) -> Result<Json<CaptionsDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        Ok(Json(captions(&desk.production(), &of.cut)?))
    })
    .await
}

/// The captions of a version as a file: WebVTT.
#[utoipa::path(get, path = "/api/films/{film}/dub/captions/vtt", tag = "dub", operation_id = "captions_vtt",
    params(("film" = String, Path), OfCut),
    responses((status = 200, content_type = "text/vtt", body = String), (status = "default", body = ProblemDocument)))]
async fn vtt(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(of): Query<OfCut>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let found = captions(&desk.production(), &of.cut)?;
        let name = format!("{}.vtt", found.cut);
        let kind = "text/vtt; charset=utf-8";
        Ok(sent(kind, found.vtt.into_bytes(), Some(&name)))
    })
    .await
}
