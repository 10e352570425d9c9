//! The shooting script of a film, and what is planned.

use std::path::Path as FilePath;
use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use onestrand_production::documents::{PlanDocument, ScriptDocument, ScriptImported};
use onestrand_production::{
    Cancel, PlanAsked, PlanWork, ProductionError, Quiet, export_script, export_wild_sounds,
    import_script_text, keep_photograph, photograph, script_document,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

/// The largest photograph or script that is taken. Unit: bytes.
const LARGEST: usize = 48 << 20;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(script))
        .routes(routes!(plan))
        .routes(routes!(bring_in))
        .routes(routes!(table))
        .routes(routes!(keep))
        .routes(routes!(show))
        .layer(DefaultBodyLimit::max(LARGEST))
}

/// The shooting script of a film.
#[utoipa::path(get, path = "/api/films/{film}/script", tag = "script", operation_id = "script",
    params(("film" = String, Path)),
    responses((status = 200, body = ScriptDocument), (status = "default", body = ProblemDocument)))]
async fn script(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<ScriptDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(script_document(&production)?))
    })
    .await
}

/// With what a plan is reckoned, where it is not as the film has it.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct HowToPlan {
    /// Frames of a roll that can be used.
    #[serde(default)]
    load: Option<u32>,
    /// Frames of run-up and run-out of each take.
    #[serde(default)]
    run_up: Option<u32>,
    /// Also what one more take of this setup does.
    #[serde(default)]
    one_more: Option<String>,
    /// Also the film cut in the camera.
    #[serde(default)]
    in_camera: bool,
}

/// How much film the script takes, on which rolls, and what covers what.
#[utoipa::path(get, path = "/api/films/{film}/plan", tag = "script", operation_id = "plan",
    params(("film" = String, Path), HowToPlan),
    responses((status = 200, body = PlanDocument), (status = "default", body = ProblemDocument)))]
async fn plan(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(how): Query<HowToPlan>,
) -> Result<Json<PlanDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let asked = PlanAsked {
            load: how.load,
            run_up: how.run_up,
            one_more: how.one_more.filter(|setup| !setup.is_empty()),
            in_camera: how.in_camera,
            ..PlanAsked::default()
        };
        let work = PlanWork::read(&desk.production(), &asked)?;
        Ok(Json(work.reckon(&Cancel::new(), &mut Quiet)?))
    })
    .await
}

/// What a file is called.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Named {
    /// The name of the file, to say where its problems are.
    name: String,
}

/// Brings in a screenplay, a table of setups or a list of wild sounds.
#[utoipa::path(post, path = "/api/films/{film}/script/file", tag = "script", operation_id = "bring_script_in",
    params(("film" = String, Path), Named),
    request_body(content = String, content_type = "text/plain"),
    responses((status = 200, body = ScriptImported), (status = "default", body = ProblemDocument)))]
async fn bring_in(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(named): Query<Named>,
    body: Bytes,
) -> Result<Json<ScriptImported>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let mut production = desk.production();
        let before = production.revision().map_err(ProductionError::from)?;
        let path = FilePath::new(&named.name);
        let done = import_script_text(&mut production, path, body.to_vec())?;
        if production.revision().map_err(ProductionError::from)? != before {
            let words = format!("script brought in from {}", named.name);
            desk.was_changed(&production, &words, Vec::new());
        }
        Ok(Json(done))
    })
    .await
}

/// Which table is wanted.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WhichTable {
    /// The wild sounds instead of the setups.
    #[serde(default)]
    wild_sounds: bool,
}

/// The setups, or the wild sounds, as a table.
#[utoipa::path(get, path = "/api/films/{film}/script/csv", tag = "script", operation_id = "script_csv",
    params(("film" = String, Path), WhichTable),
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn table(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(which): Query<WhichTable>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        let (name, csv) = match which.wild_sounds {
            true => ("wild-sounds.csv", export_wild_sounds(&production)?),
            false => ("setups.csv", export_script(&production)?),
        };
        let kept = format!("attachment; filename=\"{name}\"");
        let headers = [
            (header::CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()),
            (header::CONTENT_DISPOSITION, kept),
        ];
        Ok((headers, csv).into_response())
    })
    .await
}

/// A photograph that was kept.
#[derive(Debug, Clone, Serialize, ToSchema)]
struct PhotographKept {
    /// By what a visit names it.
    photograph: String,
}

/// Keeps a photograph of a visit in the film's own folder.
#[utoipa::path(post, path = "/api/films/{film}/photographs", tag = "script", operation_id = "keep_photograph",
    params(("film" = String, Path)),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = PhotographKept), (status = "default", body = ProblemDocument)))]
async fn keep(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    body: Bytes,
) -> Result<Json<PhotographKept>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let photograph = keep_photograph(&desk.production(), &body)?;
        Ok(Json(PhotographKept { photograph }))
    })
    .await
}

/// A photograph of a visit.
#[utoipa::path(get, path = "/api/films/{film}/photographs/{name}", tag = "script", operation_id = "photograph",
    params(("film" = String, Path), ("name" = String, Path)),
    responses((status = 200, content_type = "image/jpeg", body = String), (status = "default", body = ProblemDocument)))]
async fn show(
    State(house): State<Arc<House>>,
    Path((film, name)): Path<(String, String)>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let (bytes, kind) = photograph(&desk.production(), &name)?;
        let headers = [(header::CONTENT_TYPE, kind)];
        Ok((headers, bytes).into_response())
    })
    .await
}
