//! The paper of the titles, to look at and to print; and cels as drawings of true size.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::Response;
use onestrand_production::{TitleSheetName, TitleSheetsAsked, gather_title_sheets};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{SheetDocument, as_pdf, document, drawn, printed, sent};
use crate::house::House;
use crate::printing::{Printed, Subject};
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(page))
        .routes(routes!(pdf))
        .routes(routes!(cel))
}

/// How a sheet of the titles is printed.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct TitlesOnPaper {
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
    /// Which title, by its name: for an exposure sheet and a cel; the first when not said.
    #[serde(default)]
    title: Option<String>,
    /// White letters on black, for a second exposure; as the title is shot when not said.
    #[serde(default)]
    reversed: Option<bool>,
    /// Mirrored, to be printed on the back of clear film.
    #[serde(default)]
    mirrored: bool,
}

impl TitlesOnPaper {
    fn asked(&self) -> TitleSheetsAsked {
        TitleSheetsAsked {
            // The paper is said when it is printed.
            letter: false,
            title: self.title.clone().filter(|name| !name.is_empty()),
            reversed: self.reversed,
            mirrored: self.mirrored,
        }
    }
}

async fn of_titles(
    house: Arc<House>,
    film: String,
    word: &str,
    paper: TitlesOnPaper,
) -> Result<Arc<Printed>, ServerError> {
    let sheet = TitleSheetName::of(word).ok_or_else(|| ServerError::NotThere {
        what: "sheet",
        name: word.to_owned(),
    })?;
    let of = Subject::Titles(sheet, paper.asked());
    printed(house, film, of, paper.paper).await
}

/// Prints a sheet of the titles and says what came of it.
#[utoipa::path(get, path = "/api/films/{film}/titles/sheets/{sheet}", tag = "sheets", operation_id = "title_sheet",
    params(("film" = String, Path), ("sheet" = String, Path), TitlesOnPaper),
    responses((status = 200, body = SheetDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<TitlesOnPaper>,
) -> Result<Json<SheetDocument>, ServerError> {
    Ok(Json(document(
        &*of_titles(house, film, &sheet, paper).await?,
    )))
}

/// One page of a sheet of the titles as a drawing, pages counted from 1.
#[utoipa::path(get, path = "/api/films/{film}/titles/sheets/{sheet}/pages/{page}", tag = "sheets", operation_id = "title_sheet_page",
    params(("film" = String, Path), ("sheet" = String, Path), ("page" = usize, Path), TitlesOnPaper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn page(
    State(house): State<Arc<House>>,
    Path((film, sheet, number)): Path<(String, String, usize)>,
    Query(paper): Query<TitlesOnPaper>,
) -> Result<Response, ServerError> {
    drawn(&*of_titles(house, film, &sheet, paper).await?, number)
}

/// A sheet of the titles as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/titles/sheets/{sheet}/pdf", tag = "sheets", operation_id = "title_sheet_pdf",
    params(("film" = String, Path), ("sheet" = String, Path), TitlesOnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn pdf(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(paper): Query<TitlesOnPaper>,
) -> Result<Response, ServerError> {
    Ok(as_pdf(&*of_titles(house, film, &sheet, paper).await?))
}

/// The lettering of a title as an SVG of true size, to be kept.
#[utoipa::path(get, path = "/api/films/{film}/titles/cel", tag = "sheets", operation_id = "title_cel",
    params(("film" = String, Path), TitlesOnPaper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn cel(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(paper): Query<TitlesOnPaper>,
) -> Result<Response, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let gathered = gather_title_sheets(&desk.production(), &paper.asked())?;
        let (name, svg) = gathered.cel_svg()?;
        let mut response = sent("image/svg+xml", svg.into_bytes(), None);
        let kept = format!("attachment; filename=\"{name}\"");
        if let Ok(kept) = HeaderValue::from_str(&kept) {
            response
                .headers_mut()
                .insert(header::CONTENT_DISPOSITION, kept);
        }
        Ok(response)
    })
    .await
}
