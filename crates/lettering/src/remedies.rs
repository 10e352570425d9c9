//! What would make letters stand out: each remedy is tried and measured before it is
//! told.

use crate::contrast::{Remedy, measured};
use crate::{Layer, draw, laid_over};

/// Words that already stand at the top or low are not moved there. Unit: parts of the
/// picture height.
const LEAST_MOVE: f64 = 0.02;
/// Steps in which a ground is darkened. Unit: stops.
const STOPS: f64 = 0.5;
/// More than this a ground is not darkened: nothing would be left of it.
const MOST_STOPS: f64 = 4.0;

/// The remedies that suffice, the least trouble first.
pub(crate) fn tried(ground: &[u8], layer: &Layer, wanted: f64) -> Vec<Remedy> {
    let enough = |shown: &[u8], layer: &Layer| measured(shown, layer).ratio >= wanted;
    let mut found = Vec::new();
    if let Some(down) = moved_enough(ground, layer, &enough) {
        found.push(Remedy::Move { down });
    }
    let other = other_ink(layer);
    if enough(&laid_over(ground, &other, 1.0, 1.0), &other) {
        found.push(Remedy::DarkLetters);
    }
    let plated = with_plate(layer);
    if enough(&laid_over(ground, &plated, 1.0, 1.0), &plated) {
        found.push(Remedy::Plate);
    }
    // Darker helps white letters only.
    if is_light(layer) {
        let steps = (MOST_STOPS / STOPS) as u32;
        let stops = (1..=steps)
            .map(|step| f64::from(step) * STOPS)
            .find(|stops| enough(&laid_over(ground, layer, (-stops).exp2(), 1.0), layer));
        found.extend(stops.map(|stops| Remedy::Darken { stops }));
    }
    found
}

/// The shorter way to the top or the bottom of the safe rows, the two other places
/// where words are put, after which it is enough.
fn moved_enough(
    ground: &[u8],
    layer: &Layer,
    enough: &impl Fn(&[u8], &Layer) -> bool,
) -> Option<f64> {
    let (first, last) = rows(layer)?;
    let height = i64::from(layer.height);
    let up = i64::from(layer.safe_rows.0) - i64::from(first);
    let down = i64::from(layer.safe_rows.1) - i64::from(last) - 1;
    let least = (LEAST_MOVE * height as f64) as i64;
    let mut ways = [up, down];
    ways.sort_by_key(|rows| rows.abs());
    ways.into_iter()
        .filter(|rows| rows.abs() > least)
        .find(|rows| {
            let moved = moved(layer, *rows);
            enough(&laid_over(ground, &moved, 1.0, 1.0), &moved)
        })
        .map(|rows| rows as f64 / height as f64)
}

/// The first and last row with letters.
fn rows(layer: &Layer) -> Option<(u32, u32)> {
    let width = layer.width as usize;
    let holds = |row: &[u8]| row.iter().any(|value| *value > 24);
    let mut rows = layer.letters.chunks_exact(width).enumerate();
    let first = rows.find(|(_, row)| holds(row))?.0 as u32;
    let last = rows.rfind(|(_, row)| holds(row));
    Some((first, last.map_or(first, |(at, _)| at as u32)))
}

/// The layer so many rows farther down.
fn moved(layer: &Layer, rows: i64) -> Layer {
    let mut out = layer.clone();
    let shift = |from: &[u8], to: &mut [u8], a_row: usize| {
        to.fill(0);
        let by = rows.unsigned_abs() as usize * a_row;
        let kept = from.len().saturating_sub(by);
        if rows >= 0 {
            to[from.len() - kept..].copy_from_slice(&from[..kept]);
        } else {
            to[..kept].copy_from_slice(&from[from.len() - kept..]);
        }
    };
    let width = layer.width as usize;
    shift(&layer.rgba, &mut out.rgba, width * 4);
    shift(&layer.letters, &mut out.letters, width);
    out
}

/// Whether the letters are lighter than mid grey.
fn is_light(layer: &Layer) -> bool {
    let letters = layer.letters.iter().zip(layer.rgba.chunks_exact(4));
    let (sum, count) = letters
        .filter(|(letter, _)| **letter >= 150)
        .fold((0_u64, 0_u64), |(sum, count), (_, rgba)| {
            (sum + u64::from(rgba[1]), count + 1)
        });
    count == 0 || sum / count > 127
}

/// The letters alone in the other ink, without what now sets them off: what the other
/// ink brings with it can only help.
fn other_ink(layer: &Layer) -> Layer {
    let mut out = layer.clone();
    // The darkest white and the lightest black of any design.
    let ink = if is_light(layer) {
        [20, 20, 20]
    } else {
        [240, 240, 236]
    };
    for (rgba, letter) in out.rgba.chunks_exact_mut(4).zip(&layer.letters) {
        rgba[..3].copy_from_slice(&ink);
        rgba[3] = *letter;
    }
    out
}

/// A plate behind the words, as thick as `draw` makes it.
fn with_plate(layer: &Layer) -> Layer {
    let mut out = if layer.types_on_paper && is_light(layer) {
        other_ink(layer)
    } else {
        layer.clone()
    };
    let width = layer.width as usize;
    let Some((first, last)) = rows(layer) else {
        return out;
    };
    let pad = layer.capital as usize * 6 / 10;
    let columns = |y: usize| layer.letters[y * width..][..width].iter();
    let holding = (first as usize..=last as usize)
        .flat_map(|y| columns(y).enumerate().filter(|(_, v)| **v > 24))
        .map(|(x, _)| x);
    let (left, right) = holding.fold((width, 0), |(l, r), x| (l.min(x), r.max(x)));
    let plate = if is_light(&out) {
        draw::DARK_PLATE
    } else {
        draw::PAPER_PLATE
    };
    // A plate is a little thinner here and there.
    let cover = draw::PLATE * 0.95;
    for y in
        (first as usize).saturating_sub(pad)..(last as usize + pad + 1).min(layer.height as usize)
    {
        for x in left.saturating_sub(pad)..(right + pad + 1).min(width) {
            let rgba = &mut out.rgba[(y * width + x) * 4..][..4];
            let above = f32::from(rgba[3]) / 255.0;
            let all = above + cover * (1.0 - above);
            for (level, plate) in rgba[..3].iter_mut().zip(plate) {
                let mixed = f32::from(*level) * above + f32::from(plate) * cover * (1.0 - above);
                *level = (mixed / all).round() as u8;
            }
            rgba[3] = (all * 255.0).round() as u8;
        }
    }
    out
}
