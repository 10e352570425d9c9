//! The strand check against a count of single frames, on random cuts.
//!
//! The count below knows nothing of sweeps, stretches or strips merged ahead:
//! it walks the pieces and puts a mark on every single frame it wants.

use std::collections::BTreeMap;

use onestrand_cut::{
    Bite, Certificate, CheckRules, ConflictKind, JoinKind, JoinRow, JoinTable, Piece, Strand,
    TrialCut, check,
};
use onestrand_film::{FrameRange, Gauge, RollId, Span};
use proptest::prelude::*;

use crate::boat::{plain_roll, roll};

const ROLLS: [(&str, u32); 3] = [("A", 40), ("B", 25), ("C", 60)];

/// Wants of one frame: by how many pieces shown, by how many bites eaten.
#[derive(Default, Clone, Copy)]
struct Marks {
    shown: u32,
    eaten: u32,
}

type Count = BTreeMap<(RollId, i64), Marks>;

fn continues(before: &Piece, after: &Piece) -> bool {
    matches!((before.span(), after.span()), (Some(a), Some(b))
        if a.roll == b.roll && a.range.end() == b.range.begin())
}

fn count(cut: &TrialCut, table: &JoinTable) -> Count {
    let mut marks = Count::new();
    let pieces = cut.pieces();
    for (index, piece) in pieces.iter().enumerate() {
        let Some(span) = piece.span() else { continue };
        let (begin, end) = (
            i64::from(span.range.begin().index()),
            i64::from(span.range.end().index()),
        );
        for frame in begin..end {
            marks.entry((span.roll.clone(), frame)).or_default().shown += 1;
        }
        let joined_ahead = index == 0 || !continues(&pieces[index - 1], piece);
        if joined_ahead {
            let kind = match index {
                0 => cut.usual_join(),
                _ => pieces[index - 1].join.unwrap_or(cut.usual_join()),
            };
            for k in 1..=i64::from(table.row(kind).bite.in_head) {
                marks
                    .entry((span.roll.clone(), begin - k))
                    .or_default()
                    .eaten += 1;
            }
        }
        let joined_behind = pieces
            .get(index + 1)
            .is_none_or(|next| !continues(piece, next));
        if joined_behind {
            let kind = piece.join.unwrap_or(cut.usual_join());
            for k in 0..i64::from(table.row(kind).bite.out_tail) {
                marks.entry((span.roll.clone(), end + k)).or_default().eaten += 1;
            }
        }
    }
    marks
}

fn frames_in(answer: &Certificate, kind: ConflictKind) -> Vec<(String, i64)> {
    let mut out: Vec<(String, i64)> = answer
        .conflicts
        .iter()
        .filter(|c| c.kind == kind)
        .flat_map(|c| {
            let (begin, end) = c.span.expect("these kinds have a span");
            assert_eq!(i64::from(c.frames), end - begin);
            let roll = c.roll.clone().expect("these kinds have a roll").to_string();
            (begin..end).map(move |f| (roll.clone(), f))
        })
        .collect();
    out.sort();
    out
}

fn frames_where(marks: &Count, wanted: impl Fn(&str, i64, Marks) -> bool) -> Vec<(String, i64)> {
    let mut out: Vec<(String, i64)> = marks
        .iter()
        .filter(|((roll, frame), m)| wanted(roll.as_str(), *frame, **m))
        .map(|((roll, frame), _)| (roll.to_string(), *frame))
        .collect();
    out.sort();
    out
}

fn length(roll: &str) -> i64 {
    let found = ROLLS.iter().find(|r| r.0 == roll);
    i64::from(found.expect("one of the rolls").1)
}

fn any_join() -> impl Strategy<Value = JoinKind> {
    prop::sample::select(JoinKind::ALL.to_vec())
}

fn any_piece() -> impl Strategy<Value = Piece> {
    let shot = (
        0_usize..3,
        0_u32..60,
        1_u32..14,
        prop::option::of(any_join()),
    )
        .prop_map(|(which, begin, len, join)| {
            let range = FrameRange::of(begin, begin + len).expect("never empty");
            Piece {
                join,
                ..Piece::shot(Span::new(roll(ROLLS[which].0), range))
            }
        });
    let leader = (1_u32..20).prop_map(|n| Piece::leader(n.to_string().parse().expect("a length")));
    prop_oneof![9 => shot, 1 => leader]
}

/// Any bites of 0 to 2 frames: the usual tables of every gauge lie inside.
fn any_table() -> impl Strategy<Value = JoinTable> {
    let bites = prop::array::uniform3((0_u8..3, 0_u8..3));
    let custom = bites.prop_map(|bites| {
        JoinKind::ALL.into_iter().zip(bites).fold(
            JoinTable::usual(Gauge::Super8),
            |table, (kind, bite)| {
                let row = JoinRow {
                    bite: Bite::new(bite.0, bite.1),
                    ..*table.row(kind)
                };
                table.with(row)
            },
        )
    });
    prop_oneof![
        Just(JoinTable::usual(Gauge::Super8)),
        Just(JoinTable::usual(Gauge::Sixteen)),
        custom
    ]
}

/// Half of the time a piece is followed by its own continuation.
fn any_cut() -> impl Strategy<Value = TrialCut> {
    let pieces = prop::collection::vec((any_piece(), any::<bool>()), 0..12);
    (pieces, any_join()).prop_map(|(drawn, usual)| {
        let mut pieces: Vec<Piece> = Vec::new();
        for (mut piece, follow) in drawn {
            let last = pieces.last().and_then(|p| p.span().cloned());
            if let (true, Some(last), Some(span)) = (follow, last, piece.span().cloned()) {
                let begin = last.range.end().index();
                let range = FrameRange::of(begin, begin + span.range.len().count());
                let span = Span::new(last.roll, range.expect("never empty"));
                piece.kind = onestrand_cut::PieceKind::Shot(span);
            }
            pieces.push(piece);
        }
        TrialCut::new(pieces, usual)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, ..ProptestConfig::default() })]

    #[test]
    fn the_check_agrees_with_a_count_of_frames(cut in any_cut(), table in any_table()) {
        let rolls = ROLLS.map(|(name, frames)| plain_roll(name, frames, Gauge::Super8));
        let strand = Strand::new(Gauge::Super8, rolls, []);
        let marks = count(&cut, &table);
        let answer = check(&cut, &strand, &CheckRules { table });

        let doubled = frames_where(&marks, |_, _, m| m.shown >= 2);
        let bitten = frames_where(&marks, |_, _, m| m.eaten >= 1 && m.shown + m.eaten >= 2);
        let outside = frames_where(&marks, |roll, f, _| f < 0 || f >= length(roll));
        prop_assert_eq!(frames_in(&answer, ConflictKind::Doubled), doubled);
        prop_assert_eq!(frames_in(&answer, ConflictKind::Bite), bitten);
        prop_assert_eq!(frames_in(&answer, ConflictKind::OutsideRoll), outside);

        for sum in &answer.rolls {
            let name = sum.roll.as_str();
            let inside = |f: i64| f >= 0 && f < length(name);
            let used = frames_where(&marks, |r, f, m| r == name && inside(f) && m.shown >= 1);
            let eaten = frames_where(&marks, |r, f, m| {
                r == name && inside(f) && m.shown == 0 && m.eaten >= 1
            });
            prop_assert_eq!(sum.used.count() as usize, used.len());
            prop_assert_eq!(sum.eaten.count() as usize, eaten.len());
            let whole = sum.used.count() + sum.eaten.count() + sum.left.count();
            prop_assert_eq!(whole, sum.frames.count());
        }
    }

    #[test]
    fn a_change_and_its_inverse_leave_the_cut_as_it_was(
        cut in any_cut(), piece in any_piece(), at in 0_usize..14, to in 0_usize..14, which in 0..5,
    ) {
        use onestrand_cut::Change;
        let change = match which {
            0 => Change::Insert { at, piece },
            1 => Change::Remove { at },
            2 => Change::Replace { at, piece },
            3 => Change::Move { from: at, to },
            _ => Change::All(vec![
                Change::UsualJoin(JoinKind::Weld),
                Change::Insert { at: 0, piece },
                Change::Remove { at },
            ]),
        };
        if let Ok((next, inverse)) = cut.apply(&change) {
            let (back, forward) = next.apply(&inverse).expect("an inverse always fits");
            prop_assert_eq!(&back, &cut);
            let (again, _) = back.apply(&forward).expect("an inverse of an inverse fits");
            prop_assert_eq!(again, next);
        }
    }
}
