//! Versions begun, assembled, renamed and noted; every step can be taken back.

use onestrand_film::Gauge;
use onestrand_production::documents::{CutChange, PieceForm, PieceWord, TakeWords};
use onestrand_production::{
    DescribeCut, FilmChange, NewCut, Production, check_cut, compare_cuts, export_cut, list_cuts,
};

use crate::in_the_hand::{change, film};

/// The take at `first` of R1 is this setup and take, circled or not.
fn name(production: &mut Production, roll: &str, first: u32, setup: &str, rating: &str) {
    let said = FilmChange::NameTake {
        roll: roll.to_owned(),
        first,
        words: TakeWords {
            setup: Some(setup.to_owned()),
            take: Some(1),
            rating: rating.to_owned(),
            ..TakeWords::default()
        },
    };
    change(production, &said).expect("named");
}

fn assemble(production: &mut Production, cut: &str, join: &str) -> Result<(), String> {
    let new = NewCut {
        cut: cut.to_owned(),
        assembled: true,
        usual_join: Some(join.to_owned()),
        ..NewCut::default()
    };
    change(production, &FilmChange::NewCut(new))
}

fn describe(
    production: &mut Production,
    cut: &str,
    name: Option<&str>,
    note: Option<&str>,
) -> Result<(), String> {
    let described = DescribeCut {
        cut: cut.to_owned(),
        name: name.map(ToOwned::to_owned),
        note: note.map(ToOwned::to_owned),
    };
    change(production, &FilmChange::DescribeCut(described))
}

fn versions(production: &Production) -> Vec<(String, String)> {
    let cuts = list_cuts(production).expect("versions");
    let told = serde_json::to_value(cuts).expect("values");
    let word = |one: &serde_json::Value, of: &str| one[of].as_str().unwrap_or("").to_owned();
    let all = told.as_array().expect("a list").iter();
    let mut pairs: Vec<_> = all
        .map(|one| (word(one, "cut"), word(one, "note")))
        .collect();
    // They stand by the second they were made in; these were made in the same.
    pairs.sort();
    pairs
}

#[test]
fn circled_takes_are_assembled_in_script_order_and_can_be_cut() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(&dir.path().join("film"), Gauge::Super8, &["R1", "R2"]);
    let refused = assemble(&mut film, "v1", "tape").expect_err("nothing is circled");
    assert!(refused.contains("no take is circled yet"), "{refused}");
    assert!(refused.contains("in Rolls"), "{refused}");
    name(&mut film, "R1", 0, "12", "circled");
    name(&mut film, "R1", 1000, "2A", "circled");
    name(&mut film, "R1", 2000, "2", "hold");
    name(&mut film, "R2", 0, "2", "circled");
    name(&mut film, "R2", 1000, "E", "circled");
    assemble(&mut film, "v1", "cement").expect("assembled");
    let sheet = export_cut(&film, "v1").expect("a sheet");
    let rows: Vec<String> = sheet
        .lines()
        .skip(1)
        .map(|row| row.split(',').skip(1).take(4).collect::<Vec<_>>().join(" "))
        .collect();
    // Scene 2 before 12, the master before its angle, the end title last; each take
    // gives the cement its one frame.
    let wanted = [
        "R2 0 999 2-T1",
        "R1 1000 1999 2A-T1",
        "R1 0 999 12-T1",
        "R2 1000 1999 E-T1",
    ];
    assert_eq!(rows, wanted);
    assert!(check_cut(&film, "v1", None).expect("checked").ok);
    let both = NewCut {
        cut: "v2".to_owned(),
        from: Some("v1".to_owned()),
        assembled: true,
        ..NewCut::default()
    };
    let refused = change(&mut film, &FilmChange::NewCut(both)).expect_err("not both");
    assert!(refused.contains("not both"), "{refused}");
}

#[test]
fn a_version_is_renamed_and_noted_and_both_can_be_taken_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(&dir.path().join("film"), Gauge::Super8, &["R1"]);
    for cut in ["v1", "v2"] {
        let new = NewCut {
            cut: cut.to_owned(),
            ..NewCut::default()
        };
        change(&mut film, &FilmChange::NewCut(new)).expect("begun");
    }
    let pair = |name: &str, note: &str| (name.to_owned(), note.to_owned());
    describe(&mut film, "v1", None, Some("  for the club ")).expect("noted");
    assert_eq!(
        versions(&film),
        [pair("v1", "for the club"), pair("v2", "")]
    );
    describe(&mut film, "v1", Some("evening"), None).expect("renamed");
    // It keeps its note.
    assert_eq!(
        versions(&film),
        [pair("evening", "for the club"), pair("v2", "")]
    );
    let taken = describe(&mut film, "v2", Some("evening"), None).expect_err("that name is taken");
    assert!(
        taken.contains("there is a version evening already"),
        "{taken}"
    );
    let nameless = describe(&mut film, "v2", Some(" "), None).expect_err("no name");
    assert!(nameless.contains("1 to 60 letters"), "{nameless}");
    describe(&mut film, "v2", Some("v2"), Some("as it is")).expect("its own name is no other");
    film.undo().expect("undone");
    film.undo().expect("undone");
    film.undo().expect("undone");
    assert_eq!(versions(&film), [pair("v1", ""), pair("v2", "")]);
    film.redo().expect("redone");
    film.redo().expect("redone");
    assert_eq!(
        versions(&film),
        [pair("evening", "for the club"), pair("v2", "")]
    );
}

/// A version of these pieces of R1, laid in one after the other.
fn version(production: &mut Production, cut: &str, spans: &[(u32, u32)]) {
    let new = NewCut {
        cut: cut.to_owned(),
        ..NewCut::default()
    };
    change(production, &FilmChange::NewCut(new)).expect("begun");
    for (at, (first, thrown)) in spans.iter().enumerate() {
        let piece = PieceForm {
            kind: PieceWord::Shot,
            roll: Some("R1".to_owned()),
            first: Some(*first),
            thrown: Some(*thrown),
            frames: None,
            title: None,
            slate: None,
            join: None,
            effect: None,
            note: String::new(),
        };
        let laid = FilmChange::ChangeCut {
            cut: cut.to_owned(),
            cut_change: CutChange::Insert { at, piece },
        };
        change(production, &laid).expect("laid in");
    }
}

#[test]
fn two_versions_are_compared_by_the_names_of_their_frames() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(&dir.path().join("film"), Gauge::Super8, &["R1"]);
    version(&mut film, "v1", &[(0, 100), (200, 245), (300, 400)]);
    version(&mut film, "v2", &[(0, 100), (300, 400), (500, 530)]);
    let found = compare_cuts(&film, "v1", "v2").expect("compared");
    assert_eq!(
        (found.held, found.out, found.new_frames, found.moved),
        (200, 45, 30, 0)
    );
    assert_eq!((found.from_frames, found.to_frames), (245, 230));
    let lines: Vec<_> = found
        .changes
        .iter()
        .map(|line| {
            (
                line.at,
                line.act.as_str(),
                line.frames,
                line.to,
                line.offset_after,
            )
        })
        .collect();
    assert_eq!(
        lines,
        [
            (100, "lift", 45, None, -45),
            (245, "insert", 30, Some(200), -15)
        ]
    );
    let states: Vec<_> = found
        .beside
        .iter()
        .map(|row| (row.old, row.new, row.state.as_str()))
        .collect();
    assert_eq!(
        states,
        [
            (Some(1), Some(1), "same"),
            (Some(2), None, "only_old"),
            (Some(3), Some(2), "same"),
            (None, Some(3), "only_new"),
        ]
    );
    let none = compare_cuts(&film, "v1", "v9").expect_err("there is no v9");
    assert!(none.to_string().contains("v9"), "{none}");
}
