//! What stands at the head and foot of every sheet.

use onestrand_film::{Fps, Frames, Gauge, RollId, Shrinkage};

/// The paper to print on, always upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    #[default]
    A4,
    /// US Letter, 8½ × 11 inches (ANSI/ASME Y14.1, size A).
    Letter,
}

/// What every sheet of one cut has in common.
#[derive(Clone, Debug)]
pub struct Head {
    /// The title of the production, in the maker's words.
    pub title: String,
    /// The name of the version, such as `v1`.
    pub version: String,
    /// The gauge of all rolls in the cut.
    pub gauge: Gauge,
    /// The speed the film is to be shown at.
    pub speed: Fps,
    /// The joins used and what each eats, the usual one first.
    pub joins: Vec<JoinBite>,
    /// The rolls the cut draws on.
    pub rolls: Vec<RollState>,
    /// The paper.
    pub paper: Paper,
}

/// A kind of join and the frames it eats, as the join table of the cut says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JoinBite {
    /// The kind.
    pub kind: JoinKind,
    /// Frames the outgoing piece gives after its last kept frame.
    pub out_tail: Frames,
    /// Frames the incoming piece gives before its first kept frame.
    pub in_head: Frames,
}

/// How two pieces are joined; the mark that is drawn and the word beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum JoinKind {
    /// Tape on the frame line.
    Tape,
    /// Film cement, one end lapped over the other.
    Cement,
    /// Weld or bevel, the ends butted.
    Weld,
}

impl JoinKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Tape => "tape",
            Self::Cement => "cement",
            Self::Weld => "weld",
        }
    }
}

/// A roll, and how far its scan can be trusted.
#[derive(Clone, Debug)]
pub struct RollState {
    /// The roll.
    pub roll: RollId,
    /// Its gauge: an old reel may be of another than the cut.
    pub gauge: Gauge,
    /// Whether every one of its frames is proved to be in the scan.
    pub proof: Proof,
    /// Its shrinkage, nothing when it was not measured.
    pub shrinkage: Option<Shrinkage>,
    /// Who measured it, may be empty.
    pub measured_by: String,
}

/// Whether a roll's scan is proved complete. Anything but [`Proof::Proved`]
/// prints NOT PROVED across the head of every sheet, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Proof {
    /// Frames found and frames expected agree.
    Proved,
    /// They do not, or nothing was there to compare with.
    NotProved {
        /// Frames found in the scan.
        found: Frames,
        /// Frames the measured length calls for, nothing when it was not measured.
        expected: Option<Frames>,
        /// Anything more the maker should know, may be empty.
        why: String,
    },
    /// There is no scan: the roll is known on paper only.
    PaperOnly,
}

impl Head {
    /// Whether every roll is proved. A cut without rolls claims nothing, and
    /// so counts as proved.
    pub fn is_proved(&self) -> bool {
        self.rolls.iter().all(|roll| roll.proof == Proof::Proved)
    }

    /// The gauge of a roll, that of the cut when the roll is not listed.
    pub fn gauge_of(&self, roll: &RollId) -> Gauge {
        let state = self.rolls.iter().find(|state| &state.roll == roll);
        state.map_or(self.gauge, |state| state.gauge)
    }

    /// The shrinkage measured on a roll, none when the roll is not listed or
    /// was not measured.
    pub(crate) fn shrinkage(&self, roll: &RollId) -> Shrinkage {
        self.rolls
            .iter()
            .find(|state| &state.roll == roll)
            .and_then(|state| state.shrinkage)
            .unwrap_or(Shrinkage::NONE)
    }
}
