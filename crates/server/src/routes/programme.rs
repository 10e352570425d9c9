//! The programme of the shelf: what is shown in which order, and that it was shown.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Query, State};
use axum::response::Response;
use onestrand_production::documents::{ProgrammeDocument, ProgrammeForm, ProgrammeRow};
use onestrand_production::{
    FilmChange, PrintedSheet, ProductionError, ShownFilm, handling_of_showing, keep_programme,
    kept_programme, plan_programme, print_programme, print_programme_labels, programme_table,
    shown_film,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{is_letter, sent};
use crate::desk::ChangeRequest;
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(keep))
        .routes(routes!(sheet))
        .routes(routes!(labels))
        .routes(routes!(table))
        .routes(routes!(was_shown))
}

/// The programme of the shelf: what is asked, and what comes of it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ShelfProgrammeDocument {
    /// How often it was kept; 0 when it never was.
    revision: u64,
    /// What is asked.
    form: ProgrammeForm,
    /// The films of the shelf with their versions, the newest last.
    films: Vec<ProgrammeFilmDocument>,
    /// The programme, where one can be made.
    plan: Option<ProgrammeDocument>,
    /// Why not, otherwise.
    problem: Option<ProblemDocument>,
}

/// A film of the shelf, to choose from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct ProgrammeFilmDocument {
    /// Its name in addresses.
    film: String,
    /// Its title.
    title: String,
    /// How many versions it has.
    cuts: u32,
}

/// A programme to be kept.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, ToSchema)]
pub(crate) struct KeepProgramme {
    /// The revision of the programme that the window showed.
    revision: u64,
    /// What is asked from now on.
    form: ProgrammeForm,
}

/// That the programme was shown.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, ToSchema)]
pub(crate) struct ShowingForm {
    /// A name of the window's own: sent again under the same name, it is written once.
    key: String,
    /// The day, as `2026-03-03`.
    on: String,
    /// Who showed it.
    #[serde(default)]
    by: String,
}

/// What was written down of a showing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct ShowingDocument {
    /// What stands in the ledgers now, a line a roll.
    written: Vec<String>,
}

fn find(house: &Arc<House>, row: &ProgrammeRow) -> Result<ShownFilm, ProductionError> {
    let desk = house.film(&row.film).map_err(|problem| match problem {
        ServerError::Act(problem) => problem,
        other => ProductionError::Unfit {
            message: other.to_string(),
            hint: "look at the shelf: it may have another name there".to_owned(),
        },
    })?;
    let production = desk.production();
    shown_film(&production, &row.cut)
}

fn plan(house: &Arc<House>) -> Result<(ProgrammeForm, ProgrammeDocument), ServerError> {
    let form = kept_programme(house.shelf.dir())?.form;
    let plan = plan_programme(&form, &mut |row| find(house, row))?;
    Ok((form, plan))
}

fn document(house: &Arc<House>) -> Result<ShelfProgrammeDocument, ServerError> {
    let kept = kept_programme(house.shelf.dir())?;
    let films = house.shelf.films()?.into_iter();
    let films = films.filter(|film| film.problem.is_none());
    let (plan, problem) = match plan_programme(&kept.form, &mut |row| find(house, row)) {
        Ok(plan) => (Some(plan), None),
        Err(error) => (None, Some(ServerError::Act(error).document())),
    };
    Ok(ShelfProgrammeDocument {
        revision: kept.revision,
        films: films
            .map(|film| ProgrammeFilmDocument {
                film: film.film,
                title: film.title,
                cuts: film.cuts,
            })
            .collect(),
        form: kept.form,
        plan,
        problem,
    })
}

/// The programme of the shelf.
#[utoipa::path(get, path = "/api/programme", tag = "shelf", operation_id = "look_at_programme",
    responses((status = 200, body = ShelfProgrammeDocument), (status = "default", body = ProblemDocument)))]
async fn look(
    State(house): State<Arc<House>>,
) -> Result<Json<ShelfProgrammeDocument>, ServerError> {
    away(move || Ok(Json(document(&house)?))).await
}

/// Keeps a programme, also one that cannot be shown yet; the answer says why it cannot.
#[utoipa::path(put, path = "/api/programme", tag = "shelf", operation_id = "keep_programme", request_body = KeepProgramme,
    responses((status = 200, body = ShelfProgrammeDocument), (status = "default", body = ProblemDocument)))]
async fn keep(
    State(house): State<Arc<House>>,
    Json(new): Json<KeepProgramme>,
) -> Result<Json<ShelfProgrammeDocument>, ServerError> {
    away(move || {
        let one = house.shelf.one_roster();
        let now = kept_programme(house.shelf.dir())?.revision;
        if now != new.revision {
            let seen = new.revision;
            return Err(ServerError::Stale { seen, now });
        }
        keep_programme(house.shelf.dir(), &new.form)?;
        drop(one);
        Ok(Json(document(&house)?))
    })
    .await
}

/// On what it is printed.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OnPaper {
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
}

type Print = fn(&ProgrammeForm, &ProgrammeDocument, bool) -> Result<PrintedSheet, ProductionError>;

async fn printed(house: Arc<House>, asked: OnPaper, print: Print) -> Result<Response, ServerError> {
    let letter = is_letter(asked.paper.as_deref())?;
    away(move || {
        let (form, plan) = plan(&house)?;
        Ok(sent(
            "application/pdf",
            print(&form, &plan, letter)?.pdf,
            None,
        ))
    })
    .await
}

/// The note of the programme as a PDF.
#[utoipa::path(get, path = "/api/programme/sheet", tag = "shelf", operation_id = "programme_sheet", params(OnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn sheet(
    State(house): State<Arc<House>>,
    Query(asked): Query<OnPaper>,
) -> Result<Response, ServerError> {
    printed(house, asked, print_programme).await
}

/// Labels for the reels of the programme as a PDF.
#[utoipa::path(get, path = "/api/programme/labels", tag = "shelf", operation_id = "programme_labels", params(OnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn labels(
    State(house): State<Arc<House>>,
    Query(asked): Query<OnPaper>,
) -> Result<Response, ServerError> {
    printed(house, asked, print_programme_labels).await
}

/// The programme as a table, a row each.
#[utoipa::path(get, path = "/api/programme/csv", tag = "shelf", operation_id = "programme_csv",
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn table(State(house): State<Arc<House>>) -> Result<Response, ServerError> {
    away(move || {
        let csv = programme_table(&plan(&house)?.1);
        let kind = "text/csv; charset=utf-8";
        Ok(sent(kind, csv.into_bytes(), Some("programme.csv")))
    })
    .await
}

/// Writes down that the programme was shown: a run in the ledger of every roll on its reels.
#[utoipa::path(post, path = "/api/programme/shown", tag = "shelf", operation_id = "programme_shown", request_body = ShowingForm,
    responses((status = 200, body = ShowingDocument), (status = "default", body = ProblemDocument)))]
async fn was_shown(
    State(house): State<Arc<House>>,
    Json(showing): Json<ShowingForm>,
) -> Result<Json<ShowingDocument>, ServerError> {
    away(move || {
        let (form, plan) = plan(&house)?;
        let when = (showing.on.as_str(), showing.by.as_str());
        let runs = handling_of_showing(&form, &plan, when, &mut |row| find(&house, row))?;
        let mut written = Vec::with_capacity(runs.len());
        for run in runs {
            let desk = house.film(&run.film)?;
            let key = format!("{}-{}-{}", showing.key, run.film, run.handling.roll);
            let revision = desk.production().revision()?.number();
            let change = FilmChange::HandleRoll(run.handling);
            let kept = desk.change(&ChangeRequest {
                key: key.chars().take(100).collect(),
                revision,
                change,
            })?;
            written.push(format!("{}: {}", run.film, kept.words));
        }
        Ok(Json(ShowingDocument { written }))
    })
    .await
}
