//! Logs: sheets about rolls as tables, and logs and camera reports that others
//! have written.

use std::path::Path as FilePath;
use std::sync::Arc;

use axum::Json;
use axum::body::Bytes;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use onestrand_production::{
    CountedIn, FilmPart, LogImported, LogReading, gather_roll_sheet, import_log_text, read_log,
};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::routes::sheets::{as_table, roll_sheet};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(table))
        .routes(routes!(bring_in))
}

/// Of which rolls a table is made.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OfRoll {
    /// The roll; all of them when not said.
    #[serde(default)]
    roll: Option<String>,
}

/// A sheet about rolls as a table.
#[utoipa::path(get, path = "/api/films/{film}/sheets/{sheet}/csv", tag = "sheets", operation_id = "roll_sheet_csv",
    params(("film" = String, Path), ("sheet" = String, Path), OfRoll),
    responses((status = 200, content_type = "text/csv", body = String), (status = "default", body = ProblemDocument)))]
async fn table(
    State(house): State<Arc<House>>,
    Path((film, sheet)): Path<(String, String)>,
    Query(of): Query<OfRoll>,
) -> Result<Response, ServerError> {
    let sheet = roll_sheet(&sheet)?;
    away(move || {
        let desk = house.film(&film)?;
        let gathered = gather_roll_sheet(&desk.production(), sheet, of.roll.as_deref(), false)?;
        Ok(as_table(gathered.csv()))
    })
    .await
}

/// How a log is to be read, and whether it is to be kept.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct HowToRead {
    /// The name of the file, to say where its problems are.
    name: String,
    /// The roll, for a log that names none.
    #[serde(default)]
    roll: Option<String>,
    /// In what figures without a unit count: `frames`, `feet` or `seconds`.
    #[serde(default)]
    counted: Option<String>,
    /// Whether it is kept; otherwise it is only said what it would bring.
    #[serde(default)]
    keep: bool,
}

impl HowToRead {
    fn reading(&self) -> Result<LogReading, ServerError> {
        let counted = match self.counted.as_deref() {
            None | Some("") => None,
            Some("frames") => Some(CountedIn::Frames),
            Some("feet") => Some(CountedIn::Feet),
            Some("seconds") => Some(CountedIn::Seconds),
            Some(other) => {
                return Err(ServerError::Unreadable {
                    why: format!("{other:?} is no way to count; frames, feet or seconds is"),
                });
            }
        };
        Ok(LogReading {
            roll: self.roll.clone().filter(|roll| !roll.is_empty()),
            counted,
        })
    }
}

/// Brings a log or a camera report in, or says what it would bring.
#[utoipa::path(post, path = "/api/films/{film}/log", tag = "rolls", operation_id = "bring_log_in",
    params(("film" = String, Path), HowToRead),
    request_body(content = String, content_type = "text/csv"),
    responses((status = 200, body = LogImported), (status = "default", body = ProblemDocument)))]
async fn bring_in(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(how): Query<HowToRead>,
    body: Bytes,
) -> Result<Json<LogImported>, ServerError> {
    let reading = how.reading()?;
    away(move || {
        let desk = house.film(&film)?;
        let named = FilePath::new(&how.name);
        let mut production = desk.production();
        if !how.keep {
            let (_, _, would) = read_log(&production, named, body.to_vec(), &reading)?;
            return Ok(Json(would));
        }
        let done = import_log_text(&mut production, named, body.to_vec(), &reading)?;
        let parts = done.rolls.iter().cloned().map(FilmPart::Takes).collect();
        desk.was_changed(&production, &format!("the log {}", how.name), parts);
        Ok(Json(done))
    })
    .await
}
