//! Story 7: the cut as work, and in which order it is done.

use serde_json::{Value, json};

use crate::program::{boat, call, call_words, copy_of_boat, onestrand};

fn figures(order: &Value) -> Vec<u64> {
    let names = [
        "pieces",
        "cuts",
        "joins",
        "leftovers",
        "wound_frames",
        "pins_peak",
        "roll_changes",
    ];
    let figure = |name| order[name].as_u64().expect("a figure");
    names.into_iter().map(figure).collect()
}

fn acts(order: &Value, act: &str) -> Vec<Value> {
    let steps = order["steps"].as_array().expect("steps").iter();
    steps.filter(|s| s["act"] == act).cloned().collect()
}

#[test]
fn the_work_order_of_the_first_cut() {
    let order = call_words("bench DIR --cut v1 --join tape --pins 12", &boat()).ok();
    assert_eq!(order["feasible"], true);
    assert_eq!(order["best"], true);
    assert_eq!(figures(&order), [23, 46, 24, 26, 9_724, 9, 2]);
    assert_eq!(order["roll_order"], json!(["R3", "R1", "R2"]));
    assert_eq!(order["proved"], json!({"R1": true, "R2": true, "R3": true}));
    // 46 cuts, 24 joins, 3 mountings and 135.06 ft, in minutes to the tenth.
    assert_eq!(order["minutes"], 76.3);
    assert_eq!(
        order["alternatives"],
        json!([
            {"pins_peak": 8, "roll_changes": 3, "wound_frames": 9_724},
            {"pins_peak": 6, "roll_changes": 3, "wound_frames": 13_507, "tails": ["R3"]},
            {"pins_peak": 0, "roll_changes": 5, "wound_frames": 22_741, "to_and_fro": true},
        ])
    );
    let bound = &order["lower_bound"];
    assert_eq!(
        (&bound["roll_changes"], &bound["wound_frames"]),
        (&json!(2), &json!(9_724))
    );
    assert!(order.get("fewest").is_none(), "the pins suffice");
}

/// The list of acts says the same as the figures above it.
#[test]
fn the_acts_come_to_the_figures() {
    let order = call_words("bench DIR --cut v1 --join tape", &boat()).ok();
    assert_eq!(order["pins"], 12, "where nobody says how many");
    let mounted: Vec<Value> = acts(&order, "mount")
        .iter()
        .map(|s| s["roll"].clone())
        .collect();
    assert_eq!(mounted, ["R3", "R1", "R2"]);
    assert_eq!(acts(&order, "cut").len(), 46);
    assert_eq!(acts(&order, "join").len(), 24);
    let led: Vec<u64> = acts(&order, "take_up")
        .iter()
        .map(|s| s["position"].as_u64().expect("a position"))
        .collect();
    assert_eq!(led.len(), 23);
    assert!(led.is_sorted(), "the reel grows in the order of the cut");
    let mut hanging = 0_usize;
    let mut most = 0;
    let mut wound = 0;
    let mut stands = std::collections::BTreeMap::new();
    for step in order["steps"].as_array().expect("steps") {
        match (step["act"].as_str(), &step["pin"]) {
            (Some("hang"), _) => hanging += 1,
            (Some("take_up"), pin) if !pin.is_null() => hanging -= 1,
            (Some("wind"), _) => {
                let to = step["frame"].as_u64().expect("a frame");
                let at = stands.insert(step["roll"].to_string(), to).unwrap_or(0);
                wound += to.abs_diff(at);
                let way = if to > at { "tail" } else { "head" };
                assert_eq!(step["direction"], way);
            }
            _ => {}
        }
        most = most.max(hanging);
    }
    assert_eq!((most, hanging, wound), (9, 0, 9_724));
}

#[test]
fn cement_winds_a_frame_more_on_each_roll() {
    let order = call_words("bench DIR --cut v1 --join cement --pins 12", &boat()).ok();
    assert_eq!(figures(&order), [23, 46, 24, 26, 9_727, 9, 2]);
}

#[test]
fn the_other_ways_of_winding_want_fewer_pins() {
    let boat = boat();
    let tails = call_words("bench DIR --cut v1 --join tape --pins 6 --tails", &boat).ok();
    assert_eq!(figures(&tails), [23, 46, 24, 26, 13_507, 6, 3]);
    assert_eq!(tails["tails"], json!(["R3"]));
    let fro = call_words(
        "bench DIR --cut v1 --join tape --pins 0 --to-and-fro",
        &boat,
    )
    .ok();
    assert_eq!(figures(&fro), [23, 46, 24, 26, 22_741, 0, 5]);
    assert!(acts(&fro, "hang").is_empty());
}

#[test]
fn too_few_pins_are_a_no_that_says_how_many_would_do() {
    let boat = boat();
    let called = call_words("bench DIR --cut v1 --join tape --pins 5", &boat);
    assert_eq!(called.exit, 1);
    let order = called.document;
    assert!(order.get("error").is_none(), "an answer, not an error");
    assert_eq!(order["feasible"], false);
    let ways = json!({"one_pass": 8, "tails": 6, "to_and_fro": 0});
    assert_eq!(order["fewest"], ways);
    assert_eq!(order["fewest_at_least"], ways, "each is proved");
    assert_eq!(
        order["cuts"], 46,
        "what is to be done is known all the same"
    );
    assert_eq!(order["wound_frames"], Value::Null);
    assert_eq!(order["steps"], json!([]));
    let words = said(&["bench", text(&boat), "--cut", "v1", "--pins", "5"]);
    assert!(words.contains("it cannot be done"), "{words}");
    assert!(
        words.contains("Rolls worked from head or tail (--tails): it takes 6 pins."),
        "{words}"
    );
}

fn text(path: &std::path::Path) -> &str {
    path.to_str().expect("a plain name")
}

/// What a person at a terminal reads.
fn said(arguments: &[&str]) -> String {
    let output = onestrand().args(arguments).output().expect("it starts");
    let out = String::from_utf8_lossy(&output.stdout).into_owned();
    out + &String::from_utf8_lossy(&output.stderr)
}

#[test]
fn the_order_in_words() {
    let boat = boat();
    let words = said(&["bench", text(&boat), "--cut", "v1", "--join", "tape"]);
    for line in [
        "v1 with tape: 23 pieces, 46 cuts, 24 joins, 26 leftovers.",
        "Put on R3, then R1, then R2.",
        "9 pieces hang at the worst moment, of 12 pins; 2 roll changes; 9,724 frames = \
         135.1 ft wound; about 76 minutes.",
        "Proved: with 12 pins and one pass a roll, no order is better.",
        "  8 pins, 3 roll changes, 135.1 ft wound; one pass a roll.",
        "  6 pins, 3 roll changes, 187.6 ft wound; R3 is worked from its tail.",
        "  No pin, 5 roll changes, 315.8 ft wound; the rolls are wound back and forth.",
    ] {
        assert!(words.lines().any(|l| l == line), "{line}\n{words}");
    }
    assert!(!words.contains("NOT PROVED"), "{words}");
}

#[test]
fn a_roll_on_paper_is_not_proved_and_an_empty_version_has_no_order() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("paper");
    let film = text(&film);
    call(["new", film, "--title", "On paper"]).ok();
    call(["roll", "paper", film, "A1", "--frames", "900"]).ok();
    let form = dir.path().join("v1.csv");
    let rows = "position,roll,in,out,slate,join,note\n1,A1,400,500,,,\n2,A1,100,200,,,\n";
    std::fs::write(&form, rows).expect("written");
    call(["cut", "import", film, text(&form), "--name", "v1"]).ok();
    let order = call(["bench", film, "--cut", "v1"]).ok();
    assert_eq!(order["proved"], json!({"A1": false}));
    let words = said(&["bench", film, "--cut", "v1"]);
    assert!(words.contains("NOT PROVED"), "{words}");
    call(["cut", "new", film, "--name", "empty"]).ok();
    let refused = call(["bench", film, "--cut", "empty"]).refused();
    assert_eq!(refused["code"], "bench.nothing_to_cut");
}

#[test]
fn a_cut_that_is_refused_gets_no_order_and_the_reason() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let film = text(&film);
    let sheet = call(["cut", "export", film, "--cut", "v1"]).ok();
    let sheet = sheet["csv"].as_str().expect("a form");
    let form = dir.path().join("look.csv");
    std::fs::write(&form, format!("{sheet}24,R1,2900,2930,3-T2,,a look back\n")).expect("written");
    call(["cut", "import", film, text(&form), "--name", "look"]).ok();
    let refused = call(["bench", film, "--cut", "look"]).refused();
    assert_eq!(refused["code"], "production.cut_refused");
    assert_eq!(refused["details"]["conflicts"][0]["kind"], "doubled");
    let words = said(&["bench", film, "--cut", "look"]);
    assert!(
        words.contains("30 frames shown twice: R1·2900 to 2929"),
        "{words}"
    );
}
