//! Samples, and how far the sound lies ahead of its picture.

use std::fmt;

use num_rational::Ratio;

use crate::{Fps, FramePos, Frames, UnitError};

/// The kind of track a print carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SoundTrack {
    /// A stripe of magnetic coating.
    Magnetic,
    /// A photographed track.
    Optical,
}

impl fmt::Display for SoundTrack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Magnetic => "magnetic",
            Self::Optical => "optical",
        })
    }
}

impl std::str::FromStr for SoundTrack {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        match text.trim() {
            "magnetic" => Ok(Self::Magnetic),
            "optical" => Ok(Self::Optical),
            _ => Err(UnitError::unreadable(
                "a sound track",
                text,
                "magnetic or optical",
            )),
        }
    }
}

/// How sure a table value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sureness {
    /// Read in the source that is named.
    Found,
    /// From general knowledge of the standard that is named; not read there.
    Memory,
    /// A memory too weak to be used unasked.
    Suggestion,
}

impl Sureness {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::Memory => "from memory",
            Self::Suggestion => "suggestion from memory",
        }
    }
}

/// How many frames the sound lies nearer the head than its picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SoundLead {
    /// The kind of track.
    pub track: SoundTrack,
    /// Unit: frames; positive when the sound head lies after the gate, so that
    /// the sound of picture frame k is beside picture frame k − lead.
    pub frames: i32,
    /// How sure the figure is.
    pub sureness: Sureness,
    /// Where it comes from.
    pub source: &'static str,
}

impl SoundLead {
    /// The lead in samples, exact, at a running speed.
    #[must_use]
    pub fn samples(&self, fps: Fps, rate: SampleRate) -> SampleCount {
        let num = i128::from(self.frames) * i128::from(rate.hz()) * i128::from(fps.den());
        SampleCount(Ratio::new(num, i128::from(fps.num())))
    }
}

/// An exact number of samples, whole or not.
///
/// Unit: samples. Printed as a whole number, or as a fraction in lowest terms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SampleCount(Ratio<i128>);

impl SampleCount {
    /// The samples that `frames` last, exact.
    #[must_use]
    pub fn of(frames: Frames, fps: Fps, rate: SampleRate) -> Self {
        let num = i128::from(frames.count()) * i128::from(rate.hz()) * i128::from(fps.den());
        Self(Ratio::new(num, i128::from(fps.num())))
    }

    /// The samples that `frames` last, rounded up: the length of a mix.
    #[must_use]
    pub fn ceil(self) -> i64 {
        i64::try_from(self.0.ceil().to_integer()).unwrap_or(i64::MAX)
    }
}

impl fmt::Display for SampleCount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// Samples a second.
///
/// Unit: hertz. Range: 8,000 to 384,000.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SampleRate(u32);

impl SampleRate {
    /// 48 kHz, the rate of every mix here.
    pub const HZ_48000: Self = Self(48_000);
    /// 44.1 kHz.
    pub const HZ_44100: Self = Self(44_100);

    /// A rate.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] outside 8,000 to 384,000.
    pub fn new(hz: u32) -> Result<Self, UnitError> {
        if !(8_000..=384_000).contains(&hz) {
            return Err(UnitError::out_of_range(
                "a sample rate in Hz",
                hz,
                8_000,
                384_000,
            ));
        }
        Ok(Self(hz))
    }

    /// The rate as a plain number.
    #[must_use]
    pub const fn hz(self) -> u32 {
        self.0
    }
}

/// The sample at which a frame begins, rounded down: ⌊n · rate / f⌋.
///
/// Unit: samples from the start. Counted from frame 0 each time, so the error
/// never grows: at 18 f/s and 48 kHz a frame lasts 2666⅔ samples.
///
/// ```
/// # use onestrand_film::{Fps, FramePos, SampleRate, sample_from_frame_floor};
/// let at = |n| sample_from_frame_floor(FramePos::new(n).unwrap(), Fps::EIGHTEEN, SampleRate::HZ_48000);
/// assert_eq!((at(1), at(2), at(3)), (2_666, 5_333, 8_000));
/// ```
#[must_use]
pub fn sample_from_frame_floor(at: FramePos, fps: Fps, rate: SampleRate) -> u64 {
    let num = u128::from(at.index()) * u128::from(rate.hz()) * u128::from(fps.den());
    // At most 10⁸ · 384,000 · 1000 samples: inside 64 bits.
    u64::try_from(num / u128::from(fps.num())).unwrap_or(u64::MAX)
}
