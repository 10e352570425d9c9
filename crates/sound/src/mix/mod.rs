//! The mix as a value: columns, cues, what is done to each.

mod dynamics;
mod envelope;
pub(crate) mod filter;
mod laid;
mod run;
mod working;

use onestrand_film::{Fps, SampleCount};

pub use run::{MixRun, WARM_UP};
pub use working::Meter;

use crate::RATE;

/// The level of the start mark. Unit: dB below full scale.
pub const START_MARK_DB: f64 = -20.0;

/// How a fade goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum FadeShape {
    /// Two that cross are as loud together as each alone: sine and cosine.
    #[default]
    EqualPower,
    /// In equal steps of pressure.
    Linear,
}

/// A fade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Fade {
    /// How long. Unit: frames; 0 is none.
    pub frames: u32,
    /// How it goes.
    pub shape: FadeShape,
}

/// A handle on a level line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LevelPoint {
    /// Where, from the in of the cue. Unit: frames.
    pub at: u32,
    /// The level there. Unit: dB.
    pub db: f64,
}

/// Where a sound goes round. Unit of all: samples at 48 kHz.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Round {
    /// Where it comes back to.
    pub from: u64,
    /// Where it goes back from.
    pub to: u64,
    /// How long both are heard together, before `to` and before `from`.
    pub crossed: u64,
}

/// A cue.
#[derive(Debug, Clone, PartialEq)]
pub struct MixCue {
    /// Its column, by place.
    pub column: usize,
    /// Its sound, by the place of its reader.
    pub sound: usize,
    /// How far into the sound it begins. Unit: samples at 48 kHz.
    pub first: u64,
    /// Where the sound is over.
    pub last: u64,
    /// Where it goes round until the cue ends.
    pub round: Option<Round>,
    /// The running frame it begins at, before 0 in the leader.
    pub at: i64,
    /// How long it is. Unit: frames.
    pub frames: u32,
    /// The level of the whole cue. Unit: dB.
    pub db: f64,
    /// The level line over it, in order; none: it stays.
    pub line: Vec<LevelPoint>,
    /// How it comes.
    pub fade_in: Fade,
    /// How it goes.
    pub fade_out: Fade,
    /// Left or right, main or balance: −1 to 1.
    pub balance: f64,
}

/// An equaliser: a low cut and three bands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Equaliser {
    /// Below this it is cut, 12 dB an octave. Unit: Hz.
    pub low_cut_hz: Option<f64>,
    /// A shelf below 200 Hz. Unit: dB.
    pub lows_db: f64,
    /// A bell at 2,500 Hz, an octave and a half wide. Unit: dB.
    pub presence_db: f64,
    /// A shelf above 6,000 Hz. Unit: dB.
    pub highs_db: f64,
}

/// A compressor with a soft knee of 6 dB, 10 ms up and 150 ms down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compressor {
    /// Above which level it works. Unit: dB below full scale.
    pub threshold_db: f64,
    /// By how much it holds back: 2 is 2 to 1.
    pub ratio: f64,
    /// What is given back behind it. Unit: dB.
    pub make_up_db: f64,
}

/// A column that goes down while another speaks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ducked {
    /// The column that speaks, by place.
    pub under: usize,
    /// By how much. Unit: dB.
    pub by_db: f64,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MixColumn {
    /// Its level. Unit: dB.
    pub db: f64,
    /// It is not heard; what goes down for it still does.
    pub silent: bool,
    /// What is taken and given by pitch.
    pub equaliser: Equaliser,
    /// A compressor.
    pub compressor: Option<Compressor>,
    /// What it goes down for.
    pub ducked: Option<Ducked>,
}

/// A mix.
#[derive(Debug, Clone, PartialEq)]
pub struct Mix {
    /// The speed the film is played at.
    pub speed: Fps,
    /// Leader before the first picture. Unit: frames.
    pub leader: u32,
    /// The film. Unit: frames.
    pub frames: u32,
    /// 1 or 2.
    pub channels: usize,
    /// The level of the whole. Unit: dB.
    pub db: f64,
    /// What nothing gets over. Unit: dB below full scale.
    pub ceiling_db: f64,
    /// The start mark: a tone of 1,000 Hz for one frame, so many frames before the first
    /// picture.
    pub start_mark: Option<u32>,
    /// From left to right.
    pub columns: Vec<MixColumn>,
    /// In any order.
    pub cues: Vec<MixCue>,
}

impl Mix {
    /// How long it is. Unit: samples: ⌈(leader + frames) · 48000 / S⌉.
    #[must_use]
    pub fn samples(&self) -> u64 {
        let all = u64::from(self.leader) + u64::from(self.frames);
        let over = u128::from(all) * u128::from(RATE) * u128::from(self.speed.den());
        u64::try_from(over.div_ceil(u128::from(self.speed.num()))).unwrap_or(u64::MAX)
    }

    /// Where a running frame begins: ⌊(leader + q) · 48000 / S⌋; below 0 before the leader.
    #[must_use]
    pub fn sample_of(&self, frame: i64) -> i64 {
        let from_head = i128::from(self.leader) + i128::from(frame);
        let over = from_head * i128::from(RATE) * i128::from(self.speed.den());
        i64::try_from(over.div_euclid(i128::from(self.speed.num()))).unwrap_or(i64::MAX)
    }

    /// How many samples a frame is. Unit: samples.
    #[must_use]
    pub fn samples_a_frame(&self) -> f64 {
        f64::from(RATE) / self.speed.as_f64()
    }

    /// The same as the film crate reckons it: for those who check.
    #[must_use]
    pub fn exact_samples(&self) -> Option<SampleCount> {
        let all = self.leader.checked_add(self.frames)?;
        let frames = onestrand_film::Frames::new(all).ok()?;
        let rate = onestrand_film::SampleRate::new(RATE).ok()?;
        Some(SampleCount::of(frames, self.speed, rate))
    }
}
