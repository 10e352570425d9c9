//! A column at work: its filters, gains and meter over a block.

use super::MixColumn;
use super::dynamics::{Ducking, Follower, Pressing, STEP};
use super::filter::Bands;
use super::run::BLOCK;
use crate::decibel::amplitude;

/// How loud something was since it was last asked.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Meter {
    /// The highest sample.
    pub peak: f64,
    /// The root of the mean square.
    pub rms: f64,
}

#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Loudest {
    peak: f64,
    squares: f64,
    count: u64,
}

impl Loudest {
    pub(super) fn hear(&mut self, sample: f64) {
        self.peak = self.peak.max(sample.abs());
        self.squares += sample * sample;
        self.count += 1;
    }

    pub(super) fn take(&mut self) -> Meter {
        let now = std::mem::take(self);
        let rms = match now.count {
            0 => 0.0,
            count => (now.squares / count as f64).sqrt(),
        };
        Meter {
            peak: now.peak,
            rms,
        }
    }
}

/// A column at work.
#[derive(Debug)]
pub(super) struct Working {
    pub(super) bands: Vec<Bands>,
    pub(super) follower: Follower,
    pub(super) pressing: Option<Pressing>,
    pub(super) ducking: Option<(usize, Ducking)>,
    /// The gain at the beginning and at the end of this step.
    pub(super) gain: (f64, f64),
    pub(super) fader: f64,
    pub(super) level_db: f64,
    /// A gain depends on how loud it is: its own, or that of a column which goes down for it.
    pub(super) is_listened_to: bool,
    /// How loud it is at each step of the block. Unit: dB.
    pub(super) levels: Vec<f64>,
    pub(super) meter: Loudest,
    pub(super) buffer: Vec<f32>,
}

impl Working {
    pub(super) fn of(column: &MixColumn, channels: usize) -> Self {
        let make_up = column.compressor.map_or(0.0, |press| press.make_up_db);
        let gain = amplitude(make_up);
        Self {
            bands: vec![Bands::of(&column.equaliser); channels],
            follower: Follower::default(),
            pressing: column.compressor.map(Pressing::of),
            ducking: column
                .ducked
                .map(|ducked| (ducked.under, Ducking::by(ducked.by_db))),
            gain: (gain, gain),
            fader: if column.silent {
                0.0
            } else {
                amplitude(column.db)
            },
            level_db: -120.0,
            is_listened_to: column.compressor.is_some(),
            levels: vec![-120.0; (BLOCK / STEP) as usize],
            meter: Loudest::default(),
            buffer: vec![0.0; BLOCK as usize * channels],
        }
    }
}

/// Does something with every column, with the second half on another thread where there
/// are several.
pub(super) fn on_two_threads(columns: &mut [Working], act: &(dyn Fn(&mut Working) + Sync)) {
    let (first, second) = columns.split_at_mut(columns.len() / 2);
    if first.is_empty() {
        second.iter_mut().for_each(act);
        return;
    }
    std::thread::scope(|scope| {
        scope.spawn(|| second.iter_mut().for_each(act));
        first.iter_mut().for_each(act);
    });
}

impl Working {
    /// What is taken and given by pitch, and how loud it is at each step.
    pub(super) fn filter(&mut self, channels: usize) {
        let filtered = !self.bands[0].is_empty();
        for step in 0..(BLOCK / STEP) as usize {
            let range = step * STEP as usize * channels..(step + 1) * STEP as usize * channels;
            for frame in self.buffer[range].chunks_mut(channels) {
                let mut loudest = 0.0_f64;
                for (sample, bands) in frame.iter_mut().zip(&mut self.bands) {
                    let mut x = f64::from(*sample);
                    if filtered {
                        x = bands.pass(x);
                        *sample = x as f32;
                    }
                    loudest = loudest.max(x.abs());
                }
                self.follower.hear(loudest);
            }
            self.levels[step] = self.follower.step();
        }
        self.level_db = self.levels.last().copied().unwrap_or(-120.0);
    }

    /// The gains; `levels` has for every column how loud it was a step before, each step.
    /// While it is only warming up nothing is given out, so nothing is worked out but them.
    pub(super) fn gains(&mut self, channels: usize, levels: &[Vec<f64>], is_warming: bool) {
        let slow = self.pressing.is_some() || self.ducking.is_some();
        for step in 0..(BLOCK / STEP) as usize {
            let (now, next) = self.gain;
            let range = step * STEP as usize * channels..(step + 1) * STEP as usize * channels;
            let frames = self.buffer[range].chunks_mut(channels);
            for (nth, frame) in frames.enumerate().take_while(|_| !is_warming) {
                let gain = now + (next - now) * nth as f64 / STEP as f64;
                for sample in frame {
                    let y = f64::from(*sample) * gain * self.fader;
                    self.meter.hear(y);
                    *sample = y as f32;
                }
            }
            if !slow {
                continue;
            }
            let mut db = 0.0;
            if let Some(pressing) = &mut self.pressing {
                db += pressing.step(self.levels[step]);
            }
            if let Some((under, ducking)) = &mut self.ducking {
                let other = levels.get(*under).map_or(-120.0, |other| other[step]);
                db += ducking.step(other);
            }
            self.gain = (next, 10_f64.powf(db / 20.0));
        }
    }
}
