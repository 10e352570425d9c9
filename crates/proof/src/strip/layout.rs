//! A gauge's measures, as a strip of it is looked at.

use onestrand_film::{Gauge, HolePlace};

/// A hole and its distance from the edge, from memory, where the table of gauges has no
/// figure: 9.5 mm and 35 mm. Unit: micrometres.
const CENTRE_HOLE_UM: (u32, u32) = (2_400, 1_000);
/// See there.
const EDGE_HOLE_UM: (u32, u32) = (2_800, 1_980);
/// See there.
const EDGE_UM: u32 = 2_000;

/// A gauge's measures with the way from hole to hole as one.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) holes_a_frame: i32,
    /// From the middle of the hole to the near and the far edge of the strip.
    pub(super) near: f32,
    pub(super) far: f32,
    /// From the middle of the hole to the middle of the picture, across and along.
    pub(super) middle: (f32, f32),
    /// Width and height of the picture in the camera.
    pub(super) picture: (f32, f32),
    /// Places across the picture at which nothing but pictures and frame lines is, as
    /// shares of half its width.
    pub(super) clear_of_holes: &'static [f32],
    /// How much longer than short a hole is.
    pub(super) aspect: f32,
    /// From hole to hole, in sides of a hole: least and most that is believed.
    pub(super) spacing: (f32, f32),
}

impl Layout {
    pub(super) fn of(gauge: Gauge) -> Self {
        let spec = gauge.spec();
        let strip = &spec.strip;
        let four = strip.place == HolePlace::FourBothEdges;
        let holes_a_frame = if four { 4 } else { 1 };
        let step = spec.pitch_um as f32 / holes_a_frame as f32;
        let um = |um: u32| um as f32 / step;
        let is_centre = strip.place == HolePlace::CentreOnFrameLine;
        let remembered = if is_centre {
            CENTRE_HOLE_UM
        } else {
            EDGE_HOLE_UM
        };
        let (w, h) = strip.hole_um.unwrap_or(remembered);
        let (w, h) = (um(w), um(h));
        let near = if is_centre {
            um(strip.width_um) / 2.0
        } else {
            um(strip.edge_um.unwrap_or(EDGE_UM)) + w / 2.0
        };
        let left = um(strip.picture_left_um);
        let along = match strip.place {
            HolePlace::BesidePicture => 0.0,
            // Four holes a frame: the frame line lies between two.
            HolePlace::FourBothEdges => 1.5,
            _ => 0.5,
        };
        let sides = 1.0 / (w * h).sqrt();
        Self {
            holes_a_frame,
            near,
            far: um(strip.width_um) - near,
            middle: (left + um(spec.camera.width_um) / 2.0 - near, along),
            picture: (um(spec.camera.width_um), um(spec.camera.height_um)),
            spacing: (0.62 * sides, 1.7 * sides),
            clear_of_holes: if is_centre {
                &[-0.85, -0.5, 0.5, 0.85]
            } else {
                &[-0.85, -0.5, 0.0, 0.5, 0.85]
            },
            aspect: (w / h).max(h / w),
        }
    }
}
