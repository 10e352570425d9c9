//! The example is a film with sound: what is laid in it, how it goes with the second cut,
//! and what is heard where.

use std::path::Path;

use onestrand_production::documents::CueWords;
use onestrand_production::{
    CueChanged, DubChange, DubChangeKind, FilmChange, Production, dub_document,
};
use serde_json::{Value, json};

use crate::program::{call, copy_of_boat};
use crate::recut::{boat_twice, text};

/// Samples of one frame at 18 f/s, rounded down.
const FRAME: usize = 2666;

/// A mix as it was written.
struct Heard {
    samples: Vec<f64>,
    said: Value,
}

impl Heard {
    fn of(film: &Path, cut: &str) -> Self {
        let out = film.join(format!("{cut}.wav"));
        let said = call(["mix", text(film), "--cut", cut, "--out", text(&out)]).ok();
        let count = said["samples"].as_u64().expect("a count") as usize;
        let bytes = std::fs::read(&out).expect("a file");
        let data = &bytes[bytes.len() - 3 * count..];
        let one = |three: &[u8]| {
            let value = i32::from_le_bytes([0, three[0], three[1], three[2]]) >> 8;
            f64::from(value) / f64::from(1 << 23)
        };
        let samples = data.chunks_exact(3).map(one).collect();
        Self { samples, said }
    }

    /// How loud it is over some frames from a running frame on. Unit: dBFS, of the root mean
    /// square.
    fn level(&self, at: usize, frames: usize) -> f64 {
        let from = at * 48_000 / 18;
        let part = &self.samples[from..from + frames * FRAME];
        let sum: f64 = part.iter().map(|sample| sample * sample).sum();
        10.0 * (sum / part.len() as f64).max(1e-20).log10()
    }

    /// By how much it is louder in the three frames from here on than in the three before.
    fn comes(&self, at: usize) -> f64 {
        self.level(at, 3) - self.level(at - 3, 3)
    }

    /// It is a mix that may be shown: never silent, never loud, told as it is.
    fn is_sound(&self, frames: usize) {
        assert_eq!(self.said["frames"], frames);
        // ⌈frames · 48000 / 18⌉, as the commands say.
        assert_eq!(self.samples.len(), (frames * 48_000).div_ceil(18));
        for second in 0..frames / 18 {
            let level = self.level(second * 18, 17);
            let least = if second + 3 < frames / 18 {
                -60.0
            } else {
                -300.0
            };
            assert!((least..-9.0).contains(&level), "{level} dB at {second} s");
        }
        let loudness = &self.said["loudness"];
        let of = |name: &str| loudness[name].as_f64().expect("a figure");
        assert!(
            (-26.0..=-22.0).contains(&of("integrated_lufs")),
            "{loudness}"
        );
        assert!(of("true_peak_dbtp") < -1.0, "{loudness}");
    }
}

fn cues(film: &Path, cut: &str) -> Vec<Value> {
    let cues = call(["cue", "list", text(film), "--cut", cut]).ok();
    cues.as_array().expect("a list").clone()
}

fn named<'a>(cues: &'a [Value], state: &str) -> Vec<&'a str> {
    let those = cues.iter().filter(|cue| cue["state"] == state);
    those.filter_map(|cue| cue["sound"].as_str()).collect()
}

/// Every join is heard 18 frames late on the magnetic stripe of Super 8 (S001): which cues
/// begin within three frames of one, searched plainly.
fn the_echoes_are_told(cues: &[Value], starts: &[i64]) {
    for cue in cues.iter().filter(|cue| cue["state"] != "orphan") {
        let at = cue["at_running_frame"].as_i64().expect("a frame");
        let near = starts[1..].iter().find(|join| (*join + 18 - at).abs() <= 3);
        let told = cue["echo"]["join_at"].as_i64();
        assert_eq!(told, near.copied(), "{cue}");
    }
    let rustle = cues.iter().find(|cue| !cue["echo"].is_null());
    let rustle = rustle.expect("one is near, as story 11 says");
    assert_eq!(rustle["sound"], "rustle");
    let near = cues.iter().filter(|cue| !cue["echo"].is_null());
    assert_eq!(near.count(), 1);
}

/// Where the pieces begin, from stories 5 and 9.
const FIRST: [i64; 23] = [
    0, 180, 324, 432, 558, 630, 756, 816, 942, 987, 1203, 1275, 1383, 1437, 1581, 1653, 1761, 1923,
    2103, 2157, 2229, 2373, 2643,
];
const SECOND: [i64; 22] = [
    0, 180, 324, 432, 558, 630, 756, 816, 942, 1158, 1230, 1338, 1410, 1554, 1626, 1734, 1896,
    2076, 2148, 2202, 2346, 2571,
];

#[test]
fn the_example_is_a_film_with_sound() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let sounds = call(["sound", "list", text(&film)]).ok();
    let sounds = sounds.as_array().expect("a list");
    assert_eq!(sounds.len(), 12);
    for sound in sounds {
        assert_eq!(sound["missing"], false, "{sound}");
        assert_eq!(sound["sound"]["facts"]["remarks"], json!([]), "{sound}");
        let rights = &sound["sound"]["rights"];
        // The paper puts "written by" and "played by" before it, so only the name is kept.
        assert_eq!(rights["author"], "the program", "{sound}");
        for right in ["work", "recorded"] {
            assert_eq!(rights[right], "not_needed", "{sound}");
        }
    }
    let cues = cues(&film, "v1");
    assert_eq!(cues.len(), 24);
    assert_eq!(named(&cues, "held").len(), 24);
    the_echoes_are_told(&cues, &FIRST);

    let heard = Heard::of(&film, "v1");
    heard.is_sound(2724);
    // What is seen is heard as it is seen: the frames are those of the marks in v1.
    for (what, at, least) in [
        ("splash", 789, 6.0),
        ("the first stroke", 1392, 8.0),
        ("lever", 1685, 4.0),
    ] {
        let comes = heard.comes(at);
        assert!(comes > least, "{what} comes by {comes} dB");
    }
    // The bell is far off when he hears it.
    let (near, far) = (heard.level(1392, 3), heard.level(1449, 3));
    assert!(near - far > 5.0, "{near} and {far}");
    // Making it again changes nothing: asked once, laid once.
    let again = call(["demo", text(&crate::program::boat())]).ok();
    assert_eq!(again["kept"], true);
}

#[test]
fn it_goes_with_the_second_cut_and_the_bell_finds_its_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat_twice(dir.path());
    let found = cues(&film, "v2");
    the_echoes_are_told(&found, &SECOND);
    // The strokes were shown by a piece that is gone, and her feet with their own.
    assert_eq!(
        named(&found, "orphan"),
        ["steps, her feet", "bell 1", "bell 2", "bell 3"]
    );
    let at = |name: &str| {
        let cue = found.iter().find(|cue| cue["sound"] == name);
        let cue = cue.unwrap_or_else(|| panic!("no {name}"));
        (cue["at_running_frame"].clone(), cue["state"].clone())
    };
    for (name, frame, state) in [
        ("splash", 789, "held"),
        ("lever", 1658, "moved"),
        ("march", 1734, "moved"),
        ("rustle", 2164, "moved"),
        ("foot", 2284, "moved"),
        ("water, the crossing", 2328, "stretched"),
        ("water, early", 144, "stretched"),
    ] {
        assert_eq!(at(name), (json!(frame), json!(state)), "{name}");
    }
    // Before they are given their places the bell is not heard there.
    let silent = Heard::of(&film, "v2");
    silent.is_sound(2652);
    take_the_best(&film);
    let heard = Heard::of(&film, "v2");
    heard.is_sound(2652);
    for (place, cue) in [(1349, "bell 1"), (1368, "bell 2"), (1387, "bell 3")] {
        let more = heard.level(place, 3) - silent.level(place, 3);
        assert!(more > 8.0, "{cue} comes by {more} dB");
    }
    let left = cues(&film, "v2");
    assert_eq!(named(&left, "orphan"), ["steps, her feet"]);
    the_echoes_are_told(&left, &SECOND);
}

/// Each cue without a place goes where it is proposed, if anywhere, in one step.
fn take_the_best(film: &Path) {
    let mut production = Production::open(film).expect("the film");
    let dub = dub_document(&production, "v2").expect("the dub");
    let moved = dub.cues.iter().filter_map(|cue| {
        let best = cue.proposals.first()?;
        let start = best.anchor.clone();
        let cue_words = CueWords {
            start,
            ..cue.cue.clone()
        };
        Some(CueChanged {
            id: Some(cue.id),
            cue: cue_words,
        })
    });
    let cues: Vec<CueChanged> = moved.collect();
    assert_eq!(cues.len(), 3);
    let change = FilmChange::Dub(Box::new(DubChange {
        id: None,
        after: None,
        to: DubChangeKind::Cues { cues },
    }));
    let (words, act) = change.act(&production).expect("a change");
    production.act(&words, &act).expect("kept");
}
