//! How far the projector stands, how large the picture is, what the last row reads.

use onestrand_film::{Gauge, HallLength, LETTER_ARC_MINUTES, Throw, letter_height};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::documents::{LastRowDocument, ThrowDocument};
use crate::error::unfit;

/// What is known of a hall; two of lens, width and distance.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct ThrowRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    #[serde(default)]
    pub lens_mm: Option<f64>,
    /// Across the picture, such as `1.2m`.
    #[serde(default)]
    pub width: Option<String>,
    /// From the lens to the screen, such as `4.5m`.
    #[serde(default)]
    pub distance: Option<String>,
    /// From the screen to the last row, such as `5m`.
    #[serde(default)]
    pub last_row: Option<String>,
}

/// Works the hall out.
///
/// # Errors
/// [`ProductionError::Unfit`] unless just two of lens, width and distance are said,
/// [`ProductionError::Unit`] for a measure that cannot be.
pub fn throw(request: &ThrowRequest) -> Result<ThrowDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let shown = gauge.spec().shown;
    let width = length(request.width.as_deref())?;
    let distance = length(request.distance.as_deref())?;
    let hall = match (request.lens_mm, width, distance) {
        (Some(lens), Some(width), None) => Throw::for_width(shown, lens, width)?,
        (Some(lens), None, Some(distance)) => Throw::at_distance(shown, lens, distance)?,
        (None, Some(width), Some(distance)) => Throw::lens_for(shown, width, distance)?,
        _ => {
            return Err(unfit(
                "two of lens, width of the picture and distance make the third".to_owned(),
                "say just two, such as a lens of 20 mm and a picture 1.2m wide",
            ));
        }
    };
    let seat = length(request.last_row.as_deref())?;
    let wide = f64::from(shown.width_um) / 1000.0;
    let high = f64::from(shown.height_um) / 1000.0;
    let mut assumptions = vec![format!(
        "the projector shows {wide} × {high} mm of the frame: {}; file or measure yours",
        shown.source
    )];
    if seat.is_some() {
        assumptions.push(format!(
            "letters of {LETTER_ARC_MINUTES} minutes of arc read with ease: a figure of the trade"
        ));
    }
    Ok(ThrowDocument {
        gauge: gauge.to_string(),
        lens_mm: round(hall.lens_mm, 1),
        shown_mm: [wide, high],
        throw_mm: round(hall.distance_mm, 1),
        throw_m: format!("{:.2}", hall.distance_mm / 1000.0),
        picture_mm: [round(hall.width_mm, 1), round(hall.height_mm, 1)],
        diagonal_mm: round(hall.width_mm.hypot(hall.height_mm), 1),
        last_row: seat.map(|seat| last_row(&hall, seat)),
        sums: sums(&hall, wide, high, seat),
        assumptions,
    })
}

fn length(text: Option<&str>) -> Result<Option<HallLength>, ProductionError> {
    let said = text.map(str::trim).filter(|text| !text.is_empty());
    Ok(said.map(str::parse).transpose()?)
}

fn last_row(hall: &Throw, seat: HallLength) -> LastRowDocument {
    let letter = letter_height(seat);
    LastRowDocument {
        distance_mm: seat.mm(),
        letter_mm: round(letter, 1),
        letters_in_picture: round(hall.height_mm / letter, 1),
        heights_away: round(hall.heights_away(seat), 1),
        smallest_mm: round(seat.mm() / 8.0 / 50.0, 1),
    }
}

/// The formulas with their figures, in the order in which one would reckon.
fn sums(hall: &Throw, wide: f64, high: f64, seat: Option<HallLength>) -> Vec<String> {
    let (lens, far) = (round(hall.lens_mm, 1), round(hall.distance_mm, 1));
    let (width, height) = (round(hall.width_mm, 1), round(hall.height_mm, 1));
    let mut all = vec![
        format!(
            "distance = lens × (width ÷ shown width + 1) = {lens} × ({width} ÷ {wide} + 1) = {far} mm"
        ),
        format!(
            "height = shown height × width ÷ shown width = {high} × {width} ÷ {wide} = {height} mm"
        ),
    ];
    if let Some(seat) = seat {
        all.push(format!(
            "letters = 2 × distance × tan 10′ = 2 × {} × 0.002909 = {:.1} mm",
            seat.mm(),
            letter_height(seat)
        ));
    }
    all
}

/// To so many decimals, for a document.
pub(crate) fn round(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.powi(decimals);
    (value * scale).round() / scale
}
