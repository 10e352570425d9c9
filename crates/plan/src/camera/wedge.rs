//! What a bracketed row of takes says of the meter.

use super::camera_error::{CameraError, within};
use super::exposure_time::signed;
use super::figures::figure;
use super::opened_sum::{OpenedSum, Reckoned};
use super::wedge_fit::{Line, Point, straight_part};

/// One take of the row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WedgeTake {
    /// How it was set against the meter. Unit: stops, + for more light. Range: −10 to 10.
    pub set_stops: f64,
    /// The light of its picture, against any fixed light. Unit: stops. None where it is
    /// black or clipped to white, or not seen.
    pub light_stops: Option<f64>,
}

/// A row of takes of one thing in one light.
#[derive(Debug, Clone, PartialEq)]
pub struct WedgeAsked {
    /// The takes.
    pub takes: Vec<WedgeTake>,
    /// The light that a rightly exposed picture of it has. Unit: stops, against the same
    /// light as the takes. Range: −20 to 20.
    pub right_light: f64,
}

impl WedgeAsked {
    /// A grey card of 18 per cent against full light: log₂ 0.18.
    pub const GREY_CARD: f64 = -2.474;
}

/// One take against the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WedgeLine {
    /// How it was set. Unit: stops.
    pub set_stops: f64,
    /// What was measured. Unit: stops.
    pub light_stops: Option<f64>,
    /// What the line says. Unit: stops.
    pub line_stops: f64,
    /// Why it does not count; none where it does.
    pub left_out: Option<&'static str>,
}

/// What the meter does wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct MeterError {
    /// What to give more than the meter asks for, + for more light. Unit: stops.
    pub give_more_stops: f64,
    /// The same, to the nearest third. Unit: thirds of a stop.
    pub thirds: i32,
    /// How far it may be off, 95 per cent. Unit: stops.
    pub error_stops: f64,
    /// Stops of the picture for a stop set: the contrast of film and scan.
    pub contrast: f64,
    /// How the takes scatter about the line. Unit: stops of the picture.
    pub scatter_stops: f64,
    /// Whether the right light lies between the takes that count; else it is reckoned on
    /// past them.
    pub within_takes: bool,
    /// The takes, in the order given.
    pub takes: Vec<WedgeLine>,
}

/// The meter's error from a bracketed row of takes.
///
/// A straight line of least squares through the takes on which the picture grows lighter
/// as it was given more light; what lies where the film is full or empty is left out.
/// Where the line has the right light, the exposure was right.
///
/// # Errors
/// [`CameraError::TooFewTakes`] with fewer than three takes on the straight part,
/// [`CameraError::NotAWedge`] where more light makes nothing lighter,
/// [`CameraError::OutOfRange`].
///
/// ```
/// # use onestrand_plan::camera::{WedgeAsked, WedgeTake, wedge};
/// // The meter asks for two thirds of a stop too little.
/// let take = |set_stops: f64| WedgeTake {
///     set_stops, light_stops: Some(-2.474 + 1.5 * (set_stops - 0.667)),
/// };
/// let takes = [-1.0, -0.5, 0.0, 0.5, 1.0].map(take).to_vec();
/// let found = wedge(&WedgeAsked { takes, right_light: WedgeAsked::GREY_CARD })?.value;
/// assert_eq!(found.thirds, 2);
/// assert!(wedge(&WedgeAsked { takes: vec![], right_light: 0.0 }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn wedge(asked: &WedgeAsked) -> Result<Reckoned<MeterError>, CameraError> {
    let hint = "say the light of a right picture in stops: a grey card is −2.47 against full light";
    within(
        "the right light in stops",
        asked.right_light,
        (-20.0, 20.0),
        hint,
    )?;
    let points = seen(asked)?;
    let too_few = |usable| CameraError::TooFewTakes {
        usable,
        takes: asked.takes.len(),
    };
    if points.len() < 3 {
        return Err(too_few(points.len()));
    }
    let (from, to) = straight_part(&points).ok_or(CameraError::NotAWedge)?;
    let counts = |set: f64| (from - 1e-6..=to + 1e-6).contains(&set);
    let used: Vec<Point> = points.into_iter().filter(|p| counts(p.set)).collect();
    let line = Line::through(&used).filter(|line| line.slope > 0.0);
    let line = line.ok_or(CameraError::NotAWedge)?;
    if used.len() < 3 {
        return Err(too_few(used.len()));
    }
    let right = line.set_for(asked.right_light);
    let value = MeterError {
        give_more_stops: right,
        // Stops lie within ±20 over a slope that is not nought.
        thirds: (right * 3.0).round() as i32,
        error_stops: line.error_of(right),
        contrast: line.slope,
        scatter_stops: line.scatter,
        within_takes: counts(right),
        takes: asked
            .takes
            .iter()
            .map(|take| against(take, &line, from, to))
            .collect(),
    };
    Ok(Reckoned {
        sums: sums(&value, &line, asked.right_light),
        taken: taken(&value),
        value,
    })
}

/// The takes that show anything.
fn seen(asked: &WedgeAsked) -> Result<Vec<Point>, CameraError> {
    let hint = "say each take against the meter in stops, such as -1 or +0.5";
    let mut points = Vec::new();
    for take in &asked.takes {
        let set = within("a setting in stops", take.set_stops, (-10.0, 10.0), hint)?;
        if let Some(light) = take.light_stops {
            let light = within("a measured light in stops", light, (-30.0, 30.0), hint)?;
            points.push(Point { set, light });
        }
    }
    Ok(points)
}

fn against(take: &WedgeTake, line: &Line, from: f64, to: f64) -> WedgeLine {
    let left_out = match take.light_stops {
        None => Some("nothing can be measured: too dark, clipped, or not seen"),
        Some(_) if take.set_stops > to + 1e-6 => Some("the film or the scan is full here"),
        Some(_) if take.set_stops < from - 1e-6 => Some("too dark here to tell"),
        Some(_) => None,
    };
    WedgeLine {
        set_stops: take.set_stops,
        light_stops: take.light_stops,
        line_stops: line.light_at(take.set_stops),
        left_out,
    }
}

fn sums(found: &MeterError, line: &Line, right_light: f64) -> Vec<OpenedSum> {
    vec![
        OpenedSum {
            what: "contrast",
            formula: "slope of the straight line through the takes, least squares",
            figures: format!(
                "{} takes about {} stops set and {} stops of light",
                line.points,
                signed(line.mean_set),
                signed(line.mean_light)
            ),
            comes: format!("{} stops for a stop", figure(line.slope, 3)),
            source: "least squares; takes where film or scan is full or empty are left out",
        },
        OpenedSum {
            what: "give more than the meter says",
            formula: "middle setting + (right light − middle light) ÷ contrast",
            figures: format!(
                "{} + ({} − {}) ÷ {}",
                signed(line.mean_set),
                signed(right_light),
                bracketed(line.mean_light),
                figure(line.slope, 3)
            ),
            comes: format!(
                "{} ± {} stops",
                signed(found.give_more_stops),
                figure(found.error_stops, 2)
            ),
            source: "the setting at which the line has the right light; 95 per cent by Student's t",
        },
        OpenedSum {
            what: "in thirds of a stop",
            formula: "stops × 3, to the nearest whole",
            figures: format!("{} × 3", signed(found.give_more_stops)),
            comes: format!("{} thirds", signed(f64::from(found.thirds))),
            source: "meters are set in thirds",
        },
    ]
}

/// What is taken off stands in brackets where it is less than nought.
fn bracketed(value: f64) -> String {
    match value < 0.0 {
        true => format!("({})", signed(value)),
        false => figure(value, 2),
    }
}

fn taken(found: &MeterError) -> Vec<String> {
    let mut all = vec![
        "one thing in one light, the same in every take; best a grey card that fills the picture".to_owned(),
        "the scan was made with one fixed light: a machine that evens out each picture hides the row".to_owned(),
    ];
    if !found.within_takes {
        all.push("the right light lies beyond the takes that count: reckoned on past them, so shoot the row again further that way".to_owned());
    }
    if found.error_stops > 1.0 / 3.0 {
        all.push(
            "it may be off by more than a third of a stop: more takes in the middle make it surer"
                .to_owned(),
        );
    }
    all
}
