//! The film and its shots beside the columns.

use super::super::drawing::{Drawing, Fill, Lettering, Pen, Shown};
use super::measure::{Lanes, Measure};
use crate::dub::{DubShot, DubbingChart};
use crate::forms::Press;
use crate::picture::{self, Placing};
use crate::{SheetError, words};

/// The edge with the holes, and the picture beside it. Unit: mm.
const EDGE: f64 = 2.6;
const PICTURE: f64 = 11.6;
/// Between two holes. Unit: mm.
const HOLES: f64 = 3.0;
/// Small pictures need few lines. Unit: pixels.
const SMALL: Placing = Placing {
    height: 110,
    ..Placing::IN_A_ROW
};

/// A picture in the job.
pub(super) struct Taken {
    file: String,
    aspect: f64,
}

/// Puts the pictures of all shots into the job.
pub(super) fn pictures(
    press: &mut Press,
    chart: &DubbingChart,
) -> Result<Vec<Vec<Taken>>, SheetError> {
    let form = press.form;
    let mut one = |shot: &DubShot, bytes: &Vec<u8>| {
        let of = format!("shot {}", shot.name);
        let placed = picture::place(&mut press.job, form, &of, bytes, SMALL)?;
        Ok(Taken {
            file: placed.name.to_string(),
            aspect: placed.aspect,
        })
    };
    let mut of_shot = |shot: &DubShot| shot.pictures.iter().map(|bytes| one(shot, bytes)).collect();
    chart.shots.iter().map(&mut of_shot).collect()
}

pub(super) fn draw(
    drawing: &mut Drawing,
    lanes: &Lanes,
    chart: &DubbingChart,
    pictures: &[Vec<Taken>],
    measure: &Measure,
) {
    let (x, _) = lanes.film;
    let (top, end) = (measure.y_kept(0), measure.y_kept(i64::from(chart.frames)));
    for (shot, taken) in chart.shots.iter().zip(pictures) {
        if measure.meets(i64::from(shot.from), i64::from(shot.to)) {
            strip(drawing, x + EDGE, shot, taken, measure);
        }
    }
    edge(drawing, x, top, end);
    for shot in &chart.shots {
        if measure.meets(i64::from(shot.from), i64::from(shot.to)) {
            said(drawing, lanes, shot, measure);
        }
    }
}

/// The black edge with its holes, and the line at the other side.
fn edge(drawing: &mut Drawing, x: f64, top: f64, end: f64) {
    if end <= top {
        return;
    }
    drawing.rectangle([x, top], [EDGE, end - top], Pen::None, Fill::Black);
    let holes = ((end - top) / HOLES).floor().clamp(0.0, 200.0) as u32;
    for nth in 0..holes {
        let y = top + (f64::from(nth) + 0.5) * HOLES - 0.5;
        drawing.rectangle([x + 0.7, y], [1.2, 1.0], Pen::None, Fill::White);
    }
    let right = x + EDGE + PICTURE + 0.2;
    drawing.line([right, top], [right, end], Pen::Bold);
}

/// The pictures of a shot, from its own beginning on, as far as they lie on this sheet.
fn strip(drawing: &mut Drawing, x: f64, shot: &DubShot, taken: &[Taken], measure: &Measure) {
    let Some(first) = taken.first() else {
        return;
    };
    let high = PICTURE / first.aspect.clamp(0.5, 4.0);
    let begin = measure.y(i64::from(shot.from));
    let long = f64::from(shot.to.saturating_sub(shot.from)) * measure.mm;
    let slots = (long / high).ceil().clamp(1.0, 100_000.0) as usize;
    let (top, end) = (
        measure.y_kept(i64::from(shot.from)),
        measure.y_kept(i64::from(shot.to)),
    );
    let before = ((top - begin) / high).floor().max(0.0) as usize;
    for slot in before..slots {
        let y = begin + slot as f64 * high;
        if y >= end {
            break;
        }
        let above = (top - y).max(0.0);
        let one = &taken[slot * taken.len() / slots];
        drawing.picture(Shown {
            file: one.file.clone(),
            at: [x, y + above],
            wide: PICTURE,
            high,
            above,
            shown: (y + high).min(end) - y - above,
            alt: format!("picture of shot {}", words::plain(&shot.name)),
        });
        drawing.line([x, y + above], [x + PICTURE, y + above], Pen::Thin);
    }
}

/// Where a shot begins, its number and what happens.
fn said(drawing: &mut Drawing, lanes: &Lanes, shot: &DubShot, measure: &Measure) {
    let (x, wide) = lanes.shot;
    let begins = measure.holds(i64::from(shot.from));
    let y = measure.y_kept(i64::from(shot.from));
    let high = measure.y_kept(i64::from(shot.to)) - y;
    if begins {
        drawing.line([lanes.film.0, y], [x + wide, y], Pen::Bold);
    }
    // A shot of a few frames has room for its number at most.
    if high < 3.0 {
        return;
    }
    let number = words::short(&words::plain(&shot.name), 6);
    let indent = 1.2 + 2.1 * number.chars().count() as f64 + 1.0;
    let y = y + if high < 4.6 { 0.2 } else { 0.9 };
    let size = if high < 4.6 { 8.0 } else { 11.0 };
    drawing.words(
        Lettering::new([x + 1.0, y], wide, size, number)
            .bold()
            .figures(),
    );
    let room = high - 1.2;
    let action = words::plain(&shot.action);
    let lettering = Lettering::new(
        [x + indent, y],
        wide - indent - 1.6,
        if high < 4.6 { 8.0 } else { 9.5 },
        action,
    );
    let long = lettering.about_high();
    let used = long.min(room);
    drawing.words(lettering.on_white().cut_at(room.max(2.6)));
    if room > used + 3.4 {
        let from = match begins {
            true => format!("from {}", words::count(shot.from)),
            false => format!("goes on from {}", words::count(shot.from)),
        };
        let at = [x + indent, y + used + 0.3];
        drawing.words(
            Lettering::new(at, wide - indent - 1.4, 9.0, from)
                .figures()
                .on_white(),
        );
    }
}
