//! What the slate says: scene, setup letter, take.

use std::fmt;
use std::str::FromStr;

/// A text that is no slate.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("cannot read {found:?} as a slate such as 3A-T2")]
pub struct SlateError {
    /// The text as given.
    pub found: String,
}

/// The name of a take: setup `3A` (scene 3, closer angle A) and take 2.
///
/// Range: setup of 1 to 12 letters and digits, take 1 to 999. Written `3A-T2`.
///
/// ```
/// # use onestrand_cut::Slate;
/// let slate: Slate = "3A-T2".parse()?;
/// assert_eq!((slate.setup(), slate.take()), ("3A", 2));
/// assert!("3A".parse::<Slate>().is_err());
/// # Ok::<(), onestrand_cut::SlateError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Slate {
    setup: String,
    take: u16,
}

impl Slate {
    /// A slate from its setup and take.
    ///
    /// # Errors
    /// [`SlateError`] outside the ranges above.
    pub fn new(setup: &str, take: u16) -> Result<Self, SlateError> {
        let plain = setup.trim();
        let fits = (1..=12).contains(&plain.len())
            && plain.chars().all(|c| c.is_ascii_alphanumeric())
            && (1..=999).contains(&take);
        if !fits {
            let found = format!("{setup}-T{take}");
            return Err(SlateError { found });
        }
        Ok(Self {
            setup: plain.to_owned(),
            take,
        })
    }

    /// The setup as the slate says it: `3A`.
    #[must_use]
    pub fn setup(&self) -> &str {
        &self.setup
    }

    /// The take, counted from 1.
    #[must_use]
    pub const fn take(&self) -> u16 {
        self.take
    }

    /// Whether this is a title: its setup has no scene number (`M`, `E`).
    #[must_use]
    pub fn is_title(&self) -> bool {
        !self.setup.starts_with(|c: char| c.is_ascii_digit())
    }
}

impl fmt::Display for Slate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-T{}", self.setup, self.take)
    }
}

impl FromStr for Slate {
    type Err = SlateError;
    fn from_str(text: &str) -> Result<Self, SlateError> {
        let bad = || SlateError {
            found: text.to_owned(),
        };
        let (setup, take) = text.trim().rsplit_once("-T").ok_or_else(bad)?;
        Self::new(setup, take.parse().map_err(|_| bad())?).map_err(|_| bad())
    }
}
