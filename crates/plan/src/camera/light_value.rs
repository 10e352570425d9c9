//! Light, stop, time and film speed: three make the fourth.

use super::camera_error::{CameraError, stop_fits, within};
use super::exposure_time::{ev, ev_sum, time_text};
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};

/// What is known of the light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LightKnown {
    /// The stop that exposes rightly.
    Stop(f64),
    /// The exposure value at ISO 100.
    AtHundred(f64),
    /// What falls on the subject. Unit: lux.
    Lux(f64),
    /// What comes from a mean grey subject. Unit: candelas a square metre.
    Candelas(f64),
}

/// A time, a film, and what is known of the light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightAsked {
    /// The exposure time. Unit: seconds. Range: 1/100,000 to 3,600.
    pub seconds: f64,
    /// The speed of the film. Unit: ISO. Range: 0.1 to 100,000.
    pub iso: f64,
    /// Light that filters take away. Unit: stops. Range: 0 to 15.
    pub filter_stops: f64,
    /// What is known.
    pub known: LightKnown,
}

/// Light and exposure in all their units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightValue {
    /// The stop to set.
    pub stop: f64,
    /// The exposure value of stop and time.
    pub ev: f64,
    /// The exposure value of the light at ISO 100.
    pub ev_at_hundred: f64,
    /// On the subject. Unit: lux.
    pub lux: f64,
    /// From a mean grey subject. Unit: candelas a square metre.
    pub candelas: f64,
}

/// Constants of ISO 2720 for meters of reflected and of falling light, from memory.
const REFLECTED: f64 = 12.5;
const FALLING: f64 = 250.0;

/// Which stop for which light, or which light for which stop.
///
/// Source: EV = log₂(N² ÷ t); EV at ISO S = EV at 100 + log₂(S ÷ 100); L = 12.5 N² ÷
/// (S t), E = 250 N² ÷ (S t), the constants of ISO 2720, from memory.
///
/// # Errors
/// [`CameraError::OutOfRange`] for figures that cannot be.
///
/// ```
/// # use onestrand_plan::camera::{LightAsked, LightKnown, light_value};
/// let asked = LightAsked {
///     seconds: 1.0 / 43.2, iso: 40.0, filter_stops: 0.0, known: LightKnown::AtHundred(15.0),
/// };
/// assert_eq!(format!("{:.2}", light_value(&asked)?.value.stop), "17.42");
/// assert!(light_value(&LightAsked { iso: 0.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn light_value(asked: &LightAsked) -> Result<Reckoned<LightValue>, CameraError> {
    let hint = "a frame is open for about 1/40 of a second";
    let seconds = within(
        "the exposure time in seconds",
        asked.seconds,
        (1e-5, 3600.0),
        hint,
    )?;
    let hint = "the speed stands on the box, such as ISO 50";
    let iso = within("the film speed in ISO", asked.iso, (0.1, 1e5), hint)?;
    let hint = "an 85 takes two thirds of a stop; say 0 where there is no filter";
    let filter = within(
        "the light that filters take in stops",
        asked.filter_stops,
        (0.0, 15.0),
        hint,
    )?;
    let more = (iso / 100.0).log2() - filter;
    let at_hundred = at_hundred(asked.known, seconds, more)?;
    let set = at_hundred + more;
    let stop = match asked.known {
        LightKnown::Stop(stop) => stop,
        _ => (set.exp2() * seconds).sqrt(),
    };
    let value = LightValue {
        stop,
        ev: set,
        ev_at_hundred: at_hundred,
        lux: FALLING / 100.0 * at_hundred.exp2(),
        candelas: REFLECTED / 100.0 * at_hundred.exp2(),
    };
    let taken = vec![
        "a meter for reflected light holds what it sees for mean grey: snow, sand and night are to be judged by eye".to_owned(),
        "reversal film bears about a third to half a stop: expose for the bright parts (practice, from memory)".to_owned(),
    ];
    Ok(Reckoned {
        sums: sums(asked, &value, iso, filter),
        value,
        taken,
    })
}

/// The exposure value of the light at ISO 100.
fn at_hundred(known: LightKnown, seconds: f64, more: f64) -> Result<f64, CameraError> {
    let light = |what, found| within(what, found, (1e-6, 1e9), "say what the meter reads");
    Ok(match known {
        LightKnown::Stop(stop) => ev(stop_fits(stop)?, seconds) - more,
        LightKnown::AtHundred(value) => {
            let hint = "full sun is about 15, a lit room at night about 5";
            within("the exposure value at ISO 100", value, (-10.0, 25.0), hint)?
        }
        LightKnown::Lux(lux) => (light("the light in lux", lux)? * 100.0 / FALLING).log2(),
        LightKnown::Candelas(cd) => (light("the light in cd/m²", cd)? * 100.0 / REFLECTED).log2(),
    })
}

fn sums(asked: &LightAsked, found: &LightValue, iso: f64, filter: f64) -> Vec<OpenedSum> {
    let hundred = figure(found.ev_at_hundred, 3);
    let film = OpenedSum {
        what: "exposure value for this film",
        formula: "EV at ISO 100 + log₂(ISO ÷ 100) − filters",
        figures: format!(
            "{hundred} + log₂({} ÷ 100) − {}",
            figure(iso, 1),
            figure(filter, 2)
        ),
        comes: figure(found.ev, 3),
        source: "each doubling of the film speed is one stop",
    };
    let light = OpenedSum {
        what: "light",
        formula: "2 to the EV at ISO 100, × 2.5 lux, × 0.125 cd/m²",
        figures: format!("2^{hundred} × 2.5 and 2^{hundred} × 0.125"),
        comes: format!(
            "{} lux, {} cd/m²",
            figure(found.lux, 1),
            figure(found.candelas, 2)
        ),
        source: "ISO 2720 with K = 12.5 and C = 250, from memory",
    };
    let first = match asked.known {
        LightKnown::Stop(stop) => ev_sum(stop, asked.seconds, found.ev),
        _ => light.clone(),
    };
    let last = match asked.known {
        LightKnown::Stop(_) => light,
        _ => OpenedSum {
            what: "stop",
            formula: "√(2 to the EV × time)",
            figures: format!(
                "√(2^{} × {})",
                figure(found.ev, 3),
                time_text(asked.seconds)
            ),
            comes: format!("f/{}", figure(found.stop, 2)),
            source: "EV = log₂(stop² ÷ time)",
        },
    };
    vec![first, film, last]
}
