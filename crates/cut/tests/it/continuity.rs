//! Questions of continuity: story 6, and each rule with planted cases.

use onestrand_cut::{
    Answer, Base, Facts, JoinKind, LightMeasure, Piece, Question, QuestionKey, QuestionKind,
    Strand, Take, TrialCut, Wind, questions,
};
use onestrand_film::{Fps, FrameName, Gauge, Span};

use crate::boat::{blank_take, first_cut, plain_roll, slated, span, strand};

fn asked(cut: &TrialCut, strand: &Strand) -> Vec<Question> {
    questions(cut, &Facts::of_log(strand, Fps::EIGHTEEN), &[])
}

fn places(asked: &[Question]) -> Vec<(&'static str, Vec<usize>)> {
    let of = |q: &Question| (q.kind.code(), q.positions.clone());
    asked.iter().map(of).collect()
}

fn with(cut: &TrialCut, change: impl Fn(&mut Vec<Piece>)) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    change(&mut pieces);
    TrialCut::new(pieces, cut.usual_join())
}

#[test]
fn the_first_cut_raises_no_question() {
    let strand = strand();
    assert_eq!(asked(&first_cut(&strand, JoinKind::Cement), &strand), []);
}

#[test]
fn lifting_shot_eleven_asks_about_the_jump_and_nothing_else() {
    let strand = strand();
    let cut = with(&first_cut(&strand, JoinKind::Cement), |pieces| {
        pieces.remove(10);
    });
    let found = asked(&cut, &strand);
    assert_eq!(places(&found), [("jump", vec![10, 11])]);
    assert_eq!(
        found[0].text,
        "4-T2 is joined to itself across 36 frames (2.0 s): is the hop meant?"
    );
    assert_eq!(found[0].key.to_string(), "jump||R2·1495|R2·1532");
}

#[test]
fn the_other_way_is_asked_about_at_two_places() {
    let strand = strand();
    let cut = with(&first_cut(&strand, JoinKind::Cement), |pieces| {
        pieces[4] = slated(&strand, "R1", 1374, 1446);
    });
    let found = asked(&cut, &strand);
    assert_eq!(
        places(&found),
        [("direction", vec![3, 5]), ("direction", vec![5, 9])]
    );
    assert_eq!(
        found[0].text,
        "Ida goes left to right in 3 (2-T2) and right to left in 5 (2A-T1): is the turn meant?"
    );
    assert_eq!(found[1].key.to_string(), "direction|Ida|2A-T1|2B-T1");
}

/// An answer names no position: it stays when the cut changes around it, and a
/// nudge of the join does not ask again.
#[test]
fn what_is_answered_stays_answered() {
    let strand = strand();
    let facts = Facts::of_log(&strand, Fps::EIGHTEEN);
    let other_way = with(&first_cut(&strand, JoinKind::Cement), |pieces| {
        pieces[4] = slated(&strand, "R1", 1374, 1446);
        pieces.remove(10);
    });
    let found = asked(&other_way, &strand);
    let answer = |q: &Question, note: &str| Answer {
        // As it comes back from where the caller keeps it.
        key: q.key.to_string().parse().expect("a key"),
        note: note.to_owned(),
    };
    let kept = [answer(&found[0], "she looks back"), answer(&found[2], "")];
    let moved = with(&other_way, |pieces| {
        pieces.remove(1);
        pieces[8] = slated(&strand, "R2", 1280, 1490);
    });
    let again = questions(&moved, &facts, &kept);
    let open: Vec<&Question> = again.iter().filter(|q| q.answer.is_none()).collect();
    assert_eq!(open.len(), 1, "{open:?}");
    assert_eq!(open[0].positions, [4, 8]);
    assert_eq!(
        again[0].answer.as_ref().map(|a| a.note.as_str()),
        Some("she looks back")
    );
    // Another jump of the same take is another question.
    let far = with(&moved, |pieces| {
        pieces[8] = slated(&strand, "R2", 1280, 1440);
    });
    let again = questions(&far, &facts, &kept);
    let jump = again.iter().find(|q| q.kind == QuestionKind::Jump);
    assert!(jump.is_some_and(|q| q.answer.is_none()), "{again:?}");
}

/// Takes of roll A one after the other, 100 frames each, and a cut of all.
fn logged(takes: &[(&str, &str, &str)]) -> (Strand, TrialCut) {
    let place = |at: usize| u32::try_from(at).expect("few") * 100;
    let takes: Vec<Take> = takes
        .iter()
        .enumerate()
        .map(|(at, (slate, size, direction))| Take {
            slate: slate.parse().ok(),
            size: (*size).to_owned(),
            direction: (*direction).to_owned(),
            ..blank_take(span("A", place(at), place(at + 1)))
        })
        .collect();
    let rolls = [plain_roll("A", 2000, Gauge::Super8)];
    let strand = Strand::new(Gauge::Super8, rolls, takes);
    let pieces = (0..strand.takes().len())
        .map(|at| slated(&strand, "A", place(at) + 10, place(at) + 60))
        .collect();
    (strand, TrialCut::new(pieces, JoinKind::Tape))
}

/// One checker, a table of planted cases: takes in cut order, and what is asked.
#[test]
fn each_rule_asks_where_it_should_and_nowhere_else() {
    const R: &str = "Ida, left to right";
    const L: &str = "Ida, right to left";
    type Case<'a> = (
        &'a str,
        &'a [(&'a str, &'a str, &'a str)],
        &'a [(&'a str, [usize; 2])],
    );
    let cases: &[Case<'_>] = &[
        (
            "a turn through another scene's picture",
            &[
                ("2-T1", "wide", R),
                ("3-T1", "wide", ""),
                ("2A-T1", "close", L),
            ],
            &[("direction", [1, 3])],
        ),
        (
            "towards the camera lets the way change",
            &[
                ("2-T1", "wide", R),
                ("2A-T1", "close", "Ida, towards camera"),
                ("2B-T1", "detail", L),
            ],
            &[],
        ),
        (
            "a title lets the way change",
            &[
                ("2-T1", "wide", R),
                ("M-T1", "title", ""),
                ("2B-T1", "close", L),
            ],
            &[],
        ),
        (
            "two movers each their own way",
            &[
                ("2-T1", "wide", R),
                ("2A-T1", "close", "ferry, right to left"),
            ],
            &[],
        ),
        (
            "nobody named, within the scene",
            &[
                ("2-T1", "wide", "L-R"),
                ("3-T1", "wide", "R-L"),
                ("2A-T1", "close", "R-L"),
            ],
            &[("direction", [1, 3])],
        ),
        (
            "all turn at once: the line is asked about, once",
            &[
                ("2-T1", "wide", "Ida, left to right; dog, right to left"),
                ("2A-T1", "close", "Ida, right to left; dog, left to right"),
            ],
            &[("line", [1, 2])],
        ),
        (
            "the camera on the other side of the line",
            &[
                ("2-T1", "wide", "side A"),
                ("3-T1", "wide", ""),
                ("2A-T1", "close", "side B"),
            ],
            &[("line", [1, 3])],
        ),
        (
            "over the line by a view along it",
            &[
                ("2-T1", "wide", "side A"),
                ("2A-T1", "close", "on the line"),
                ("2B-T1", "detail", "side B"),
            ],
            &[],
        ),
        (
            "crossing and turning are one question",
            &[
                ("2-T1", "wide", "Ida, left to right; side A"),
                ("2A-T1", "close", "Ida, right to left; side B"),
            ],
            &[("line", [1, 2])],
        ),
        (
            "nearly one size in one scene",
            &[("2-T1", "medium", ""), ("2A-T1", "medium close", "")],
            &[("size", [1, 2])],
        ),
        (
            "one size, from far enough aside",
            &[("2-T1", "medium", "0°"), ("2A-T1", "medium", "35°")],
            &[],
        ),
        (
            "one size, not far enough aside, over north",
            &[("2-T1", "medium", "350°"), ("2A-T1", "medium", "5°")],
            &[("size", [1, 2])],
        ),
        (
            "one size of two people",
            &[
                ("2-T1", "close", R),
                ("2A-T1", "close", "Bram, right to left"),
            ],
            &[],
        ),
        (
            "one size in two scenes",
            &[("2-T1", "close", ""), ("3-T1", "close", "")],
            &[],
        ),
        (
            "another take of the same view",
            &[("2-T1", "wide", ""), ("2-T2", "wide", "")],
            &[("jump", [1, 2])],
        ),
        (
            "takes that nobody has named",
            &[("", "wide", R), ("", "wide", L)],
            &[("direction", [1, 2])],
        ),
    ];
    for (what, takes, expected) in cases {
        let (strand, cut) = logged(takes);
        let found = asked(&cut, &strand);
        let expected: Vec<(&str, Vec<usize>)> =
            expected.iter().map(|(k, p)| (*k, p.to_vec())).collect();
        assert_eq!(places(&found), expected, "{what}: {found:?}");
    }
}

#[test]
fn unlike_winds_are_asked_about_once_for_two_rolls() {
    let wound = |name: &str, wind| onestrand_cut::Roll {
        wind,
        ..plain_roll(name, 1000, Gauge::Super8)
    };
    let rolls = [
        wound("A", Some(Wind::B)),
        wound("B", Some(Wind::A)),
        wound("C", None),
    ];
    let strand = Strand::new(Gauge::Super8, rolls, []);
    let pieces = ["C", "A", "B", "A", "B", "C"]
        .iter()
        .enumerate()
        .map(|(at, roll)| {
            let begin = u32::try_from(at).expect("few") * 50;
            Piece::shot(span(roll, begin, begin + 40))
        })
        .collect();
    let found = asked(&TrialCut::new(pieces, JoinKind::Tape), &strand);
    assert_eq!(places(&found), [("wind", vec![2, 3])]);
    assert!(
        found[0].text.contains("at 2 more joins"),
        "{}",
        found[0].text
    );
}

/// The figure is the base's, where both rolls are known to be of one.
#[test]
fn the_jump_of_the_focus_is_as_thick_as_the_base() {
    let said = |one: Base, other: Base| {
        let roll = |name: &str, wind, base| onestrand_cut::Roll {
            wind: Some(wind),
            base,
            ..plain_roll(name, 1000, Gauge::Super8)
        };
        let rolls = [roll("A", Wind::B, one), roll("B", Wind::A, other)];
        let strand = Strand::new(Gauge::Super8, rolls, []);
        let pieces = vec![Piece::shot(span("A", 0, 40)), Piece::shot(span("B", 0, 40))];
        asked(&TrialCut::new(pieces, JoinKind::Tape), &strand)[0]
            .text
            .clone()
    };
    use Base::{NotKnown, Polyester, Triacetate};
    assert_eq!(
        said(Triacetate, Triacetate),
        "A is B-wind and B is A-wind: the focus jumps by the thickness of the base, \
         about 0.13 mm of triacetate, at this join. Is it meant?"
    );
    assert!(said(Polyester, Polyester).contains("about 0.1 mm of polyester"));
    for (one, other) in [(Triacetate, Polyester), (NotKnown, Polyester)] {
        assert!(said(one, other).contains("of the base, 0.1 to 0.13 mm, at this join"));
    }
}

/// Every take as light as its number in the log says.
struct ByTake<'a>(&'a [Option<f64>]);

impl LightMeasure for ByTake<'_> {
    fn step(&self, end_of: &Span, beginning_of: &Span) -> Option<f64> {
        let of = |frame: FrameName| self.0[frame.frame.index() as usize / 100];
        Some(of(beginning_of.first())? - of(end_of.last())?)
    }
}

/// The light of one setup is followed through its scene; two setups are not
/// compared, nor is a view with what stood before another scene or leader.
#[test]
fn a_step_of_light_of_one_view_is_asked_about() {
    let (strand, cut) = logged(&[
        ("2-T1", "wide", ""),
        ("2A-T1", "close", ""),
        ("2-T2", "wide", ""),
        ("2A-T2", "close", ""),
        ("3-T1", "wide", ""),
        ("2A-T3", "close", ""),
    ]);
    let light = [0.0, 20.0, 7.4, 26.0, 0.0, 60.0].map(Some);
    let light = ByTake(&light);
    let mut facts = Facts::of_log(&strand, Fps::EIGHTEEN);
    facts.light = &light;
    let asked = |cut: &TrialCut, facts: &Facts<'_>| {
        let mut found = questions(cut, facts, &[]);
        found.retain(|q| q.kind == QuestionKind::Light);
        found
    };
    let found = asked(&cut, &facts);
    assert_eq!(places(&found), [("light", vec![1, 3])]);
    assert_eq!(
        found[0].text,
        "3 (2-T2) is 7 points (0.6 stop) lighter than 1 (2-T1), the same view: is the step meant?"
    );
    // Darker the other way round, and six points are not more than six.
    let turned = with(&cut, |pieces| pieces.swap(0, 2));
    let found = asked(&turned, &facts);
    assert!(found[0].text.contains("7 points (0.6 stop) darker"));
    facts.limits.light_points = 5.9;
    assert_eq!(
        places(&asked(&cut, &facts)),
        [("light", vec![1, 3]), ("light", vec![2, 4])]
    );
    facts.limits.light_points = 7.5;
    assert_eq!(asked(&cut, &facts), []);
    // Leader between lets time pass.
    facts.limits.light_points = 6.0;
    let parted = with(&cut, |pieces| {
        pieces[1] = Piece::leader(onestrand_film::Frames::new(18).expect("frames"));
    });
    assert_eq!(asked(&parted, &facts), []);
    // What nobody has measured is not asked.
    let unknown = ByTake(&[Some(0.0), None, None, None, None, None]);
    facts.light = &unknown;
    assert_eq!(asked(&cut, &facts), []);
}

#[test]
fn a_picture_that_stands_too_briefly_is_asked_about() {
    let (strand, cut) = logged(&[("1-T1", "wide", ""), ("2-T1", "wide", ""), ("E-T1", "", "")]);
    let cut = with(&cut, |pieces| {
        pieces[0] = slated(&strand, "A", 10, 27);
        // Two pieces that continue each other stand as long as both.
        pieces[1] = slated(&strand, "A", 110, 120);
        pieces.insert(2, slated(&strand, "A", 120, 128));
        pieces[3] = slated(&strand, "A", 210, 214);
    });
    let found = asked(&cut, &strand);
    assert_eq!(places(&found), [("short_hold", vec![1])]);
    let key: QuestionKey = "short_hold||A·12|A·26".parse().expect("a key");
    assert!(key.answers(&found[0].key, 12), "longer by two frames");
    assert!(!found[0].key.answers(&key, 12), "shorter by two frames");
}

/// Every kind stands in the rule table.
#[test]
fn the_rule_table_names_every_kind() {
    let table = include_str!("../../../../docs/QUESTIONS.md");
    for kind in QuestionKind::ALL {
        assert!(
            table.contains(&format!("| `{}` |", kind.code())),
            "{}",
            kind.code()
        );
    }
}
