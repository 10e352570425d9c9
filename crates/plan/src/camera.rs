//! What the camera can do: views, focus, exposure, light and the day's sun.
//!
//! Each calculator gives its value and the sum behind it, opened.

mod camera_error;
mod close_up;
mod depth_of_field;
mod exposure_time;
mod field_of_view;
mod figures;
mod filter;
mod flash_frame;
mod framing;
mod light_value;
mod opened_sum;
mod pan;
mod sun;
mod sun_day;
mod true_speed;
mod two_ways;
mod wedge;
mod wedge_fit;

pub use camera_error::CameraError;
pub use close_up::{CloseUp, CloseUpAsked, close_up};
pub use depth_of_field::{CircleChoice, Depth, DepthAsked, Reach, depth_of_field, usual_circle};
pub use exposure_time::{Exposure, ExposureAsked, exposure_time};
pub(crate) use field_of_view::angle;
pub use field_of_view::{FieldAsked, FieldOfView, field_of_view};
pub use filter::{FilterAsked, FilterShift, KnownFilter, filter_shift, known_filters};
pub use flash_frame::{FlashAsked, FlashSpeed, flash_speed};
pub use framing::{FramedSize, Framing, FramingAsked, SizeAtHand, framing};
pub use light_value::{LightAsked, LightKnown, LightValue, light_value};
pub use opened_sum::{OpenedSum, Reckoned};
pub use pan::{PanAsked, PanSpeed, pan_speed};
pub use sun::{GoldenLight, SunAsked, SunAt, SunDay, SunStays, sun};
pub use true_speed::{FlickerSeen, PendulumSeen, SpeedSeen, TurntableSeen};
pub use two_ways::{TrueSpeed, true_speed};
pub use wedge::{MeterError, WedgeAsked, WedgeLine, WedgeTake, wedge};
