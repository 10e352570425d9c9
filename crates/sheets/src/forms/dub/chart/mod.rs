//! The dubbing chart as a form: sheets of film running down, a column for each source.

mod cues;
mod echoes;
mod film;
mod hands;
mod key;
mod labels;
mod measure;

use onestrand_typeset::Printed;
use serde::Serialize;

pub(super) use self::measure::Measure;
use self::measure::{Lanes, Side, sheets};
use super::drawing::{Drawing, Lettering, Pen};
use super::furniture::{admit_missing, dub_form, frame_words, speed_words, time_words};
use crate::dub::{CueStanding, DubbingChart};
use crate::forms::Press;
use crate::forms::record::FormRecord;
use crate::head::Paper;
use crate::{SheetError, words};

pub(super) use self::hands::{Crowd, crowds};
use self::measure::TOP;
pub(super) use self::measure::{Lane, WIDE, sheets_of};

/// What the form calls itself.
const FORM: &str = "Dubbing chart";

/// Prints a dubbing chart, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set, [`SheetError::Picture`] when a picture
/// of a shot cannot be read.
pub fn print_dubbing_chart(chart: &DubbingChart) -> Result<Printed, SheetError> {
    let mut press = drawn_press(FORM);
    let shots = film::pictures(&mut press, chart)?;
    let sides = Side::all(chart.columns.len());
    // Sheets that lie beside each other follow each other.
    let drawings = sheets(chart)
        .iter()
        .flat_map(|measure| sides.iter().map(move |side| (measure, side)))
        .map(|(measure, side)| drawing(chart, &shots, measure, side))
        .collect();
    let record = DrawnRecord {
        form: furniture(chart),
        drawings,
        key: Some(key::key()),
        heads: Vec::new(),
        widths: Vec::new(),
        rows: Vec::new(),
    };
    press.ready(&record)?.print()
}

/// A press with the template of drawings.
pub(super) fn drawn_press(form: &'static str) -> Press {
    let mut press = Press::new(form, "drawn.typ", include_str!("../drawn.typ"));
    press.job = press
        .job
        .template("drawing.typ", include_str!("../drawing.typ"));
    press
}

/// What the template of drawings finds.
#[derive(Serialize)]
pub(super) struct DrawnRecord {
    pub(super) form: FormRecord,
    pub(super) drawings: Vec<Drawing>,
    pub(super) key: Option<Drawing>,
    pub(super) heads: Vec<&'static str>,
    /// Unit: mm; 0 shares what is left.
    pub(super) widths: Vec<f64>,
    pub(super) rows: Vec<Vec<String>>,
}

/// How high the drawings of a sheet may be. Unit: mm.
pub(super) const fn room(paper: Paper) -> f64 {
    match paper {
        Paper::A4 => 248.0,
        Paper::Letter => 230.0,
    }
}

fn furniture(chart: &DubbingChart) -> FormRecord {
    let mut form = dub_form(&chart.head, FORM, "time runs down the page", &["hearing"]);
    let speed = speed_words(chart.true_speed);
    let measured = match chart.is_measured {
        true => format!("truly {speed}"),
        false => "projector not measured".to_owned(),
    };
    let lead = chart.lead.map(|lead| match lead {
        0 => "sound beside its picture".to_owned(),
        ahead if ahead > 0 => format!("sound lead {ahead}"),
        behind => format!("sound lag {}", behind.unsigned_abs()),
    });
    let further = lead.map_or(String::new(), |lead| format!(", {lead}"));
    form.facts = format!("{}, {measured}{further}", form.facts);
    form.foot = vec![
        "Level line: left is −40 dB, right + 6 dB. Three, two and one strokes: so many seconds to go."
            .to_owned(),
        "Levels low before the first sound. Keep a hand free for the fault that was not planned.".to_owned(),
    ];
    form.totals = vec![format!(
        "{}, {}",
        words::counted(chart.frames, "frame", "frames"),
        time_words(chart.frames, chart.true_speed)
    )];
    form.assumptions = chart
        .remarks
        .iter()
        .map(|said| words::plain(said))
        .collect();
    let orphans = chart
        .columns
        .iter()
        .flat_map(|column| &column.cues)
        .filter(|cue| cue.standing == CueStanding::Orphan)
        .count();
    let orphans = u32::try_from(orphans).unwrap_or(u32::MAX);
    if orphans > 0 {
        form.assumptions.insert(
            0,
            format!(
                "{} no place in this version: what it held to left the cut.",
                match orphans {
                    1 => "1 cue has".to_owned(),
                    n => format!("{} cues have", words::count(n)),
                }
            ),
        );
    }
    form.foot.extend(beside_each_other(chart));
    let shots = chart.shots.iter().map(|shot| shot.action.as_str());
    let cues = chart.columns.iter().flat_map(|column| &column.cues);
    let said: Vec<&str> = shots.chain(cues.map(|cue| cue.name.as_str())).collect();
    admit_missing(&mut form, &said);
    form
}

/// How sheets are laid out where one has not room for all columns.
fn beside_each_other(chart: &DubbingChart) -> Option<String> {
    let sides = Side::all(chart.columns.len());
    let [_, _, ..] = sides.as_slice() else {
        return None;
    };
    let columns = sides.iter().map(|side| {
        let shows = side.shows.clone();
        format!("{} to {}", shows.start + 1, shows.end)
    });
    let columns: Vec<String> = columns.collect();
    Some(format!(
        "{} columns on {} sheets side by side, the same film on each: {}.",
        chart.columns.len(),
        sides.len(),
        words::list(&columns)
    ))
}

/// One sheet of the chart.
fn drawing(
    chart: &DubbingChart,
    shots: &[Vec<film::Taken>],
    measure: &Measure,
    side: &Side,
) -> Drawing {
    let lanes = Lanes::of(side);
    let mut drawing = Drawing::new(WIDE, measure.bottom + 1.0);
    grid(&mut drawing, (&lanes, side), chart, measure);
    end_of_film(&mut drawing, &lanes, chart, measure);
    echoes::draw(&mut drawing, (&lanes, side), chart, measure);
    film::draw(&mut drawing, &lanes, chart, shots, measure);
    let columns = side.shows.clone().zip(side.columns(chart));
    for ((nth, column), lane) in columns.zip(&lanes.columns) {
        cues::draw(&mut drawing, (nth, *lane), column, chart, measure);
    }
    hands::draw(
        &mut drawing,
        lanes.hands,
        &chart.moves,
        chart.hands,
        measure,
    );
    drawing
}

/// Heads, feet with their ticks, and the rules between columns.
fn grid(
    drawing: &mut Drawing,
    (lanes, side): (&Lanes, &Side),
    chart: &DubbingChart,
    measure: &Measure,
) {
    for (name, (x, wide)) in lanes.named(chart, side) {
        let most = (wide / 1.75).max(4.0) as usize;
        let name = words::short(&words::plain(&name), most);
        drawing.words(Lettering::new([x + 0.8, 1.4], wide - 1.0, 10.0, name).bold());
    }
    drawing.line([0.0, 6.6], [WIDE, 6.6], Pen::Bold);
    feet(drawing, lanes, chart, measure);
    for x in lanes.rules() {
        drawing.line([x, 6.6], [x, measure.bottom], Pen::Thin);
    }
    drawing.line([0.0, measure.bottom], [WIDE, measure.bottom], Pen::Plain);
}

/// A line a foot with its number, a tick for each eighth.
fn feet(drawing: &mut Drawing, lanes: &Lanes, chart: &DubbingChart, measure: &Measure) {
    let (left, wide) = lanes.running;
    let first = measure.from.div_euclid(measure.per_foot);
    let end = measure.to.min(i64::from(chart.frames));
    let last = end.div_euclid(measure.per_foot);
    for foot in first..=last {
        let frame = foot * measure.per_foot;
        if !measure.holds(frame) {
            continue;
        }
        let y = measure.y(frame);
        drawing.line([left, y], [WIDE, y], Pen::Grid);
        drawing.line([left + wide - 3.0, y], [left + wide, y], Pen::Plain);
        let number = format!("{} ft", frame_words(foot));
        drawing.words(
            Lettering::new([left + 0.4, y + 0.7], wide - 1.0, 12.0, number)
                .bold()
                .figures(),
        );
        let number = frame_words(frame);
        drawing.words(Lettering::new([left + 0.4, y + 5.4], wide - 4.0, 9.0, number).figures());
        for eighth in 1..8 {
            let frame = frame as f64 + measure.per_foot as f64 * f64::from(eighth) / 8.0;
            let y = measure.y_of(frame);
            if y < measure.bottom && frame < f64::from(chart.frames) {
                let long = if eighth == 4 { 2.6 } else { 1.4 };
                drawing.line([left + wide - long, y], [left + wide, y], Pen::Thin);
            }
        }
    }
}

/// Where the film is over.
fn end_of_film(drawing: &mut Drawing, lanes: &Lanes, chart: &DubbingChart, measure: &Measure) {
    let end = i64::from(chart.frames);
    if end > measure.from && end <= measure.to {
        let y = measure.y(end);
        for below in [0.0, 1.0] {
            drawing.line([0.0, y + below], [WIDE, y + below], Pen::Bold);
        }
        let words = format!("end of film, {}", words::count(chart.frames));
        drawing.words(
            Lettering::new([lanes.shot.0 + 0.8, y + 1.6], 60.0, 10.0, words)
                .bold()
                .on_white(),
        );
    }
}
