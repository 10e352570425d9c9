//! Story 12: the reel, the hall, and the ledger of what was done to the originals.

use std::path::Path;

use serde_json::json;

use crate::program::{boat, call, call_words, onestrand};

/// A film of one version that is 2,652 frames long, as the second cut of the story is.
pub(crate) fn second_cut(dir: &Path) -> String {
    let film = dir.join("film").to_str().expect("plain").to_owned();
    call([
        "new",
        &film,
        "--title",
        "The Ten-Past Boat",
        "--speed",
        "18",
    ])
    .ok();
    let sheet = dir.join("v2.csv");
    std::fs::write(
        &sheet,
        "position,roll,in,out,slate,join,note\n1,leader,0,2652,,,\n",
    )
    .expect("written");
    let sheet = sheet.to_str().expect("plain").to_owned();
    call(["cut", "import", &film, &sheet, "--name", "v2"]).ok();
    film
}

/// What it says to a person.
fn words_of<'a>(arguments: impl IntoIterator<Item = &'a str>) -> String {
    let output = onestrand()
        .args(arguments)
        .output()
        .expect("the program starts");
    assert!(output.status.success(), "{output:?}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

#[test]
fn the_second_cut_goes_on_a_fifty_foot_reel() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = second_cut(dir.path());
    let plan = call([
        "reel",
        "plan",
        &film,
        "--cut",
        "v2",
        "--leader",
        "10ft0",
        "--hub",
        "32",
        "--thickness",
        "0.145",
        "--lies",
        "tails",
        "--sound",
        "silent",
        "--owner",
        "Ida",
    ])
    .ok();
    assert_eq!(plan["whole"]["footage"], json!({"feet": 46, "frames": 60}));
    assert_eq!(plan["whole"]["across_mm"], 60.5);
    assert_eq!(plan["reels"].as_array().map(Vec::len), Some(1));
    let reel = &plan["reels"][0];
    assert_eq!(reel["reel"]["reel"], "50ft");
    assert_eq!(
        (&reel["frames"], &reel["across_mm"]),
        (&json!(3_372), &json!(60.5))
    );
    assert_eq!(reel["wound"][0]["what"], "leader");
    assert_eq!(reel["wound"][1]["frames"], 2_652);
    for place in ["reel", "can"] {
        let lines = reel["labels"][place].as_array().expect("lines");
        for line in [
            "The Ten-Past Boat",
            "reel 1 of 1",
            "36 ft 60 fr, 2:27.3",
            "TAILS OUT",
            "Ida",
        ] {
            assert!(
                lines.contains(&json!(line)),
                "{line} on the {place}: {lines:?}"
            );
        }
    }
}

/// What is too long is answered no, with the reason, and nothing is broken.
#[test]
fn what_goes_on_no_reel_is_a_no_and_what_makes_no_sense_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = second_cut(dir.path());
    let short = call([
        "reel", "plan", &film, "--cut", "v2", "--leader", "20ft0", "--reel", "50ft",
    ]);
    assert_eq!(short.exit, 1);
    let said = &short.document;
    assert_eq!((&said["fits"], &said["reels"]), (&json!(false), &json!([])));
    assert!(
        said["problem"]
            .as_str()
            .is_some_and(|it| it.contains("30 ft 0 fr")),
        "{said}"
    );
    let code = |words: &[&str]| {
        let all = ["reel", "plan", &film]
            .into_iter()
            .chain(words.iter().copied());
        call(all).refused()["code"]
            .as_str()
            .expect("a code")
            .to_owned()
    };
    assert_eq!(code(&["--cut", "v9"]), "store.not_found");
    assert_eq!(code(&["--cut", "v2,v2"]), "production.unfit");
    assert_eq!(code(&["--cut", "v2", "--reel", "9ft"]), "production.unfit");
    assert_eq!(
        code(&["--cut", "v2", "--leader", "a yard"]),
        "film.unreadable"
    );
    assert_eq!(code(&["--cut", "v2", "--hub", "0"]), "film.out_of_range");
    assert_eq!(
        call(["reel", "plan", &film]).exit,
        2,
        "no version is wrong use"
    );
}

#[test]
fn words_and_document_of_the_first_cut_agree() {
    let words = words_of([
        "reel",
        "plan",
        boat().to_str().expect("plain"),
        "--cut",
        "v1",
    ]);
    let plan = call_words("reel plan DIR --cut v1", &boat()).ok();
    let frames = plan["reels"][0]["frames"].as_u64().expect("a count");
    assert_eq!(frames, 2_724 + 720, "the cut and ten feet of leader");
    for wanted in [
        "47 ft 60 fr",
        "50ft",
        "HEAD | The Ten-Past Boat",
        "taken: 10 ft of leader",
    ] {
        assert!(words.contains(wanted), "{wanted} in {words}");
    }
    assert_eq!(plan["films"][0]["can_be_cut"], true);
}

#[test]
fn the_hall() {
    let hall = call([
        "throw",
        "--gauge",
        "super8",
        "--lens",
        "20",
        "--width",
        "1.2m",
        "--last-row",
        "5m",
    ])
    .ok();
    assert_eq!(hall["throw_m"], "4.54");
    assert_eq!(hall["picture_mm"], json!([1200.0, 906.2]));
    assert_eq!(hall["last_row"]["letter_mm"], 29.1);
    let far = call(["throw", "--gauge", "16", "--lens", "50", "--distance", "8m"]).ok();
    assert_eq!(far["picture_mm"][0], 1534.4);
    let lens = call([
        "throw",
        "--gauge",
        "16",
        "--width",
        "1.5344m",
        "--distance",
        "8m",
    ])
    .ok();
    assert_eq!(lens["lens_mm"], 50.0);
    for (words, code) in [
        (vec!["--lens", "20"], "production.unfit"),
        (vec!["--lens", "0", "--width", "1m"], "film.out_of_range"),
        (vec!["--lens", "20", "--width", "wide"], "film.unreadable"),
        (
            vec!["--lens", "20", "--width", "1m", "--distance", "9m"],
            "production.unfit",
        ),
    ] {
        let all = ["throw", "--gauge", "super8"].into_iter().chain(words);
        assert_eq!(call(all).refused()["code"], code);
    }
}

#[test]
fn the_ledger_holds_more_than_runs() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = second_cut(dir.path());
    call(["roll", "paper", &film, "R1", "--frames", "3600"]).ok();
    let on = ["--on", "2026-03-03"];
    let handle = |more: &[&str]| {
        let all = ["roll", "handled", &film, "R1"].into_iter().chain(on);
        call(all.chain(more.iter().copied()))
    };
    handle(&["--kind", "cleaning", "--by", "Ida"]).ok();
    let kept = handle(&["--kind", "cut", "--times", "12", "--note", "first reel"]).ok();
    assert_eq!(kept["handled"]["cuts"], 12);
    assert_eq!(kept["runs"], json!([]));
    call([
        "roll",
        "run",
        &film,
        "R1",
        "--on",
        "2026-03-04",
        "--through",
        "projector",
    ])
    .ok();
    let all = call(["roll", "runs", &film, "R1"]).ok();
    let roll = &all["rolls"][0];
    assert_eq!(
        (&roll["times"], &roll["handled"]["by_projector"]),
        (&json!(1), &json!(1))
    );
    assert_eq!(roll["ledger"].as_array().map(Vec::len), Some(3));
    assert_eq!(
        handle(&["--kind", "cut", "--times", "0"]).refused()["code"],
        "production.unfit"
    );
    assert_eq!(handle(&["--kind", "ironing"]).exit, 2);
    let words = words_of(["roll", "runs", &film]);
    assert!(
        words.contains("R1 was run once, cleaned once, cut 12 times"),
        "{words}"
    );
}
