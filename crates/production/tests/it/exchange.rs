//! Versions out as OpenTimelineIO and in again.

use std::path::Path;

use onestrand_cut::JoinKind;
use onestrand_film::{Fps, Gauge};
use onestrand_production::{
    Meta, PaperRoll, Production, ProductionError, add_paper_roll, export_cut, import_version,
    write_exchange,
};
use onestrand_store::{Act, NoteRecord};

const SHEET: &str = "position,roll,in,out,slate,join,note,effect\n\
    1,leader,0,36,,,\"count in, slowly\",\n\
    2,R1,402,546,1-T2,weld,\"Ida: \"\"wait!\"\"\",\n\
    3,card,0,126,,,Where the river bends,\n\
    4,R2,0,60,,cement,,fade\n\
    5,R1,3599,3600,,,,\n";

fn film(dir: &Path, speed: &str) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: speed.parse::<Fps>().expect("a speed"),
    };
    let mut production = Production::create(dir, &meta).expect("new");
    for name in ["R1", "R2"] {
        let roll = PaperRoll {
            roll: name.to_owned(),
            frames: 3600,
            gauge: None,
            base: "triacetate".to_owned(),
            fit: "project".to_owned(),
            wind: None,
        };
        add_paper_roll(&mut production, &roll).expect("a roll on paper");
    }
    production
}

fn written(dir: &Path, name: &str, text: &str) -> std::path::PathBuf {
    let path = dir.join(name);
    std::fs::write(&path, text).expect("written");
    path
}

#[test]
fn a_version_goes_out_and_comes_in_as_it_was() {
    for speed in ["18", "50/3"] {
        let dir = tempfile::tempdir().expect("a folder");
        let mut production = film(&dir.path().join("film"), speed);
        let sheet = written(dir.path(), "v1.csv", SHEET);
        import_version(&mut production, &sheet, "v1", Some(JoinKind::Cement)).expect("a sheet");
        let mut record = production.cut("v1").expect("kept");
        record.note = "shown on Friday".to_owned();
        let put = Act::PutCut {
            name: "v1".to_owned(),
            cut: Some(record),
        };
        production.act("a note", &put).expect("kept");
        let note = Act::PutNote {
            id: 1,
            note: Some(NoteRecord::new("R1", 410, "starts late", "Bram")),
        };
        production.act("a note on a frame", &note).expect("kept");

        let file = dir.path().join("v1.otio");
        let out = write_exchange(&production, "v1", &file).expect("written");
        assert_eq!((out.pieces, out.frames, out.notes), (5, 367, 1));
        assert_eq!(out.by_name, ["R1", "R2"]);
        assert!(out.by_scan.is_empty(), "{:?}", out.by_scan);

        let back = import_version(&mut production, &file, "v2", None).expect("our own file");
        assert_eq!(back.remarks, [], "{speed}");
        assert_eq!(back.notes, 0, "the note is there already");
        let (one, two) = (
            production.cut("v1").expect("kept"),
            production.cut("v2").expect("kept"),
        );
        assert_eq!(one.pieces, two.pieces);
        assert_eq!(one.usual_join, two.usual_join);
        assert_eq!(two.usual_join, "cement");
        assert_eq!(one.note, two.note);
        assert_eq!(
            export_cut(&production, "v1").expect("a sheet"),
            export_cut(&production, "v2").expect("a sheet")
        );
        // Another usual join may be wanted; and one act is one undo.
        import_version(&mut production, &file, "v3", Some(JoinKind::Tape)).expect("again");
        assert_eq!(production.cut("v3").expect("kept").usual_join, "tape");
        production.undo().expect("taken back");
        assert!(production.cut("v3").is_err());
    }
}

#[test]
fn notes_of_others_come_with_a_version_and_go_with_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut here = film(&dir.path().join("here"), "18");
    let sheet = written(dir.path(), "v1.csv", SHEET);
    import_version(&mut here, &sheet, "v1", None).expect("a sheet");
    for (id, frame) in [(1, 402), (2, 600)] {
        let note = Some(NoteRecord::new("R1", frame, "too dark", "Ida"));
        here.act("a note", &Act::PutNote { id, note })
            .expect("kept");
    }
    let file = dir.path().join("v1.otio");
    let out = write_exchange(&here, "v1", &file).expect("written");
    assert_eq!(out.notes, 1, "the other falls on no frame of it");

    let mut there = film(&dir.path().join("there"), "18");
    let back = import_version(&mut there, &file, "from Ida", None).expect("read");
    assert_eq!(back.notes, 1);
    let notes = there.notes().expect("notes");
    let (_, note) = notes.first().expect("one");
    assert_eq!(
        (
            note.roll.as_str(),
            note.frame,
            note.words.as_str(),
            note.writer.as_str()
        ),
        ("R1", 402, "too dark", "Ida")
    );
    there.undo().expect("taken back");
    assert!(there.notes().expect("notes").is_empty());
}

#[test]
fn a_file_of_another_film_is_refused_whole() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut here = film(&dir.path().join("here"), "18");
    let sheet = written(dir.path(), "v1.csv", SHEET);
    import_version(&mut here, &sheet, "v1", None).expect("a sheet");
    let file = dir.path().join("v1.otio");
    write_exchange(&here, "v1", &file).expect("written");

    let mut other = film(&dir.path().join("other"), "24");
    let before = other.revision().expect("a revision");
    let refused = import_version(&mut other, &file, "v1", None).expect_err("another speed");
    assert_eq!(refused.code(), "production.import");
    let ProductionError::Import { problems, .. } = refused else {
        panic!("another refusal");
    };
    assert!(problems.iter().all(|p| p.line > 1), "{problems:?}");
    assert!(
        problems
            .iter()
            .any(|p| p.message.contains("this one runs at 24"))
    );
    assert_eq!(other.revision().expect("a revision"), before);
    assert!(other.cut("v1").is_err());

    for (name, text, wanted) in [
        ("empty.otio", "\n", "the file is empty"),
        ("text.OTIO", "position,roll\n", "no OpenTimelineIO file"),
    ] {
        let file = written(dir.path(), name, text);
        let refused = import_version(&mut other, &file, "v1", None).expect_err("no cut");
        let ProductionError::Import { problems, .. } = refused else {
            panic!("another refusal");
        };
        assert!(problems[0].message.contains(wanted), "{problems:?}");
    }
}

#[test]
fn nothing_but_a_file_of_the_standard_is_written_over() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut here = film(&dir.path().join("here"), "18");
    let sheet = written(dir.path(), "v1.csv", SHEET);
    import_version(&mut here, &sheet, "v1", None).expect("a sheet");
    let scan = written(dir.path(), "R1.mkv", "the only copy");
    let refused = write_exchange(&here, "v1", &scan).expect_err("a scan");
    assert_eq!(refused.code(), "production.unfit");
    assert_eq!(
        std::fs::read_to_string(&scan).expect("there"),
        "the only copy"
    );
    let gone = write_exchange(&here, "v9", &dir.path().join("v9.otio")).expect_err("no version");
    assert_eq!(gone.code(), "store.not_found");
}
