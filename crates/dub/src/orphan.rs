//! Places for a cue whose own is not in the version.

use crate::{Anchor, Placed};

/// What somebody wrote on a frame: `bell stroke`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// The roll.
    pub roll: String,
    /// The frame.
    pub frame: u32,
    /// The words.
    pub words: String,
}

/// Why a place is proposed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Why {
    /// Another take has a mark of the same words there.
    SameMark {
        /// The words.
        words: String,
        /// Which of them in its take, counted from 1.
        nth: usize,
    },
    /// As far from the next marks that both takes have.
    BesideMark {
        /// The words of the mark it is measured from.
        words: String,
    },
    /// It is the nearest frame of the same take that is left.
    NearestLeft {
        /// How far. Unit: frames.
        frames: u32,
    },
}

/// A place for an orphan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proposal {
    /// The running frame.
    pub at: i64,
    /// What it would hold to.
    pub anchor: Anchor,
    /// Why there.
    pub why: Why,
}

fn alike(a: &str, b: &str) -> bool {
    a.trim().eq_ignore_ascii_case(b.trim())
}

/// A mark in its take: which of its words, counted from 1.
fn nth(version: &Placed, marks: &[Mark], mark: &Mark) -> usize {
    let take = version.take_of(&mark.roll, mark.frame);
    let before = marks.iter().filter(|other| {
        other.roll == mark.roll
            && other.frame < mark.frame
            && alike(&other.words, &mark.words)
            && version.take_of(&other.roll, other.frame) == take
    });
    1 + before.count()
}

/// Places for what held to a frame that is not shown, best first, and no place twice: the
/// same mark in another take; as far from a mark that another take has too; the nearest
/// frame of its own take that is shown.
#[must_use]
pub fn proposals(roll: &str, frame: u32, marks: &[Mark], version: &Placed) -> Vec<Proposal> {
    let mut found = same_mark(roll, frame, marks, version);
    found.extend(beside_mark(roll, frame, marks, version));
    found.extend(nearest_left(roll, frame, version));
    let mut seen = std::collections::BTreeSet::new();
    found.retain(|proposal| seen.insert(proposal.at));
    found
}

fn same_mark(roll: &str, frame: u32, marks: &[Mark], version: &Placed) -> Vec<Proposal> {
    let mine: Vec<&Mark> = marks
        .iter()
        .filter(|mark| mark.roll == roll && mark.frame == frame)
        .collect();
    let mut found = Vec::new();
    for my in mine {
        let which = nth(version, marks, my);
        for other in marks {
            let itself = other.roll == my.roll && other.frame == my.frame;
            if itself || !alike(&other.words, &my.words) || nth(version, marks, other) != which {
                continue;
            }
            if let Some(at) = version.shown(&other.roll, other.frame) {
                found.push(Proposal {
                    at,
                    anchor: held(other, 0),
                    why: Why::SameMark {
                        words: other.words.clone(),
                        nth: which,
                    },
                });
            }
        }
    }
    found
}

/// The anchor on the frame so far from a mark.
fn held(mark: &Mark, further: i64) -> Anchor {
    let frame = i64::from(mark.frame) + further;
    Anchor::Frame {
        roll: mark.roll.clone(),
        frame: u32::try_from(frame).unwrap_or(0),
    }
}

fn beside_mark(roll: &str, frame: u32, marks: &[Mark], version: &Placed) -> Vec<Proposal> {
    let take = version.take_of(roll, frame);
    let mut near: Vec<&Mark> = marks
        .iter()
        .filter(|m| m.roll == roll && m.frame != frame && version.take_of(roll, m.frame) == take)
        .collect();
    near.sort_by_key(|mark| mark.frame.abs_diff(frame));
    let mut found = Vec::new();
    for my in near {
        let further = i64::from(frame) - i64::from(my.frame);
        let which = nth(version, marks, my);
        for other in marks {
            let same_take = other.roll == my.roll && version.take_of(roll, other.frame) == take;
            if same_take || !alike(&other.words, &my.words) || nth(version, marks, other) != which {
                continue;
            }
            let anchor = held(other, further);
            if let Some(at) = anchor.in_version(version) {
                let words = my.words.clone();
                let why = Why::BesideMark { words };
                found.push(Proposal { at, anchor, why });
            }
        }
    }
    found
}

fn nearest_left(roll: &str, frame: u32, version: &Placed) -> Option<Proposal> {
    let take = version.take_of(roll, frame)?;
    let shown = version.pieces().iter().filter_map(|piece| {
        let shows = piece.shows.as_ref().filter(|shows| shows.roll == roll)?;
        let last = shows.first + piece.frames.checked_sub(1)?;
        let nearest = frame.clamp(shows.first, last);
        let same = version.take_of(roll, nearest) == Some(take);
        same.then(|| (nearest.abs_diff(frame), nearest))
    });
    let (frames, nearest) = shown.min()?;
    let anchor = Anchor::Frame {
        roll: roll.to_owned(),
        frame: nearest,
    };
    let at = anchor.in_version(version)?;
    let why = Why::NearestLeft { frames };
    Some(Proposal { at, anchor, why })
}
