//! A strip of any gauge laid out flat. Unit: millimetres.

use onestrand_film::{Gauge, HolePlace};

use crate::film::{HIGH, WIDE};

/// A strip of film.
pub(crate) struct Strip<'a> {
    gauge: Gauge,
    frames: &'a [&'a [u8]],
    /// Width and height of a hole.
    hole: (f32, f32),
    /// Middles of the holes across the strip.
    across: Vec<f32>,
    /// Middles of the holes along a frame, from its frame line.
    along: Vec<f32>,
}

impl<'a> Strip<'a> {
    /// A strip of frames, with holes along both edges where that is asked for.
    pub(crate) fn of(gauge: Gauge, both_edges: bool, frames: &'a [&'a [u8]]) -> Self {
        let spec = gauge.spec();
        let mm = |um: u32| um as f32 / 1000.0;
        let (pitch, width) = (mm(spec.pitch_um), mm(spec.strip.width_um));
        let place = spec.strip.place;
        // Where the table of gauges knows no hole: from memory, to draw by.
        let (hole, edge) = match (spec.strip.hole_um, spec.strip.edge_um, place) {
            (Some((w, h)), Some(edge), _) => ((mm(w), mm(h)), mm(edge)),
            (.., HolePlace::CentreOnFrameLine) => ((2.4, 1.0), width / 2.0 - 1.2),
            _ => ((2.8, 1.98), 2.01),
        };
        let first = edge + hole.0 / 2.0;
        let mut across = vec![first];
        if both_edges || place == HolePlace::FourBothEdges {
            across.push(width - first);
        }
        let along = match place {
            HolePlace::BesidePicture => vec![pitch / 2.0],
            HolePlace::FourBothEdges => [0.125, 0.375, 0.625, 0.875].map(|s| s * pitch).into(),
            _ => vec![0.0, pitch],
        };
        Self {
            gauge,
            frames,
            hole,
            across,
            along,
        }
    }

    pub(crate) fn pitch(&self) -> f32 {
        self.gauge.spec().pitch_um as f32 / 1000.0
    }

    pub(crate) fn length(&self) -> f32 {
        self.pitch() * self.frames.len() as f32
    }

    pub(crate) fn width(&self) -> f32 {
        self.gauge.spec().strip.width_um as f32 / 1000.0
    }

    fn is_hole(&self, x: f32, within: f32) -> bool {
        let near =
            |places: &[f32], at: f32, half: f32| places.iter().any(|p| (p - at).abs() <= half);
        near(&self.across, x, self.hole.0 / 2.0) && near(&self.along, within, self.hole.1 / 2.0)
    }

    /// What comes through at a place, 0 to 1; nothing beside the strip.
    pub(crate) fn through(&self, x: f32, y: f32) -> Option<f32> {
        if x < 0.0 || y < 0.0 || x > self.width() || y >= self.length() {
            return None;
        }
        let spec = self.gauge.spec();
        let pitch = self.pitch();
        let frame = ((y / pitch) as usize).min(self.frames.len() - 1);
        let within = y - frame as f32 * pitch;
        if self.is_hole(x, within) {
            return None;
        }
        let (pw, ph) = (
            spec.camera.width_um as f32 / 1000.0,
            spec.camera.height_um as f32 / 1000.0,
        );
        let left = spec.strip.picture_left_um as f32 / 1000.0;
        let (u, v) = ((x - left) / pw, (within - (pitch - ph) / 2.0) / ph);
        if !(0.0..1.0).contains(&u) || !(0.0..1.0).contains(&v) {
            // Unexposed reversal film is black.
            return Some(0.03);
        }
        let at = (v * HIGH as f32) as usize * WIDE + (u * WIDE as f32) as usize;
        Some(0.02 + 0.83 * f32::from(self.frames[frame][at]) / 255.0)
    }
}
