//! What is kept of every frame, once its plane is gone.

use crate::sharpness::Edges;
use crate::upright_lines::{LINES, UprightLine};

/// Tiles across and down for which the darkest place is kept.
pub(crate) const TILES_ACROSS: usize = 6;
pub(crate) const TILES_DOWN: usize = 4;
pub(crate) const TILES: usize = TILES_ACROSS * TILES_DOWN;

/// Measures of one frame: about 170 bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct KeptFrame {
    /// Whether there was a plane at all.
    pub(crate) seen: bool,
    /// Upright and lying edges.
    pub(crate) across: Edges,
    pub(crate) along: Edges,
    /// Light along the take. Unit: stops, from an unknown beginning.
    pub(crate) light: f32,
    /// How alike the frame is to the one before. Range: 0 to 1.
    pub(crate) alike: f32,
    /// Movement since the frame before. Unit: pixels of the plane.
    pub(crate) right: f32,
    pub(crate) down: f32,
    /// Share of the picture that moved by as much. Range: 0 to 1.
    pub(crate) agree: f32,
    /// Movement, to the right and down, as far as it is sure that the camera moved
    /// and not something before it. Unit: pixels of the plane.
    pub(crate) went: (f32, f32),
    /// Share of the picture that is clipped to white. Range: 0 to 1.
    pub(crate) white: f32,
    /// Share of the picture that is black.
    pub(crate) black: f32,
    /// Specks of dust; unknown at the ends and where the light changes.
    pub(crate) specks: Option<u16>,
    /// The strongest upright lines.
    pub(crate) lines: [UprightLine; LINES],
    /// Level of the darkest place of each tile.
    pub(crate) darkest: [u8; TILES],
    /// Mean level of each tile.
    pub(crate) means: [u8; TILES],
}

impl KeptFrame {
    /// The place of a frame that no scan shows.
    pub(crate) fn missing() -> Self {
        Self {
            seen: false,
            across: Edges::NONE,
            along: Edges::NONE,
            light: f32::NAN,
            alike: 0.0,
            right: 0.0,
            down: 0.0,
            agree: 0.0,
            went: (0.0, 0.0),
            white: 0.0,
            black: 0.0,
            specks: None,
            lines: [UprightLine::default(); LINES],
            darkest: [0; TILES],
            means: [0; TILES],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_frame_takes_no_more_than_is_said() {
        assert!(size_of::<KeptFrame>() <= 176, "{}", size_of::<KeptFrame>());
    }
}
