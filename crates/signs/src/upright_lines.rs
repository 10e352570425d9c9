//! Thin upright lines that run through the whole height of a frame.

use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// Rows left out at the top and at the foot: the frame line.
const BORDER: usize = 8;
/// Bands that the height is cut into, and rows in each.
const BANDS: usize = 8;
const ROWS: usize = (PLANE_HEIGHT - 2 * BORDER) / BANDS;
/// Columns left out on either side: the gate.
const SIDE: usize = 6;
/// A line is held against what lies this far to either side. Unit: pixels.
const BESIDE: usize = 2;
/// Bands darker than this show no line.
const DARKEST: f32 = 24.0;
/// Bands that must be light enough.
const LEAST_BANDS: usize = 5;
/// In three quarters of the bands a line has at least this part of what it has in
/// the middle one.
const THROUGH: f32 = 0.4;
/// Where a band has less than this part of it, the line is not there.
const LACKING: f32 = 0.15;
/// Lines fainter than this are not kept. Unit: parts of the level beside it.
const FAINTEST: f32 = 0.011;
/// Lines kept of a frame.
pub(crate) const LINES: usize = 4;

/// A line in one frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct UprightLine {
    /// Where it stands. Unit: pixels of the plane from the left.
    pub(crate) x: f32,
    /// How much lighter it is than what stands beside it, in parts of that;
    /// below 0 when it is darker, 0 when there is no line.
    pub(crate) contrast: f32,
    /// Bands that show it is not there, a bit for each from the top.
    pub(crate) lacking: u8,
}

/// The strongest lines of a plane.
pub(crate) fn upright_lines(plane: &[u8]) -> [UprightLine; LINES] {
    let mut bands = [[0.0_f32; PLANE_WIDTH]; BANDS];
    for (rows, band) in plane[BORDER * PLANE_WIDTH..]
        .chunks_exact(ROWS * PLANE_WIDTH)
        .zip(&mut bands)
    {
        let mut sums = [0_u16; PLANE_WIDTH];
        for row in rows.chunks_exact(PLANE_WIDTH) {
            for (sum, &level) in sums.iter_mut().zip(row) {
                *sum = sum.wrapping_add(u16::from(level));
            }
        }
        *band = sums.map(|sum| f32::from(sum) / ROWS as f32);
    }
    let mut responses = [0.0_f32; PLANE_WIDTH];
    let agree = agreeing_bands(&bands);
    for x in SIDE..PLANE_WIDTH - SIDE {
        if 4 * usize::from(agree[x]) >= 3 * LEAST_BANDS {
            responses[x] = response(&bands, x);
        }
    }
    let mut lines = strongest(&responses);
    for line in &mut lines {
        line.lacking = lacking(&bands, line);
    }
    lines
}

/// Bands in which a column differs one and the same way from both sides: the
/// more of the two ways. Where these are few there is no line.
fn agreeing_bands(bands: &[[f32; PLANE_WIDTH]; BANDS]) -> [u8; PLANE_WIDTH] {
    let (mut lighter, mut darker) = ([0_u8; PLANE_WIDTH], [0_u8; PLANE_WIDTH]);
    for band in bands {
        let beside = band.iter().zip(&band[2 * BESIDE..]);
        let here = &band[BESIDE..PLANE_WIDTH - BESIDE];
        let counts = lighter[BESIDE..].iter_mut().zip(&mut darker[BESIDE..]);
        for (((lighter, darker), here), (left, right)) in counts.zip(here).zip(beside) {
            *lighter += u8::from((here > left) & (here > right));
            *darker += u8::from((here < left) & (here < right));
        }
    }
    std::array::from_fn(|x| lighter[x].max(darker[x]))
}

/// The middle one of what the bands say of column `x`.
///
/// Both sides are asked: an edge differs from one side only.
fn response(bands: &[[f32; PLANE_WIDTH]; BANDS], x: usize) -> f32 {
    let mut said = [0.0_f32; BANDS];
    let mut number = 0;
    for band in bands {
        let (left, right) = (band[x - BESIDE], band[x + BESIDE]);
        let ground = left.min(right);
        if ground < DARKEST {
            continue;
        }
        let (from_left, from_right) = (band[x] - left, band[x] - right);
        said[number] = of_both(from_left, from_right) / (0.5 * (left + right));
        number += 1;
    }
    if number < LEAST_BANDS {
        return 0.0;
    }
    let said = &mut said[..number];
    said.sort_by(f32::total_cmp);
    let middle = 0.5 * (said[(number - 1) / 2] + said[number / 2]);
    // A line runs through the whole height; what things of the picture have in
    // common ends somewhere.
    let through = said
        .iter()
        .filter(|band| **band * middle.signum() > THROUGH * middle.abs());
    if 4 * through.count() >= 3 * number {
        middle
    } else {
        0.0
    }
}

/// Bands that show a line's ground plainly, without the line: light enough, and
/// both sides nearer to each other than the line would be to them.
fn lacking(bands: &[[f32; PLANE_WIDTH]; BANDS], line: &UprightLine) -> u8 {
    let x = (line.x as usize).clamp(SIDE, PLANE_WIDTH - SIDE - 1);
    let shows = |band: &[f32; PLANE_WIDTH], x: usize| {
        let (left, right) = (band[x - BESIDE], band[x + BESIDE]);
        let ground = 0.5 * (left + right);
        let contrast = (band[x] - ground) / ground;
        let plain = (left - right).abs() < line.contrast.abs() * ground;
        (left.min(right) >= DARKEST && plain).then_some(contrast * line.contrast.signum())
    };
    let mut lacking = 0;
    for (place, band) in bands.iter().enumerate() {
        let said = [x - 1, x, x + 1].map(|x| shows(band, x));
        let most = said.iter().flatten().copied().fold(f32::NAN, f32::max);
        if said[1].is_some() && most < LACKING * line.contrast.abs() {
            lacking |= 1 << place;
        }
    }
    lacking
}

/// What stands out from both sides: the mean when the sides nearly agree, the
/// lesser when one of them is an edge, nothing when they differ in sign.
fn of_both(left: f32, right: f32) -> f32 {
    const AGREE: f32 = 3.0;
    if left * right <= 0.0 {
        return 0.0;
    }
    let (less, more) = (left.abs().min(right.abs()), left.abs().max(right.abs()));
    let size = if more < AGREE * less {
        0.5 * (less + more)
    } else {
        less
    };
    size.copysign(left)
}

fn strongest(responses: &[f32; PLANE_WIDTH]) -> [UprightLine; LINES] {
    let mut lines = [UprightLine::default(); LINES];
    for x in SIDE..PLANE_WIDTH - SIDE {
        let here = responses[x];
        let side = |other: f32| if other * here > 0.0 { other.abs() } else { 0.0 };
        let (left, right) = (side(responses[x - 1]), side(responses[x + 1]));
        let strength = here.abs();
        if strength < FAINTEST || left >= strength || right > strength {
            continue;
        }
        // A line between two columns shows in both.
        let line = UprightLine {
            x: x as f32 + 0.5 + (right - left) / (strength + left + right),
            contrast: here.signum() * (strength + left.max(right)),
            lacking: 0,
        };
        let weakest = lines
            .iter_mut()
            .min_by(|a, b| a.contrast.abs().total_cmp(&b.contrast.abs()));
        if let Some(weakest) = weakest.filter(|kept| kept.contrast.abs() < strength) {
            *weakest = line;
        }
    }
    lines
}
