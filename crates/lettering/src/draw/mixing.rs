//! Planes laid over each other, into colour with alpha.

use super::View;
use super::plane::{Part, Plane};
use crate::SetCard;
use crate::chance::Hills;
use crate::manner::Finish;

/// How much of the ground a plate covers.
pub(crate) const PLATE: f32 = 0.9;
/// What a plate under white letters is made of, and one under black letters.
pub(crate) const DARK_PLATE: [u8; 3] = [12, 12, 14];
pub(crate) const PAPER_PLATE: [u8; 3] = [240, 234, 219];

/// The colours of a card.
pub(crate) struct Colours {
    pub(crate) letters: [u8; 3],
    /// What sets the letters off: outline and plate.
    pub(crate) against: [u8; 3],
    /// How much of the ground the plate lets through.
    plate: f32,
}

/// White, warm as paper and chalk are, or black.
pub(crate) fn colours(card: &SetCard) -> Colours {
    let white = match card.look.manner.finish {
        Finish::Tooth => [243, 242, 236],
        Finish::Sheets => [252, 249, 240],
        Finish::Copied | Finish::Shaded => [250, 247, 238],
        _ => [252, 251, 248],
    };
    let black = [18, 17, 20];
    let is_slip = card.look.plate && card.look.manner.finish == Finish::Ribbon;
    if card.look.dark || is_slip {
        Colours {
            letters: black,
            against: PAPER_PLATE,
            plate: if is_slip { 1.0 } else { PLATE },
        }
    } else {
        Colours {
            letters: white,
            against: DARK_PLATE,
            plate: PLATE,
        }
    }
}

/// What is laid, and how strongly.
pub(crate) struct Over<'a> {
    pub(crate) colour: [u8; 3],
    pub(crate) strength: f32,
    /// How light each place is beside the colour.
    pub(crate) tone: Option<&'a [u8]>,
}

impl Over<'_> {
    pub(crate) fn even(colour: [u8; 3], strength: f32) -> Self {
        Self {
            colour,
            strength,
            tone: None,
        }
    }
}

/// Colour with alpha, premultiplied while it grows.
pub(crate) struct Mixed {
    width: usize,
    height: usize,
    values: Vec<[f32; 4]>,
}

impl Mixed {
    pub(crate) fn new(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            values: vec![[0.0; 4]; width * height],
        }
    }

    /// Lays a plane over what is there.
    pub(crate) fn lay(&mut self, plane: &Plane, part: Part, over: &Over<'_>) {
        self.lay_moved(plane, part, 0, over);
    }

    /// Lays a plane moved to the lower right.
    pub(crate) fn lay_moved(&mut self, plane: &Plane, part: Part, by: usize, over: &Over<'_>) {
        let colour = over.colour.map(f32::from);
        let strength = over.strength / 255.0;
        for y in part.top..part.bottom.min(self.height.saturating_sub(by)) {
            let from = &plane.values[y * self.width..][part.left..part.right];
            let start = (y + by) * self.width + part.left + by;
            let end = (y + by + 1) * self.width;
            let to = &mut self.values[start.min(end)..end];
            for (x, (cover, under)) in from.iter().zip(to).enumerate() {
                if *cover == 0 {
                    continue;
                }
                let cover = f32::from(*cover) * strength;
                let light = over.tone.map_or(1.0, |tone| {
                    f32::from(tone[y * self.width + part.left + x]) / 255.0
                });
                for (under, above) in under.iter_mut().zip(colour) {
                    *under = *under * (1.0 - cover) + above * light * cover;
                }
                under[3] = under[3] * (1.0 - cover) + cover;
            }
        }
    }

    /// Eight bits, straight.
    pub(crate) fn into_straight(self) -> Vec<u8> {
        let mut out = vec![0; self.values.len() * 4];
        for (to, from) in out.chunks_exact_mut(4).zip(&self.values) {
            let alpha = from[3];
            if alpha <= 0.0 {
                continue;
            }
            for (to, from) in to[..3].iter_mut().zip(from) {
                *to = (from / alpha + 0.5).min(255.0) as u8;
            }
            to[3] = (alpha * 255.0 + 0.5).min(255.0) as u8;
        }
        out
    }
}

/// A plate behind the words, a little uneven at its edges as if it were laid or
/// painted by hand.
pub(crate) fn plate(mixed: &mut Mixed, card: &SetCard, view: &View, colours: &Colours) {
    let bounds = card.bounds;
    let pad = (0.62 * card.capital_height) as f32;
    let x = |at: f64, pad: f32| view.origin.0 + (at as f32 + pad) * view.scale;
    let y = |at: f64, pad: f32| view.origin.1 + (at as f32 + pad) * view.scale;
    let (left, right) = (x(bounds.left, -pad), x(bounds.right, pad));
    let (top, bottom) = (y(bounds.top, -pad), y(bounds.bottom, pad));
    let edge = Hills::new(card.seed, 31);
    let rough = 0.05 * view.capital;
    let slow = 1.3 / view.capital;
    let stray = |at: f32, side: f32| (edge.at(at * slow, side) - 0.5) * 2.0 * rough;
    let mut plane = Plane::empty(mixed.width, mixed.height);
    let within = |value: f32, most: usize| value.clamp(0.0, most as f32) as usize;
    let part = Part {
        left: within(left - rough - 1.0, mixed.width),
        top: within(top - rough - 1.0, mixed.height),
        right: within(right + rough + 2.0, mixed.width),
        bottom: within(bottom + rough + 2.0, mixed.height),
    };
    let columns: Vec<(f32, f32)> = (0..mixed.width)
        .map(|x| (top + stray(x as f32, 0.5), bottom + stray(x as f32, 9.5)))
        .collect();
    let grain = Hills::new(card.seed, 32);
    let fine = 9.0 / view.capital;
    plane.each(part, |x, y, value| {
        let (px, py) = (x as f32 + 0.5, y as f32 + 0.5);
        let (top, bottom) = columns[x];
        let inside = (py - top).min(bottom - py);
        let beside = (px - left - stray(py, 20.5)).min(right + stray(py, 30.5) - px);
        let cover = (inside.min(beside) + 0.5).clamp(0.0, 1.0);
        if cover > 0.0 {
            let even = 1.0 - 0.05 * grain.at(px * fine, py * fine);
            *value = (255.0 * cover * even) as u8;
        }
    });
    mixed.lay(&plane, part, &Over::even(colours.against, colours.plate));
}
