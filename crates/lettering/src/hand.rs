//! Outlines as a hand draws, cuts or lays them.

use tiny_skia::{Path, PathBuilder, PathSegment, Point, Transform};

use crate::chance::{Chance, Hills};
use crate::manner::Hand;

/// One letter of one card: measures in capitals, y downwards.
pub(crate) struct Laid {
    /// Where it begins on its line.
    pub(crate) x: f32,
    /// Below the baseline of its line.
    pub(crate) y: f32,
    /// Whether it joins its neighbours.
    pub(crate) joins: bool,
    /// Its number on the card.
    pub(crate) number: u64,
    /// The line it stands on.
    pub(crate) line: usize,
}

/// The outline where the hand puts it, relative to the beginning of its line.
pub(crate) fn laid(outline: &Path, place: &Laid, hand: &Hand, seed: u64) -> Option<Path> {
    let mut chance = Chance::new(seed, place.number);
    let mut how = Transform::identity();
    // A letter that joins others may not stray by itself: the stroke would break.
    if !place.joins {
        let bounds = outline.bounds();
        let centre = (
            (bounds.left() + bounds.right()) / 2.0,
            (bounds.top() + bounds.bottom()) / 2.0,
        );
        let grow = 1.0 + hand.grow * chance.swing();
        how = how
            .pre_translate(hand.sway * chance.swing(), hand.rise * chance.swing())
            .pre_concat(Transform::from_rotate_at(
                hand.turn * chance.swing(),
                centre.0,
                centre.1,
            ))
            .pre_scale(grow, grow);
    }
    let moved = outline
        .clone()
        .transform(how.post_translate(place.x, place.y))?;
    let cut = if hand.knife > 0.0 && !place.joins {
        with_knife(&moved, hand.knife, &mut chance)?
    } else {
        moved
    };
    if hand.waver > 0.0 {
        wavering(&cut, hand.waver, seed, place.line)
    } else {
        Some(cut)
    }
}

/// Every point pushed by soft hills that run on from letter to letter.
fn wavering(path: &Path, waver: f32, seed: u64, line: usize) -> Option<Path> {
    let (across, down) = (Hills::new(seed, 1), Hills::new(seed, 2));
    let below = line as f32 * 7.3;
    let push = |p: Point| {
        let at = (p.x * 1.7, p.y * 1.7 + below);
        Point::from_xy(
            p.x + waver * (across.at(at.0, at.1) - 0.5) * 2.0,
            p.y + waver * (down.at(at.0, at.1) - 0.5) * 2.0,
        )
    };
    let mut built = PathBuilder::new();
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(p) => move_to(&mut built, push(p)),
            PathSegment::LineTo(p) => line_to(&mut built, push(p)),
            PathSegment::QuadTo(a, p) => {
                let (a, p) = (push(a), push(p));
                built.quad_to(a.x, a.y, p.x, p.y);
            }
            PathSegment::CubicTo(a, b, p) => {
                let (a, b, p) = (push(a), push(b), push(p));
                built.cubic_to(a.x, a.y, b.x, b.y, p.x, p.y);
            }
            PathSegment::Close => built.close(),
        }
    }
    built.finish()
}

/// Curves become straight cuts, none longer than `chord` where it is round.
fn with_knife(path: &Path, chord: f32, chance: &mut Chance) -> Option<Path> {
    let mut built = PathBuilder::new();
    let mut from = Point::zero();
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(p) => {
                move_to(&mut built, p);
                from = p;
            }
            PathSegment::LineTo(p) => {
                line_to(&mut built, p);
                from = p;
            }
            PathSegment::QuadTo(a, p) => {
                let at = |t: f32| quad(from, a, p, t);
                cuts(&mut built, at, from.distance(p), chord, chance);
                from = p;
            }
            PathSegment::CubicTo(a, b, p) => {
                let at = |t: f32| {
                    let first = quad(from, a, b, t);
                    let second = quad(a, b, p, t);
                    between(first, second, t)
                };
                cuts(&mut built, at, from.distance(p), chord, chance);
                from = p;
            }
            PathSegment::Close => built.close(),
        }
    }
    built.finish()
}

/// Straight cuts along a curve, with a hand's unevenness where they meet.
fn cuts(
    built: &mut PathBuilder,
    at: impl Fn(f32) -> Point,
    length: f32,
    chord: f32,
    chance: &mut Chance,
) {
    let count = (length / chord).ceil().clamp(1.0, 8.0) as usize;
    for step in 1..=count {
        let mut t = step as f32 / count as f32;
        if step < count {
            t += chance.swing() * 0.25 / count as f32;
        }
        line_to(built, at(t));
    }
}

fn between(a: Point, b: Point, t: f32) -> Point {
    Point::from_xy(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t)
}

fn quad(from: Point, a: Point, to: Point, t: f32) -> Point {
    between(between(from, a, t), between(a, to, t), t)
}

fn move_to(built: &mut PathBuilder, p: Point) {
    built.move_to(p.x, p.y);
}

fn line_to(built: &mut PathBuilder, p: Point) {
    built.line_to(p.x, p.y);
}
