//! The first assembly: every circled take, whole, in the order of the script.

use onestrand_film::{FrameDelta, FrameRange, Span};

use crate::{JoinKind, JoinRow, JoinTable, Piece, PieceKind, Rating, Slate, Strand, Take};

/// The circled takes of a strand as pieces, in script order.
///
/// Scenes go by their number, the master before its closer angles, one take of
/// a setup behind the other; a setup without a scene number is a title: the
/// main title (`M`) stands at the head, the others at the tail. Takes that
/// nobody has named come last, by roll and frame. A piece is the whole take but
/// for the frames that its two joins eat, so that neighbours on a roll never
/// bite each other. Whether a roll may be cut, and with what, is for the strand
/// check to say: takes of a roll that may not are laid in all the same.
///
/// Source: the assembly of the trade comes before the rough cut (common
/// practice). Scene numbers before setup letters: common practice too.
#[must_use]
pub fn assembly(strand: &Strand, usual_join: JoinKind, table: &JoinTable) -> Vec<Piece> {
    let row = table.row(usual_join);
    let mut takes: Vec<&Take> = strand
        .takes()
        .iter()
        .filter(|take| take.rating == Rating::Circled)
        .collect();
    takes.sort_by_key(|take| (place(take.slate.as_ref()), take.span.clone()));
    takes
        .into_iter()
        .filter_map(|take| piece(take, row))
        .collect()
}

/// Where a take stands in the script, as far as its slate tells.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    MainTitle(u16),
    Scene {
        number: u64,
        letters: String,
        take: u16,
    },
    Title(String, u16),
    Unnamed,
}

fn place(slate: Option<&Slate>) -> Place {
    let Some(slate) = slate else {
        return Place::Unnamed;
    };
    let (setup, take) = (slate.setup().to_ascii_uppercase(), slate.take());
    if slate.is_title() {
        return match setup.as_str() {
            "M" => Place::MainTitle(take),
            _ => Place::Title(setup, take),
        };
    }
    let figures = setup.chars().take_while(char::is_ascii_digit).count();
    let (number, letters) = setup.split_at(figures);
    Place::Scene {
        // A slate has twelve letters at most, which any such number fits.
        number: number.parse().unwrap_or(u64::MAX),
        letters: letters.to_owned(),
        take,
    }
}

fn piece(take: &Take, row: &JoinRow) -> Option<Piece> {
    let range = take.span.range;
    let later = FrameDelta::new(i32::from(row.bite.in_head)).ok()?;
    let earlier = FrameDelta::new(-i32::from(row.bite.out_tail)).ok()?;
    let begin = range.begin().moved(later).ok()?;
    let end = range.end().moved(earlier).ok()?;
    // A take that its joins eat whole is no piece.
    let range = FrameRange::new(begin, end).ok().filter(|r| !r.is_empty())?;
    Some(Piece {
        kind: PieceKind::Shot(Span::new(take.span.roll.clone(), range)),
        slate: take.slate.clone(),
        ..Piece::shot(take.span.clone())
    })
}
