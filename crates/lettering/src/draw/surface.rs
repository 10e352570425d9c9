//! What ink, chalk, paper and paint do to letters.

use super::View;
use super::ink::Ink;
use super::plane::Plane;
use crate::chance::Hills;
use crate::manner::Finish;

/// From 0 to 1 between two values, with a soft beginning and end.
pub(crate) fn ramp(from: f32, to: f32, value: f32) -> f32 {
    let part = ((value - from) / (to - from)).clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}

/// Places on the card in capitals, so that a surface goes with its letters and is
/// the same at every size.
struct Ground<'a> {
    view: &'a View,
    seed: u64,
}

impl Ground<'_> {
    fn at(&self, x: usize, y: usize) -> (f32, f32) {
        let (left, top) = self.view.origin;
        (
            (x as f32 - left) / self.view.capital,
            (y as f32 - top) / self.view.capital,
        )
    }

    /// How much of a grain of so many capitals is left when it is finer than the
    /// pixels: the picture cannot show it, and shall not be spoilt by it.
    fn shown(&self, grain: f32) -> f32 {
        (grain * self.view.capital / 2.2).clamp(0.0, 1.0)
    }

    fn hills(&self, which: u64) -> Hills {
        Hills::new(self.seed, which)
    }
}

/// The letters with the surface of their design; and what lies beyond their edges:
/// dust, spray, a shade of lines.
pub(crate) fn finished(ink: &mut Ink, view: &View, finish: Finish, seed: u64) -> Option<Plane> {
    let ground = Ground { view, seed };
    match finish {
        Finish::Even | Finish::Sheets => None,
        Finish::DryBrush => {
            dry_brush(ink, &ground);
            None
        }
        Finish::Ink => {
            pooled(ink, &ground);
            None
        }
        Finish::Flaked => {
            flaked(ink, &ground);
            None
        }
        Finish::Ribbon => {
            ribbon(ink, &ground);
            None
        }
        Finish::Copied => {
            copied(&mut ink.cover, view, ink.part);
            None
        }
        Finish::Salted => {
            salted(ink, &ground);
            None
        }
        Finish::Tooth => Some(tooth(ink, &ground)),
        Finish::Sprayed => Some(sprayed(ink, &ground)),
        Finish::Shaded => Some(shade(ink, view)),
    }
}

/// Multiplies each covered pixel by what `part` gives for its place, 0 to 1.
fn worn(ink: &mut Ink, ground: &Ground<'_>, part: impl Fn(f32, f32) -> f32) {
    let whole = ink.part;
    ink.cover.each(whole, |x, y, value| {
        if *value > 0 {
            let (u, v) = ground.at(x, y);
            *value = (f32::from(*value) * part(u, v).clamp(0.0, 1.0) + 0.5) as u8;
        }
    });
}

fn dry_brush(ink: &mut Ink, ground: &Ground<'_>) {
    let (streaks, dry) = (ground.hills(11), ground.hills(12));
    let strength = 0.75 * ground.shown(0.035);
    worn(ink, ground, |u, v| {
        // Hairs of the brush run with a slanting stroke.
        let (along, beside) = (u * 0.34 - v * 0.94, u * 0.94 + v * 0.34);
        let hair = streaks.at(along * 1.6, beside * 22.0);
        let dryness = dry.at(u * 0.9, v * 1.1);
        1.0 - strength * ramp(0.66, 0.95, hair * 0.62 + dryness * 0.5)
    });
}

fn pooled(ink: &mut Ink, ground: &Ground<'_>) {
    let pools = ground.hills(13);
    worn(ink, ground, |u, v| 0.88 + 0.16 * pools.at(u * 2.2, v * 2.2));
}

fn flaked(ink: &mut Ink, ground: &Ground<'_>) {
    let (cracks, where_cracked, flakes) = (ground.hills(14), ground.hills(15), ground.hills(16));
    let strength = ground.shown(0.03);
    worn(ink, ground, |u, v| {
        let strained = ramp(0.58, 0.74, where_cracked.at(u * 0.55, v * 0.8));
        if strained <= 0.0 {
            return 1.0;
        }
        let line = (cracks.rough(u * 2.4, v * 2.4 + u * 0.6) - 0.5).abs();
        let crack = 1.0 - ramp(0.002, 0.009, line);
        let flake = ramp(0.86, 0.92, flakes.grain(u * 6.0, v * 6.0));
        1.0 - strained * strength * crack.max(flake)
    });
}

fn ribbon(ink: &mut Ink, ground: &Ground<'_>) {
    let soft = ink.cover.softened(ink.part, ground.view.soft(0.02), 2);
    let (blots, weave) = (ground.hills(17), ground.hills(18));
    let shown = ground.shown(0.05);
    let tone = ink.tone.take();
    let (width, whole) = (ink.cover.width, ink.part);
    ink.cover.each(whole, |x, y, value| {
        let at = y * width + x;
        let near = f32::from(soft.values[at]) / 255.0;
        if *value == 0 && near < 0.2 {
            return;
        }
        let (u, v) = ground.at(x, y);
        let key = tone
            .as_ref()
            .map_or(1.0, |tone| f32::from(tone[at]) / 255.0);
        let cloth = weave.grain(u * 17.0, v * 17.0) - 0.5;
        let given = near + (blots.grain(u * 2.0, v * 2.0) - 0.5) * 0.5 + cloth * 0.3 * shown;
        let cover = (f32::from(*value) / 255.0).max(near * 0.5);
        *value = (255.0 * cover.min(1.0) * key * (0.42 + 0.58 * ramp(0.35, 0.9, given))) as u8;
    });
}

/// Corners rounded and edges softened, as a copy of a copy has them.
pub(crate) fn copied(cover: &mut Plane, view: &View, part: super::plane::Part) {
    let radius = view.soft(0.014);
    if radius == 0 {
        return;
    }
    let soft = cover.softened(part, radius, 2);
    cover.each(part, |x, y, value| {
        let near = f32::from(soft.values[y * soft.width + x]) / 255.0;
        *value = (255.0 * ramp(0.24, 0.76, near)) as u8;
    });
}

fn salted(ink: &mut Ink, ground: &Ground<'_>) {
    let deep = ink.cover.softened(ink.part, ground.view.pixels(0.035), 2);
    let (salt, took) = (ground.hills(19), ground.hills(20));
    let wood = ground.hills(21);
    let shown = ground.shown(0.03);
    let (width, whole) = (ink.cover.width, ink.part);
    ink.cover.each(whole, |x, y, value| {
        if *value == 0 {
            return;
        }
        let (u, v) = ground.at(x, y);
        // Ink is pressed out to the edge; the middle takes less.
        let inside = ramp(0.7, 1.0, f32::from(deep.values[y * width + x]) / 255.0);
        let bare = ramp(0.4, 0.8, took.at(u * 0.8, v * 0.8));
        let grain = salt.grain(u * 22.0, v * 22.0) * 0.8 + wood.at(u * 1.1, v * 17.0) * 0.2;
        let hole = ramp(0.66, 0.86, grain + 0.1 * bare);
        let lost = inside * hole * (0.2 + 0.5 * bare) * shown;
        *value = (f32::from(*value) * (1.0 - lost)) as u8;
    });
}

fn tooth(ink: &mut Ink, ground: &Ground<'_>) -> Plane {
    let view = ground.view;
    let part = ink
        .part
        .grown(view.pixels(0.3), ink.cover.width, ink.cover.height);
    let near = ink.cover.softened(part, view.soft(0.022), 2);
    let mut dust = ink.cover.softened(part, view.pixels(0.13), 2);
    let (grain, press) = (ground.hills(22), ground.hills(23));
    let shown = ground.shown(0.035);
    let width = ink.cover.width;
    ink.cover.each(part, |x, y, value| {
        let at = y * width + x;
        let depth = f32::from(near.values[at]) / 255.0;
        if depth < 0.12 {
            *value = 0;
            return;
        }
        let (u, v) = ground.at(x, y);
        let pressed = 0.86 + 0.3 * press.at(u * 1.3, v * 1.3);
        let rough = (grain.grain(u * 26.0, v * 26.0) - 0.4) * 0.85 * shown;
        let took = ramp(0.26, 0.82, depth * pressed + rough);
        *value = (250.0 * took) as u8;
    });
    dust.each(part, |x, y, value| {
        let (u, v) = ground.at(x, y);
        let blown = grain.grain(u * 5.0, v * 5.0) * grain.grain(u * 30.0, v * 30.0);
        *value = (f32::from(*value) * 0.2 * blown) as u8;
    });
    dust
}

fn sprayed(ink: &mut Ink, ground: &Ground<'_>) -> Plane {
    let view = ground.view;
    let part = ink
        .part
        .grown(view.pixels(0.4), ink.cover.width, ink.cover.height);
    let near = ink.cover.softened(part, view.soft(0.012), 2);
    let mut spray = ink.cover.softened(part, view.pixels(0.09), 3);
    let (drops, mist, coat) = (ground.hills(24), ground.hills(25), ground.hills(26));
    let shown = ground.shown(0.03);
    let width = ink.cover.width;
    ink.cover.each(part, |x, y, value| {
        let depth = f32::from(near.values[y * width + x]) / 255.0;
        if depth < 0.02 {
            return;
        }
        let (u, v) = ground.at(x, y);
        let coat = 0.87 + 0.2 * coat.rough(u * 1.2, v * 1.2);
        let speck = (drops.grain(u * 24.0, v * 24.0) - 0.5) * 0.3 * shown;
        *value =
            (255.0 * ramp(0.2, 0.8, depth + speck * (1.0 - depth * 0.6)) * coat.min(1.0)) as u8;
    });
    spray.each(part, |x, y, value| {
        if *value == 0 {
            return;
        }
        let (u, v) = ground.at(x, y);
        let near = f32::from(*value) / 255.0;
        let reach = near * (0.55 + 0.9 * mist.at(u * 0.9, v * 0.9));
        let drop = ramp(
            0.97 - 0.42 * reach,
            1.06 - 0.42 * reach,
            drops.grain(u * 21.0, v * 21.0),
        );
        *value = (255.0 * (0.05 * reach + drop * 0.75 * shown).min(0.8)) as u8;
    });
    spray
}

/// Fine lines to the lower right of each letter, with a hair of ground between, as
/// an engraver sets a letter off.
fn shade(ink: &Ink, view: &View) -> Plane {
    let cover = &ink.cover;
    let part = ink.part.grown(view.pixels(0.2), cover.width, cover.height);
    let mut out = Plane::empty(cover.width, cover.height);
    let clear = (0.022 * view.capital).max(1.0);
    let reach = (0.1 * view.capital).max(2.0);
    let steps = (reach as usize).max(2);
    let period = 0.042 * view.capital;
    let gap = clear.round() as isize;
    out.each(part, |x, y, value| {
        let (x, y) = (x as isize, y as isize);
        let touches = [(0, 0), (gap, 0), (-gap, 0), (0, gap), (0, -gap)];
        let letter = touches
            .map(|(a, b)| cover.at(x + a, y + b))
            .into_iter()
            .max();
        let free = 255 - letter.unwrap_or(0);
        if free == 0 {
            return;
        }
        let swept = (1..=steps).map(|step| {
            let back = (step as f32 / steps as f32 * reach) as isize;
            cover.at(x - back, y - back)
        });
        let swept = swept.max().unwrap_or(0);
        // Lines stand as wide as the gaps; too fine for the pixels, they are a tone.
        let line = if period < 3.0 {
            0.5
        } else {
            let phase = (y as f32 - view.origin.1) / period;
            let away = (phase - phase.floor() - 0.5).abs() * period;
            (period / 4.0 + 0.5 - away).clamp(0.0, 1.0)
        };
        *value = (f32::from(swept.min(free)) * line) as u8;
    });
    out
}
