//! Where the sun stands, and what is left of the day.

use solar_positioning::{Horizon, Location, RefractionCorrection, SolarPositions};

use super::camera_error::{CameraError, within};
use super::figures::{degrees, figure};
use super::opened_sum::{OpenedSum, Reckoned};
use super::sun_day::Day;

/// A place, a day and an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunAsked {
    /// North of the equator. Unit: degrees. Range: −90 to 90.
    pub latitude: f64,
    /// East of Greenwich. Unit: degrees. Range: −180 to 180.
    pub longitude: f64,
    /// Year, month and day by the clock of the place. Range: years 1900 to 2199.
    pub date: (i32, u32, u32),
    /// The hour by the clock of the place. Unit: minutes since midnight. Range: 0 to 1,440.
    pub minute: f64,
    /// How far the clock of the place is before Greenwich. Unit: minutes.
    /// Range: −720 to 840.
    pub clock_minutes: f64,
    /// Light is called golden while the sun stands between these. Unit: degrees.
    pub golden: [f64; 2],
}

impl SunAsked {
    /// Common practice, from memory, and no standard: from 4° below to 6° above.
    pub const GOLDEN: [f64; 2] = [-4.0, 6.0];
}

/// Where the sun stands at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunAt {
    /// By the clock of the place. Unit: minutes since midnight.
    pub minute: f64,
    /// From north by east. Unit: degrees.
    pub azimuth: f64,
    /// Over the horizon as it is seen, air bending the light. Unit: degrees.
    pub altitude: f64,
    /// Over the horizon without the air. Unit: degrees.
    pub true_altitude: f64,
}

/// A sun that neither rises nor sets on that day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SunStays {
    /// All day over the horizon.
    Up,
    /// All day under it.
    Down,
}

/// A stretch of golden light. Unit: minutes since midnight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GoldenLight {
    /// From here.
    pub from: f64,
    /// To here.
    pub to: f64,
}

/// The sun over a day. Times are minutes since midnight by the clock of the place.
#[derive(Debug, Clone, PartialEq)]
pub struct SunDay {
    /// At the hour asked for.
    pub now: SunAt,
    /// The upper edge at the horizon; none where it does not rise that day.
    pub rises: Option<f64>,
    /// The upper edge at the horizon; none where it does not set that day.
    pub sets: Option<f64>,
    /// Due south or north, at its highest.
    pub noon: Option<f64>,
    /// The sun 6° below the horizon, in the morning.
    pub dawn: Option<f64>,
    /// The sun 6° below the horizon, in the evening.
    pub dusk: Option<f64>,
    /// Whether it stays up or down all day.
    pub stays: Option<SunStays>,
    /// Golden light, at most twice a day or all night.
    pub golden: Vec<GoldenLight>,
    /// From the hour asked to the last light of the sun. Unit: minutes.
    pub sun_left: f64,
    /// Golden light from the hour asked on. Unit: minutes.
    pub golden_left: f64,
    /// The shadow of an upright thing against its height; none without sun.
    pub shadow: Option<f64>,
    /// Half-hour by half-hour over the day, for drawing.
    pub path: Vec<SunAt>,
}

/// Where the sun stands, when it rises and sets, and what light is left.
///
/// By the Solar Position Algorithm of Reda and Andreas (NREL/TP-560-34302, 2003, revised
/// 2008), stated to ±0.0003°; refraction for 1013 hPa and 15 °C; rising and setting at
/// −0.8333°, ΔT by the polynomials of Espenak and Meeus.
///
/// # Errors
/// [`CameraError::OutOfRange`] for a place, an hour or a clock that cannot be,
/// [`CameraError::NoSuchDay`].
///
/// ```
/// # use onestrand_plan::camera::{SunAsked, sun};
/// let asked = SunAsked {
///     latitude: 52.5, longitude: 13.4, date: (2026, 6, 21), minute: 780.0,
///     clock_minutes: 120.0, golden: SunAsked::GOLDEN,
/// };
/// let found = sun(&asked)?.value;
/// assert!((found.now.altitude - 60.9).abs() < 0.1);
/// assert!(sun(&SunAsked { latitude: 91.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn sun(asked: &SunAsked) -> Result<Reckoned<SunDay>, CameraError> {
    fits(asked)?;
    let day = Day::of(asked)?;
    let now = day.at(asked.minute);
    let (rises, sets, stays) = day.crossings(Horizon::SunriseSunset);
    let (dawn, dusk, _) = day.crossings(Horizon::CivilTwilight);
    let noon = day.noon();
    let golden = day.golden();
    let value = SunDay {
        now,
        rises: rises.first().copied(),
        sets: sets.last().copied(),
        noon,
        dawn: dawn.first().copied(),
        dusk: dusk.last().copied(),
        stays,
        sun_left: left(&day.lit(), asked.minute),
        golden_left: left(&golden, asked.minute),
        golden,
        shadow: (now.altitude > 0.1).then(|| 1.0 / now.altitude.to_radians().tan()),
        path: (0..=48)
            .map(|half| day.at(f64::from(half) * 30.0))
            .collect(),
    };
    let sums = sums(asked, &day, &value);
    let taken = vec![
        "by the Solar Position Algorithm (Reda and Andreas, NREL/TP-560-34302), stated to 0.0003°; near the horizon the air may shift rise and set by a minute or more".to_owned(),
        "a flat horizon: hills, houses and trees take the sun earlier; go and look".to_owned(),
        format!(
            "light is called golden from {} to {}: common practice, from memory, and no standard",
            degrees(asked.golden[0]),
            degrees(asked.golden[1])
        ),
        "never look at the sun through a finder or a lens: it burns the eye at once".to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}

fn fits(asked: &SunAsked) -> Result<(), CameraError> {
    let hint = "north is +, south is −; the poles are 90";
    within(
        "the latitude in degrees",
        asked.latitude,
        (-90.0, 90.0),
        hint,
    )?;
    let hint = "east of Greenwich is +, west is −";
    within(
        "the longitude in degrees",
        asked.longitude,
        (-180.0, 180.0),
        hint,
    )?;
    let hint = "write the hour as 14:30";
    within(
        "the hour in minutes since midnight",
        asked.minute,
        (0.0, 1440.0),
        hint,
    )?;
    let hint = "the clock's hours before Greenwich, such as +1 or +5:30";
    within(
        "the clock's lead in minutes",
        asked.clock_minutes,
        (-720.0, 840.0),
        hint,
    )?;
    let hint = "such as −4 and 6, the lower first";
    let [low, high] = asked.golden;
    within(
        "the lower limit of golden light in degrees",
        low,
        (-18.0, 60.0),
        hint,
    )?;
    within(
        "the upper limit of golden light in degrees",
        high,
        (low, 60.0),
        hint,
    )?;
    Ok(())
}

/// What of some stretches is still to come.
fn left(stretches: &[GoldenLight], minute: f64) -> f64 {
    let each = stretches
        .iter()
        .map(|one| (one.to - one.from.max(minute)).max(0.0));
    each.sum()
}

impl Day {
    /// Where the sun stands at a minute of the day.
    pub(crate) fn at(&self, minute: f64) -> SunAt {
        let time = self.time(minute);
        let seen = |air| {
            let found = SolarPositions::new().at_from_julian(time, self.place(), 0.0, air);
            found.expect("place and day were checked")
        };
        let (with_air, without) = (seen(Some(RefractionCorrection::standard())), seen(None));
        SunAt {
            minute,
            azimuth: with_air.azimuth(),
            altitude: with_air.elevation_angle(),
            true_altitude: without.elevation_angle(),
        }
    }

    pub(crate) fn place(&self) -> Location {
        Location {
            latitude: self.asked.latitude,
            longitude: self.asked.longitude,
        }
    }
}

/// The sum of the altitude, by hand: good to about 0.02°, since the sun's own movement
/// within the day is left out.
fn sums(asked: &SunAsked, day: &Day, found: &SunDay) -> Vec<OpenedSum> {
    let mut all = Vec::new();
    let declination = day.declination(asked.minute);
    if let Some(noon) = found.noon {
        let hour_angle = (asked.minute - noon) / 4.0;
        let (phi, delta) = (asked.latitude.to_radians(), declination.to_radians());
        let sine =
            phi.sin() * delta.sin() + phi.cos() * delta.cos() * hour_angle.to_radians().cos();
        all.push(OpenedSum {
            what: "hour angle",
            formula: "(hour − the sun's noon) × 15° an hour",
            figures: format!("({} − {}) × 15°", clock(asked.minute), fine_clock(noon)),
            comes: degrees(hour_angle),
            source: "the earth turns 360° in 24 hours",
        });
        all.push(OpenedSum {
            what: "altitude without the air",
            formula: "arcsin(sin latitude × sin declination + cos latitude × cos declination × cos hour angle)",
            figures: format!(
                "arcsin(sin {0} × sin {1} + cos {0} × cos {1} × cos {2})",
                degrees(asked.latitude),
                degrees(declination),
                degrees(hour_angle)
            ),
            comes: format!(
                "{}; exactly {}",
                degrees(sine.clamp(-1.0, 1.0).asin().to_degrees()),
                degrees(found.now.true_altitude)
            ),
            source: "spherical triangle; declination by the Solar Position Algorithm",
        });
    }
    if let Some(shadow) = found.shadow {
        all.push(OpenedSum {
            what: "shadow",
            formula: "height ÷ tan altitude",
            figures: format!("1 ÷ tan {}", degrees(found.now.altitude)),
            comes: format!("{} times the height", figure(shadow, 2)),
            source: "geometry",
        });
    }
    if let (Some(rises), Some(sets), true) = (found.rises, found.sets, found.sun_left > 0.0) {
        all.push(OpenedSum {
            what: "sun left",
            formula: "set − hour, or set − rise before it is up",
            figures: format!("{} − {}", clock(sets), clock(asked.minute.max(rises))),
            comes: lasting(found.sun_left),
            source: "rise and set: the upper edge of the sun at a flat horizon, −0.8333°",
        });
    }
    all
}

/// `14:05`, of minutes since midnight.
pub(crate) fn clock(minute: f64) -> String {
    let whole = minute.round() as i64;
    format!("{}:{:02}", whole.div_euclid(60), whole.rem_euclid(60))
}

/// `11:42.2`, to a tenth of a minute.
fn fine_clock(minute: f64) -> String {
    let tenths = (minute * 10.0).round() as i64;
    let (hours, rest) = (tenths.div_euclid(600), tenths.rem_euclid(600));
    format!("{hours}:{:02}.{}", rest / 10, rest % 10)
}

/// `3 h 05 min`.
fn lasting(minutes: f64) -> String {
    let whole = minutes.round() as i64;
    format!("{} h {:02} min", whole / 60, whole % 60)
}
