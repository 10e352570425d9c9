//! What a question is about, so that its answer stays with it.

use std::fmt;
use std::str::FromStr;

use onestrand_film::FrameName;

use super::QuestionKind;

/// What a question is about: a kind, perhaps a mover, and the takes, rolls or
/// frames on both sides. It names no position, so that an answer stays when the
/// rest of the cut changes.
///
/// Written `direction|Ida|2-T2|2A-T1`, to be kept as it is.
///
/// ```
/// # use onestrand_cut::QuestionKey;
/// let key: QuestionKey = "jump||R2·1495|R2·1532".parse()?;
/// assert_eq!(key.to_string(), "jump||R2·1495|R2·1532");
/// assert!("jump".parse::<QuestionKey>().is_err());
/// # Ok::<(), onestrand_cut::QuestionKeyError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct QuestionKey {
    kind: QuestionKind,
    who: String,
    sides: [String; 2],
}

/// A text that is no key of a question.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{found:?} names no question")]
pub struct QuestionKeyError {
    /// The text as given.
    pub found: String,
}

impl QuestionKey {
    pub(super) fn new(kind: QuestionKind, who: &str, sides: [String; 2]) -> Self {
        let plain = |text: &str| text.replace('|', " ");
        Self {
            kind,
            who: plain(who),
            sides: sides.map(|side| plain(&side)),
        }
    }

    /// The kind of the question.
    #[must_use]
    pub const fn kind(&self) -> QuestionKind {
        self.kind
    }

    /// Whether an answer to this question is one to another.
    ///
    /// It is when they are about the same; and a join nudged by up to `nudge`
    /// frames is still the join that was answered for, a piece made longer still
    /// the piece.
    #[must_use]
    pub fn answers(&self, other: &Self, nudge: u32) -> bool {
        if self.kind != other.kind || self.who != other.who {
            return false;
        }
        if self.sides == other.sides {
            return true;
        }
        let Some((mine, theirs)) = self.frames().zip(other.frames()) else {
            return false;
        };
        let near = |a: &FrameName, b: &FrameName| {
            a.roll == b.roll && a.frame.since(b.frame).frames().unsigned_abs() <= nudge
        };
        match self.kind {
            QuestionKind::Jump | QuestionKind::Light => {
                near(&mine[0], &theirs[0]) && near(&mine[1], &theirs[1])
            }
            QuestionKind::ShortHold => {
                let frames = |of: &[FrameName; 2]| of[1].frame.since(of[0].frame);
                near(&mine[0], &theirs[0]) && frames(&mine) <= frames(&theirs)
            }
            _ => false,
        }
    }

    fn frames(&self) -> Option<[FrameName; 2]> {
        Some([self.sides[0].parse().ok()?, self.sides[1].parse().ok()?])
    }
}

impl fmt::Display for QuestionKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [before, after] = &self.sides;
        write!(f, "{}|{}|{before}|{after}", self.kind.code(), self.who)
    }
}

impl FromStr for QuestionKey {
    type Err = QuestionKeyError;
    fn from_str(text: &str) -> Result<Self, QuestionKeyError> {
        let bad = || QuestionKeyError {
            found: text.to_owned(),
        };
        let parts: Vec<&str> = text.split('|').collect();
        let [kind, who, before, after] = parts.as_slice() else {
            return Err(bad());
        };
        let known = QuestionKind::ALL.into_iter().find(|k| k.code() == *kind);
        let sides = [(*before).to_owned(), (*after).to_owned()];
        Ok(Self::new(known.ok_or_else(bad)?, who, sides))
    }
}
