//! The sheets for the bench: work order, frame cards, pin labels, outs, joins, labels.

use onestrand_film::{FrameDelta, FrameName, Gauge};
use onestrand_sheets::{
    CardEnd, CardFrame, Edge, Fate, FrameCards, JoinKind, JoinMade, JoinSide, JoinToSee,
    JoinsInspection, Lies, MayBeOff, OnBench, Out, OutsList, OutsReel, Paper, Pin, PinLabel,
    PinLabels, Printed, Proof, ReelLabel, ReelLabels, ReelLies, StripCard, StripEnd, TakenUp,
    WayCount, WorkMount, WorkOrderSheet, WorkStrip, print_frame_cards, print_joins_inspection,
    print_outs_list, print_pin_labels, print_reel_labels, print_work_order,
};

use crate::{boat, paper};

fn delta(frames: i32) -> FrameDelta {
    FrameDelta::new(frames).expect("in range")
}

fn way(words: &str, at: u32, count: i32) -> WayCount {
    WayCount {
        words: words.to_owned(),
        at: boat::pos(at),
        count: delta(count),
    }
}

/// So many strips of shot 7, hung and taken up in turn.
fn order(strips: usize, words: &str) -> WorkOrderSheet {
    let strip = |place: usize| {
        let number = u32::try_from(place).expect("few");
        WorkStrip {
            kept: boat::range(547, 607),
            cut: boat::range(547, 608),
            first: if place % 3 == 2 {
                StripEnd::Tail
            } else {
                StripEnd::Head
            },
            first_edge: if place % 5 == 4 {
                Edge::CutBefore
            } else {
                Edge::Cut
            },
            second_edge: if place % 7 == 6 {
                Edge::RollEnds
            } else {
                Edge::Cut
            },
            way: match place % 4 {
                3 => vec![way(words, 470, 60), way("your paper slip", 530, 17)],
                _ => vec![way(words, 470, 1_077)],
            },
            near: place
                .is_multiple_of(2)
                .then(|| way("rope leaves bollard", 531, 16)),
            wind: delta(547),
            pin: if place.is_multiple_of(2) {
                Pin::Number(number + 1)
            } else {
                Pin::None
            },
            position: number + 1,
            last_position: number + 1 + number % 2,
            picture: Some(boat::drawn("R2", 547)),
            then: (0..place % 9)
                .map(|n| TakenUp {
                    pin: (n > 0).then_some(100 + number),
                    words: if n > 0 {
                        String::new()
                    } else {
                        "leader, 24 frames".to_owned()
                    },
                    position: 200 + number,
                })
                .collect(),
        }
    };
    WorkOrderSheet {
        head: boat::head(Paper::A4),
        winding: "in one pass a roll".to_owned(),
        best: true,
        before: Vec::new(),
        mounts: vec![WorkMount {
            roll: boat::roll("R2"),
            lies: Lies::HeadsOut,
            through: Some(boat::pos(3_600)),
            strips: (0..strips).map(strip).collect(),
        }],
        joins: (0..=strips)
            .map(|n| JoinMade {
                after: u32::try_from(n).ok().filter(|n| *n > 0),
                before: (n < strips).then_some(u32::try_from(n + 1).expect("few")),
                kind: [JoinKind::Tape, JoinKind::Cement, JoinKind::Weld][n % 3],
            })
            .collect(),
        running: boat::frames(2_724),
        cuts: 46,
        leftovers: 26,
        wound: boat::frames(9_724),
        pins: 9,
        pins_owned: 12,
        minutes: 77,
    }
}

fn end(at: u32, words: &str) -> CardEnd {
    let frame = |frame: u32, fate| CardFrame {
        frame: boat::pos(frame),
        fate,
        picture: Some(boat::drawn("R2", frame)),
    };
    CardEnd {
        at: boat::pos(at),
        edge: Edge::Cut,
        frames: vec![
            frame(at - 2, Fate::Kept),
            frame(at - 1, Fate::Eaten),
            frame(at, Fate::WantedIn(12)),
        ],
        way: vec![way(words, 470, 144), way("your paper slip", 614, 77)],
        off: MayBeOff {
            frames_100: 97,
            by_ruler: true,
        },
        before_other_cut: true,
        from_other_cut: Some(way("last cut", 547, 60)),
        near: Some((
            way("rope leaves bollard", 531, 16),
            MayBeOff {
                frames_100: 30,
                by_ruler: false,
            },
        )),
    }
}

fn cards(count: u32, words: &str, lies: OnBench, gauge: Gauge) -> FrameCards {
    let mut head = boat::head(Paper::A4);
    head.gauge = gauge;
    for roll in &mut head.rolls {
        roll.gauge = gauge;
    }
    let card = |number: u32| StripCard {
        number,
        position: number,
        last_position: number + number % 2,
        roll: boat::roll("R2"),
        slate: "3B-T2".to_owned(),
        action: words.to_owned(),
        kept: boat::range(547, 606),
        cut: boat::range(547, 607),
        is_print: number.is_multiple_of(2),
        first: StripEnd::Head,
        pin: if number.is_multiple_of(2) {
            Pin::Number(number)
        } else {
            Pin::None
        },
        head: end(547, words),
        tail: end(607, words),
    };
    FrameCards {
        head,
        lies,
        limit: 144,
        one_slip_in: 100,
        cards: (1..=count).map(card).collect(),
    }
}

fn labels(count: u32, words: &str) -> PinLabels {
    let label = |number: u32| PinLabel {
        pin: number,
        number,
        position: number,
        last_position: number + 1,
        roll: boat::roll("R2"),
        slate: words.to_owned(),
        kept: boat::range(547, 607),
        cut: boat::range(547, 608),
        off_after: Some(number).filter(|n| *n > 1),
        join: JoinKind::Cement,
        picture: Some(boat::drawn("R2", 547)),
    };
    PinLabels {
        head: boat::head(Paper::A4),
        labels: (1..=count).map(label).collect(),
    }
}

fn outs(words: &str) -> OutsList {
    let out = |begin: u32| Out {
        frames: boat::range(begin, begin + 100),
        starts: boat::frames(begin / 2),
        words: words.to_owned(),
        first: Some(boat::drawn("R2", begin)),
        last: None,
    };
    OutsList {
        head: boat::head(Paper::A4),
        reels: vec![OutsReel {
            roll: boat::roll("R2"),
            frames: boat::frames(3_600),
            kept: boat::frames(590),
            eaten: boat::frames(10),
            outs: (0..30).map(|n| out(n * 110)).collect(),
        }],
    }
}

fn joins() -> JoinsInspection {
    let side = |position: u32| {
        Some(JoinSide {
            position,
            frame: (!position.is_multiple_of(4)).then(|| FrameName {
                roll: boat::roll("R2"),
                frame: boat::pos(position * 60),
            }),
            frames: boat::frames(60),
        })
    };
    JoinsInspection {
        head: boat::head(Paper::A4),
        running: boat::frames(3_600),
        joins: (0..=60)
            .map(|n| JoinToSee {
                before: side(n).filter(|_| n > 0),
                behind: side(n + 1).filter(|_| n < 60),
                at: boat::frames(n * 60),
                kind: [JoinKind::Tape, JoinKind::Cement, JoinKind::Weld][n as usize % 3],
            })
            .collect(),
    }
}

fn reel(lies: ReelLies) -> ReelLabels {
    ReelLabels {
        head: boat::head(Paper::A4),
        reels: vec![ReelLabel {
            title: "The Ten-Past Boat".to_owned(),
            films: "v1".to_owned(),
            what: "Super 8, 18 f/s".to_owned(),
            lies,
            length: "37 ft 60 fr".to_owned(),
            clock: "2:31".to_owned(),
            joins: "24 joins, tape".to_owned(),
            ..ReelLabel::default()
        }],
    }
}

const BASE_LEFT: OnBench = OnBench {
    emulsion_up: false,
    head_left: true,
};

#[track_caller]
fn tidy(printed: &Printed) {
    assert_eq!(printed.warnings, []);
    paper::assert_tidy(&printed.pdf);
}

#[test]
fn nothing_lies_outside_the_margins_or_on_another_word() {
    let long = "the loaf leaves the picture at its left edge";
    for words in ["camera stop 3B-T2", long] {
        tidy(&print_work_order(&order(60, words)).expect("sound"));
        tidy(&print_pin_labels(&labels(14, words)).expect("sound"));
        tidy(&print_outs_list(&outs(words)).expect("sound"));
        for gauge in [
            Gauge::Super8,
            Gauge::Sixteen,
            Gauge::Regular8,
            Gauge::NineFive,
        ] {
            tidy(&print_frame_cards(&cards(5, words, BASE_LEFT, gauge)).expect("sound"));
        }
    }
    tidy(&print_joins_inspection(&joins()).expect("sound"));
    tidy(&print_reel_labels(&reel(ReelLies::NotSaid)).expect("sound"));
}

#[test]
fn the_counts_of_shot_seven_stand_on_its_card() {
    let mut sheet = cards(1, "The rope comes off", BASE_LEFT, Gauge::Super8);
    sheet.cards[0].head.way = vec![way("camera stop 3B-T2", 470, 77)];
    let text = paper::flat(&print_frame_cards(&sheet).expect("sound").pdf);
    for words in [
        "Head: cut before R2·547",
        "camera stop 3B-T2 R2·470",
        "+ 77",
        "1 ft 5 fr",
        "326.0 mm",
        "± 1.0 fr by ruler",
        "or rope leaves bollard 531 + 16, 67.7 mm, ± 0.3 fr by counting",
        "or from the tail cut + 60, 254.0 mm",
        "base up, head to the left",
        "in shot 12",
    ] {
        assert!(text.contains(words), "{words} is not in: {text}");
    }
}

#[test]
fn with_the_head_to_the_right_the_tail_stands_left() {
    let said = |head_left| {
        let lies = OnBench {
            emulsion_up: true,
            head_left,
        };
        let sheet = cards(1, "rope", lies, Gauge::Super8);
        paper::flat(&print_frame_cards(&sheet).expect("sound").pdf)
    };
    let place = |text: &str, words: &str| text.find(words).expect("it is there");
    let (left, right) = (said(true), said(false));
    assert!(place(&left, "Head: cut") < place(&left, "Tail: cut"));
    assert!(place(&right, "Tail: cut") < place(&right, "Head: cut"));
    assert!(left.contains("emulsion up, head to the left"));
}

#[test]
fn a_roll_that_is_not_proved_says_so_and_no_sheet_says_cut() {
    let state = Proof::NotProved {
        found: boat::frames(3_598),
        expected: Some(boat::frames(3_600)),
        why: String::new(),
    };
    let mut work = order(3, "camera stop");
    let mut card = cards(1, "rope", BASE_LEFT, Gauge::Super8);
    let (mut pins, mut left) = (labels(1, "3B-T2"), outs("x"));
    let (mut seen, mut label) = (joins(), reel(ReelLies::HeadsOut));
    for head in [
        &mut work.head,
        &mut card.head,
        &mut pins.head,
        &mut left.head,
        &mut seen.head,
        &mut label.head,
    ] {
        head.rolls[1].proof = state.clone();
    }
    for printed in [
        print_work_order(&work),
        print_frame_cards(&card),
        print_pin_labels(&pins),
        print_outs_list(&left),
        print_joins_inspection(&seen),
        print_reel_labels(&label),
    ] {
        for page in paper::pages(&printed.expect("sound").pdf) {
            assert_eq!(page.matches("NOT PROVED").count(), 1, "{page}");
            assert!(
                !page.contains("cut on the line") && !page.contains("cut before"),
                "{page}"
            );
        }
    }
}

#[test]
fn an_outs_reel_adds_up_and_says_where_a_trim_lies() {
    let text = paper::flat(&print_outs_list(&outs("tail of 3B-T2")).expect("sound").pdf);
    assert!(
        text.contains("Outs R2 3,600 frames = 590 kept + 10 for joins + 3,000 left, 41 ft 48 fr"),
        "{text}"
    );
    assert!(
        text.contains("R2·110 to 209 100 1 ft 28 fr 0 ft 55 fr"),
        "{text}"
    );
}

#[test]
fn heads_or_tails_stand_on_a_label_only_when_it_was_said() {
    let said = |lies| paper::flat(&print_reel_labels(&reel(lies)).expect("sound").pdf);
    let open = said(ReelLies::NotSaid);
    assert!(
        open.contains("heads out") && open.contains("tails out"),
        "{open}"
    );
    assert!(!open.contains("HEADS OUT") && !open.contains("TAILS OUT"));
    let tails = said(ReelLies::TailsOut);
    assert!(
        tails.contains("TAILS OUT") && !tails.contains("HEADS OUT"),
        "{tails}"
    );
}

#[test]
fn one_record_fills_reel_can_and_both_leaders() {
    let label = ReelLabel {
        films: "v1, no. 1 to 12".to_owned(),
        number: Some((1, 2)),
        sound: "magnetic".to_owned(),
        picture: "colour".to_owned(),
        owner: "Ida Voss".to_owned(),
        date: "3 March 2026".to_owned(),
        with_leaders: "47 ft 60 fr".to_owned(),
        reel: "a 50 ft reel".to_owned(),
        ..reel(ReelLies::HeadsOut).reels[0].clone()
    };
    let second = ReelLabel {
        films: "v1, no. 13 to 23".to_owned(),
        number: Some((2, 2)),
        ..label.clone()
    };
    let labels = ReelLabels {
        reels: vec![label, second],
        ..reel(ReelLies::HeadsOut)
    };
    let printed = print_reel_labels(&labels).expect("sound");
    tidy(&printed);
    let text = paper::flat(&printed.pdf);
    let times = |words: &str| text.matches(words).count();
    // Reel, can, head and tail leader.
    assert_eq!(
        (times("reel 1 of 2"), times("reel 2 of 2")),
        (4, 4),
        "{text}"
    );
    assert_eq!(
        (times("v1, no. 1 to 12"), times("v1, no. 13 to 23")),
        (4, 4)
    );
    assert_eq!(times("37 ft 60 fr"), 8);
    assert_eq!((times("HEADS OUT"), times("Ida Voss")), (4, 4));
    assert_eq!((times("a 50 ft reel"), times("47 ft 60 fr")), (2, 2));
    assert_eq!((times("HEAD "), times("TAIL ")), (2, 2), "{text}");
}

#[test]
fn kinds_of_join_are_named_where_they_are_mixed() {
    let mut sheet = order(3, "camera stop");
    let text = |sheet: &WorkOrderSheet| paper::flat(&print_work_order(sheet).expect("sound").pdf);
    assert!(text(&sheet).contains("head leader | 1 1 | 2"));
    sheet.head.joins.push(boat::bite(JoinKind::Cement, 1, 0));
    assert!(text(&sheet).contains("head leader | 1 tape 1 | 2 cement"));
}
