//! Printed sheets, to look at and to print.

use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use onestrand_production::{
    BenchPaper, CHANGE_LIST, ReelLies, RollSheet, SheetCsv, SheetName, cut_table, gather_changes,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::printing::{Printed, Subject};
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(page))
        .routes(routes!(pdf))
        .routes(routes!(table))
        .routes(routes!(look_at_rolls))
        .routes(routes!(page_of_rolls))
        .routes(routes!(pdf_of_rolls))
}

/// On what a sheet is printed, and from where a change list leads.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Paper {
    /// The version that is joined now, for a `change-list`, which has to name it.
    #[serde(default)]
    from: Option<String>,
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
    /// Pins of the trim bin; as kept with the film when not said.
    #[serde(default)]
    pins: Option<u32>,
    /// How rolls are wound: `one_pass`, `tails` or `to_and_fro`; one pass when not said.
    #[serde(default)]
    winding: Option<String>,
    /// `base` or `emulsion`: which side is up; as kept when not said.
    #[serde(default)]
    up: Option<String>,
    /// `left` or `right`: where the head lies; as kept when not said.
    #[serde(default)]
    head: Option<String>,
    /// The longest single count. Unit: frames; as kept when not said.
    #[serde(default)]
    longest_count: Option<u32>,
    /// `heads` or `tails` out, on the labels of the reel; left open when not said.
    #[serde(default)]
    lies: Option<String>,
}

impl Paper {
    /// How the bench is, as far as it is said.
    fn bench(&self) -> Result<BenchPaper, ServerError> {
        let winding = one_of(
            self.winding.as_deref(),
            &["one_pass", "tails", "to_and_fro"],
        )?;
        let up = one_of(self.up.as_deref(), &["base", "emulsion"])?;
        let head = one_of(self.head.as_deref(), &["left", "right"])?;
        let lies = one_of(self.lies.as_deref(), &["heads", "tails"])?;
        Ok(BenchPaper {
            pins: self.pins,
            tails: winding == Some("tails"),
            to_and_fro: winding == Some("to_and_fro"),
            emulsion_up: up.map(|side| side == "emulsion"),
            head_left: head.map(|side| side == "left"),
            longest_count: self.longest_count,
            lies: match lies {
                Some("heads") => ReelLies::HeadsOut,
                Some(_) => ReelLies::TailsOut,
                None => ReelLies::NotSaid,
            },
        })
    }
}

/// A word that is one of a few, where there is one.
fn one_of<'a>(word: Option<&'a str>, known: &[&str]) -> Result<Option<&'a str>, ServerError> {
    match word {
        Some(word) if !known.contains(&word) => Err(ServerError::Unreadable {
            why: format!("{word:?} is none of {}", known.join(", ")),
        }),
        other => Ok(other),
    }
}

/// A printed sheet, to be looked at page by page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct SheetDocument {
    /// `cutting-sheet`, `pull-list`, `lined-sheet`, `work-order`, `frame-cards`,
    /// `pin-labels`, `outs-list`, `reel-labels`, `joins-inspection`, `change-list`,
    /// `log-sheet`, `trim-labels`, `inspection-sheet` or `scan-sheet`; of the plan
    /// `shooting-script`, `lined-script`, `shot-list`, `floor-plan`, `stock-sheet`,
    /// `camera-report`, `sound-report`, `wild-sounds`, `visits`, `in-camera` or
    /// `location-folder`.
    sheet: String,
    /// The name to keep it under.
    file_name: String,
    /// How many pages it has.
    pages: usize,
    /// The revision of the film it was printed from.
    revision: u64,
    /// Whether every roll on it is proved; otherwise it says NOT PROVED.
    proved: bool,
    /// Rolls whose pictures are not there.
    without_pictures: Vec<String>,
    /// Size of the PDF. Unit: bytes.
    bytes: usize,
}

fn sheet_name(word: &str) -> Result<SheetName, ServerError> {
    let known = SheetName::ALL.into_iter().find(|s| s.word() == word);
    known.ok_or_else(|| ServerError::NotThere {
        what: "sheet",
        name: word.to_owned(),
    })
}

pub(super) fn roll_sheet(word: &str) -> Result<RollSheet, ServerError> {
    let known = RollSheet::ALL.into_iter().find(|s| s.word() == word);
    known.ok_or_else(|| ServerError::NotThere {
        what: "sheet",
        name: word.to_owned(),
    })
}

/// Whether it is printed on Letter; on A4 when nothing is said.
pub(super) fn is_letter(paper: Option<&str>) -> Result<bool, ServerError> {
    match paper {
        None | Some("a4") => Ok(false),
        Some("letter") => Ok(true),
        Some(other) => Err(ServerError::Unreadable {
            why: format!("{other:?} is no paper; a4 or letter is"),
        }),
    }
}

pub(super) async fn printed(
    house: Arc<House>,
    film: String,
    of: Subject,
    paper: Option<String>,
) -> Result<Arc<Printed>, ServerError> {
    let letter = is_letter(paper.as_deref())?;
    away(move || {
        let desk = house.film(&film)?;
        desk.press.print(&desk, of, letter)
    })
    .await
}

/// The same, to be fetched and not looked at.
pub(super) async fn fetched(
    house: Arc<House>,
    film: String,
    of: Subject,
    paper: Option<String>,
) -> Result<Arc<Printed>, ServerError> {
    let letter = is_letter(paper.as_deref())?;
    away(move || {
        let desk = house.film(&film)?;
        desk.press.fetch(&desk, of, letter)
    })
    .await
}

async fn of_cut(
    house: Arc<House>,
    (film, cut, sheet): (String, String, String),
    paper: Paper,
) -> Result<Arc<Printed>, ServerError> {
    let bench = paper.bench()?;
    let of = match old_version(&sheet, paper.from)? {
        Some(from) => Subject::Changes { from, to: cut },
        None => Subject::Cut(cut, sheet_name(&sheet)?, bench),
    };
    printed(house, film, of, paper.paper).await
}

/// From where a change list leads; nothing for every other sheet.
fn old_version(sheet: &str, from: Option<String>) -> Result<Option<String>, ServerError> {
    if sheet != CHANGE_LIST {
        return Ok(None);
    }
    let missing = || ServerError::Unreadable {
        why: "a change list leads from one version to another: name the first with ?from="
            .to_owned(),
    };
    from.map(Some).ok_or_else(missing)
}

/// Of which rolls a sheet is printed, and on what.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct RollsOnPaper {
    /// The roll; all of them when not said.
    #[serde(default)]
    roll: Option<String>,
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
}

async fn of_rolls(
    house: Arc<House>,
    film: String,
    sheet: &str,
    asked: RollsOnPaper,
) -> Result<Arc<Printed>, ServerError> {
    let of = Subject::Rolls(asked.roll, roll_sheet(sheet)?);
    printed(house, film, of, asked.paper).await
}

pub(super) fn document(printed: &Printed) -> SheetDocument {
    SheetDocument {
        sheet: printed.sheet.sheet.to_owned(),
        file_name: printed.sheet.file_name.clone(),
        pages: printed.sheet.pages.len(),
        revision: printed.revision,
        proved: printed.proved,
        without_pictures: printed.without_pictures.clone(),
        bytes: printed.sheet.pdf.len(),
    }
}

/// One page as a drawing, pages counted from 1.
pub(super) fn drawn(printed: &Printed, number: usize) -> Result<Response, ServerError> {
    let index = number.checked_sub(1);
    let page = index.and_then(|i| printed.sheet.pages.get(i));
    let page = page.ok_or_else(|| ServerError::NotThere {
        what: "page",
        name: number.to_string(),
    })?;
    Ok(sent("image/svg+xml", page.clone().into_bytes(), None))
}

pub(super) fn as_pdf(printed: &Printed) -> Response {
    sent(
        "application/pdf",
        printed.sheet.pdf.clone(),
        Some(&printed.sheet.file_name),
    )
}

/// Prints a sheet and says what came of it.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/sheets/{sheet}", tag = "sheets", operation_id = "sheet",
    params(("film" = String, Path), ("cut" = String, Path), ("sheet" = String, Path), Paper),
    responses((status = 200, body = SheetDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
    Path(which): Path<(String, String, String)>,
    Query(paper): Query<Paper>,
) -> Result<Json<SheetDocument>, ServerError> {
    Ok(Json(document(&*of_cut(house, which, paper).await?)))
}

/// One page of a sheet as a drawing, pages counted from 1.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/sheets/{sheet}/pages/{page}", tag = "sheets", operation_id = "sheet_page",
    params(("film" = String, Path), ("cut" = String, Path), ("sheet" = String, Path), ("page" = usize, Path), Paper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn page(
    State(house): State<Arc<House>>,
    Path((film, cut, sheet, number)): Path<(String, String, String, usize)>,
    Query(paper): Query<Paper>,
) -> Result<Response, ServerError> {
    let printed = of_cut(house, (film, cut, sheet), paper).await?;
    drawn(&printed, number)
}

/// A sheet as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/sheets/{sheet}/pdf", tag = "sheets", operation_id = "sheet_pdf",
    params(("film" = String, Path), ("cut" = String, Path), ("sheet" = String, Path), Paper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn pdf(
    State(house): State<Arc<House>>,
    Path(which): Path<(String, String, String)>,
    Query(paper): Query<Paper>,
) -> Result<Response, ServerError> {
    Ok(as_pdf(&*of_cut(house, which, paper).await?))
}

/// A sheet of a version as a table: the cutting sheet, the lined sheet, the change
/// list, the work order, the outs list; the others are for paper only.
#[utoipa::path(get, path = "/api/films/{film}/cuts/{cut}/sheets/{sheet}/csv", tag = "sheets", operation_id = "sheet_csv",
    params(("film" = String, Path), ("cut" = String, Path), ("sheet" = String, Path), Paper),
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn table(
    State(house): State<Arc<House>>,
    Path((film, cut, sheet)): Path<(String, String, String)>,
    Query(asked): Query<Paper>,
) -> Result<Response, ServerError> {
    let bench = asked.bench()?;
    let from = old_version(&sheet, asked.from)?;
    away(move || {
        let desk = house.film(&film)?;
        let made = match from {
            Some(old) => gather_changes(&desk.production(), (&old, &cut), false)?.csv()?,
            None => cut_table(
                &desk.production(),
                &cut,
                sheet_name(&sheet)?,
                (None, &bench),
            )?,
        };
        Ok(as_table(made))
    })
    .await
}

/// Prints a sheet about rolls and says what came of it.
#[utoipa::path(get, path = "/api/films/{film}/sheets/{sheet}", tag = "sheets", operation_id = "roll_sheet",
    params(("film" = String, Path), ("sheet" = String, Path), RollsOnPaper),
    responses((status = 200, body = SheetDocument), (status = "default", body = ProblemDocument)))]
async fn look_at_rolls(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(asked): Query<RollsOnPaper>,
) -> Result<Json<SheetDocument>, ServerError> {
    Ok(Json(document(
        &*of_rolls(house, film, &sheet, asked).await?,
    )))
}

/// One page of a sheet about rolls as a drawing, pages counted from 1.
#[utoipa::path(get, path = "/api/films/{film}/sheets/{sheet}/pages/{page}", tag = "sheets", operation_id = "roll_sheet_page",
    params(("film" = String, Path), ("sheet" = String, Path), ("page" = usize, Path), RollsOnPaper),
    responses((status = 200, content_type = "image/svg+xml", body = String), (status = "default", body = ProblemDocument)))]
async fn page_of_rolls(
    State(house): State<Arc<House>>,
    Path((film, sheet, number)): Path<(String, String, usize)>,
    Query(asked): Query<RollsOnPaper>,
) -> Result<Response, ServerError> {
    let printed = of_rolls(house, film, &sheet, asked).await?;
    drawn(&printed, number)
}

/// A sheet about rolls as a PDF.
#[utoipa::path(get, path = "/api/films/{film}/sheets/{sheet}/pdf", tag = "sheets", operation_id = "roll_sheet_pdf",
    params(("film" = String, Path), ("sheet" = String, Path), RollsOnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn pdf_of_rolls(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(asked): Query<RollsOnPaper>,
) -> Result<Response, ServerError> {
    Ok(as_pdf(&*of_rolls(house, film, &sheet, asked).await?))
}

/// A table, to be kept under its name.
pub(super) fn as_table(made: SheetCsv) -> Response {
    sent(
        "text/csv; charset=utf-8",
        made.csv.into(),
        Some(&made.file_name),
    )
}

pub(super) fn sent(kind: &'static str, bytes: Vec<u8>, name: Option<&str>) -> Response {
    let mut response = (
        [(header::CONTENT_TYPE, HeaderValue::from_static(kind))],
        Bytes::from(bytes),
    )
        .into_response();
    // Only plain letters reach a header; the page keeps it under its full name.
    let plain = |c: char| {
        if c.is_ascii_alphanumeric() || "-_.".contains(c) {
            c
        } else {
            '_'
        }
    };
    if let Some(name) = name {
        let name: String = name.chars().map(plain).collect();
        if let Ok(value) = HeaderValue::from_str(&format!("inline; filename=\"{name}\"")) {
            response
                .headers_mut()
                .insert(header::CONTENT_DISPOSITION, value);
        }
    }
    response
}
