//! The archive box: what is said of a film, a box made and looked at beside the page.

use std::path::PathBuf;
use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::documents::AccessionDocument;
use onestrand_production::{
    BoxAsked, BoxPlan, ProductionError, Progress, accession_document, box_checked_words, box_words,
    check_box,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::jobs::JobDocument;
use crate::places::plain_name;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::beside;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(facts))
        .routes(routes!(make))
        .routes(routes!(look_into))
}

/// A box that is to be made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct BoxForm {
    /// The folder it is to stand in, one that was chosen.
    folder: String,
    /// Its name there.
    name: String,
    /// Whether the scans are copied into it; else their fixity and place stand in it.
    scans: bool,
    /// Whether the sheets are printed for it.
    sheets: bool,
    /// The versions whose mix and stems go in.
    mixes: Vec<String>,
}

/// A box that is to be looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct BoxToCheck {
    /// The box: a folder within one that was chosen.
    place: String,
}

/// What is said of a film for its box, how each statement is known, what was done to it.
#[utoipa::path(get, path = "/api/films/{film}/accession", tag = "archive", operation_id = "accession",
    params(("film" = String, Path)),
    responses((status = 200, body = AccessionDocument), (status = "default", body = ProblemDocument)))]
async fn facts(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
) -> Result<Json<AccessionDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(accession_document(&production)?))
    })
    .await
}

/// Begins to make an archive box of a film; the end of the work says what lies in it.
#[utoipa::path(post, path = "/api/films/{film}/box", tag = "archive", operation_id = "make_box",
    params(("film" = String, Path)), request_body = BoxForm,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn make(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(form): Json<BoxForm>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let folder = house.places.inside(std::path::Path::new(&form.folder))?;
        let out = folder.join(plain(&form.name)?);
        if out.symlink_metadata().is_ok() {
            return Err(ProductionError::Unfit {
                message: format!(
                    "something stands under that name already: {}",
                    out.display()
                ),
                hint: "give the box another name; a box is never written over".to_owned(),
            }
            .into());
        }
        let asked = BoxAsked {
            scans: form.scans,
            sheets: form.sheets,
            mixes: Some(form.mixes),
            media: vec![folder],
            finishes: Vec::new(),
        };
        let job = house
            .jobs
            .begin("box", &desk.film, None, "gathering what goes into the box");
        let document = job.document();
        let running = Arc::clone(&job);
        beside("archive box", &job, move || {
            let mut told = running.teller();
            let plan = {
                let production = desk.production();
                BoxPlan::gather(&production, &asked, &running.cancel, &mut told)?
            };
            let made = plan.write(&out, &running.cancel, &mut told)?;
            told.note(&box_words(&made));
            Ok(())
        });
        Ok(Json(document))
    })
    .await
}

/// Begins to hold a box against its checksums; the end of the work names all that differs.
#[utoipa::path(post, path = "/api/boxes/check", tag = "archive", operation_id = "check_box",
    request_body = BoxToCheck,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn look_into(
    State(house): State<Arc<House>>,
    Json(asked): Json<BoxToCheck>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let place: PathBuf = house.places.inside(std::path::Path::new(&asked.place))?;
        let job = house.jobs.begin("box_check", "", None, "reading the box");
        let document = job.document();
        let running = Arc::clone(&job);
        beside("looking into a box", &job, move || {
            let mut told = running.teller();
            let media: Vec<PathBuf> = place
                .parent()
                .map(std::path::Path::to_owned)
                .into_iter()
                .collect();
            let found = check_box(&place, &media, &running.cancel, &mut told)?;
            told.note(&box_checked_words(&found));
            match found.ok {
                true => Ok(()),
                false => Err(ProductionError::Unfit {
                    message: "the box is not whole".to_owned(),
                    hint: "take another copy of it, and copy what is named from there".to_owned(),
                }
                .into()),
            }
        });
        Ok(Json(document))
    })
    .await
}

/// A plain name of a folder.
fn plain(name: &str) -> Result<&str, ServerError> {
    plain_name(name).ok_or_else(|| ServerError::Unreadable {
        why: "a box has a plain name, such as ten-past-boat-box".to_owned(),
    })
}
