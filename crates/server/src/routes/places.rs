//! Where scans are brought from.

use std::path::PathBuf;
use std::sync::Arc;

use axum::Json;
use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use onestrand_production::AddRoll;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::copies;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::places::{DroppedFile, ENDS, FolderDocument, MatchDocument, PlacesDocument};
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    // Room for the two ends of a dropped file.
    let ends = usize::try_from(2 * ENDS + 1024).unwrap_or(usize::MAX);
    OpenApiRouter::new()
        .routes(routes!(places))
        .routes(routes!(choose))
        .routes(routes!(look))
        .routes(routes!(add_roll))
        .routes(routes!(read_again))
        .merge(
            OpenApiRouter::new()
                .routes(routes!(find))
                .layer(DefaultBodyLimit::max(ends)),
        )
        .merge(
            OpenApiRouter::new()
                .routes(routes!(copy))
                .layer(DefaultBodyLimit::disable()),
        )
}

/// The chosen folders.
#[utoipa::path(get, path = "/api/places", tag = "places", operation_id = "places",
    responses((status = 200, body = PlacesDocument), (status = "default", body = ProblemDocument)))]
async fn places(State(house): State<Arc<House>>) -> Json<PlacesDocument> {
    Json(house.places.document())
}

/// A folder.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema, IntoParams)]
#[into_params(parameter_in = Query)]
pub(crate) struct FolderPath {
    /// Its path.
    path: String,
}

/// Chooses a folder under the home folder.
#[utoipa::path(post, path = "/api/places", tag = "places", operation_id = "choose_place", request_body = FolderPath,
    responses((status = 200, body = PlacesDocument), (status = "default", body = ProblemDocument)))]
async fn choose(
    State(house): State<Arc<House>>,
    Json(folder): Json<FolderPath>,
) -> Result<Json<PlacesDocument>, ServerError> {
    away(move || Ok(Json(house.places.choose(&PathBuf::from(folder.path))?))).await
}

/// What lies in a folder.
#[utoipa::path(get, path = "/api/places/look", tag = "places", operation_id = "look_into", params(FolderPath),
    responses((status = 200, body = FolderDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Query(folder): Query<FolderPath>,
) -> Result<Json<FolderDocument>, ServerError> {
    away(move || Ok(Json(house.places.look(&PathBuf::from(folder.path))?))).await
}

/// Looks for a dropped file in the chosen folders. The body is its first and
/// its last mebibyte, one after the other.
#[utoipa::path(post, path = "/api/films/{film}/places/match", tag = "places", operation_id = "find_dropped",
    params(("film" = String, Path), DroppedFile),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = MatchDocument), (status = "default", body = ProblemDocument)))]
async fn find(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(dropped): Query<DroppedFile>,
    ends: Bytes,
) -> Result<Json<MatchDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        Ok(Json(MatchDocument {
            found: house.places.find(&dropped, &ends),
            free: copies::free_bytes(desk.dir()),
        }))
    })
    .await
}

/// A scan copied into the film's own folder.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct CopiedDocument {
    /// Its path.
    path: String,
    /// Its size. Unit: bytes.
    bytes: u64,
}

/// The size a copy will have.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct CopySize {
    /// Unit: bytes.
    bytes: u64,
}

/// Copies a dropped file into the film's folder, as it comes. It stands under
/// its name only once it is whole.
#[utoipa::path(put, path = "/api/films/{film}/scans/{name}", tag = "places", operation_id = "copy_scan",
    params(("film" = String, Path), ("name" = String, Path), CopySize),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = CopiedDocument), (status = "default", body = ProblemDocument)))]
async fn copy(
    State(house): State<Arc<House>>,
    Path((film, name)): Path<(String, String)>,
    Query(size): Query<CopySize>,
    body: Body,
) -> Result<Json<CopiedDocument>, ServerError> {
    let finding = Arc::clone(&house);
    let dir = away(move || Ok(finding.film(&film)?.dir().to_owned())).await?;
    let path = copies::take(&dir, &name, size.bytes, body).await?;
    Ok(Json(CopiedDocument {
        path: path.display().to_string(),
        bytes: size.bytes,
    }))
}

/// How a roll is to be brought in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct BringIn {
    /// The name it is to have.
    roll: String,
    /// The file, a folder of pictures, or several in order along the roll.
    files: Vec<String>,
    /// The gauge; the film's when not said.
    #[serde(default)]
    gauge: Option<String>,
    /// The speed in the camera; the film's when not said.
    #[serde(default)]
    film_speed: Option<String>,
    /// `triacetate`, `polyester` or `not-known`.
    #[serde(default = "not_known")]
    base: String,
    /// The length measured on the bench.
    #[serde(default)]
    measured: Option<String>,
    /// `project`, `scan-only` or `never-cut`.
    #[serde(default = "project")]
    fit: String,
}

fn not_known() -> String {
    "not-known".to_owned()
}

fn project() -> String {
    "project".to_owned()
}

/// Begins to bring a roll in.
#[utoipa::path(post, path = "/api/films/{film}/rolls", tag = "rolls", operation_id = "bring_in_roll",
    params(("film" = String, Path)), request_body = BringIn,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn add_roll(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(wanted): Json<BringIn>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let files = wanted
            .files
            .iter()
            .map(|f| house.places.inside(&PathBuf::from(f)))
            .collect::<Result<_, _>>()?;
        let request = AddRoll {
            roll: wanted.roll.clone(),
            files,
            gauge: wanted.gauge.clone(),
            film_speed: wanted.film_speed.clone(),
            base: wanted.base.clone(),
            measured: wanted.measured.clone(),
            shrinkage: None,
            wind: None,
            fit: wanted.fit.clone(),
        };
        Ok(Json(reading::begin_roll(&house, &desk, &request)?))
    })
    .await
}

/// Begins to read a roll's scans again, whose workprint has been thrown away or was
/// made by an older program that did not keep all that this one does.
#[utoipa::path(post, path = "/api/films/{film}/rolls/{roll}/workprint", tag = "rolls", operation_id = "read_again",
    params(("film" = String, Path), ("roll" = String, Path)),
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn read_again(
    State(house): State<Arc<House>>,
    Path((film, roll)): Path<(String, String)>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        Ok(Json(reading::begin_again(&house, &desk, &roll)?))
    })
    .await
}
