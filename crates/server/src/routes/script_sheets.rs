//! The paper of the plan, to look at and to print; and the camera report for a phone.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::Response;
use onestrand_production::{ScriptSheet, ScriptSheetsAsked, gather_script_sheets};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{SheetDocument, as_pdf, document, drawn, fetched, printed, sent};
use crate::house::House;
use crate::printing::{Printed, Subject};
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(page))
        .routes(routes!(pdf))
        .routes(routes!(camera_page))
}

/// For where and when the plan is printed, and on what.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct PlanOnPaper {
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
    /// The place, as it is to stand at the head.
    #[serde(default)]
    place: String,
    /// The day, as it is to stand at the head; a line to write on when not said.
    #[serde(default)]
    day: String,
    /// Only these scenes are shot, by number, commas between; all when not said.
    #[serde(default)]
    scenes: String,
}

impl PlanOnPaper {
    fn asked(&self) -> ScriptSheetsAsked {
        let scenes = self.scenes.split(',').map(str::trim);
        ScriptSheetsAsked {
            // The paper is said when it is printed.
            letter: false,
            place: self.place.clone(),
            day: self.day.clone(),
            scenes: scenes
                .filter(|number| !number.is_empty())
                .map(str::to_owned)
                .collect(),
        }
    }
}

fn subject(word: &str, paper: &PlanOnPaper) -> Result<Subject, ServerError> {
    let known = ScriptSheet::ALL.into_iter().find(|one| one.word() == word);
    let sheet = known.ok_or_else(|| ServerError::NotThere {
        what: "sheet",
        name: word.to_owned(),
    })?;
    Ok(Subject::Script(sheet, paper.asked()))
}

async fn of_plan(
    house: Arc<House>,
    film: String,
    word: &str,
    paper: PlanOnPaper,
) -> Result<Arc<Printed>, ServerError> {
    let of = subject(word, &paper)?;
    printed(house, film, of, paper.paper).await
}

/// Prints a sheet of the plan and says what came of it.
#[utoipa::path(get, path = "/api/films/{film}/script/sheets/{sheet}", tag = "sheets", operation_id = "script_sheet",
    params(("film" = String, Path), ("sheet" = String, Path), PlanOnPaper),
    responses((status = 200, body = SheetDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<PlanOnPaper>,
) -> Result<Json<SheetDocument>, ServerError> {
    Ok(Json(document(&*of_plan(house, film, &sheet, paper).await?)))
}

/// One page of a sheet of the plan as a drawing, pages counted from 1.
#[utoipa::path(get, path = "/api/films/{film}/script/sheets/{sheet}/pages/{page}", tag = "sheets", operation_id = "script_sheet_page",
    params(("film" = String, Path), ("sheet" = String, Path), ("page" = usize, Path), PlanOnPaper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn page(
    State(house): State<Arc<House>>,
    Path((film, sheet, number)): Path<(String, String, usize)>,
    Query(paper): Query<PlanOnPaper>,
) -> Result<Response, ServerError> {
    drawn(&*of_plan(house, film, &sheet, paper).await?, number)
}

/// A sheet of the plan as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/script/sheets/{sheet}/pdf", tag = "sheets", operation_id = "script_sheet_pdf",
    params(("film" = String, Path), ("sheet" = String, Path), PlanOnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn pdf(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<PlanOnPaper>,
) -> Result<Response, ServerError> {
    let of = subject(&sheet, &paper)?;
    Ok(as_pdf(&*fetched(house, film, of, paper.paper).await?))
}

/// The camera report as one file, to be put on a phone: always to be kept, since it is
/// for another machine, and runs under a policy of its own.
#[utoipa::path(get, path = "/api/films/{film}/script/camera-page", tag = "sheets", operation_id = "camera_page",
    params(("film" = String, Path), PlanOnPaper),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn camera_page(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(paper): Query<PlanOnPaper>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let gathered = gather_script_sheets(&desk.production(), &paper.asked())?;
        let (_, page) = gathered.camera_page();
        let mut response = sent("application/octet-stream", page.into_bytes(), None);
        response.headers_mut().insert(
            header::CONTENT_DISPOSITION,
            HeaderValue::from_static("attachment; filename=\"camera-report.html\""),
        );
        Ok(response)
    })
    .await
}
