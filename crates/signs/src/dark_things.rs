//! Thin dark things that reach in from the gate.

use crate::closing::closed;
use onestrand_inspect::{PLANE_BYTES, PLANE_HEIGHT, PLANE_WIDTH};

/// Share of each side in which they are sought.
const ZONE: f32 = 0.22;
/// Light that is lost where a thing begins to be seen, and where it is left.
/// Range: 0 to 1.
const SEEN: f32 = 0.34;
const LEFT: f32 = 0.18;
/// What stands around must be lighter than this for a thing to be seen.
const LIT: u8 = 40;
/// Smallest and largest thing. Unit: pixels.
const SMALLEST: usize = 5;
const LARGEST: usize = PLANE_BYTES / 40;
/// Shortest thing along its longer side. Unit: pixels.
const SHORTEST: usize = 4;
/// And reaches this far in: what lies farther out is in the frame line.
const REACHES_IN: usize = 4;
/// A thing begins this near to the gate. Unit: pixels.
const FROM_GATE: usize = 2;

/// A thin dark thing.
#[derive(Debug, Clone)]
pub(crate) struct DarkThing {
    /// Its pixels, as places in the plane, in order.
    pub(crate) pixels: Vec<u16>,
    /// Pixels around it that are none of its own.
    pub(crate) around: Vec<u16>,
    /// Left, top, right, bottom. Unit: pixels; right and bottom are past it.
    pub(crate) bounds: [usize; 4],
}

/// The thin dark things of a plane that begin at the gate.
pub(crate) fn dark_things(plane: &[u8; PLANE_BYTES]) -> Vec<DarkThing> {
    let around = closed(plane);
    let lost = |at: usize, share: f32| {
        around[at] >= LIT && f32::from(plane[at]) < (1.0 - share) * f32::from(around[at])
    };
    let mut taken = vec![false; PLANE_BYTES];
    let mut others = vec![true; PLANE_BYTES];
    let mut things = Vec::new();
    for at in 0..PLANE_BYTES {
        if taken[at] || !in_zone(at) || !lost(at, SEEN) {
            continue;
        }
        let pixels = grown(at, &mut taken, |at| in_zone(at) && lost(at, LEFT));
        things.extend(cores(&pixels, &mut others, plane, &around));
    }
    things
}

/// What is darkest of joined pixels: a hair that lies over something dark of the
/// picture is darker still. `others` is true everywhere, and is so again at the
/// end.
fn cores(
    pixels: &[u16],
    others: &mut [bool],
    plane: &[u8; PLANE_BYTES],
    around: &[u8],
) -> Vec<DarkThing> {
    /// A core has at least this part of what the darkest pixel has lost.
    const CORE: f32 = 0.6;
    let left = |at: usize| f32::from(plane[at]) / f32::from(around[at].max(1));
    let darkest = pixels.iter().map(|&at| left(usize::from(at)));
    let limit = 1.0 - CORE * (1.0 - darkest.fold(1.0, f32::min));
    let mark = |others: &mut [bool], as_others| {
        pixels
            .iter()
            .for_each(|&at| others[usize::from(at)] = as_others);
    };
    mark(others, false);
    let mut in_order = pixels.to_vec();
    in_order.sort_unstable();
    let is_own = |at: &usize| in_order.binary_search(&(*at as u16)).is_ok();
    let mut things = Vec::new();
    for at in pixels.iter().map(|&at| usize::from(at)) {
        if others[at] || left(at) > limit {
            continue;
        }
        let core = grown(at, others, |at| left(at) <= limit);
        // Its rim is half covered.
        let rim = core.iter().flat_map(|&at| about(usize::from(at), 1));
        let mut whole: Vec<u16> = rim.filter(is_own).map(|at| at as u16).collect();
        whole.sort_unstable();
        whole.dedup();
        things.extend(thing(whole, plane, around));
    }
    mark(others, true);
    things
}

fn in_zone(at: usize) -> bool {
    let (x, y) = (at % PLANE_WIDTH, at / PLANE_WIDTH);
    let (wide, high) = (
        (ZONE * PLANE_WIDTH as f32) as usize,
        (ZONE * PLANE_HEIGHT as f32) as usize,
    );
    x < wide || y < high || x >= PLANE_WIDTH - wide || y >= PLANE_HEIGHT - high
}

/// Whether a place in the zone has a neighbour inside: what goes on there is
/// too long for a hair.
fn leaves_zone(at: usize) -> bool {
    about(at, 1).any(|near| !in_zone(near))
}

/// All pixels joined with the one at `start`, corners counted.
fn grown(start: usize, taken: &mut [bool], belongs: impl Fn(usize) -> bool) -> Vec<u16> {
    let mut pixels = vec![start as u16];
    taken[start] = true;
    let mut next = 0;
    while next < pixels.len() {
        let at = usize::from(pixels[next]);
        next += 1;
        for beside in about(at, 1) {
            if !taken[beside] && belongs(beside) {
                taken[beside] = true;
                pixels.push(beside as u16);
            }
        }
    }
    pixels
}

/// Places within `reach` of a place, itself too.
fn about(at: usize, reach: usize) -> impl Iterator<Item = usize> {
    let (x, y) = (at % PLANE_WIDTH, at / PLANE_WIDTH);
    let rows = y.saturating_sub(reach)..(y + reach + 1).min(PLANE_HEIGHT);
    rows.flat_map(move |y| {
        let columns = x.saturating_sub(reach)..(x + reach + 1).min(PLANE_WIDTH);
        columns.map(move |x| y * PLANE_WIDTH + x)
    })
}

fn thing(mut pixels: Vec<u16>, plane: &[u8], around: &[u8]) -> Option<DarkThing> {
    pixels.sort_unstable();
    if !(SMALLEST..=LARGEST).contains(&pixels.len()) {
        return None;
    }
    let mut bounds = [PLANE_WIDTH, PLANE_HEIGHT, 0, 0];
    for &at in &pixels {
        let (x, y) = (usize::from(at) % PLANE_WIDTH, usize::from(at) / PLANE_WIDTH);
        bounds = [
            bounds[0].min(x),
            bounds[1].min(y),
            bounds[2].max(x + 1),
            bounds[3].max(y + 1),
        ];
    }
    let long = (bounds[2] - bounds[0]).max(bounds[3] - bounds[1]);
    let begins = pixels.iter().any(|&at| at_gate(usize::from(at), plane));
    let leaves = pixels.iter().any(|&at| leaves_zone(usize::from(at)));
    let reaches_in = pixels
        .iter()
        .any(|&at| from_end(usize::from(at)) >= REACHES_IN);
    if long < SHORTEST
        || !begins
        || !reaches_in
        || leaves
        || is_corner(bounds)
        || is_rim(&pixels, long)
    {
        return None;
    }
    let around = surroundings(&pixels, bounds, around);
    (!around.is_empty()).then_some(DarkThing {
        pixels,
        around,
        bounds,
    })
}

/// How far a place is from the nearest end of the plane. Unit: pixels.
fn from_end(at: usize) -> usize {
    let (x, y) = (at % PLANE_WIDTH, at / PLANE_WIDTH);
    x.min(y).min(PLANE_WIDTH - 1 - x).min(PLANE_HEIGHT - 1 - y)
}

/// Whether nothing but the dark of the gate lies between a place and the end of
/// the plane, one way.
fn at_gate(at: usize, plane: &[u8]) -> bool {
    /// The gate is nowhere wider than this.
    const GATE: usize = 8;
    let (x, y) = (at % PLANE_WIDTH, at / PLANE_WIDTH);
    let to_end = [
        (x, 1, true),
        (PLANE_WIDTH - 1 - x, 1, false),
        (y, PLANE_WIDTH, true),
        (PLANE_HEIGHT - 1 - y, PLANE_WIDTH, false),
    ];
    to_end.into_iter().any(|(away, step, back)| {
        away < FROM_GATE
            || (away < GATE + FROM_GATE
                && (FROM_GATE..=away).all(|by| {
                    let place = if back { at - by * step } else { at + by * step };
                    plane[place] < LIT
                }))
    })
}

/// What lies along the end of the plane over most of its length is a thing cut
/// off by it, or the gate.
fn is_rim(pixels: &[u16], long: usize) -> bool {
    let at_end = pixels.iter().filter(|&&at| {
        let (x, y) = (usize::from(at) % PLANE_WIDTH, usize::from(at) / PLANE_WIDTH);
        x == 0 || y == 0 || x == PLANE_WIDTH - 1 || y == PLANE_HEIGHT - 1
    });
    long >= 6 && 2 * at_end.count() > long
}

/// The round corners of a gate.
fn is_corner([left, top, right, bottom]: [usize; 4]) -> bool {
    const CORNER: usize = 10;
    let side = left >= PLANE_WIDTH - CORNER || right <= CORNER;
    side && (top >= PLANE_HEIGHT - CORNER || bottom <= CORNER)
}

/// Lit pixels beside a thing, none of its own.
fn surroundings(pixels: &[u16], [left, top, right, bottom]: [usize; 4], lit: &[u8]) -> Vec<u16> {
    const REACH: usize = 4;
    let mut own = vec![false; PLANE_BYTES];
    for &at in pixels {
        about(usize::from(at), 1).for_each(|near| own[near] = true);
    }
    let rows = top.saturating_sub(REACH)..(bottom + REACH).min(PLANE_HEIGHT);
    rows.flat_map(|y| {
        let columns = left.saturating_sub(REACH)..(right + REACH).min(PLANE_WIDTH);
        columns.map(move |x| y * PLANE_WIDTH + x)
    })
    .filter(|&at| !own[at] && lit[at] >= LIT)
    .map(|at| at as u16)
    .collect()
}
