//! The sums of the copy stand as they are handed out.

use crate::camera::figure;
use crate::documents::CameraSumDocument;

/// One step of a sum.
pub(super) fn sum(
    what: &str,
    formula: &str,
    figures: String,
    comes: String,
    source: &str,
) -> CameraSumDocument {
    CameraSumDocument {
        what: what.to_owned(),
        formula: formula.to_owned(),
        figures,
        comes,
        source: source.to_owned(),
    }
}

/// Two sides: `240 × 178 mm`.
pub(super) fn sides([wide, high]: [f64; 2], decimals: usize) -> String {
    format!("{wide:.decimals$} × {high:.decimals$} mm")
}

/// Millimetres, to a tenth.
pub(super) fn mm(value: f64) -> String {
    format!("{} mm", figure(value, 1))
}
