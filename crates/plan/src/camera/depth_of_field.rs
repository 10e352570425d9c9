//! From where to where it is sharp.

use onestrand_film::Gauge;

use super::camera_error::{CameraError, distance_fits, lens_fits, stop_fits, within};
use super::field_of_view::far_enough;
use super::figures::{figure, mm};
use super::opened_sum::{OpenedSum, Reckoned};

/// The smallest spot that passes for a point, for a gauge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircleChoice {
    /// Across. Unit: millimetres on the film.
    pub mm: f64,
    /// Where the figure is from, and how sure it is.
    pub source: &'static str,
}

/// The spot that is taken for a gauge where no other is said.
#[must_use]
pub const fn usual_circle(gauge: Gauge) -> CircleChoice {
    let (mm, source) = match gauge {
        Gauge::Regular8 | Gauge::Super8 => (
            0.0127,
            "0.0005 in of handbooks for 8 mm, from memory; 0.010 to 0.013 mm are in use",
        ),
        Gauge::Sixteen => (
            0.015,
            "0.0006 in of a current handbook for 16 mm; older ones take 0.025 mm",
        ),
        Gauge::ThirtyFive => (0.025, "0.001 in of handbooks; older ones take 0.05 mm"),
        // Between 8 and 16 mm; nothing was read for it.
        _ => (0.015, "taken as for 16 mm: no figure was found for 9.5 mm"),
    };
    CircleChoice { mm, source }
}

/// A lens, its stop, and what it is focused on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthAsked {
    /// The lens. Unit: millimetres. Range: 1 to 2,000.
    pub lens_mm: f64,
    /// The geometric stop, not the one corrected for loss in the glass.
    /// Range: 0.5 to 128.
    pub stop: f64,
    /// The spot that passes for a point. Range: 0.001 to 0.2 mm.
    pub circle: CircleChoice,
    /// What it is focused on. Unit: millimetres from the lens.
    pub distance_mm: f64,
    /// The nearest mark on the lens, where it is said. Unit: millimetres.
    pub nearest_mm: Option<f64>,
}

/// From where to where it is sharp. Unit: millimetres from the lens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The hyperfocal distance: focused there, all is sharp from its half to infinity.
    pub hyperfocal_mm: f64,
    /// The near limit.
    pub near_mm: f64,
    /// The far limit; none where it is sharp to infinity.
    pub far_mm: Option<f64>,
}

/// From where to where it is sharp, by both forms in use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Depth {
    /// By the exact thin lens.
    pub exact: Reach,
    /// By the shorter form of printed tables, which holds for far things.
    pub table: Reach,
    /// From the near to the far limit, exact. Unit: millimetres.
    pub depth_mm: Option<f64>,
}

/// From where to where it is sharp.
///
/// Source: H = f² ÷ (N c) + f; near = u (H − f) ÷ (H + u − 2 f); far = u (H − f) ÷
/// (H − u), infinite from u = H on. The form of tables leaves f out beside u.
///
/// # Errors
/// [`CameraError::OutOfRange`] for figures outside their range,
/// [`CameraError::TooNear`] for a distance within the focal length or nearer than the
/// nearest mark.
///
/// ```
/// # use onestrand_film::Gauge;
/// # use onestrand_plan::camera::{DepthAsked, depth_of_field, usual_circle};
/// let circle = usual_circle(Gauge::Super8);
/// let asked = DepthAsked { lens_mm: 9.0, stop: 8.0, circle, distance_mm: 1_000.0, nearest_mm: None };
/// let found = depth_of_field(&asked)?.value;
/// assert_eq!(format!("{:.1}", found.exact.near_mm), "445.8");
/// assert_eq!(found.exact.far_mm, None);
/// assert!(depth_of_field(&DepthAsked { distance_mm: 8.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn depth_of_field(asked: &DepthAsked) -> Result<Reckoned<Depth>, CameraError> {
    let (f, n) = (lens_fits(asked.lens_mm)?, stop_fits(asked.stop)?);
    let hint = "for 8 mm film 0.0127 mm is usual, for 16 mm 0.015 mm";
    let c = within("the circle in mm", asked.circle.mm, (0.001, 0.2), hint)?;
    let u = distance_fits(asked.distance_mm)?;
    far_enough(u, f)?;
    if let Some(nearest) = asked.nearest_mm.filter(|nearest| u < *nearest) {
        return Err(CameraError::TooNear {
            distance_mm: u,
            nearest_mm: nearest,
            dioptres: 1000.0 / u - 1000.0 / nearest,
        });
    }
    let value = both_forms(f, n, c, u);
    Ok(Reckoned {
        sums: sums(f, n, c, u, &value),
        value,
        taken: vec![
            format!("what is smaller than {} mm on the film passes for a point: {}", figure(c, 4), asked.circle.source),
            "distances are from the lens, which is taken as thin; measure from the film mark for a tele or a zoom lens and the near limit is a little off".to_owned(),
        ],
    })
}

fn both_forms(f: f64, n: f64, c: f64, u: f64) -> Depth {
    let short = f * f / (n * c);
    let h = short + f;
    let exact = Reach {
        hyperfocal_mm: h,
        near_mm: u * (h - f) / (h + u - 2.0 * f),
        far_mm: (u < h).then(|| u * (h - f) / (h - u)),
    };
    let table = Reach {
        hyperfocal_mm: short,
        near_mm: short * u / (short + u),
        far_mm: (u < short).then(|| short * u / (short - u)),
    };
    Depth {
        exact,
        table,
        depth_mm: exact.far_mm.map(|far| far - exact.near_mm),
    }
}

const SOURCE: &str = "thin lens, as in handbooks of cinematography";

fn sums(f: f64, n: f64, c: f64, u: f64, found: &Depth) -> Vec<OpenedSum> {
    let h = found.exact.hyperfocal_mm;
    let (lens, focus, hyper) = (figure(f, 2), figure(u, 0), figure(h, 1));
    let far = |far: Option<f64>| far.map_or("infinity".to_owned(), mm);
    let table = &found.table;
    vec![
        OpenedSum {
            what: "hyperfocal distance H",
            formula: "lens² ÷ (stop × circle) + lens",
            figures: format!("{lens}² ÷ ({} × {}) + {lens}", figure(n, 2), figure(c, 4)),
            comes: mm(h),
            source: SOURCE,
        },
        OpenedSum {
            what: "near limit",
            formula: "focus × (H − lens) ÷ (H + focus − 2 × lens)",
            figures: format!("{focus} × ({hyper} − {lens}) ÷ ({hyper} + {focus} − 2 × {lens})"),
            comes: mm(found.exact.near_mm),
            source: SOURCE,
        },
        OpenedSum {
            what: "far limit",
            formula: "focus × (H − lens) ÷ (H − focus); infinity from focus = H on",
            figures: match found.exact.far_mm {
                Some(_) => format!("{focus} × ({hyper} − {lens}) ÷ ({hyper} − {focus})"),
                None => format!("{focus} is not nearer than {hyper}"),
            },
            comes: far(found.exact.far_mm),
            source: SOURCE,
        },
        OpenedSum {
            what: "as printed tables have it",
            formula: "H × focus ÷ (H ± focus), with H = lens² ÷ (stop × circle)",
            figures: format!(
                "{0} × {focus} ÷ ({0} ± {focus})",
                figure(table.hyperfocal_mm, 1)
            ),
            comes: format!("{} to {}", mm(table.near_mm), far(table.far_mm)),
            source: "the short form, for things far away against the lens",
        },
    ]
}
