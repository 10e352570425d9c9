//! Names: of a roll, of a frame, of a run of frames.

use std::fmt;
use std::str::FromStr;
use std::sync::Arc;

use crate::{FramePos, Frames, UnitError};

/// The name of a camera roll, such as `R1`.
///
/// Range: 1 to 16 letters, digits, `-` or `_`, beginning with a letter or a
/// digit, so that it can stand in a file name, a CSV cell and on a pin label.
/// `leader` and `card` are taken: on a cutting sheet they name other things.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct RollId(Arc<str>);

impl RollId {
    /// A roll by its name.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] outside the range above.
    pub fn new(name: &str) -> Result<Self, UnitError> {
        let plain = name.trim();
        let fits = (1..=16).contains(&plain.len())
            && plain.starts_with(|c: char| c.is_ascii_alphanumeric())
            && plain
                .chars()
                .all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_')
            && !["leader", "card"].contains(&plain.to_ascii_lowercase().as_str());
        if !fits {
            return Err(UnitError::unreadable("the name of a roll", name, "R1"));
        }
        Ok(Self(plain.into()))
    }

    /// The name as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Ord for RollId {
    /// R2 comes before R10: numbers inside names are compared as numbers.
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        // Equal names are the common case in a sweep over a cut, and the same
        // name is often the same piece of memory.
        if Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0 {
            return std::cmp::Ordering::Equal;
        }
        let (head, number) = head_and_number(&self.0);
        let (other_head, other_number) = head_and_number(&other.0);
        head.cmp(other_head)
            .then(number.cmp(&other_number))
            .then_with(|| self.0.cmp(&other.0))
    }
}

/// `R10` as `R` and 10.
fn head_and_number(name: &str) -> (&str, u64) {
    let head = name.trim_end_matches(|c: char| c.is_ascii_digit());
    (head, name[head.len()..].parse().unwrap_or(0))
}

impl PartialOrd for RollId {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for RollId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl FromStr for RollId {
    type Err = UnitError;
    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::new(text)
    }
}

/// The name of one frame of camera original: roll and frame, `R2·547`.
///
/// ```
/// # use onestrand_film::FrameName;
/// let name: FrameName = "R2·547".parse()?;
/// assert_eq!(name, "R2.547".parse()?);
/// assert_eq!(name.to_string(), "R2·547");
/// assert!("R2".parse::<FrameName>().is_err());
/// # Ok::<(), onestrand_film::UnitError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FrameName {
    /// The roll.
    pub roll: RollId,
    /// The frame, counted from the head of the roll.
    pub frame: FramePos,
}

impl fmt::Display for FrameName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}·{}", self.roll, self.frame)
    }
}

impl FromStr for FrameName {
    type Err = UnitError;

    /// Reads `R2·547` and `R2.547`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`] or [`UnitError::OutOfRange`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("the name of a frame", text, "R2·547");
        let (roll, frame) = text.trim().split_once(['·', '.']).ok_or_else(bad)?;
        Ok(Self {
            roll: RollId::new(roll).map_err(|_| bad())?,
            frame: frame.parse().map_err(|_| bad())?,
        })
    }
}

/// A run of frames, half-open: from the first kept to the first thrown away.
///
/// Range: at least one frame; never reversed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FrameRange {
    begin: FramePos,
    end: FramePos,
}

impl FrameRange {
    /// The frames from `begin` up to, not including, `end`.
    ///
    /// # Errors
    /// [`UnitError::Reversed`] when no frame would be left.
    pub fn new(begin: FramePos, end: FramePos) -> Result<Self, UnitError> {
        if end <= begin {
            let (begin, end) = (begin.index(), end.index());
            return Err(UnitError::Reversed { begin, end });
        }
        Ok(Self { begin, end })
    }

    /// The same from plain numbers.
    ///
    /// # Errors
    /// As [`FrameRange::new`] and [`FramePos::new`].
    pub fn of(begin: u32, end: u32) -> Result<Self, UnitError> {
        Self::new(FramePos::new(begin)?, FramePos::new(end)?)
    }

    /// The first frame kept.
    #[must_use]
    pub const fn begin(self) -> FramePos {
        self.begin
    }

    /// The first frame thrown away.
    #[must_use]
    pub const fn end(self) -> FramePos {
        self.end
    }

    /// The last frame kept: what the hand looks for.
    #[must_use]
    pub fn last(self) -> FramePos {
        // The range holds at least one frame, so end is at least 1.
        FramePos::new(self.end.index() - 1).unwrap_or(self.begin)
    }

    /// How many frames it holds.
    #[must_use]
    pub fn len(self) -> Frames {
        Frames::new(self.end.index() - self.begin.index()).unwrap_or(Frames::MAX)
    }

    /// Never: a range holds at least one frame.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        false
    }

    /// Whether a frame lies inside.
    #[must_use]
    pub fn contains(self, frame: FramePos) -> bool {
        self.begin <= frame && frame < self.end
    }

    /// The frames that both hold.
    #[must_use]
    pub fn overlap(self, other: Self) -> Option<Self> {
        Self::new(self.begin.max(other.begin), self.end.min(other.end)).ok()
    }
}

impl fmt::Display for FrameRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "[{},{})", self.begin, self.end)
    }
}

/// A run of frames of one roll.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The roll.
    pub roll: RollId,
    /// The frames.
    pub range: FrameRange,
}

impl Span {
    /// A span from a roll and its frames.
    #[must_use]
    pub const fn new(roll: RollId, range: FrameRange) -> Self {
        Self { roll, range }
    }

    /// The name of the first frame kept.
    #[must_use]
    pub fn first(&self) -> FrameName {
        FrameName {
            roll: self.roll.clone(),
            frame: self.range.begin(),
        }
    }

    /// The name of the last frame kept.
    #[must_use]
    pub fn last(&self) -> FrameName {
        FrameName {
            roll: self.roll.clone(),
            frame: self.range.last(),
        }
    }
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.roll, self.range)
    }
}

impl FromStr for Span {
    type Err = UnitError;

    /// Reads `R1[402,546)`.
    ///
    /// # Errors
    /// [`UnitError::Unreadable`], [`UnitError::Reversed`] or
    /// [`UnitError::OutOfRange`].
    fn from_str(text: &str) -> Result<Self, UnitError> {
        let bad = || UnitError::unreadable("a span", text, "R1[402,546)");
        let (roll, rest) = text.trim().split_once('[').ok_or_else(bad)?;
        let (begin, end) = rest
            .strip_suffix(')')
            .and_then(|r| r.split_once(','))
            .ok_or_else(bad)?;
        let range = FrameRange::new(begin.parse()?, end.parse()?)?;
        Ok(Self::new(RollId::new(roll)?, range))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rolls_sort_as_people_count() {
        let mut rolls: Vec<RollId> = ["R10", "R2", "A1", "R1"]
            .iter()
            .map(|n| RollId::new(n).expect("a good name"))
            .collect();
        rolls.sort();
        let names: Vec<&str> = rolls.iter().map(RollId::as_str).collect();
        assert_eq!(names, ["A1", "R1", "R2", "R10"]);
    }

    #[test]
    fn names_that_would_break_a_sheet_are_refused() {
        for name in [
            "",
            "../R1",
            "R 1",
            "leader",
            "Card",
            "R·1",
            "-R1",
            "ABCDEFGHIJKLMNOPQ",
        ] {
            assert!(RollId::new(name).is_err(), "{name}");
        }
    }

    #[test]
    fn spans_round_trip() {
        let span: Span = "R1[402,546)".parse().expect("a span");
        assert_eq!(span.to_string(), "R1[402,546)");
        assert_eq!(span.last().to_string(), "R1·545");
        assert!("R1[546,402)".parse::<Span>().is_err());
        assert!("R1[5,5)".parse::<Span>().is_err());
    }
}
