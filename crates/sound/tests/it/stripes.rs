//! What the carrier takes away.

use onestrand_film::{Gauge, SoundTrack};
use onestrand_sound::{
    Carrier, Stripe, StripeMachine, band_of, gap_loss_db, spacing_loss_db, splice_dropout_s,
    wavelength_um,
};

fn near(found: f64, told: f64, within: f64, what: &str) {
    assert!(
        (found - told).abs() <= within,
        "{what}: {found}, told {told}"
    );
}

/// S060: wavelengths, and the losses of a gap of 2.5 µm and a distance of 1 µm at 8 kHz.
#[test]
fn the_table_of_waves_and_losses() {
    let film = |gauge, speed| Carrier::Film { gauge, speed };
    let tape = |speed_cm_s| Carrier::Tape { speed_cm_s };
    for (carrier, waves, gap, spacing) in [
        (
            film(Gauge::Super8, 18.0),
            [76.20, 15.24, 9.53, 7.62],
            -1.008,
            5.73,
        ),
        (
            film(Gauge::Super8, 24.0),
            [101.60, 20.32, 12.70, 10.16],
            -0.561,
            4.30,
        ),
        (
            film(Gauge::Regular8, 16.0),
            [60.96, 12.19, 7.62, 6.10],
            -1.596,
            7.16,
        ),
        (
            film(Gauge::Regular8, 18.0),
            [68.58, 13.72, 8.57, 6.86],
            -1.251,
            6.37,
        ),
        (
            film(Gauge::Regular8, 24.0),
            [91.44, 18.29, 11.43, 9.14],
            -0.695,
            4.77,
        ),
        (
            film(Gauge::Sixteen, 24.0),
            [182.88, 36.58, 22.86, 18.29],
            -0.172,
            2.39,
        ),
        (tape(4.7625), [47.62, 9.53, 5.95, 4.76], -2.685, 9.17),
        (tape(9.525), [95.25, 19.05, 11.91, 9.53], -0.639, 4.58),
        (tape(19.05), [190.50, 38.10, 23.81, 19.05], -0.158, 2.29),
    ] {
        for (hz, told) in [1000.0, 5000.0, 8000.0, 10_000.0].into_iter().zip(waves) {
            // The table takes 76.2 mm for 18 frames, the gauge 4.234 mm a frame.
            near(
                wavelength_um(carrier, hz),
                told,
                told * 2e-4 + 0.005,
                "S060 wave",
            );
        }
        let wave = wavelength_um(carrier, 8000.0);
        near(gap_loss_db(2.5, wave), gap, 0.001, "S060 gap");
        near(spacing_loss_db(1.0, wave), spacing, 0.01, "S060 spacing");
    }
}

#[test]
fn a_cement_join_takes_the_stripe_away() {
    near(
        splice_dropout_s(1.40, 4.234, 18.0) * 1000.0,
        18.4,
        0.05,
        "S017",
    );
    near(
        splice_dropout_s(1.40, 4.234, 24.0) * 1000.0,
        13.8,
        0.05,
        "S017",
    );
}

fn machine() -> StripeMachine {
    StripeMachine {
        low_hz: 75.0,
        high_hz: 7000.0,
        noise_db: -120.0,
        flutter_percent: 0.0,
        lost: Vec::new(),
        one_track: false,
    }
}

fn heard(machine: StripeMachine, hz: f64) -> Vec<f32> {
    let mut stripe = Stripe::new(machine, 1);
    let mut out = vec![0.0; 96_000];
    let mut mix = |first: u64, into: &mut [f32]| {
        for (nth, sample) in into.iter_mut().enumerate() {
            let n = first as f64 + nth as f64;
            *sample = (0.5 * (2.0 * std::f64::consts::PI * hz * n / 48_000.0).sin()) as f32;
        }
        Ok(())
    };
    for (nth, piece) in out.chunks_mut(4801).enumerate() {
        stripe
            .hear(nth as u64 * 4801, piece, &mut mix)
            .expect("heard");
    }
    out
}

fn level(samples: &[f32]) -> f64 {
    let squares: f64 = samples.iter().map(|s| f64::from(*s).powi(2)).sum();
    10.0 * (squares / samples.len() as f64 / 0.125).log10()
}

#[test]
fn the_band_lets_the_middle_through() {
    let band = band_of(Gauge::Super8, SoundTrack::Magnetic, 18.37).expect("known");
    near(band.high_hz, 7000.0, 0.0, "S045");
    assert!(
        band_of(Gauge::Super8, SoundTrack::Optical, 18.0).is_none(),
        "nothing is known"
    );
    near(
        level(&heard(machine(), 1000.0)[48_000..]),
        0.0,
        0.1,
        "1 kHz",
    );
    near(
        level(&heard(machine(), 7000.0)[48_000..]),
        -6.0,
        0.2,
        "the edge, two filters",
    );
    assert!(level(&heard(machine(), 14_000.0)[48_000..]) < -20.0);
    assert!(level(&heard(machine(), 20.0)[48_000..]) < -20.0);
}

#[test]
fn noise_flutter_and_a_join() {
    let noisy = StripeMachine {
        noise_db: -46.0,
        ..machine()
    };
    let silent = StripeMachine {
        high_hz: 1000.0,
        ..noisy
    };
    // What is heard of a tone the band does not let through is the noise.
    let out = heard(silent, 20_000.0);
    near(
        level(&out[48_000..]),
        -46.0 - 10.0 * 0.125_f64.log10(),
        0.2,
        "noise",
    );
    let fluttering = StripeMachine {
        flutter_percent: 0.35,
        ..machine()
    };
    // Zero crossings come early and late, and on the mean where they were.
    let out = heard(fluttering, 3000.0);
    let crossings: Vec<usize> = (1..out.len())
        .filter(|n| out[n - 1] < 0.0 && out[*n] >= 0.0)
        .collect();
    near(crossings.len() as f64, 6000.0, 4.0, "waves in two seconds");
    let lost = StripeMachine {
        lost: vec![(60_000, 882)],
        ..machine()
    };
    let out = heard(lost, 1000.0);
    assert!(
        level(&out[60_400..60_480]) < -30.0,
        "{}",
        level(&out[60_400..60_480])
    );
    near(
        level(&out[61_500..90_000]),
        0.0,
        0.1,
        "behind it all is as before",
    );
}
