//! The field on the artwork, as far as cards need it.

use onestrand_film::Aperture;

use super::reckoned::Shop;
use super::stand::title_field;
use super::stand_kept::{gate, number};
use super::stand_of_film::field_request;
use crate::ProductionError;
use crate::error::unfit;

/// What the camera sees of the artwork and what of it is shown. Unit: mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Field {
    /// All that the gate lets through, on the artwork.
    pub(super) seen_mm: (f64, f64),
    /// What the projector shows of it, on the artwork.
    pub(super) shown_mm: (f64, f64),
    /// The projected aperture itself, on the film.
    pub(super) aperture_mm: (f64, f64),
}

impl Field {
    pub(super) fn of(shop: &Shop<'_>) -> Result<Self, ProductionError> {
        let spec = shop.gauge.spec();
        let mm = |a: Aperture| (f64::from(a.width_um) / 1e3, f64::from(a.height_um) / 1e3);
        let gate = gate(&shop.stand.gate)?.unwrap_or_else(|| mm(spec.camera));
        let shown = mm(spec.shown);
        let width = match number("the width of the field", &shop.stand.width)? {
            Some(width) => width,
            None => title_field(&field_request(shop)?)?.field_mm[0],
        };
        if width < 1.0 {
            return Err(unfit(
                "the field on the artwork has no width".to_owned(),
                "say how wide the camera sees it, in millimetres, such as 240",
            ));
        }
        let larger = width / gate.0;
        Ok(Self {
            seen_mm: (width, gate.1 * larger),
            shown_mm: (shown.0 * larger, shown.1 * larger),
            aperture_mm: shown,
        })
    }
}
