//! What the camera can do. None of it wants a film but the wedge of a roll.

use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, Query, State};
use onestrand_production as acts;
use onestrand_production::documents::{
    CameraCloseUpDocument, CameraDepthDocument, CameraEvDocument, CameraExposureDocument,
    CameraFieldDocument, CameraFilterDocument, CameraFlashDocument, CameraFramingDocument,
    CameraPanDocument, CameraSpeedDocument, CameraSunDocument, CameraWedgeDocument,
};
use onestrand_production::{
    CameraCloseUpRequest, CameraDepthRequest, CameraEvRequest, CameraExposureRequest,
    CameraFieldRequest, CameraFilterRequest, CameraFlashRequest, CameraFramingRequest,
    CameraPanRequest, CameraRollWedgeRequest, CameraSpeedRequest, CameraSunRequest,
    CameraWedgeRequest,
};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(field))
        .routes(routes!(framing))
        .routes(routes!(depth))
        .routes(routes!(closeup))
        .routes(routes!(exposure))
        .routes(routes!(ev))
        .routes(routes!(filter))
        .routes(routes!(pan))
        .routes(routes!(flash))
        .routes(routes!(sun))
        .routes(routes!(speed))
        .routes(routes!(wedge))
        .routes(routes!(wedge_of_roll))
}

/// What a lens takes in.
#[utoipa::path(get, path = "/api/camera/field", tag = "camera", operation_id = "camera_field",
    params(CameraFieldRequest),
    responses((status = 200, body = CameraFieldDocument), (status = "default", body = ProblemDocument)))]
async fn field(
    Query(request): Query<CameraFieldRequest>,
) -> Result<Json<CameraFieldDocument>, ServerError> {
    Ok(Json(acts::camera_field(&request)?))
}

/// Which lens, which distance, or which view of a standing person.
#[utoipa::path(get, path = "/api/camera/framing", tag = "camera", operation_id = "camera_framing",
    params(CameraFramingRequest),
    responses((status = 200, body = CameraFramingDocument), (status = "default", body = ProblemDocument)))]
async fn framing(
    Query(request): Query<CameraFramingRequest>,
) -> Result<Json<CameraFramingDocument>, ServerError> {
    Ok(Json(acts::camera_framing(&request)?))
}

/// From where to where it is sharp.
#[utoipa::path(get, path = "/api/camera/depth", tag = "camera", operation_id = "camera_depth",
    params(CameraDepthRequest),
    responses((status = 200, body = CameraDepthDocument), (status = "default", body = ProblemDocument)))]
async fn depth(
    Query(request): Query<CameraDepthRequest>,
) -> Result<Json<CameraDepthDocument>, ServerError> {
    Ok(Json(acts::camera_depth(&request)?))
}

/// Where to lay what is filmed through close-up lenses, and how much fills the picture.
#[utoipa::path(get, path = "/api/camera/closeup", tag = "camera", operation_id = "camera_closeup",
    params(CameraCloseUpRequest),
    responses((status = 200, body = CameraCloseUpDocument), (status = "default", body = ProblemDocument)))]
async fn closeup(
    Query(request): Query<CameraCloseUpRequest>,
) -> Result<Json<CameraCloseUpDocument>, ServerError> {
    Ok(Json(acts::camera_closeup(&request)?))
}

/// How long a frame gets light.
#[utoipa::path(get, path = "/api/camera/exposure", tag = "camera", operation_id = "camera_exposure",
    params(CameraExposureRequest),
    responses((status = 200, body = CameraExposureDocument), (status = "default", body = ProblemDocument)))]
async fn exposure(
    Query(request): Query<CameraExposureRequest>,
) -> Result<Json<CameraExposureDocument>, ServerError> {
    Ok(Json(acts::camera_exposure(&request)?))
}

/// Which stop for which light, or which light for which stop.
#[utoipa::path(get, path = "/api/camera/ev", tag = "camera", operation_id = "camera_ev",
    params(CameraEvRequest),
    responses((status = 200, body = CameraEvDocument), (status = "default", body = ProblemDocument)))]
async fn ev(Query(request): Query<CameraEvRequest>) -> Result<Json<CameraEvDocument>, ServerError> {
    Ok(Json(acts::camera_ev(&request)?))
}

/// How far a filter must turn the light.
#[utoipa::path(get, path = "/api/camera/filter", tag = "camera", operation_id = "camera_filter",
    params(CameraFilterRequest),
    responses((status = 200, body = CameraFilterDocument), (status = "default", body = ProblemDocument)))]
async fn filter(
    Query(request): Query<CameraFilterRequest>,
) -> Result<Json<CameraFilterDocument>, ServerError> {
    Ok(Json(acts::camera_filter(&request)?))
}

/// How fast a pan may be.
#[utoipa::path(get, path = "/api/camera/pan", tag = "camera", operation_id = "camera_pan",
    params(CameraPanRequest),
    responses((status = 200, body = CameraPanDocument), (status = "default", body = ProblemDocument)))]
async fn pan(
    Query(request): Query<CameraPanRequest>,
) -> Result<Json<CameraPanDocument>, ServerError> {
    Ok(Json(acts::camera_pan(&request)?))
}

/// How slowly the camera ran at a flash frame.
#[utoipa::path(get, path = "/api/camera/flash", tag = "camera", operation_id = "camera_flash",
    params(CameraFlashRequest),
    responses((status = 200, body = CameraFlashDocument), (status = "default", body = ProblemDocument)))]
async fn flash(
    Query(request): Query<CameraFlashRequest>,
) -> Result<Json<CameraFlashDocument>, ServerError> {
    Ok(Json(acts::camera_flash(&request)?))
}

/// Where the sun stands, when it rises and sets, and what light is left.
#[utoipa::path(get, path = "/api/camera/sun", tag = "camera", operation_id = "camera_sun",
    params(CameraSunRequest),
    responses((status = 200, body = CameraSunDocument), (status = "default", body = ProblemDocument)))]
async fn sun(
    Query(request): Query<CameraSunRequest>,
) -> Result<Json<CameraSunDocument>, ServerError> {
    away(move || Ok(Json(acts::camera_sun(&request)?))).await
}

/// The camera's true speed, from what was counted in the picture.
#[utoipa::path(get, path = "/api/camera/speed", tag = "camera", operation_id = "camera_speed",
    params(CameraSpeedRequest),
    responses((status = 200, body = CameraSpeedDocument), (status = "default", body = ProblemDocument)))]
async fn speed(
    Query(request): Query<CameraSpeedRequest>,
) -> Result<Json<CameraSpeedDocument>, ServerError> {
    Ok(Json(acts::camera_speed(&request)?))
}

/// The meter's error from an exposure wedge that was measured elsewhere.
#[utoipa::path(get, path = "/api/camera/wedge", tag = "camera", operation_id = "camera_wedge",
    params(CameraWedgeRequest),
    responses((status = 200, body = CameraWedgeDocument), (status = "default", body = ProblemDocument)))]
async fn wedge(
    Query(request): Query<CameraWedgeRequest>,
) -> Result<Json<CameraWedgeDocument>, ServerError> {
    Ok(Json(acts::camera_wedge(&request)?))
}

/// The meter's error from takes of a roll, whose light was measured when it was read.
#[utoipa::path(get, path = "/api/films/{film}/camera/wedge", tag = "camera",
    operation_id = "camera_wedge_of_roll",
    params(("film" = String, Path), CameraRollWedgeRequest),
    responses((status = 200, body = CameraWedgeDocument), (status = "default", body = ProblemDocument)))]
async fn wedge_of_roll(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(request): Query<CameraRollWedgeRequest>,
) -> Result<Json<CameraWedgeDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let production = desk.production();
        Ok(Json(acts::camera_wedge_of_roll(&production, &request)?))
    })
    .await
}
