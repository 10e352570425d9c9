//! Filters that turn one light into another, in mired.

use super::camera_error::{CameraError, within};
use super::exposure_time::signed;
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};

/// The light there is, and the light the film wants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilterAsked {
    /// The light there is. Unit: kelvins. Range: 1,000 to 40,000.
    pub from_kelvin: f64,
    /// The light the film is made for. Unit: kelvins. Range: 1,000 to 40,000.
    pub to_kelvin: f64,
}

/// A filter by its number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownFilter {
    /// Its number in the trade.
    pub number: &'static str,
    /// What it does. Unit: mired.
    pub mired: f64,
    /// The light it takes. Unit: thirds of a stop.
    pub thirds: u32,
}

/// How far the light is to be turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilterShift {
    /// Warmer where over nought, cooler where under. Unit: mired.
    pub mired: f64,
    /// The filter that comes nearest; none where none is wanted.
    pub nearest: Option<KnownFilter>,
    /// What is left with that filter. Unit: mired.
    pub left_mired: f64,
}

const fn filter(number: &'static str, mired: f64, thirds: u32) -> KnownFilter {
    KnownFilter {
        number,
        mired,
        thirds,
    }
}

/// Numbers, shifts and lost light are from memory: the filter's own sheet decides.
static KNOWN: [KnownFilter; 13] = [
    filter("80A", -131.0, 6),
    filter("80B", -112.0, 5),
    filter("80C", -81.0, 3),
    filter("80D", -56.0, 1),
    filter("82C", -45.0, 2),
    filter("82B", -32.0, 2),
    filter("82A", -21.0, 1),
    filter("81A", 18.0, 1),
    filter("81B", 27.0, 1),
    filter("81EF", 52.0, 2),
    filter("85C", 81.0, 1),
    filter("85", 112.0, 2),
    filter("85B", 131.0, 2),
];

/// The filters that are known here, cool to warm.
#[must_use]
pub fn known_filters() -> &'static [KnownFilter] {
    &KNOWN
}

/// How far a filter must turn the light.
///
/// Source: mired = 10⁶ ÷ kelvins; a filter's shift in mired is the same in every light.
///
/// # Errors
/// [`CameraError::OutOfRange`] for light outside 1,000 to 40,000 kelvins.
///
/// ```
/// # use onestrand_plan::camera::{FilterAsked, filter_shift};
/// let asked = FilterAsked { from_kelvin: 5_500.0, to_kelvin: 3_400.0 };
/// let found = filter_shift(&asked)?.value;
/// assert_eq!(format!("{:+.0}", found.mired), "+112");
/// assert!(filter_shift(&FilterAsked { to_kelvin: 0.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn filter_shift(asked: &FilterAsked) -> Result<Reckoned<FilterShift>, CameraError> {
    let hint = "daylight is about 5500 K, lamps 3200 to 3400 K";
    let fits = |what, kelvin| within(what, kelvin, (1_000.0, 40_000.0), hint);
    let from = fits("the light there is in kelvins", asked.from_kelvin)?;
    let to = fits("the light the film wants in kelvins", asked.to_kelvin)?;
    let mired = 1e6 / to - 1e6 / from;
    let left = |filter: &KnownFilter| mired - filter.mired;
    let by = |a: &&KnownFilter, b: &&KnownFilter| left(a).abs().total_cmp(&left(b).abs());
    let nearest = KNOWN
        .iter()
        .min_by(by)
        .filter(|filter| left(filter).abs() < mired.abs())
        .copied();
    let value = FilterShift {
        mired,
        nearest,
        left_mired: nearest.map_or(mired, |filter| left(&filter)),
    };
    let sums = vec![OpenedSum {
        what: "shift",
        formula: "10⁶ ÷ light the film wants − 10⁶ ÷ light there is",
        figures: format!("10⁶ ÷ {} − 10⁶ ÷ {}", figure(to, 0), figure(from, 0)),
        comes: format!("{} mired", signed((mired * 10.0).round() / 10.0)),
        source: "mired = 10⁶ ÷ kelvins",
    }];
    let taken = vec![
        "+ is warmer, as the filters numbered 81 and 85; − is cooler, as those numbered 82 and 80"
            .to_owned(),
        "shifts and lost light of the numbered filters are from memory: look at the filter's own sheet".to_owned(),
        "lamps for discharge and many new lamps have gaps in their light that no filter mends"
            .to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}
