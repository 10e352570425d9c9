//! The version as it comes off the bench: what is on the reel, and what of the
//! rest can still be had.

use onestrand_cut::{JoinTable, Strips};

use super::coming::Outlook;
use super::{BenchState, Film, Laid};

/// A length of the version as it will be seen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The strip of the version, counted from 0; none for film that the version
    /// does not have.
    pub strip: Option<usize>,
    /// The film seen.
    pub film: Film,
    /// How it lies.
    pub laid: Laid,
    /// Whether it is on the take-up reel.
    pub on_the_reel: bool,
}

/// The whole version as it is made.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct AsMade {
    /// From head to tail.
    pub parts: Vec<Part>,
    /// Film wanted whose place on the reel is passed, what joins would eat with it.
    pub passed: Vec<Part>,
    /// Film wanted that is too short to be joined.
    pub too_short: Vec<Part>,
}

impl AsMade {
    /// The version on a bench. What is on the reel stays as it is there; an ended
    /// reel has passed all that is not on it.
    #[must_use]
    pub fn of(state: &BenchState, strips: &Strips, table: &JoinTable) -> Self {
        let outlook = Outlook::of(state, strips, table);
        let coming = outlook.coming.into_iter().map(|c| c.part);
        Self {
            parts: outlook.reel.into_iter().chain(coming).collect(),
            passed: outlook.passed,
            too_short: outlook.too_short,
        }
    }

    /// Its length in frames.
    #[must_use]
    pub fn frames(&self) -> u64 {
        self.parts.iter().map(|p| u64::from(p.film.frames())).sum()
    }

    /// What comes next on the reel.
    #[must_use]
    pub fn next(&self) -> Option<&Part> {
        self.parts.iter().find(|p| !p.on_the_reel)
    }
}
