//! The class roster of the shelf: its films are the teams.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Query, State};
use axum::response::Response;
use onestrand_production::documents::{RosterDocument, RosterForm};
use onestrand_production::{
    ProductionError, RosterFilm, keep_roster, kept_roster, plan_shelf, print_roster, roster_table,
};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use super::sheets::{is_letter, sent};
use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(look))
        .routes(routes!(keep))
        .routes(routes!(sheet))
        .routes(routes!(table))
}

/// The roster of the shelf: what is asked, and the plan.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ShelfRosterDocument {
    /// How often it was kept; 0 when it never was.
    revision: u64,
    /// What is asked.
    form: RosterForm,
    /// The films of the shelf.
    films: Vec<RosterFilmDocument>,
    /// The plan, where one can be made.
    plan: Option<RosterDocument>,
    /// Why not, otherwise.
    problem: Option<ProblemDocument>,
}

/// A film of the shelf, as the roster sees it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct RosterFilmDocument {
    /// Its name in addresses.
    film: String,
    /// Its title.
    title: String,
    /// Whether it has rolls, and the scans of all of them are proved.
    proved: bool,
}

/// A roster to be kept.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, ToSchema)]
pub(crate) struct KeepRoster {
    /// The revision of the roster that the window showed.
    revision: u64,
    /// What is asked from now on.
    form: RosterForm,
}

/// The most of each list that a form may hold.
const MOST: usize = 200;

fn films(house: &House) -> Result<Vec<RosterFilm>, ServerError> {
    let films = house.shelf.films()?.into_iter();
    let open = films.filter(|film| film.problem.is_none());
    let one = open.map(|film| RosterFilm {
        proved: film.rolls > 0 && film.proved == film.rolls,
        film: film.film,
        title: film.title,
    });
    Ok(one.collect())
}

fn document(house: &House) -> Result<ShelfRosterDocument, ServerError> {
    let kept = kept_roster(house.shelf.dir())?;
    let films = films(house)?;
    let (plan, problem) = match plan_shelf(&kept.form, &films) {
        Ok(plan) => (Some(plan), None),
        Err(error @ ProductionError::Roster { .. }) => {
            (None, Some(ServerError::Act(error).document()))
        }
        Err(error) => return Err(error.into()),
    };
    let films = films.into_iter().map(|film| RosterFilmDocument {
        film: film.film,
        title: film.title,
        proved: film.proved,
    });
    Ok(ShelfRosterDocument {
        revision: kept.revision,
        films: films.collect(),
        form: kept.form,
        plan,
        problem,
    })
}

/// The class roster of the shelf.
#[utoipa::path(get, path = "/api/roster", tag = "shelf", operation_id = "look_at_roster",
    responses((status = 200, body = ShelfRosterDocument), (status = "default", body = ProblemDocument)))]
async fn look(State(house): State<Arc<House>>) -> Result<Json<ShelfRosterDocument>, ServerError> {
    away(move || Ok(Json(document(&house)?))).await
}

/// Keeps a roster, also one that cannot be planned yet; the answer says why it cannot.
#[utoipa::path(put, path = "/api/roster", tag = "shelf", operation_id = "keep_roster", request_body = KeepRoster,
    responses((status = 200, body = ShelfRosterDocument), (status = "default", body = ProblemDocument)))]
async fn keep(
    State(house): State<Arc<House>>,
    Json(new): Json<KeepRoster>,
) -> Result<Json<ShelfRosterDocument>, ServerError> {
    away(move || {
        let form = &new.form;
        let lists = [
            form.things.len(),
            form.steps.len(),
            form.films.len(),
            form.apart.len(),
        ];
        if lists.into_iter().any(|count| count > MOST) {
            return Err(ServerError::Unreadable {
                why: format!("a roster has at most {MOST} steps, things and films"),
            });
        }
        let one = house.shelf.one_roster();
        let now = kept_roster(house.shelf.dir())?.revision;
        if now != new.revision {
            let seen = new.revision;
            return Err(ServerError::Stale { seen, now });
        }
        keep_roster(house.shelf.dir(), form)?;
        drop(one);
        Ok(Json(document(&house)?))
    })
    .await
}

/// On what it is printed, and what stands at its head.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OnPaper {
    /// `a4` or `letter`; `a4` when not said.
    #[serde(default)]
    paper: Option<String>,
    /// What stands at its head; the name of the shelf's folder when not said.
    #[serde(default)]
    title: Option<String>,
}

fn plan(house: &House) -> Result<RosterDocument, ServerError> {
    let kept = kept_roster(house.shelf.dir())?;
    Ok(plan_shelf(&kept.form, &films(house)?)?)
}

/// The class roster as a PDF.
#[utoipa::path(get, path = "/api/roster/sheet", tag = "shelf", operation_id = "roster_sheet", params(OnPaper),
    responses((status = 200, content_type = "application/pdf", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn sheet(
    State(house): State<Arc<House>>,
    Query(asked): Query<OnPaper>,
) -> Result<Response, ServerError> {
    let letter = is_letter(asked.paper.as_deref())?;
    away(move || {
        let folder = house
            .shelf
            .dir()
            .file_name()
            .map(|name| name.to_string_lossy());
        let title = asked.title.filter(|title| !title.trim().is_empty());
        let title = title.or(folder.map(Into::into)).unwrap_or_default();
        let printed = print_roster(&plan(&house)?, &title, letter)?;
        Ok(sent("application/pdf", printed.pdf, None))
    })
    .await
}

/// The class roster as a table, a turn a row.
#[utoipa::path(get, path = "/api/roster/csv", tag = "shelf", operation_id = "roster_csv",
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn table(State(house): State<Arc<House>>) -> Result<Response, ServerError> {
    away(move || {
        let csv = roster_table(&plan(&house)?);
        let kind = "text/csv; charset=utf-8";
        Ok(sent(kind, csv.into_bytes(), Some("class-roster.csv")))
    })
    .await
}
