//! The copy stand as a form: seen from the front and from the side, to one scale.

use onestrand_typeset::Printed;
use serde::Serialize;

use super::furniture::title_form;
use crate::forms::Press;
use crate::forms::record::{Figure, FormRecord};
use crate::titles::{StandDrawing, StandLamp};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Copy stand";
/// What the drawing may take of the page. Unit: mm; both papers have it.
const WIDE: f64 = 186.0;
const HIGH: f64 = 150.0;
/// Between the two views, and about them for words and measures. Unit: mm.
const BETWEEN: f64 = 14.0;
const ABOUT: f64 = 16.0;
/// The scales a ruler has.
const SCALES: [u32; 11] = [1, 2, 5, 10, 15, 20, 25, 50, 100, 200, 250];
/// The camera as it is drawn: a body of this size over the film. Unit: mm in life.
const CAMERA: [f64; 2] = [90.0, 130.0];

/// Prints the copy stand, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_stand_drawing(stand: &StandDrawing) -> Result<Printed, SheetError> {
    let press = Press::new(FORM, "stand.typ", include_str!("stand.typ"));
    press.ready(&record(stand))?.print()
}

#[derive(Serialize)]
struct StandRecord {
    form: FormRecord,
    lens: String,
    scale: u32,
    wide: f64,
    high: f64,
    views: Vec<ViewRecord>,
}

/// A view. Places are mm on the page, right of and down from the drawing's upper left.
#[derive(Serialize)]
struct ViewRecord {
    name: String,
    name_at: [f64; 2],
    lines: Vec<LineRecord>,
    words: Vec<WordsRecord>,
    lamps: Vec<LampRecord>,
}

#[derive(Serialize)]
struct LineRecord {
    from: [f64; 2],
    to: [f64; 2],
    pen: Pen,
}

#[derive(Clone, Copy, Serialize)]
#[serde(rename_all = "snake_case")]
enum Pen {
    Bold,
    Plain,
    Dashed,
    /// A measure: a thin line with a tick at both ends.
    Measure,
}

#[derive(Serialize)]
struct WordsRecord {
    at: [f64; 2],
    words: String,
    /// Turned to be read from the right.
    upright: bool,
}

#[derive(Serialize)]
struct LampRecord {
    at: [f64; 2],
    /// Where it shines: degrees clockwise from up the page.
    towards: f64,
}

/// One view: where its middle lies, and life turned into mm on the page.
struct View {
    middle: f64,
    ground: f64,
    scale: f64,
    record: ViewRecord,
}

impl View {
    fn at(&self, across: f64, over: f64) -> [f64; 2] {
        [
            self.middle + across / self.scale,
            self.ground - over / self.scale,
        ]
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64), pen: Pen) {
        let (from, to) = (self.at(from.0, from.1), self.at(to.0, to.1));
        self.record.lines.push(LineRecord { from, to, pen });
    }

    /// Words beside a place; the shift is in mm on the page.
    fn say(&mut self, place: (f64, f64), shift: [f64; 2], words: String, upright: bool) {
        let [x, y] = self.at(place.0, place.1);
        let at = [x + shift[0], y + shift[1]];
        self.record.words.push(WordsRecord { at, words, upright });
    }
}

fn record(stand: &StandDrawing) -> StandRecord {
    let half_front = half_across(stand, 0, |lamp| lamp.east);
    let half_side = half_across(stand, 1, |lamp| lamp.north);
    let tallest = stand.lamps.iter().map(|lamp| lamp.over).fold(0.0, f64::max);
    let tall = (stand.film_to_subject_mm + CAMERA[1]).max(tallest + 60.0);
    let across = 2.0 * (half_front + half_side);
    let room = WIDE - BETWEEN - 4.0 * ABOUT;
    let fits = |scale: &&u32| {
        let scale = f64::from(**scale);
        across / scale <= room && tall / scale <= HIGH - 2.0 * ABOUT
    };
    let scale = SCALES
        .iter()
        .find(fits)
        .or(SCALES.last())
        .copied()
        .unwrap_or(10);
    let by = f64::from(scale);
    let high = tall / by + 2.0 * ABOUT;
    let ground = high - ABOUT;
    let front = ABOUT + half_front / by;
    let side = front + half_front / by + 2.0 * ABOUT + BETWEEN + half_side / by;
    let views = [
        view(stand, 0, front, ground, by, |lamp| lamp.east),
        view(stand, 1, side, ground, by, |lamp| lamp.north),
    ];
    StandRecord {
        form: furniture(stand, scale),
        lens: words::plain(&stand.lens),
        scale,
        wide: WIDE,
        high,
        views: views.into(),
    }
}

/// Half of what a view is across. Unit: mm in life.
fn half_across(stand: &StandDrawing, side: usize, along: fn(&StandLamp) -> f64) -> f64 {
    let lamps = stand.lamps.iter().map(|lamp| along(lamp).abs() + 40.0);
    lamps.fold((stand.field_mm[side] / 2.0).max(CAMERA[0] / 2.0), f64::max)
}

fn view(
    stand: &StandDrawing,
    side: usize,
    middle: f64,
    ground: f64,
    scale: f64,
    along: fn(&StandLamp) -> f64,
) -> ViewRecord {
    let names = ["from the front (south)", "from the side (east)"];
    let mut view = View {
        middle,
        ground,
        scale,
        record: ViewRecord {
            name: names[side].to_owned(),
            name_at: [middle, ground + 11.5],
            lines: Vec::new(),
            words: Vec::new(),
            lamps: Vec::new(),
        },
    };
    board(&mut view, stand, side);
    camera(&mut view, stand);
    let half = stand.field_mm[side] / 2.0;
    for across in [-half, half] {
        view.line((across, 0.0), (0.0, stand.subject_mm), Pen::Plain);
    }
    view.line((0.0, 0.0), (0.0, stand.subject_mm), Pen::Dashed);
    lamps(&mut view, stand, side, along);
    if side == 1 {
        heights(&mut view, stand);
    }
    view.record
}

/// The artwork, with what is shown of it, and the glass.
fn board(view: &mut View, stand: &StandDrawing, side: usize) {
    let half = stand.field_mm[side] / 2.0;
    view.line((-half, 0.0), (half, 0.0), Pen::Bold);
    if stand.glass {
        let over = 1.2 * view.scale;
        view.line((-half, over), (half, over), Pen::Plain);
    }
    let under = -4.0 * view.scale;
    view.line((-half, under), (half, under), Pen::Measure);
    let mm = words_mm(stand.field_mm[side]);
    view.say((0.0, under), [0.0, 3.2], format!("field {mm}"), false);
}

/// Lens, film and body.
fn camera(view: &mut View, stand: &StandDrawing) {
    let (lens, film) = (stand.subject_mm, stand.film_to_subject_mm);
    let half = CAMERA[0] / 2.0;
    view.line((-22.0, lens), (22.0, lens), Pen::Bold);
    for across in [-18.0, 18.0] {
        view.line((across, lens), (across, film), Pen::Plain);
    }
    let top = film + CAMERA[1];
    for (from, to) in [
        ((-half, film), (half, film)),
        ((half, film), (half, top)),
        ((half, top), (-half, top)),
        ((-half, top), (-half, film)),
    ] {
        view.line(from, to, Pen::Bold);
    }
    view.say((0.0, top), [0.0, -2.0], "camera".to_owned(), false);
}

fn lamps(view: &mut View, stand: &StandDrawing, side: usize, along: fn(&StandLamp) -> f64) {
    let mut seen: Vec<(f64, f64)> = Vec::new();
    for lamp in &stand.lamps {
        let at = (along(lamp), lamp.over);
        // From the side the lamps of both sides stand behind each other.
        if seen
            .iter()
            .any(|s| (s.0 - at.0).abs() < 1.0 && (s.1 - at.1).abs() < 1.0)
        {
            continue;
        }
        seen.push(at);
        view.line(at, (0.0, 0.0), Pen::Dashed);
        let towards = (-at.0).atan2(-at.1).to_degrees();
        let place = view.at(at.0, at.1);
        view.record.lamps.push(LampRecord { at: place, towards });
    }
    let Some(last) = stand
        .lamps
        .iter()
        .map(|lamp| (along(lamp), lamp.over))
        .find(|at| side == 0 && at.0 > 0.0)
    else {
        return;
    };
    let half = (last.0 * 0.5, last.1 * 0.5);
    view.say(half, [9.0, 3.0], words_mm(stand.lamp_distance_mm), false);
    // From the axis to the light, where there is room beside the lines.
    let near = 0.3 * stand.lamp_distance_mm;
    let turn = stand.angle_degrees.to_radians() / 2.0;
    let angle = format!("{}°", number(stand.angle_degrees));
    view.say(
        (near * turn.sin(), near * turn.cos()),
        [1.0, 0.0],
        angle,
        false,
    );
    view.line((0.0, last.1), last, Pen::Measure);
    view.say((last.0 / 2.0, last.1), [0.0, -2.0], words_mm(last.0), false);
    view.line((last.0, 0.0), last, Pen::Measure);
    view.say((last.0, last.1 / 2.0), [2.6, 0.0], words_mm(last.1), true);
}

/// Lens and film over the artwork, and how much of that is sharp.
fn heights(view: &mut View, stand: &StandDrawing) {
    let beside = |step: f64, view: &View| stand.field_mm[1] / 2.0 + step * view.scale;
    for (step, over, what) in [
        (7.0, stand.subject_mm, "lens"),
        (15.0, stand.film_to_subject_mm, "film"),
    ] {
        let across = beside(step, view);
        view.line((across, 0.0), (across, over), Pen::Measure);
        let words = format!("{what} {}", words_mm(over));
        view.say((across, over / 2.0), [2.6, 0.0], words, true);
    }
    let Some((near, far)) = stand.sharp_mm else {
        return;
    };
    // Sharp from so far over the artwork to so far under it; below the board at most as
    // much as is drawn.
    let above = stand.subject_mm - near;
    let below = far.map_or(8.0 * view.scale, |far| {
        (far - stand.subject_mm).min(8.0 * view.scale)
    });
    let across = -beside(7.0, view);
    view.line((across, -below), (across, above), Pen::Measure);
    let far = far.map_or("∞".to_owned(), |far| number(far.round()));
    let words = format!("sharp {} to {far} mm", number(near.round()));
    // The words are longer than what they measure: they begin at the board.
    view.say((across, 13.0 * view.scale), [-2.6, 0.0], words, true);
}

/// A figure to a tenth at most, with commas between the thousands.
fn number(value: f64) -> String {
    let tenths = (value * 10.0).round();
    let whole = (tenths / 10.0).trunc();
    // Lengths of a stand are some metres.
    let text = words::count(whole as u32);
    match (tenths - whole * 10.0) as u32 {
        0 => text,
        tenth => format!("{text}.{tenth}"),
    }
}

fn words_mm(mm: f64) -> String {
    format!("{} mm", number(mm))
}

fn furniture(stand: &StandDrawing, scale: u32) -> FormRecord {
    let form = title_form(
        &stand.head,
        FORM,
        "from the front and from the side, to scale",
        stand.glass,
    );
    FormRecord {
        figures: stand
            .figures
            .iter()
            .map(|(value, label)| Figure::new(words::plain(value), words::plain(label)))
            .collect(),
        foot: vec![
            format!(
                "Drawn 1 : {scale}; camera and lamps are drawn as signs. Measures are in mm of the stand."
            ),
            "Measure, set, look through the finder at the field chart, then lock everything."
                .to_owned(),
        ],
        totals: vec![format!("1 : {scale}")],
        assumptions: stand
            .remarks
            .iter()
            .map(|said| words::plain(said))
            .collect(),
        ..form
    }
}
