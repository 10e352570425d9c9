//! Numbers on the edge of 16 mm: written down, followed, and counted from.

use onestrand_film::Gauge;
use onestrand_production::{
    BenchPaper, EdgeNumberGone, EdgeNumberRead, FilmChange, JoinFound, SheetName, SheetOptions,
    gather_sheets, import_cut, inspection,
};

use crate::in_the_hand::{change, film};

fn read(frame: u32, number: &str, step: Option<u32>) -> FilmChange {
    FilmChange::EdgeNumberRead(EdgeNumberRead {
        roll: "R1".to_owned(),
        frame,
        number: number.to_owned(),
        step,
    })
}

#[test]
fn numbers_that_agree_follow_and_others_are_refused_with_their_frames() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Sixteen, &["R1"]);
    change(&mut film, &read(1_206, "4127", None)).expect("one stands alone");
    let refused = change(&mut film, &read(1_366, "4135", None)).expect_err("no step");
    assert!(refused.contains("how many frames lie"), "{refused}");
    // 8 numbers in 160 frames: every 20, which is half a foot of 16 mm.
    change(&mut film, &read(1_366, "4135", Some(20))).expect("they agree");
    let edge = inspection(&film, "R1").expect("it").edge;
    assert_eq!((edge.step, edge.read.len(), edge.follow), (Some(20), 2, 7));
    // 4140 would stand at 1,366 + 5 × 20 = 1,466.
    let refused = change(&mut film, &read(1_467, "4140", None)).expect_err("a frame off");
    assert!(
        refused.contains("4135 at frame 1366 and 4140 at frame 1467"),
        "{refused}"
    );
    let refused = change(&mut film, &read(1_466, "4140", Some(40))).expect_err("another step");
    assert!(refused.contains("do not fit"), "{refused}");
    change(&mut film, &read(1_466, "4140", None)).expect("it fits");
    change(
        &mut film,
        &FilmChange::EdgeNumberGone(EdgeNumberGone {
            roll: "R1".to_owned(),
            frame: 1_206,
        }),
    )
    .expect("struck");
    assert_eq!(inspection(&film, "R1").expect("it").edge.follow, 4);
    film.undo().expect("undone");
    assert_eq!(inspection(&film, "R1").expect("it").edge.follow, 11);
    // A join found between them parts the stock: nothing follows over it.
    change(
        &mut film,
        &FilmChange::JoinFound(JoinFound {
            roll: "R1".to_owned(),
            frame: 1_300,
            kind: "cement".to_owned(),
            note: String::new(),
        }),
    )
    .expect("found");
    assert_eq!(inspection(&film, "R1").expect("it").edge.follow, 4);
}

#[test]
fn film_of_8_mm_has_none() {
    let dir = tempfile::tempdir().expect("a folder");
    for gauge in [Gauge::Super8, Gauge::Regular8] {
        let dir = dir.path().join(gauge.to_string());
        std::fs::create_dir(&dir).expect("a folder");
        let mut film = film(&dir, gauge, &["R1"]);
        let refused = change(&mut film, &read(10, "4127", Some(20))).expect_err("none");
        assert!(refused.contains("no numbers on its edge"), "{refused}");
    }
}

/// By hand: with 4127 at 1,206 and a number every 20 frames, 1,292 is 4131 (at 1,286)
/// and 6 frames, 1,352 is 4134 (at 1,346) and 6 frames.
#[test]
fn the_cards_count_from_the_number_before_the_cut() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Sixteen, &["R1"]);
    change(&mut film, &read(1_206, "4127", None)).expect("read");
    change(&mut film, &read(1_366, "4135", Some(20))).expect("they agree");
    let sheet = "position,roll,in,out,slate,join,note\n1,R1,1292,1352,,,\n";
    let file = dir.path().join("v1.csv");
    std::fs::write(&file, sheet).expect("written");
    import_cut(&mut film, &file, "v1", onestrand_cut::JoinKind::Tape).expect("a cut");
    let options = SheetOptions {
        only: Some(SheetName::FrameCards),
        bench: BenchPaper::USUAL,
        letter: false,
        join: None,
    };
    let mut sheets = gather_sheets(&film, "v1", &options).expect("gathered");
    let printed = sheets.print_one(SheetName::FrameCards).expect("printed");
    let text = crate::work_order_printed::text_of(&printed.pdf);
    assert!(text.contains("edge number 4131"), "{text}");
    assert!(text.contains("edge number 4134"), "{text}");
}
