//! Perforations that follow each other in a row.

use std::collections::HashMap;

use onestrand_film::Gauge;

use super::FoundStrip;
use super::across::Lie;
use super::beside::frames;
use super::blobs::{Blob, blobs};
use super::joined::joined;
use super::layout::Layout;
use super::light::BoxLight;
use super::line::{FEWEST_BEYOND, Row, on_a_line};
use crate::grey::GreyPicture;

/// How light a hole must be at least, as shares of the light box: clear film and an
/// uneven box need different ones.
const SHARES: [f32; 4] = [0.92, 0.84, 0.74, 0.6];
/// Rows that are looked for, and those of them that are tried by themselves.
const ROWS: usize = 4;
/// See there.
const ALONE: usize = 2;
/// So much firmer a row must be to be looked for with a lower limit.
const FIRMER: f32 = 1.3;
/// So many holes in a row need not be looked for again from each of them.
const SURELY: usize = 8;
/// The least share of the holes between the ends of a row that must be seen. Specks of a
/// picture without film make rows too, of a hole here and there.
const SEEN: f32 = 0.3;
/// So many times the holes of a row may there be other places of their size and light:
/// among more some lie in a row by chance.
const BESIDE: usize = 50;
/// Holes that may be hidden one after the other.
const HIDDEN: i32 = 16;
/// Cells of the table in which holes are looked up. Unit: pixels.
const CELL: f32 = 32.0;

/// Strips by their perforations: rows joined across what lies over them, then the longest
/// row, and a second one apart from it.
pub(super) fn by_perforations(
    photo: GreyPicture<'_>,
    (small, by): (GreyPicture<'_>, usize),
    gauge: Gauge,
) -> Vec<FoundStrip> {
    let layout = Layout::of(gauge);
    let light = BoxLight::of(small);
    let mut best: Vec<Row> = Vec::new();
    let firmest = |rows: &[Row]| rows.first().map_or(0.0, Row::firmness);
    for share in SHARES {
        let holes = Holes::of(blobs(small, &light, (share, layout.aspect)), &layout);
        let rows = holes.rows();
        let mut all = joined(&rows);
        all.extend(rows.into_iter().take(ALONE).filter(Row::is_row));
        all.retain(|row| row.seen() >= SEEN && holes.has_few_beside(row));
        // Holes are as light as the box; with a lower limit pictures make rows as well.
        if firmest(&all) > FIRMER * firmest(&best) {
            best = all;
        }
    }
    let mut strips = Vec::new();
    for row in best {
        for lie in Lie::of(&row.hits, small, &light, &layout) {
            for first in first_holes(&lie.frame_lines(small, &light, &layout)) {
                strips.extend(frames(photo, (&lie, by), &light, (&layout, first)));
            }
        }
    }
    strips
}

/// Which hole may be the first of a frame, the likeliest first.
fn first_holes(lines: &[f32]) -> Vec<i32> {
    let mut firsts: Vec<(f32, i32)> = lines.iter().copied().zip(0..).collect();
    firsts.sort_by(|a, b| b.0.total_cmp(&a.0));
    firsts.into_iter().map(|(_, first)| first).collect()
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

    /// The longest row, and again the longest of what is then left.
    fn rows(&self) -> Vec<Row> {
        let mut used = vec![false; self.blobs.len()];
        let mut rows = Vec::new();
        for _ in 0..ROWS {
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
                    if row.hits.len() >= SURELY {
                        row.holes.iter().for_each(|&hole| seen[hole] = true);
                    }
                    if row.hits.len() > best.hits.len() {
                        best = row;
                    }
                }
            }
            if best.hits.len() < FEWEST_BEYOND {
                break;
            }
            best.holes.iter().for_each(|&hole| used[hole] = true);
            rows.push(best);
        }
        rows
    }

    /// Whether hardly anything else in the photograph looks like the holes of a row.
    fn has_few_beside(&self, row: &Row) -> bool {
        let ratio = |blob: &&Blob| (0.55..1.8).contains(&(blob.area / (row.side * row.side)));
        self.blobs.iter().filter(ratio).count() <= BESIDE * row.hits.len()
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
        hits.extend(back);
        hits.sort_unstable();
        let place = |&(number, at): &(i32, usize)| (number, self.blobs[at].x, self.blobs[at].y);
        let side = |&(_, at): &(i32, usize)| self.blobs[at].area.sqrt();
        let on_line = on_a_line(&hits.iter().map(place).collect::<Vec<_>>()).unwrap_or_default();
        hits.retain(|hit| on_line.iter().any(|on| on.0 == hit.0));
        Row {
            hits: on_line,
            holes: hits.iter().map(|hit| hit.1).collect(),
            side: hits.iter().map(side).sum::<f32>() / hits.len().max(1) as f32,
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
