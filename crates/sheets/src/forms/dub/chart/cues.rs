//! The cues of a column: outline, level line, fades, drops, and what they hold to.

use super::super::drawing::{Drawing, Fill, Pen, Place};
use super::labels::{beside_join, left, named};
use super::measure::{Lane, Measure};
use crate::dub::{CueShape, CueStanding, DubColumn, DubCue, DubbingChart};

/// The level line: what its left and its right edge mean. Unit: dB.
const SOFTEST: f64 = -40.0;
const LOUDEST: f64 = 6.0;
/// A column narrower than this has its words under the drops. Unit: mm.
const NARROW: f64 = 19.0;
/// Seconds of warning before a cue.
const WARNED: u32 = 3;

pub(super) fn draw(
    drawing: &mut Drawing,
    (nth, lane): (usize, Lane),
    column: &DubColumn,
    chart: &DubbingChart,
    measure: &Measure,
) {
    let mut free = 0.0;
    let mut before: Option<i64> = None;
    for cue in &column.cues {
        if measure.meets(cue.from, cue.to.max(cue.from + 1)) {
            match cue.shape {
                CueShape::Block => {
                    block(drawing, lane, cue, measure, &mut free);
                    left(drawing, lane, cue, chart.frames, measure, &mut free);
                }
                CueShape::Drop => one_drop(drawing, lane, cue, measure, &mut free),
            }
            free += beside_join(drawing, (nth, lane), cue, chart, measure, free);
        }
        if cue.standing == CueStanding::Held {
            let speed = chart.true_speed.as_f64();
            warn(drawing, lane, cue.from, before, speed, measure);
            before = Some(before.map_or(cue.from, |last| last.max(cue.from)));
        }
    }
}

/// Strokes at the edge of the column three, two and one seconds before a cue; none of those
/// that would lie before the cue that went before it.
fn warn(
    drawing: &mut Drawing,
    (x, _): Lane,
    at: i64,
    before: Option<i64>,
    speed: f64,
    measure: &Measure,
) {
    for seconds in 1..=WARNED {
        let frame = (at as f64 - f64::from(seconds) * speed).round() as i64;
        if !measure.holds(frame) || before.is_some_and(|before| frame <= before) {
            continue;
        }
        let y = measure.y(frame);
        for stroke in 0..seconds {
            let y = y + f64::from(stroke) * 0.9;
            drawing.line([x + 0.2, y], [x + 3.0, y], Pen::Plain);
        }
    }
}

/// Where a level lies across a column.
fn across((x, wide): Lane, db: f64) -> f64 {
    let share = (db.clamp(SOFTEST, LOUDEST) - SOFTEST) / (LOUDEST - SOFTEST);
    x + wide * (0.08 + 0.84 * share)
}

/// The level of a cue at a running frame. Unit: dB.
fn level(cue: &DubCue, frame: f64) -> f64 {
    let Some(first) = cue.level.first() else {
        return 0.0;
    };
    let next = cue
        .level
        .iter()
        .position(|point| point.frame as f64 > frame);
    match next {
        Some(0) => first.db,
        None => cue.level[cue.level.len() - 1].db,
        Some(next) => {
            let (from, to) = (cue.level[next - 1], cue.level[next]);
            let share = (frame - from.frame as f64) / (to.frame - from.frame).max(1) as f64;
            from.db + share * (to.db - from.db)
        }
    }
}

/// How much of a cue its fades leave at a running frame, 0 to 1.
fn faded(cue: &DubCue, frame: f64) -> f64 {
    let share = |gone: f64, of: u32| match of {
        0 => 1.0,
        of => (gone / f64::from(of)).clamp(0.0, 1.0),
    };
    share(frame - cue.from as f64, cue.fade_in) * share(cue.to as f64 - frame, cue.fade_out)
}

fn block(drawing: &mut Drawing, lane: Lane, cue: &DubCue, measure: &Measure, free: &mut f64) {
    let (x, wide) = lane;
    let (top, end) = (measure.y_kept(cue.from), measure.y_kept(cue.to));
    let body = outline(lane, cue, measure);
    match cue.standing {
        CueStanding::Held => {
            drawing.shape(body, Pen::Thin, Fill::Grey);
            level_line(drawing, lane, cue, measure);
            fades(drawing, lane, cue, measure);
        }
        CueStanding::Proposed => {
            let corners = corners(x + wide * 0.15, x + wide * 0.85, top, end);
            drawing.shape(corners, Pen::Dashed, Fill::None);
        }
        CueStanding::Orphan => crossed(drawing, x + wide * 0.15, x + wide * 0.85, top, end),
    }
    // Under the wedge of its fade, which would not be seen.
    let clear = match cue.standing {
        CueStanding::Held => measure.y_kept(cue.from + i64::from(cue.fade_in)),
        _ => top,
    };
    let wanted = [x + 0.6, if clear < end - 6.0 { clear } else { top } + 0.5];
    named(drawing, lane, cue, measure, wanted, free);
}

fn corners(left: f64, right: f64, top: f64, end: f64) -> Vec<Place> {
    vec![[left, top], [right, top], [right, end], [left, end]]
}

/// Filled with x: what has no place.
fn crossed(drawing: &mut Drawing, left: f64, right: f64, top: f64, end: f64) {
    let corners = corners(left, right, top, end);
    drawing.hatch(&corners, 2.4, false);
    drawing.hatch(&corners, 2.4, true);
    drawing.shape(corners, Pen::Plain, Fill::None);
}

/// The waveform as loud as it is heard, both ways from the middle of the column.
fn outline((x, wide): Lane, cue: &DubCue, measure: &Measure) -> Vec<Place> {
    let (top, end) = (measure.y_kept(cue.from), measure.y_kept(cue.to));
    let steps = ((end - top) / 0.5).ceil().clamp(1.0, 1_000.0);
    let middle = x + wide / 2.0;
    let half = |share: f64| {
        let y = top + (end - top) * share;
        let frame = measure.from as f64 + (y - super::TOP) / measure.mm;
        let next = frame + (end - top) / steps / measure.mm;
        let heard = 10.0_f64.powf(level(cue, frame).min(0.0) / 20.0) * faded(cue, frame);
        let loud = f64::from(loudest(cue, frame, next)) * heard;
        (y, (loud * wide * 0.42).max(0.2))
    };
    let halves: Vec<(f64, f64)> = (0..=steps as u32)
        .map(|step| half(f64::from(step) / steps))
        .collect();
    let right = halves.iter().map(|(y, half)| [middle + half, *y]);
    let left = halves.iter().rev().map(|(y, half)| [middle - half, *y]);
    right.chain(left).collect()
}

/// The loudest of the outline between two running frames; even where there is none.
fn loudest(cue: &DubCue, from: f64, to: f64) -> f32 {
    let parts = cue.outline.len();
    if parts == 0 {
        return 0.6;
    }
    let of = |frame: f64| {
        let share = (frame - cue.from as f64) / (cue.to - cue.from).max(1) as f64;
        ((share * parts as f64).max(0.0) as usize).min(parts - 1)
    };
    let (first, last) = (of(from), of(to));
    let loud = cue.outline[first..=last.max(first)].iter();
    loud.copied().fold(0.0, f32::max).clamp(0.0, 1.0)
}

/// The level line with its handles, between the fades.
fn level_line(drawing: &mut Drawing, lane: Lane, cue: &DubCue, measure: &Measure) {
    let begin = cue.from + i64::from(cue.fade_in);
    let end = (cue.to - i64::from(cue.fade_out)).max(begin);
    let handles = cue
        .level
        .iter()
        .filter(|point| point.frame > begin && point.frame < end);
    let mut points: Vec<(i64, f64)> = vec![(begin, level(cue, begin as f64))];
    points.extend(handles.map(|point| (point.frame, point.db)));
    points.push((end, level(cue, end as f64)));
    for two in points.windows(2) {
        let ((from, _), (to, _)) = (two[0], two[1]);
        if !measure.meets(from, to) {
            continue;
        }
        let place = |frame: i64| {
            let frame = frame.clamp(measure.from, measure.to);
            [across(lane, level(cue, frame as f64)), measure.y(frame)]
        };
        drawing.line(place(from), place(to), Pen::Bold);
    }
    for (frame, db) in points {
        if measure.holds(frame) {
            drawing.ring(
                [across(lane, db), measure.y(frame)],
                0.8,
                Pen::Plain,
                Fill::White,
            );
        }
    }
}

/// The fades as hatched wedges: their slope is the level line.
fn fades(drawing: &mut Drawing, lane: Lane, cue: &DubCue, measure: &Measure) {
    let silent = lane.0 + 0.6;
    let fade_in = i64::from(cue.fade_in);
    let fade_out = i64::from(cue.fade_out);
    let mut wedge = |quiet: i64, loud: i64| {
        if !measure.meets(quiet.min(loud), quiet.max(loud)) {
            return;
        }
        let right = across(lane, level(cue, loud as f64));
        // The part that lies on this sheet.
        let at = |frame: i64| {
            let share = (frame - quiet) as f64 / (loud - quiet) as f64;
            silent + share * (right - silent)
        };
        let (a, b) = (
            quiet.clamp(measure.from, measure.to),
            loud.clamp(measure.from, measure.to),
        );
        let points = [
            [silent, measure.y(a)],
            [at(a), measure.y(a)],
            [at(b), measure.y(b)],
            [silent, measure.y(b)],
        ];
        drawing.shape(points.to_vec(), Pen::None, Fill::White);
        drawing.hatch(&points, 1.1, true);
        drawing.shape(points.to_vec(), Pen::Plain, Fill::None);
    };
    if fade_in > 0 {
        wedge(cue.from, cue.from + fade_in);
    }
    if fade_out > 0 {
        wedge(cue.to, cue.to - fade_out);
    }
}

/// A drop: its point lies on its frame.
fn one_drop(drawing: &mut Drawing, lane: Lane, cue: &DubCue, measure: &Measure, free: &mut f64) {
    if !measure.holds(cue.from) {
        return;
    }
    let (x, wide) = lane;
    let half = if wide < NARROW { 1.8 } else { 2.6 };
    let (tip, y) = (x + 3.4 + half, measure.y(cue.from));
    let high = half * 1.1;
    let points = vec![[tip - half, y - high], [tip + half, y - high], [tip, y]];
    match cue.standing {
        CueStanding::Held => drawing.shape(points, Pen::Plain, Fill::Black),
        CueStanding::Proposed => drawing.shape(points, Pen::Dashed, Fill::None),
        CueStanding::Orphan => {
            drawing.hatch(&points, 1.2, false);
            drawing.hatch(&points, 1.2, true);
            drawing.shape(points, Pen::Plain, Fill::None);
        }
    }
    drawing.line([x, y], [tip, y], Pen::Thin);
    let wanted = match wide < NARROW {
        true => [x + 0.6, y + 0.4],
        false => [tip + half + 0.8, y - high - 0.8],
    };
    named(drawing, lane, cue, measure, wanted, free);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dub::{CueAnchor, LevelPoint};

    fn cue(level: Vec<LevelPoint>) -> DubCue {
        DubCue {
            name: "river".to_owned(),
            from: 100,
            to: 200,
            shape: CueShape::Block,
            anchor: CueAnchor::Join,
            standing: CueStanding::Held,
            outline: vec![0.1, 0.9, 0.2, 0.4],
            level,
            fade_in: 10,
            fade_out: 20,
            remark: String::new(),
        }
    }

    #[test]
    fn a_level_goes_straight_from_handle_to_handle() {
        let point = |frame, db| LevelPoint { frame, db };
        let cue = cue(vec![point(120, 0.0), point(140, -12.0)]);
        for (frame, db) in [
            (100.0, 0.0),
            (120.0, 0.0),
            (130.0, -6.0),
            (140.0, -12.0),
            (190.0, -12.0),
        ] {
            assert!((level(&cue, frame) - db).abs() < 1e-9, "{frame}");
        }
    }

    #[test]
    fn fades_and_outline_are_read_where_they_lie() {
        let cue = cue(Vec::new());
        assert!((faded(&cue, 105.0) - 0.5).abs() < 1e-9);
        assert!((faded(&cue, 150.0) - 1.0).abs() < 1e-9);
        assert!((faded(&cue, 190.0) - 0.5).abs() < 1e-9);
        assert!((loudest(&cue, 130.0, 131.0) - 0.9).abs() < 1e-6);
        assert!((loudest(&cue, 180.0, 181.0) - 0.4).abs() < 1e-6);
        assert!((loudest(&cue, 110.0, 180.0) - 0.9).abs() < 1e-6);
    }
}
