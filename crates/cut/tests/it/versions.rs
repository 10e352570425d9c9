//! Two versions compared: story 9, and random pairs against plain recounts.

use onestrand_cut::{
    Act, Comparison, JoinKind, Piece, PieceKind, RowState, Slate, TrialCut, compare,
};
use onestrand_film::{FrameRange, Frames, Span};
use proptest::prelude::*;

use crate::boat::{first_cut, roll, slated, span, strand};

/// A frame of a version by its name; leader has none, and a card one for all.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Name {
    Film(String, u32),
    Card(String),
    Leader,
}

fn names_of(kind: &PieceKind) -> Vec<Name> {
    match kind {
        PieceKind::Shot(span) => (span.range.begin().index()..span.range.end().index())
            .map(|f| Name::Film(span.roll.to_string(), f))
            .collect(),
        PieceKind::Leader(n) => vec![Name::Leader; n.count() as usize],
        PieceKind::Card { frames, title } => {
            vec![Name::Card(title.clone()); frames.count() as usize]
        }
    }
}

fn names(cut: &TrialCut) -> Vec<Name> {
    cut.pieces()
        .iter()
        .flat_map(|p| names_of(&p.kind))
        .collect()
}

fn second_cut(strand: &onestrand_cut::Strand, join: JoinKind) -> TrialCut {
    let mut pieces = first_cut(strand, join).pieces().to_vec();
    pieces[21].kind = PieceKind::Shot(span("R3", 2505, 2730));
    pieces.swap(18, 19);
    pieces[12] = slated(strand, "R2", 2300, 2372);
    pieces.remove(8);
    TrialCut::new(pieces, join)
}

fn lines(found: &Comparison) -> Vec<(u32, &'static str, u32, Option<u32>, i32)> {
    let line = |l: &onestrand_cut::ChangeLine| {
        let to = l.to.map(Frames::count);
        let offset = l.offset_after.frames();
        (l.at.count(), l.act.code(), l.frames.count(), to, offset)
    };
    found.changes().iter().map(line).collect()
}

#[test]
fn the_change_list_of_the_ninth_story() {
    let strand = strand();
    let (old, new) = (
        first_cut(&strand, JoinKind::Tape),
        second_cut(&strand, JoinKind::Tape),
    );
    let found = compare(&old, &new);
    let totals = [found.held(), found.moved(), found.new_frames(), found.out()];
    assert_eq!(totals.map(Frames::count), [2526, 54, 72, 144]);
    let stays: Vec<(u32, u32, i32)> = found
        .stays()
        .iter()
        .map(|s| {
            let end = s.old.count() + s.frames.count();
            (s.old.count(), end, s.offset().frames())
        })
        .collect();
    assert_eq!(
        stays,
        [
            (0, 942, 0),
            (987, 1383, -45),
            (1437, 2103, -27),
            (2157, 2229, -81),
            (2229, 2598, -27),
            (2643, 2724, -72),
        ]
    );
    assert_eq!(
        lines(&found),
        [
            (942, "lift", 45, None, -45),
            (1383, "lift", 54, None, -99),
            (1383, "insert", 72, Some(1338), -27),
            (2103, "move", 54, Some(2148), -81),
            (2598, "trim", 45, None, -72),
        ]
    );
    let bell = &found.changes()[2];
    assert_eq!(bell.film, PieceKind::Shot(span("R2", 2300, 2372)));
    assert_eq!(
        bell.slate.as_ref().map(Slate::to_string).as_deref(),
        Some("4B-T1")
    );
    assert_eq!(found.apply(&old).expect("its own version"), new);
}

#[test]
fn the_versions_of_the_ninth_story_beside_each_other() {
    let strand = strand();
    let (old, new) = (
        first_cut(&strand, JoinKind::Tape),
        second_cut(&strand, JoinKind::Tape),
    );
    let found = compare(&old, &new);
    let other: Vec<_> = found
        .beside()
        .iter()
        .filter(|r| r.state != RowState::Same)
        .map(|r| (r.old, r.new, r.state, r.elsewhere))
        .collect();
    assert_eq!(
        other,
        [
            (Some(9), None, RowState::OnlyOld, None),
            (None, Some(12), RowState::OnlyNew, None),
            (Some(13), None, RowState::OnlyOld, None),
            (Some(19), None, RowState::Moved, Some(19)),
            (None, Some(19), RowState::Moved, Some(19)),
            (Some(22), Some(21), RowState::Trimmed, None),
        ]
    );
}

#[test]
fn a_version_compared_with_itself_stays() {
    let strand = strand();
    let cut = first_cut(&strand, JoinKind::Cement);
    let found = compare(&cut, &cut);
    assert_eq!((found.changes().len(), found.stays().len()), (0, 1));
    assert!(found.beside().iter().all(|r| r.state == RowState::Same));
}

#[test]
fn paper_alone_may_differ() {
    let strand = strand();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    pieces[4].note = "nearer".to_owned();
    pieces[6].join = Some(JoinKind::Weld);
    let new = TrialCut::new(pieces, JoinKind::Tape);
    let found = compare(&old, &new);
    assert_eq!(found.changes(), []);
    assert_eq!(found.apply(&old).expect("its own version"), new);
    let differ: Vec<_> = found.beside().iter().filter(|r| r.paper_differs).collect();
    assert_eq!(
        differ.iter().map(|r| r.new).collect::<Vec<_>>(),
        [Some(5), Some(7)]
    );
}

#[test]
fn a_piece_divided_by_a_closer_angle_keeps_both_parts() {
    let old = TrialCut::new(vec![Piece::shot(span("R1", 0, 100))], JoinKind::Tape);
    let new = TrialCut::new(
        vec![
            Piece::shot(span("R1", 0, 60)),
            Piece::shot(span("R2", 10, 40)),
            Piece::shot(span("R1", 70, 110)),
        ],
        JoinKind::Tape,
    );
    let found = compare(&old, &new);
    assert_eq!(
        lines(&found),
        [
            (60, "trim", 10, None, -10),
            (60, "insert", 30, Some(60), 20),
            (100, "insert", 10, Some(120), 30),
        ]
    );
    assert_eq!(found.changes()[2].act, Act::Extend);
    let rows: Vec<_> = found
        .beside()
        .iter()
        .map(|r| (r.old, r.new, r.state, r.elsewhere))
        .collect();
    assert_eq!(
        rows,
        [
            (Some(1), Some(1), RowState::Trimmed, None),
            (None, Some(2), RowState::OnlyNew, None),
            (None, Some(3), RowState::Trimmed, Some(1)),
        ]
    );
}

#[test]
fn a_piece_stands_beside_the_one_it_shares_most_with() {
    let shots = |ends: &[(u32, u32)]| {
        let pieces = ends.iter().map(|(b, e)| Piece::shot(span("R1", *b, *e)));
        TrialCut::new(pieces.collect(), JoinKind::Tape)
    };
    let two = shots(&[(0, 10), (10, 60)]);
    let one = shots(&[(0, 60)]);
    let rows = |old: &TrialCut, new: &TrialCut| -> Vec<_> {
        let found = compare(old, new);
        let rows = found.beside().iter();
        rows.map(|r| (r.old, r.new, r.elsewhere)).collect()
    };
    let put_together = [(Some(1), None, Some(1)), (Some(2), Some(1), None)];
    assert_eq!(rows(&two, &one), put_together);
    let divided = [(None, Some(1), Some(1)), (Some(1), Some(2), None)];
    assert_eq!(rows(&one, &two), divided);
}

#[test]
fn a_change_list_of_another_version_is_refused() {
    let strand = strand();
    let old = first_cut(&strand, JoinKind::Tape);
    let new = second_cut(&strand, JoinKind::Tape);
    let found = compare(&old, &new);
    assert!(found.apply(&new).is_err());
}

fn any_paper(piece: Piece, paper: u8) -> Piece {
    Piece {
        slate: (paper & 1 > 0).then(|| "1-T1".parse().expect("a slate")),
        join: (paper & 2 > 0).then_some(JoinKind::Weld),
        note: if paper & 4 > 0 {
            "n".to_owned()
        } else {
            String::new()
        },
        ..piece
    }
}

fn any_piece() -> impl Strategy<Value = Piece> {
    let shot = (0_usize..2, 0_u32..30, 1_u32..12).prop_map(|(which, begin, len)| {
        let range = FrameRange::of(begin, begin + len).expect("never empty");
        Piece::shot(Span::new(roll(["A", "B"][which]), range))
    });
    let leader = (0_u32..6).prop_map(|n| Piece::leader(Frames::new(n).expect("few")));
    let card = (0_u32..6, 0_usize..2).prop_map(|(n, which)| Piece {
        kind: PieceKind::Card {
            frames: Frames::new(n).expect("few"),
            title: ["title", "end"][which].to_owned(),
        },
        ..Piece::leader(Frames::ZERO)
    });
    (prop_oneof![8 => shot, 1 => leader, 1 => card], 0_u8..8)
        .prop_map(|(piece, paper)| any_paper(piece, paper))
}

fn any_cut() -> impl Strategy<Value = TrialCut> {
    prop::collection::vec(any_piece(), 0..9)
        .prop_map(|pieces| TrialCut::new(pieces, JoinKind::Tape))
}

/// Trims, lifts, moves, divisions and insertions, a few at a time.
fn changed(cut: &TrialCut, how: &[(u8, usize, usize, Piece)]) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    for (act, at, to, piece) in how {
        if pieces.is_empty() || *act == 0 {
            pieces.insert(at % (pieces.len() + 1), piece.clone());
            continue;
        }
        let at = at % pieces.len();
        match act {
            1 => {
                pieces.remove(at);
            }
            2 => {
                let moved = pieces.remove(at);
                pieces.insert(to % (pieces.len() + 1), moved);
            }
            3 => pieces[at].note.push('!'),
            _ => {
                let Some(of) = pieces[at].span().cloned() else {
                    continue;
                };
                let (begin, end) = (of.range.begin().index(), of.range.end().index());
                let middle = begin + u32::try_from(*to).expect("few") % (end - begin).max(1);
                if *act == 4 && middle > begin {
                    let part = |b, e| {
                        let range = FrameRange::of(b, e).expect("not empty");
                        PieceKind::Shot(Span::new(of.roll.clone(), range))
                    };
                    let mut second = pieces[at].clone();
                    pieces[at].kind = part(begin, middle);
                    second.kind = part(middle, end);
                    pieces.insert(at + 1, second);
                } else {
                    let range = FrameRange::of(middle, end + 2).expect("not empty");
                    pieces[at].kind = PieceKind::Shot(Span::new(of.roll, range));
                }
            }
        }
    }
    TrialCut::new(
        pieces,
        if how.len() > 3 {
            JoinKind::Weld
        } else {
            JoinKind::Tape
        },
    )
}

fn any_pair() -> impl Strategy<Value = (TrialCut, TrialCut)> {
    let how = prop::collection::vec((0_u8..6, 0_usize..9, 0_usize..12, any_piece()), 0..6);
    prop_oneof![
        (any_cut(), how).prop_map(|(old, how)| {
            let new = changed(&old, &how);
            (old, new)
        }),
        (any_cut(), any_cut()),
    ]
}

/// The new version from the old one and the lines of the list, frame by frame:
/// all that goes is taken out, all that comes is put to its place.
fn replayed(old: &[Name], found: &Comparison) -> Vec<Name> {
    let mut left: Vec<Option<Name>> = old.iter().cloned().map(Some).collect();
    let mut comes: Vec<(usize, Vec<Name>)> = Vec::new();
    for line in found.changes() {
        let (at, count) = (line.at.count() as usize, line.frames.count() as usize);
        let film = match line.act {
            Act::Insert | Act::Extend => names_of(&line.film),
            _ => (at..at + count)
                .map(|f| left[f].take().expect("a frame goes once"))
                .collect(),
        };
        assert_eq!(film.len(), count);
        if let Some(to) = line.to {
            comes.push((to.count() as usize, film));
        }
    }
    let mut out: Vec<Name> = left.into_iter().flatten().collect();
    comes.sort_by_key(|c| c.0);
    for (to, film) in comes {
        out.splice(to..to, film);
    }
    out
}

/// The longest sequence of frames in the same order in both, the plain way.
fn longest_held(old: &[Name], new: &[Name]) -> usize {
    let place = |n: &Name| new.iter().position(|m| m == n);
    let places: Vec<usize> = old.iter().filter_map(place).collect();
    let mut best = vec![0; places.len()];
    for at in 0..places.len() {
        let before = (0..at).filter(|b| places[*b] < places[at]);
        best[at] = 1 + before.map(|b| best[b]).max().unwrap_or(0);
    }
    best.into_iter().max().unwrap_or(0)
}

fn all_differ(names: &[Name]) -> bool {
    let mut sorted = names.to_vec();
    sorted.sort();
    sorted.windows(2).all(|w| w[0] != w[1])
}

/// Each old and each new position stands in one row, in order, and says of the
/// other side what is true.
fn rows_hold(old: &TrialCut, new: &TrialCut, found: &Comparison) -> Result<(), TestCaseError> {
    let olds: Vec<usize> = found.beside().iter().filter_map(|r| r.old).collect();
    let news: Vec<usize> = found.beside().iter().filter_map(|r| r.new).collect();
    prop_assert_eq!(olds, (1..=old.pieces().len()).collect::<Vec<_>>());
    prop_assert_eq!(news, (1..=new.pieces().len()).collect::<Vec<_>>());
    for row in found.beside() {
        let is = |at: Option<usize>, cut: &TrialCut| {
            let piece = at.and_then(|at| cut.pieces().get(at - 1));
            piece.map(|p| names_of(&p.kind)).unwrap_or_default()
        };
        let (was, now) = (is(row.old, old), is(row.new, new));
        match row.state {
            RowState::Same => prop_assert_eq!(was, now),
            RowState::OnlyOld | RowState::OnlyNew => prop_assert_eq!(row.elsewhere, None),
            RowState::Trimmed | RowState::Moved if row.elsewhere.is_some() => {
                let there = if row.old.is_some() {
                    is(row.elsewhere, new)
                } else {
                    is(row.elsewhere, old)
                };
                let here = if row.old.is_some() { was } else { now };
                let leader = here.contains(&Name::Leader);
                prop_assert!(leader || here.iter().any(|n| there.contains(n)));
            }
            RowState::Trimmed => {
                prop_assert_ne!(&was, &now);
                prop_assert!(was.iter().any(|n| now.contains(n)));
            }
            RowState::Moved => prop_assert!(false, "a moved row stands alone"),
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000.max(ProptestConfig::default().cases), ..ProptestConfig::default() })]

    #[test]
    fn the_list_applied_to_the_old_version_is_the_new_one((old, new) in any_pair()) {
        let found = compare(&old, &new);
        let (was, is) = (names(&old), names(&new));
        prop_assert_eq!(replayed(&was, &found), is.clone());
        prop_assert_eq!(found.apply(&old).expect("its own version"), new.clone());

        let count = |f: Frames| f.count() as usize;
        prop_assert_eq!(count(found.held()) + count(found.moved()) + count(found.out()), was.len());
        prop_assert_eq!(count(found.held()) + count(found.moved()) + count(found.new_frames()), is.len());
        for stay in found.stays() {
            let (from, to) = (count(stay.old), count(stay.new));
            prop_assert_eq!(&was[from..from + count(stay.frames)], &is[to..to + count(stay.frames)]);
        }
        if all_differ(&was) && all_differ(&is) {
            prop_assert_eq!(count(found.held()), longest_held(&was, &is));
            let both = was.iter().filter(|n| is.contains(n)).count();
            prop_assert_eq!(count(found.held()) + count(found.moved()), both);
        }
        rows_hold(&old, &new, &found)?;
    }

    #[test]
    fn offsets_add_up((old, new) in any_pair()) {
        let found = compare(&old, &new);
        for stay in found.stays() {
            let at = stay.old;
            // Every line at or before it has been passed, and what was moved
            // has come in where the new version has it.
            let mut offset = 0_i64;
            for line in found.changes() {
                let frames = i64::from(line.frames.count());
                let comes = line.to.is_some_and(|to| to < stay.new);
                match line.act {
                    Act::Insert | Act::Extend => {
                        prop_assert_eq!(comes, line.at <= at);
                        offset += if comes { frames } else { 0 };
                    }
                    Act::Lift | Act::Trim => offset -= if line.at < at { frames } else { 0 },
                    Act::Move => {
                        offset += if comes { frames } else { 0 };
                        offset -= if line.at < at { frames } else { 0 };
                    }
                }
            }
            prop_assert_eq!(offset, i64::from(stay.offset().frames()));
        }
        let moved_last = found.changes().iter().all(|l| l.act != Act::Move);
        if let Some(last) = found.changes().last().filter(|_| moved_last) {
            let by = i64::from(new.frames().count()) - i64::from(old.frames().count());
            prop_assert_eq!(i64::from(last.offset_after.frames()), by);
        }
    }
}
