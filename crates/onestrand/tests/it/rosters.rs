//! The class roster by command.

use std::path::Path;

use serde_json::json;

use crate::program::{call, onestrand};

fn table(dir: &Path, text: &str) -> String {
    let file = dir.join("class.csv");
    std::fs::write(&file, text).expect("written");
    file.to_str().expect("plain").to_owned()
}

const CLASS: &str = "team,step,hours,needs,waits_for,from,sitting,mood\n\
    Ada;Ben;Cleo,view,0:30,projector,,,,\n\
    Ada;Ben;Cleo,cut,3,bench;splicer,scan proved,2,1:30,\n\
    Ada;Ben;Cleo,project,0:30,projector,,,,\n";

fn arguments(file: &str) -> Vec<&str> {
    let things = [
        "--thing",
        "bench=1",
        "--thing",
        "splicer=1",
        "--thing",
        "projector=1",
    ];
    [&["roster", file, "--sessions", "5x3"], things.as_slice()].concat()
}

#[test]
fn a_class_is_planned_with_its_bound_a_table_and_a_sheet() {
    let dir = tempfile::tempdir().expect("a folder");
    let file = table(dir.path(), CLASS);
    let sheet = dir.path().join("roster.pdf");
    let mut asked = arguments(&file);
    asked.extend([
        "--sheet",
        sheet.to_str().expect("plain"),
        "--paper",
        "letter",
    ]);
    let plan = call(&asked).ok();
    // Nine hours at the bench, three a session, none before the second; and after the
    // last sitting, which ends with its session, a film is still to be shown.
    assert_eq!(plan["sessions"], 5);
    assert_eq!(plan["lower_bound"]["at_least"], 5);
    assert_eq!(
        plan["lower_bound"]["by_thing"][0],
        json!({"thing": "bench", "minutes": 540, "sessions": 3})
    );
    assert_eq!((&plan["best"], &plan["fits"]), (&json!(true), &json!(true)));
    assert_eq!(plan["strange_columns"], json!(["mood"]));
    let turns = plan["turns"].as_array().expect("turns");
    assert_eq!(turns.len(), 12);
    for turn in turns.iter().filter(|turn| turn["step"] == "cut") {
        assert!(turn["session"].as_u64().expect("a number") >= 2);
        assert_eq!(turn["waits_for"], "scan proved");
        assert_eq!(
            turn["to"].as_u64().expect("to") - turn["from"].as_u64().expect("from"),
            90
        );
    }
    assert!(std::fs::read(&sheet).expect("printed").starts_with(b"%PDF"));

    let mut asked = arguments(&file);
    asked.push("--csv");
    let output = onestrand()
        .args(asked)
        .output()
        .expect("the program starts");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(text.starts_with("session,from,to,team,step,sitting,sittings,things,waits_for\n"));
    assert_eq!(text.lines().count(), 13);
}

#[test]
fn a_film_is_made_from_a_template_or_like_another() {
    let dir = tempfile::tempdir().expect("a folder");
    let at = |name: &str| dir.path().join(name).to_str().expect("plain").to_owned();
    let (first, second) = (at("first"), at("second"));
    let made = call([
        "new",
        &first,
        "--title",
        "A",
        "--template",
        "sixteen-cement",
    ])
    .ok();
    assert_eq!(
        (&made["gauge"], &made["speed"]),
        (&json!("16"), &json!("24"))
    );
    let like = [
        "new", &second, "--title", "B", "--like", &first, "--speed", "18",
    ];
    let made = call(like).ok();
    assert_eq!(
        (&made["gauge"], &made["speed"]),
        (&json!("16"), &json!("18"))
    );
    let cuts = call(["cut", "list", &second]).ok();
    assert_eq!(cuts["cuts"][0]["join"], "cement");
    let third = at("third");
    let error = call(["new", &third, "--title", "C", "--template", "feature"]).refused();
    assert!(
        error["hint"]
            .as_str()
            .expect("a hint")
            .contains("club-reel")
    );
    assert!(!Path::new(&third).exists());
}

#[test]
fn sessions_too_few_are_an_answer_of_no() {
    let dir = tempfile::tempdir().expect("a folder");
    let file = table(dir.path(), CLASS);
    let mut asked = arguments(&file);
    asked[3] = "3x3";
    let called = call(&asked);
    assert_eq!(called.exit, 1);
    assert_eq!(
        (&called.document["fits"], &called.document["sessions"]),
        (&json!(false), &json!(5))
    );
}

#[test]
fn everything_wrong_is_told_at_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let file = table(
        dir.path(),
        "team,step,hours,needs\nAda,cut,9,bench\nAda,splice,1,press\n",
    );
    let error = call(arguments(&file)).refused();
    assert_eq!(error["code"], "plan.problems");
    let problems = error["details"]["problems"].as_array().expect("problems");
    let lines: Vec<_> = problems.iter().map(|one| one["line"].clone()).collect();
    assert_eq!(lines, [json!(2), json!(3)]);
    let words = onestrand().args(arguments(&file)).output().expect("starts");
    let words = String::from_utf8_lossy(&words.stderr).into_owned();
    assert!(
        words.contains("line 3, Ada, splice: needs a press"),
        "{words}"
    );
}
