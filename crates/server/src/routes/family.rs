//! The shelf of family reels: whose camera, in which order, which copy.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::{CopiesDocument, FamilyDocument};
use onestrand_production::{
    CopiesAsked, FamilyMemory, FamilyReels, compare_copies_of, look_at_family,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::beside;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(reels))
        .routes(routes!(look))
        .routes(routes!(seen))
        .routes(routes!(compare))
        .routes(routes!(compared))
}

/// What was found of family reels lately. Nothing of it is kept in a film.
#[derive(Debug, Default)]
pub(crate) struct FamilyAnswers {
    memory: Mutex<FamilyMemory>,
    cameras: Mutex<BTreeMap<u64, FamilyDocument>>,
    copies: Mutex<BTreeMap<u64, CopiesDocument>>,
}

/// How many answers of each kind are kept for whoever asked.
const KEPT: usize = 8;

fn keep<T>(all: &Mutex<BTreeMap<u64, T>>, job: u64, found: T) {
    let mut all = all.lock().unwrap_or_else(PoisonError::into_inner);
    all.insert(job, found);
    while all.len() > KEPT {
        all.pop_first();
    }
}

fn kept<T: Clone>(all: &Mutex<BTreeMap<u64, T>>, job: u64) -> Result<Json<T>, ServerError> {
    let all = all.lock().unwrap_or_else(PoisonError::into_inner);
    let found = all.get(&job).cloned();
    found.map(Json).ok_or_else(|| ServerError::NotThere {
        what: "answer",
        name: job.to_string(),
    })
}

/// The scanned reels of the shelf, to choose from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct FamilyReelsDocument {
    /// Each as `film/roll`.
    reels: Vec<FamilyReelDocument>,
}

/// A scanned reel of the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct FamilyReelDocument {
    /// Its name: `film/roll`.
    reel: String,
    /// The title of the film it is of.
    title: String,
    /// The film's name in addresses.
    film: String,
    /// The roll.
    roll: String,
}

/// All reels of all films that can be opened, with the titles of the films.
fn all(house: &Arc<House>) -> Result<(FamilyReels, Vec<FamilyReelDocument>), ServerError> {
    let mut reels = FamilyReels::default();
    let mut told = Vec::new();
    for film in house
        .shelf
        .films()?
        .into_iter()
        .filter(|film| film.problem.is_none())
    {
        let desk = house.film(&film.film)?;
        let before = reels.names().len();
        reels
            .add(&film.film, &desk.production())
            .map_err(ServerError::Act)?;
        told.extend(
            reels.names()[before..]
                .iter()
                .map(|reel| FamilyReelDocument {
                    reel: reel.clone(),
                    title: film.title.clone(),
                    film: film.film.clone(),
                    roll: reel[film.film.len() + 1..].to_owned(),
                }),
        );
    }
    Ok((reels, told))
}

/// The scanned reels of the shelf.
#[utoipa::path(get, path = "/api/family", tag = "shelf", operation_id = "family_reels",
    responses((status = 200, body = FamilyReelsDocument), (status = "default", body = ProblemDocument)))]
async fn reels(State(house): State<Arc<House>>) -> Result<Json<FamilyReelsDocument>, ServerError> {
    away(move || {
        let (_, reels) = all(&house)?;
        Ok(Json(FamilyReelsDocument { reels }))
    })
    .await
}

/// Reels whose shots are to be put together by camera.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, ToSchema)]
pub(crate) struct FamilyForm {
    /// The reels, each as `film/roll`; all of the shelf when none is named.
    reels: Vec<String>,
}

/// Begins to look at the gates of all shots of some reels at full size.
#[utoipa::path(post, path = "/api/family/cameras", tag = "shelf", operation_id = "look_at_family",
    request_body = FamilyForm,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Json(form): Json<FamilyForm>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let (reels, _) = all(&house)?;
        let reels = reels.only(&form.reels)?.are_there()?;
        let job = house.jobs.begin("family", "", None, "looking at the gates");
        let document = job.document();
        let (number, running) = (document.job, Arc::clone(&job));
        beside("family reels", &job, move || {
            let family = &house.family;
            let mut memory = family.memory.lock().unwrap_or_else(PoisonError::into_inner);
            let found =
                look_at_family(&reels, &mut memory, &running.cancel, &mut running.teller())?;
            keep(&family.cameras, number, found);
            Ok(())
        });
        Ok(Json(document))
    })
    .await
}

/// Cameras, stocks and order, when the work has ended.
#[utoipa::path(get, path = "/api/family/cameras/{job}", tag = "shelf", operation_id = "family_seen",
    params(("job" = u64, Path)),
    responses((status = 200, body = FamilyDocument), (status = "default", body = ProblemDocument)))]
async fn seen(
    State(house): State<Arc<House>>,
    Path(job): Path<u64>,
) -> Result<Json<FamilyDocument>, ServerError> {
    kept(&house.family.cameras, job)
}

/// Two reels that show the same.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, ToSchema)]
pub(crate) struct CopiesForm {
    /// One, as `film/roll`.
    first: String,
    /// The other.
    second: String,
}

/// Begins to compare two copies at full size.
#[utoipa::path(post, path = "/api/family/copies", tag = "shelf", operation_id = "compare_copies",
    request_body = CopiesForm,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn compare(
    State(house): State<Arc<House>>,
    Json(form): Json<CopiesForm>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let (reels, _) = all(&house)?;
        let asked = CopiesAsked::of(&reels, &form.first, &form.second)?;
        let job = house.jobs.begin("copies", "", None, "comparing the copies");
        let document = job.document();
        let (number, running) = (document.job, Arc::clone(&job));
        beside("copies", &job, move || {
            let found = compare_copies_of(&asked, &running.cancel, &mut running.teller())?;
            keep(&house.family.copies, number, found);
            Ok(())
        });
        Ok(Json(document))
    })
    .await
}

/// How two copies are akin, when the work has ended.
#[utoipa::path(get, path = "/api/family/copies/{job}", tag = "shelf", operation_id = "copies_compared",
    params(("job" = u64, Path)),
    responses((status = 200, body = CopiesDocument), (status = "default", body = ProblemDocument)))]
async fn compared(
    State(house): State<Arc<House>>,
    Path(job): Path<u64>,
) -> Result<Json<CopiesDocument>, ServerError> {
    kept(&house.family.copies, job)
}
