//! Where joins are heard.

use super::super::drawing::{Drawing, Pen, Place};
use super::measure::{Lanes, Measure, Side};
use crate::dub::{DubEcho, DubbingChart};

pub(super) fn draw(
    drawing: &mut Drawing,
    (lanes, side): (&Lanes, &Side),
    chart: &DubbingChart,
    measure: &Measure,
) {
    for echo in &chart.echoes {
        one(drawing, (lanes, side), echo, measure);
    }
}

/// A dotted line from the join down to where it is heard: as far as the shots where it lies
/// on nothing, as far as its column where a cue is near; what is said of it stands with the cue.
fn one(drawing: &mut Drawing, (lanes, side): (&Lanes, &Side), echo: &DubEcho, measure: &Measure) {
    let (join, heard) = (i64::from(echo.join_at), i64::from(echo.heard_at));
    if !measure.meets(join.min(heard), join.max(heard) + 1) {
        return;
    }
    let from = lanes.film.0 + lanes.film.1;
    let shots = lanes.shot.0 + lanes.shot.1;
    let column = echo
        .near
        .as_ref()
        .and_then(|(nth, _)| side.place_of(*nth))
        .and_then(|place| lanes.columns.get(place));
    let to = column.map_or(shots, |(x, _)| *x);
    let place = |frame: i64| {
        let share = match heard - join {
            0 => 1.0,
            way => (frame - join) as f64 / way as f64,
        };
        [from + share * (to - from), measure.y(frame)]
    };
    let (first, last) = (
        join.clamp(measure.from, measure.to),
        heard.clamp(measure.from, measure.to),
    );
    if first != last {
        drawing.line(place(first), place(last), Pen::Dotted);
    }
    if measure.holds(heard) {
        thump(drawing, [to, measure.y(heard)], column.is_some());
    }
}

/// Where it is heard: arcs for the ear where a cue is near, else a short stroke.
fn thump(drawing: &mut Drawing, [x, y]: Place, near: bool) {
    if !near {
        drawing.line([x - 1.6, y], [x, y], Pen::Plain);
        return;
    }
    for nth in 1..=3 {
        let reach = f64::from(nth) * 0.9;
        let bow = |share: f64| {
            let turn = share * 0.9;
            [
                x - 3.6 + reach * 1.1 * f64::cos(turn),
                y + reach * 1.3 * f64::sin(turn),
            ]
        };
        for part in -2..2 {
            let at = |step: i32| bow(f64::from(step) / 2.0);
            drawing.line(at(part), at(part + 1), Pen::Plain);
        }
    }
}
