//! Stray light over the picture: it lifts what is darkest.

use crate::kept::{TILES, TILES_ACROSS, TILES_DOWN};
use crate::record::{SignRecord, Take};
use crate::settings::SignSettings;
use crate::sign::{Place, Sign, SignKind};
use crate::spans::{RunRule, greatest, middle, runs, share};

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
/// Tiles that must be lifted in a column or a row at the side where the light
/// comes in, or of all.
const OF_SIDE: f32 = 0.75;
const OF_ALL: f32 = 0.45;
/// Exponent between light and level.
const EXPONENT: f32 = 2.2;

pub(super) fn of_take(record: &SignRecord, take: &Take, settings: &SignSettings) -> Vec<Sign> {
    let first = take.span.start;
    let lifts = lifts(record, take);
    let mut amounts: Vec<f32> = lifts.iter().map(|lift| 100.0 * amount(lift)).collect();
    amounts
        .iter_mut()
        .take(START)
        .for_each(|amount| *amount = 0.0);
    let rule = RunRule {
        enter: settings.fog_above,
        stay: 0.4 * settings.fog_above,
        gap: 1,
        shortest: 2,
    };
    runs(&amounts, first, rule)
        .into_iter()
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

/// Light that each tile's darkest place has gained, frame by frame.
fn lifts(record: &SignRecord, take: &Take) -> Vec<[f32; TILES]> {
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
                return [0.0; TILES];
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
                    return 0.0;
                }
                darkest.min(gained(&|at: usize| frames[at].means[tile]))
            })
        })
        .collect()
}

/// Stray light of a frame on the mean of the picture, if its tiles rise from a
/// side or all together. Unit: parts of full light.
fn amount(lift: &[f32; TILES]) -> f32 {
    let is_lifted = |tile: usize| lift[tile] >= LIFTED;
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
    if !comes_in {
        return 0.0;
    }
    lift.iter().map(|lift| lift.max(0.0)).sum::<f32>() / TILES as f32
}

/// The rectangle about the tiles that are lifted most.
fn place(lift: &[f32; TILES]) -> Option<Place> {
    let most = lift.iter().copied().fold(0.0, f32::max);
    let tiles: Vec<usize> = (0..TILES).filter(|&t| lift[t] > 0.4 * most).collect();
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
