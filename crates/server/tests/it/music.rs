//! Music beside the picture over the wire: asked, carried out as an ordinary change, taken back.

use serde_json::{Value, json};

use crate::served::{Answer, Bench, film};

/// Two pieces of 441 frames, and a march at 100 beats a minute over both.
fn march() -> (Bench, u64) {
    let bench = Bench::new();
    let sounds = bench.film_dir().join("sounds");
    std::fs::create_dir_all(&sounds).expect("a folder");
    // Nobody listens here: what was heard is kept already.
    std::fs::write(sounds.join("march.wav"), b"").expect("a file");
    let mut revision = 3;
    let mut kept = |bench: &Bench, change: &Value| {
        let answer = bench
            .change(&format!("march-{revision}"), revision, change)
            .ok();
        revision = answer["revision"].as_u64().expect("a revision");
    };
    for (at, first) in [(0, 100), (1, 1000)] {
        let piece = json!({ "kind": "shot", "roll": "R1", "in": first, "out": first + 441 });
        let insert = json!({ "change": "insert", "at": at, "piece": piece });
        let change = json!({ "film_change": "change_cut", "cut": "v1", "cut_change": insert });
        kept(&bench, &change);
    }
    let beats: Vec<u64> = (0..88).map(|nth| nth * 28_800).collect();
    let dub = [
        json!({ "what": "mix", "mix": { "speed": "18.36" } }),
        json!({ "what": "column", "column": { "name": "music" } }),
        json!({ "what": "sound", "sound": {
            "name": "march", "kept": "march.wav",
            "facts": { "file": "march.flac", "rate": 48_000, "channels_found": 1, "channels": 1,
                "samples": 88 * 28_800, "coding": "float" },
            "beats": { "at": beats, "in_a_bar": 4, "first_bar": 0, "tempo": 100_000 } } }),
    ];
    for to in dub {
        kept(&bench, &json!({ "film_change": "dub", "to": to }));
    }
    let laid = bench.window.get(&film("dub?cut=v1")).ok();
    let cue = json!({ "name": "march", "column": laid["columns"][0]["id"],
        "sound": laid["sounds"][0]["id"], "start": { "to": "clock" } });
    kept(
        &bench,
        &json!({ "film_change": "dub", "to": { "what": "cue", "cue": cue } }),
    );
    (bench, revision)
}

fn beside(bench: &Bench, asked: &Value) -> Answer {
    bench.window.post(&film("cuts/v1/music"), asked)
}

#[test]
fn music_is_laid_beside_the_picture_and_what_it_proposes_can_be_done_and_undone() {
    let (bench, revision) = march();
    let laid = bench.window.get(&film("dub?cut=v1")).ok();
    let cue = laid["cues"][0]["id"].clone();
    let found = beside(&bench, &json!({ "cue": cue, "wanted": 828 })).ok();
    assert_eq!((&found["from"], &found["to"]), (&json!(1), &json!(2)));
    // Story 8 of the job: 882 frames are 80.07 beats, 837 are 75.98 and end 0.2 frame early.
    assert_eq!(
        (&found["frames"], &found["beats"]),
        (&json!(882), &json!(80.07))
    );
    let end = &found["end"];
    assert_eq!(
        (&end["frames"], &end["beats"]),
        (&json!(837), &json!(75.98))
    );
    assert_eq!((&end["moved"], &end["off"]), (&json!(-45), &json!(-0.22)));
    assert_eq!(end["proposal"]["refused"], json!([]));
    let change = json!({ "film_change": "change_cut", "cut": "v1",
        "cut_change": end["proposal"]["change"] });
    bench.change("fitted", revision, &change).ok();
    let then = beside(&bench, &json!({ "cue": cue })).ok();
    assert_eq!(
        (&then["frames"], &then["end"]["moved"]),
        (&json!(837), &json!(0))
    );
    assert_eq!(then["end"]["proposal"], Value::Null);
    bench
        .window
        .post(&film("undo"), &json!({ "key": "undone" }))
        .ok();
    assert_eq!(
        beside(&bench, &json!({ "cue": cue, "wanted": 828 })).ok(),
        found
    );
}

#[test]
fn what_cannot_be_laid_beside_is_refused_with_the_next_step() {
    let (bench, _) = march();
    assert_eq!(
        beside(&bench, &json!({ "cue": 999 })).refused(404),
        "store.not_found"
    );
    let laid = bench.window.get(&film("dub?cut=v1")).ok();
    let cue = laid["cues"][0]["id"].clone();
    let asked = json!({ "cue": cue, "from": 2, "to": 9 });
    assert_eq!(beside(&bench, &asked).refused(422), "production.unfit");
}
