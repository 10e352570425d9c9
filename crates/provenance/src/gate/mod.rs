//! Where the picture ends on each side: the outline of the camera's gate.

mod border;
mod outline;
mod places;

pub(crate) use border::{rough_border, rough_sides};
pub use outline::{GateOutline, PLACES, Side};
pub(crate) use outline::{Measured, measured};
pub(crate) use places::axis;
