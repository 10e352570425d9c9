//! Small bright places with darkness all round: what may be perforations.

use super::light::BoxLight;
use crate::grey::GreyPicture;

/// A bright place. Unit: pixels.
#[derive(Debug, Clone, Copy)]
pub(super) struct Blob {
    pub(super) x: f32,
    pub(super) y: f32,
    pub(super) area: f32,
}

/// So much longer than wide a hole may seem, however square it is.
const LONGEST: f32 = 2.6;
/// The fewest pixels of a hole: three by three are one no longer.
const SMALLEST: usize = 10;
/// More than this many are no holes of one strip, but something else.
const MOST: usize = 4_000;

/// Bright places that are about as full as a rectangle is: from a share of the light box
/// on, of holes so much longer than short.
pub(super) fn blobs(
    photo: GreyPicture<'_>,
    light: &BoxLight,
    (share, aspect): (f32, f32),
) -> Vec<Blob> {
    let (width, height) = (photo.width(), photo.height());
    let largest = (width.max(height) / 12).pow(2);
    let mut open = vec![false; width * height];
    for y in 0..height {
        for x in 0..width {
            let at = y * width + x;
            let level = f32::from(photo.levels()[at]);
            open[at] = level >= share * light.at(x as f32, y as f32);
        }
    }
    let mut blobs = Vec::new();
    let mut stack = Vec::new();
    for at in 0..open.len() {
        if !open[at] {
            continue;
        }
        let blob = flood(&mut open, (width, height), at, &mut stack);
        if let Some(blob) = blob.shaped(largest, aspect) {
            blobs.push(blob);
        }
        if blobs.len() > MOST {
            break;
        }
    }
    blobs
}

#[derive(Debug, Default)]
struct Moments {
    count: usize,
    edge: bool,
    sums: [f64; 5],
}

fn flood(
    open: &mut [bool],
    (width, height): (usize, usize),
    from: usize,
    stack: &mut Vec<usize>,
) -> Moments {
    let mut of = Moments::default();
    stack.clear();
    stack.push(from);
    open[from] = false;
    while let Some(at) = stack.pop() {
        let (x, y) = (at % width, at / width);
        let (fx, fy) = (x as f64, y as f64);
        of.count += 1;
        of.edge |= x == 0 || y == 0 || x + 1 == width || y + 1 == height;
        for (sum, add) in of.sums.iter_mut().zip([fx, fy, fx * fx, fy * fy, fx * fy]) {
            *sum += add;
        }
        let mut reach = |to: usize| {
            if open[to] {
                open[to] = false;
                stack.push(to);
            }
        };
        if x > 0 {
            reach(at - 1);
        }
        if x + 1 < width {
            reach(at + 1);
        }
        if y > 0 {
            reach(at - width);
        }
        if y + 1 < height {
            reach(at + width);
        }
    }
    of
}

impl Moments {
    fn shaped(&self, largest: usize, aspect: f32) -> Option<Blob> {
        if self.edge || self.count < SMALLEST || self.count > largest {
            return None;
        }
        let n = self.count as f64;
        let [x, y, xx, yy, xy] = self.sums.map(|sum| sum / n);
        // A pixel is no point: a twelfth is its own spread.
        let (a, b, c) = (xx - x * x + 1.0 / 12.0, yy - y * y + 1.0 / 12.0, xy - x * y);
        let (half, root) = (
            f64::midpoint(a, b),
            (((a - b) / 2.0).powi(2) + c * c).sqrt(),
        );
        let (long, short) = (
            (12.0 * (half + root)).sqrt(),
            (12.0 * (half - root).max(0.01)).sqrt(),
        );
        let fullness = n / (long * short);
        let is_like =
            (0.75..1.3).contains(&fullness) && long / short < f64::from(LONGEST.max(1.6 * aspect));
        is_like.then_some(Blob {
            x: x as f32,
            y: y as f32,
            area: n as f32,
        })
    }
}
