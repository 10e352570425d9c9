//! What cannot be heard, and what to do next.

/// Why an ear cannot answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HearingError {
    /// A sound of a rate no sound has.
    #[error("a sound has from 4,000 to 768,000 samples a second, this one {rate}")]
    Rate {
        /// Samples a second, as given.
        rate: u32,
    },
    /// A sample that is no number.
    #[error("sample {at} is no number")]
    NoNumber {
        /// Which sample, counted from 0.
        at: usize,
    },
    /// Too little sound for the question.
    #[error("{seconds:.2} s of sound, {needed:.2} s are needed")]
    TooShort {
        /// How long it is. Unit: seconds.
        seconds: f64,
        /// How long it must be. Unit: seconds.
        needed: f64,
    },
    /// Nothing but silence.
    #[error("there is nothing in it but silence")]
    Silent,
    /// No tone stands out where one was looked for.
    #[error("no tone stands out between {from:.1} and {to:.1} Hz")]
    NoTone {
        /// Lower end of what was looked through. Unit: hertz.
        from: f64,
        /// Upper end. Unit: hertz.
        to: f64,
    },
    /// A number outside of what makes sense.
    #[error("{what} is {given}, it must be from {least} to {most}")]
    OutOfRange {
        /// What was asked.
        what: &'static str,
        /// As given.
        given: f64,
        /// The least that makes sense.
        least: f64,
        /// The most.
        most: f64,
    },
    /// Fewer strokes were heard than are marked.
    #[error("{heard} strokes are heard, {marked} are marked in the picture")]
    TooFewStrokes {
        /// Strokes heard.
        heard: usize,
        /// Strokes marked.
        marked: usize,
    },
    /// A list of times that does not run forward.
    #[error("{what} must run forward: number {at} is not after the one before it")]
    NotForward {
        /// Which list.
        what: &'static str,
        /// Which entry, counted from 0.
        at: usize,
    },
    /// Two recordings that have nothing in common, as far as is heard.
    #[error("nothing is found that both have in common")]
    NothingInCommon,
    /// No beat that could be told.
    #[error("no beat is heard in it")]
    NoBeat,
    /// No place to join the end to the beginning.
    #[error("no loop of {least:.1} s or more can be made of {seconds:.1} s")]
    NoLoop {
        /// Shortest loop that was asked for. Unit: seconds.
        least: f64,
        /// How long the sound is. Unit: seconds.
        seconds: f64,
    },
}

impl HearingError {
    /// A word that stays the same, for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Rate { .. } => "hearing.rate",
            Self::NoNumber { .. } => "hearing.no_number",
            Self::TooShort { .. } => "hearing.too_short",
            Self::Silent => "hearing.silent",
            Self::NoTone { .. } => "hearing.no_tone",
            Self::OutOfRange { .. } => "hearing.out_of_range",
            Self::TooFewStrokes { .. } => "hearing.too_few_strokes",
            Self::NotForward { .. } => "hearing.not_forward",
            Self::NothingInCommon => "hearing.nothing_in_common",
            Self::NoBeat => "hearing.no_beat",
            Self::NoLoop { .. } => "hearing.no_loop",
        }
    }

    /// The next step, in the words of whoever asked.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Rate { .. } | Self::NoNumber { .. } => "bring the sound in again from its source",
            Self::TooShort { .. } => "take a longer piece of the sound",
            Self::Silent => "look whether the right track was recorded",
            Self::NoTone { .. } => "say where the tone sounds, or allow a wider range",
            Self::OutOfRange { .. } => "give a number inside the range",
            Self::TooFewStrokes { .. } => {
                "take a longer piece of the sound, listen for quieter strokes, or mark fewer"
            }
            Self::NotForward { .. } => "give the times in order",
            Self::NothingInCommon => "choose a piece in which both hear the same thing",
            Self::NoBeat => "tap the beats by hand",
            Self::NoLoop { .. } => "ask for a shorter loop, or record a longer atmosphere",
        }
    }
}
