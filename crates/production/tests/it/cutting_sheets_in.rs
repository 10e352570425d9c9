//! Cutting sheets as they come from people: everything that is wrong is told at
//! once with line and column, and nothing is changed.

use std::path::Path;

use onestrand_cut::JoinKind;
use onestrand_film::{Fps, Gauge};
use onestrand_production::{
    CutImported, ImportProblem, Meta, PaperRoll, Production, ProductionError, add_paper_roll,
    import_cut,
};

fn film(dir: &Path) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    for (name, frames) in [("R1", 3600), ("R2", 100_000)] {
        let roll = PaperRoll {
            roll: name.to_owned(),
            frames,
            gauge: None,
            base: "triacetate".to_owned(),
            fit: "project".to_owned(),
            wind: None,
        };
        add_paper_roll(&mut production, &roll).expect("a roll on paper");
    }
    production
}

fn brought(text: &[u8]) -> Result<CutImported, Vec<ImportProblem>> {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(&dir.path().join("film"));
    let before = production.revision().expect("a revision");
    let path = dir.path().join("v1.csv");
    std::fs::write(&path, text).expect("written");
    let done = import_cut(&mut production, &path, "v1", JoinKind::Tape);
    match done {
        Ok(done) => Ok(done),
        Err(ProductionError::Import { problems, .. }) => {
            assert!(!problems.is_empty());
            assert_eq!(production.revision().expect("a revision"), before);
            assert!(production.cut("v1").is_err());
            Err(problems)
        }
        Err(other) => panic!("{other}"),
    }
}

/// `line:column` of every problem, in the order of the file.
fn places(text: &str) -> Vec<String> {
    let problems = brought(text.as_bytes()).expect_err("problems");
    problems
        .iter()
        .map(|p| format!("{}:{}", p.line, p.column))
        .collect()
}

#[test]
fn all_that_is_wrong_is_told_at_once_with_line_and_column() {
    let sheet = "position,roll,in,out,slate,join,note,speed\n\
        1,R9,0,10,,,unknown roll,\n\
        2,R1,50,40,,,reversed,\n\
        3,R1,-5,40,,,before the head,\n\
        4,R1,10,-40,,,negative length,\n\
        5,R1,3590,3601,,,behind the end,\n\
        5,R1,0,10,,,the position stands twice,\n\
        0,R1,10,20,,,no position,\n\
        x,R1,10,20,7,glue,several in one line,\n\
        6,leader,0,0,,,no length,\n\
        7,leader,4,40,,,leader begins at 0,\n\
        8,card,0,-9,,,negative card,\n\
        9,R1,20,30,,,wrong speed,24\n\
        10,R1,30,40,,,no speed,fast\n\
        11,R1,40,50,,,the right speed,18\n\
        12,,50,60,,,no roll,\n\
        13,R1,,,,,no frames,\n\
        14,R1,0,10\n";
    assert_eq!(
        places(sheet),
        [
            "2:roll",
            "3:out",
            "4:in",
            "5:out",
            "6:out",
            "7:position",
            "8:position",
            "9:position",
            "9:join",
            "9:slate",
            "10:out",
            "11:in",
            "12:out",
            "13:speed",
            "14:speed",
            "16:roll",
            "17:in",
            "17:out",
            "18:"
        ]
    );
    let problems = brought(sheet.as_bytes()).expect_err("problems");
    let said = |place: &str| {
        let of = problems
            .iter()
            .find(|p| format!("{}:{}", p.line, p.column) == place);
        of.expect("it is told").message.clone()
    };
    assert!(
        said("2:roll").contains("there are: R1, R2"),
        "{}",
        said("2:roll")
    );
    assert!(
        said("6:out").contains("R1 has 3600 frames"),
        "{}",
        said("6:out")
    );
    assert!(
        said("13:speed").contains("this film runs at 18"),
        "{}",
        said("13:speed")
    );
    assert!(
        said("18:").contains("4 cells in a line, 8 in the header"),
        "{}",
        said("18:")
    );
}

#[test]
fn files_with_nothing_to_cut() {
    for (text, wanted) in [
        (
            "",
            "the file is empty: a header is wanted, position, roll, in, out",
        ),
        ("\n\n \n", "the file is empty"),
        ("position,roll,in,out\n", "no piece stands in it"),
        ("position,roll,in,out\n,,,\n", "no piece stands in it"),
    ] {
        let problems = brought(text.as_bytes()).expect_err("problems");
        assert_eq!(problems.len(), 1, "{text:?}: {problems:?}");
        assert!(
            problems[0].message.contains(wanted),
            "{text:?}: {problems:?}"
        );
        assert_eq!(problems[0].line, 1);
    }
}

#[test]
fn each_missing_column_is_named_and_what_stands_there_instead() {
    let problems = brought(b"no,reel,in,out\n1,R1,0,9\n").expect_err("problems");
    let columns: Vec<&str> = problems.iter().map(|p| p.column.as_str()).collect();
    assert_eq!(columns, ["position", "roll"]);
    for problem in &problems {
        assert!(
            problem.message.contains("found: no, reel, in, out"),
            "{problem:?}"
        );
    }
}

/// A version may show a frame twice: the strand check refuses it and names the
/// ways out. Who brings it in is told by line.
#[test]
fn frames_shown_twice_are_told_and_kept() {
    let done = brought(
        b"position,roll,in,out\n\
          3,R1,500,546\n\
          1,R1,400,520\n\
          2,R1,519,530\n\
          4,R2,400,520\n\
          5,R1,546,600\n",
    )
    .expect("a version all the same");
    let told: Vec<(u64, &str)> = done
        .remarks
        .iter()
        .map(|r| (r.line, r.message.split(',').next().unwrap_or("")))
        .collect();
    assert_eq!(done.pieces, 5);
    // [400,520) and [500,546) share 20 frames; [519,530) lies within the latter.
    assert_eq!(told, [(2, "20 frames of R1"), (2, "11 frames of R1")]);
    assert!(done.remarks[0].message.contains("500 to 519"));
    assert!(done.remarks[0].message.contains("by line 3 too"));
}

#[test]
fn ten_thousand_rows_come_in_and_ten_thousand_wrong_ones_are_all_told() {
    let mut sound = String::from("position,roll,in,out,slate,join,note\n");
    let mut wrong = sound.clone();
    for n in 0..10_000_u32 {
        sound.push_str(&format!(
            "{},R2,{},{},1-T1,,row {n}\n",
            n + 1,
            n * 10,
            n * 10 + 9
        ));
        wrong.push_str(&format!(
            "{},R2,{},{},1-T1,,row {n}\n",
            n + 1,
            n * 10 + 9,
            n * 10
        ));
    }
    let done = brought(sound.as_bytes()).expect("a long version");
    assert_eq!((done.pieces, done.frames), (10_000, 90_000));
    assert!(done.remarks.is_empty());
    let problems = brought(wrong.as_bytes()).expect_err("problems");
    assert_eq!(problems.len(), 10_000);
    let lines: Vec<u64> = problems.iter().map(|p| p.line).collect();
    assert_eq!(lines, (2..=10_001).collect::<Vec<u64>>());
}
