//! The light of the lamps over the field.

use crate::title_error::{TitleError, within};

/// Lamps in pairs on both sides of the artwork, all alike and turned to its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LampsAsked {
    /// Between the axis of the lens and the light, at the middle of the field. Unit:
    /// degrees. Range: 5 to 85.
    pub angle_degrees: f64,
    /// From each lamp to the middle of the field. Unit: millimetres. Range: 50 to 20,000.
    pub distance_mm: f64,
    /// Width and height of the field. Unit: millimetres. Range: 2 to 5,000.
    pub field_mm: [f64; 2],
    /// Pairs. Range: 1 or 2.
    pub pairs: u32,
    /// Of two pairs, from the lamp in the north to that in the south of a side. Unit:
    /// millimetres.
    pub apart_mm: f64,
}

/// One lamp: east and north of the middle of the field, and over it. Unit: millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LampAt {
    /// East.
    pub east_mm: f64,
    /// North.
    pub north_mm: f64,
    /// Over the artwork.
    pub over_mm: f64,
}

/// How even the light is. Stops against the middle of the field, above 0 for lighter.
#[derive(Debug, Clone, PartialEq)]
pub struct Evenness {
    /// Where the lamps stand.
    pub lamps: Vec<LampAt>,
    /// The middle of the side edge.
    pub edge_stops: f64,
    /// The middle of the top edge.
    pub top_stops: f64,
    /// The corner.
    pub corner_stops: f64,
    /// From the darkest to the lightest place of the map.
    pub spread_stops: f64,
    /// The field from north-west to south-east, rows from north to south: a map of
    /// [`MAP_ROWS`] by [`MAP_COLUMNS`].
    pub map: Vec<Vec<f64>>,
}

/// Rows of the map of light.
pub const MAP_ROWS: usize = 7;
/// Columns of the map of light.
pub const MAP_COLUMNS: usize = 9;

/// A field whose light differs by no more looks even. Unit: stops. Common practice, from
/// memory.
pub const EVEN_STOPS: f64 = 0.1;

/// Where the lamps stand.
///
/// # Errors
/// [`TitleError::OutOfRange`] for lamps or a field that cannot be.
pub fn lamps_at(asked: &LampsAsked) -> Result<Vec<LampAt>, TitleError> {
    let hint = "between the axis of the lens and the light: 45 is usual";
    let angle = within(
        "the angle of the lamps in degrees",
        asked.angle_degrees,
        (5.0, 85.0),
        hint,
    )?;
    let hint = "from the lamp to the middle of the artwork, such as 800 mm";
    let distance = within(
        "the distance of the lamps in mm",
        asked.distance_mm,
        (50.0, 20_000.0),
        hint,
    )?;
    let hint = "width and height of the artwork, such as 240x178";
    for side in asked.field_mm {
        within("a side of the field in mm", side, (2.0, 5_000.0), hint)?;
    }
    let pairs = f64::from(asked.pairs);
    within("pairs of lamps", pairs, (1.0, 2.0), "say 1 or 2 pairs")?;
    let hint = "from the northern to the southern lamp of one side, less than twice their distance";
    let most = 1.9 * distance * angle.to_radians().sin();
    let apart = within(
        "lamps of a side apart in mm",
        asked.apart_mm,
        (0.0, most),
        hint,
    )?;
    let out = distance * angle.to_radians().sin();
    let over_mm = distance * angle.to_radians().cos();
    let places: &[f64] = match asked.pairs {
        1 => &[0.0],
        _ => &[0.5, -0.5],
    };
    let sides = places.iter().flat_map(|place| {
        let north_mm = place * apart;
        // All lamps are as far from the middle as was said.
        let east = (out * out - north_mm * north_mm).sqrt();
        [-east, east].map(|east_mm| LampAt {
            east_mm,
            north_mm,
            over_mm,
        })
    });
    Ok(sides.collect())
}

/// Light at a place of the artwork: Σ cos θ ÷ d² over the lamps.
fn light(lamps: &[LampAt], east: f64, north: f64) -> f64 {
    let each = lamps.iter().map(|lamp| {
        let (dx, dy) = (lamp.east_mm - east, lamp.north_mm - north);
        let squared = dx * dx + dy * dy + lamp.over_mm * lamp.over_mm;
        lamp.over_mm / squared.sqrt() / squared
    });
    each.sum()
}

/// How even the light of the lamps is over the field.
///
/// Source: each lamp a point that throws alike to all of the field, E ∝ cos θ ÷ d². A
/// reflector that throws a spot is less even: measure it with a meter at the corners.
///
/// # Errors
/// [`TitleError::OutOfRange`] for lamps or a field that cannot be.
///
/// ```
/// # use onestrand_title::{LampsAsked, evenness};
/// let asked = LampsAsked {
///     angle_degrees: 45.0, distance_mm: 800.0, field_mm: [240.0, 178.0], pairs: 1, apart_mm: 0.0,
/// };
/// let found = evenness(&asked)?;
/// assert_eq!(format!("{:+.2} {:+.2}", found.edge_stops, found.corner_stops), "+0.07 +0.04");
/// assert!(evenness(&LampsAsked { pairs: 3, ..asked }).is_err());
/// # Ok::<(), onestrand_title::TitleError>(())
/// ```
pub fn evenness(asked: &LampsAsked) -> Result<Evenness, TitleError> {
    let lamps = lamps_at(asked)?;
    let [wide, high] = asked.field_mm.map(|side| side / 2.0);
    let middle = light(&lamps, 0.0, 0.0);
    let stops = |east: f64, north: f64| (light(&lamps, east, north) / middle).log2();
    let part = |index: usize, count: usize| 2.0 * index as f64 / (count - 1) as f64 - 1.0;
    let map: Vec<Vec<f64>> = (0..MAP_ROWS)
        .map(|row| {
            let north = -part(row, MAP_ROWS) * high;
            let columns = 0..MAP_COLUMNS;
            columns
                .map(|column| stops(part(column, MAP_COLUMNS) * wide, north))
                .collect()
        })
        .collect();
    let all = || map.iter().flatten().copied();
    let spread_stops = all().fold(f64::MIN, f64::max) - all().fold(f64::MAX, f64::min);
    Ok(Evenness {
        edge_stops: stops(wide, 0.0),
        top_stops: stops(0.0, high),
        corner_stops: stops(wide, high),
        spread_stops,
        map,
        lamps,
    })
}

/// What a glass on the artwork throws into the lens.
#[derive(Debug, Clone, PartialEq)]
pub struct Glare {
    /// Where the lens sees the lamps in the glass, east and north of the middle of the
    /// field, with the radius of what it sees of each. Unit: millimetres on the glass.
    pub seen_at_mm: Vec<[f64; 3]>,
    /// Whether any of them lies in the field.
    pub in_field: bool,
    /// From the edge of the field to the nearest; below 0 where it lies within. Unit:
    /// millimetres.
    pub clear_mm: f64,
    /// The least angle at the lamps' distance at which none lies in the field; none where
    /// no angle up to 80° is enough. Unit: degrees.
    pub clear_from_degrees: Option<f64>,
}

/// Whether the lens sees a lamp in a glass that lies on the artwork.
///
/// Source: the mirror image of a lamp lies as far below the glass as the lamp stands over
/// it; the line from the lens to it meets the glass where the lamp is seen. `lamp_mm` is
/// the lamp across, with its reflector; `lens_over_mm` from the glass to the lens.
///
/// # Errors
/// [`TitleError::OutOfRange`] for lamps, a field or a lens that cannot be.
pub fn glare(asked: &LampsAsked, lens_over_mm: f64, lamp_mm: f64) -> Result<Glare, TitleError> {
    let hint = "from the glass to the lens, such as 1079.5 mm";
    let over = within(
        "the lens over the glass in mm",
        lens_over_mm,
        (5.0, 20_000.0),
        hint,
    )?;
    let hint = "across the lamp with its reflector, such as 120 mm";
    let lamp = within("the lamp across in mm", lamp_mm, (0.0, 2_000.0), hint)?;
    let (seen_at_mm, clear_mm) = seen(asked, over, lamp)?;
    // Half degrees from the axis outwards: as finely as a stand is set.
    let mut angles = (10..=160).map(|half| f64::from(half) / 2.0);
    let clear_from_degrees = angles.find(|angle| {
        let turned = LampsAsked {
            angle_degrees: *angle,
            ..*asked
        };
        seen(&turned, over, lamp).is_ok_and(|(_, clear)| clear >= 0.0)
    });
    Ok(Glare {
        in_field: clear_mm < 0.0,
        clear_mm,
        clear_from_degrees,
        seen_at_mm,
    })
}

/// Where the lamps are seen, and how far from the field the nearest is.
fn seen(asked: &LampsAsked, over: f64, lamp: f64) -> Result<(Vec<[f64; 3]>, f64), TitleError> {
    let [wide, high] = asked.field_mm.map(|side| side / 2.0);
    let at = |lamp_at: LampAt| {
        let part = over / (over + lamp_at.over_mm);
        [
            lamp_at.east_mm * part,
            lamp_at.north_mm * part,
            lamp / 2.0 * part,
        ]
    };
    let seen: Vec<[f64; 3]> = lamps_at(asked)?.into_iter().map(at).collect();
    let clear = seen.iter().map(|[east, north, radius]| {
        let (beyond_x, beyond_y) = (east.abs() - wide, north.abs() - high);
        let outside = beyond_x.max(0.0).hypot(beyond_y.max(0.0));
        // Within the field, how deep; outside, how far.
        let apart = if outside > 0.0 {
            outside
        } else {
            beyond_x.max(beyond_y)
        };
        apart - radius
    });
    let clear = clear.fold(f64::INFINITY, f64::min);
    Ok((seen, clear))
}
