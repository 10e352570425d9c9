//! Dirt that stands on one frame only, in either copy.

use super::Pair;
use crate::median::{middle, quantile};
use crate::scan_picture::Grey;

/// A speck differs so much from the frames before and after. Unit: levels.
const LEAST: f32 = 20.0;
/// Pixels of a speck.
const AREA: std::ops::RangeInclusive<usize> = 3..=600;
/// In the other copy a speck is there with such a share of its strength, and is not there
/// below the other share; between them nothing is said.
const THERE: (f32, f32) = (0.3, 0.15);
/// Most specks of one place and copy.
const MOST: usize = 80;

/// How soft specks are, in both copies: natural logarithms of the width of their edges in
/// pixels of the first copy's scan.
#[derive(Debug, Default)]
pub(super) struct Specks {
    /// Those both copies show, as each shows them.
    pub(super) both: [Vec<f32>; 2],
    /// Those only one shows.
    pub(super) own: [Vec<f32>; 2],
}

/// How soft something is on the mean: natural logarithm, its error, and how many were seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Softness {
    pub(super) of: f32,
    pub(super) error: f32,
    pub(super) count: usize,
}

impl Softness {
    pub(super) fn of(widths: &[f32]) -> Self {
        let count = widths.len();
        let (of, spread) = middle(&mut widths.to_vec());
        let error = 1.25 * spread.max(0.15) / (count as f32).max(1.0).sqrt();
        Self { of, error, count }
    }
}

/// A speck: where its middle is, how strong it is, darker being negative, how soft.
#[derive(Debug, Clone, Copy)]
struct Speck {
    at: (f32, f32),
    strong: f32,
    width: f32,
}

impl Specks {
    /// Adds those of one place.
    pub(super) fn add(&mut self, pair: &Pair) {
        let (first, second) = (&pair.first, &pair.second);
        let lone = [lonely(first), lonely(second)];
        let unit = pair.placed.size;
        for speck in found(&lone[0], &first[1]) {
            let (x, y) = pair
                .placed
                .place(&first[1], &second[1], speck.at.0, speck.at.1);
            match there(&lone[1], (x, y), speck.strong) {
                Some(true) => {
                    self.both[0].push(speck.width.ln());
                    if let Some(width) = width(&second[1], &lone[1], (x, y), speck.strong) {
                        self.both[1].push((width / unit).ln());
                    }
                }
                Some(false) => self.own[0].push(speck.width.ln()),
                None => {}
            }
        }
        for speck in found(&lone[1], &second[1]) {
            let (x, y) = back(pair, speck.at);
            if there(&lone[0], (x, y), speck.strong) == Some(false) {
                self.own[1].push((speck.width / unit).ln());
            }
        }
    }

    /// Of all specks, those that both copies show.
    pub(super) fn shared(&self) -> (usize, usize) {
        let both = self.both[0].len();
        (both, both + self.own[0].len() + self.own[1].len())
    }
}

/// The place in the first copy that shows a place of the second.
fn back(pair: &Pair, at: (f32, f32)) -> (f32, f32) {
    let (first, second) = (&pair.first[1], &pair.second[1]);
    let (ox, oy) = pair.placed.place(first, second, 0.0, 0.0);
    (
        (at.0 - ox) / pair.placed.size,
        (at.1 - oy) / pair.placed.size,
    )
}

/// How far each place leaves what the frames before and after show about it.
fn lonely(frames: &[Grey; 3]) -> Grey {
    let [before, now, after] = frames;
    let low = |g: &Grey| spread(g, f32::min);
    let high = |g: &Grey| spread(g, f32::max);
    let (low, high) = ((low(before), low(after)), (high(before), high(after)));
    let mut lone = now.clone();
    for (at, level) in lone.levels.iter_mut().enumerate() {
        let darkest = low.0.levels[at].min(low.1.levels[at]);
        let lightest = high.0.levels[at].max(high.1.levels[at]);
        let (dark, light) = ((*level - darkest).min(0.0), (*level - lightest).max(0.0));
        *level = if -dark > light { dark } else { light };
    }
    lone
}

/// The least or most of the places about each, two pixels around: film weaves in its gate.
fn spread(g: &Grey, choose: fn(f32, f32) -> f32) -> Grey {
    let row = |line: &[f32], x: usize| {
        let (from, to) = (x.saturating_sub(2), (x + 3).min(line.len()));
        line[from..to]
            .iter()
            .copied()
            .reduce(choose)
            .unwrap_or_default()
    };
    let mut across = g.clone();
    for y in 0..g.height {
        let line = &g.levels[y * g.width..(y + 1) * g.width];
        (0..g.width).for_each(|x| across.levels[y * g.width + x] = row(line, x));
    }
    let mut down = across.clone();
    for y in 0..g.height {
        for x in 0..g.width {
            let rows = y.saturating_sub(2)..(y + 3).min(g.height);
            let levels = rows.map(|row| across.at(x, row));
            down.levels[y * g.width + x] = levels.reduce(choose).unwrap_or_default();
        }
    }
    down
}

/// The specks of one picture, strongest first.
fn found(lone: &Grey, picture: &Grey) -> Vec<Speck> {
    let mut sizes: Vec<f32> = lone.levels.iter().step_by(7).map(|l| l.abs()).collect();
    let limit = LEAST.max(2.0 * quantile(&mut sizes, 0.995));
    let mut seen = vec![false; lone.levels.len()];
    let mut specks = Vec::new();
    let (from, to) = (lone.width / 6, lone.width * 5 / 6);
    for y in lone.height / 6..lone.height * 5 / 6 {
        for x in from..to {
            if lone.at(x, y).abs() >= limit && !seen[y * lone.width + x] {
                specks.extend(speck(lone, picture, (x, y), limit, &mut seen));
            }
        }
    }
    specks.sort_by(|a, b| b.strong.abs().total_cmp(&a.strong.abs()));
    specks.truncate(MOST);
    specks
}

fn speck(
    lone: &Grey,
    picture: &Grey,
    from: (usize, usize),
    limit: f32,
    seen: &mut [bool],
) -> Option<Speck> {
    let mut stack = vec![from];
    seen[from.1 * lone.width + from.0] = true;
    let (mut area, mut sum, mut strong) = (0, (0.0, 0.0), 0.0_f32);
    let is_dark = lone.at(from.0, from.1) < 0.0;
    while let Some((x, y)) = stack.pop() {
        let level = lone.at(x, y);
        area += 1;
        sum = (sum.0 + x as f32, sum.1 + y as f32);
        if level.abs() > strong.abs() {
            strong = level;
        }
        for (x, y) in [
            (x + 1, y),
            (x.wrapping_sub(1), y),
            (x, y + 1),
            (x, y.wrapping_sub(1)),
        ] {
            let fits = x < lone.width && y < lone.height && !seen[y * lone.width + x];
            let level = if fits { lone.at(x, y) } else { 0.0 };
            if fits && level.abs() >= limit * 0.6 && (level < 0.0) == is_dark {
                seen[y * lone.width + x] = true;
                stack.push((x, y));
            }
        }
    }
    let at = (sum.0 / area as f32, sum.1 / area as f32);
    let width = AREA
        .contains(&area)
        .then(|| width(picture, lone, at, strong))
        .flatten()?;
    Some(Speck { at, strong, width })
}

/// The strongest answer of the same kind within three pixels of a place.
fn answer(lone: &Grey, (x, y): (f32, f32), strong: f32) -> Option<f32> {
    let (cx, cy) = (x.round() as i64, y.round() as i64);
    let mut best = 0.0_f32;
    for v in cy - 3..=cy + 3 {
        for u in cx - 3..=cx + 3 {
            let (u, v) = (usize::try_from(u).ok()?, usize::try_from(v).ok()?);
            if u >= lone.width || v >= lone.height {
                return None;
            }
            let level = lone.at(u, v);
            if (level < 0.0) == (strong < 0.0) {
                best = best.max(level.abs());
            }
        }
    }
    Some(best)
}

/// Whether a speck of the other copy is there; nothing where that cannot be told.
fn there(lone: &Grey, at: (f32, f32), strong: f32) -> Option<bool> {
    let share = answer(lone, at, strong)? / strong.abs();
    if share >= THERE.0 {
        Some(true)
    } else {
        (share < THERE.1).then_some(false)
    }
}

/// How many pixels the edge of a speck takes: its strength by its steepest step.
fn width(picture: &Grey, lone: &Grey, at: (f32, f32), strong: f32) -> Option<f32> {
    let (cx, cy) = (at.0.round() as usize, at.1.round() as usize);
    if cx < 8 || cy < 8 || cx + 9 > picture.width || cy + 9 > picture.height {
        return None;
    }
    let strong = answer(lone, at, strong)?;
    let mut steepest = 0.0_f32;
    for y in cy - 6..=cy + 6 {
        for x in cx - 6..=cx + 6 {
            let across = picture.at(x + 1, y) - picture.at(x - 1, y);
            let down = picture.at(x, y + 1) - picture.at(x, y - 1);
            steepest = steepest.max((across * across + down * down).sqrt() / 2.0);
        }
    }
    (steepest > 1.0 && strong > 4.0).then(|| (strong / steepest).clamp(0.3, 12.0))
}
