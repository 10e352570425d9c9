//! The same hair in the gate of several shots.

use super::Strip;
use crate::gate::{PLACES, Side};
use crate::shot::ShotSeen;

/// Things of two shots are one when they hang so near each other. Unit: thousandths of the
/// picture's width.
const NEAR: f32 = 9.0;

/// What one shot shows at the place of a thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shown {
    /// The thing, its length and how far that may be off.
    There(f32, f32),
    /// Nothing, and it would be seen.
    NotThere,
    /// It is too dark there to tell.
    Unseen,
}

/// A thing that stands in the gate in several shots.
#[derive(Debug, Clone, PartialEq)]
pub struct GateThing {
    /// The side it hangs on.
    pub side: Side,
    /// Where along the side, from the middle, in thousandths of the picture's width.
    pub along: f32,
    /// Its length in each shot of each strip, in thousandths of the picture's width;
    /// nothing where it is not there or cannot be seen.
    pub lengths: Vec<Vec<Option<f32>>>,
    pub(super) shown: Vec<Vec<Shown>>,
}

/// What stands in the gate of two shots at least, and not in all of them alike.
pub(super) fn things(strips: &[Strip<'_>]) -> Vec<GateThing> {
    let mut places: Vec<(Side, f32, f32)> = Vec::new();
    for thing in strips
        .iter()
        .flat_map(|s| &s.shots)
        .flat_map(|shot| shot.standing())
    {
        let near =
            |p: &&mut (Side, f32, f32)| p.0 == thing.side && (p.1 - thing.along).abs() < NEAR;
        match places.iter_mut().find(near) {
            Some(place) => {
                place.2 += 1.0;
                place.1 += (thing.along - place.1) / place.2;
            }
            None => places.push((thing.side, thing.along, 1.0)),
        }
    }
    let many = places.iter().filter(|place| place.2 >= 2.0);
    many.map(|&(side, along, _)| thing(strips, side, along))
        .collect()
}

fn thing(strips: &[Strip<'_>], side: Side, along: f32) -> GateThing {
    let of_strip = |strip: &Strip<'_>| -> Vec<Shown> {
        strip
            .shots
            .iter()
            .map(|shot| shown(shot, side, along))
            .collect()
    };
    let shown: Vec<Vec<Shown>> = strips.iter().map(of_strip).collect();
    let length = |shown: &Shown| match shown {
        Shown::There(length, _) => Some(*length),
        _ => None,
    };
    GateThing {
        side,
        along,
        lengths: shown
            .iter()
            .map(|s| s.iter().map(length).collect())
            .collect(),
        shown,
    }
}

fn shown(shot: &ShotSeen, side: Side, along: f32) -> Shown {
    let Ok(gate) = &shot.gate else {
        return Shown::Unseen;
    };
    let here = shot.standing().iter().filter(|t| t.side == side);
    let nearest = here.min_by(|a, b| (a.along - along).abs().total_cmp(&(b.along - along).abs()));
    if let Some(thing) = nearest.filter(|t| (t.along - along).abs() < NEAR) {
        return Shown::There(thing.length, thing.error);
    }
    let long = if side.is_upright() {
        gate.outline.height_share() * 1_000.0
    } else {
        1_000.0
    };
    let part = ((along / long + 0.5) * PLACES as f32).clamp(0.0, PLACES as f32 - 1.0) as usize;
    if gate.standing.light[side.index()][part] {
        Shown::NotThere
    } else {
        Shown::Unseen
    }
}
