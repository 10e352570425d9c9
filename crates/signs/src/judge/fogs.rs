//! Stray light over the picture: it lifts what is darkest.

use crate::kept::{TILES, TILES_ACROSS, TILES_DOWN};
use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Place, Sign, SignKind};
use crate::spans::{RunRule, greatest, middle, runs, share};
use std::ops::Range;

/// Frames to either side that a frame is held against.
const ABOUT: usize = 40;
/// First frames of a take, which the camera's start lights.
const START: usize = 3;
/// Those of them count in which the picture stood within this of where it
/// stands. Unit: pixels of the plane.
const STANDS: f32 = 8.0;
/// Of those, so many are asked.
const ASKED: usize = 21;
/// Frames that must count.
const LEAST: usize = 8;
/// A tile is lifted when its darkest place has gained this much. Unit: parts
/// of full light.
const LIFTED: f32 = 0.006;
/// All lifted tiles together gain no more than so many times in their darkest
/// places what they gain on the mean: where something dark goes out of the
/// picture, the darkest place gains far more.
const TOGETHER: f32 = 2.0;
/// Tiles that must be lifted in a column or a row at the side where the light
/// comes in, or of all.
const OF_SIDE: f32 = 0.75;
const OF_ALL: f32 = 0.45;
/// Exponent between light and level.
const EXPONENT: f32 = 2.2;

pub(super) fn of_take(record: &SignRecord, take: &Take, limits: &SignLimits) -> Vec<Sign> {
    let first = take.span.start;
    let lifts = lifts(record, take);
    let mut amounts: Vec<f32> = lifts.iter().map(|lift| 100.0 * amount(lift)).collect();
    amounts
        .iter_mut()
        .take(START)
        .for_each(|amount| *amount = 0.0);
    let rule = RunRule {
        enter: limits.fog_above,
        stay: 0.4 * limits.fog_above,
        gap: 1,
        shortest: 2,
    };
    runs(&amounts, first, rule)
        .into_iter()
        .filter(|span| {
            let most = greatest(span.clone(), |at| amounts[at - first]);
            most.is_none_or(|most| !stays(record, take, span, &lifts[most - first]))
        })
        .map(|span| {
            let of = |at: usize| amounts[at - first];
            let most = greatest(span.clone(), of);
            let measure = share(span.clone().map(of), 0.75);
            let outside = |at: usize| {
                if span.contains(&at) {
                    f32::NAN
                } else {
                    -of(at)
                }
            };
            let near = span.start.saturating_sub(ABOUT).max(take.span.start)
                ..(span.end + ABOUT).min(take.span.end);
            let beside = greatest(near, outside);
            let place = most.and_then(|at| place(&lifts[at - first]));
            let mut sign = Sign::new(SignKind::Fog, span, measure).beside(most, beside);
            sign.place = place;
            sign
        })
        .collect()
}

/// Whether most of the lifted tiles are as light after a span as in it, and were not
/// before: something dark went out of the picture, and no light came and went.
fn stays(record: &SignRecord, take: &Take, span: &Range<usize>, lift: &[Lift; TILES]) -> bool {
    /// The frames next to a span may have a trace of what it has.
    const AWAY: usize = 3;
    let (Some(before), after) = (span.start.checked_sub(AWAY), span.end + AWAY - 1) else {
        return false;
    };
    if !take.span.contains(&before) || !take.span.contains(&after) {
        return false;
    }
    let (before, after) = (&record.frames[before], &record.frames[after]);
    let light = |level: u8| (f32::from(level) / 255.0).powf(EXPONENT);
    let lit = (after.light - before.light).exp2();
    let lifted = || (0..TILES).filter(|&tile| lift[tile].light() >= LIFTED);
    let stayed = lifted().filter(|&tile| {
        let by = light(after.darkest[tile]) - light(before.darkest[tile]) * lit;
        by > 0.5 * lift[tile].darkest
    });
    2 * stayed.count() > lifted().count()
}

/// What a tile has gained. Unit: parts of full light.
#[derive(Debug, Clone, Copy, Default)]
struct Lift {
    darkest: f32,
    mean: f32,
}

impl Lift {
    /// Stray light lifts both: the lesser is certain.
    fn light(self) -> f32 {
        self.darkest.min(self.mean)
    }
}

/// Light that each tile has gained, frame by frame.
fn lifts(record: &SignRecord, take: &Take) -> Vec<[Lift; TILES]> {
    let frames = &record.frames[take.span.clone()];
    let light: [f32; 256] = std::array::from_fn(|level| (level as f32 / 255.0).powf(EXPONENT));
    let (mut x, mut y) = (0.0, 0.0);
    let path: Vec<(f32, f32)> = frames
        .iter()
        .enumerate()
        .map(|(place, frame)| {
            if place > 0 {
                x += frame.right;
                y += frame.down;
            }
            (x, y)
        })
        .collect();
    (0..frames.len())
        .map(|at| {
            let near: Vec<usize> = (at.saturating_sub(ABOUT)..(at + ABOUT + 1).min(frames.len()))
                .filter(|&other| {
                    let (dx, dy) = (path[other].0 - path[at].0, path[other].1 - path[at].1);
                    dx.hypot(dy) < STANDS && frames[other].seen
                })
                .collect();
            if near.len() < LEAST || !frames[at].seen {
                return [Lift::default(); TILES];
            }
            // Some of the frames about it will do for a middle one.
            let step = near.len().div_ceil(ASKED);
            let lit: Vec<(usize, f32)> = near
                .into_iter()
                .step_by(step)
                .map(|other| (other, (frames[at].light - frames[other].light).exp2()))
                .collect();
            std::array::from_fn(|tile| {
                // The darkest place and the mean, each as the light of the other
                // frames would have made it: stray light lifts both.
                let gained = |level: &dyn Fn(usize) -> u8| {
                    let usual = lit
                        .iter()
                        .map(|&(other, lit)| light[usize::from(level(other))] * lit);
                    light[usize::from(level(at))] - middle(usual)
                };
                let darkest = gained(&|at: usize| frames[at].darkest[tile]);
                if darkest < LIFTED {
                    return Lift::default();
                }
                let mean = gained(&|at: usize| frames[at].means[tile]);
                Lift { darkest, mean }
            })
        })
        .collect()
}

/// Stray light of a frame on the mean of the picture, if its tiles rise from a
/// side or all together. Unit: parts of full light.
fn amount(lift: &[Lift; TILES]) -> f32 {
    let is_lifted = |tile: usize| lift[tile].light() >= LIFTED;
    let enough = |tiles: &mut dyn Iterator<Item = usize>| {
        let (mut all, mut lifted) = (0.0, 0.0);
        for tile in tiles {
            all += 1.0;
            lifted += f32::from(u8::from(is_lifted(tile)));
        }
        lifted >= OF_SIDE * all
    };
    let column = |x: usize| (0..TILES_DOWN).map(move |y| y * TILES_ACROSS + x);
    let row = |y: usize| (0..TILES_ACROSS).map(move |x| y * TILES_ACROSS + x);
    let of_all = (0..TILES).filter(|&tile| is_lifted(tile)).count() as f32;
    let comes_in = enough(&mut column(0))
        || enough(&mut column(TILES_ACROSS - 1))
        || enough(&mut row(0))
        || enough(&mut row(TILES_DOWN - 1))
        || of_all >= OF_ALL * TILES as f32;
    let lifted = (0..TILES).filter(|&tile| is_lifted(tile));
    let (dark, mean) = lifted.fold((0.0, 0.0), |(dark, mean), tile| {
        (dark + lift[tile].darkest, mean + lift[tile].mean)
    });
    if !comes_in || dark > TOGETHER * mean {
        return 0.0;
    }
    lift.iter().map(|lift| lift.light().max(0.0)).sum::<f32>() / TILES as f32
}

/// The rectangle about the tiles that are lifted most.
fn place(lift: &[Lift; TILES]) -> Option<Place> {
    let most = lift.iter().map(|lift| lift.light()).fold(0.0, f32::max);
    let tiles: Vec<usize> = (0..TILES)
        .filter(|&t| lift[t].light() > 0.4 * most)
        .collect();
    let across = |tile: &usize| tile % TILES_ACROSS;
    let down = |tile: &usize| tile / TILES_ACROSS;
    let of = |at: usize, all: usize| (1000 * at / all) as u16;
    Some(Place::Box {
        left: of(tiles.iter().map(across).min()?, TILES_ACROSS),
        top: of(tiles.iter().map(down).min()?, TILES_DOWN),
        right: of(tiles.iter().map(across).max()? + 1, TILES_ACROSS),
        bottom: of(tiles.iter().map(down).max()? + 1, TILES_DOWN),
    })
}
