//! The change list carried out on the old version.

use onestrand_film::{FrameRange, Frames, Span};

use super::lines::gaps;
use super::side::Side;
use super::{Act, Comparison, Paper, Row};
use crate::{Piece, PieceKind, TrialCut};

/// The change list is of another version.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum NotThisVersion {
    /// Its length is another.
    #[error("the change list is of a version of {expected} frames; this one has {found}")]
    Length {
        /// Frames of the version it is of.
        expected: Frames,
        /// Frames of the version it was to be applied to.
        found: Frames,
    },
    /// Pieces do not lie where the list has them.
    #[error("the change list does not fit this version at frame {at} of the new one")]
    Pieces {
        /// Running frame of the new version.
        at: u32,
    },
}

impl NotThisVersion {
    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        "compare the two versions anew; one of them has been changed since"
    }
}

impl Comparison {
    /// Carries the list out on the old version, which gives the new one.
    ///
    /// What comes in is taken from the list; all else from the old version.
    ///
    /// # Errors
    /// [`NotThisVersion`] when it is not the version that the list is of.
    pub fn apply(&self, old: &TrialCut) -> Result<TrialCut, NotThisVersion> {
        if old.frames() != self.old_frames {
            return Err(NotThisVersion::Length {
                expected: self.old_frames,
                found: old.frames(),
            });
        }
        let mut film = Film::default();
        for part in self.in_new_order(old) {
            film.add(part);
        }
        let mut pieces = Vec::with_capacity(self.rows.len());
        for row in &self.rows {
            pieces.push(self.piece(row, old, &mut film)?);
        }
        Ok(TrialCut::new(pieces, self.usual_join))
    }

    /// The film as it lies after the list: what stays in its order, and between
    /// it what comes in or was moved, at the places named.
    fn in_new_order(&self, old: &TrialCut) -> Vec<PieceKind> {
        let side = Side::of(old);
        let mut comes: Vec<(u32, Vec<PieceKind>)> = Vec::new();
        let mut goes: Vec<(u32, u32)> = Vec::new();
        for line in &self.changes {
            let (at, count) = (line.at.count(), line.frames.count());
            let to = line.to.map(Frames::count);
            match (line.act, to) {
                (Act::Move, Some(to)) => {
                    goes.push((at, count));
                    comes.push((to, cut_from(&side, at, count)));
                }
                (Act::Insert | Act::Extend, Some(to)) => comes.push((to, vec![line.film.clone()])),
                _ => goes.push((at, count)),
            }
        }
        comes.sort_by_key(|c| c.0);
        let mut left = gaps(goes.into_iter(), self.old_frames.count()).into_iter();
        let mut open = left.next();
        let (mut out, mut laid) = (Vec::new(), 0);
        let ends = comes.into_iter().map(|(to, film)| (to, Some(film)));
        for (to, film) in ends.chain([(u32::MAX, None)]) {
            while let Some((from, end)) = open.filter(|_| laid < to) {
                let count = (end - from).min(to - laid);
                out.extend(cut_from(&side, from, count));
                laid += count;
                open = if from + count < end {
                    Some((from + count, end))
                } else {
                    left.next()
                };
            }
            for part in film.into_iter().flatten() {
                laid += length(&part);
                out.push(part);
            }
        }
        out
    }

    fn piece(&self, row: &Row, old: &TrialCut, film: &mut Film) -> Result<Piece, NotThisVersion> {
        let (paper, frames) = match row {
            Row::Like(like, frames) => {
                let piece = old.pieces().get(*like);
                let at = film.taken;
                let piece = piece.ok_or(NotThisVersion::Pieces { at })?;
                (Paper::of(piece), *frames)
            }
            Row::Written(paper, frames) => (paper.clone(), *frames),
            Row::Bare(piece) => return Ok(piece.clone()),
        };
        Ok(Piece {
            kind: film.take(frames)?,
            slate: paper.slate,
            join: paper.join,
            effect: paper.effect,
            note: paper.note,
        })
    }
}

/// Film of the old version, piece by piece.
fn cut_from(side: &Side<'_>, at: u32, count: u32) -> Vec<PieceKind> {
    side.parts(at, at + count)
        .into_iter()
        .map(|(piece, at, count)| side.film(piece, at, count))
        .collect()
}

fn length(kind: &PieceKind) -> u32 {
    match kind {
        PieceKind::Shot(span) => span.range.len().count(),
        PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => frames.count(),
    }
}

/// Film one after the other, taken off its head in pieces.
#[derive(Debug, Default)]
struct Film {
    parts: std::collections::VecDeque<PieceKind>,
    taken: u32,
}

impl Film {
    fn add(&mut self, part: PieceKind) {
        if length(&part) > 0 {
            self.parts.push_back(part);
        }
    }

    /// The next frames as one piece.
    fn take(&mut self, frames: Frames) -> Result<PieceKind, NotThisVersion> {
        let at = self.taken;
        let bad = || NotThisVersion::Pieces { at };
        let mut piece: Option<PieceKind> = None;
        let mut wanted = frames.count();
        while wanted > 0 {
            let part = self.parts.pop_front().ok_or_else(bad)?;
            let (part, rest) = divided(part, wanted).ok_or_else(bad)?;
            wanted -= length(&part);
            if let Some(rest) = rest {
                self.parts.push_front(rest);
            }
            piece = Some(match piece {
                None => part,
                Some(before) => one_piece(before, part).ok_or_else(bad)?,
            });
        }
        self.taken += frames.count();
        piece.ok_or_else(bad)
    }
}

/// The first so many frames of a part, and what is left of it.
fn divided(part: PieceKind, count: u32) -> Option<(PieceKind, Option<PieceKind>)> {
    if length(&part) <= count {
        return Some((part, None));
    }
    let rest = Frames::new(length(&part) - count).ok()?;
    let count = Frames::new(count).ok()?;
    Some(match part {
        PieceKind::Shot(span) => {
            let middle = span.range.begin().plus(count).ok()?;
            let head = FrameRange::new(span.range.begin(), middle).ok()?;
            let tail = FrameRange::new(middle, span.range.end()).ok()?;
            let of = |range| PieceKind::Shot(Span::new(span.roll.clone(), range));
            (of(head), Some(of(tail)))
        }
        PieceKind::Leader(_) => (PieceKind::Leader(count), Some(PieceKind::Leader(rest))),
        PieceKind::Card { title, .. } => {
            let of = |frames| PieceKind::Card {
                frames,
                title: title.clone(),
            };
            (of(count), Some(of(rest)))
        }
    })
}

/// Two parts as one piece, if they continue each other.
fn one_piece(before: PieceKind, after: PieceKind) -> Option<PieceKind> {
    match (before, after) {
        (PieceKind::Shot(a), PieceKind::Shot(b)) => {
            let fits = a.roll == b.roll && a.range.end() == b.range.begin();
            let range = FrameRange::new(a.range.begin(), b.range.end()).ok()?;
            fits.then(|| PieceKind::Shot(Span::new(a.roll, range)))
        }
        (PieceKind::Leader(a), PieceKind::Leader(b)) => Some(PieceKind::Leader(a.checked_add(b)?)),
        (
            PieceKind::Card { frames: a, title },
            PieceKind::Card {
                frames: b,
                title: other,
            },
        ) => {
            let frames = a.checked_add(b)?;
            (title == other).then_some(PieceKind::Card { frames, title })
        }
        _ => None,
    }
}
