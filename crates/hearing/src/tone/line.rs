//! One line of a spectrum, followed through a recording.

use realfft::num_complex::Complex;

use crate::{Heard, middle};

/// A line and how well it is known. Unit: hertz.
pub(super) struct Line {
    pub(super) hertz: f64,
    /// Standard error.
    pub(super) error: f64,
    /// Root mean square from second to second.
    pub(super) wander: f64,
}

/// What a second says of the line.
struct Reading {
    /// Unit: hertz from the pitch that is followed.
    off: f64,
    weight: f64,
    loudness: f64,
}

/// Samples a second of what is followed, once the pitch has been brought to
/// nought: all that lies 50 Hz away is gone then, other harmonics of hum too.
const SLOW: f64 = 100.0;

/// How far a line must stand above what lies 5 to 20 Hz beside it in a second,
/// to be read: 13 dB.
const READ: f64 = 20.0;

/// Follows the line that lies within two bins or 0.4 % of `near`.
///
/// Each second gives a reading where the windowed transform is highest, the
/// likeliest pitch of a steady tone in noise. Then the whole recording is asked
/// at once: a tone that kept its pitch is known far better that way. Where it
/// did not, the mean of the readings stands.
pub(super) fn follow(heard: Heard<'_>, near: f64, bin: f64) -> Line {
    let reach = (2.0 * bin).max(0.004 * near);
    let slow = brought_to_nought(heard, near);
    let block = (SLOW as usize).min(slow.len());
    let starts = (0..=slow.len() - block).step_by((block / 2).max(1));
    let readings: Vec<Reading> = starts
        .filter_map(|start| read(slow.get(start..start + block)?, reach))
        .collect();
    let total: f64 = readings.iter().map(|reading| reading.weight).sum();
    let weighted = |of: &dyn Fn(&Reading) -> f64| -> f64 {
        let sum: f64 = readings.iter().map(|one| one.weight * of(one)).sum();
        sum / total.max(1e-300)
    };
    let mean = weighted(&|one| one.off);
    let wander = weighted(&|one| (one.off - mean).powi(2)).sqrt();
    // Blocks overlap by half: two of them count as one.
    let error = wander / (readings.len() as f64 / 2.0).max(1.0).sqrt();
    let reach = if readings.is_empty() {
        reach
    } else {
        8.0 / heard.seconds()
    };
    let steady = highest(&slow, mean, reach, 0.5 / heard.seconds());
    // A tone that wanders, or pauses, cancels itself over the whole.
    let parts: Vec<f64> = readings.iter().map(|reading| reading.loudness).collect();
    let kept_its_pitch = loudness(&slow, steady) > 0.6 * middle::mean(&parts);
    if kept_its_pitch {
        return Line {
            hertz: near + steady,
            error: error.clamp(1e-3 / heard.seconds(), 0.2 / heard.seconds()),
            wander,
        };
    }
    Line {
        hertz: near + mean,
        error,
        wander,
    }
}

/// The sound turned back by a pitch, so that this stands still, and thinned out.
fn brought_to_nought(heard: Heard<'_>, pitch: f64) -> Vec<Complex<f64>> {
    let step = heard.rate() / SLOW;
    let turn = -std::f64::consts::TAU * pitch / heard.rate();
    let turned: Vec<Complex<f32>> = heard
        .samples()
        .iter()
        .enumerate()
        .map(|(at, &sample)| {
            let angle = (turn * at as f64) % std::f64::consts::TAU;
            let (sin, cos) = (angle as f32).sin_cos();
            Complex::new(sample * cos, sample * sin)
        })
        .collect();
    // A raised cosine over four steps lets nothing through from 50 Hz on.
    let window = crate::spectra::hann((4.0 * step) as usize);
    let count = (turned.len() as f64 / step) as usize;
    (0..count.max(1))
        .map(|at| {
            let start = ((at as f64 - 1.5) * step).round() as isize;
            let sum: Complex<f32> = window
                .iter()
                .enumerate()
                .filter_map(|(place, weight)| {
                    let from = usize::try_from(start + place as isize).ok()?;
                    Some(turned.get(from)? * weight)
                })
                .sum();
            Complex::new(f64::from(sum.re), f64::from(sum.im))
        })
        .collect()
}

/// The highest place of a second; none where there is no line.
fn read(piece: &[Complex<f64>], reach: f64) -> Option<Reading> {
    let off = highest(piece, 0.0, reach, 0.5 * SLOW / piece.len() as f64);
    let beside: Vec<f64> = (5..20)
        .flat_map(|hertz| [f64::from(hertz), -f64::from(hertz)])
        .map(|away| power(piece, off + away))
        .collect();
    let stands_out = power(piece, off) / middle::median(&beside).max(1e-300);
    (stands_out > READ).then(|| Reading {
        off,
        weight: stands_out.min(1000.0),
        loudness: loudness(piece, off),
    })
}

/// The highest place within `reach` of `near`, sought in steps and then climbed
/// to by parabolas through three places, each narrower.
fn highest(piece: &[Complex<f64>], near: f64, reach: f64, step: f64) -> f64 {
    let steps = (reach / step).ceil() as i32;
    let mut top = (-steps..=steps)
        .map(|at| near + f64::from(at) * step)
        .map(|hertz| (power(piece, hertz), hertz))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(near, |best| best.1);
    let mut step = step;
    for _ in 0..4 {
        let [below, here, above] =
            [-step, 0.0, step].map(|off| power(piece, top + off).max(1e-300).ln());
        let bend = below - 2.0 * here + above;
        if bend < 0.0 {
            top += (0.5 * (below - above) / bend).clamp(-1.0, 1.0) * step;
        }
        step *= 0.4;
    }
    top
}

/// The power of a piece at one pitch, whatever its length.
fn loudness(piece: &[Complex<f64>], hertz: f64) -> f64 {
    power(piece, hertz) / (piece.len() as f64).powi(2)
}

/// The power of a piece at one pitch, under a raised cosine.
fn power(piece: &[Complex<f64>], hertz: f64) -> f64 {
    let turn = Complex::from_polar(1.0, -std::f64::consts::TAU * hertz / SLOW);
    let swing = Complex::from_polar(1.0, std::f64::consts::TAU / piece.len().max(1) as f64);
    let mut sum = Complex::new(0.0, 0.0);
    let (mut tone, mut window) = (Complex::new(1.0, 0.0), swing.sqrt());
    for value in piece {
        sum += value * tone * (0.5 - 0.5 * window.re);
        tone *= turn;
        window *= swing;
    }
    sum.norm_sqr()
}
