//! Cues out and in as a form, and what they say as captions.

use serde_json::{Value, json};

use crate::served::{Answer, Bench, film};

const FORM: &str = "column,sound,anchor,at,in,out,gain_db,fade_in,fade_out,note\n\
    effects,bell,frame,R1·150,,2,-3,,,\nvoice,Bram,clock,10,,1,,,,\n";

/// `v1` shows 100 frames of R1.
fn film_with_version() -> Bench {
    let bench = Bench::new();
    let piece = json!({ "kind": "shot", "roll": "R1", "in": 100, "out": 200 });
    let change = json!({ "change": "insert", "at": 0, "piece": piece });
    let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": change });
    bench.change("pieces", 3, &change).ok();
    bench
}

fn bring(bench: &Bench, form: &str, keep: bool) -> Answer {
    let target = film(&format!("dub/cues?cut=v1&name=cues.csv&keep={keep}"));
    let request = bench.window.request("POST", &target);
    request.body("text/csv", form.as_bytes()).send()
}

fn dub(bench: &Bench) -> Value {
    bench.window.get(&film("dub?cut=v1")).ok()
}

fn form_of(bench: &Bench) -> String {
    let table = bench.window.get(&film("dub/cues/csv?cut=v1"));
    assert_eq!(
        table.header("content-type"),
        Some("text/csv; charset=utf-8")
    );
    String::from_utf8(table.body).expect("text")
}

#[test]
fn cues_are_looked_at_laid_as_one_step_and_come_out_as_they_went_in() {
    let bench = film_with_version();
    let before = dub(&bench);
    let would = bring(&bench, FORM, false).ok();
    assert_eq!((&would["cues"], &would["already"]), (&json!(2), &json!(0)));
    assert_eq!(would["new_columns"], json!(["effects", "voice"]));
    assert_eq!(would["sounds_missing"], json!(["Bram", "bell"]));
    // R1·150 is the 50th frame of the version; two seconds are 36 frames of 18.
    assert_eq!(
        would["coming"],
        json!([
            { "line": 2, "column": "effects", "sound": "bell", "at": 50, "frames": 36 },
            { "line": 3, "column": "voice", "sound": "Bram", "at": 10, "frames": 18 },
        ])
    );
    assert_eq!(dub(&bench), before, "nothing is laid by looking");

    bring(&bench, FORM, true).ok();
    let laid = dub(&bench);
    assert_eq!(laid["cues"].as_array().map(Vec::len), Some(2));
    assert_eq!(laid["columns"].as_array().map(Vec::len), Some(2));
    let form = form_of(&bench);
    let rows: Vec<&str> = form.lines().skip(1).collect();
    assert_eq!(
        rows,
        [
            "effects,bell,frame,R1·150,,2.0000,-3.0,,,",
            "voice,Bram,clock,10,,1.0000,,,,"
        ]
    );
    // What came out says nothing new: it is not laid twice, and there is no step to undo.
    let again = bring(&bench, &form, true).ok();
    assert_eq!((&again["cues"], &again["already"]), (&json!(0), &json!(2)));
    assert_eq!(dub(&bench)["revision"], laid["revision"]);
    let undo = json!({ "key": "undone" });
    bench.window.post(&film("undo"), &undo).ok();
    let undone = dub(&bench);
    assert_eq!(
        (&undone["cues"], &undone["columns"]),
        (&json!([]), &json!([]))
    );
}

#[test]
fn all_that_is_wrong_in_a_form_of_cues_is_told_and_nothing_laid() {
    let bench = film_with_version();
    let wrong = "column,sound,anchor,at,in,out,gain_db,fade_in,fade_out,note\n\
        effects,bell,frame,R1·150,,2,-3,,,\n,bell,frame,R9·1,x,,99,,,\na,b,join,7,,,,-1,z,\n";
    let refused = bring(&bench, wrong, true);
    assert_eq!(refused.refused(422), "production.import");
    let problems = refused.document()["details"]["problems"].clone();
    let problems = problems.as_array().expect("problems").iter();
    let places: Vec<(u64, &str)> = problems
        .map(|one| {
            let line = one["line"].as_u64().expect("a line");
            (line, one["column"].as_str().expect("a column"))
        })
        .collect();
    let told = [
        (3, "column"),
        (3, "at"),
        (3, "in"),
        (3, "gain_db"),
        (4, "at"),
        (4, "fade_in"),
        (4, "fade_out"),
    ];
    assert_eq!(places, told);
    assert_eq!(dub(&bench)["cues"], json!([]));
    assert_eq!(
        bring(&bench, "", false).refused(422),
        "production.import",
        "an empty file"
    );
}

/// Row by row as the command line has it; its own tests hold the times.
#[test]
fn what_is_said_is_taken_away_as_captions() {
    let bench = film_with_version();
    bring(&bench, FORM, true).ok();
    let laid = dub(&bench);
    let cues = laid["cues"].as_array().expect("cues");
    let bram = cues.iter().find(|one| one["cue"]["name"] == "Bram");
    let bram = bram.expect("Bram").clone();
    let mut cue = bram["cue"].clone();
    cue["speech"] = json!("Mind the step.");
    let to = json!({ "what": "cue", "cue": cue });
    let change = json!({ "film_change": "dub", "id": bram["id"], "to": to });
    let seen = laid["revision"].as_u64().expect("a revision");
    bench.change("says", seen, &change).ok();
    let found = bench.window.get(&film("dub/captions?cut=v1")).ok();
    assert_eq!(
        (&found["captions"], &found["left_out"]),
        (&json!(1), &json!([]))
    );
    let file = bench.window.get(&film("dub/captions/vtt?cut=v1"));
    assert_eq!(file.header("content-type"), Some("text/vtt; charset=utf-8"));
    let text = String::from_utf8(file.body).expect("text");
    assert_eq!(found["vtt"], text);
    // 10 and 28 frames of 18: 0.5555… s and 1.5555… s.
    assert_eq!(
        text,
        "WEBVTT\n\n1\n00:00:00.556 --> 00:00:01.556\nMind the step.\n"
    );
    let none = bench.window.get(&film("dub/captions?cut=v9"));
    assert_eq!(none.refused(404), "store.not_found");
}
