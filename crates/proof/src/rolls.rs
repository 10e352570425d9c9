//! The sketches of all frames of a roll, to be searched.

use crate::ProofError;
use crate::sketch::{COARSE_CELLS, FINE_CELLS, MIDDLE_CELLS, Sketch, dot};

/// The form in which sketches are kept.
const FORM: &[u8; 8] = b"sketch 1";

/// All frames of a roll, as [`Sketch`]es in three finenesses. About a kilobyte a frame.
#[derive(Debug, Clone, Default)]
pub struct RollSketches {
    fine: Vec<i8>,
    middle: Vec<i8>,
    coarse: Vec<i8>,
    /// One over the length of each coarse sketch, 0 where nothing is seen.
    per_coarse: Vec<f32>,
}

impl RollSketches {
    /// A roll of no frames yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds the next frame; nothing where the roll has no picture of it.
    pub fn push(&mut self, sketch: Option<&Sketch>) {
        match sketch.filter(|s| !s.is_blank()) {
            Some(sketch) => self.push_cells(&sketch.fine, sketch),
            None => self.push_cells(&[0; FINE_CELLS], &Sketch::of_nothing()),
        }
    }

    fn push_cells(&mut self, fine: &[i8], sketch: &Sketch) {
        let coarse = sketch.coarse();
        let length = (dot(&coarse, &coarse) as f32).sqrt();
        self.fine.extend_from_slice(fine);
        self.middle.extend(sketch.middle());
        self.coarse.extend(coarse);
        self.per_coarse
            .push(if length > 0.0 { 1.0 / length } else { 0.0 });
    }

    /// Frames of the roll.
    #[must_use]
    pub fn frames(&self) -> usize {
        self.per_coarse.len()
    }

    /// Whether there is a picture of the frame with something in it.
    #[must_use]
    pub fn is_seen(&self, frame: usize) -> bool {
        self.per_coarse.get(frame).is_some_and(|&l| l > 0.0)
    }

    pub(crate) fn fine(&self, frame: usize) -> &[i8] {
        &self.fine[frame * FINE_CELLS..(frame + 1) * FINE_CELLS]
    }

    pub(crate) fn middle(&self, frame: usize) -> &[i8] {
        &self.middle[frame * MIDDLE_CELLS..(frame + 1) * MIDDLE_CELLS]
    }

    pub(crate) fn coarse(&self) -> impl Iterator<Item = (&[i8], f32)> {
        let cells = self.coarse.chunks_exact(COARSE_CELLS);
        cells.zip(self.per_coarse.iter().copied())
    }

    /// The sketches as bytes to keep.
    #[must_use]
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = FORM.to_vec();
        bytes.extend(self.fine.iter().map(|&v| v.cast_unsigned()));
        bytes
    }

    /// Sketches that were kept.
    ///
    /// # Errors
    /// [`ProofError::Kept`] when they are of another form, or cut off.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, ProofError> {
        let cells = bytes.strip_prefix(FORM).ok_or(ProofError::Kept)?;
        if !cells.len().is_multiple_of(FINE_CELLS) {
            return Err(ProofError::Kept);
        }
        let mut roll = Self::new();
        for frame in cells.chunks_exact(FINE_CELLS) {
            let fine: Vec<i8> = frame.iter().map(|&v| v.cast_signed()).collect();
            let sketch = Sketch {
                strength: 1.0,
                fine,
            };
            roll.push_cells(&sketch.fine, &sketch);
        }
        Ok(roll)
    }
}
