//! Lines put in their places, centred by eye.

use std::collections::HashMap;
use std::ops::Range;

use tiny_skia::{Path, Rect, Transform};

use crate::hand::{self, Laid};
use crate::set_card::{Bounds, Letter, SetLine};
use crate::setting::Setting;
use crate::shaping::Shaped;
use crate::{Across, Down};

/// How far above the middle of the picture the middle of the words stands: what
/// stands in the true middle looks as if it had sunk. Unit: picture heights.
const RAISED: f64 = 0.014;
/// Clear space between the ink of two lines, where accents or deep letters would
/// touch. Unit: capitals.
const CLEAR: f64 = 0.22;
/// How much of a hanging stop, comma or dash counts when a line is centred.
const HANGING: f32 = 0.4;

/// A line chosen.
#[derive(Debug, Clone)]
pub(crate) struct Line {
    pub(crate) paragraph: usize,
    /// Unit: bytes of the paragraph.
    pub(crate) range: Range<usize>,
    /// Distance from the first, in rows.
    pub(crate) row: f32,
}

/// Words in their places. Unit: picture heights.
#[derive(Debug)]
pub(crate) struct Layout {
    pub(crate) tall: f64,
    pub(crate) lines: Vec<SetLine>,
    pub(crate) letters: Vec<Letter>,
    pub(crate) bounds: Bounds,
    pub(crate) full_height: f64,
}

/// A line drawn by itself, in capitals from its beginning on the baseline.
struct Drawn {
    letters: Vec<(Path, u64)>,
    ink: Rect,
    /// Where the eye sees its left and right edge.
    seen: (f32, f32),
}

/// The lines at a capital height, if all their ink stands in the safe area.
pub(crate) fn placed(setting: &Setting<'_, '_>, lines: &[Line], tall: f64) -> Option<Layout> {
    let mut number = 0;
    let mut drawn = Vec::with_capacity(lines.len());
    let mut outlines = HashMap::new();
    for (at, line) in lines.iter().enumerate() {
        let paragraph = &setting.paragraphs[line.paragraph];
        let shaped = setting.shaper.shape(paragraph, line.range.clone());
        let text = &paragraph.text;
        let line_drawn = drawn_line(setting, &shaped, text, (at, &mut number), &mut outlines)?;
        if f64::from(line_drawn.ink.width()) * tall > setting.room_across() {
            return None;
        }
        drawn.push(line_drawn);
    }
    let baselines = baselines(setting, lines, &drawn, tall);
    let shift = shift_down(setting, &drawn, &baselines, tall)?;
    let mut layout = Layout {
        tall,
        lines: Vec::with_capacity(lines.len()),
        letters: Vec::new(),
        bounds: Bounds {
            left: f64::MAX,
            top: f64::MAX,
            right: f64::MIN,
            bottom: f64::MIN,
        },
        full_height: 1.0,
    };
    for ((line, drawn), baseline) in lines.iter().zip(drawn).zip(baselines) {
        let baseline = baseline + shift;
        let left = left_of(setting, &drawn, tall);
        let ink = &drawn.ink;
        let bounds = Bounds {
            left: left + f64::from(ink.left()) * tall,
            top: baseline + f64::from(ink.top()) * tall,
            right: left + f64::from(ink.right()) * tall,
            bottom: baseline + f64::from(ink.bottom()) * tall,
        };
        layout.bounds = layout.bounds.with(bounds);
        layout.lines.push(SetLine {
            text: setting.paragraphs[line.paragraph].text[line.range.clone()].to_owned(),
            bounds,
            baseline,
        });
        let place = Transform::from_row(
            tall as f32,
            0.0,
            0.0,
            tall as f32,
            left as f32,
            baseline as f32,
        );
        let moved = drawn.letters.into_iter().filter_map(|(path, number)| {
            let path = path.transform(place)?;
            Some(Letter { path, number })
        });
        layout.letters.extend(moved);
    }
    if setting.asked.crawl {
        let margin = (1.0 - setting.asked.safe) / 2.0;
        layout.full_height = (layout.bounds.bottom + margin).max(1.0);
    }
    Some(layout)
}

/// The outlines of a line with the hand's irregularities, and its ink.
fn drawn_line(
    setting: &Setting<'_, '_>,
    shaped: &Shaped,
    text: &str,
    (line, number): (usize, &mut u64),
    outlines: &mut HashMap<(usize, u16), Option<Path>>,
) -> Option<Drawn> {
    let half_pen = setting.manner.hand.swell / 2.0;
    let mut letters = Vec::new();
    let mut ink: Option<Rect> = None;
    let mut edges: Vec<(f32, f32, bool)> = Vec::new();
    for glyph in &shaped.glyphs {
        *number += 1;
        let outline = outlines
            .entry((glyph.face, glyph.id))
            .or_insert_with(|| setting.shaper.faces[glyph.face].outline(glyph.id));
        let Some(outline) = outline else { continue };
        let place = Laid {
            x: glyph.x,
            y: glyph.y,
            joins: glyph.joins,
            number: *number,
            line,
        };
        let path = hand::laid(outline, &place, &setting.manner.hand, setting.seed)?;
        let bounds = path.compute_tight_bounds()?;
        let bounds = bounds.outset(half_pen, half_pen).unwrap_or(bounds);
        let hangs = text[glyph.cluster..].chars().next().is_some_and(hangs);
        edges.push((bounds.left(), bounds.right(), hangs));
        ink = Some(ink.map_or(bounds, |ink| ink.join(&bounds).unwrap_or(ink)));
        letters.push((path, *number));
    }
    let ink = ink?;
    Some(Drawn {
        seen: seen_edges(&edges, ink),
        letters,
        ink,
    })
}

/// Where the eye sees the edges of a line: stops, commas and dashes at its ends
/// hang, and count in part only.
fn seen_edges(edges: &[(f32, f32, bool)], ink: Rect) -> (f32, f32) {
    let firm = edges.iter().filter(|edge| !edge.2);
    let left = firm
        .clone()
        .map(|edge| edge.0)
        .fold(f32::INFINITY, f32::min);
    let right = firm.map(|edge| edge.1).fold(f32::NEG_INFINITY, f32::max);
    if left > right {
        return (ink.left(), ink.right());
    }
    (
        left - (left - ink.left()) * HANGING,
        right + (ink.right() - right) * HANGING,
    )
}

/// Signs light enough to hang beyond the edge of a column.
fn hangs(c: char) -> bool {
    matches!(
        c,
        '.' | ','
            | ':'
            | ';'
            | '-'
            | '–'
            | '—'
            | '…'
            | '\''
            | '"'
            | '‘'
            | '’'
            | '“'
            | '”'
            | '„'
            | '‚'
            | '«'
            | '»'
            | '‹'
            | '›'
            | '·'
            | '*'
            | '،'
            | '۔'
            | '־'
            | '`'
            | '´'
    )
}

/// Where a line begins so that it stands as asked.
fn left_of(setting: &Setting<'_, '_>, drawn: &Drawn, tall: f64) -> f64 {
    let width = setting.aspect();
    let room = setting.room_across();
    let least = (width - room) / 2.0;
    let of = |capitals: f32| f64::from(capitals) * tall;
    let wished = match setting.asked.across {
        Across::Left => least - of(drawn.seen.0),
        Across::Right => least + room - of(drawn.seen.1),
        Across::Centre => width / 2.0 - of((drawn.seen.0 + drawn.seen.1) / 2.0),
    };
    // What hangs must not hang out of the safe area.
    wished
        .min(least + room - of(drawn.ink.right()))
        .max(least - of(drawn.ink.left()))
}

/// Baselines from the first on, farther apart where ink would touch.
fn baselines(setting: &Setting<'_, '_>, lines: &[Line], drawn: &[Drawn], tall: f64) -> Vec<f64> {
    let leading = f64::from(setting.manner.leading);
    let mut baselines: Vec<f64> = Vec::with_capacity(lines.len());
    for (at, line) in lines.iter().enumerate() {
        let Some(last) = at.checked_sub(1) else {
            baselines.push(0.0);
            continue;
        };
        let rows = f64::from(line.row - lines[last].row);
        let needed = f64::from(drawn[last].ink.bottom()) - f64::from(drawn[at].ink.top()) + CLEAR;
        baselines.push(baselines[last] + (rows * leading).max(needed) * tall);
    }
    baselines
}

/// How far down all lines go; nothing when they do not stand in the safe area.
fn shift_down(
    setting: &Setting<'_, '_>,
    drawn: &[Drawn],
    baselines: &[f64],
    tall: f64,
) -> Option<f64> {
    let ink = drawn.iter().zip(baselines);
    let top = ink
        .clone()
        .map(|(line, at)| at + f64::from(line.ink.top()) * tall)
        .fold(f64::MAX, f64::min);
    let bottom = ink
        .map(|(line, at)| at + f64::from(line.ink.bottom()) * tall)
        .fold(f64::MIN, f64::max);
    let room = setting.room_down();
    let least = (1.0 - room) / 2.0;
    if setting.asked.crawl {
        return Some(least - top);
    }
    if bottom - top > room {
        return None;
    }
    let wished = match setting.asked.down {
        Down::Top => least - top,
        Down::Low => least + room - bottom,
        Down::Middle => {
            // From the top of the capitals to the last baseline; what hangs below
            // it is lighter and counts half.
            let last = baselines.last().copied().unwrap_or_default();
            let seen = (-tall + last + (bottom - last) / 2.0) / 2.0;
            0.5 - RAISED - seen
        }
    };
    Some(wished.min(least + room - bottom).max(least - top))
}
