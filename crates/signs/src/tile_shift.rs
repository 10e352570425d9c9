//! A movement made finer by the slopes of the light.

/// Least mean squared slope of a tile that knows a direction: below it there is
/// only grain. Unit: quarters of a level a pixel, squared.
const KNOWS: f32 = 140.0;
/// Pixels left out at the border: the gate, and neighbours for slopes.
const BORDER: usize = 2;
/// Slopes of a tile must be this much stronger one way than the other for it to
/// speak for that way alone.
const ONE_WAY: f32 = 8.0;
/// Tiles that must speak.
const LEAST_TILES: usize = 4;
/// Farthest that a tile may differ from where the search began. Unit: pixels.
const FARTHEST: f32 = 1.5;

/// What the tiles say together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TileShift {
    /// Unit: pixels of the picture that the tiles are cut from.
    pub(crate) right: f32,
    pub(crate) down: f32,
    /// Share of the tiles that agree. Range: 0 to 1.
    pub(crate) agree: f32,
}

/// The movement from `from` to `to`, in their pixels, sought near `start`.
///
/// At each pixel the difference between the frames is the slope times the
/// movement; slopes are those of the two frames together, which makes the
/// answer true to the third order. Each tile's own mean is taken out, so that
/// flicker does not count. `None` when too few tiles show anything.
pub(crate) fn tile_shift<const WIDTH: usize, const TILE: usize>(
    from: &[u8],
    to: &[u8],
    start: (f32, f32),
) -> Option<TileShift> {
    let whole = (start.0.round() as i32, start.1.round() as i32);
    let height = WIDTH * 3 / 4;
    let (mut rights, mut downs) = (Vec::with_capacity(64), Vec::with_capacity(64));
    let says = |by: Option<f32>, left| {
        by.filter(|by| by.abs() < FARTHEST)
            .map(|by| TileSays { by, left })
    };
    for top in (BORDER..height).step_by(TILE) {
        for left in (BORDER..WIDTH).step_by(TILE) {
            let Some(sums) = sums_of_tile::<WIDTH, TILE>((from, to), (left, top), whole) else {
                continue;
            };
            let (right, down) = sums.movement();
            rights.extend(says(right, left));
            downs.extend(says(down, left));
        }
    }
    if rights.len() < LEAST_TILES || downs.len() < LEAST_TILES {
        return None;
    }
    let (right, down) = (most_agree(&mut rights), most_agree(&mut downs));
    Some(TileShift {
        right: whole.0 as f32 + right,
        down: whole.1 as f32 + down,
        agree: agreeing::<WIDTH>(&rights, right).min(agreeing::<WIDTH>(&downs, down)),
    })
}

/// What one tile says of one way.
#[derive(Debug, Clone, Copy)]
struct TileSays {
    by: f32,
    /// Where the tile lies across the picture.
    left: usize,
}

/// Share of the tiles that say nearly as much; 0 where all but two of them lie
/// within half of the width. A figure is taller than wide: what it says alone is
/// no movement of the picture.
fn agreeing<const WIDTH: usize>(values: &[TileSays], of: f32) -> f32 {
    const NEARLY: f32 = 0.25;
    let mut lefts: Vec<usize> = values
        .iter()
        .filter(|value| (value.by - of).abs() < NEARLY)
        .map(|value| value.left)
        .collect();
    lefts.sort_unstable();
    // One tile on either side may say so by chance.
    let inner = lefts
        .get(1)
        .zip(lefts.len().checked_sub(2).map(|at| lefts[at]));
    if inner.is_none_or(|(first, last)| first + WIDTH / 2 > last) {
        return 0.0;
    }
    lefts.len() as f32 / values.len() as f32
}

/// The mean of those values that lie closest together: two fifths of them.
///
/// The place has many tiles of one mind; figures that walk have fewer, and those
/// differ among themselves. A middle value would be drawn to their side.
fn most_agree(values: &mut [TileSays]) -> f32 {
    values.sort_by(|a, b| a.by.total_cmp(&b.by));
    let wanted = (values.len() * 2).div_ceil(5).max(2);
    let width = |near: &[TileSays]| near[wanted - 1].by - near[0].by;
    let closest = values
        .windows(wanted)
        .min_by(|a, b| width(a).total_cmp(&width(b)))
        .unwrap_or(values);
    closest.iter().map(|value| value.by).sum::<f32>() / closest.len() as f32
}

/// Sums over a tile, of slopes across and along, and of the difference.
#[derive(Debug, Default, Clone, Copy)]
struct Sums {
    pixels: i32,
    across: i32,
    along: i32,
    change: i32,
    across_across: i32,
    along_along: i32,
    across_along: i32,
    across_change: i32,
    along_change: i32,
}

impl Sums {
    /// What the tile says, as far as it can.
    fn movement(&self) -> (Option<f32>, Option<f32>) {
        let n = self.pixels as f32;
        let about = |sum: i32, a: i32, b: i32| sum as f32 - a as f32 * b as f32 / n;
        let xx = about(self.across_across, self.across, self.across);
        let yy = about(self.along_along, self.along, self.along);
        let xy = about(self.across_along, self.across, self.along);
        let xt = about(self.across_change, self.across, self.change);
        let yt = about(self.along_change, self.along, self.change);
        // Slopes are in quarters of a level a pixel, differences in levels.
        let found = xx * yy - xy * xy;
        let knows = KNOWS * n;
        if xx > knows && yy > knows && found > 0.2 * xx * yy {
            let right = -4.0 * (yy * xt - xy * yt) / found;
            let down = -4.0 * (xx * yt - xy * xt) / found;
            (Some(right), Some(down))
        } else if xx > knows && xx > ONE_WAY * yy {
            (Some(-4.0 * xt / xx), None)
        } else if yy > knows && yy > ONE_WAY * xx {
            (None, Some(-4.0 * yt / yy))
        } else {
            (None, None)
        }
    }
}

/// The sums of one tile of `from` and of what lies over it in `to`.
fn sums_of_tile<const WIDTH: usize, const TILE: usize>(
    (from, to): (&[u8], &[u8]),
    (left, top): (usize, usize),
    (right, down): (i32, i32),
) -> Option<Sums> {
    let height = WIDTH as i32 * 3 / 4;
    let (l, t) = (left as i32 + right, top as i32 + down);
    let border = BORDER as i32;
    let fits = |at: i32, length: i32| at >= border && at + TILE as i32 + border <= length;
    let inside = fits(l, WIDTH as i32)
        && fits(t, height)
        && fits(left as i32, WIDTH as i32)
        && fits(top as i32, height);
    if !inside {
        return None;
    }
    let mut sums = Sums {
        pixels: (TILE * TILE) as i32,
        ..Sums::default()
    };
    for row in 0..TILE {
        let a = (top + row) * WIDTH + left;
        let b = (t as usize + row) * WIDTH + l as usize;
        add_row::<WIDTH, TILE>(&mut sums, &from[a - WIDTH - 1..], &to[b - WIDTH - 1..]);
    }
    Some(sums)
}

/// Adds a row of a tile. Both slices begin one pixel up and left of it.
fn add_row<const WIDTH: usize, const TILE: usize>(sums: &mut Sums, from: &[u8], to: &[u8]) {
    let part = |levels: &'_ [u8], at: usize| -> [i16; TILE] {
        let levels: &[u8; TILE] = levels[at..at + TILE].try_into().unwrap_or(&[0; TILE]);
        levels.map(i16::from)
    };
    let both = |at: usize| -> [i16; TILE] {
        let (a, b) = (part(from, at), part(to, at));
        std::array::from_fn(|x| a[x].wrapping_add(b[x]))
    };
    let (west, east) = (both(WIDTH), both(WIDTH + 2));
    let (north, south) = (both(1), both(2 * WIDTH + 1));
    let (here, there) = (part(from, WIDTH + 1), part(to, WIDTH + 1));
    for x in 0..TILE {
        let across = i32::from(east[x].wrapping_sub(west[x]));
        let along = i32::from(south[x].wrapping_sub(north[x]));
        let change = i32::from(there[x].wrapping_sub(here[x]));
        sums.across = sums.across.wrapping_add(across);
        sums.along = sums.along.wrapping_add(along);
        sums.change = sums.change.wrapping_add(change);
        sums.across_across = sums.across_across.wrapping_add(across.wrapping_mul(across));
        sums.along_along = sums.along_along.wrapping_add(along.wrapping_mul(along));
        sums.across_along = sums.across_along.wrapping_add(across.wrapping_mul(along));
        sums.across_change = sums.across_change.wrapping_add(across.wrapping_mul(change));
        sums.along_change = sums.along_change.wrapping_add(along.wrapping_mul(change));
    }
}
