//! The films that are to be wound, and the places where one may be divided.

use onestrand_cut::{Base, PieceKind, TrialCut};
use onestrand_film::{Frames, Span};
use onestrand_store::Production;

use crate::error::unfit;
use crate::reel_plan::ReelPlanRequest;
use crate::{ProductionError, strand};

/// A film with the places where it may be divided.
pub(crate) struct FilmToWind {
    pub(crate) cut: String,
    pub(crate) frames: Frames,
    pub(crate) can_be_cut: bool,
    /// Length and positions of each strip: it is divided at a join at most.
    pub(crate) strips: Vec<(u32, usize, usize)>,
}

/// The films asked for, in order.
pub(crate) fn films(
    production: &Production,
    request: &ReelPlanRequest,
) -> Result<Vec<FilmToWind>, ProductionError> {
    if request.cuts.is_empty() {
        return Err(unfit(
            "no version is said that is to be wound".to_owned(),
            "say one or several, in the order in which they are shown",
        ));
    }
    if request.cuts.len() > 100 {
        return Err(unfit(
            "more than 100 films in one programme".to_owned(),
            "make two programmes of it",
        ));
    }
    let mut films = Vec::new();
    for name in &request.cuts {
        if films.iter().any(|film: &FilmToWind| &film.cut == name) {
            return Err(unfit(
                format!("{name} stands twice in the programme"),
                "film exists once: it is wound on one reel",
            ));
        }
        let checked = strand::checked(production, name, None)?;
        if checked.cut.pieces().is_empty() {
            return Err(unfit(
                format!("{name} has no piece yet"),
                "lay something in, or leave it out",
            ));
        }
        films.push(FilmToWind {
            cut: name.clone(),
            frames: checked.cut.frames(),
            can_be_cut: checked.refused.is_empty(),
            strips: strips(&checked.cut),
        });
    }
    Ok(films)
}

/// Pieces that continue each other are one strip: there is no join between them.
fn strips(cut: &TrialCut) -> Vec<(u32, usize, usize)> {
    let mut strips: Vec<(u32, usize, usize)> = Vec::new();
    let mut last = None;
    for (position, piece) in (1..).zip(cut.pieces()) {
        let span = match &piece.kind {
            PieceKind::Shot(span) => Some(span),
            _ => None,
        };
        let continues = last
            .zip(span)
            .is_some_and(|(a, b): (&Span, _)| a.roll == b.roll && a.range.end() == b.range.begin());
        match strips.last_mut().filter(|_| continues) {
            Some((frames, _, to)) => {
                *frames += piece.frames().count();
                *to = position;
            }
            None => strips.push((piece.frames().count(), position, position)),
        }
        last = span;
    }
    strips
}

/// The bases of the rolls that the films are cut from.
pub(crate) fn bases(
    production: &Production,
    films: &[FilmToWind],
) -> Result<Vec<Base>, ProductionError> {
    let mut bases = Vec::new();
    for film in films {
        for piece in strand::cut(production, &film.cut)?.pieces() {
            if let PieceKind::Shot(span) = &piece.kind
                && let Ok(roll) = production.roll(&span.roll.to_string())
            {
                bases.push(roll.to_model()?.base);
            }
        }
    }
    bases.dedup();
    Ok(bases)
}
