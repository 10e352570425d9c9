//! An invented production of full size: twenty rolls, three hundred takes, a
//! cut of three hundred pieces.

use onestrand_cut::{Change, CheckRules, PieceKind};
use onestrand_cut::{JoinKind, JoinTable, Piece, Roll, Strand, Take, TrialCut};
use onestrand_film::{Fps, FrameRange, Gauge, RollId, Span};
use onestrand_store::{
    Act, CutRecord, InspectionRecord, Meta, RollRecord, ScanFacts, ScanRecord, StoreError,
    TakeRecord,
};

use crate::trouble::Trouble;

/// Rolls.
pub(crate) const ROLLS: u32 = 20;
/// Frames of each roll: 50 ft of Super 8.
pub(crate) const FRAMES: u32 = 3_600;
/// Takes of each roll.
pub(crate) const TAKES: u32 = 15;
/// Pieces of the cut: one of each take.
pub(crate) const PIECES: u32 = ROLLS * TAKES;
/// The name of the cut.
pub(crate) const CUT: &str = "v1";

/// Frames of a take.
const TAKE: u32 = FRAMES / TAKES;
/// In the cut, the next piece is of the take so many further on; it has no
/// factor in common with their number, so each comes once.
const STRIDE: u32 = 77;

/// What the production is called.
pub(crate) fn meta() -> Meta {
    Meta {
        title: "Benchmark".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    }
}

/// The names of the rolls, in order.
pub(crate) fn names() -> impl Iterator<Item = String> {
    (1..=ROLLS).map(|roll| format!("R{roll}"))
}

/// A roll as the store keeps it.
pub(crate) fn roll(name: &str) -> RollRecord {
    RollRecord {
        name: name.to_owned(),
        gauge: Gauge::Super8.to_string(),
        film_speed: Fps::EIGHTEEN.to_string(),
        base: "triacetate".to_owned(),
        fit: "project".to_owned(),
        wind: Some("B".to_owned()),
        frames: FRAMES,
        missing: 0,
        expected: Some(FRAMES),
        measured: Some("50ft0".to_owned()),
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: vec![scan(name)],
    }
}

fn scan(name: &str) -> ScanRecord {
    ScanRecord {
        paths: vec![format!("scans/{name}.mkv")],
        bytes: 2_000_000_000,
        blake3: "0".repeat(64),
        facts: ScanFacts {
            frames: FRAMES.into(),
            rate: "18".to_owned(),
            width: 1_440,
            height: 1_080,
            coding: "ffv1 yuv422p10le".to_owned(),
        },
    }
}

/// The takes of a roll as the store keeps them, logged in full.
pub(crate) fn takes(name: &str) -> Vec<TakeRecord> {
    let one = |take: u32| TakeRecord {
        roll: name.to_owned(),
        first: take * TAKE,
        thrown: (take + 1) * TAKE,
        setup: Some(format!("{}A", take + 1)),
        take: Some(1),
        rating: "circled".to_owned(),
        size: "medium".to_owned(),
        camera_move: "still".to_owned(),
        direction: "to the right".to_owned(),
        action: "crosses the yard and shuts the gate".to_owned(),
        note: "wind in the trees".to_owned(),
        begins: "camera_stop".to_owned(),
        flash_frames: 1,
        flash_stops: Some(1.0),
        looked: false,
        pin: Some(take + 1),
    };
    (0..TAKES).map(one).collect()
}

/// The strand that the rolls and takes make.
pub(crate) fn strand() -> Result<Strand, StoreError> {
    let rolls = names().map(|name| roll(&name).to_model());
    let takes = names().flat_map(|name| takes(&name));
    let takes = takes.map(|take| take.to_model());
    Ok(Strand::new(
        Gauge::Super8,
        rolls.collect::<Result<Vec<Roll>, _>>()?,
        takes.collect::<Result<Vec<Take>, _>>()?,
    ))
}

/// What the check counts by.
pub(crate) fn rules() -> CheckRules {
    CheckRules {
        table: JoinTable::usual(Gauge::Super8),
    }
}

/// The cut: one piece out of the middle of each take, in another order than on
/// the rolls, joined with cement.
pub(crate) fn cut() -> Result<TrialCut, Trouble> {
    let pieces = (0..PIECES).map(|position| {
        let take = position * STRIDE % PIECES;
        let begin = take % TAKES * TAKE + 20 + position * 13 % 40;
        let length = 60 + position * 29 % 100;
        shot(take / TAKES, begin, begin + length)
    });
    Ok(TrialCut::new(
        pieces.collect::<Result<_, _>>()?,
        JoinKind::Cement,
    ))
}

/// The cut with one piece so changed that it wants the first twelve frames of
/// another piece.
pub(crate) fn cut_with_conflict() -> Result<TrialCut, Trouble> {
    let cut = cut()?;
    let wanted = cut.pieces().get(40).and_then(Piece::span).cloned();
    let Some(span) = wanted else { return Ok(cut) };
    let begin = span.range.begin().index();
    let kind = PieceKind::Shot(Span::new(
        span.roll,
        FrameRange::of(begin - 15, begin + 12)?,
    ));
    let piece = Piece {
        kind,
        ..cut.pieces()[11].clone()
    };
    Ok(cut.apply(&Change::Replace { at: 11, piece })?.0)
}

/// The cut as one changes it on an evening: two pieces in each other's place, two
/// lifted.
pub(crate) fn cut_with_few_changes() -> Result<TrialCut, Trouble> {
    let cut = cut()?;
    let mut pieces = cut.pieces().to_vec();
    pieces.swap(10, 200);
    pieces.remove(150);
    pieces.remove(50);
    Ok(TrialCut::new(pieces, JoinKind::Cement))
}

/// The cut with every piece begun and ended a few frames elsewhere.
pub(crate) fn cut_with_every_end_trimmed() -> Result<TrialCut, Trouble> {
    let cut = cut()?;
    let mut pieces = cut.pieces().to_vec();
    for (piece, by) in pieces.iter_mut().zip(0_u32..) {
        if let PieceKind::Shot(span) = &mut piece.kind {
            let (begin, end) = (span.range.begin().index(), span.range.end().index());
            span.range = FrameRange::of(begin + 1 + by % 5, end - 1 - by % 7)?;
        }
    }
    Ok(TrialCut::new(pieces, JoinKind::Cement))
}

/// The worst that can be asked: every piece wants the same hundred frames.
pub(crate) fn cut_of_one_span() -> Result<TrialCut, Trouble> {
    let pieces = (0..PIECES).map(|_| shot(0, 100, 200));
    Ok(TrialCut::new(
        pieces.collect::<Result<_, _>>()?,
        JoinKind::Cement,
    ))
}

fn shot(roll: u32, begin: u32, end: u32) -> Result<Piece, Trouble> {
    let roll = RollId::new(&format!("R{}", roll + 1))?;
    Ok(Piece::shot(Span::new(roll, FrameRange::of(begin, end)?)))
}

/// One edit of many: a piece ends a frame earlier, and the next time round
/// where it ended before.
pub(crate) fn trim(cut: &TrialCut, turn: u32) -> Result<Change, Trouble> {
    let at = (turn % PIECES) as usize;
    let mut piece = cut.pieces()[at].clone();
    if let PieceKind::Shot(span) = &mut piece.kind {
        let earlier = 1 - turn / PIECES % 2;
        let (begin, end) = (span.range.begin().index(), span.range.end().index());
        span.range = FrameRange::of(begin, end - earlier)?;
    }
    Ok(Change::Replace { at, piece })
}

/// One edit as an act.
pub(crate) fn trim_act(cut: &TrialCut, turn: u32) -> Result<Act, Trouble> {
    Ok(Act::ChangeCut {
        name: CUT.to_owned(),
        change: (&trim(cut, turn)?).into(),
    })
}

/// All rolls, takes and the cut, as one act.
pub(crate) fn everything(cut: &TrialCut) -> Act {
    let mut acts = Vec::new();
    for name in names() {
        acts.push(Act::PutRoll {
            name: name.clone(),
            roll: Some(Box::new(roll(&name))),
        });
        acts.push(Act::PutTakes {
            takes: takes(&name),
            roll: name,
        });
    }
    acts.push(Act::PutCut {
        name: CUT.to_owned(),
        cut: Some(CutRecord::new(cut, "")),
    });
    Act::All { acts }
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_cut::{ConflictKind, check};

    #[test]
    fn the_cut_can_be_made_and_has_three_hundred_strips() {
        let (cut, strand) = (cut().expect("spans fit"), strand().expect("records fit"));
        let answer = check(&cut, &strand, &rules());
        assert_eq!(answer.conflicts, []);
        assert_eq!((answer.pieces, answer.joins), (300, 301));
        assert!(
            answer
                .rolls
                .iter()
                .all(|roll| roll.proved && roll.used.count() > 0)
        );
    }

    #[test]
    fn the_quarrel_is_over_twelve_frames() {
        let cut = cut_with_conflict().expect("spans fit");
        let answer = check(&cut, &strand().expect("records fit"), &rules());
        let doubled = answer.refused().find(|c| c.kind == ConflictKind::Doubled);
        assert_eq!(
            doubled.map(|c| (c.frames, c.positions.clone())),
            Some((12, vec![12, 41]))
        );
    }

    #[test]
    fn a_trim_is_taken_back_the_next_time_round() {
        let cut = cut().expect("spans fit");
        let (next, _) = cut
            .apply(&trim(&cut, 7).expect("it fits"))
            .expect("it fits");
        assert_eq!(next.frames().count(), cut.frames().count() - 1);
        let (back, _) = next
            .apply(&trim(&cut, 307).expect("it fits"))
            .expect("it fits");
        assert_eq!(back, cut);
    }
}
