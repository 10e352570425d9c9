//! Why there is no work order.

use onestrand_cut::{Conflict, Severity};
use onestrand_film::RollId;

/// Why a cut gets no work order.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NoWorkOrder {
    /// The strand check refuses the cut.
    #[error("the strand check refuses the cut: {} conflicts", .conflicts.len())]
    Refused {
        /// What it refuses, in the order of the cut.
        conflicts: Vec<Conflict>,
    },
    /// Nothing is to be cut from any roll.
    #[error("the cut has no piece of a roll")]
    NothingToCut,
    /// A roll that has no frames, or is not there.
    #[error("roll {roll} has no frames")]
    NoFrames {
        /// The roll.
        roll: RollId,
    },
}

impl NoWorkOrder {
    /// A stable name.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Refused { .. } => "bench.refused",
            Self::NothingToCut => "bench.nothing_to_cut",
            Self::NoFrames { .. } => "bench.no_frames",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Refused { .. } => {
                "mend the cut first: the strand check says what is wanted twice or missing"
            }
            Self::NothingToCut => "lay in a piece of a roll first",
            Self::NoFrames { .. } => "count the frames of the roll or read its scan first",
        }
    }

    pub(crate) fn refused(conflicts: &[Conflict]) -> Option<Self> {
        let refused: Vec<Conflict> = conflicts
            .iter()
            .filter(|c| c.severity() == Severity::Refused)
            .cloned()
            .collect();
        (!refused.is_empty()).then_some(Self::Refused { conflicts: refused })
    }
}
