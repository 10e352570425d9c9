//! Two takes of the same action: the fifth story's numbers by two marks, and what is refused.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_intake::Cancel;
use onestrand_production::documents::MatchedDocument;
use onestrand_production::{
    FilmChange, MarkMoments, MarkedFrames, MatchRequest, OnSheet, Production, ProductionError,
    Quiet, SheetCut, TakePlace, UnmarkMoments, check_cut, match_takes,
};
use onestrand_store::Workprints;

use crate::in_the_hand::{change, film};

/// The master 3-T2 from R1·2611, the closer 3B-T2 from R2·470, as the example has them.
fn boat(dir: &Path) -> Production {
    let mut production = film(dir, Gauge::Super8, &["R1", "R2"]);
    for (roll, frame) in [("R1", 2611), ("R1", 3313), ("R2", 470), ("R2", 668)] {
        let roll = roll.to_owned();
        change(&mut production, &FilmChange::BreakAt { roll, frame }).expect("a break");
    }
    for (roll, frame) in [("R1", 3000), ("R2", 1000)] {
        let roll = roll.to_owned();
        change(&mut production, &FilmChange::MendBreak { roll, frame }).expect("mended");
    }
    production
}

fn place((roll, first): (&str, u32)) -> TakePlace {
    let roll = roll.to_owned();
    TakePlace { roll, first }
}

fn request(from: (&str, u32), to: (&str, u32)) -> MatchRequest {
    MatchRequest {
        from: place(from),
        to: place(to),
        marks: Vec::new(),
        by_pictures: false,
        look: false,
        leave: None,
        enter: None,
        sheet: None,
    }
}

fn asked(
    production: &Production,
    request: &MatchRequest,
) -> Result<MatchedDocument, ProductionError> {
    let mut prints = Workprints::open(production.dir()).expect("workprints");
    match_takes(production, &mut prints, request, &Cancel::new(), &mut Quiet)
}

fn matched(
    production: &Production,
    from: (&str, u32),
    to: (&str, u32),
    marks: &[(u32, u32)],
    leave: Option<u32>,
) -> Result<MatchedDocument, ProductionError> {
    let request = MatchRequest {
        marks: marks.to_vec(),
        leave: leave.map(|frame| (frame, frame + 1)),
        ..request(from, to)
    };
    asked(production, &request)
}

const MASTER: (&str, u32) = ("R1", 2611);
const CLOSER: (&str, u32) = ("R2", 470);
/// The rope leaves the bollard; the splash.
const MARKS: [(u32, u32); 2] = [(2923, 531), (2971, 580)];

#[test]
fn two_marks_give_the_way_in_and_the_way_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat(&dir.path().join("film"));
    let found = matched(&film, MASTER, CLOSER, &MARKS, Some(2939)).expect("matched");
    assert_eq!((found.by, found.pace_exact.as_str()), ("marks", "49/48"));
    assert!((found.pace - 1.0208).abs() < 1e-9, "{}", found.pace);
    let [point] = found.points.as_slice() else {
        panic!("one place was settled: {:?}", found.points);
    };
    assert_eq!((point.leave, point.uncertain), (2939, 0.0));
    assert!((point.due - 547.3333).abs() < 1e-9, "{}", point.due);
    let entry = |overlap| {
        let found = point.entries.iter().find(|entry| entry.overlap == overlap);
        found.expect("this overlap").clone()
    };
    assert_eq!((entry(0).enter, entry(2).enter), (547, 545));
    assert!((entry(0).phase + 0.3333).abs() < 1e-9, "early by a third");
    assert_eq!(found.back.len(), 3);

    // The way back: leaving the close-up at 607.
    let turned = MARKS.map(|(here, there)| (there, here));
    let back = matched(&film, CLOSER, MASTER, &turned, Some(607)).expect("matched");
    assert_eq!(back.pace_exact, "48/49");
    assert!(
        (back.points[0].due - 2997.449).abs() < 1e-3,
        "{}",
        back.points[0].due
    );
}

#[test]
fn marks_that_are_no_pair_and_takes_that_are_not_there_are_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat(&dir.path().join("film"));
    let one = matched(&film, MASTER, CLOSER, &MARKS[..1], None).expect_err("one mark");
    assert!(one.to_string().contains("1 of two pairs of marks"), "{one}");
    let crossed = [(2923, 580), (2971, 531)];
    matched(&film, MASTER, CLOSER, &crossed, None).expect_err("they run against each other");
    let nowhere = matched(&film, ("R1", 5), CLOSER, &MARKS, None).expect_err("no take");
    assert!(
        nowhere.to_string().contains("no take begins at R1·5"),
        "{nowhere}"
    );
    // Without marks the pictures are asked for, and a roll on paper has none.
    let blind = matched(&film, MASTER, CLOSER, &[], None).expect_err("no pictures");
    assert!(
        blind.to_string().contains("no pictures to look at"),
        "{blind}"
    );
    assert!(
        blind.hint().contains("the same two moments by hand"),
        "{}",
        blind.hint()
    );
}

fn frames(roll: &str, (first, second): (u32, u32)) -> MarkedFrames {
    let roll = roll.to_owned();
    MarkedFrames {
        roll,
        first,
        second,
    }
}

fn marks_of(found: &MatchedDocument) -> Vec<(u32, u32)> {
    found.marks.iter().map(|m| (m.here, m.there)).collect()
}

#[test]
fn marks_are_kept_with_the_film_and_turned_round_and_taken_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("film"));
    let (here, there) = (frames("R1", (2923, 2971)), frames("R2", (531, 580)));
    let marks = MarkMoments {
        here: here.clone(),
        there: there.clone(),
    };
    change(&mut film, &FilmChange::MarkMoments(marks)).expect("marked");
    let by_kept = asked(&film, &request(MASTER, CLOSER)).expect("matched");
    assert!(by_kept.marks_kept);
    assert_eq!(
        (by_kept.by, by_kept.pace_exact.as_str()),
        ("marks", "49/48")
    );
    assert_eq!(marks_of(&by_kept), MARKS);
    let turned = asked(&film, &request(CLOSER, MASTER)).expect("matched");
    assert_eq!(marks_of(&turned), [(531, 2923), (580, 2971)]);

    // Marked anew from the other side, the old ones go.
    let anew = MarkMoments {
        here: frames("R2", (530, 580)),
        there: here.clone(),
    };
    change(&mut film, &FilmChange::MarkMoments(anew)).expect("marked anew");
    let found = asked(&film, &request(MASTER, CLOSER)).expect("matched");
    assert_eq!(marks_of(&found), [(2923, 530), (2971, 580)]);
    let gone = UnmarkMoments { here, there };
    let old = change(&mut film, &FilmChange::UnmarkMoments(gone)).expect_err("they went");
    assert!(old.to_string().contains("do not stand"), "{old}");
    film.undo().expect("undone");
    let found = asked(&film, &request(MASTER, CLOSER)).expect("matched");
    assert_eq!(marks_of(&found), MARKS);
}

#[test]
fn marks_that_lie_in_one_take_or_cross_are_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("film"));
    for (here, there, why) in [
        (("R1", (2923, 2971)), ("R1", (2930, 2980)), "the same take"),
        (
            ("R1", (2923, 3400)),
            ("R2", (531, 580)),
            "do not lie in one take",
        ),
        (
            ("R1", (2923, 2971)),
            ("R2", (580, 531)),
            "no line that runs forward",
        ),
    ] {
        let marks = MarkMoments {
            here: frames(here.0, here.1),
            there: frames(there.0, there.1),
        };
        let refused = change(&mut film, &FilmChange::MarkMoments(marks)).expect_err(why);
        assert!(refused.to_string().contains(why), "{refused}");
    }
}

/// Lays these stretches one after the other.
fn lay(film: &mut Production, pieces: &[(&str, u32, u32)]) {
    use onestrand_production::NewCut;
    use onestrand_production::documents::{CutChange, PieceForm};
    let cut = NewCut {
        cut: "v1".to_owned(),
        ..NewCut::default()
    };
    change(film, &FilmChange::NewCut(cut)).expect("a version");
    for (at, &(roll, first, thrown)) in pieces.iter().enumerate() {
        let form = serde_json::json!({ "kind": "shot", "roll": roll, "in": first, "out": thrown });
        let piece: PieceForm = serde_json::from_value(form).expect("a piece");
        let cut_change = CutChange::Insert { at, piece };
        let cut = "v1".to_owned();
        change(film, &FilmChange::ChangeCut { cut, cut_change }).expect("laid in");
    }
}

#[test]
fn a_take_that_was_marked_is_a_twin_in_the_strand_check() {
    // The sixth story: a look back of thirty frames is in the cut already; by the marks
    // of rope and splash its twin has twenty-nine.
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("film"));
    let (roll, frame) = ("R1".to_owned(), 1945);
    change(&mut film, &FilmChange::BreakAt { roll, frame }).expect("a break");
    lay(&mut film, &[("R1", 2813, 2939), ("R1", 2900, 2930)]);
    let twins = |film: &Production| -> Vec<String> {
        let check = check_cut(film, "v1", None).expect("checked");
        let of = check.conflicts.iter().flat_map(|c| &c.remedies);
        of.filter(|r| r.kind == "twin")
            .map(|r| r.text.clone())
            .collect()
    };
    assert_eq!(twins(&film), Vec::<String>::new());
    let marks = MarkMoments {
        here: frames("R1", (2251, 2297)),
        there: frames("R1", (2923, 2971)),
    };
    change(&mut film, &FilmChange::MarkMoments(marks)).expect("marked");
    let told = twins(&film);
    assert!(
        told.iter()
            .any(|text| text.contains("R1·2229 to 2257, 29 frames")),
        "{told:?}"
    );
}

#[test]
fn points_are_offered_only_where_the_strand_check_lets_them_pass() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("film"));
    // Of the closer take 540 to 560 is in the film already.
    lay(
        &mut film,
        &[("R1", 2813, 2939), ("R2", 590, 607), ("R2", 540, 560)],
    );
    let on = |made: SheetCut| OnSheet {
        cut: "v1".to_owned(),
        at: 0,
        made,
    };
    let ask = MatchRequest {
        marks: MARKS.to_vec(),
        ..request(MASTER, CLOSER)
    };
    let free = asked(&film, &ask).expect("matched");
    assert_eq!(free.points.len(), 3);
    let join = MatchRequest {
        sheet: Some(on(SheetCut::Join)),
        ..ask.clone()
    };
    let points = asked(&film, &join).expect("matched").points;
    assert_eq!(points.len(), 3);
    for point in &points {
        assert!(point.leave > 2813, "{point:?}");
        for entry in &point.entries {
            // From there to 607 nothing that the third piece shows.
            assert!((560..607).contains(&entry.enter), "{entry:?}");
        }
    }
    let lay_in = MatchRequest {
        sheet: Some(on(SheetCut::LayIn)),
        ..ask
    };
    let points = asked(&film, &lay_in).expect("matched").points;
    assert!(!points.is_empty());
    for entry in points.iter().flat_map(|p| &p.entries) {
        let shown = entry.enter..entry.enter + 8;
        assert!(shown.end <= 540 || shown.start >= 560, "{entry:?}");
    }

    // Back to the master: not before where it was left, and the closer take is not
    // shown twice.
    let turned = MARKS.map(|(here, there)| (there, here));
    let back = MatchRequest {
        marks: turned.to_vec(),
        sheet: Some(on(SheetCut::Back {
            left: 2880,
            entered: 500,
        })),
        ..request(CLOSER, MASTER)
    };
    let points = asked(&film, &back).expect("matched").points;
    assert!(!points.is_empty());
    for point in &points {
        assert!((501..=540).contains(&point.leave), "{point:?}");
        for entry in &point.entries {
            assert!((2880..2939).contains(&entry.enter), "{entry:?}");
        }
    }
}

/// The twins that are offered for the look back of the sixth story, when this was found
/// of 3-T1 and 3-T2 in pictures of that word.
fn found_in(pictures: &str) -> usize {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = boat(&dir.path().join("film"));
    let (roll, frame) = ("R1".to_owned(), 1945);
    change(&mut film, &FilmChange::BreakAt { roll, frame }).expect("a break");
    lay(&mut film, &[("R1", 2813, 2939), ("R1", 2900, 2930)]);
    let take = |first: u32, thrown: u32| serde_json::json!({ "roll": "R1", "pictures": pictures, "first": first, "thrown": thrown });
    let places: Vec<i64> = (0..60).map(|n| 256 * (2220 + n)).collect();
    let found = serde_json::json!({ "form": 1, "pairs": [{
        "here": take(2611, 3313),
        "there": take(2000, 2611),
        "found": { "first": 2890, "places": places, "uncertain": vec![0.5; 60], "strength": 90.0 },
    }]});
    let file = film.dir().join("workprints").join("twins.json");
    std::fs::create_dir_all(file.parent().expect("a folder")).expect("made");
    std::fs::write(&file, found.to_string()).expect("written");
    let check = check_cut(&film, "v1", None).expect("checked");
    let all = check.conflicts.iter().flat_map(|c| &c.remedies);
    all.filter(|way| way.kind == "twin" && way.text.contains("R1·2230 to 2259"))
        .count()
}

#[test]
fn what_was_found_in_pictures_that_are_no_more_is_no_twin() {
    // A roll on paper has no pictures, and no word for them.
    assert_eq!(found_in(""), 1);
    assert_eq!(found_in("0123456789abcdef-1"), 0);
}
