//! The hand score as a form: the moves as intervals down the page, a lane for each fader.

use onestrand_typeset::Printed;

use super::chart::{Crowd, DrawnRecord, Lane, Measure, WIDE, crowds, drawn_press, room, sheets_of};
use super::drawing::{Drawing, Fill, Lettering, Pen};
use super::furniture::{
    admit_missing, dub_form, footage_words, frame_words, speed_words, time_words,
};
use crate::dub::{HandMove, HandScore};
use crate::forms::record::{Figure, FormRecord};
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Hand score";
/// Feet on a sheet, and the most that are drawn: what lies beyond is in the rows.
const FEET: i64 = 14;
const SHEETS: usize = 60;
/// The running column, and that of how many are asked for. Unit: mm.
const RUNNING: f64 = 17.0;
const COUNT: f64 = 26.0;
/// Faders that have room for a lane.
const FADERS: usize = 10;

/// Prints a hand score, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_hand_score(score: &HandScore) -> Result<Printed, SheetError> {
    let faders = faders(score);
    let end = score.moves.iter().map(|one| i64::from(one.to)).max();
    let begin = score.moves.iter().map(|one| i64::from(one.from)).min();
    let drawings: Vec<Drawing> = match begin.zip(end) {
        None => Vec::new(),
        Some(stretch) => {
            let high = room(score.head.paper) - 16.0;
            let sheets = sheets_of(score.head.gauge, stretch, FEET, high);
            let busy = sheets.iter().filter(|measure| is_busy(score, measure));
            busy.take(SHEETS)
                .map(|measure| drawing(score, &faders, measure))
                .collect()
        }
    };
    let record = DrawnRecord {
        form: furniture(score),
        drawings,
        key: None,
        heads: vec!["move", "fader", "from", "by", "takes, s", "level, dB"],
        widths: vec![0.0, 34.0, 36.0, 22.0, 18.0, 30.0],
        rows: score.moves.iter().map(|one| row(score, one)).collect(),
    };
    drawn_press(FORM).ready(&record)?.print()
}

/// A sheet on which no hand does anything is left out.
fn is_busy(score: &HandScore, measure: &Measure) -> bool {
    let meets = |one: &HandMove| measure.meets(i64::from(one.from), i64::from(one.to));
    score.moves.iter().any(meets)
}

/// The faders in the order in which they are first moved.
fn faders(score: &HandScore) -> Vec<String> {
    let mut faders: Vec<String> = Vec::new();
    for one in &score.moves {
        if !faders.contains(&one.fader) {
            faders.push(one.fader.clone());
        }
    }
    faders
}

fn furniture(score: &HandScore) -> FormRecord {
    let mut form = dub_form(
        &score.head,
        FORM,
        "what the hands do, down the page",
        &["hearing"],
    );
    let count = u32::try_from(score.moves.len()).unwrap_or(u32::MAX);
    let (most, at) = score.most;
    form.figures = vec![
        Figure::counted(count, "move", "moves"),
        Figure::counted(score.hands, "hand", "hands"),
        Figure::new(
            words::count(most),
            match most {
                0 => "at once".to_owned(),
                _ => format!("at once, first at {}", words::count(at)),
            },
        ),
        Figure::new(speed_words(score.true_speed), "frames a second"),
    ];
    form.foot = vec![
        "Black bars: more moves at once than hands. Rehearse with the sound off first, then with it.".to_owned(),
        "A sheet on which no hand moves is left out.".to_owned(),
    ];
    form.got = "What makes it playable";
    form.assumptions = match score.remedies.is_empty() {
        true if most <= score.hands => vec!["The hands are enough as it stands.".to_owned()],
        true => vec![
            "More is asked for at once than there are hands: lay two columns on one tape, or ask somebody in."
                .to_owned(),
        ],
        false => score.remedies.iter().map(|said| words::plain(said)).collect(),
    };
    let said: Vec<&str> = score.moves.iter().map(|one| one.what.as_str()).collect();
    admit_missing(&mut form, &said);
    form
}

fn row(score: &HandScore, one: &HandMove) -> Vec<String> {
    let long = one.to.saturating_sub(one.from);
    let level = |level: Option<f64>| match level {
        None => "silent".to_owned(),
        Some(db) if db.abs() < 0.5 => "0".to_owned(),
        Some(db) => format!("{db:+.0}").replace('-', "−"),
    };
    vec![
        words::plain(&one.what),
        words::plain(&one.fader),
        format!(
            "{}, {}",
            words::count(one.from),
            footage_words(score.head.gauge, one.from)
        ),
        words::count(one.to),
        format!("{:.1}", f64::from(long) / score.true_speed.as_f64()),
        format!("{} to {}", level(one.levels.0), level(one.levels.1)),
    ]
}

fn drawing(score: &HandScore, faders: &[String], measure: &Measure) -> Drawing {
    let shown = &faders[..faders.len().min(FADERS)];
    let wide = (WIDE - RUNNING - COUNT) / shown.len().max(1) as f64;
    let lane = |nth: usize| (RUNNING + nth as f64 * wide, wide);
    let mut drawing = Drawing::new(WIDE, measure.bottom + 1.0);
    let heads = [("running".to_owned(), (0.0, RUNNING))]
        .into_iter()
        .chain(
            shown
                .iter()
                .cloned()
                .enumerate()
                .map(|(nth, name)| (name, lane(nth))),
        )
        .chain([("at once".to_owned(), (WIDE - COUNT, COUNT))]);
    for (name, (x, wide)) in heads {
        let most = (wide / 1.75).max(4.0) as usize;
        let name = words::short(&words::plain(&name), most);
        drawing.words(Lettering::new([x + 0.8, 1.4], wide - 1.0, 10.0, name).bold());
        drawing.line([x + wide, 6.6], [x + wide, measure.bottom], Pen::Thin);
    }
    drawing.line([0.0, 6.6], [WIDE, 6.6], Pen::Bold);
    feet(&mut drawing, measure);
    let crowds = crowds(&score.moves, score.hands);
    for one in &score.moves {
        let Some(nth) = shown.iter().position(|fader| *fader == one.fader) else {
            continue;
        };
        bar(&mut drawing, lane(nth), one, &crowds, measure);
    }
    for crowd in &crowds {
        too_many(&mut drawing, score, *crowd, measure);
    }
    drawing
}

fn feet(drawing: &mut Drawing, measure: &Measure) {
    let last = (measure.to - 1).div_euclid(measure.per_foot);
    for foot in measure.from / measure.per_foot..=last {
        let y = measure.y(foot * measure.per_foot);
        drawing.line([0.0, y], [WIDE, y], Pen::Grid);
        let number = format!("{} ft", frame_words(foot));
        drawing.words(
            Lettering::new([0.4, y + 0.6], RUNNING, 12.0, number)
                .bold()
                .figures(),
        );
        let number = frame_words(foot * measure.per_foot);
        drawing.words(Lettering::new([0.4, y + 5.2], RUNNING, 9.0, number).figures());
    }
}

/// A move: a bar from its beginning to its end, a slope in it for up or down.
fn bar(
    drawing: &mut Drawing,
    (x, wide): Lane,
    one: &HandMove,
    crowds: &[Crowd],
    measure: &Measure,
) {
    let (from, to) = (i64::from(one.from), i64::from(one.to));
    if !measure.meets(from, to) {
        return;
    }
    let top = measure.y_kept(from);
    let high = (measure.y_kept(to) - top).max(1.0);
    let crowded = |crowd: &Crowd| one.from < crowd.to && one.to > crowd.from;
    let fill = match crowds.iter().any(crowded) {
        true => Fill::Black,
        false => Fill::Grey,
    };
    drawing.rectangle([x + 1.0, top], [3.4, high], Pen::Plain, fill);
    let what = words::short(&words::plain(&one.what), 40);
    let said = format!("{what}, {}–{}", frame_words(from), frame_words(to));
    let at = [x + 5.2, top - 0.2];
    drawing.words(Lettering::new(at, wide - 6.0, 10.0, said).bold().on_white());
}

fn too_many(drawing: &mut Drawing, score: &HandScore, crowd: Crowd, measure: &Measure) {
    let (from, to) = (i64::from(crowd.from), i64::from(crowd.to));
    if !measure.holds(from) {
        return;
    }
    let (top, end) = (measure.y(from), measure.y_kept(to));
    let left = WIDE - COUNT + 0.8;
    drawing.line([left, top], [left, end], Pen::Bold);
    let said = format!(
        "{} at once, {}",
        crowd.most,
        words::counted(score.hands, "hand", "hands")
    );
    drawing.words(
        Lettering::new([left + 1.2, top], COUNT - 3.0, 10.5, said)
            .bold()
            .on_white(),
    );
    let when = time_words(crowd.from, score.true_speed);
    drawing.words(
        Lettering::new([left + 1.2, top + 9.4], COUNT - 3.0, 10.0, when)
            .figures()
            .on_white(),
    );
}
