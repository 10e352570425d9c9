//! What no title, lens or lamp can be.

/// Why a title cannot be reckoned.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TitleError {
    /// A figure that cannot be.
    #[error("{what} is {found}, outside {min} to {max}")]
    OutOfRange {
        /// Which figure, with its unit.
        what: &'static str,
        /// What was said.
        found: f64,
        /// The least that can be.
        min: f64,
        /// The most that can be.
        max: f64,
        /// What to do.
        hint: &'static str,
    },
    /// There is nothing to read.
    #[error("the title has no words")]
    NoWords,
    /// The lens cannot be focused so near.
    #[error(
        "the lens focuses no nearer than {nearest_mm:.0} mm from the film, and the artwork \
         would lie at {wanted_mm:.0} mm"
    )]
    TooNear {
        /// The nearest mark. Unit: millimetres from the film.
        nearest_mm: f64,
        /// Where the artwork would lie. Unit: millimetres from the film.
        wanted_mm: f64,
        /// Close-up lenses that reach there, one before the other; none where no usual
        /// ones do. Unit: dioptres.
        close_up: Vec<f64>,
    },
    /// A close-up lens that shows less than is wanted at any setting.
    #[error(
        "with +{dioptres} before {lens_mm} mm the field is at most {widest_mm:.1} mm wide, \
         and {wanted_mm:.1} mm is wanted"
    )]
    CloseUpTooStrong {
        /// The close-up lenses together. Unit: dioptres.
        dioptres: f64,
        /// The lens. Unit: millimetres.
        lens_mm: f64,
        /// The widest field, the lens at infinity. Unit: millimetres.
        widest_mm: f64,
        /// The field asked for. Unit: millimetres.
        wanted_mm: f64,
        /// The strongest that would do. Unit: dioptres.
        at_most: f64,
    },
    /// Two things asked of a title that cannot both be.
    #[error("{message}")]
    CannotBoth {
        /// What does not go together.
        message: String,
        /// What to do.
        hint: &'static str,
    },
}

impl TitleError {
    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "title.out_of_range",
            Self::NoWords => "title.no_words",
            Self::TooNear { .. } => "title.too_near",
            Self::CloseUpTooStrong { .. } => "title.close_up_too_strong",
            Self::CannotBoth { .. } => "title.cannot_both",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::OutOfRange { hint, .. } | Self::CannotBoth { hint, .. } => (*hint).to_owned(),
            Self::NoWords => "write the words as they are to stand on the card".to_owned(),
            Self::TooNear { close_up, .. } if close_up.is_empty() => {
                "draw the artwork larger, or take a longer lens: no usual close-up lens \
                 reaches there"
                    .to_owned()
            }
            Self::TooNear { close_up, .. } => {
                let powers: Vec<String> = close_up.iter().map(|d| format!("+{d}")).collect();
                format!(
                    "put a close-up lens of {} before it and focus through that, or draw the \
                     artwork larger",
                    powers.join(" and ")
                )
            }
            Self::CloseUpTooStrong { at_most, .. } => {
                format!("leave the close-up lens off, or take one of +{at_most:.2} or weaker")
            }
        }
    }
}

/// A figure and the bounds in which it can be.
pub(crate) fn within(
    what: &'static str,
    found: f64,
    (min, max): (f64, f64),
    hint: &'static str,
) -> Result<f64, TitleError> {
    // What is not a number lies in no range.
    if (min..=max).contains(&found) {
        return Ok(found);
    }
    Err(TitleError::OutOfRange {
        what,
        found,
        min,
        max,
        hint,
    })
}
