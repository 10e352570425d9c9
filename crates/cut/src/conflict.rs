//! What stands in the way of a cut.

use onestrand_film::RollId;

/// The kinds of conflict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ConflictKind {
    /// A frame shown twice.
    Doubled,
    /// A frame eaten by a join, and also shown or eaten elsewhere.
    Bite,
    /// Frames that the roll does not have.
    OutsideRoll,
    /// An effect that no bench can make.
    Effect,
    /// Cement or weld on polyester.
    Base,
    /// Unlike gauges joined.
    Gauge,
    /// A roll that may not be cut.
    Protected,
    /// A strip too short to hold beside its joins.
    Short,
    /// A piece that reaches out of its take.
    OutsideTake,
}

/// Whether a conflict stops the cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It cannot be made so.
    Refused,
    /// It can be made; look again.
    Warned,
}

impl ConflictKind {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Doubled => "doubled",
            Self::Bite => "bite",
            Self::OutsideRoll => "outside_roll",
            Self::Effect => "effect",
            Self::Base => "base",
            Self::Gauge => "gauge",
            Self::Protected => "protected",
            Self::Short => "short",
            Self::OutsideTake => "outside_take",
        }
    }

    /// Whether it stops the cut.
    #[must_use]
    pub const fn severity(self) -> Severity {
        match self {
            Self::Short | Self::OutsideTake => Severity::Warned,
            _ => Severity::Refused,
        }
    }
}

/// One conflict, at its place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Conflict {
    /// Its kind.
    pub kind: ConflictKind,
    /// The positions it lies at, counted from 1 as on the sheet, ascending.
    /// A join stands with the positions on both its sides.
    pub positions: Vec<usize>,
    /// The roll it is about, if one.
    pub roll: Option<RollId>,
    /// The frames it is about, half-open; may lie outside the roll, and before
    /// frame 0 where a bite reaches there.
    pub span: Option<(i64, i64)>,
    /// How many frames it is about: wanted twice, missing, or too few.
    pub frames: u32,
}

impl Conflict {
    /// Whether it stops the cut.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        self.kind.severity()
    }
}
