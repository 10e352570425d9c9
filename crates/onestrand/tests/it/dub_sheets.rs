//! The paper of the dub, its lists as CSV, and captions, from the program. The running
//! frames are those of story 8.

use std::path::{Path, PathBuf};

use onestrand_production::documents::{
    ColumnWords, CueWords, PassFaultWords, PassKeptWord, PassWords,
};
use onestrand_production::{
    DubChange, DubChangeKind, FilmChange, Production, dub_document, gather_dub_sheets,
};
use serde_json::{Value, json};

use crate::dub::CUES;
use crate::program::call;
use crate::recut::{silent_boat_twice, text};
use crate::sheets_and_cuts::text_of;

/// The boat in two versions, with cues laid to the first.
fn sounding_boat(into: &Path) -> PathBuf {
    let film = silent_boat_twice(into);
    let form = into.join("cues.csv");
    std::fs::write(&form, CUES).expect("written");
    call(["cue", "import", text(&film), text(&form), "--cut", "v1"]).ok();
    film
}

fn path_of(printed: &Value, name: &str) -> String {
    let files = printed["files"].as_array().expect("files").iter();
    let paths: Vec<&str> = files.filter_map(|file| file["path"].as_str()).collect();
    let found = paths.iter().find(|path| path.ends_with(name));
    (*found.unwrap_or_else(|| panic!("no {name}: {paths:?}"))).to_owned()
}

#[test]
fn the_paper_of_the_dub_says_where_the_sounds_lie() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = sounding_boat(dir.path());
    let out = dir.path().join("paper");
    let asked = ["cue", "sheets", text(&film), "--cut", "v2", "--out"];
    let printed = call(asked.iter().copied().chain([text(&out)])).ok();
    assert_eq!(printed["files"].as_array().map(Vec::len), Some(7));
    let left = printed["left_out"].as_array().expect("a list");
    assert!(left.len() == 1 && left[0].as_str().is_some_and(|w| w.contains("timings")));

    let chart = text_of(&path_of(&printed, "v2-dubbing-chart.pdf"));
    for said in [
        "splash", "lever", "1,658", "march", "1,734", "rustle", "2,164",
    ] {
        assert!(chart.contains(said), "{said}: {chart}");
    }
    let on_one_line = chart.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(on_one_line.contains("sound lead 18"), "{chart}");

    let rows = std::fs::read_to_string(path_of(&printed, "v2-effects-list.csv")).expect("rows");
    let at = |sound: &str| {
        let lines = rows.lines().map(|line| line.split(',').collect::<Vec<_>>());
        let found: Vec<_> = lines.filter(|line| line[1] == sound).collect();
        assert_eq!(found.len(), 1, "{sound}");
        (found[0][6].to_owned(), found[0][7].to_owned())
    };
    for (sound, frame) in [("splash", "789"), ("lever", "1658"), ("foot", "2284")] {
        assert_eq!(at(sound).0, frame, "{sound}");
    }
    let (frames, note) = at("bell 2");
    assert_eq!(frames, "");
    assert!(note.contains("without a place"), "{note}");
    // Nothing is brought in: there is nobody to ask.
    let rights = std::fs::read_to_string(path_of(&printed, "v2-music-list.csv")).expect("rows");
    assert_eq!(rights.lines().count(), 1);
}

#[test]
fn the_table_of_the_tape_wants_its_timings() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = sounding_boat(dir.path());
    let out = dir.path().join("paper");
    let timings = dir.path().join("counts.csv");
    let one = |only: &str, timed: bool| {
        let mut asked = vec!["cue", "sheets", text(&film), "--cut", "v2", "--only", only];
        asked.extend(["--out", text(&out), "--tape", "recorder 2"]);
        if timed {
            asked.extend(["--timings", text(&timings)]);
        }
        call(asked)
    };
    one("tape-table", false).refused();
    let none = one("tape", false).refused();
    let hint = none["hint"].as_str().expect("a hint");
    assert!(
        hint.contains("tape-table") && hint.contains("music-list"),
        "{hint}"
    );
    std::fs::write(&timings, "count,seconds\n70,300\n,60\n").expect("written");
    let refused = one("tape-table", true).refused();
    assert_eq!(refused["details"]["problems"][0]["line"], 3, "{refused}");

    // Row S083 and its neighbours: T = aC + bC², a 3.769911, b 0.00686038. The lever,
    // frame 1,658 of 18 f/s, comes at 92.111 s; C = (−a + √(a² + 4bT)) / 2b = 23.43,
    // reckoned by hand.
    std::fs::write(&timings, "count,seconds\n70.526,300\n179.862,900\n").expect("written");
    let printed = one("tape-table", true).ok();
    let table = text_of(&path_of(&printed, "v2-tape-table.pdf"));
    let lever = table.lines().find(|line| line.contains("lever"));
    let lever = lever.unwrap_or_else(|| panic!("no lever: {table}"));
    let cells: Vec<&str> = lever.split_whitespace().collect();
    assert_eq!(cells[..3], ["023.4", "1:32.1", "1,658"], "{lever}");

    // The same counter stands beside the frame in the list of effects: 1,658 are 23 ft of 72
    // and 2 frames.
    let printed = one("effects-list", true).ok();
    let list = text_of(&path_of(&printed, "v2-effects-list.pdf"));
    for said in ["1,658", "23 ft 2 fr", "1:32.1", "023.4"] {
        assert!(list.contains(said), "{said}: {list}");
    }
    let rows = std::fs::read_to_string(path_of(&printed, "v2-effects-list.csv")).expect("rows");
    let lever = rows.lines().find(|line| line.contains(",lever,"));
    assert!(
        lever.is_some_and(|line| line.ends_with(",23+2,92.111,23.4")),
        "{rows}"
    );
}

/// Ten sounds in ten columns: two sheets side by side. The passes of the mix stand in its log,
/// those of this version.
#[test]
fn a_wide_chart_and_the_passes_so_far_are_on_paper() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = sounding_boat(dir.path());
    {
        let mut production = Production::open(&film).expect("the film");
        let had = dub_document(&production, "v2").expect("the dub").columns;
        for nth in had.len()..10 {
            let column = ColumnWords {
                name: format!("column {nth}"),
                ..ColumnWords::default()
            };
            let column = Box::new(column);
            act(&mut production, None, DubChangeKind::Column { column });
        }
        for (pass, cut, keep) in [
            ("1", "v2", PassKeptWord::GivenUp),
            ("2", "v1", PassKeptWord::Kept),
        ] {
            let fault = PassFaultWords {
                at: 1728,
                what: format!("march late on {cut}"),
            };
            let pass = Box::new(PassWords {
                pass: pass.to_owned(),
                cut: cut.to_owned(),
                start: -36,
                speed: "18,31".to_owned(),
                faults: vec![fault],
                keep,
            });
            act(&mut production, None, DubChangeKind::Pass { pass });
        }
        let none = DubChange {
            id: None,
            after: None,
            to: DubChangeKind::Pass {
                pass: Box::default(),
            },
        };
        assert!(FilmChange::Dub(Box::new(none)).act(&production).is_err());
    }
    let out = dir.path().join("paper");
    let asked = ["cue", "sheets", text(&film), "--cut", "v2", "--out"];
    let printed = call(asked.iter().copied().chain([text(&out)])).ok();
    let chart = text_of(&path_of(&printed, "v2-dubbing-chart.pdf"));
    for said in [
        "side 1 of 2",
        "side 2 of 2",
        "column 9",
        "1 to 5 and 6 to 10",
    ] {
        assert!(chart.contains(said), "{said}: {chart}");
    }
    let log = text_of(&path_of(&printed, "v2-mix-log.pdf"));
    for said in ["− 36", "18.31", "1,728: march late on v2"] {
        assert!(log.contains(said), "{said}: {log}");
    }
    assert!(!log.contains("late on v1"), "{log}");
}

/// What a cue says.
fn say(film: &Path, cue_name: &str, speech: &str) {
    change_cue(film, cue_name, |cue| cue.speech = speech.to_owned());
}

fn change_cue(film: &Path, name: &str, how: impl FnOnce(&mut CueWords)) {
    let mut production = Production::open(film).expect("the film");
    let dub = dub_document(&production, "v2").expect("the dub");
    let found = dub.cues.iter().find(|cue| cue.cue.name == name);
    let found = found.unwrap_or_else(|| panic!("no {name}"));
    let mut cue = found.cue.clone();
    how(&mut cue);
    let to = DubChangeKind::Cue { cue: Box::new(cue) };
    act(&mut production, Some(found.id), to);
}

fn act(production: &mut Production, id: Option<i64>, to: DubChangeKind) {
    let after = None;
    let change = FilmChange::Dub(Box::new(DubChange { id, after, to }));
    let (words, act) = change.act(production).expect("a change");
    production.act(&words, &act).expect("kept");
}

#[test]
fn what_is_said_becomes_captions_at_the_speed_of_the_mix() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = sounding_boat(dir.path());
    say(&film, "march", "Back <slowly> & over\n\nthe river");
    say(&film, "bell 1", "Ding");
    let asked = ["cue", "captions", text(&film), "--cut", "v2"];
    let found = call(asked).ok();
    // The march lies from 1,734 on, as long as its form says, and no longer than the film.
    // 20 letters and 9 share its time.
    let frames = dub_document(&Production::open(&film).expect("the film"), "v2")
        .expect("the dub")
        .frames;
    let (from, to) = (1734.0 / 18.0, f64::from(frames.min(1734 + 792)) / 18.0);
    let between = from + (to - from) * 20.0 / 29.0;
    let stamp = |seconds: f64| {
        let minutes = (seconds / 60.0).floor();
        format!("00:{minutes:02}:{:06.3}", seconds - minutes * 60.0)
    };
    let told = format!(
        "WEBVTT\n\n1\n{} --> {}\nBack &lt;slowly&gt; &amp; over\n\n2\n{1} --> {}\nthe river\n",
        stamp(from),
        stamp(between),
        stamp(to)
    );
    assert_eq!(found["vtt"], told);
    assert_eq!(
        found["left_out"],
        json!(["bell 1: it has no place in this version"])
    );

    // A projector found to run at 18.37 f/s brings them sooner, by the same share.
    {
        let mut production = Production::open(&film).expect("the film");
        let dub = dub_document(&production, "v2").expect("the dub");
        let mut mix = dub.mix.clone();
        mix.speed = "18.37".to_owned();
        let to = DubChangeKind::Mix { mix: Box::new(mix) };
        act(&mut production, None, to);
    }
    let file = dir.path().join("boat.vtt");
    let sooner = call(asked.iter().copied().chain(["--out", text(&file)])).ok();
    let written = std::fs::read_to_string(&file).expect("a file");
    assert_eq!(sooner["vtt"], written);
    // 1734 / 18.37 = 94.393 s.
    assert!(written.contains("\n00:01:34.393 --> "), "{written}");
}

#[test]
fn a_column_that_is_silenced_says_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = sounding_boat(dir.path());
    say(&film, "march", "Over the river");
    {
        let mut production = Production::open(&film).expect("the film");
        let dub = dub_document(&production, "v2").expect("the dub");
        let music = dub
            .columns
            .iter()
            .find(|known| known.column.name == "music");
        let music = music.expect("a column");
        let column = ColumnWords {
            silent: true,
            ..music.column.clone()
        };
        let to = DubChangeKind::Column {
            column: Box::new(column),
        };
        act(&mut production, Some(music.id), to);
        let sheets = gather_dub_sheets(&production, "v9", &Default::default());
        assert!(sheets.is_err(), "there is no v9");
    }
    let found = call(["cue", "captions", text(&film), "--cut", "v2"]).ok();
    assert_eq!(found["vtt"], "WEBVTT\n");
    assert_eq!(found["left_out"], json!(["march: its column is silenced"]));
}
