//! A shelf of scans read in one go, and what came of it.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_film::RollId;
use onestrand_production::{
    AddRoll, ProductionError, ScanOnShelf, ShelfProblem, ShelfRead, ShelfScan, begin_shelf,
    put_shelf_away, shelf_read,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::{not_under_way, spawn_written_down};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(begin))
        .routes(routes!(came_of_it))
        .routes(routes!(put_away))
}

/// A scan and the roll it is to become.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct ScanForm {
    /// The file, or the folder of pictures.
    file: String,
    /// The name the roll is to have.
    roll: String,
}

/// Scans that are to be read in one go, and what holds for each of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct ShelfForm {
    /// The scans in the order in which they are read.
    scans: Vec<ScanForm>,
    /// The gauge; the film's when not said.
    #[serde(default)]
    gauge: Option<String>,
    /// The speed in the camera; the film's when not said.
    #[serde(default)]
    film_speed: Option<String>,
    /// `triacetate`, `polyester` or `not-known`.
    base: String,
    /// `project`, `scan-only` or `never-cut`.
    fit: String,
}

/// What came of the newest shelf.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ShelfTold {
    /// Nothing when there was none, or when it was put away.
    shelf: Option<ShelfRead>,
}

/// The most scans of one shelf.
const MOST_SCANS: usize = 1_000;

/// Begins to read a shelf of scans. All of it is written down before anything is
/// read; one that cannot be read keeps no other.
#[utoipa::path(post, path = "/api/films/{film}/shelf", tag = "rolls", operation_id = "read_shelf",
    params(("film" = String, Path)), request_body = ShelfForm,
    responses((status = 200, body = Vec<JobDocument>), (status = "default", body = ProblemDocument)))]
async fn begin(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(form): Json<ShelfForm>,
) -> Result<Json<Vec<JobDocument>>, ServerError> {
    away(move || {
        if form.scans.is_empty() || form.scans.len() > MOST_SCANS {
            return Err(ServerError::Unreadable {
                why: format!("a shelf has 1 to {MOST_SCANS} scans"),
            });
        }
        let desk = house.film(&film)?;
        let _beginning = house.jobs.beginning();
        let scans = wanted(&house, &desk, &form.scans);
        let like = AddRoll {
            roll: String::new(),
            files: Vec::new(),
            gauge: form.gauge,
            film_speed: form.film_speed,
            base: form.base,
            measured: None,
            shrinkage: None,
            wind: None,
            fit: form.fit,
        };
        let jobs = begin_shelf(&desk.production(), &scans, &like)?;
        let begun = jobs
            .into_iter()
            .flatten()
            .map(|job| spawn_written_down(&house, &desk, &job.roll, job.params, job.id));
        Ok(Json(begun.collect()))
    })
    .await
}

/// The scans, each with why it is refused at once, if it is.
fn wanted(house: &House, desk: &Desk, scans: &[ScanForm]) -> Vec<ShelfScan> {
    let mut named = BTreeSet::new();
    let one = |scan: &ScanForm| {
        let roll = scan.roll.trim().to_owned();
        let found = sound(house, desk, scan, &roll, named.insert(roll.clone()));
        let refused = found.as_ref().err().map(|problem| {
            let said = problem.document();
            ShelfProblem {
                code: said.code,
                message: said.message,
                hint: said.hint,
            }
        });
        let file = found.map_or_else(|_| scan.file.clone(), |path| path.display().to_string());
        let scan = ScanOnShelf {
            file,
            roll,
            read_before: false,
        };
        ShelfScan { scan, refused }
    };
    scans.iter().map(one).collect()
}

fn sound(
    house: &House,
    desk: &Desk,
    scan: &ScanForm,
    roll: &str,
    is_new: bool,
) -> Result<PathBuf, ServerError> {
    RollId::new(roll).map_err(ProductionError::from)?;
    not_under_way(house, desk, roll)?;
    if !is_new || desk.production().roll(roll).is_ok() {
        let roll = roll.to_owned();
        return Err(ProductionError::RollThere { roll }.into());
    }
    house.places.inside(&PathBuf::from(&scan.file))
}

/// What came of the newest shelf so far.
#[utoipa::path(get, path = "/api/films/{film}/shelf", tag = "rolls", operation_id = "shelf_read",
    params(("film" = String, Path)),
    responses((status = 200, body = ShelfTold), (status = "default", body = ProblemDocument)))]
async fn came_of_it(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<ShelfTold>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(ShelfTold {
            shelf: shelf_read(&production)?,
        }))
    })
    .await
}

/// The user has seen what came of the shelf.
#[utoipa::path(delete, path = "/api/films/{film}/shelf", tag = "rolls", operation_id = "put_shelf_away",
    params(("film" = String, Path)),
    responses((status = 200, body = ShelfTold), (status = "default", body = ProblemDocument)))]
async fn put_away(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<ShelfTold>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        put_shelf_away(&production)?;
        Ok(Json(ShelfTold {
            shelf: shelf_read(&production)?,
        }))
    })
    .await
}
