//! The light of the lamps over the artwork, told with its sum.

use onestrand_title::{self as title, EVEN_STOPS, Evenness, Glare, LampsAsked};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened_sum::sum;
use super::stand_kept::gate;
use crate::ProductionError;
use crate::camera::{figure, length_mm, plate, signed};
use crate::documents::{CameraOpenedDocument, TitleGlareDocument, TitleLightDocument};
use crate::error::unfit;
use crate::throw::round;

/// Lamps over a field.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct TitleLightRequest {
    /// Between the axis of the lens and the light. Unit: degrees.
    pub angle: f64,
    /// From each lamp to the middle of the field. Unit: millimetres.
    pub distance_mm: f64,
    /// The field, such as `240x178`. Unit: millimetres.
    pub field: String,
    /// Pairs of lamps, 1 or 2; 1 when not said.
    pub pairs: Option<u32>,
    /// Of two pairs, how far apart the lamps of one side stand; as far as the field is high
    /// when not said. Unit: millimetres.
    pub apart_mm: Option<f64>,
    /// Glass lies on the artwork, and the lens is so far over it, such as `1.08m`.
    pub glass_under: Option<String>,
    /// Across a lamp with its reflector; 120 when not said. Unit: millimetres.
    pub lamp_mm: Option<f64>,
}

/// A lamp with its reflector, where none is measured. Unit: millimetres. Common practice,
/// from memory.
const LAMP_MM: f64 = 120.0;

/// How even the light is, and whether a glass throws a lamp into the lens.
///
/// # Errors
/// [`ProductionError::Title`] for lamps that cannot be, [`ProductionError::Unfit`] for a
/// field that cannot be read.
pub fn title_light(request: &TitleLightRequest) -> Result<TitleLightDocument, ProductionError> {
    let (wide, high) = gate(&request.field)?.ok_or_else(|| {
        unfit(
            "the field has no width and height".to_owned(),
            "write both in millimetres, such as 240x178",
        )
    })?;
    let asked = LampsAsked {
        angle_degrees: request.angle,
        distance_mm: request.distance_mm,
        field_mm: [wide, high],
        pairs: request.pairs.unwrap_or(1),
        apart_mm: request.apart_mm.unwrap_or(high),
    };
    let found = title::evenness(&asked)?;
    let glass = request.glass_under.as_deref().map(length_mm).transpose()?;
    let lamp = request.lamp_mm.unwrap_or(LAMP_MM);
    let seen = glass
        .map(|over| title::glare(&asked, over, lamp))
        .transpose()?;
    let stops = |value: f64| round(value, 3);
    let map = found
        .map
        .iter()
        .map(|row| row.iter().copied().map(stops).collect());
    let tenth = |mm: [f64; 3]| mm.map(|one| round(one, 1));
    Ok(TitleLightDocument {
        angle_degrees: request.angle,
        distance_mm: request.distance_mm,
        field_mm: [wide, high],
        edge_stops: stops(found.edge_stops),
        top_stops: stops(found.top_stops),
        corner_stops: stops(found.corner_stops),
        spread_stops: stops(found.spread_stops),
        even: found.spread_stops <= EVEN_STOPS,
        map: map.collect(),
        lamps_mm: found
            .lamps
            .iter()
            .map(|lamp| tenth([lamp.east_mm, lamp.north_mm, lamp.over_mm]))
            .collect(),
        glare: seen.as_ref().map(|seen| glare_document(seen, &asked)),
        cautions: onestrand_sheets::stand_caution_words(glass.is_some()),
        opened: opened(&asked, &found, seen.as_ref()),
    })
}

fn glare_document(seen: &Glare, asked: &LampsAsked) -> TitleGlareDocument {
    TitleGlareDocument {
        in_field: seen.in_field,
        clear_mm: round(seen.clear_mm, 1),
        clear_from_degrees: seen.clear_from_degrees,
        seen_at_mm: seen
            .seen_at_mm
            .iter()
            .map(|at| at.map(|mm| round(mm, 1)))
            .collect(),
        words: glare_words(seen, asked),
    }
}

/// What the lens sees in the glass, and what to do about it.
fn glare_words(seen: &Glare, asked: &LampsAsked) -> String {
    let own = "the lens still sees itself and what is light about it: hang a black card with a hole for the lens before the camera";
    if !seen.in_field {
        return format!(
            "no lamp is seen in the glass: the nearest lies {} mm outside the field; {own}",
            figure(seen.clear_mm, 0)
        );
    }
    let remedy = match seen.clear_from_degrees {
        Some(from) => format!(
            "set the lamps at {}° from the axis of the lens or more, at the same {} mm",
            figure(from, 1),
            figure(asked.distance_mm, 0)
        ),
        None => "take the glass off and press the artwork flat at its edges, or light it from further away".to_owned(),
    };
    format!("a lamp is seen in the glass, within the field: {remedy}; {own}")
}

fn opened(asked: &LampsAsked, found: &Evenness, seen: Option<&Glare>) -> CameraOpenedDocument {
    let (edge, corner) = (signed(found.edge_stops, 2), signed(found.corner_stops, 2));
    let lamps = found.lamps.len();
    let [wide, high] = asked.field_mm;
    let words = match found.spread_stops <= EVEN_STOPS {
        true => "even: nobody sees it".to_owned(),
        false => format!(
            "uneven by {} stop: set the lamps further off, and look again",
            figure(found.spread_stops, 2)
        ),
    };
    let mut taken = vec![
        "all lamps are alike and turned to the middle of the artwork".to_owned(),
        "each lamp is a point that throws alike to all of the field; flat faces of 120 mm come out within 0.02 stop of it in the program's own tests. A reflector that throws a spot does not: measure the corners with a meter".to_owned(),
        format!("{} stop over the field looks even: common practice, from memory", figure(EVEN_STOPS, 1)),
    ];
    if let Some(seen) = seen {
        taken.push(glare_words(seen, asked));
    }
    let out = found.lamps.first().map_or(0.0, |lamp| lamp.east_mm.abs());
    let over = found.lamps.first().map_or(0.0, |lamp| lamp.over_mm);
    let angle = figure(asked.angle_degrees, 1);
    CameraOpenedDocument {
        plates: vec![
            plate("side edge", edge.clone(), "stop against the middle"),
            plate("corner", corner.clone(), "stop against the middle"),
            plate(
                "from dark to light",
                figure(found.spread_stops, 2),
                "stop over the field",
            ),
        ],
        sums: vec![
            sum(
                "lamps",
                "out = distance × sin(angle); over the artwork = distance × cos(angle)",
                format!("{} mm at {angle}°", figure(asked.distance_mm, 1)),
                format!("{} mm out, {} mm over", figure(out, 1), figure(over, 1)),
                "the angle counts from the axis of the lens",
            ),
            sum(
                "light",
                "the sum over the lamps of cos θ ÷ distance²",
                format!(
                    "{lamps} lamps, edge at {} mm, corner at {} and {} mm",
                    figure(wide / 2.0, 1),
                    figure(wide / 2.0, 1),
                    figure(high / 2.0, 1)
                ),
                format!("edge {edge}, corner {corner} stop"),
                "illumination by points of light",
            ),
        ],
        taken,
        text: format!(
            "{lamps} lamps at {angle}° and {} mm: edge {edge}, corner {corner} stop over {} × {} mm; {words}",
            figure(asked.distance_mm, 0),
            figure(wide, 1),
            figure(high, 1)
        ),
    }
}
