//! How far the whole picture has moved from one frame to the next.

use crate::blocks::Step;
use crate::small::{SMALL_HEIGHT, SMALL_WIDTH, Small};

const WIDTH: usize = SMALL_WIDTH / 2;
const HEIGHT: usize = SMALL_HEIGHT / 2;
/// Farthest movement sought, in pixels of the quarter plane: an eighth of the
/// width a frame, the fastest pan in which anything can still be seen.
const REACH: i32 = 6;

/// A plane quartered each way, for seeking the movement of the whole picture.
#[derive(Debug)]
pub(crate) struct Coarse(Box<[u8; WIDTH * HEIGHT]>);

impl Coarse {
    pub(crate) fn of(small: &Small) -> Self {
        let mut pixels = Box::new([0; WIDTH * HEIGHT]);
        let pairs = small.pixels.chunks_exact(2 * SMALL_WIDTH);
        for (rows, out) in pairs.zip(pixels.chunks_exact_mut(WIDTH)) {
            let (upper, lower) = rows.split_at(SMALL_WIDTH);
            for (x, pixel) in out.iter_mut().enumerate() {
                let sum: u16 = [
                    upper[2 * x],
                    upper[2 * x + 1],
                    lower[2 * x],
                    lower[2 * x + 1],
                ]
                .iter()
                .map(|&level| u16::from(level))
                .sum();
                *pixel = ((sum + 2) / 4) as u8;
            }
        }
        Self(pixels)
    }
}

impl Coarse {
    /// Halved once more, as numbers to reckon with.
    pub(crate) fn halved(&self) -> [f32; WIDTH * HEIGHT / 4] {
        std::array::from_fn(|place| {
            let (x, y) = (place % (WIDTH / 2) * 2, place / (WIDTH / 2) * 2);
            let level = |x: usize, y: usize| f32::from(self.0[y * WIDTH + x]);
            (level(x, y) + level(x + 1, y) + level(x, y + 1) + level(x + 1, y + 1)) / 4.0
        })
    }

    /// The level that a hundredth of the pixels exceed, inside a border (the frame
    /// line may carry printed marks): more than dust does.
    pub(crate) fn lightest(&self) -> f32 {
        const BORDER: usize = 4;
        let mut counts = [0_u16; 256];
        for row in self
            .0
            .chunks_exact(WIDTH)
            .skip(BORDER)
            .take(HEIGHT - 2 * BORDER)
        {
            for &level in &row[BORDER..WIDTH - BORDER] {
                counts[usize::from(level)] += 1;
            }
        }
        let wanted = ((WIDTH - 2 * BORDER) * (HEIGHT - 2 * BORDER) / 100) as u16;
        let mut above = 0;
        let found = (0..256).rev().find(|&level| {
            above += counts[level];
            above > wanted
        });
        found.unwrap_or(0) as f32
    }

    /// Mean absolute Laplacian inside a border (the frame line may carry
    /// printed marks). Unit: levels.
    pub(crate) fn bends(&self) -> f32 {
        const BORDER: usize = 4;
        let level = |x: usize, y: usize| i32::from(self.0[y * WIDTH + x]);
        let mut sum = 0;
        for y in BORDER..HEIGHT - BORDER {
            for x in BORDER..WIDTH - BORDER {
                let around = level(x - 1, y) + level(x + 1, y) + level(x, y - 1) + level(x, y + 1);
                sum += (around - 4 * level(x, y)).unsigned_abs();
            }
        }
        sum as f32 / ((WIDTH - 2 * BORDER) * (HEIGHT - 2 * BORDER)) as f32
    }
}

/// A step must make the frames this much more alike to be believed.
const CONVINCING: f32 = 0.75;

/// The movement under which `from` is most like `to`, in pixels of the halved
/// plane, whole and even; the means of the two are made equal first.
///
/// Where nothing fits (a blank frame, another picture) the movement is taken
/// to go on as `before`.
pub(crate) fn whole_picture_step(
    from: (&Coarse, &Small),
    to: (&Coarse, &Small),
    before: Step,
) -> Step {
    let (step, by) = best_step(from, to);
    let believed = step == Step::default() || by < CONVINCING;
    if believed { step } else { before }
}

/// The movement under which `from` is most like `to`, convincing or not, and
/// what then is left of the difference of the two standing.
pub(crate) fn best_step(from: (&Coarse, &Small), to: (&Coarse, &Small)) -> (Step, f32) {
    let light = (to.1.mean - from.1.mean).round() as i16;
    let to = to.0;
    let mut lit = *from.0.0;
    for level in &mut lit {
        *level = (i16::from(*level) + light).clamp(0, 255) as u8;
    }
    let mut best = Fit {
        difference: mean_difference(&lit, &to.0[..], 0, 0),
        right: 0,
        down: 0,
    };
    let standing = best.difference;
    // Every other pixel first, from the middle outwards, so that a still
    // picture wins every tie; then the pixels about the best.
    for reach in (2..=REACH).step_by(2) {
        for (right, down) in ring(reach) {
            best.keep_better(&lit, &to.0[..], right, down);
        }
    }
    let (right, down) = (best.right, best.down);
    for (by_x, by_y) in ring(1) {
        best.keep_better(&lit, &to.0[..], right + by_x, down + by_y);
    }
    let step = Step {
        right: 2 * best.right,
        down: 2 * best.down,
    };
    (step, best.difference / standing.max(f32::MIN_POSITIVE))
}

/// The best movement found so far, in pixels of the quarter plane.
struct Fit {
    difference: f32,
    right: i32,
    down: i32,
}

impl Fit {
    fn keep_better(&mut self, from: &[u8], to: &[u8], right: i32, down: i32) {
        let difference = mean_difference(from, to, right, down);
        if difference < self.difference {
            *self = Self {
                difference,
                right,
                down,
            };
        }
    }
}

/// Movements that go `reach` far one way or both, in steps as long as one or
/// two pixels.
fn ring(reach: i32) -> impl Iterator<Item = (i32, i32)> {
    let steps = move || (-reach..=reach).step_by(if reach == 1 { 1 } else { 2 });
    steps()
        .flat_map(move |down| steps().map(move |right| (right, down)))
        .filter(move |(right, down)| right.abs().max(down.abs()) == reach)
}

fn mean_difference(from: &[u8], to: &[u8], right: i32, down: i32) -> f32 {
    let span = |length: usize, by: i32| {
        let skip = by.unsigned_abs() as usize;
        let (a, b) = if by < 0 { (skip, 0) } else { (0, skip) };
        (a, b, length - skip)
    };
    let (ax, bx, wide) = span(WIDTH, right);
    let (ay, by, high) = span(HEIGHT, down);
    let mut sum = 0_u32;
    for row in 0..high {
        let a = &from[(ay + row) * WIDTH + ax..][..wide];
        let b = &to[(by + row) * WIDTH + bx..][..wide];
        // Unchecked additions, so that many pixels are taken at once: a row
        // of 48 cannot overflow.
        let row = a.iter().zip(b).map(|(&l, &r)| u16::from(l.abs_diff(r)));
        sum += u32::from(row.fold(0, u16::wrapping_add));
    }
    sum as f32 / (wide * high) as f32
}
