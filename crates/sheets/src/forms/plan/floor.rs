//! The floor plan as a form: metres on the ground laid on the page to scale.

use serde::Serialize;

use super::furniture::{count_of, plan_form, say_missing};
use crate::forms::record::{Figure, FormRecord};
use crate::plan::{FloorCamera, FloorLine, FloorPlan, SunAt};
use crate::words;

/// What the form calls itself.
pub(super) const FORM: &str = "Floor plan";
/// What the drawing may take of the page. Unit: mm; both papers have it.
const WIDE: f64 = 188.0;
const HIGH: f64 = 176.0;
/// Room about the drawing, for names at its edge. Unit: mm.
const EDGE: f64 = 7.0;
/// The scales a ruler has: so many mm on the ground for one on the page.
const SCALES: [u32; 18] = [
    5, 10, 20, 25, 50, 100, 200, 250, 500, 1_000, 1_250, 2_000, 2_500, 5_000, 10_000, 20_000,
    25_000, 50_000,
];
/// The lengths that a bar below the drawing may show. Unit: mm on the ground.
const BARS: [u32; 14] = [
    100, 200, 500, 1_000, 2_000, 5_000, 10_000, 20_000, 50_000, 100_000, 200_000, 500_000,
    1_000_000, 2_000_000,
];
/// The longest bar. Unit: mm on the page.
const BAR_MOST: f64 = 60.0;
/// How far behind a camera its name stands. Unit: mm.
const NAME_BEHIND: f64 = 9.5;
/// Straight pieces that an arc of the field is drawn with.
const ARC_PIECES: u32 = 16;
/// The half width of the little circle the sun goes round in. Unit: mm.
const SUN_RADIUS: f64 = 24.0;

#[derive(Serialize)]
pub(super) struct FloorRecord {
    pub(super) form: FormRecord,
    of: String,
    /// The height of the drawing. Unit: mm, as are all places here, down from its top.
    high: f64,
    outlines: Vec<LineRecord>,
    line_of_action: Option<LineRecord>,
    marks: Vec<MarkRecord>,
    cameras: Vec<CameraRecord>,
    bar: Option<BarRecord>,
    north: Option<f64>,
    sun: Vec<SunRecord>,
    sun_from: String,
}

#[derive(Serialize)]
struct LineRecord {
    name: String,
    points: Vec<(f64, f64)>,
}

#[derive(Serialize)]
struct MarkRecord {
    name: String,
    at: (f64, f64),
    /// The way it goes, and how its arrow is turned: degrees clockwise from up.
    goes_to: Option<((f64, f64), f64)>,
}

#[derive(Serialize)]
struct CameraRecord {
    name: String,
    lens: String,
    at: (f64, f64),
    /// Degrees clockwise from up the page.
    towards: f64,
    /// The field, from the camera round and back.
    wedge: Vec<(f64, f64)>,
    /// Where the name stands: behind the camera.
    name_at: (f64, f64),
}

#[derive(Serialize)]
struct BarRecord {
    long: f64,
    words: String,
}

#[derive(Serialize)]
struct SunRecord {
    hour: String,
    /// From the middle of the circle. Unit: mm.
    at: (f64, f64),
    hour_at: (f64, f64),
    words: String,
}

/// Metres on the ground to mm on the page.
struct Laid {
    scale: u32,
    left: f64,
    top: f64,
    shift: f64,
}

impl Laid {
    fn of(plan: &FloorPlan) -> Option<(Self, f64)> {
        let all = places(plan);
        let (mut low, mut high) = (*all.first()?, *all.first()?);
        for (x, y) in all {
            (low.0, low.1) = (low.0.min(x), low.1.min(y));
            (high.0, high.1) = (high.0.max(x), high.1.max(y));
        }
        let (wide, tall) = (high.0 - low.0, high.1 - low.1);
        let fits = |scale: &&u32| {
            let mm = |metres: f64| metres * 1_000.0 / f64::from(**scale);
            mm(wide) <= WIDE - 2.0 * EDGE && mm(tall) <= HIGH - 2.0 * EDGE
        };
        let scale = *SCALES.iter().find(fits).or(SCALES.last())?;
        let mm = |metres: f64| metres * 1_000.0 / f64::from(scale);
        let laid = Self {
            scale,
            left: low.0,
            top: high.1,
            shift: (WIDE - mm(wide)) / 2.0,
        };
        Some((laid, mm(tall) + 2.0 * EDGE))
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let mm = |metres: f64| metres * 1_000.0 / f64::from(self.scale);
        (self.shift + mm(x - self.left), EDGE + mm(self.top - y))
    }

    fn line(&self, line: &FloorLine) -> LineRecord {
        let points = line.points.iter().copied().filter(sound);
        LineRecord {
            name: words::plain(&line.name),
            points: points.map(|point| self.at(point)).collect(),
        }
    }

    fn camera(&self, camera: &FloorCamera) -> CameraRecord {
        let at = self.at(camera.at);
        let (dx, dy) = direction(camera.towards);
        CameraRecord {
            name: words::plain(&camera.name),
            lens: words::plain(&camera.lens),
            at,
            towards: camera.towards,
            wedge: wedge(camera)
                .into_iter()
                .map(|point| self.at(point))
                .collect(),
            name_at: (at.0 - dx * NAME_BEHIND, at.1 + dy * NAME_BEHIND),
        }
    }
}

/// Whether a place is a number of metres that a plan may have.
fn sound(&(x, y): &(f64, f64)) -> bool {
    x.abs() <= 100_000.0 && y.abs() <= 100_000.0
}

/// To the right and up, for degrees clockwise from up.
fn direction(degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    (sin, cos)
}

/// The field of a camera on the ground: from it to the arc and back.
fn wedge(camera: &FloorCamera) -> Vec<(f64, f64)> {
    let field = camera.field.clamp(0.1, 179.0);
    let mut points = vec![camera.at];
    for piece in 0..=ARC_PIECES {
        let part = f64::from(piece) / f64::from(ARC_PIECES) - 0.5;
        let (dx, dy) = direction(camera.towards + part * field);
        points.push((
            camera.at.0 + dx * camera.reach,
            camera.at.1 + dy * camera.reach,
        ));
    }
    points
}

/// Every place that has to be on the page.
fn places(plan: &FloorPlan) -> Vec<(f64, f64)> {
    let mut all: Vec<(f64, f64)> = Vec::new();
    let lines = plan.outlines.iter().chain(&plan.line_of_action);
    all.extend(lines.flat_map(|line| &line.points));
    all.extend(plan.marks.iter().map(|mark| mark.at));
    all.extend(plan.marks.iter().filter_map(|mark| mark.goes_to));
    all.extend(plan.cameras.iter().flat_map(wedge));
    all.retain(sound);
    all
}

pub(super) fn record(plan: &FloorPlan) -> FloorRecord {
    let laid = Laid::of(plan);
    let high = laid.as_ref().map_or(0.0, |(_, high)| *high);
    let laid = laid.map(|(laid, _)| laid);
    let drawn = laid.as_ref();
    let lines = |lines: &[FloorLine]| match drawn {
        Some(laid) => lines.iter().map(|line| laid.line(line)).collect(),
        None => Vec::new(),
    };
    FloorRecord {
        form: furniture(plan, drawn.map(|laid| laid.scale)),
        of: words::plain(&plan.of),
        high,
        outlines: lines(&plan.outlines),
        line_of_action: drawn
            .zip(plan.line_of_action.as_ref())
            .map(|(laid, line)| laid.line(line)),
        marks: drawn.map_or_else(Vec::new, |laid| {
            let marks = plan.marks.iter().filter(|mark| sound(&mark.at));
            marks
                .map(|mark| MarkRecord {
                    name: words::plain(&mark.name),
                    at: laid.at(mark.at),
                    goes_to: mark.goes_to.filter(sound).map(|to| {
                        let (dx, dy) = (to.0 - mark.at.0, to.1 - mark.at.1);
                        (laid.at(to), dx.atan2(dy).to_degrees())
                    }),
                })
                .collect()
        }),
        cameras: drawn.map_or_else(Vec::new, |laid| {
            let cameras = plan.cameras.iter().filter(|camera| sound(&camera.at));
            cameras.map(|camera| laid.camera(camera)).collect()
        }),
        bar: drawn.and_then(|laid| bar(laid.scale)),
        north: plan.north,
        sun: plan
            .sun
            .iter()
            .filter(|sun| sun.altitude > 0.0)
            .map(|sun| sun_record(sun, plan.north.unwrap_or(0.0)))
            .collect(),
        sun_from: words::plain(&plan.sun_from),
    }
}

/// The longest round length that has room below the drawing.
fn bar(scale: u32) -> Option<BarRecord> {
    let long = |mm: u32| f64::from(mm) / f64::from(scale);
    let mm = BARS.iter().rev().find(|mm| long(**mm) <= BAR_MOST)?;
    Some(BarRecord {
        long: long(*mm),
        words: match mm {
            mm if mm % 1_000 == 0 => format!("{} m", words::count(mm / 1_000)),
            mm => format!("{} cm", mm / 10),
        },
    })
}

/// The sun in its circle: at the rim on the horizon, in the middle overhead.
fn sun_record(sun: &SunAt, north: f64) -> SunRecord {
    let (dx, dy) = direction(sun.azimuth + north);
    let out = SUN_RADIUS * (90.0 - sun.altitude.clamp(0.0, 90.0)) / 90.0;
    SunRecord {
        hour: words::plain(&sun.hour),
        at: (dx * out, -dy * out),
        hour_at: (dx * (SUN_RADIUS + 6.0), -dy * (SUN_RADIUS + 6.0)),
        words: format!(
            "{}: from {:.0}°, {:.0}° high",
            words::plain(&sun.hour),
            sun.azimuth,
            sun.altitude
        ),
    }
}

fn furniture(plan: &FloorPlan, scale: Option<u32>) -> FormRecord {
    let head = &plan.head;
    let mut form = plan_form(head, FORM, "to scale", &[]);
    form.hand = "drawn by";
    form.got = "How to read it";
    if let Some(scale) = scale {
        form.figures.push(Figure::new(
            format!("1 : {}", words::count(scale)),
            "scale, printed at full size",
        ));
    }
    form.figures.push(Figure::counted(
        count_of(plan.cameras.len()),
        "camera",
        "cameras",
    ));
    if plan.north.is_none() {
        form.figures.push(Figure::new("not known", "north"));
    }
    form.foot = vec![
        "Measure the bar: if it is off, so is the paper. Stay on one side of the line.".to_owned(),
    ];
    form.assumptions = vec![
        "A wedge is what the lens takes in from side to side, drawn as far as its setup looks. The \
         broken line is the line of action."
            .to_owned(),
    ];
    if !plan.sun.is_empty() {
        let mut said = "In the circle the sun stands at the rim on the horizon and in the middle \
                        overhead; north is where the arrow points."
            .to_owned();
        if !plan.sun_from.is_empty() {
            said.push_str(&format!(" {}", words::plain(&plan.sun_from)));
        }
        form.assumptions.push(said);
    }
    let cameras = plan.cameras.iter().flat_map(|one| [&*one.name, &*one.lens]);
    let marks = plan.marks.iter().map(|one| &*one.name);
    let lines = plan.outlines.iter().map(|one| &*one.name);
    say_missing(&mut form, head, cameras.chain(marks).chain(lines));
    form
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Compass directions by hand: a quarter turn clockwise from up is to the right.
    #[test]
    fn degrees_go_clockwise_from_up() {
        for (degrees, (x, y)) in [
            (0.0, (0.0, 1.0)),
            (90.0, (1.0, 0.0)),
            (180.0, (0.0, -1.0)),
            (270.0, (-1.0, 0.0)),
        ] {
            let found = direction(degrees);
            assert!((found.0 - x).abs() < 1e-9 && (found.1 - y).abs() < 1e-9);
        }
    }

    #[test]
    fn the_wedge_is_as_wide_as_the_field_and_as_long_as_its_reach() {
        let camera = FloorCamera {
            name: "1".to_owned(),
            at: (2.0, 3.0),
            towards: 90.0,
            field: 40.0,
            reach: 10.0,
            lens: String::new(),
        };
        let points = wedge(&camera);
        for point in &points[1..] {
            let far = (point.0 - 2.0).hypot(point.1 - 3.0);
            assert!((far - 10.0).abs() < 1e-9);
        }
        // The chord of 40 degrees at 10 m is 2 · 10 · sin 20 = 6.84 m.
        let (first, last) = (points[1], points[points.len() - 1]);
        assert!((first.1 - last.1 - 6.840_4).abs() < 1e-4);
    }
}
