//! How far one recording of an event lies after another.

use realfft::num_complex::Complex;
use realfft::{RealFftPlanner, RealToComplex};

use crate::{Heard, HearingError, middle};

/// Where one recording lies beside another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Delay {
    /// What happens at a time in the first happens this much later in the
    /// second; below 0 earlier. Unit: seconds.
    pub seconds: f64,
    /// How far the place stands above all others: the height of the best over
    /// that of the next best place more than a fiftieth of a second away. Below
    /// 1.2 it is a guess.
    pub sure: f64,
}

/// Of how much the loudness of each pitch is taken out before comparing: 1 would
/// let hiss count as much as the sound, 0 would let the loudest pitch rule.
/// C. H. Knapp and G. C. Carter, The generalized correlation method for
/// estimation of time delay, 1976, with a softened phase transform.
const WHITEN: f64 = 0.75;

/// Rate to which long sounds are brought down. Unit: samples a second.
const ENOUGH: f64 = 12_000.0;

/// Least height of the best place over the spread of all. Unit: none.
const STANDS_OUT: f64 = 5.0;

/// Finds how much later a second recording hears what a first one hears: the
/// sound of a camera's own microphone and a recorder's, two tapes of one bell.
///
/// Each may begin when it likes, as long as they share a few seconds. To better
/// than 5 ms at 10 dB of signal to noise in both.
///
/// # Errors
/// [`HearingError::TooShort`] below a tenth of a second, [`HearingError::Silent`],
/// [`HearingError::Rate`] when the two have other rates,
/// [`HearingError::NothingInCommon`] when no place stands out.
pub fn delay(first: Heard<'_>, second: Heard<'_>) -> Result<Delay, HearingError> {
    let (first, second) = (first.long_enough(0.1)?, second.long_enough(0.1)?);
    if (first.rate() - second.rate()).abs() > 0.0 {
        return Err(HearingError::Rate {
            rate: second.rate() as u32,
        });
    }
    let times = (first.rate() / ENOUGH).floor().max(1.0) as usize;
    let (a, b) = (thinned(first, times), thinned(second, times));
    let rate = first.rate() / times as f64;
    let places = likeness(&a, &b);
    // Places from −a.len() to b.len(); the rest of the circle is padding.
    let place = |lag: isize| places[lag.rem_euclid(places.len() as isize) as usize];
    let lags = -(a.len() as isize - 1)..b.len() as isize;
    let best = lags.clone().max_by(|x, y| place(*x).total_cmp(&place(*y)));
    let best = best.unwrap_or(0);
    let apart = (rate / 50.0) as isize;
    let next = lags
        .clone()
        .filter(|lag| (lag - best).abs() > apart)
        .map(place)
        .fold(0.0, f64::max);
    let spread = middle::mean(&lags.map(|lag| place(lag).powi(2)).collect::<Vec<_>>()).sqrt();
    // What is thinned away altogether, such as a whistle none hears, tells nothing.
    if place(best) < (STANDS_OUT * spread).max(1e-9) {
        return Err(HearingError::NothingInCommon);
    }
    let [before, here, after] = [best - 1, best, best + 1].map(place);
    let bend = before - 2.0 * here + after;
    let off = if bend < 0.0 {
        (0.5 * (before - after) / bend).clamp(-0.5, 0.5)
    } else {
        0.0
    };
    Ok(Delay {
        seconds: (best as f64 + off) / rate,
        sure: here / next.max(1e-30),
    })
}

/// Every so many samples as their mean; a delay needs no more.
fn thinned(heard: Heard<'_>, times: usize) -> Vec<f32> {
    let pieces = heard.samples().chunks(times);
    pieces
        .map(|piece| piece.iter().sum::<f32>() / piece.len() as f32)
        .collect()
}

/// How alike the two are at each delay, on a circle long enough for all.
fn likeness(a: &[f32], b: &[f32]) -> Vec<f64> {
    let length = (a.len() + b.len()).next_power_of_two();
    let mut planner = RealFftPlanner::<f32>::new();
    let forward = planner.plan_fft_forward(length);
    let of_a = spectrum(forward.as_ref(), a, length);
    let of_b = spectrum(forward.as_ref(), b, length);
    let mut cross: Vec<Complex<f32>> = of_b
        .iter()
        .zip(&of_a)
        .map(|(b, a)| {
            let both = b * a.conj();
            let size = f64::from(both.norm());
            both * (size + 1e-12).powf(-WHITEN) as f32
        })
        .collect();
    // Nothing but rumble lies at nought, and a real sound has no phase there.
    for end in [0, length / 2] {
        cross[end] = Complex::new(0.0, 0.0);
    }
    let backward = planner.plan_fft_inverse(length);
    let mut places = backward.make_output_vec();
    let done = backward.process(&mut cross, &mut places);
    debug_assert!(done.is_ok(), "the buffers are the transform's own");
    places.into_iter().map(f64::from).collect()
}

fn spectrum(forward: &dyn RealToComplex<f32>, sound: &[f32], length: usize) -> Vec<Complex<f32>> {
    let mut padded = vec![0.0; length];
    padded[..sound.len()].copy_from_slice(sound);
    let mut bins = forward.make_output_vec();
    let done = forward.process(&mut padded, &mut bins);
    debug_assert!(done.is_ok(), "the buffers are the transform's own");
    bins
}
