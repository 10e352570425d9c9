//! What cannot be matched, and what to do next.

/// Why light, steadiness or flicker cannot be answered.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LightError {
    /// A rectangle that holds no picture.
    #[error(
        "a rectangle from {left:.3}, {top:.3}, {width:.3} wide and {height:.3} high lies not in the picture"
    )]
    Rectangle {
        /// Left edge, as a share of the width.
        left: f64,
        /// Upper edge, as a share of the height.
        top: f64,
        /// As a share of the width.
        width: f64,
        /// As a share of the height.
        height: f64,
    },
    /// A picture whose bytes do not fit its size.
    #[error("{found} values for a picture that has {needed}")]
    PictureSize {
        /// Values given.
        found: usize,
        /// Values that its size asks for.
        needed: usize,
    },
    /// A patch without light to take a logarithm of.
    #[error("reading {at} has no light: a logarithm needs some")]
    NoLight {
        /// Which reading, counted from 0.
        at: usize,
    },
    /// The same thing read twice in one shot.
    #[error("reading {at}: thing {thing} is read twice in shot {shot}")]
    ReadTwice {
        /// Which reading, counted from 0.
        at: usize,
        /// The shot.
        shot: usize,
        /// The thing.
        thing: usize,
    },
    /// Nothing to solve.
    #[error("no thing was read in two shots")]
    NothingShared,
    /// A number outside of what makes sense.
    #[error("{what} is {given}, it must be from {least} to {most}")]
    OutOfRange {
        /// What was given.
        what: &'static str,
        /// As given.
        given: f64,
        /// The least that makes sense.
        least: f64,
        /// The most.
        most: f64,
    },
    /// A text that is no collection of colour corrections.
    #[error("line {line}: {problem}")]
    Cdl {
        /// Where. Counted from 1.
        line: u32,
        /// What is wrong there.
        problem: String,
    },
}

impl LightError {
    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Rectangle { .. } => {
                "drag it inside of the picture, at least a hundredth wide and high"
            }
            Self::PictureSize { .. } => "the picture is not whole: read the roll again",
            Self::NoLight { .. } => "choose a lighter place of the same thing",
            Self::ReadTwice { .. } => {
                "keep one of the two, or give the other thing a name of its own"
            }
            Self::NothingShared => "drag the same thing in at least two shots",
            Self::OutOfRange { .. } => "give a number in that range",
            Self::Cdl { .. } => "write the file again with the program it came from",
        }
    }

    /// A stable word for it.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Rectangle { .. } => "light.rectangle",
            Self::PictureSize { .. } => "light.picture_size",
            Self::NoLight { .. } => "light.no_light",
            Self::ReadTwice { .. } => "light.read_twice",
            Self::NothingShared => "light.nothing_shared",
            Self::OutOfRange { .. } => "light.out_of_range",
            Self::Cdl { .. } => "light.cdl",
        }
    }
}
