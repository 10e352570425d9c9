//! Perforations in a row, and the frames beside them.

use std::collections::HashMap;

use onestrand_film::Gauge;

use super::across::{Layout, Lie};
use super::blobs::{Blob, blobs};
use super::curve::Curve;
use super::light::BoxLight;
use super::patch::frame_at;
use super::{FoundBy, FoundStrip, StripFrame};
use crate::grey::GreyPicture;

/// How light a hole must be at least, as shares of the light box: clear film and an
/// uneven box need different ones.
const SHARES: [f32; 4] = [0.92, 0.84, 0.74, 0.6];
/// The fewest holes that make a row.
const FEWEST: usize = 4;
/// Holes that may be hidden one after the other.
const HIDDEN: i32 = 16;
/// Cells of the table in which holes are looked up. Unit: pixels.
const CELL: f32 = 32.0;

/// Strips by their perforations: the longest row, and a second one apart from it.
pub(super) fn by_perforations(
    photo: GreyPicture<'_>,
    (small, by): (GreyPicture<'_>, usize),
    gauge: Gauge,
) -> Vec<FoundStrip> {
    let layout = Layout::of(gauge);
    let light = BoxLight::of(small);
    let mut best: Vec<Row> = Vec::new();
    for share in SHARES {
        let rows = Holes::of(blobs(small, &light, share), &layout).rows();
        if rows.first().map_or(0, |r| r.hits.len()) > best.first().map_or(0, |r| r.hits.len()) {
            best = rows;
        }
    }
    let mut strips = Vec::new();
    for row in best {
        for lie in Lie::of(&row.hits, small, &light, &layout) {
            for phase in 0..layout.holes_a_frame {
                strips.extend(frames(photo, (&lie, by), &light, (&layout, phase)));
            }
        }
    }
    strips
}

fn frames(
    photo: GreyPicture<'_>,
    (lie, by): (&Lie, usize),
    light: &BoxLight,
    (layout, phase): (&Layout, i32),
) -> Option<FoundStrip> {
    let (first, last) = lie.ends;
    let a_frame = layout.holes_a_frame;
    let mut frames = Vec::new();
    for place in (first - a_frame) / a_frame - 1..=(last + a_frame) / a_frame + 1 {
        let hole = place * a_frame + phase;
        if hole < first - a_frame || hole > last + a_frame {
            continue;
        }
        let (centre, across, along) = lie.picture(hole as f32, layout);
        let frame = frame_at(photo, by, (centre, across, along), Some(light), place);
        frames.extend(frame.map(|frame| StripFrame {
            within: (first..=last).contains(&hole),
            ..frame
        }));
    }
    let first = frames.first()?.place;
    for frame in &mut frames {
        frame.place -= first;
    }
    let step = lie.curve.step(0.5 * (lie.ends.0 + lie.ends.1) as f32);
    Some(FoundStrip {
        by: FoundBy::Perforations,
        frames,
        up: (-step.0, -step.1),
    })
}

/// Holes in one row with their numbers. Places in pixels of the reduced picture.
#[derive(Debug, Clone, Default)]
pub(super) struct Row {
    pub(super) hits: Vec<(i32, f32, f32)>,
    holes: Vec<usize>,
}

struct Holes {
    blobs: Vec<Blob>,
    table: HashMap<(i32, i32), Vec<usize>>,
    /// From one hole to the next, in sides of a hole.
    spacing: (f32, f32),
}

impl Holes {
    fn of(blobs: Vec<Blob>, layout: &Layout) -> Self {
        let mut table: HashMap<(i32, i32), Vec<usize>> = HashMap::new();
        for (at, blob) in blobs.iter().enumerate() {
            let cell = ((blob.x / CELL) as i32, (blob.y / CELL) as i32);
            table.entry(cell).or_default().push(at);
        }
        Self {
            blobs,
            table,
            spacing: layout.spacing,
        }
    }

    /// The longest row, and the longest of what is then left.
    fn rows(&self) -> Vec<Row> {
        let mut used = vec![false; self.blobs.len()];
        let mut rows = Vec::new();
        for _ in 0..2 {
            let mut best = Row::default();
            let mut seen = vec![false; self.blobs.len()];
            for from in 0..self.blobs.len() {
                // A hole already in a row as long as may be gives that row again.
                if used[from] || seen[from] {
                    continue;
                }
                for to in self.neighbours(from) {
                    let row = self.row(from, to);
                    if row.holes.iter().any(|&hole| used[hole]) {
                        continue;
                    }
                    if row.hits.len() >= 2 * FEWEST {
                        row.holes.iter().for_each(|&hole| seen[hole] = true);
                    }
                    if row.hits.len() > best.hits.len() {
                        best = row;
                    }
                }
            }
            if best.hits.len() < FEWEST {
                break;
            }
            best.holes.iter().for_each(|&hole| used[hole] = true);
            rows.push(best);
        }
        rows
    }

    fn alike(&self, one: usize, other: usize) -> bool {
        let ratio = self.blobs[one].area / self.blobs[other].area;
        (0.55..1.8).contains(&ratio)
    }

    /// The nearest holes of the same size that may be the next.
    fn neighbours(&self, of: usize) -> Vec<usize> {
        let from = self.blobs[of];
        let side = from.area.sqrt();
        let (least, most) = (self.spacing.0 * side, self.spacing.1 * side);
        let mut near: Vec<(f32, usize)> = self
            .within((from.x, from.y), most)
            .filter(|&at| at != of && self.alike(of, at))
            .map(|at| {
                let blob = self.blobs[at];
                ((blob.x - from.x).hypot(blob.y - from.y), at)
            })
            .filter(|&(far, _)| far >= least && far <= most)
            .collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0));
        near.truncate(6);
        near.into_iter().map(|(_, at)| at).collect()
    }

    fn within(&self, (x, y): (f32, f32), far: f32) -> impl Iterator<Item = usize> + '_ {
        let cell = |v: f32| (v / CELL).floor() as i32;
        let (x0, x1) = (cell(x - far), cell(x + far));
        let (y0, y1) = (cell(y - far), cell(y + far));
        (y0..=y1)
            .flat_map(move |cy| (x0..=x1).map(move |cx| (cx, cy)))
            .filter_map(|cell| self.table.get(&cell))
            .flatten()
            .copied()
    }

    fn row(&self, from: usize, to: usize) -> Row {
        let mut hits = vec![(0, from), (1, to)];
        let forward = self.run_on((to, from), 1);
        hits.extend(forward);
        let back = self.run_on((from, to), -1);
        hits.extend(back.into_iter().map(|(number, at)| (number + 1, at)));
        hits.sort_unstable();
        let place = |&(number, at): &(i32, usize)| (number, self.blobs[at].x, self.blobs[at].y);
        Row {
            hits: hits.iter().map(place).collect(),
            holes: hits.iter().map(|hit| hit.1).collect(),
        }
    }

    /// Further holes in the way from `before` to `last`, counted from 1 there.
    fn run_on(&self, (last, before): (usize, usize), way: i32) -> Vec<(i32, usize)> {
        let mut found = Vec::new();
        let (mut at, mut number) = (last, i32::from(way > 0));
        let b = |of: usize| (self.blobs[of].x, self.blobs[of].y);
        let mut step = (b(last).0 - b(before).0, b(last).1 - b(before).1);
        'on: loop {
            for gone in 1..=HIDDEN {
                let length = step.0.hypot(step.1);
                let guess = (
                    b(at).0 + step.0 * gone as f32,
                    b(at).1 + step.1 * gone as f32,
                );
                let off = length * (0.14 + 0.05 * (gone - 1) as f32).min(0.4);
                let next = self
                    .within(guess, off)
                    .filter(|&to| self.alike(last, to) && to != at)
                    .map(|to| ((b(to).0 - guess.0).hypot(b(to).1 - guess.1), to))
                    .filter(|&(far, _)| far <= off)
                    .min_by(|x, y| x.0.total_cmp(&y.0));
                let Some((_, to)) = next else { continue };
                let seen = (
                    (b(to).0 - b(at).0) / gone as f32,
                    (b(to).1 - b(at).1) / gone as f32,
                );
                let share = if found.is_empty() { 0.6 } else { 0.4 };
                step = (
                    step.0 + share * (seen.0 - step.0),
                    step.1 + share * (seen.1 - step.1),
                );
                number += gone * way;
                found.push((number, to));
                at = to;
                if found.len() > 4_000 {
                    break 'on;
                }
                continue 'on;
            }
            break;
        }
        found
    }
}

/// The curve through a row, with holes that lie off it left out.
pub(super) fn smooth(hits: &[(i32, f32, f32)]) -> Option<Curve> {
    let curve = Curve::through(hits)?;
    let off = |&(number, x, y): &(i32, f32, f32)| {
        let at = curve.at(number as f32);
        let step = curve.step(number as f32);
        (at.0 - x).hypot(at.1 - y) / step.0.hypot(step.1).max(1.0)
    };
    let good: Vec<_> = hits.iter().filter(|hit| off(hit) < 0.1).copied().collect();
    if good.len() < FEWEST || good.len() * 3 < hits.len() * 2 {
        return None;
    }
    Curve::through(&good)
}
