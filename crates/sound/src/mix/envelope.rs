//! How loud a cue is at each of its samples.

use super::{Fade, FadeShape, Mix, MixCue};
use crate::decibel::{SILENT_DB, amplitude};

/// The level is worked out at every so manyeth sample of a cue, and goes straight between.
const STEP: u64 = 32;

/// A cue that is cut off in its sound goes within this. Unit: samples; a millisecond.
const EDGE: u64 = 48;

/// The loudness of a cue, sample by sample.
#[derive(Debug, Clone)]
pub(super) struct Envelope {
    /// How long the cue is. Unit: samples.
    length: u64,
    /// How long it is heard: the sound may be over before the cue is.
    heard: u64,
    per_frame: f64,
    db: f64,
    line: Vec<(f64, f64)>,
    fade_in: (f64, FadeShape),
    fade_out: (f64, FadeShape),
    /// It stops before its sound does.
    cut_off: bool,
}

fn shaped(part: f64, shape: FadeShape) -> f64 {
    let part = part.clamp(0.0, 1.0);
    match shape {
        FadeShape::Linear => part,
        FadeShape::EqualPower => (part * std::f64::consts::FRAC_PI_2).sin(),
    }
}

impl Envelope {
    pub(super) fn of(mix: &Mix, cue: &MixCue, length: u64, heard: u64, cut_off: bool) -> Self {
        let per_frame = mix.samples_a_frame();
        let fade = |fade: Fade| (f64::from(fade.frames) * per_frame, fade.shape);
        let line = cue.line.iter();
        Self {
            length,
            heard,
            per_frame,
            db: cue.db,
            line: line.map(|point| (f64::from(point.at), point.db)).collect(),
            fade_in: fade(cue.fade_in),
            fade_out: fade(cue.fade_out),
            cut_off: cut_off && cue.fade_out.frames == 0,
        }
    }

    /// The factor at a step.
    fn at_step(&self, step: u64) -> f64 {
        let at = (step * STEP) as f64;
        let db = self.db + self.on_line(at / self.per_frame);
        if db <= SILENT_DB {
            return 0.0;
        }
        let mut factor = amplitude(db);
        if self.fade_in.0 > 0.0 {
            factor *= shaped(at / self.fade_in.0, self.fade_in.1);
        }
        if self.fade_out.0 > 0.0 {
            let left = self.length as f64 - at;
            factor *= shaped(left / self.fade_out.0, self.fade_out.1);
        }
        factor
    }

    /// The level line at a frame. Unit: dB.
    fn on_line(&self, frame: f64) -> f64 {
        let behind = self.line.partition_point(|point| point.0 <= frame);
        match (
            behind.checked_sub(1).map(|n| self.line[n]),
            self.line.get(behind),
        ) {
            (None, None) => 0.0,
            (None, Some(first)) => first.1,
            (Some(last), None) => last.1,
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (frame - a.0) / (b.0 - a.0),
        }
    }

    /// Multiplies the samples of a cue from `first` on, channels side by side.
    pub(super) fn lay_upon(&self, first: u64, samples: &mut [f32], channels: usize) {
        let mut step = u64::MAX;
        let (mut here, mut next) = (0.0, 0.0);
        for (nth, frame) in samples.chunks_mut(channels).enumerate() {
            let at = first + nth as u64;
            if at / STEP != step {
                step = at / STEP;
                here = self.at_step(step);
                next = self.at_step(step + 1);
            }
            let part = (at % STEP) as f64 / STEP as f64;
            let mut factor = here + (next - here) * part;
            if self.cut_off {
                let left = self.heard.saturating_sub(at).min(EDGE);
                factor *= left as f64 / EDGE as f64;
            }
            for sample in frame {
                *sample = (f64::from(*sample) * factor) as f32;
            }
        }
    }
}
