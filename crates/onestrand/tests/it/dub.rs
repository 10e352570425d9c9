//! Stories 8 and 11 at the command line, but for the cueing while the projector runs.

use serde_json::{Value, json};

use crate::program::call;
use crate::recut::{silent_boat_twice, text};

pub(crate) const CUES: &str = "\
column,sound,anchor,at,in,out,gain_db,fade_in,fade_out,note
effects,splash,frame,R2·580,,,-6,,,
effects,bell 1,frame,R2·2441,,,,,,first stroke
effects,bell 2,frame,R2·2459,,,,,,
effects,bell 3,frame,R2·2478,,,,,,
effects,lever,frame,R2·2833,,,,,,
effects,rustle,frame,R3.1846,,,,,,
effects,foot,frame,R3·1300,,,,,,
music,march,join,16,0,44,-4.5,18,,
river,river,clock,0,0,120,,,,
";

fn cue<'a>(cues: &'a Value, sound: &str) -> &'a Value {
    let all = cues.as_array().expect("a list");
    let found = all.iter().find(|cue| cue["sound"] == sound);
    found.unwrap_or_else(|| panic!("no {sound}: {cues}"))
}

#[test]
fn cues_go_with_the_picture_as_the_story_says() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = silent_boat_twice(dir.path());
    let form = dir.path().join("cues.csv");
    std::fs::write(&form, CUES).expect("written");
    let imported = call(["cue", "import", text(&film), text(&form), "--cut", "v1"]).ok();
    assert_eq!(imported["cues"], 9);
    assert_eq!(
        imported["new_columns"],
        json!(["effects", "music", "river"])
    );
    let first = call(["cue", "list", text(&film), "--cut", "v1"]).ok();
    let then = call(["cue", "list", text(&film), "--cut", "v2"]).ok();
    for (sound, before, after, state) in [
        ("splash", 789, 789, "held"),
        ("lever", 1685, 1658, "moved"),
        ("march", 1761, 1734, "moved"),
        ("rustle", 2119, 2164, "moved"),
        ("foot", 2311, 2284, "moved"),
        ("river", 0, 0, "held"),
    ] {
        assert_eq!(cue(&first, sound)["at_running_frame"], before, "{sound}");
        assert_eq!(cue(&first, sound)["state"], "held", "{sound}");
        assert_eq!(cue(&then, sound)["at_running_frame"], after, "{sound}");
        assert_eq!(cue(&then, sound)["state"], state, "{sound}");
    }
    for (sound, was, proposed) in [
        ("bell 1", 1392, 1349),
        ("bell 2", 1410, 1368),
        ("bell 3", 1429, 1387),
    ] {
        assert_eq!(cue(&first, sound)["at_running_frame"], was);
        let lost = cue(&then, sound);
        assert_eq!(
            (&lost["state"], &lost["was"]),
            (&json!("orphan"), &json!(was))
        );
        assert_eq!(lost["proposals"][0]["at"], proposed, "{lost}");
    }
    let echo = json!({ "join_at": 2148, "heard_at": 2166, "frames_away": 2 });
    assert_eq!(cue(&then, "rustle")["echo"], echo);
    let near = then.as_array().expect("a list").iter();
    assert_eq!(near.filter(|cue| !cue["echo"].is_null()).count(), 1);
}

#[test]
fn cues_come_out_as_they_went_in() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = silent_boat_twice(dir.path());
    let form = dir.path().join("cues.csv");
    std::fs::write(&form, CUES).expect("written");
    call(["cue", "import", text(&film), text(&form), "--cut", "v1"]).ok();
    let out = call(["cue", "export", text(&film), "--cut", "v1"]).ok();
    let rows: Vec<&str> = out["csv"].as_str().expect("a form").lines().collect();
    assert_eq!(rows.len(), 10);
    assert_eq!(rows[1], "effects,splash,frame,R2·580,,,-6.0,,,");
    assert_eq!(rows[8], "music,march,join,16,,44.0000,-4.5,18,,");
    // The import is one step back.
    call(["undo", text(&film)]).ok();
    let none = call(["cue", "list", text(&film), "--cut", "v1"]).ok();
    assert_eq!(none, json!([]));
}

#[test]
fn what_a_form_of_cues_says_wrong_is_told_all_at_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = silent_boat_twice(dir.path());
    let form = dir.path().join("cues.csv");
    let wrong = "\
column,sound,anchor,at,in,out,gain_db,fade_in,fade_out,note
,splash,frame,R2·580,,,,,,
effects,bell,frame,R9·580,,,,,,
effects,bell,join,99,,,,,,
effects,bell,strip,3,,,,,,
effects,bell,clock,3,5,4,,,,
effects,bell,clock,3,,,99,,,
effects,bell,clock,3,,,,two,,
";
    std::fs::write(&form, wrong).expect("written");
    let refused = call(["cue", "import", text(&film), text(&form)]).refused();
    let problems = refused["details"]["problems"]
        .as_array()
        .expect("problems")
        .clone();
    let places: Vec<(u64, &str)> = problems
        .iter()
        .map(|p| {
            (
                p["line"].as_u64().expect("a line"),
                p["column"].as_str().expect("a column"),
            )
        })
        .collect();
    let told = [
        (2, "column"),
        (3, "at"),
        (4, "at"),
        (5, "anchor"),
        (6, "out"),
        (7, "gain_db"),
        (8, "fade_in"),
    ];
    assert_eq!(places, told);
    assert_eq!(call(["cue", "list", text(&film)]).ok(), json!([]));
}

fn near(found: &Value, told: f64, within: f64) {
    let found = found
        .as_f64()
        .unwrap_or_else(|| panic!("a figure: {found}"));
    assert!((found - told).abs() <= within, "{found}, told {told}");
}

#[test]
fn projector_and_tape_out_of_their_timings() {
    let dir = tempfile::tempdir().expect("a folder");
    let taps = dir.path().join("taps.csv");
    let rows = "frame,seconds\n558,30.47\n942,51.25\n1338,72.94\n1734,94.50\n2202,119.88\n";
    std::fs::write(&taps, rows).expect("written");
    let fit = call(["projector", "fit", text(&taps), "--predict", "2346,2571"]).ok();
    near(&fit["speed"], 18.37, 0.005);
    near(&fit["speed_error"], 0.06, 0.005);
    assert_eq!(fit["predict"][0]["frame"], 2346);
    near(&fit["predict"][0]["seconds"], 127.76, 0.005);
    // A machine that warms up by 2 %: the curve finds its speed at the last tap, the line does not.
    let warm = |frame: f64| frame / 18.0 + 1.2 * (1.0 - (-frame / 1500.0).exp());
    let rows: Vec<String> = (0..8)
        .map(|nth| f64::from(nth) * 360.0)
        .map(|frame| format!("{frame},{:.3}", warm(frame)))
        .collect();
    std::fs::write(&taps, format!("frame,seconds\n{}\n", rows.join("\n"))).expect("written");
    let last = 1.0 / ((warm(2521.0) - warm(2519.0)) / 2.0);
    let line = call(["projector", "fit", text(&taps)]).ok();
    let curve = call(["projector", "fit", text(&taps), "--creep"]).ok();
    let off = |fit: &Value| (fit["speed"].as_f64().expect("a speed") - last).abs();
    assert!(off(&curve) < 0.5 * off(&line), "{curve} {line} {last}");
    // Taps in the wrong order.
    let rows = "frame,seconds\n558,30.47\n1338,51.25\n942,72.94\n";
    std::fs::write(&taps, rows).expect("written");
    let wrong = call(["projector", "fit", text(&taps)]);
    assert_eq!(wrong.refused()["code"], "production.unfit");
    let counts = dir.path().join("counts.csv");
    std::fs::write(&counts, "count,seconds\n70.526,300\n179.862,900\n").expect("written");
    let fit = call(["tape", "fit", text(&counts), "--predict", "200"]).ok();
    near(&fit["a"], 3.769_911, 2e-4);
    near(&fit["b"], 0.006_860_38, 2e-6);
    near(&fit["predict"][0]["seconds"], 1028.40, 0.02);
    std::fs::write(&counts, "count,seconds\n70,300\n60,\n").expect("written");
    call(["tape", "fit", text(&counts)]).refused();
}
