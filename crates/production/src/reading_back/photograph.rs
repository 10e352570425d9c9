//! A photograph as it was handed in, turned upright, in grey.

use onestrand_pictures::{Photograph, upright_grey};

use crate::ProductionError;
use crate::error::unfit;

/// Reads a photograph: JPEG or PNG.
pub(super) fn read(bytes: &[u8]) -> Result<Photograph, ProductionError> {
    upright_grey(bytes).map_err(|problem| {
        unfit(
            format!("the photograph cannot be read: {problem}"),
            "hand in a JPEG or a PNG; most telephones can save one",
        )
    })
}
