//! The table of joins: what each kind eats, marks and loses. Data, not code.

use std::fmt;
use std::str::FromStr;

use onestrand_film::Gauge;

/// A way of joining two ends of film.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum JoinKind {
    /// A patch of tape over a butt on the frame line.
    Tape,
    /// Two ends overlapped and dissolved into each other.
    Cement,
    /// Bevelled or solvent-welded ends.
    Weld,
}

impl JoinKind {
    /// Every kind, gentlest first.
    pub const ALL: [Self; 3] = [Self::Tape, Self::Cement, Self::Weld];

    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tape => "tape",
            Self::Cement => "cement",
            Self::Weld => "weld",
        }
    }
}

impl fmt::Display for JoinKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.word())
    }
}

/// A word that names no join.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{found:?} is no join; tape, cement or weld is")]
pub struct JoinKindError {
    /// The word as given.
    pub found: String,
}

impl FromStr for JoinKind {
    type Err = JoinKindError;
    fn from_str(text: &str) -> Result<Self, JoinKindError> {
        let plain = text.trim().to_ascii_lowercase();
        Self::ALL
            .into_iter()
            .find(|k| k.word() == plain)
            .ok_or_else(|| JoinKindError {
                found: text.to_owned(),
            })
    }
}

/// Frames on either side of a join.
///
/// Unit: frames. Range: 0 to 255 each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Bite {
    /// Of the outgoing piece, behind its last kept frame.
    pub out_tail: u8,
    /// Of the incoming piece, before its first kept frame.
    pub in_head: u8,
}

impl Bite {
    /// So many of each side.
    #[must_use]
    pub const fn new(out_tail: u8, in_head: u8) -> Self {
        Self { out_tail, in_head }
    }
}

/// One row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JoinRow {
    /// The kind of join.
    pub kind: JoinKind,
    /// Frames eaten when it is made.
    pub bite: Bite,
    /// Frames marked on the screen.
    pub scar: Bite,
    /// Frames lost when it is opened.
    pub opened: Bite,
    /// The shortest piece that holds beside it. Unit: frames.
    pub shortest: u32,
}

/// What joins cost on one gauge with one splicer; to be calibrated by joining
/// two pieces of numbered leader and counting what is gone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JoinTable {
    rows: [JoinRow; 3],
}

impl JoinTable {
    /// The usual table of a gauge.
    ///
    /// Source: common practice. The one-sided lap of Super 8 (1.40 mm of
    /// 4.234 mm) and the lap about the frame line of 16 mm and regular 8 agree
    /// with SMPTE RP 122-1993 and RP 149-1992; 9.5 mm and 35 mm are taken like
    /// 16 mm, from memory.
    #[must_use]
    pub const fn usual(gauge: Gauge) -> Self {
        let cement = match gauge {
            Gauge::Super8 => JoinRow {
                kind: JoinKind::Cement,
                bite: Bite::new(1, 0),
                scar: Bite::new(1, 0),
                opened: Bite::new(0, 1),
                shortest: 8,
            },
            _ => JoinRow {
                kind: JoinKind::Cement,
                bite: Bite::new(1, 1),
                scar: Bite::new(1, 1),
                opened: Bite::new(1, 1),
                shortest: 8,
            },
        };
        let tape = JoinRow {
            kind: JoinKind::Tape,
            bite: Bite::new(0, 0),
            scar: Bite::new(2, 2),
            opened: Bite::new(0, 0),
            shortest: 6,
        };
        let weld = JoinRow {
            kind: JoinKind::Weld,
            bite: Bite::new(1, 1),
            scar: Bite::new(1, 1),
            opened: Bite::new(1, 1),
            shortest: 8,
        };
        Self {
            rows: [tape, cement, weld],
        }
    }

    /// The row of a kind.
    #[must_use]
    pub fn row(&self, kind: JoinKind) -> &JoinRow {
        match kind {
            JoinKind::Tape => &self.rows[0],
            JoinKind::Cement => &self.rows[1],
            JoinKind::Weld => &self.rows[2],
        }
    }

    /// The same table with one row exchanged.
    #[must_use]
    pub fn with(mut self, row: JoinRow) -> Self {
        match row.kind {
            JoinKind::Tape => self.rows[0] = row,
            JoinKind::Cement => self.rows[1] = row,
            JoinKind::Weld => self.rows[2] = row,
        }
        self
    }
}
