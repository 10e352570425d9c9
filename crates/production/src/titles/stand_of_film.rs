//! The copy stand of a film, reckoned.

use onestrand_store::Production;

use super::light::{TitleLightRequest, title_light};
use super::reckoned::{Shop, refused};
use super::stand::{TitleFieldRequest, title_field};
use super::stand_kept::{number, stand_of};
use crate::ProductionError;
use crate::documents::{StandWords, TitleProblemDocument, TitleStandDocument};

/// The copy stand of a film with all that is reckoned of it.
///
/// What cannot be is told among the problems; the rest is reckoned all the same.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn title_stand(production: &Production) -> Result<TitleStandDocument, ProductionError> {
    let stand = stand_of(production)?;
    let shop = Shop::of(production, &stand)?;
    let mut problems = Vec::new();
    let field = told(
        field_request(&shop).and_then(|asked| title_field(&asked)),
        &mut problems,
    );
    let light = match &field {
        Some(field) => {
            let [wide, high] = field.field_mm;
            let glass = stand.glass.then_some(field.subject_mm);
            let request = light_request(&stand, (wide, high), glass);
            told(
                request.and_then(|asked| asked.map(|asked| title_light(&asked)).transpose()),
                &mut problems,
            )
            .flatten()
        }
        None => None,
    };
    Ok(TitleStandDocument {
        stand,
        field,
        light,
        problems,
    })
}

fn told<T>(
    found: Result<T, ProductionError>,
    problems: &mut Vec<TitleProblemDocument>,
) -> Option<T> {
    match found {
        Ok(found) => Some(found),
        Err(error) => {
            problems.push(refused(&error.to_string(), &error.hint()));
            None
        }
    }
}

/// What is asked of the stand for the film's gauge.
pub(super) fn field_request(shop: &Shop<'_>) -> Result<TitleFieldRequest, ProductionError> {
    let stand = shop.stand;
    let said = |text: &str| Some(text.trim().to_owned()).filter(|text| !text.is_empty());
    let mm = |text: &str| said(text).map(|text| format!("{}mm", text.replace(',', ".")));
    let width = number("the width of the field", &stand.width)?;
    Ok(TitleFieldRequest {
        gauge: shop.gauge.to_string(),
        lens_mm: number("the lens", &stand.lens)?.unwrap_or(0.0),
        width_mm: width,
        // One of the two makes the other; where both are typed the width was.
        distance: mm(&stand.distance).filter(|_| width.is_none()),
        gate: said(&stand.gate),
        circle_mm: number("the circle of confusion", &stand.blur)?,
        dioptres: said(&stand.close_up).map(|text| text.replace(',', ".")),
        focus: None,
        stop: number("the stop", &stand.stop)?,
        closest: mm(&stand.closest),
        safe_percent: Some(f64::from(stand.safe)),
        last_row: said(&stand.last_row).map(|text| format!("{}m", text.replace(',', "."))),
        screen: mm(&stand.screen),
    })
}

fn light_request(
    stand: &StandWords,
    field: (f64, f64),
    glass: Option<f64>,
) -> Result<Option<TitleLightRequest>, ProductionError> {
    let angle = number("the angle of the lamps", &stand.lamp_angle)?;
    let distance = number("the distance of the lamps", &stand.lamp_distance)?;
    Ok(angle
        .zip(distance)
        .map(|(angle, distance_mm)| TitleLightRequest {
            angle,
            distance_mm,
            field: format!("{}x{}", field.0, field.1),
            glass_under: glass.map(|mm| format!("{mm}mm")),
            ..TitleLightRequest::default()
        }))
}
