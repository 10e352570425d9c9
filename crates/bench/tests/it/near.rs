//! The versions near a new one against every version near it there is.

use onestrand_bench::{NearVersion, Recut};
use onestrand_cut::{
    CheckRules, JoinKind, JoinTable, Piece, PieceKind, Slate, Strand, Strips, TrialCut, check,
};
use onestrand_film::Gauge;
use proptest::prelude::*;

use crate::boat::{blank_take, first_cut, plain_roll, span, strand as boat};

const LENGTH: u32 = 70;

fn strand(gauge: Gauge, takes: bool) -> Strand {
    let rolls = ["A", "B"].map(|n| plain_roll(n, LENGTH, gauge));
    let cut_at = |n: &str| [(0, 33), (33, LENGTH)].map(|(a, b)| blank_take(span(n, a, b)));
    let all = ["A", "B"].iter().flat_map(|n| cut_at(n));
    Strand::new(gauge, rolls, all.filter(|_| takes))
}

/// Joins worked on, frames lost, frames shifted.
type Worth = (usize, usize, u64);

/// Every version near, tried.
fn best_of_all(
    old: &TrialCut,
    new: &TrialCut,
    strand: &Strand,
    rules: &CheckRules,
    k: i64,
) -> Option<Worth> {
    let table = &rules.table;
    let strips = Strips::of(new, table);
    let wide = usize::try_from(2 * k + 1).expect("small");
    let ends = 2 * strips.strips.len();
    let all = wide.pow(u32::try_from(ends).expect("few"));
    let mut best: Option<Worth> = None;
    for mut number in 0..all {
        let mut shifts = Vec::new();
        for _ in 0..ends {
            shifts.push(i64::try_from(number % wide).expect("small") - k);
            number /= wide;
        }
        // A piece of leader has no other end.
        let leader = |i: usize| strips.strips[i / 2].span.is_none();
        if (0..ends).any(|i| leader(i) && shifts[i] != 0) {
            continue;
        }
        let shift: u64 = shifts.iter().map(|s| s.unsigned_abs()).sum();
        let Some(cut) = laid(new, &strips, &shifts, strand) else {
            continue;
        };
        let cut = Recut::as_made(old, &cut, table);
        if !check(&cut, strand, rules).is_ok() || too_short(&cut, new, &strips, table) {
            continue;
        }
        let price = Recut::price(old, &cut, strand, table);
        let worth = (price.worked(), price.lost, shift);
        if best.is_none_or(|known| worth < known) {
            best = Some(worth);
        }
    }
    best
}

/// The version with every end shifted; nothing where a piece is left without a frame
/// or a take is left that was not.
fn laid(new: &TrialCut, strips: &Strips, shifts: &[i64], strand: &Strand) -> Option<TrialCut> {
    let mut pieces = new.pieces().to_vec();
    for (at, strip) in strips.strips.iter().enumerate() {
        if strip.span.is_none() {
            continue;
        }
        let (first, last) = strip.positions;
        let (to_head, to_tail) = (shifts[2 * at], shifts[2 * at + 1]);
        let moves = match first == last {
            // Both ends at once: it may lie wholly beside where it was.
            true => vec![(first, to_head, to_tail)],
            false => vec![(first, to_head, 0), (last, 0, to_tail)],
        };
        for (position, head, tail) in moves {
            let was = pieces[position].span()?.clone();
            let moved = |n: u32, by: i64| u32::try_from(i64::from(n) + by).ok();
            let begin = moved(was.range.begin().index(), head)?;
            let end = moved(was.range.end().index(), tail)?;
            if begin >= end {
                return None;
            }
            pieces[position].kind = PieceKind::Shot(span(was.roll.as_str(), begin, end));
        }
    }
    let cut = TrialCut::new(pieces, new.usual_join());
    let held = |cut: &TrialCut, at: usize| {
        let span = cut.pieces()[at].span();
        span.is_none_or(|s| strand.take_holding(&s.roll, s.range).is_some())
    };
    let left = |at: &usize| held(new, *at) && !held(&cut, *at);
    let leaves = !strand.takes().is_empty() && (0..new.pieces().len()).any(|at| left(&at));
    (!leaves).then_some(cut)
}

/// Whether a strip is shorter than it may be: eight frames, or as short as it was.
fn too_short(cut: &TrialCut, new: &TrialCut, was: &Strips, table: &JoinTable) -> bool {
    let of = |position: usize| {
        let strip = was
            .strips
            .iter()
            .find(|s| s.positions.0 <= position && position <= s.positions.1);
        strip.expect("a strip").frames.count().min(8)
    };
    assert_eq!(cut.pieces().len(), new.pieces().len());
    Strips::of(cut, table)
        .strips
        .iter()
        .any(|s| s.frames.count() < of(s.positions.0).min(of(s.positions.1)))
}

fn worth(near: &NearVersion) -> Worth {
    (near.price.worked(), near.price.lost, near.shifted)
}

/// A version of what is drawn, as many pieces as can be cut, three at most.
fn version(
    drawn: &[(u8, u32, u32)],
    most: usize,
    usual: JoinKind,
    strand: &Strand,
    rules: &CheckRules,
) -> TrialCut {
    let mut cut = TrialCut::new(vec![], usual);
    for (what, begin, len) in drawn {
        let begin = begin % 60;
        let mut pieces = cut.pieces().to_vec();
        pieces.push(match what {
            0..=7 => Piece::shot(span(
                ["A", "B"][usize::from(what % 2)],
                begin,
                (begin + len).min(LENGTH),
            )),
            _ => Piece::leader(onestrand_film::Frames::new(8 + len % 4).expect("a length")),
        });
        let longer = TrialCut::new(pieces, usual);
        if pieces_of(&longer) <= most && check(&longer, strand, rules).is_ok() {
            cut = longer;
        }
    }
    cut
}

fn pieces_of(cut: &TrialCut) -> usize {
    cut.pieces().len()
}

/// Small changes, so that much of the old version is near.
fn changed(cut: &TrialCut, (what, at, to, by): (u8, usize, usize, i8)) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    let count = pieces.len();
    let (at, to) = (at % count, to % count);
    match what {
        0 if count > 1 => drop(pieces.remove(at)),
        1 => {
            let moved = pieces.remove(at);
            pieces.insert(to.min(pieces.len()), moved);
        }
        2 => pieces[at].join = Some(JoinKind::ALL[to % 3]),
        // Ends sooner, and film right behind it is laid in elsewhere: what it would
        // give back is then wanted there.
        3 | 4 => {
            let Some(old) = pieces[at].span().cloned() else {
                return cut.clone();
            };
            let (begin, end) = (old.range.begin().index(), old.range.end().index());
            let sooner = end.saturating_sub(u32::from(by.unsigned_abs()) % 4);
            let behind = sooner + 1 + u32::from(what) % 2;
            if begin < sooner && behind + 9 < LENGTH {
                let roll = old.roll.as_str();
                pieces[at].kind = PieceKind::Shot(span(roll, begin, sooner));
                pieces.insert(to, Piece::shot(span(roll, behind, behind + 9)));
            }
        }
        _ => {
            let Some(old) = pieces[at].span().cloned() else {
                return cut.clone();
            };
            let moved = |n: u32| n.saturating_add_signed(i32::from(by % 4)).min(LENGTH);
            let (begin, end) = (old.range.begin().index(), old.range.end().index());
            let (begin, end) = match what % 2 {
                0 => (moved(begin), end),
                _ => (begin, moved(end)),
            };
            if begin < end {
                pieces[at].kind = PieceKind::Shot(span(old.roll.as_str(), begin, end));
            }
        }
    }
    TrialCut::new(pieces, cut.usual_join())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn none_near_is_better(
        drawn in prop::collection::vec((0_u8..9, 0_u32..60, 6_u32..16), 2..9),
        steps in prop::collection::vec((0_u8..11, 0_usize..4, 0_usize..4, any::<i8>()), 0..5),
        usual in prop::sample::select(JoinKind::ALL.to_vec()),
        gauge in prop::sample::select(vec![Gauge::Super8, Gauge::Sixteen]),
        takes in any::<bool>(),
        (most, tolerance) in prop::sample::select(vec![(4_usize, 1_i64), (3, 1), (3, 2), (2, 3), (2, 4)]),
    ) {
        let strand = strand(gauge, takes);
        let table = JoinTable::usual(gauge);
        let rules = CheckRules { table: table.clone() };
        let old = version(&drawn, 5, usual, &strand, &rules);
        prop_assume!(!old.pieces().is_empty());
        let mut new = old.clone();
        for step in steps {
            let next = Recut::as_made(&old, &changed(&new, step), &table);
            if check(&next, &strand, &rules).is_ok() {
                new = next;
            }
        }
        let strips = Strips::of(&new, &table).strips.len();
        prop_assume!(0 < strips && strips <= most);
        let wanted = Recut::price(&old, &new, &strand, &table);
        let told = Recut::near(&old, &new, &strand, &rules, u32::try_from(tolerance).expect("small"));
        prop_assert!(told.best, "small cases are proved");
        let mut least = (wanted.worked(), wanted.lost);
        let mut found = told.found.iter();
        for k in 1..=tolerance {
            let best = best_of_all(&old, &new, &strand, &rules, k).expect("the version itself");
            if (best.0, best.1) < least {
                least = (best.0, best.1);
                let near = found.next();
                prop_assert_eq!(near.map(worth), Some(best), "within {}: {:?}", k, near);
                let near = near.expect("one");
                prop_assert_eq!(i64::from(near.tolerance), k);
                prop_assert!(near.shifts.iter().all(|s| s.frames.abs() <= k && s.frames != 0));
            }
        }
        prop_assert_eq!(found.next(), None);
    }
}

fn rules() -> CheckRules {
    CheckRules {
        table: JoinTable::usual(Gauge::Super8),
    }
}

/// Shot 9 three frames longer: leaving it as it is saves two joins and the frames.
#[test]
fn a_join_already_there_is_kept() {
    let strand = boat();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    let was = pieces[21].span().expect("film").clone();
    pieces[21].kind = PieceKind::Shot(span(
        was.roll.as_str(),
        was.range.begin().index(),
        was.range.end().index() - 3,
    ));
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let two = Recut::near(&old, &new, &strand, &rules(), 2);
    // With fewer frames the join cannot be kept.
    assert!(two.best && two.found.iter().all(|n| n.price.opened == 1));
    let twelve = Recut::near(&old, &new, &strand, &rules(), 12);
    assert!(twelve.best);
    let last = twelve.found.last().expect("one");
    assert_eq!((last.tolerance, last.shifted), (3, 3));
    assert_eq!((last.price.worked(), last.price.lost), (0, 0));
    assert_eq!(last.cut.pieces()[21].span(), old.pieces()[21].span());
    let shift = last.shifts[0];
    assert_eq!((shift.position, shift.at_end, shift.frames), (22, true, 3));
}

/// Frames that opening spoils need not be wanted.
#[test]
fn a_frame_that_would_be_lost_is_not_wanted() {
    let strand = boat();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    pieces.remove(8);
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let wanted = Recut::price(&old, &new, &strand, &rules().table);
    assert_eq!((wanted.worked(), wanted.lost), (3, 2));
    let near = Recut::near(&old, &new, &strand, &rules(), 2);
    let last = near.found.last().expect("one");
    // As many joins; shot 8 ends two frames sooner, freshly cut, or shot 10 begins later.
    assert_eq!((last.price.worked(), last.price.lost), (3, 0));
    assert!(near.best && last.price.real == last.price.planned);
}

/// What one strip would give back is wanted elsewhere: both cannot have it.
#[test]
fn two_strips_near_each_other_on_the_film_are_kept_apart() {
    let strand = strand(Gauge::Super8, false);
    let old = TrialCut::new(
        vec![
            Piece::shot(span("A", 5, 25)),
            Piece::shot(span("B", 5, 25)),
            Piece::shot(span("B", 40, 60)),
        ],
        JoinKind::Tape,
    );
    let mut pieces = old.pieces().to_vec();
    pieces[0].kind = PieceKind::Shot(span("A", 5, 22));
    pieces.push(Piece::shot(span("A", 23, 43)));
    let new = TrialCut::new(pieces, JoinKind::Tape);
    let near = Recut::near(&old, &new, &strand, &rules(), 3);
    assert!(near.best);
    let last = near.found.last().expect("one");
    // The first join stays when the last piece makes room: 3 frames and 2.
    let spans: Vec<_> = last
        .cut
        .pieces()
        .iter()
        .filter_map(Piece::span)
        .cloned()
        .collect();
    assert_eq!(
        (&spans[0], &spans[3]),
        (&span("A", 5, 25), &span("A", 25, 43))
    );
    assert_eq!(last.shifted, 5);
    assert!(check(&last.cut, &strand, &rules()).is_ok());
}

/// Every slate and note of the version wanted stays with its piece.
#[test]
fn the_paper_of_the_pieces_stays() {
    let strand = boat();
    let old = first_cut(&strand, JoinKind::Cement);
    let mut pieces = old.pieces().to_vec();
    pieces.remove(8);
    pieces[8].note = "the feet".to_owned();
    let new = TrialCut::new(pieces, JoinKind::Cement);
    let near = Recut::near(&old, &new, &strand, &rules(), 3);
    let words = |cut: &TrialCut| -> Vec<(Option<Slate>, String)> {
        let of = |p: &Piece| (p.slate.clone(), p.note.clone());
        cut.pieces().iter().map(of).collect()
    };
    for one in &near.found {
        assert_eq!(words(&one.cut), words(&new));
    }
    assert!(!near.found.is_empty());
}

/// One frame of film lies wholly beside where it was: a case that was drawn once, in which
/// its end was not let past its old beginning.
#[test]
fn a_strip_may_lie_wholly_beside_where_it_was() {
    let strand = strand(Gauge::Super8, false);
    let rules = rules();
    let cut = |spans: &[(u32, u32)]| {
        let pieces = spans.iter().map(|(b, e)| Piece::shot(span("A", *b, *e)));
        TrialCut::new(pieces.collect(), JoinKind::Cement)
    };
    let old = cut(&[(0, 6), (9, 15)]);
    let new = Recut::as_made(&old, &cut(&[(9, 10), (0, 6)]), &rules.table);
    assert_eq!(Recut::price(&old, &new, &strand, &rules.table).lost, 3);
    let found = Recut::near(&old, &new, &strand, &rules, 2).found;
    let near = found.first().expect("one that loses less");
    assert_eq!(worth(near), (6, 2, 2));
    let laid = near.cut.pieces()[0].span().expect("film").range;
    assert_eq!((laid.begin().index(), laid.end().index()), (10, 11));
}
