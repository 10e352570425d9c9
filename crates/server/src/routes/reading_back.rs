//! Film read back beside the page: the name of a loose strip by its photograph, and a cut
//! reel laid beside its version.

use std::path::PathBuf;
use std::sync::{Arc, PoisonError};

use axum::Json;
use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, Path, State};
use onestrand_production::documents::{NamedDocument, ProofDocument};
use onestrand_production::{ProductionError, ReelToProve, StripRolls, name_strip_in, prove_reel};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::SmallPictures;
use crate::desk::Desk;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::beside;

/// The largest photograph that is taken: that of a good telephone, several times over.
/// Unit: bytes.
const LARGEST: usize = 64 << 20;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .merge(
            OpenApiRouter::new()
                .routes(routes!(name_strip))
                .layer(DefaultBodyLimit::max(LARGEST)),
        )
        .routes(routes!(named_strip))
        .routes(routes!(prove))
        .routes(routes!(proved))
}

/// Begins to look which frames of which roll a loose strip is, by a photograph of it on a
/// light box: JPEG or PNG. It stays in memory and is let go afterwards. The first question
/// looks at every frame of every roll, which takes a while.
#[utoipa::path(post, path = "/api/films/{film}/strips", tag = "rolls", operation_id = "name_strip",
    params(("film" = String, Path)),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn name_strip(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    photograph: Bytes,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let rolls = StripRolls::of(&desk.production())?;
        let job = house
            .jobs
            .begin("strip", &desk.film, None, "looking at the photograph");
        let document = job.document();
        let (number, running) = (document.job, Arc::clone(&job));
        beside("naming a strip", &job, move || {
            let mut memory = desk.sketches.lock().unwrap_or_else(PoisonError::into_inner);
            let mut source = SmallPictures(&desk);
            let (cancel, mut told) = (&running.cancel, running.teller());
            let found = name_strip_in(
                &photograph,
                &rolls,
                &mut memory,
                &mut source,
                cancel,
                &mut told,
            )?;
            keep(&desk, number, ReadBack::Named(found));
            Ok(())
        });
        Ok(Json(document))
    })
    .await
}

/// What a strip was found to be, when the work has ended.
#[utoipa::path(get, path = "/api/films/{film}/strips/{job}", tag = "rolls", operation_id = "named_strip",
    params(("film" = String, Path), ("job" = u64, Path)),
    responses((status = 200, body = NamedDocument), (status = "default", body = ProblemDocument)))]
async fn named_strip(
    State(house): State<Arc<House>>,
    Path((film, job)): Path<(String, u64)>,
) -> Result<Json<NamedDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        match kept(&desk, job) {
            Some(ReadBack::Named(found)) => Ok(Json(found)),
            _ => Err(not_there(job)),
        }
    })
    .await
}

/// A cut reel that is to be laid beside its version.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct ProofForm {
    /// The version it was cut by.
    cut: String,
    /// The files of its scan, in order, each in a folder that was chosen.
    scan: Vec<String>,
}

/// Begins to lay a scan of a cut reel beside its version. The scan is only read.
#[utoipa::path(post, path = "/api/films/{film}/proofs", tag = "bench", operation_id = "prove_reel",
    params(("film" = String, Path)), request_body = ProofForm,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn prove(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(form): Json<ProofForm>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let inside = |file: &String| house.places.inside(&PathBuf::from(file));
        let scan = form
            .scan
            .iter()
            .map(inside)
            .collect::<Result<Vec<_>, _>>()?;
        if scan.is_empty() {
            return Err(ProductionError::Unfit {
                message: "no scan was chosen".to_owned(),
                hint: "choose the file of the scan of the cut reel".to_owned(),
            }
            .into());
        }
        let reel = ReelToProve::of(&desk.production(), &form.cut)?;
        let words = format!("laying a reel beside {}", form.cut);
        let job = house.jobs.begin("proof", &desk.film, None, &words);
        let document = job.document();
        let (number, running) = (document.job, Arc::clone(&job));
        beside("proof of a reel", &job, move || {
            let mut memory = desk.sketches.lock().unwrap_or_else(PoisonError::into_inner);
            let mut source = SmallPictures(&desk);
            let (cancel, mut told) = (&running.cancel, running.teller());
            let found = prove_reel(&reel, &scan, &mut memory, &mut source, cancel, &mut told)?;
            keep(&desk, number, ReadBack::Proved(found));
            Ok(())
        });
        Ok(Json(document))
    })
    .await
}

/// What a reel was found to be, when the work has ended.
#[utoipa::path(get, path = "/api/films/{film}/proofs/{job}", tag = "bench", operation_id = "proved_reel",
    params(("film" = String, Path), ("job" = u64, Path)),
    responses((status = 200, body = ProofDocument), (status = "default", body = ProblemDocument)))]
async fn proved(
    State(house): State<Arc<House>>,
    Path((film, job)): Path<(String, u64)>,
) -> Result<Json<ProofDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        match kept(&desk, job) {
            Some(ReadBack::Proved(found)) => Ok(Json(found)),
            _ => Err(not_there(job)),
        }
    })
    .await
}

/// What was read back lately.
#[derive(Debug, Clone)]
pub(crate) enum ReadBack {
    /// A strip.
    Named(NamedDocument),
    /// A reel.
    Proved(ProofDocument),
}

/// How many answers are kept for whoever asked.
const KEPT: usize = 8;

fn keep(desk: &Desk, job: u64, found: ReadBack) {
    let mut all = desk
        .read_back
        .lock()
        .unwrap_or_else(PoisonError::into_inner);
    all.insert(job, found);
    while all.len() > KEPT {
        all.pop_first();
    }
}

fn kept(desk: &Desk, job: u64) -> Option<ReadBack> {
    let all = desk
        .read_back
        .lock()
        .unwrap_or_else(PoisonError::into_inner);
    all.get(&job).cloned()
}

fn not_there(job: u64) -> ServerError {
    ServerError::NotThere {
        what: "answer",
        name: job.to_string(),
    }
}
