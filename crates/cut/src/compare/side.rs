//! A version as film laid out along its running frames.

use onestrand_film::{FramePos, FrameRange, Span};

use super::frames;
use crate::{Piece, PieceKind, TrialCut};

/// A version with where its pieces begin.
pub(super) struct Side<'a> {
    pub(super) pieces: &'a [Piece],
    pub(super) starts: Vec<u32>,
}

pub(super) struct Sides<'a> {
    pub(super) old: Side<'a>,
    pub(super) new: Side<'a>,
}

impl<'a> Side<'a> {
    pub(super) fn of(cut: &'a TrialCut) -> Self {
        let mut starts = Vec::with_capacity(cut.pieces().len() + 1);
        let mut at = 0;
        for piece in cut.pieces() {
            starts.push(at);
            at += piece.frames().count();
        }
        starts.push(at);
        Self {
            pieces: cut.pieces(),
            starts,
        }
    }

    /// The piece that holds a running frame; pieces without frames hold none.
    pub(super) fn piece_at(&self, frame: u32) -> usize {
        self.starts.partition_point(|s| *s <= frame) - 1
    }

    /// Parts of a stretch, piece by piece: which piece, where, how many frames.
    pub(super) fn parts(&self, from: u32, to: u32) -> Vec<(usize, u32, u32)> {
        let mut out = Vec::new();
        let mut at = from;
        while at < to {
            let piece = self.piece_at(at);
            let end = self.starts[piece + 1].min(to);
            out.push((piece, at, end - at));
            at = end;
        }
        out
    }

    /// The film of a part of a piece.
    pub(super) fn film(&self, piece: usize, at: u32, count: u32) -> PieceKind {
        let skipped = at - self.starts[piece];
        match &self.pieces[piece].kind {
            PieceKind::Shot(span) => {
                let begin = span.range.begin().index() + skipped;
                let place = |n: u32| FramePos::new(n).unwrap_or(FramePos::MAX);
                let range = FrameRange::new(place(begin), place(begin + count));
                PieceKind::Shot(Span::new(span.roll.clone(), range.unwrap_or(span.range)))
            }
            PieceKind::Leader(_) => PieceKind::Leader(frames(count)),
            PieceKind::Card { title, .. } => PieceKind::Card {
                frames: frames(count),
                title: title.clone(),
            },
        }
    }
}
