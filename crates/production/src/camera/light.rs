//! Exposure time, light, filters and flash frames.

use onestrand_film::Fps;
use onestrand_plan::camera::{
    self as plan, CameraError, ExposureAsked, FilterAsked, FlashAsked, KnownFilter, LightAsked,
    LightKnown,
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened::{figure, opened, plate, signed};
use super::said;
use crate::ProductionError;
use crate::documents::{
    CameraEvDocument, CameraExposureDocument, CameraFilterDocument, CameraFilterKnownDocument,
    CameraFlashDocument,
};
use crate::throw::round;

/// A shutter and a speed.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraExposureRequest {
    /// The opening of the shutter. Unit: degrees.
    pub shutter: f64,
    /// The speed in frames a second, such as `18` or `50/3`.
    pub speed: String,
    /// The stop, where an exposure value is wanted.
    pub stop: Option<f64>,
    /// Another speed, to tell how much more or less light a frame gets.
    pub was_speed: Option<String>,
}

/// Light, time and film: one of stop, exposure value at ISO 100, lux and candelas.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraEvRequest {
    /// The exposure time, such as `1/50`; or say shutter and speed.
    pub time: Option<String>,
    /// The opening of the shutter. Unit: degrees.
    pub shutter: Option<f64>,
    /// The speed in frames a second.
    pub speed: Option<String>,
    /// The speed of the film. Unit: ISO.
    pub iso: f64,
    /// Light that filters take away. Unit: stops.
    pub filter_stops: Option<f64>,
    /// The stop.
    pub stop: Option<f64>,
    /// The exposure value at ISO 100.
    pub ev100: Option<f64>,
    /// On the subject. Unit: lux.
    pub lux: Option<f64>,
    /// From the subject. Unit: candelas a square metre.
    pub candelas: Option<f64>,
}

/// The light there is and the light the film wants.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraFilterRequest {
    /// The light there is. Unit: kelvins.
    pub from_kelvin: f64,
    /// The light the film wants. Unit: kelvins.
    pub to_kelvin: f64,
}

/// A flash frame.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraFlashRequest {
    /// How much lighter it is. Unit: stops.
    pub stops: f64,
    /// The speed of the frames after it, in frames a second.
    pub speed: String,
}

/// How long a frame gets light.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_exposure(
    request: &CameraExposureRequest,
) -> Result<CameraExposureDocument, ProductionError> {
    let was_speed = said::maybe(request.was_speed.as_deref(), speed)?;
    let asked = ExposureAsked {
        shutter_degrees: request.shutter,
        speed: speed(&request.speed)?,
        stop: request.stop,
        was_speed,
    };
    let found = plan::exposure_time(&asked)?;
    let value = found.value;
    let one_over = figure(1.0 / value.seconds, 1);
    let mut plates = vec![plate(
        "exposure time",
        format!("1/{one_over}"),
        "s for a frame",
    )];
    let mut text = format!(
        "1/{one_over} s at {} f/s with {}°",
        asked.speed,
        figure(asked.shutter_degrees, 0)
    );
    if let (Some(ev), Some(stop)) = (value.value, asked.stop) {
        plates.push(plate(
            "exposure value",
            figure(ev, 1),
            format!("EV at f/{}", figure(stop, 1)),
        ));
        text.push_str(&format!(", EV {} at f/{}", figure(ev, 1), figure(stop, 1)));
    }
    if let (Some(more), Some(was)) = (value.more_stops, asked.was_speed) {
        let more = signed(more, 2);
        plates.push(plate(
            "light against the other speed",
            more.clone(),
            format!("stops of light against {was} f/s"),
        ));
        text.push_str(&format!(", {more} stops of light against {was} f/s"));
    }
    Ok(CameraExposureDocument {
        seconds: round(value.seconds, 7),
        one_over: round(1.0 / value.seconds, 3),
        ev: value.value.map(|ev| round(ev, 4)),
        more_stops: value.more_stops.map(|more| round(more, 4)),
        opened: opened(&found, plates, text),
    })
}

pub(super) fn speed(text: &str) -> Result<Fps, ProductionError> {
    Ok(text.parse()?)
}

/// Which stop for which light, or which light for which stop.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] unless a time and just one of
/// stop, exposure value, lux and candelas are said, and for what cannot be.
pub fn camera_ev(request: &CameraEvRequest) -> Result<CameraEvDocument, ProductionError> {
    let asked = LightAsked {
        seconds: exposed(request)?,
        iso: request.iso,
        filter_stops: request.filter_stops.unwrap_or(0.0),
        known: known(request)?,
    };
    let found = plan::light_value(&asked)?;
    let value = found.value;
    let (stop, time) = (figure(value.stop, 1), figure(1.0 / asked.seconds, 1));
    let plates = vec![
        plate("stop", format!("f/{stop}"), format!("for 1/{time} s")),
        plate("light", figure(value.ev_at_hundred, 1), "EV at ISO 100"),
        plate("light on the subject", figure(value.lux, 0), "lux"),
        plate("light from the subject", figure(value.candelas, 1), "cd/m²"),
    ];
    let text = format!(
        "f/{stop} for 1/{time} s at ISO {} (EV {} at ISO 100)",
        figure(asked.iso, 0),
        figure(value.ev_at_hundred, 1)
    );
    Ok(CameraEvDocument {
        seconds: round(asked.seconds, 7),
        iso: asked.iso,
        stop: round(value.stop, 3),
        ev: round(value.ev, 4),
        ev100: round(value.ev_at_hundred, 4),
        lux: round(value.lux, 3),
        candelas: round(value.candelas, 4),
        opened: opened(&found, plates, text),
    })
}

fn exposed(request: &CameraEvRequest) -> Result<f64, ProductionError> {
    let time = said::maybe(request.time.as_deref(), said::seconds)?;
    let of_speed = said::maybe(request.speed.as_deref(), speed)?;
    match (time, request.shutter, of_speed) {
        (Some(seconds), None, _) => Ok(seconds),
        (None, Some(shutter_degrees), Some(speed)) => {
            let asked = ExposureAsked {
                shutter_degrees,
                speed,
                stop: None,
                was_speed: None,
            };
            Ok(plan::exposure_time(&asked)?.value.seconds)
        }
        _ => Err(CameraError::Unsaid {
            message: "how long a frame is exposed is said by a time, or by shutter and speed",
            hint: "say a time such as 1/50, or a shutter of 180 degrees and a speed of 18",
        }
        .into()),
    }
}

fn known(request: &CameraEvRequest) -> Result<LightKnown, ProductionError> {
    let all = [
        request.stop.map(LightKnown::Stop),
        request.ev100.map(LightKnown::AtHundred),
        request.lux.map(LightKnown::Lux),
        request.candelas.map(LightKnown::Candelas),
    ];
    let mut said = all.into_iter().flatten();
    match (said.next(), said.next()) {
        (Some(known), None) => Ok(known),
        _ => Err(CameraError::Unsaid {
            message: "the light is said in one way: by stop, exposure value, lux or candelas",
            hint: "say just one, such as an exposure value of 12 at ISO 100",
        }
        .into()),
    }
}

/// How far a filter must turn the light.
///
/// # Errors
/// [`ProductionError::Camera`] for light that cannot be.
pub fn camera_filter(
    request: &CameraFilterRequest,
) -> Result<CameraFilterDocument, ProductionError> {
    let asked = FilterAsked {
        from_kelvin: request.from_kelvin,
        to_kelvin: request.to_kelvin,
    };
    let found = plan::filter_shift(&asked)?;
    let value = found.value;
    let mired = signed(value.mired, 0);
    let way = match value.mired {
        warmer if warmer > 0.5 => "mired, warmer",
        cooler if cooler < -0.5 => "mired, cooler",
        _ => "mired: no filter is wanted",
    };
    let mut plates = vec![plate("shift", mired.clone(), way)];
    let mut text = format!(
        "{} to {} K: {mired} mired",
        figure(asked.from_kelvin, 0),
        figure(asked.to_kelvin, 0)
    );
    if let Some(filter) = value.nearest {
        let takes = lost(&filter);
        plates.push(plate(
            "nearest filter",
            filter.number,
            format!("the nearest filter, takes {takes}"),
        ));
        text.push_str(&format!(", filter {} (takes {takes})", filter.number));
    }
    Ok(CameraFilterDocument {
        mired: round(value.mired, 1),
        nearest: value.nearest.as_ref().map(filter_document),
        left_mired: round(value.left_mired, 1),
        opened: opened(&found, plates, text),
    })
}

/// What a filter takes: `⅔ stop`, `2 stops`.
fn lost(filter: &KnownFilter) -> String {
    let thirds = super::opened::thirds(filter.thirds as i32);
    let stops = if filter.thirds > 3 { "stops" } else { "stop" };
    format!("{} {stops}", thirds.trim_start_matches('+'))
}

fn filter_document(filter: &KnownFilter) -> CameraFilterKnownDocument {
    CameraFilterKnownDocument {
        number: filter.number.to_owned(),
        mired: filter.mired,
        stops: round(f64::from(filter.thirds) / 3.0, 3),
    }
}

/// How slowly the camera ran at a flash frame.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_flash(request: &CameraFlashRequest) -> Result<CameraFlashDocument, ProductionError> {
    let asked = FlashAsked {
        stops: request.stops,
        speed: speed(&request.speed)?,
    };
    let found = plan::flash_speed(&asked)?;
    let value = found.value;
    let (ran, open) = (figure(value.speed, 1), figure(value.open_times, 2));
    let plates = vec![
        plate("speed at that frame", ran.clone(), "f/s at that frame"),
        plate("shutter open", format!("{open} ×"), "as long open"),
    ];
    let text = format!(
        "flash of {} stops: the camera ran at {ran} f/s, the shutter was open {open} times as long",
        signed(asked.stops, 1)
    );
    Ok(CameraFlashDocument {
        open_times: round(value.open_times, 3),
        speed: round(value.speed, 3),
        opened: opened(&found, plates, text),
    })
}
