//! The only way a trial cut changes.

use crate::{JoinKind, Piece, TrialCut};

/// One change of a trial cut. Positions are counted from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// Lay a piece in before the one at `at` (or at the end).
    Insert {
        /// Where.
        at: usize,
        /// What.
        piece: Piece,
    },
    /// Lift the piece out.
    Remove {
        /// Which.
        at: usize,
    },
    /// Put a piece in the place of another: trim, swap, join, note.
    Replace {
        /// Which.
        at: usize,
        /// What stands there afterwards.
        piece: Piece,
    },
    /// Move a piece so that it then stands at `to`.
    Move {
        /// Which.
        from: usize,
        /// Its new position.
        to: usize,
    },
    /// Change the usual join.
    UsualJoin(JoinKind),
    /// Several changes as one, in order.
    All(Vec<Change>),
}

/// Why a change was not made.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Refusal {
    /// There is no such position.
    #[error("there is no position {position}; the cut has {pieces} pieces")]
    NoSuchPosition {
        /// Counted from 1, as on the sheet.
        position: usize,
        /// Pieces of the cut.
        pieces: usize,
    },
}

impl Refusal {
    /// The next step, in the user's words.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoSuchPosition { .. } => {
                "look at the cutting sheet once more; another window may have changed it"
            }
        }
    }
}

impl TrialCut {
    /// The cut after a change, and the change that undoes it.
    ///
    /// # Errors
    /// [`Refusal::NoSuchPosition`]; the cut is then as it was.
    pub fn apply(&self, change: &Change) -> Result<(Self, Change), Refusal> {
        let mut next = self.clone();
        let inverse = next.change(change)?;
        Ok((next, inverse))
    }

    fn change(&mut self, change: &Change) -> Result<Change, Refusal> {
        match change {
            Change::Insert { at, piece } => {
                self.within(*at, self.pieces.len() + 1)?;
                self.pieces.insert(*at, piece.clone());
                Ok(Change::Remove { at: *at })
            }
            Change::Remove { at } => {
                self.within(*at, self.pieces.len())?;
                let piece = self.pieces.remove(*at);
                Ok(Change::Insert { at: *at, piece })
            }
            Change::Replace { at, piece } => {
                self.within(*at, self.pieces.len())?;
                let before = std::mem::replace(&mut self.pieces[*at], piece.clone());
                Ok(Change::Replace {
                    at: *at,
                    piece: before,
                })
            }
            Change::Move { from, to } => {
                self.within(*from, self.pieces.len())?;
                self.within(*to, self.pieces.len())?;
                let piece = self.pieces.remove(*from);
                self.pieces.insert(*to, piece);
                Ok(Change::Move {
                    from: *to,
                    to: *from,
                })
            }
            Change::UsualJoin(kind) => {
                let before = std::mem::replace(&mut self.usual_join, *kind);
                Ok(Change::UsualJoin(before))
            }
            Change::All(changes) => self.change_all(changes),
        }
    }

    fn change_all(&mut self, changes: &[Change]) -> Result<Change, Refusal> {
        let mut inverses = Vec::with_capacity(changes.len());
        for change in changes {
            inverses.push(self.change(change)?);
        }
        inverses.reverse();
        Ok(Change::All(inverses))
    }

    fn within(&self, at: usize, bound: usize) -> Result<(), Refusal> {
        if at < bound {
            return Ok(());
        }
        Err(Refusal::NoSuchPosition {
            position: at.saturating_add(1),
            pieces: self.pieces.len(),
        })
    }
}
