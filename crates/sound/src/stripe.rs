//! How a mix will sound from the film: band, noise, flutter, and a moment lost at each join.
//!
//! Bands and flutter are what machines are known for (check values S040 to S048; each says
//! how sure it is). Gap and spacing loss are formulas (Wallace 1951, from memory; S060).

use std::f64::consts::PI;

use onestrand_film::{Gauge, SoundTrack, Sureness};

use crate::mix::filter::Biquad;
use crate::wave_out::spread;
use crate::{RATE, SoundError};

/// What carries the sound: film of a gauge, or tape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Carrier {
    /// Film at so many frames a second.
    Film {
        /// The gauge.
        gauge: Gauge,
        /// Frames a second.
        speed: f64,
    },
    /// Tape at so many centimetres a second.
    Tape {
        /// Centimetres a second.
        speed_cm_s: f64,
    },
}

/// The length of a wave on the carrier. Unit: µm.
#[must_use]
pub fn wavelength_um(carrier: Carrier, hz: f64) -> f64 {
    let speed_um_s = match carrier {
        Carrier::Tape { speed_cm_s } => speed_cm_s * 10_000.0,
        Carrier::Film { gauge, speed } => f64::from(gauge.spec().pitch_um) * speed,
    };
    speed_um_s / hz
}

/// What the gap of a head loses. Unit: dB, negative.
#[must_use]
pub fn gap_loss_db(gap_um: f64, wavelength_um: f64) -> f64 {
    let x = PI * gap_um / wavelength_um;
    20.0 * (x.sin() / x).abs().log10()
}

/// What a distance between head and coating loses. Unit: dB, positive.
#[must_use]
pub fn spacing_loss_db(distance_um: f64, wavelength_um: f64) -> f64 {
    54.6 * distance_um / wavelength_um
}

/// How long the lap of a cement join takes the stripe away from the head: 1.40 mm on Super 8
/// (S017). Unit: seconds.
#[must_use]
pub fn splice_dropout_s(overlap_mm: f64, pitch_mm: f64, speed: f64) -> f64 {
    overlap_mm / (pitch_mm * speed)
}

/// What a track lets through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// The gauge.
    pub gauge: Gauge,
    /// The track.
    pub track: SoundTrack,
    /// At so many frames a second.
    pub speed: f64,
    /// From. Unit: Hz.
    pub low_hz: f64,
    /// To. Unit: Hz.
    pub high_hz: f64,
    /// Its noise under full scale. Unit: dB; a suggestion for listening, no measure.
    pub noise_db: f64,
    /// Wow and flutter, weighted. Unit: per cent.
    pub flutter_percent: f64,
    /// How sure band and flutter are.
    pub sureness: Sureness,
    /// Where they are from.
    pub source: &'static str,
}

const MAKERS: &str = "makers' figures generally";

/// The bands that are known: S040, S045, S046, S047 and, for flutter, S048.
pub const BANDS: &[Band] = &[
    Band {
        gauge: Gauge::Super8,
        track: SoundTrack::Magnetic,
        speed: 18.0,
        low_hz: 75.0,
        high_hz: 7000.0,
        noise_db: -48.0,
        flutter_percent: 0.35,
        sureness: Sureness::Memory,
        source: MAKERS,
    },
    Band {
        gauge: Gauge::Super8,
        track: SoundTrack::Magnetic,
        speed: 24.0,
        low_hz: 60.0,
        high_hz: 10_000.0,
        noise_db: -50.0,
        flutter_percent: 0.3,
        sureness: Sureness::Memory,
        source: MAKERS,
    },
    Band {
        gauge: Gauge::Regular8,
        track: SoundTrack::Magnetic,
        speed: 16.0,
        low_hz: 100.0,
        high_hz: 5000.0,
        noise_db: -45.0,
        flutter_percent: 0.4,
        sureness: Sureness::Suggestion,
        source: MAKERS,
    },
    Band {
        gauge: Gauge::Regular8,
        track: SoundTrack::Magnetic,
        speed: 24.0,
        low_hz: 100.0,
        high_hz: 7500.0,
        noise_db: -46.0,
        flutter_percent: 0.4,
        sureness: Sureness::Suggestion,
        source: MAKERS,
    },
    Band {
        gauge: Gauge::Sixteen,
        track: SoundTrack::Magnetic,
        speed: 24.0,
        low_hz: 50.0,
        high_hz: 12_000.0,
        noise_db: -54.0,
        flutter_percent: 0.22,
        sureness: Sureness::Memory,
        source: "handbooks",
    },
    Band {
        gauge: Gauge::Sixteen,
        track: SoundTrack::Optical,
        speed: 24.0,
        low_hz: 70.0,
        high_hz: 6500.0,
        noise_db: -42.0,
        flutter_percent: 0.22,
        sureness: Sureness::Found,
        source: "a collector's page; flutter from makers' figures generally",
    },
];

/// The band of a track whose speed is nearest; nothing where none is known.
#[must_use]
pub fn band_of(gauge: Gauge, track: SoundTrack, speed: f64) -> Option<&'static Band> {
    let known = BANDS
        .iter()
        .filter(|band| band.gauge == gauge && band.track == track);
    known.min_by(|a, b| (a.speed - speed).abs().total_cmp(&(b.speed - speed).abs()))
}

/// How the film sounds.
#[derive(Debug, Clone, PartialEq)]
pub struct StripeMachine {
    /// From. Unit: Hz.
    pub low_hz: f64,
    /// To. Unit: Hz.
    pub high_hz: f64,
    /// Its noise under full scale. Unit: dB.
    pub noise_db: f64,
    /// Wow and flutter. Unit: per cent.
    pub flutter_percent: f64,
    /// Where the sound is lost: sample, and how many. In order.
    pub lost: Vec<(u64, u64)>,
    /// Two channels become one track.
    pub one_track: bool,
}

/// How far the flutter reaches at most, and a little. Unit: samples.
const REACH: u64 = 64;

/// Fills a piece of a mix from a sample on.
pub type MixPiece<'a> = dyn FnMut(u64, &mut [f32]) -> Result<(), SoundError> + 'a;

/// A mix heard through the stripe.
#[derive(Debug)]
pub struct Stripe {
    machine: StripeMachine,
    channels: usize,
    bands: Vec<[Biquad; 4]>,
    /// The place of the next sample.
    next: u64,
}

/// Wow and flutter of a machine are not one pitch: capstan, claw and spools each add theirs.
/// Unit: Hz, and the part of the whole.
const WANDERS: [(f64, f64); 3] = [(0.7, 0.5), (3.1, 0.35), (9.0, 0.15)];

impl Stripe {
    /// A stripe for one or two channels.
    #[must_use]
    pub fn new(machine: StripeMachine, channels: usize) -> Self {
        let channels = channels.clamp(1, 2);
        let bands = [
            Biquad::high_pass(machine.low_hz),
            Biquad::high_pass(machine.low_hz),
            Biquad::low_pass(machine.high_hz),
            Biquad::low_pass(machine.high_hz),
        ];
        Self {
            machine,
            channels,
            bands: vec![bands; channels],
            next: 0,
        }
    }

    /// Fills `out` with what is heard from a sample on. `mix` fills a piece of the mix from
    /// a sample on.
    ///
    /// # Errors
    /// Those of `mix`.
    pub fn hear(
        &mut self,
        first: u64,
        out: &mut [f32],
        mix: &mut MixPiece<'_>,
    ) -> Result<(), SoundError> {
        if first != self.next {
            // The filters forget within a fraction of a second.
            *self = Self::new(self.machine.clone(), self.channels);
        }
        let count = (out.len() / self.channels) as u64;
        self.next = first + count;
        let from = first.saturating_sub(REACH);
        let mut there = vec![0.0; (first - from + count + REACH) as usize * self.channels];
        mix(from, &mut there)?;
        let depth = self.depth();
        let channels = self.channels;
        for (nth, frame) in out.chunks_mut(channels).enumerate() {
            let at = first + nth as u64;
            let place = (at - from) as f64 + wandered(at, depth);
            let kept = self.kept_at(at);
            for (side, sample) in frame.iter_mut().enumerate() {
                let x = between(&there, channels, side, place);
                let heard = self.bands[side].iter_mut().fold(x, |x, band| band.pass(x));
                *sample = (heard * kept + self.noise(at, side)) as f32;
            }
            if self.machine.one_track
                && let [left, right] = frame
            {
                let one = f32::midpoint(*left, *right);
                (*left, *right) = (one, one);
            }
        }
        Ok(())
    }

    /// How far flutter shifts a sample at most. The root of the mean square of the speed is
    /// what is given; a wave of speed of depth d at f Hz shifts by d / 2πf.
    fn depth(&self) -> f64 {
        self.machine.flutter_percent / 100.0 * std::f64::consts::SQRT_2
    }

    /// How much is left at a sample: nothing in the middle of a join.
    fn kept_at(&self, at: u64) -> f64 {
        let behind = self.machine.lost.partition_point(|lost| lost.0 <= at);
        let lost = behind.checked_sub(1).map(|n| self.machine.lost[n]);
        match lost {
            Some((from, long)) if at < from + long => {
                let part = (at - from) as f64 / long.max(1) as f64;
                // The lap lifts the stripe off the head and sets it down again.
                1.0 - (PI * part).sin()
            }
            _ => 1.0,
        }
    }

    fn noise(&self, at: u64, side: usize) -> f64 {
        let drawn = spread(at.wrapping_mul(2).wrapping_add(side as u64));
        // Uniform noise has a root mean square of 1/√3 of its height.
        let even = (drawn >> 11) as f64 / (1_u64 << 52) as f64 - 1.0;
        even * 3.0_f64.sqrt() * crate::decibel::amplitude(self.machine.noise_db)
    }
}

/// How far a sample is shifted. Unit: samples.
fn wandered(at: u64, depth: f64) -> f64 {
    let seconds = at as f64 / f64::from(RATE);
    let parts = WANDERS.iter().map(|(hz, part)| {
        let shift = depth * part / (2.0 * PI * hz) * f64::from(RATE);
        shift * (2.0 * PI * hz * seconds).sin()
    });
    parts
        .sum::<f64>()
        .clamp(-(REACH as f64) + 3.0, REACH as f64 - 3.0)
}

/// The sound between samples, by four of them (Catmull and Rom).
fn between(samples: &[f32], channels: usize, side: usize, place: f64) -> f64 {
    let whole = place.floor();
    let x = place - whole;
    let get = |n: i64| {
        let at = usize::try_from(whole as i64 + n).ok();
        let sample = at.and_then(|at| samples.get(at * channels + side));
        f64::from(sample.copied().unwrap_or(0.0))
    };
    let (a, b, c, d) = (get(-1), get(0), get(1), get(2));
    let bend = 2.0 * a - 5.0 * b + 4.0 * c - d;
    let steep = 3.0 * (b - c) + d - a;
    b + 0.5 * x * (c - a + x * (bend + x * steep))
}
