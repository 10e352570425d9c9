//! Story 9: the film is cut to v1, and v2 is wanted.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::program::{call, copy_of_boat, onestrand};

pub(crate) fn text(path: &Path) -> &str {
    path.to_str().expect("a plain name")
}

/// What a person at a terminal reads.
fn said(arguments: &[&str]) -> String {
    let output = onestrand().args(arguments).output().expect("it starts");
    let out = String::from_utf8_lossy(&output.stdout).into_owned();
    out + &String::from_utf8_lossy(&output.stderr)
}

/// The rows of a version, without the header and the positions.
fn rows(film: &str, cut: &str) -> Vec<String> {
    let sheet = call(["cut", "export", film, "--cut", cut]).ok();
    let sheet = sheet["csv"].as_str().expect("a form").to_owned();
    let row = |line: &str| line.split_once(',').expect("a position").1.to_owned();
    sheet.lines().skip(1).map(row).collect()
}

fn lay(film: &str, name: &str, rows: &[String]) {
    let dir = tempfile::tempdir().expect("a folder");
    let form = dir.path().join("form.csv");
    let mut text_of = "position,roll,in,out,slate,join,note\n".to_owned();
    for (index, row) in rows.iter().enumerate() {
        text_of.push_str(&format!("{},{row}\n", index + 1));
    }
    std::fs::write(&form, text_of).expect("written");
    call(["cut", "import", film, text(&form), "--name", name]).ok();
}

/// The example with the second cut of story 9.
pub(crate) fn boat_twice(into: &Path) -> PathBuf {
    let dir = copy_of_boat(into);
    lay_second_cut(text(&dir));
    dir
}

/// The same without the sounds it comes with: laying them was the last step.
pub(crate) fn silent_boat_twice(into: &Path) -> PathBuf {
    let dir = copy_of_boat(into);
    call(["undo", text(&dir)]).ok();
    let cues = call(["cue", "list", text(&dir)]).ok();
    assert_eq!(cues, json!([]), "the sounds were not the last step");
    lay_second_cut(text(&dir));
    dir
}

fn lay_second_cut(film: &str) {
    let mut pieces = rows(film, "v1");
    assert!(pieces[21].starts_with("R3,2505,"), "{}", pieces[21]);
    pieces[21] = "R3,2505,2730,7-T2,,".to_owned();
    pieces.swap(18, 19);
    pieces[12] = "R2,2300,2372,4B-T1,,".to_owned();
    pieces.remove(8);
    lay(film, "v2", &pieces);
}

fn recut(film: &str, more: &[&str]) -> Value {
    let start = ["recut", film, "--from", "v1", "--to", "v2"];
    call(start.iter().chain(more).copied()).ok()
}

fn numbers(of: &Value, names: &[&str]) -> Vec<u64> {
    let one = |name: &&str| of[name].as_u64().expect("a number");
    names.iter().map(one).collect()
}

#[test]
fn the_second_cut_by_cement() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let found = recut(text(&film), &["--join", "cement"]);
    let names = ["opened", "made", "kept", "lost", "lost_outs"];
    assert_eq!(numbers(&found, &names), [8, 7, 14, 11, 2]);
    let names = ["leader_opened", "leader_made", "put_back"];
    assert_eq!(numbers(&found, &names), [0, 0, 0]);
    let names = [
        "planned_frames",
        "real_frames",
        "held",
        "moved",
        "new_frames",
    ];
    assert_eq!(numbers(&found, &names), [2652, 2641, 2526, 54, 72]);
    // The price of each change apart.
    let prices = found["prices"].as_array().expect("prices");
    let told: Vec<(&str, &Value, Vec<u64>)> = prices
        .iter()
        .map(|price| {
            let figures = numbers(price, &["opened", "made", "lost"]);
            (
                price["act"].as_str().expect("an act"),
                &price["change"],
                figures,
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            ("lift", &json!("lift 9 (2B-T1)"), vec![2, 1, 2]),
            (
                "exchange",
                &json!("lift 13 (4B-T2), lay in 12 (4B-T1)"),
                vec![2, 2, 2]
            ),
            (
                "move",
                &json!("move 19 (6B-T2) and 20 (6A-T1)"),
                vec![3, 3, 6]
            ),
            (
                "trim",
                &json!("22 (7-T2) ends 45 frames earlier"),
                vec![1, 1, 1]
            ),
        ]
    );
    // Which frames: as many as are said.
    let lost: u64 = found["lost_film"]
        .as_array()
        .expect("frames")
        .iter()
        .map(frames)
        .sum();
    assert_eq!(lost, 11);
    let outs = found["lost_outs_film"].as_array().expect("frames");
    assert_eq!(outs.iter().map(frames).sum::<u64>(), 2);
}

fn frames(span: &Value) -> u64 {
    span["out"].as_u64().expect("an end") - span["in"].as_u64().expect("a begin")
}

#[test]
fn the_change_list_goes_with_the_price() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let found = recut(text(&film), &["--join", "cement"]);
    let stays: Vec<(u64, u64, i64)> = found["stays"]
        .as_array()
        .expect("stretches")
        .iter()
        .map(|s| {
            let old = s["old"].as_u64().expect("a place");
            let frames = s["frames"].as_u64().expect("a length");
            (old, old + frames, s["offset"].as_i64().expect("an offset"))
        })
        .collect();
    assert_eq!(
        stays,
        [
            (0, 942, 0),
            (987, 1383, -45),
            (1437, 2103, -27),
            (2157, 2229, -81),
            (2229, 2598, -27),
            (2643, 2724, -72),
        ]
    );
    let changes = found["changes"].as_array().expect("changes");
    let lift = json!({"at": 942, "act": "lift", "frames": 45, "to": null, "offset_after": -45});
    for (name, value) in lift.as_object().expect("an object") {
        assert_eq!(&changes[0][name], value, "{name}");
    }
    let moved = changes.iter().find(|c| c["act"] == "move").expect("a move");
    assert_eq!(
        (&moved["at"], &moved["frames"], &moved["to"]),
        (&json!(2103), &json!(54), &json!(2148))
    );
}

#[test]
fn by_tape_nothing_is_lost() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let found = recut(text(&film), &["--join", "tape"]);
    let names = ["opened", "made", "kept", "lost", "lost_outs", "real_frames"];
    assert_eq!(numbers(&found, &names), [8, 7, 14, 0, 0, 2652]);
    assert_eq!(found["lost_film"], json!([]));
}

#[test]
fn the_price_in_words() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let words = said(&[
        "recut",
        text(&film),
        "--from",
        "v1",
        "--to",
        "v2",
        "--join",
        "cement",
    ]);
    for line in [
        "v2 cut anew from v1 with cement: 8 joins opened, 7 made, 14 kept.",
        "  lift 9 (2B-T1): 2 opened, 1 made, 2 frames lost",
        "  22 (7-T2) ends 45 frames earlier: 1 opened, 1 made, 1 frame lost",
    ] {
        assert!(words.lines().any(|l| l == line), "{line}\n{words}");
    }
    assert!(
        words.contains("11 frames of it are lost for good: R1\u{b7}"),
        "{words}"
    );
    assert!(words.contains("It will be 2,641 frames"), "{words}");
    assert!(!words.contains("NOT PROVED"), "{words}");
}

#[test]
fn the_trim_of_the_bell_put_back_leaves_a_hop() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    let mut pieces = rows(film, "v1");
    pieces[12] = "R2,2432,2500,4B-T2,,".to_owned();
    lay(film, "v2", &pieces);
    let found = recut(film, &["--join", "cement"]);
    assert_eq!(
        numbers(&found, &["opened", "made", "put_back", "lost"]),
        [1, 1, 1, 3]
    );
    let hop = json!({"roll": "R2", "in": 2485, "out": 2487});
    let lost = found["lost_film"].as_array().expect("frames");
    assert!(lost.contains(&hop), "{lost:?}");
    let words = said(&[
        "recut", film, "--from", "v1", "--to", "v2", "--join", "cement",
    ]);
    assert!(words.contains("R2\u{b7}2485 to 2486"), "{words}");
    assert!(words.contains("joined back at 1 place"), "{words}");
}

#[test]
fn the_same_version_twice_costs_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    let found = call(["recut", film, "--from", "v1", "--to", "v1"]).ok();
    let names = ["opened", "made", "kept", "lost", "real_frames"];
    assert_eq!(numbers(&found, &names), [0, 0, 22, 0, 2724]);
    assert_eq!(
        (&found["prices"], &found["changes"]),
        (&json!([]), &json!([]))
    );
    let words = said(&["recut", film, "--from", "v1", "--to", "v1"]);
    assert!(
        words.contains("nothing is opened and nothing is made"),
        "{words}"
    );
}

#[test]
fn what_cannot_be_reckoned_is_refused_with_the_reason() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    let none = call(["recut", film, "--from", "v1", "--to", "v9"]).refused();
    assert_eq!(none["code"], "store.not_found");
    assert!(none["message"].as_str().expect("words").contains("v9"));
    call(["cut", "new", film, "--name", "empty"]).ok();
    for (from, to) in [("empty", "v1"), ("v1", "empty")] {
        let empty = call(["recut", film, "--from", from, "--to", to]).refused();
        assert_eq!(empty["code"], "production.unfit");
        assert_eq!(empty["message"], "version empty is empty");
    }
    let mut pieces = rows(film, "v1");
    pieces.push("R1,2900,2930,3-T2,,a look back".to_owned());
    lay(film, "look", &pieces);
    for (from, to) in [("look", "v1"), ("v1", "look")] {
        let refused = call(["recut", film, "--from", from, "--to", to]).refused();
        assert_eq!(refused["code"], "production.cut_refused");
        let conflicts = refused["details"]["conflicts"].as_array().expect("them");
        let doubled = conflicts.iter().find(|c| c["kind"] == "doubled");
        assert_eq!(doubled.expect("30 frames twice")["frames"], 30);
    }
    // Wrong use is exit 2.
    assert_eq!(call(["recut", film, "--from", "v1"]).exit, 2);
}

/// A join of both versions stays as it was made, whatever the new sheet says; what
/// it ate is not there to be shown.
#[test]
fn a_join_kept_has_eaten_what_it_ate() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("paper");
    let film = text(&film);
    call(["new", film, "--title", "On paper"]).ok();
    call(["roll", "paper", film, "A1", "--frames", "900"]).ok();
    let was = ["A1,100,200,,cement,", "A1,400,500,,tape,"].map(str::to_owned);
    lay(film, "v1", &was);
    let is = [
        "A1,100,200,,tape,",
        "A1,400,500,,tape,",
        "A1,200,300,,tape,",
    ]
    .map(str::to_owned);
    lay(film, "v2", &is);
    assert_eq!(
        call(["check", film, "--cut", "v2"]).ok()["ok"],
        true,
        "by itself it can be made"
    );
    let refused = call(["recut", film, "--from", "v1", "--to", "v2"]).refused();
    assert_eq!(refused["code"], "production.cut_refused");
    let bite = &refused["details"]["conflicts"][0];
    assert_eq!(
        (&bite["kind"], &bite["frames"]),
        (&json!("bite"), &json!(1))
    );
}

/// Two ends three frames from joins that are there already, and a lift: what a few
/// frames of tolerance save, and the version kept.
#[test]
fn a_cheaper_version_near_is_found_and_kept() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    let mut pieces = rows(film, "v1");
    pieces[21] = "R3,2505,2772,7-T2,,a little shorter".to_owned();
    pieces.remove(8);
    lay(film, "v2", &pieces);
    let wanted = recut(film, &["--join", "cement"]);
    assert_eq!(numbers(&wanted, &["opened", "made", "lost"]), [3, 2, 3]);
    assert!(wanted.get("near").is_none());
    let found = recut(film, &["--join", "cement", "--tolerance", "3"]);
    assert_eq!(found["prices"], wanted["prices"], "the price is that of v2");
    let near = &found["near"];
    assert_eq!(
        (&near["tolerance"], &near["best"]),
        (&json!(3), &json!(true))
    );
    let versions = near["found"].as_array().expect("versions");
    let told: Vec<Vec<u64>> = versions
        .iter()
        .map(|v| numbers(v, &["tolerance", "opened", "made", "lost"]))
        .collect();
    // One frame: what opening spoils is not wanted. Three: the join before the end
    // card is kept.
    assert_eq!(told, [[1, 3, 2, 0], [3, 2, 1, 0]]);
    let best = &versions[1];
    let kept = json!({"position": 21, "end": "out", "frames": 3,
        "words": "21 (7-T2) ends 3 frames later"});
    let shifts = best["shifts"].as_array().expect("shifts");
    assert!(shifts.contains(&kept), "{shifts:?}");
    assert_eq!(best["planned_frames"], best["real_frames"]);

    let more = ["--join", "cement", "--tolerance", "3", "--keep", "v2b"];
    let done = recut(film, &more);
    assert_eq!(done["kept_as"], "v2b");
    let sheet = call(["cut", "export", film, "--cut", "v2b"]).ok();
    assert_eq!(sheet["csv"], best["csv"], "its cutting sheet");
    let again = call(["recut", film, "--from", "v1", "--to", "v2b"]).ok();
    assert_eq!(numbers(&again, &["opened", "made", "lost"]), [2, 1, 0]);
    let taken = recut_refused(film, &more);
    assert!(taken.contains("v2b already"), "{taken}");
    let undone = call(["undo", film]).ok();
    assert_eq!(undone["undone"], "keep v2b, near v2");
    assert_eq!(
        call(["cut", "export", film, "--cut", "v2b"]).refused()["code"],
        "store.not_found"
    );

    let words = said(&[
        "recut",
        film,
        "--from",
        "v1",
        "--to",
        "v2",
        "--join",
        "cement",
        "--tolerance",
        "3",
    ]);
    for line in [
        "Cheaper, when pieces may begin and end up to 3 frames elsewhere:",
        "      21 (7-T2) ends 3 frames later",
        "  Proved: nothing else within these frames is cheaper than the last.",
    ] {
        assert!(words.lines().any(|l| l == line), "{line}\n{words}");
    }
}

fn recut_refused(film: &str, more: &[&str]) -> String {
    let start = ["recut", film, "--from", "v1", "--to", "v2"];
    let error = call(start.iter().chain(more).copied()).refused();
    error["message"].as_str().expect("words").to_owned()
}

#[test]
fn a_tolerance_has_its_bounds() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    lay(film, "v2", &rows(film, "v1"));
    assert!(recut_refused(film, &["--tolerance", "13"]).contains("13 frames"));
    let none = recut(film, &["--tolerance", "0"]);
    assert_eq!(none["near"]["found"], json!([]));
    let same = recut_refused(film, &["--tolerance", "4", "--keep", "v3"]);
    assert!(same.contains("nothing was kept"), "{same}");
    let start = ["recut", film, "--from", "v1", "--to", "v2", "--keep", "v3"];
    assert_eq!(call(start).exit, 2, "--keep wants --tolerance");
}

fn acts<'a>(work: &'a Value, act: &str) -> Vec<&'a Value> {
    let steps = work["steps"].as_array().expect("steps").iter();
    steps.filter(|s| s["act"] == act).collect()
}

#[test]
fn the_work_order_runs_the_made_reel_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let film = text(&film);
    let plain = recut(film, &["--join", "cement"]);
    assert!(plain.get("work").is_none(), "only where pins are said");
    let found = recut(film, &["--join", "cement", "--pins", "3"]);
    let work = &found["work"];
    assert_eq!(
        (&work["feasible"], &work["best"]),
        (&json!(true), &json!(true))
    );
    let names = ["opened", "left_joined", "cuts", "joins", "lengths"];
    assert_eq!(numbers(work, &names), [8, 0, 3, 7, 8]);
    // R2 to the end of the new bell with its tongue, and the reel once.
    let names = ["pins_peak", "roll_changes", "wound_frames"];
    assert_eq!(numbers(work, &names), [1, 1, 2373 + 2724]);
    assert_eq!(work["roll_order"], json!(["R2", "reel"]));
    let count = |act| acts(work, act).len();
    assert_eq!((count("open"), count("cut"), count("join")), (8, 3, 7));
    assert_eq!((count("mount"), count("unmount"), count("hang")), (2, 2, 2));
    let opened: Vec<u64> = acts(work, "open")
        .iter()
        .map(|s| s["opens_before"].as_u64().expect("a position"))
        .collect();
    assert_eq!(opened, [9, 10, 13, 14, 19, 20, 21, 23]);
    let led: Vec<(u64, u64)> = acts(work, "take_up")
        .iter()
        .map(|s| {
            let position = |name: &str| s[name].as_u64().expect("a position");
            (position("position"), position("to_position"))
        })
        .collect();
    assert_eq!(
        led,
        [
            (1, 8),
            (9, 11),
            (12, 12),
            (13, 17),
            (18, 18),
            (19, 19),
            (20, 21),
            (22, 22)
        ]
    );
    let on_the_reel: Vec<u64> = acts(work, "wind")
        .iter()
        .filter_map(|s| s["at"].as_u64())
        .collect();
    assert!(
        on_the_reel.is_sorted(),
        "from head to tail: {on_the_reel:?}"
    );
    let words = said(&[
        "recut", film, "--from", "v1", "--to", "v2", "--join", "cement", "--pins", "3",
    ]);
    for line in [
        "The work with 3 pins: 8 joins opened, 3 cuts, 7 joins made.",
        "Proved: with 3 pins and one pass of reel and rolls, no order is better.",
        "   10. Open the join between the old 8 and 9.",
        "   11. Lead 1 to 8 to the take-up reel.",
    ] {
        assert!(words.lines().any(|l| l == line), "{line}\n{words}");
    }
}

#[test]
fn too_few_pins_are_a_no_that_says_how_many_would_do() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let film = text(&film);
    let start = ["recut", film, "--from", "v1", "--to", "v2", "--pins", "0"];
    let called = call(start);
    assert_eq!(called.exit, 1);
    let work = &called.document["work"];
    assert_eq!(
        called.document["opened"], 8,
        "the price is told all the same"
    );
    assert_eq!(work["feasible"], false);
    let ways = json!({"one_pass": 1, "tails": 1, "to_and_fro": 0});
    assert_eq!((&work["fewest"], &work["fewest_at_least"]), (&ways, &ways));
    assert_eq!(
        (&work["wound_frames"], &work["steps"]),
        (&Value::Null, &json!([]))
    );
    let fro = call(start.iter().chain(&["--to-and-fro"]).copied()).ok();
    assert_eq!(
        numbers(&fro["work"], &["pins_peak", "roll_changes"]),
        [0, 2]
    );
    assert!(acts(&fro["work"], "hang").is_empty());
    let start = ["recut", film, "--from", "v1", "--to", "v2", "--tails"];
    assert_eq!(call(start).exit, 2, "a way of winding wants pins");
    // Nothing to do is no work.
    let none = call(["recut", film, "--from", "v1", "--to", "v1", "--pins", "0"]).ok();
    assert_eq!(none["work"]["steps"], json!([]));
    assert_eq!(
        numbers(&none["work"], &["wound_frames", "opened", "joins"]),
        [0, 0, 0]
    );
}

/// Story 9 from the bench: v1 joined by cement and ticked off act by act, then v2 made of
/// that film; every figure is that of the story, counted from what was done.
#[test]
fn from_the_bench_the_story_comes_out_frame_for_frame() {
    let into = tempfile::tempdir().expect("a folder");
    let dir = boat_twice(into.path());
    let film = text(&dir);
    for (name, from) in [("c1", "v1"), ("c2", "v2")] {
        let sheet = call(["cut", "export", film, "--cut", from]).ok();
        let form = into.path().join(format!("{name}.csv"));
        std::fs::write(&form, sheet["csv"].as_str().expect("a form")).expect("written");
        let import = ["cut", "import", film, text(&form), "--name", name];
        call(import.into_iter().chain(["--join", "cement"])).ok();
    }
    let work = |words: &[&str]| {
        let (verb, more) = words.split_first().expect("a word");
        call(["work", verb, film].into_iter().chain(more.iter().copied())).ok()
    };
    let tick_all = |begun: Value| {
        let mut told = begun;
        let mut acts: Vec<String> = Vec::new();
        while let Some(act) = told["on_the_bench"]["acts"][0]["act"].as_str() {
            acts.push(act.to_owned());
            told = work(&["tick"]);
            assert!(acts.len() < 200, "no end of it");
        }
        (told, acts)
    };
    let (first, _) = tick_all(work(&["begin", "--cut", "c1", "--pins", "12"]));
    assert_eq!(first["on_the_bench"]["reel_frames"], 2_724);
    let price = call(["recut", film, "--from", "c1", "--to", "c2"]).ok();
    let bench = &price["from_the_bench"];
    let names = [
        "opened",
        "made",
        "kept",
        "lost",
        "lost_outs",
        "missing",
        "frames",
        "pins",
    ];
    // Kept are the 14 of the story and the two of the leaders.
    assert_eq!(numbers(bench, &names), [8, 7, 16, 11, 2, 0, 2_641, 1]);
    let (last, acts) = tick_all(work(&["begin", "--cut", "c2", "--pins", "12"]));
    let count = |act: &str| acts.iter().filter(|a| *a == act).count();
    assert_eq!((count("unjoin"), count("join")), (8, 7));
    assert_eq!(last["on_the_bench"]["reel_frames"], 2_641);
    assert_eq!(last["on_the_bench"]["made_of"], "c1");
    // The frame that the opening spoiled is told in the life of its strip.
    let life = call(["work", "life", film, "R3.1830"]).ok();
    let words = life["words"].as_str().expect("words");
    assert!(
        words.contains("opened") || words.contains("spoiled"),
        "{words}"
    );
}
