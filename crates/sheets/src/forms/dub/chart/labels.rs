//! The words beside the cues: what each is, what it holds to, its frames.

use super::super::drawing::{Drawing, Lettering, Pen, Place};
use super::super::furniture::frame_words;
use super::key::anchor;
use super::measure::{Lane, Measure};
use crate::dub::{CueShape, CueStanding, DubCue, DubEcho, DubbingChart};
use crate::words;

/// A join heard so many frames from a cue or nearer is pointed out beside it.
const NEAR: i64 = 3;

/// What a cue is, what it holds to and where: beside it, and lower where no room is left. Of
/// what began on an earlier sheet the name stands again, over the film.
pub(super) fn named(
    drawing: &mut Drawing,
    (x, wide): Lane,
    cue: &DubCue,
    measure: &Measure,
    wanted: Place,
    free: &mut f64,
) {
    let name = words::plain(&cue.name);
    if cue.from < measure.from {
        let most = ((wide - 3.4) / 1.8).max(3.0) as usize;
        let said = words::short(&format!("… {name}"), most);
        anchor(drawing, [x + 1.7, 8.8], cue.anchor);
        drawing.words(Lettering::new([x + 3.2, 7.2], wide - 3.4, 9.0, said).bold());
        return;
    }
    let high = if cue.shape == CueShape::Drop {
        7.8
    } else {
        3.6
    };
    let y = wanted[1].max(*free).min(measure.bottom - high);
    if y > wanted[1] + 0.5 {
        let left = wanted[0] + 0.2;
        drawing.line([left, wanted[1] + 1.0], [left, y + 2.0], Pen::Thin);
    }
    anchor(drawing, [wanted[0] + 1.1, y + 1.9], cue.anchor);
    let (left, room) = (wanted[0] + 2.4, (x + wide - wanted[0] - 3.6).max(6.0));
    let name = words::short(&name, 60);
    let (said, figures) = match (cue.shape, cue.standing) {
        (CueShape::Drop, _) => (format!("{name} {}", frame_words(cue.from)), None),
        (CueShape::Block, CueStanding::Held) => (name, Some(begins(cue))),
        (CueShape::Block, CueStanding::Proposed) => {
            (format!("{name}, proposed"), Some(begins(cue)))
        }
        (CueShape::Block, CueStanding::Orphan) => (format!("{name}, no place"), Some(begins(cue))),
    };
    let said = Lettering::new([left, y], room, 9.5, said).bold().on_white();
    *free = y + said.about_high() + 0.3;
    drawing.words(said);
    if let Some(figures) = figures {
        *free += lay(drawing, [left, *free], room, &figures);
    }
    let remark = words::short(&words::plain(&cue.remark), 80);
    if !remark.is_empty() {
        let remark = Lettering::new([left, *free], room, 9.0, remark).on_white();
        *free += remark.about_high() + 0.3;
        drawing.words(remark);
    }
}

/// Where a block begins, and by when it has come.
fn begins(cue: &DubCue) -> String {
    match cue.fade_in {
        0 => frame_words(cue.from),
        frames => {
            let up = frame_words(cue.from + i64::from(frames));
            format!("{}, up {up}", frame_words(cue.from))
        }
    }
}

/// What is said of a join that is heard at a cue; tells how high it is. Unit: mm.
pub(super) fn beside_join(
    drawing: &mut Drawing,
    (nth, (x, wide)): (usize, Lane),
    cue: &DubCue,
    chart: &DubbingChart,
    measure: &Measure,
    free: f64,
) -> f64 {
    let here = |echo: &&DubEcho| (i64::from(echo.heard_at) - cue.from).abs() <= NEAR;
    let said = chart.echoes.iter().filter(here).find_map(|echo| {
        let (column, said) = echo.near.as_ref()?;
        (*column == nth && measure.holds(cue.from)).then_some(said)
    });
    let Some(said) = said else {
        return 0.0;
    };
    let said = words::short(&words::plain(said), 90);
    let said = Lettering::new([x + 1.4, free + 0.4], wide - 3.0, 9.0, said).on_white();
    let high = said.about_high() + 1.0;
    drawing.words(said);
    drawing.line([x + 0.9, free + 0.4], [x + 0.9, free + high], Pen::Bold);
    high + 0.4
}

/// Where a block ends, with the beginning of its fade.
pub(super) fn left(
    drawing: &mut Drawing,
    (x, wide): Lane,
    cue: &DubCue,
    frames: u32,
    measure: &Measure,
    free: &mut f64,
) {
    if cue.to <= measure.from || cue.to > measure.to {
        return;
    }
    let down = cue.to - i64::from(cue.fade_out);
    let said = match cue.fade_out {
        0 => format!("out {}", frame_words(cue.to)),
        _ => format!("down {}, out {}", frame_words(down), frame_words(cue.to)),
    };
    // Not on the double line of the film's end.
    let clear = if cue.to == i64::from(frames) {
        2.0
    } else {
        0.6
    };
    let end = measure.y(cue.to) + clear;
    let y = end.max(*free);
    if y < measure.bottom + 1.0 {
        *free = y + lay(drawing, [x + 0.8, y], wide - 2.6, &said);
    }
}

/// Lays figures on white and tells how high they are. Unit: mm.
fn lay(drawing: &mut Drawing, at: Place, wide: f64, figures: &str) -> f64 {
    let figures = Lettering::new(at, wide, 10.0, figures).figures().on_white();
    let high = figures.about_high() + 0.4;
    drawing.words(figures);
    high
}
