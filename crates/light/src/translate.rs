//! A picture moved by parts of a pixel.

use crate::LightError;
use crate::light_tables::plane_bytes;

/// Points on each side that a value is made of: Lanczos' window of three.
const REACH: usize = 3;
const TAPS: usize = 2 * REACH;

/// Moves a picture of three planes of 16 bits, low byte first, right and down; what comes
/// in at an edge repeats it. A move of nothing changes no bit.
///
/// Each value is made of six by six neighbours (a sinc in Lanczos' window, C. Duchon,
/// 1979, weights summing to one).
///
/// Unit of `moved`: pixels, right and down. Range: a hundred thousand either way.
///
/// # Errors
/// [`LightError::PictureSize`]; then nothing is changed.
pub fn translate(
    planes: &mut [u8],
    width: u32,
    height: u32,
    moved: [f64; 2],
) -> Result<(), LightError> {
    let plane = plane_bytes(planes, width, height)?;
    if !moved.iter().all(|m| m.abs() < 1e5) {
        return Err(LightError::OutOfRange {
            what: "a move in pixels",
            given: if moved[0].abs() < 1e5 {
                moved[1]
            } else {
                moved[0]
            },
            least: -1e5,
            most: 1e5,
        });
    }
    // Below a thousandth of a pixel nothing can be seen, and no bit need change.
    if moved.iter().all(|m| m.abs() < 1e-3) {
        return Ok(());
    }
    let size = (width as usize, height as usize);
    let (across, down) = (Kernel::of(moved[0]), Kernel::of(moved[1]));
    // The planes know nothing of each other.
    std::thread::scope(|scope| {
        for bytes in planes.chunks_exact_mut(plane) {
            scope.spawn(|| translate_plane(bytes, size, &across, &down));
        }
    });
    Ok(())
}

fn translate_plane(bytes: &mut [u8], size: (usize, usize), across: &Kernel, down: &Kernel) {
    let mut numbers: Vec<f32> = bytes
        .chunks_exact(2)
        .map(|pair| f32::from(u16::from_le_bytes([pair[0], pair[1]])))
        .collect();
    let mut turned = vec![0.0; numbers.len()];
    for (line, out) in numbers
        .chunks_exact(size.0)
        .zip(turned.chunks_exact_mut(size.0))
    {
        across.along(line, out);
    }
    down.over(&turned, size, &mut numbers);
    for (number, pair) in numbers.iter().zip(bytes.chunks_exact_mut(2)) {
        let whole = (number + 0.5).clamp(0.0, 65_535.0) as u16;
        pair.copy_from_slice(&whole.to_le_bytes());
    }
}

/// Weights for a move, and the whole pixels of it.
struct Kernel {
    /// The value at n is made of those from n + first on.
    first: isize,
    weights: [f32; TAPS],
}

impl Kernel {
    fn of(moved: f64) -> Self {
        // What comes to n lay at n − moved.
        let from = -moved;
        let whole = from.floor();
        let part = from - whole;
        let mut weights = [0.0; TAPS];
        for (tap, weight) in weights.iter_mut().enumerate() {
            *weight = lanczos(tap as f64 - (REACH - 1) as f64 - part);
        }
        let sum: f64 = weights.iter().sum();
        Self {
            first: whole as isize - (REACH as isize - 1),
            weights: weights.map(|w| (w / sum) as f32),
        }
    }

    fn along(&self, line: &[f32], out: &mut [f32]) {
        let last = line.len() as isize - 1;
        let begin = self.first.min(0).unsigned_abs().min(line.len());
        let furthest = (self.first + TAPS as isize - 1).max(0).unsigned_abs();
        let end = line.len().saturating_sub(furthest).max(begin);
        let at_edge = |n: usize| {
            let mut sum = 0.0;
            for (tap, weight) in self.weights.iter().enumerate() {
                let at = (n as isize + self.first + tap as isize).clamp(0, last);
                sum += weight * line[at.unsigned_abs()];
            }
            sum
        };
        for n in (0..begin).chain(end..line.len()) {
            out[n] = at_edge(n);
        }
        if begin < end {
            let start = (begin as isize + self.first).unsigned_abs();
            // Weight by weight over the whole line, which a processor does many at a time.
            let middle = &mut out[begin..end];
            middle.fill(0.0);
            for (tap, weight) in self.weights.iter().enumerate() {
                for (value, near) in middle.iter_mut().zip(&line[start + tap..]) {
                    *value += weight * near;
                }
            }
        }
    }

    fn over(&self, from: &[f32], (width, height): (usize, usize), out: &mut [f32]) {
        let last = height as isize - 1;
        for (y, line) in out.chunks_exact_mut(width).enumerate() {
            line.fill(0.0);
            for (tap, weight) in self.weights.iter().enumerate() {
                let at = (y as isize + self.first + tap as isize)
                    .clamp(0, last)
                    .unsigned_abs();
                let near = &from[at * width..(at + 1) * width];
                for (value, near) in line.iter_mut().zip(near) {
                    *value += weight * near;
                }
            }
        }
    }
}

fn lanczos(x: f64) -> f64 {
    let reach = REACH as f64;
    if x.abs() >= reach {
        return 0.0;
    }
    sinc(x) * sinc(x / reach)
}

fn sinc(x: f64) -> f64 {
    let turn = std::f64::consts::PI * x;
    if turn.abs() < 1e-9 {
        1.0
    } else {
        turn.sin() / turn
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WIDTH: usize = 96;
    const HEIGHT: usize = 64;

    /// A picture of slow waves whose value is known between the pixels too.
    fn at(x: f64, y: f64) -> f64 {
        32_000.0 + 9_000.0 * (x * 0.31).sin() + 8_000.0 * (y * 0.23 + x * 0.11).cos()
    }

    fn drawn(moved: [f64; 2]) -> Vec<u8> {
        let mut plane = Vec::new();
        for y in 0..HEIGHT {
            for x in 0..WIDTH {
                let number = at(x as f64 - moved[0], y as f64 - moved[1]).round() as u16;
                plane.extend_from_slice(&number.to_le_bytes());
            }
        }
        plane.repeat(3)
    }

    fn numbers(planes: &[u8]) -> Vec<f64> {
        planes
            .chunks_exact(2)
            .map(|p| f64::from(u16::from_le_bytes([p[0], p[1]])))
            .collect()
    }

    fn move_by(planes: &mut [u8], moved: [f64; 2]) {
        translate(planes, WIDTH as u32, HEIGHT as u32, moved).expect("whole");
    }

    #[test]
    fn a_move_is_what_drawing_there_gives() {
        for moved in [
            [0.37, -0.61],
            [3.25, 2.5],
            [-2.0, 0.0],
            [0.0, 7.75],
            [-0.1, -5.9],
        ] {
            let mut planes = drawn([0.0, 0.0]);
            move_by(&mut planes, moved);
            let (found, wanted) = (numbers(&planes), numbers(&drawn(moved)));
            for y in 12..HEIGHT - 12 {
                for x in 12..WIDTH - 12 {
                    let n = y * WIDTH + x;
                    let off = (found[n] - wanted[n]).abs();
                    assert!(off < 130.0, "{moved:?} at {x}, {y}: {off} of 65535");
                }
            }
        }
    }

    #[test]
    fn whole_pixels_lose_nothing_and_edges_repeat() {
        let mut planes = drawn([0.0, 0.0]);
        let before = numbers(&planes);
        move_by(&mut planes, [5.0, -3.0]);
        let after = numbers(&planes);
        for y in 0..HEIGHT {
            for x in 0..WIDTH {
                let from = (y + 3).min(HEIGHT - 1) * WIDTH + x.saturating_sub(5);
                assert!(
                    (after[y * WIDTH + x] - before[from]).abs() < 1.0,
                    "{x}, {y}"
                );
            }
        }
    }

    #[test]
    fn farther_than_the_picture_is_only_edge() {
        let mut planes = drawn([0.0, 0.0]);
        move_by(&mut planes, [500.0, 0.0]);
        let after = numbers(&planes);
        assert!((after[10] - after[90]).abs() < 1.0);
    }

    #[test]
    fn nothing_is_nothing() {
        let mut planes = drawn([0.0, 0.0]);
        let before = planes.clone();
        move_by(&mut planes, [0.0, 0.0]);
        assert_eq!(planes, before);
        assert!(translate(&mut planes, 3, 3, [1.0, 0.0]).is_err());
        assert!(translate(&mut planes, 96, 64, [f64::NAN, 0.0]).is_err());
    }
}
