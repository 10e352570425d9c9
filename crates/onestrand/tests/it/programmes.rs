//! The programme of a shelf from outside.

use std::path::Path;

use serde_json::json;

use crate::program::call;
use crate::recut::text;
use crate::sheets_and_cuts::text_of;

/// A film on paper with one version of so many frames.
fn film(shelf: &Path, name: &str, gauge: &str, frames: u32) {
    let film = shelf.join(name);
    call([
        "new",
        text(&film),
        "--title",
        name,
        "--gauge",
        gauge,
        "--speed",
        "18",
    ])
    .ok();
    call(["roll", "paper", text(&film), "R1", "--frames", "3600"]).ok();
    let cut = shelf.join("cut.csv");
    std::fs::write(&cut, format!("position,roll,in,out\n1,R1,0,{frames}\n")).expect("written");
    call(["cut", "import", text(&film), text(&cut), "--name", "v1"]).ok();
}

/// Lengths and throw of story 12; the rest is reckoned by hand beside each row.
#[test]
fn a_programme_is_reckoned_printed_kept_and_written_into_the_ledgers() {
    let dir = tempfile::tempdir().expect("a folder");
    let shelf = dir.path().join("shelf");
    std::fs::create_dir(&shelf).expect("a folder");
    film(&shelf, "ferry", "super8", 2_652);
    film(&shelf, "prologue", "regular8", 144);
    let table = dir.path().join("rows.csv");
    let rows = "what,film,maker,year,sound,remark,minutes\n\
                film,prologue,,1961,silent,stand by the machine,\n\
                film,ferry,Ada Brandt,2026,magnetic,,\n\
                interval,,,,,,10\n\
                film,ferry,,,magnetic,,\n";
    std::fs::write(&table, rows).expect("written");
    let sheet = dir.path().join("note.pdf");
    let labels = dir.path().join("labels.pdf");
    let given = [
        "programme",
        text(&shelf),
        "--from",
        text(&table),
        "--title",
        "An evening on the river",
        "--place",
        "Village hall",
        "--lens",
        "20",
        "--screen",
        "1.2m",
        "--leader",
        "5",
        "--sheet",
        text(&sheet),
        "--labels",
        text(&labels),
    ];
    let told = call(given).ok();
    let plan = &told["programme"];
    // 46 ft 60 fr: 2,652 frames and ten feet of 72.
    assert_eq!(
        plan["reels"][1]["footage"],
        json!({ "feet": 46, "frames": 60 })
    );
    // 20 · (1200 ÷ 5.31 + 1) = 4,539.8 mm; of regular 8, 20 · (1200 ÷ 4.37 + 1) = 5,512 mm.
    assert_eq!(plan["throws"][1]["throw_m"], "4.54");
    assert_eq!(plan["throws"][0]["throw_m"], "5.51");
    // 8.0 s, 90 s to change the gauge, 147.3 s, 10 min, 147.3 s.
    assert_eq!(plan["clock"], "16:33");
    assert_eq!(plan["changes"], 2);
    let printed = text_of(text(&sheet));
    for words in [
        "An evening on the river",
        "INTERVAL",
        "46 ft 60 fr",
        "4.54 m",
        "stand by the machine",
        "other gauge",
    ] {
        assert!(printed.contains(words), "{words}: {printed}");
    }
    assert!(text_of(text(&labels)).contains("Reel 2 of 3"));
    // It was kept: nothing need be said again.
    let kept = call(["programme", text(&shelf)]).ok();
    assert_eq!(kept["programme"], *plan);
    let shown = call([
        "programme",
        text(&shelf),
        "--shown",
        "2026-03-03",
        "--by",
        "Ida",
    ])
    .ok();
    assert_eq!(shown["written"].as_array().map(Vec::len), Some(2));
    let rolls = call(["roll", "list", text(&shelf.join("ferry"))]).ok();
    let run = &rolls["rolls"][0]["runs"][0];
    assert_eq!((&run["times"], &run["by"]), (&json!(2), &json!("Ida")));
    assert!(
        run["note"]
            .as_str()
            .expect("words")
            .contains("An evening on the river")
    );
    // A film that is not there is told beside its row.
    std::fs::rename(shelf.join("prologue"), dir.path().join("away")).expect("moved");
    let without = call(["programme", text(&shelf)]);
    assert_eq!(without.exit, 1);
    let problem = without.document["programme"]["rows"][0]["problem"].clone();
    assert!(
        problem.as_str().expect("words").contains("prologue"),
        "{problem}"
    );
}
