//! Frame cards: story 7's numbers, the chain against every chain there is, and
//! every count made on film that is a list of frame numbers.

use std::collections::BTreeMap;

use onestrand_bench::{
    BenchHabits, BenchTimes, Blade, CardMaker, CardRules, Count, CutPlace, CutsMade, DoubtBy,
    Extent, FrameCard, Goes, LandmarkChain, LandmarkKind, Landmarks, StripEnd, Towards, Winding,
    WorkCount, WorkOrder,
};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, Strand, TrialCut, check};
use onestrand_film::{FramePos, FrameRange, Frames, Gauge, Length, Shrinkage, Span};
use proptest::prelude::*;

use crate::boat::{first_cut, plain_roll, roll, strand};

fn at(frame: u32) -> FramePos {
    FramePos::new(frame).expect("a place")
}

/// The takes of the example, and what can be seen in them.
fn landmarks(strand: &Strand) -> Landmarks {
    let mut all = Landmarks::of_takes(strand);
    for mark in onestrand_example::marks() {
        let kind = LandmarkKind::Mark(mark.kind.words().to_owned());
        all.add(&roll(&format!("R{}", mark.roll)), at(mark.frame), kind);
    }
    all
}

fn cards_of(join: JoinKind, winding: Winding, rules: &CardRules) -> Vec<FrameCard> {
    let strand = strand();
    let cut = first_cut(&strand, join);
    let table = JoinTable::usual(Gauge::Super8);
    let habits = BenchHabits {
        pins: 12,
        winding,
        times: BenchTimes::default(),
    };
    let check_rules = CheckRules { table };
    let order = WorkOrder::plan(&cut, &strand, &check_rules, &habits).expect("it can be made");
    let maker = CardMaker {
        work: &order.work,
        strand: &strand,
        landmarks: &landmarks(&strand),
        rules,
    };
    maker.by_steps(&order.plan.expect("12 pins do").steps, CutsMade::new())
}

fn card(cards: &[FrameCard], position: usize) -> &FrameCard {
    let found = cards.iter().find(|c| c.positions.0 == position);
    found.expect("it stands in the cut")
}

/// `what R2·470 + 77 = 326.0 mm`.
fn said(count: &Count) -> String {
    let sign = match count.towards {
        Towards::Tail => '+',
        Towards::Head => '-',
    };
    let mm = Length::by_pitch(count.frames, Gauge::Super8, Shrinkage::NONE);
    let what = match &count.from {
        LandmarkKind::CameraStop(slate) => {
            let slate = slate.as_ref().map(ToString::to_string);
            format!("camera stop {}", slate.unwrap_or_default())
        }
        LandmarkKind::Mark(words) => words.clone(),
        other => format!("{other:?}"),
    };
    let (frames, mm) = (count.frames.count(), mm.mm_text(1));
    format!("{what} at {} {sign} {frames} = {mm} mm", count.at)
}

fn only(chain: &LandmarkChain) -> String {
    assert_eq!(chain.counts.len(), 1, "{chain:?}");
    said(&chain.counts[0])
}

#[test]
fn the_card_of_shot_seven() {
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &CardRules::default());
    assert_eq!(cards.len(), 23);
    let seven = card(&cards, 7);
    assert_eq!((seven.first_cut, seven.goes), (StripEnd::Head, Goes::Reel));
    let head = &seven.head;
    assert_eq!(only(&head.main), "camera stop 3B-T2 at 470 + 77 = 326.0 mm");
    assert_eq!(
        Gauge::Super8.footage(head.main.frames()).to_string(),
        "1ft5"
    );
    let near = said(head.nearer.as_ref().expect("the rope"));
    assert_eq!(near, "rope leaves bollard at 531 + 16 = 67.7 mm");
    assert_eq!((head.kept, head.thrown), (at(547), Some(at(546))));
    let tail = &seven.tail;
    assert_eq!(
        only(&tail.main),
        "camera stop 3B-T2 at 470 + 137 = 580.1 mm"
    );
    let near = said(tail.nearer.as_ref().expect("the splash"));
    assert_eq!(near, "splash at 580 + 27 = 114.3 mm");
    assert_eq!((tail.kept, tail.thrown), (at(606), Some(at(607))));
    assert!(tail.before_other_cut && !head.before_other_cut);
    let over = said(tail.from_other_cut.as_ref().expect("the first cut"));
    assert_eq!(over, "LastCut at 547 + 60 = 254.0 mm");
    assert_eq!((head.blade, tail.blade), (Blade::Cuts, Blade::Cuts));
}

#[test]
fn a_shorter_limit_leads_over_what_is_seen_on_the_way() {
    let rules = CardRules {
        limit: 100,
        ..CardRules::default()
    };
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &rules);
    let tail = &card(&cards, 7).tail;
    // 61 back from the next camera stop is one count, 61 and 76 are two.
    assert_eq!(only(&tail.main), "camera stop 4-T1 at 668 - 61 = 258.3 mm");
    assert!(!tail.before_other_cut);
    let tight = CardRules {
        limit: 60,
        ..CardRules::default()
    };
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &tight);
    let head = &card(&cards, 7).head;
    // 77 is over the limit; the rope is 61 from the stop, over it as well.
    assert_eq!(head.main.paper_slips(), 1);
    let lengths: Vec<u32> = head.main.counts.iter().map(|c| c.frames.count()).collect();
    assert_eq!(lengths, [60, 17]);
    assert_eq!(head.main.unchecked().count(), 77);
    let tail = &card(&cards, 22).tail;
    assert!(tail.main.counts.iter().all(|c| c.frames.count() <= 60));
}

#[test]
fn the_second_piece_of_a_take_is_counted_from_the_last_cut() {
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &CardRules::default());
    assert_eq!(
        only(&card(&cards, 6).head.main),
        "LastCut at 2749 + 64 = 271.0 mm"
    );
    // In cement the tongue of the piece before it is gone as well.
    let cards = cards_of(JoinKind::Cement, Winding::OnePass, &CardRules::default());
    let six = &card(&cards, 6).head.main;
    assert_eq!(only(six), "LastCut at 2750 + 63 = 266.7 mm");
    let seven = card(&cards, 7);
    assert_eq!((seven.tail.at, seven.tail.kept), (at(608), at(606)));
    assert_eq!(seven.tail.eaten, Frames::new(1).expect("one"));
    assert_eq!(seven.tail.thrown, Some(at(608)));
}

#[test]
fn what_is_open_is_the_larger_of_counting_and_ruler() {
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &CardRules::default());
    let doubt = card(&cards, 7).head.main_doubt;
    // Not measured: 0.5 + 0.326 + 3.260 mm on the ruler, 3.260 in the counting.
    assert_eq!(
        (doubt.by, doubt.um, doubt.frames_100),
        (DoubtBy::Ruler, 4_086, 97)
    );
    let rules = CardRules {
        shrinkage: BTreeMap::from([(roll("R2"), Shrinkage::NONE)]),
        ..CardRules::default()
    };
    let cards = cards_of(JoinKind::Tape, Winding::OnePass, &rules);
    let doubt = card(&cards, 7).head.main_doubt;
    // Measured: 0.5 + 0.326 + 0.385 mm.
    assert_eq!(
        (doubt.by, doubt.um, doubt.frames_100),
        (DoubtBy::Counting, 3_260, 77)
    );
}

/// Every order of landmarks to come by, both sides mixed, beginning at a sure one.
fn every_way(seen: &[(u32, bool)], to: u32, limit: u32) -> Vec<(usize, usize, u32, bool)> {
    fn go(
        seen: &[(u32, bool)],
        here: u32,
        way: (usize, usize, u32, bool),
        used: u32,
        to: u32,
        limit: u32,
        all: &mut Vec<(usize, usize, u32, bool)>,
    ) {
        let step = |to: u32| {
            let counts = here.abs_diff(to).div_ceil(limit).max(1) as usize;
            let (slips, before, frames, from_head) = way;
            (
                slips + counts - 1,
                before + counts,
                frames + here.abs_diff(to),
                from_head,
            )
        };
        all.push(step(to));
        for (i, (next, _)) in seen.iter().enumerate() {
            if used & (1 << i) == 0 {
                go(seen, *next, step(*next), used | 1 << i, to, limit, all);
            }
        }
    }
    let mut all = Vec::new();
    for (i, (begin, sure)) in seen.iter().enumerate() {
        if *sure {
            go(
                seen,
                *begin,
                (0, 0, 0, *begin <= to),
                1 << i,
                to,
                limit,
                &mut all,
            );
        }
    }
    all
}

/// One roll of 200 frames, one strip of it.
fn alone(begin: u32, end: u32) -> (Strand, WorkCount) {
    let strand = Strand::new(Gauge::Super8, [plain_roll("A", 200, Gauge::Super8)], []);
    let range = FrameRange::of(begin, end).expect("not empty");
    let cut = TrialCut::new(
        vec![Piece::shot(Span::new(roll("A"), range))],
        JoinKind::Tape,
    );
    let work = WorkCount::of(&cut, &strand, &JoinTable::usual(Gauge::Super8));
    (strand, work)
}

/// Counts as the hand does, on the piece of film that holds the landmark.
fn count_on(film: &[Vec<u32>], count: &Count, length: u32) -> u32 {
    let begin = count.at.index();
    // The landmark is the line before its frame: at the end of a piece its
    // frame is gone, and the line is that end.
    let forward = count.towards == Towards::Tail;
    let holds = |piece: &&Vec<u32>| {
        let (first, last) = (piece[0], piece[piece.len() - 1]);
        match forward {
            true => first <= begin && begin <= last,
            false => first < begin && begin <= last + 1,
        }
    };
    if count.frames == Frames::ZERO {
        return begin;
    }
    let piece = film.iter().find(holds).expect("it is on a piece");
    let zero = piece.partition_point(|f| *f < begin);
    let to = match forward {
        true => zero + count.frames.count() as usize,
        false => zero
            .checked_sub(count.frames.count() as usize)
            .expect("it hangs together"),
    };
    match piece.get(to) {
        Some(frame) => *frame,
        None => {
            assert_eq!(to, piece.len(), "it hangs together");
            let end = piece[piece.len() - 1] + 1;
            assert!(end <= length);
            end
        }
    }
}

fn walk(film: &[Vec<u32>], chain: &LandmarkChain, length: u32, limit: u32) -> u32 {
    assert!(chain.counts[0].from.is_sure());
    let mut here = None;
    for count in &chain.counts {
        assert!(count.frames.count() <= limit);
        assert!(here.is_none_or(|h| h == count.at.index()), "{chain:?}");
        let to = count_on(film, count, length);
        assert_eq!(to, count.ends_at().index());
        here = Some(to);
    }
    here.expect("a count")
}

fn cut_at(film: &mut Vec<Vec<u32>>, place: &CutPlace) {
    if place.blade == Blade::Cuts {
        let at = place.at.index();
        let holds = |piece: &Vec<u32>| piece[0] < at && at <= piece[piece.len() - 1];
        let whole = film.iter().position(holds).expect("there is film to cut");
        let behind = film[whole].iter().copied().filter(|f| *f >= at).collect();
        film[whole].retain(|f| *f < at);
        film.insert(whole + 1, behind);
    }
}

/// Carries the cards out: every count is made on what hangs together then.
fn carry_out(cards: &[FrameCard], strand: &Strand, limit: u32) {
    let mut rolls: BTreeMap<String, Vec<Vec<u32>>> = strand
        .rolls()
        .map(|r| (r.id.to_string(), vec![(0..r.frames.count()).collect()]))
        .collect();
    for card in cards {
        let length = strand.roll(&card.roll).expect("known").frames.count();
        let film = rolls.get_mut(card.roll.as_str()).expect("on the shelf");
        let (first, second) = match card.first_cut {
            StripEnd::Head => (&card.head, &card.tail),
            StripEnd::Tail => (&card.tail, &card.head),
        };
        for place in [first, second] {
            assert_eq!(walk(film, &place.main, length, limit), place.at.index());
        }
        let near = |film: &[Vec<u32>], place: &CutPlace| {
            for count in place.nearer.iter().chain(&place.from_other_cut) {
                assert_eq!(count_on(film, count, length), place.at.index());
            }
            if let Some(near) = &place.nearer {
                assert!(near.frames < place.main.frames());
            }
        };
        near(film, first);
        cut_at(film, first);
        near(film, second);
        if !second.before_other_cut {
            assert_eq!(walk(film, &second.main, length, limit), second.at.index());
        }
        cut_at(film, second);
        let strip: Vec<u32> = (card.taken.begin().index()..card.taken.end().index()).collect();
        let cut_out = film.iter().position(|piece| *piece == strip);
        film.remove(cut_out.expect("the strip lies loose"));
    }
}

#[test]
fn the_cards_of_the_example_lead_to_every_cut() {
    let strand = strand();
    for limit in [12, 60, 144] {
        let rules = CardRules {
            limit,
            ..CardRules::default()
        };
        for join in JoinKind::ALL {
            for winding in Winding::ALL {
                let cards = cards_of(join, winding, &rules);
                carry_out(&cards, &strand, limit);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn no_chain_is_better(
        seen in prop::collection::btree_map(1_u32..200, any::<bool>(), 0..5),
        (begin, length) in (1_u32..190, 1_u32..10),
        limit in 5_u32..220,
    ) {
        let (strand, work) = alone(begin, begin + length);
        let mut landmarks = Landmarks::default();
        for (frame, sure) in &seen {
            let kind = match sure {
                true => LandmarkKind::CameraStop(None),
                false => LandmarkKind::Mark("a bird".to_owned()),
            };
            landmarks.add(&roll("A"), at(*frame), kind);
        }
        let rules = CardRules { limit, ..CardRules::default() };
        let maker = CardMaker { work: &work, strand: &strand, landmarks: &landmarks, rules: &rules };
        let extent: &Extent = &work.extents[0];
        let card = maker.card(extent, &CutsMade::new(), StripEnd::Head, Goes::Reel);
        let mut all: Vec<(u32, bool)> = vec![(0, true), (200, true)];
        all.extend(seen.iter().map(|(frame, sure)| (*frame, *sure)));
        for place in [&card.head, &card.tail] {
            let to = place.at.index();
            let main = &place.main;
            let ways = every_way(&all, to, limit);
            let least = ways.iter().map(|w| (w.0, w.1)).min().expect("a way");
            prop_assert_eq!((main.paper_slips(), main.counts.len()), least);
            let alike = || ways.iter().filter(|w| (w.0, w.1) == least);
            // Down the film where that is as good.
            let from_head = alike().any(|w| w.3);
            prop_assert_eq!(main.counts[0].at.index() <= to, from_head);
            let shortest = alike().filter(|w| w.3 == from_head).map(|w| w.2).min();
            prop_assert_eq!(Some(main.frames().count()), shortest);
            if let Some(near) = &place.nearer {
                let nearest = all.iter().map(|(f, _)| f.abs_diff(to)).min();
                prop_assert!(Some(near.frames.count()) >= nearest);
            }
        }
        let nearest = all.iter().map(|(f, _)| f.abs_diff(begin)).min();
        let near = card.head.nearer.as_ref().map_or(card.head.main.frames(), |n| n.frames);
        prop_assert_eq!(Some(near.count()), nearest);
    }

    #[test]
    fn any_cards_lead_to_their_cuts(
        drawn in prop::collection::vec((0_usize..2, 0_u32..95, 1_u32..12), 1..9),
        seen in prop::collection::vec((0_usize..2, 1_u32..100, 0_u8..3), 0..12),
        kind in prop::sample::select(JoinKind::ALL.to_vec()),
        winding in prop::sample::select(Winding::ALL.to_vec()),
        limit in 3_u32..60,
    ) {
        let names = ["A", "B"];
        let strand = Strand::new(
            Gauge::Sixteen,
            names.map(|n| plain_roll(n, 100, Gauge::Sixteen)),
            [],
        );
        let rules = CheckRules { table: JoinTable::usual(Gauge::Sixteen) };
        let mut cut = TrialCut::new(vec![], kind);
        for (which, begin, len) in drawn {
            let range = FrameRange::of(begin, begin + len).expect("not empty");
            let mut pieces = cut.pieces().to_vec();
            pieces.push(Piece::shot(Span::new(roll(names[which]), range)));
            let longer = TrialCut::new(pieces, kind);
            if check(&longer, &strand, &rules).is_ok() {
                cut = longer;
            }
        }
        let mut landmarks = Landmarks::default();
        for (which, frame, what) in seen {
            let kind = match what {
                0 => LandmarkKind::Flash,
                1 => LandmarkKind::Join(None),
                _ => LandmarkKind::Mark("a bird".to_owned()),
            };
            landmarks.add(&roll(names[which]), at(frame), kind);
        }
        let habits = BenchHabits { pins: 12, winding, times: BenchTimes::default() };
        if let Ok(order) = WorkOrder::plan(&cut, &strand, &rules, &habits) {
            let card_rules = CardRules { limit, ..CardRules::default() };
            let maker = CardMaker {
                work: &order.work, strand: &strand, landmarks: &landmarks, rules: &card_rules,
            };
            let steps = order.plan.expect("twelve pins do for eight strips").steps;
            let cards = maker.by_steps(&steps, CutsMade::new());
            prop_assert_eq!(cards.len(), order.work.extents.len());
            carry_out(&cards, &strand, limit);
        }
    }
}
