//! What the finder keeps of a frame while it lies in the window.

use crate::blocks::Step;
use crate::compare::Pair;
use crate::measures::FrameMeasures;
use crate::plane::PlaneRef;
use crate::shift::{Coarse, best_step, whole_picture_step};
use crate::small::{SMALL_HEIGHT, SMALL_WIDTH, Small};

/// A frame in the window.
#[derive(Debug)]
pub(crate) struct HeldFrame {
    pub(crate) small: Small,
    coarse: Coarse,
    /// How far the whole picture has moved since the frame before.
    pub(crate) step: Step,
    pub(crate) measures: FrameMeasures,
    /// What grain and coding leave between this frame and the one before, in
    /// levels; next to nothing where a transfer shows one film frame twice.
    pub(crate) grain: f32,
}

impl HeldFrame {
    /// Measures a plane, alone and against the frame before.
    pub(crate) fn new(plane: PlaneRef<'_>, before: Option<&Self>) -> Self {
        let small = Small::of(plane);
        let coarse = Coarse::of(&small);
        let mut measures = FrameMeasures::alone(plane, &small);
        measures.edges = edges(coarse.bends(), &measures);
        let (mut step, mut grain) = (Step::default(), 0.0);
        if let Some(before) = before {
            step = whole_picture_step(
                (&before.coarse, &before.small),
                (&coarse, &small),
                before.step,
            );
            (measures.change, grain) = Pair::new(&before.small, &small, step).mean_and_grain();
            measures.moved_right = thousandths(step.right, SMALL_WIDTH);
            measures.moved_down = thousandths(step.down, SMALL_HEIGHT);
        }
        Self {
            small,
            coarse,
            step,
            measures,
            grain,
        }
    }
}

impl HeldFrame {
    /// The frame at a quarter of the plane's size.
    pub(crate) fn coarse(&self) -> &Coarse {
        &self.coarse
    }

    /// The likeliest movement of the whole picture to another frame of the same
    /// set-up, however little speaks for it.
    pub(crate) fn likeliest_step_to(&self, other: &Self) -> Step {
        best_step((&self.coarse, &self.small), (&other.coarse, &other.small)).0
    }

    /// How far the whole picture has moved to another frame, not
    /// necessarily the next.
    pub(crate) fn step_to(&self, other: &Self) -> Step {
        whole_picture_step(
            (&self.coarse, &self.small),
            (&other.coarse, &other.small),
            Step::default(),
        )
    }
}

/// How much of the picture is edges of things, from the Laplacian at a quarter
/// size.
///
/// Grain alone has a quarter of its full-size Laplacian there (the mean of 16
/// pixels varies a quarter as much), which is taken off.
fn edges(bends: f32, measures: &FrameMeasures) -> f32 {
    /// Keeps the ratio small where there is next to no contrast.
    const LEAST_CONTRAST: f32 = 8.0;
    (bends - measures.sharpness / 4.0).max(0.0) / (measures.contrast + LEAST_CONTRAST)
}

/// Pixels of the halved plane as thousandths of its width or height.
pub(crate) fn thousandths(pixels: i32, of: usize) -> f32 {
    1000.0 * pixels as f32 / of as f32
}
