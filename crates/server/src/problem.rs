//! Why a request was not carried out, and how that is said to the page.

use std::path::PathBuf;

use axum::Json;
use axum::body::to_bytes;
use axum::extract::Request;
use axum::http::{HeaderMap, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use onestrand_production::ProductionError;
use onestrand_store::StoreError;
use serde::Serialize;
use utoipa::ToSchema;

use crate::tablets::TabletProblem;

/// What went wrong, in one form for every request.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub(crate) struct ProblemDocument {
    /// A stable name for programs.
    pub code: String,
    /// What was asked and what was found, in words.
    pub message: String,
    /// The next step.
    pub hint: String,
    /// More for a program to read.
    pub details: serde_json::Value,
}

/// Why a request was not carried out.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub(crate) enum ServerError {
    /// The act itself could not be carried out.
    #[error(transparent)]
    Act(#[from] ProductionError),
    /// The change was made against a state that another window has changed.
    #[error("another window has changed this meanwhile")]
    Stale {
        /// The revision the change was made against.
        seen: u64,
        /// The revision now.
        now: u64,
    },
    /// A path that lies in none of the chosen folders.
    #[error("this lies outside the folders you have chosen: {}", .path.display())]
    Outside {
        /// The path asked for.
        path: PathBuf,
    },
    /// There is no such thing.
    #[error("there is no {what} {name}")]
    NotThere {
        /// What kind of thing.
        what: &'static str,
        /// Its name.
        name: String,
    },
    /// The request cannot be read.
    #[error("the request cannot be read: {why}")]
    Unreadable {
        /// Why.
        why: String,
    },
    /// There is a scan of that name in the film's folder, or one is coming.
    #[error("there is a scan named {name} already")]
    ScanThere {
        /// The name.
        name: String,
    },
    /// A file that is copied in does not fit on the disk.
    #[error("the copy needs {bytes} bytes, {free} are free")]
    NoRoom {
        /// Its size.
        bytes: u64,
        /// What is free.
        free: u64,
    },
    /// A tablet was refused, or the machine for it.
    #[error(transparent)]
    Tablet(#[from] TabletProblem),
    /// Something inside has failed that no request should bring about.
    #[error("the program has failed at this: {what}")]
    Broken {
        /// What.
        what: &'static str,
    },
}

impl From<StoreError> for ServerError {
    fn from(problem: StoreError) -> Self {
        Self::Act(problem.into())
    }
}

impl ServerError {
    /// A stable name for programs.
    #[must_use]
    pub(crate) fn code(&self) -> &str {
        match self {
            Self::Act(e) => e.code(),
            Self::Stale { .. } => "store.stale",
            Self::Outside { .. } => "server.outside_folders",
            Self::NotThere { .. } => "server.not_there",
            Self::Unreadable { .. } => "server.unreadable",
            Self::ScanThere { .. } => "server.scan_there",
            Self::NoRoom { .. } => "server.no_room",
            Self::Tablet(e) => e.code(),
            Self::Broken { .. } => "server.broken",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub(crate) fn hint(&self) -> String {
        match self {
            Self::Act(e) => e.hint(),
            Self::Stale { .. } => {
                "look at what stands there now; what you typed is kept here".to_owned()
            }
            Self::Outside { .. } => {
                "choose its folder first, or start the program with --media and the folder"
                    .to_owned()
            }
            Self::NotThere { .. } => "look at the names on the shelf and in the rolls".to_owned(),
            Self::Unreadable { .. } => "load the page again".to_owned(),
            Self::ScanThere { .. } => {
                "bring in the one that is there, or give yours another name".to_owned()
            }
            Self::NoRoom { .. } => {
                "make room, or choose the folder where the file lies instead of copying it"
                    .to_owned()
            }
            Self::Tablet(e) => e.hint().to_owned(),
            Self::Broken { .. } => {
                "what was kept is safe; start the program again and report this".to_owned()
            }
        }
    }

    /// The status of the answer.
    #[must_use]
    pub(crate) fn status(&self) -> StatusCode {
        match self {
            Self::Act(e) => status_of(e),
            Self::Stale { .. } | Self::ScanThere { .. } => StatusCode::CONFLICT,
            Self::Outside { .. } => StatusCode::FORBIDDEN,
            Self::NotThere { .. } => StatusCode::NOT_FOUND,
            Self::Unreadable { .. } => StatusCode::BAD_REQUEST,
            Self::NoRoom { .. } => StatusCode::PAYLOAD_TOO_LARGE,
            Self::Tablet(e) => e.status(),
            Self::Broken { .. } => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    /// The same as a document.
    #[must_use]
    pub(crate) fn document(&self) -> ProblemDocument {
        let details = match self {
            Self::Act(e) => e.details(),
            Self::Stale { seen, now } => serde_json::json!({ "seen": seen, "now": now }),
            _ => serde_json::Value::Null,
        };
        ProblemDocument {
            code: self.code().to_owned(),
            message: self.to_string(),
            hint: self.hint(),
            details,
        }
    }
}

fn status_of(problem: &ProductionError) -> StatusCode {
    match problem {
        ProductionError::Store(store) => match store {
            StoreError::NotFound { .. } | StoreError::NoProduction { .. } => StatusCode::NOT_FOUND,
            StoreError::AlreadyThere { .. }
            | StoreError::Owned { .. }
            | StoreError::NothingTo { .. }
            | StoreError::ForGood { .. }
            | StoreError::PinTaken { .. }
            | StoreError::Stale { .. }
            | StoreError::Refused(_)
            | StoreError::TooNew { .. }
            | StoreError::Damaged { .. } => StatusCode::CONFLICT,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        },
        ProductionError::CutRefused { .. }
        | ProductionError::RollThere { .. }
        | ProductionError::ScanChanged { .. }
        | ProductionError::Stopped => StatusCode::CONFLICT,
        _ => StatusCode::UNPROCESSABLE_ENTITY,
    }
}

impl IntoResponse for ServerError {
    fn into_response(self) -> Response {
        (self.status(), Json(self.document())).into_response()
    }
}

/// Brings what the framework itself refuses (a body that is no JSON, a number
/// that is none, a method that is not offered) into the one form.
pub(crate) async fn in_one_form(request: Request, next: Next) -> Response {
    let response = next.run(request).await;
    let status = response.status();
    let refused = status.is_client_error() || status.is_server_error();
    if !refused || is_json(response.headers()) {
        return response;
    }
    let (parts, body) = response.into_parts();
    let said = to_bytes(body, MOST_SAID).await.unwrap_or_default();
    let said = String::from_utf8_lossy(&said).trim().to_owned();
    let reason = status.canonical_reason().unwrap_or("refused");
    let document = ProblemDocument {
        code: code_of(status).to_owned(),
        message: if said.is_empty() {
            reason.to_lowercase()
        } else {
            said
        },
        hint: "load the page again".to_owned(),
        details: serde_json::Value::Null,
    };
    let mut formed = (status, Json(document)).into_response();
    for (name, value) in &parts.headers {
        if name != header::CONTENT_TYPE && name != header::CONTENT_LENGTH {
            formed.headers_mut().insert(name, value.clone());
        }
    }
    formed
}

/// The most that is repeated of what the framework says. Unit: bytes.
const MOST_SAID: usize = 4096;

fn is_json(headers: &HeaderMap) -> bool {
    let kind = headers.get(header::CONTENT_TYPE);
    kind.is_some_and(|k| k.as_bytes().starts_with(b"application/json"))
}

fn code_of(status: StatusCode) -> &'static str {
    match status {
        StatusCode::NOT_FOUND | StatusCode::METHOD_NOT_ALLOWED => "server.no_such_request",
        StatusCode::PAYLOAD_TOO_LARGE => "server.too_large",
        _ => "server.unreadable",
    }
}

/// Runs work that waits for the disk or counts for long, away from the threads
/// that answer requests. A panic in it is one failed request.
///
/// # Errors
/// What the work ends with; [`ServerError::Broken`] when it panicked.
pub(crate) async fn away<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, ServerError> + Send + 'static,
) -> Result<T, ServerError> {
    let broken = ServerError::Broken {
        what: "a request's own work",
    };
    tokio::task::spawn_blocking(work)
        .await
        .unwrap_or(Err(broken))
}
