//! Logs and camera reports as others write them.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_production::{
    CountedIn, LogImported, LogReading, Production, ProductionError, import_log_text,
};

use crate::in_the_hand::film;

fn bring_in(
    film: &mut Production,
    text: &str,
    reading: &LogReading,
) -> Result<LogImported, ProductionError> {
    let bytes = text.as_bytes().to_vec();
    import_log_text(film, Path::new("report.csv"), bytes, reading)
}

fn spans(film: &Production, roll: &str) -> Vec<(String, u32, u32)> {
    let takes = film.takes_of(roll).expect("takes").into_iter();
    takes
        .map(|t| {
            let slate = t.setup.zip(t.take).map(|(s, n)| format!("{s}-T{n}"));
            (slate.unwrap_or_default(), t.first, t.thrown)
        })
        .collect()
}

fn want(list: &[(&str, u32, u32)]) -> Vec<(String, u32, u32)> {
    let one = |(slate, first, thrown): &(&str, u32, u32)| ((*slate).to_owned(), *first, *thrown);
    list.iter().map(one).collect()
}

/// Line and column of each problem.
fn places(problem: &ProductionError) -> Vec<String> {
    let ProductionError::Import { problems, .. } = problem else {
        panic!("no import problem: {problem}");
    };
    let one = |p: &onestrand_production::ImportProblem| format!("{}:{}", p.line, p.column);
    problems.iter().map(one).collect()
}

#[test]
fn a_camera_report_in_feet_with_commas_and_semicolons() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let report = "\u{feff}Remark;Counter start (ft);Counter end (ft);Scene/Setup;Take;Roll;f/s;Lens;Mark\r\n\
                  wind on the lens;0,5;5,25;3A;1;1;18;25 mm;hold\r\n\
                  ;5,25;10;3A;2;1;18;;\r\n";
    let done = bring_in(&mut film, report, &LogReading::default()).expect("brought in");
    assert_eq!((done.takes, done.rolls), (2, vec!["R1".to_owned()]));
    assert_eq!(done.unknown_columns, ["f/s", "lens"]);
    assert!(
        done.assumptions.iter().any(|a| a == "roll 1 is R1"),
        "{:?}",
        done.assumptions
    );
    assert!(
        done.assumptions
            .iter()
            .any(|a| a.contains("as a counter shows it"))
    );
    assert_eq!(
        spans(&film, "R1"),
        want(&[("3A-T1", 36, 378), ("3A-T2", 378, 720)])
    );
    let takes = film.takes_of("R1").expect("takes");
    assert_eq!(takes[0].note, "wind on the lens; f/s: 18; lens: 25 mm");
    assert_eq!(takes[0].rating, "hold");
    film.undo().expect("undone");
    assert_eq!(spans(&film, "R1").len(), 4, "the four parts of before");
}

#[test]
fn a_log_whose_ends_are_last_frames_is_seen_to_be_one() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let log = "roll,slate,from,to\nR1,3/1,0,389\nR1,3 take 2,390,761\n";
    let done = bring_in(&mut film, log, &LogReading::default()).expect("brought in");
    assert_eq!(
        spans(&film, "R1"),
        want(&[("3-T1", 0, 390), ("3-T2", 390, 762)])
    );
    assert!(
        done.assumptions[0].contains("one later"),
        "{:?}",
        done.assumptions
    );
    // Where nothing tells, an end is where the counter stood.
    let log = "roll,slate,from,to\nR1,3-T1,0+10,5+30\nR1,3-T2,6ft0,10 ft 2 fr\n";
    bring_in(&mut film, log, &LogReading::default()).expect("brought in");
    assert_eq!(
        spans(&film, "R1"),
        want(&[("3-T1", 10, 390), ("3-T2", 432, 722)])
    );
}

#[test]
fn lengths_seconds_scenes_and_a_log_that_names_no_roll() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let log = "Szene,Einstellung,Take,Von (Sekunden),Länge,Handlung\n3,A,1,\"2,5\",\"12,5 s\",Ida läuft\n3,B,1,20,90 fr,\n";
    let reading = LogReading {
        roll: Some("r2".to_owned()),
        counted: None,
    };
    let done = bring_in(&mut film, log, &reading).expect("brought in");
    assert_eq!(done.rolls, ["R2"]);
    assert_eq!(
        spans(&film, "R2"),
        want(&[("3A-T1", 45, 270), ("3B-T1", 360, 450)])
    );
    assert_eq!(film.takes_of("R2").expect("takes")[0].action, "Ida läuft");
}

#[test]
fn a_counter_without_a_unit_is_asked_about_and_told() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1"]);
    let log = "roll,scene/take,counter start,counter end\nR1,3/1,0,5\nR1,3/2,5,10\n";
    let problem = bring_in(&mut film, log, &LogReading::default()).expect_err("feet or frames?");
    let all = places(&problem);
    assert_eq!(
        all,
        [
            "2:counter start",
            "2:counter end",
            "3:counter start",
            "3:counter end"
        ]
    );
    let reading = LogReading {
        roll: None,
        counted: Some(CountedIn::Feet),
    };
    bring_in(&mut film, log, &reading).expect("feet");
    assert_eq!(
        spans(&film, "R1"),
        want(&[("3-T1", 0, 360), ("3-T2", 360, 720)])
    );
}

#[test]
fn all_problems_are_told_at_once_and_nothing_is_changed() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let before = (spans(&film, "R1"), film.revision().expect("a revision"));
    let log = "roll,slate,take,in,out,use,pin\n\
               R9,3A,1,0,10,yes,\n\
               R1,3A,two,0,10,perhaps,\n\
               R1,3 ✂,2,10,\"2,724\",yes,\n\
               R1,3B/1,2,20,30,,0\n\
               R1,3C,1,50,40,,\n\
               R1,3D,1,100,9000,,\n\
               R1,3E,1,200,300,,5\n\
               R1,3E,1,250,400,,5\n\
               R1,3F\n";
    let problem = bring_in(&mut film, log, &LogReading::default()).expect_err("much");
    assert_eq!(
        places(&problem),
        [
            "2:roll", "3:take", "3:use", "4:out", "4:slate", "5:slate", "5:pin", "6:out", "7:out",
            "8:pin", "9:in", "9:take", "9:pin", "10:"
        ]
    );
    assert_eq!(
        (spans(&film, "R1"), film.revision().expect("a revision")),
        before
    );

    for (header, missing) in [
        ("slate,in,out\nx,1,2\n", "1:roll"),
        ("roll,slate,out\nR1,x,2\n", "1:in"),
        ("roll,slate,in\nR1,x,2\n", "1:out"),
        ("roll,from,start,to\nR1,1,1,2\n", "1:start"),
        ("roll,in,out\n", "1:"),
        ("", "1:roll"),
    ] {
        let problem = bring_in(&mut film, header, &LogReading::default()).expect_err(header);
        assert!(
            places(&problem).iter().any(|p| p == missing),
            "{header}: {:?}",
            places(&problem)
        );
    }
}

#[test]
fn takes_keep_their_pins_through_a_new_log_and_may_be_given_others() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = film(dir.path(), Gauge::Super8, &["R1", "R2"]);
    let log =
        "roll,slate,take,in,out,pin\nR2,3A,1,0,1000,14\nR2,3A,2,1000,2000,\nR2,3B,1,2000,4000,\n";
    bring_in(&mut film, log, &LogReading::default()).expect("brought in");
    let pins = |film: &Production| -> Vec<Option<u32>> {
        let takes = film.takes_of("R2").expect("takes");
        takes.iter().map(|t| t.pin).collect()
    };
    assert_eq!(pins(&film), [Some(14), Some(6), Some(7)]);
    // The take of a slate keeps its pin wherever it is said to begin.
    let log = "roll,slate,take,in,out\nR2,3A,2,0,900\nR2,3A,1,900,2000\nR2,3B,1,2010,4000\n";
    bring_in(&mut film, log, &LogReading::default()).expect("brought in");
    assert_eq!(pins(&film), [Some(6), Some(14), Some(7)]);
    // On R1 hangs the take of pin 1 already.
    let log = "roll,slate,take,in,out,pin\nR2,3A,2,0,900,1\n";
    let problem = bring_in(&mut film, log, &LogReading::default()).expect_err("taken");
    assert_eq!(places(&problem), ["2:pin"]);
}
