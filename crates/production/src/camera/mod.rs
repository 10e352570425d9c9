//! The camera's calculators: what is said in words, reckoned, and told with its sum.

mod day;
mod lens;
mod light;
mod moving;
mod opened;
mod said;
mod wedge_of_roll;

pub(crate) use opened::{figure, opened, plate, signed};
pub(crate) use said::{length_mm, numbers};

pub use day::{CameraSunRequest, camera_sun};
pub use lens::{
    CameraCloseUpRequest, CameraDepthRequest, CameraFieldRequest, CameraFramingRequest,
    camera_closeup, camera_depth, camera_field, camera_framing,
};
pub use light::{
    CameraEvRequest, CameraExposureRequest, CameraFilterRequest, CameraFlashRequest, camera_ev,
    camera_exposure, camera_filter, camera_flash,
};
pub use moving::{CameraPanRequest, CameraSpeedRequest, camera_pan, camera_speed};
pub use wedge_of_roll::{
    CameraRollWedgeRequest, CameraWedgeRequest, camera_wedge, camera_wedge_of_roll,
};
