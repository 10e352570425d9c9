//! Long work under way, and the stream of events.

use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

use axum::Json;
use axum::extract::{Path, State};
use axum::response::Response;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::{Stream, StreamExt};
use tokio_stream::wrappers::BroadcastStream;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::events::EventDocument;
use crate::house::House;
use crate::jobs::JobDocument;
use crate::problem::{ProblemDocument, ServerError};
use crate::routes::pictures::{Keep, jpeg};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(jobs))
        .routes(routes!(stop))
        .routes(routes!(watched))
        .routes(routes!(events))
}

/// Long work of this run of the program.
#[utoipa::path(get, path = "/api/jobs", tag = "work", operation_id = "jobs",
    responses((status = 200, body = Vec<JobDocument>), (status = "default", body = ProblemDocument)))]
async fn jobs(State(house): State<Arc<House>>) -> Json<Vec<JobDocument>> {
    Json(house.jobs.documents())
}

/// Stops long work; what was kept before stays.
#[utoipa::path(delete, path = "/api/jobs/{job}", tag = "work", operation_id = "stop_job", params(("job" = u64, Path)),
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn stop(
    State(house): State<Arc<House>>,
    Path(job): Path<u64>,
) -> Result<Json<JobDocument>, ServerError> {
    let job = house.jobs.job(job)?;
    job.cancel.cancel();
    Ok(Json(job.document()))
}

/// A small picture of a roll that is being read, by its frame of the file.
#[utoipa::path(get, path = "/api/jobs/{job}/pictures/{frame}", tag = "work", operation_id = "watched_picture",
    params(("job" = u64, Path), ("frame" = u64, Path)),
    responses((status = 200, content_type = "image/jpeg", body = Vec<u8>), (status = 204, description = "not read yet, or kept already"),
        (status = "default", body = ProblemDocument)))]
async fn watched(
    State(house): State<Arc<House>>,
    Path((job, frame)): Path<(u64, u64)>,
) -> Result<Response, ServerError> {
    let found = house.jobs.job(job)?.watched(frame);
    Ok(jpeg(found, Keep::Never))
}

/// A silent line now and then, so that a page knows that the program is there.
pub(super) const SILENT_LINE: Duration = Duration::from_secs(2);

/// Events as they come, one JSON document each.
#[utoipa::path(get, path = "/api/events", tag = "work", operation_id = "events",
    responses((status = 200, body = EventDocument, content_type = "text/event-stream")))]
async fn events(
    State(house): State<Arc<House>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let told = BroadcastStream::new(house.events.listen());
    let stream = told.map(|event| {
        // A window that was too slow is told to ask for everything again.
        let event = event.unwrap_or(EventDocument::Lost);
        Ok(Event::default()
            .json_data(&event)
            .unwrap_or_else(|_| Event::default()))
    });
    Sse::new(stream).keep_alive(KeepAlive::new().interval(SILENT_LINE))
}
