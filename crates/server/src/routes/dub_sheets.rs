//! The paper of the dub, to look at and to print.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use onestrand_production::{DubSheetName, DubSheetsAsked};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{SheetDocument, as_pdf, document, drawn, printed};
use crate::house::House;
use crate::printing::{Printed, Subject};
use crate::problem::{ProblemDocument, ServerError};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(page))
        .routes(routes!(pdf))
}

/// How a sheet of the dub is printed.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct DubOnPaper {
    /// The version.
    cut: String,
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
    /// Timings of the tape's counter for its table: the text of a form `count,seconds`.
    #[serde(default)]
    timings: Option<String>,
    /// The machine and the tape, to stand on that table.
    #[serde(default)]
    tape: String,
}

async fn of_dub(
    house: Arc<House>,
    film: String,
    word: &str,
    paper: DubOnPaper,
) -> Result<Arc<Printed>, ServerError> {
    let sheet = DubSheetName::of(word).ok_or_else(|| ServerError::NotThere {
        what: "sheet",
        name: word.to_owned(),
    })?;
    let asked = DubSheetsAsked {
        // The paper is said when it is printed.
        letter: false,
        timings: paper.timings.filter(|text| !text.trim().is_empty()),
        tape: paper.tape,
    };
    let of = Subject::Dub(paper.cut, sheet, asked);
    printed(house, film, of, paper.paper).await
}

/// Prints a sheet of the dub and says what came of it.
#[utoipa::path(get, path = "/api/films/{film}/dub/sheets/{sheet}", tag = "sheets", operation_id = "dub_sheet",
    params(("film" = String, Path), ("sheet" = String, Path), DubOnPaper),
    responses((status = 200, body = SheetDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<DubOnPaper>,
) -> Result<Json<SheetDocument>, ServerError> {
    Ok(Json(document(&*of_dub(house, film, &sheet, paper).await?)))
}

/// One page of a sheet of the dub as a drawing, pages counted from 1.
#[utoipa::path(get, path = "/api/films/{film}/dub/sheets/{sheet}/pages/{page}", tag = "sheets", operation_id = "dub_sheet_page",
    params(("film" = String, Path), ("sheet" = String, Path), ("page" = usize, Path), DubOnPaper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn page(
    State(house): State<Arc<House>>,
    Path((film, sheet, number)): Path<(String, String, usize)>,
    Query(paper): Query<DubOnPaper>,
) -> Result<Response, ServerError> {
    drawn(&*of_dub(house, film, &sheet, paper).await?, number)
}

/// A sheet of the dub as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/dub/sheets/{sheet}/pdf", tag = "sheets", operation_id = "dub_sheet_pdf",
    params(("film" = String, Path), ("sheet" = String, Path), DubOnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn pdf(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<DubOnPaper>,
) -> Result<Response, ServerError> {
    Ok(as_pdf(&*of_dub(house, film, &sheet, paper).await?))
}
