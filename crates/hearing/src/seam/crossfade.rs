//! The seam carried out: one end of a loop passes into the other.

use super::Seam;
use crate::Heard;

/// How far the beginning may be slid so that waves meet waves. Unit: seconds.
const SLIDE: f64 = 0.02;

/// The beginning slid to where the two ends are most alike, and how alike.
pub(super) fn slid(heard: Heard<'_>, from: usize, to: usize, fade: usize) -> (usize, f64) {
    let most = (SLIDE * heard.rate()) as usize;
    let samples = heard.samples();
    let least = from.saturating_sub(most).max(fade);
    let coarse = (least..from + most).step_by(4);
    let best = |places: &mut dyn Iterator<Item = usize>, stride: usize| {
        places
            .map(|from| (alike(samples, from, to, fade, stride), from))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map_or(from, |best| best.1)
    };
    let near = best(&mut coarse.into_iter(), 4);
    let fine = best(&mut (near.saturating_sub(4).max(fade)..near + 5), 1);
    (fine, alike(samples, fine, to, fade, 1))
}

/// How alike the two pieces are that pass into each other, −1 to 1.
fn alike(samples: &[f32], from: usize, to: usize, fade: usize, stride: usize) -> f64 {
    let piece = |end: usize| {
        let start = end.saturating_sub(fade);
        samples.get(start..end).unwrap_or_default()
    };
    let (a, b) = (piece(from), piece(to));
    let (mut both, mut of_a, mut of_b) = (0.0_f64, 0.0_f64, 0.0_f64);
    for (x, y) in a.iter().zip(b).step_by(stride) {
        both += f64::from(x * y);
        of_a += f64::from(x * x);
        of_b += f64::from(y * y);
    }
    both / (of_a * of_b).sqrt().max(1e-12)
}

/// The loop of a seam.
pub(super) fn carry_out(seam: &Seam, samples: &[f32]) -> Vec<f32> {
    let sample = |at: Option<usize>| at.and_then(|at| samples.get(at)).copied().unwrap_or(0.0);
    let length = seam.to.saturating_sub(seam.from);
    let fade = seam.fade.min(length);
    let mut made: Vec<f32> = (seam.from..seam.to).map(|at| sample(Some(at))).collect();
    for (at, value) in made[length - fade..].iter_mut().enumerate() {
        let coming = sample((seam.from + at).checked_sub(fade));
        let (out, into) = gains((at as f64 + 0.5) / fade as f64, seam.alike);
        *value = (f64::from(*value) * out + f64::from(coming) * into) as f32;
    }
    made
}

/// What goes and what comes at a part of the fade, so that the power of both
/// together stays the same: two noises add by their squares, two like waves by
/// themselves.
fn gains(part: f64, alike: f64) -> (f64, f64) {
    let angle = part * std::f64::consts::FRAC_PI_2;
    let (into, out) = angle.sin_cos();
    let together = (1.0 + 2.0 * alike.max(0.0) * into * out).sqrt();
    (out / together, into / together)
}
