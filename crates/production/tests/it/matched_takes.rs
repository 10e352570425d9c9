//! Two takes of the same action: the fifth story's numbers by two marks, and what is refused.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_intake::Cancel;
use onestrand_production::documents::MatchedDocument;
use onestrand_production::{
    FilmChange, MatchRequest, Production, ProductionError, Quiet, match_takes,
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

fn matched(
    production: &Production,
    from: (&str, u32),
    to: (&str, u32),
    marks: &[(u32, u32)],
    leave: Option<u32>,
) -> Result<MatchedDocument, ProductionError> {
    let mut prints = Workprints::open(production.dir()).expect("workprints");
    let place = |(roll, first): (&str, u32)| (roll.to_owned(), first);
    let request = MatchRequest {
        from: place(from),
        to: place(to),
        marks: marks.to_vec(),
        leave,
    };
    match_takes(
        production,
        &mut prints,
        &request,
        &Cancel::new(),
        &mut Quiet,
    )
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
        blind.hint().contains("two marks by hand"),
        "{}",
        blind.hint()
    );
}
