//! A twin in the place of a piece, and an effect taken off.

use super::layout::Trial;
use super::words::{one_change, replace};
use super::{Case, Remedy, RemedyKind, WaysOut};
use crate::{Change, ConflictKind, Piece, PieceKind, Twin, TwinBy};

impl WaysOut<'_> {
    /// For each piece that quarrels over its frames, its twins: the ones with
    /// the fewest frames first. Each is tried.
    pub(super) fn twins(&self, case: &Case<'_>) -> Vec<Remedy> {
        let conflict = case.conflict;
        let of_frames = matches!(
            conflict.kind,
            ConflictKind::Doubled
                | ConflictKind::Bite
                | ConflictKind::OutsideRoll
                | ConflictKind::Effect
                | ConflictKind::Protected
        );
        if !of_frames {
            return Vec::new();
        }
        let mut out = Vec::new();
        for &at in &case.quarrel {
            let piece = &self.cut.pieces()[at];
            let Some(span) = piece.span() else { continue };
            if conflict.roll.as_ref().is_some_and(|r| *r != span.roll) {
                continue;
            }
            for twin in self.twins.twins_of(span) {
                if let Some(now) = twin_piece(piece, &twin)
                    && let Some(warns) = self.tried(at, &now, case)
                {
                    out.push(twin_remedy(at, &twin, now, warns));
                }
            }
        }
        out
    }

    /// The effect that a conflict is about taken off its piece.
    pub(super) fn effect_off(&self, case: &Case<'_>) -> Option<Remedy> {
        let at = *case.quarrel.first()?;
        let piece = &self.cut.pieces()[at];
        let effect = piece.effect?;
        if case.conflict.kind != ConflictKind::Effect {
            return None;
        }
        let now = Piece {
            effect: None,
            ..piece.clone()
        };
        let warns = self.tried(at, &now, case)?;
        Some(Remedy {
            kind: RemedyKind::EffectOff,
            text: format!(
                "show {} as it was shot, without the {}",
                at + 1,
                effect.word()
            ),
            joins: 0,
            frames: 0,
            mends: true,
            warns,
            change: replace(at, now),
        })
    }

    /// Whether a piece can stand in the place of another, and then whether it
    /// brings a new warning.
    fn tried(&self, at: usize, piece: &Piece, case: &Case<'_>) -> Option<bool> {
        let spot = self.layout.spot_of(piece);
        // A twin on a roll that nobody has brought in is none.
        if piece.span().is_some() && spot.roll.is_none() {
            return None;
        }
        let trial = Trial {
            spots: vec![(at, spot)],
            kinds: Vec::new(),
        };
        self.reaches(&trial, &case.loose, &case.quarrel)
            .then(|| !self.reaches(&trial, &case.strict, &case.quarrel))
    }
}

fn twin_piece(piece: &Piece, twin: &Twin) -> Option<Piece> {
    (piece.span() != Some(&twin.span)).then(|| Piece {
        kind: PieceKind::Shot(twin.span.clone()),
        slate: twin.slate.clone(),
        effect: None,
        ..piece.clone()
    })
}

fn twin_remedy(at: usize, twin: &Twin, now: Piece, warns: bool) -> Remedy {
    let range = twin.span.range;
    let called = match &twin.slate {
        Some(slate) => format!("the twin {slate}"),
        None => "the twin".to_owned(),
    };
    let by = match twin.by {
        TwinBy::Map => "",
        TwinBy::Setup => "by its setup; look where the action lies; ",
    };
    let frames = range.len().count();
    let text = format!(
        "put {called} in for {}: {}·{} to {}, {by}{}",
        at + 1,
        twin.span.roll,
        range.begin(),
        range.last(),
        super::words::frames_in_words(u64::from(frames))
    );
    let change: Change = one_change(vec![replace(at, now)]);
    Remedy {
        kind: RemedyKind::Twin,
        text,
        joins: 2,
        frames,
        mends: true,
        warns,
        change,
    }
}
