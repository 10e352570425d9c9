//! Loudness to ITU-R BS.1770 and EBU R 128, by the library `ebur128`.

use std::collections::VecDeque;

use ebur128::{Channel, EbuR128, Mode};

/// What BS.1770 takes off the energy. Unit: dB.
const OFFSET_DB: f64 = 0.691;
/// Looks in 0.4 s, the momentary window (EBU Tech 3341).
const MOMENTARY: usize = 40;
/// Looks in three seconds, the short-term window (EBU Tech 3341).
const SHORT_TERM: usize = 300;

/// How loud a sound is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loudness {
    /// The whole, gated. Unit: LUFS; nothing for silence, or less than 0.4 s.
    pub integrated_lufs: Option<f64>,
    /// How far soft and loud parts lie apart (EBU Tech 3342). Unit: LU; nothing for less
    /// than three seconds.
    pub range_lu: Option<f64>,
    /// The loudest 0.4 s. Unit: LUFS.
    pub max_momentary_lufs: Option<f64>,
    /// The loudest three seconds. Unit: LUFS.
    pub max_short_term_lufs: Option<f64>,
    /// The highest it gets between samples too. Unit: dB of full scale.
    pub true_peak_dbtp: Option<f64>,
}

/// Measures while sound goes by.
pub struct LoudnessMeter {
    meter: EbuR128,
    channels: usize,
    /// Samples of each channel between two looks.
    hop: usize,
    heard: u64,
    rate: u32,
    momentary: f64,
    short_term: f64,
    rest: Vec<f32>,
    /// The energy of each of the last looks, three seconds of them. The library sums its
    /// long windows anew each time it is asked; asked every 10 ms that was three quarters
    /// of the time a sound took to come in.
    energies: VecDeque<f64>,
}

impl std::fmt::Debug for LoudnessMeter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("LoudnessMeter")
            .field("heard", &self.heard)
            .finish_non_exhaustive()
    }
}

impl LoudnessMeter {
    /// A meter for so many channels: 1, 2, or 5 as left, right, centre and two surrounds.
    /// Nothing for others.
    #[must_use]
    pub fn new(channels: usize, rate: u32) -> Option<Self> {
        let modes = Mode::I | Mode::LRA | Mode::M | Mode::S | Mode::TRUE_PEAK;
        let count = u32::try_from(channels).ok()?;
        let mut meter = EbuR128::new(count, rate, modes).ok()?;
        if channels == 5 {
            let map = [
                Channel::Left,
                Channel::Right,
                Channel::Center,
                Channel::LeftSurround,
                Channel::RightSurround,
            ];
            meter.set_channel_map(&map).ok()?;
        }
        Some(Self {
            meter,
            channels,
            // Ten milliseconds, so that no burst falls between two looks (Tech 3341 case 13).
            hop: (rate as usize / 100).max(1),
            heard: 0,
            rate,
            momentary: f64::NEG_INFINITY,
            short_term: f64::NEG_INFINITY,
            rest: Vec::new(),
            energies: VecDeque::with_capacity(SHORT_TERM + 1),
        })
    }

    /// Takes samples in, channels side by side.
    pub fn hear(&mut self, samples: &[f32]) {
        self.rest.extend_from_slice(samples);
        let step = self.hop * self.channels;
        let whole = self.rest.len() / step * step;
        let rest = self.rest.split_off(whole);
        let now = std::mem::replace(&mut self.rest, rest);
        for hop in now.chunks(step) {
            self.look(hop);
        }
    }

    fn look(&mut self, hop: &[f32]) {
        if self.meter.add_frames_f32(hop).is_err() {
            return;
        }
        self.heard += (hop.len() / self.channels) as u64;
        let now = self.meter.loudness_window(10).unwrap_or(f64::NEG_INFINITY);
        self.energies
            .push_back(10_f64.powf((now + OFFSET_DB) / 10.0));
        if self.energies.len() > SHORT_TERM {
            self.energies.pop_front();
        }
        // A window that is not full yet would count the silence before the sound.
        if let Some(loud) = self.window(MOMENTARY) {
            self.momentary = self.momentary.max(loud);
        }
        if let Some(loud) = self.window(SHORT_TERM) {
            self.short_term = self.short_term.max(loud);
        }
    }

    /// How loud the last looks were together; nothing before there are so many. Unit: LUFS.
    fn window(&self, looks: usize) -> Option<f64> {
        let before = self.energies.len().checked_sub(looks)?;
        let sum: f64 = self.energies.iter().skip(before).sum();
        Some(10.0 * (sum / looks as f64).log10() - OFFSET_DB)
    }

    /// The loudest 0.4 s and three seconds since the last time this was asked, for a meter
    /// that is looked at.
    pub fn take_loudest(&mut self) -> (Option<f64>, Option<f64>) {
        let both = (told(self.momentary), told(self.short_term));
        (self.momentary, self.short_term) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
        both
    }

    /// The sound is over.
    #[must_use]
    pub fn done(mut self) -> Loudness {
        let rest = std::mem::take(&mut self.rest);
        if !rest.is_empty() {
            // Its end may be shorter than a look; for peaks it counts.
            let _short = self.meter.add_frames_f32(&rest);
            self.heard += (rest.len() / self.channels) as u64;
        }
        let channels = u32::try_from(self.channels).unwrap_or(0);
        let peaks = (0..channels).filter_map(|channel| self.meter.true_peak(channel).ok());
        let peak = peaks.fold(0.0, f64::max);
        let long = self.heard >= u64::from(self.rate) * 3;
        Loudness {
            integrated_lufs: self.meter.loudness_global().ok().and_then(told),
            range_lu: self.meter.loudness_range().ok().filter(|_| long),
            max_momentary_lufs: told(self.momentary),
            max_short_term_lufs: told(self.short_term),
            true_peak_dbtp: told(20.0 * peak.log10()),
        }
    }
}

/// A figure, if there is one: silence has none.
fn told(lufs: f64) -> Option<f64> {
    (lufs.is_finite() && lufs > -120.0).then_some(lufs)
}
