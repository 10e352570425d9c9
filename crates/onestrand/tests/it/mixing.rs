//! Sounds brought in, mixed and measured at the command line.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::program::{call, ffmpeg};
use crate::recut::text;

/// A film on paper: one roll, one version of two pieces.
fn film(dir: &Path) -> PathBuf {
    let film = dir.join("film");
    call([
        "new",
        text(&film),
        "--title",
        "Mixed",
        "--gauge",
        "super8",
        "--speed",
        "18",
    ])
    .ok();
    call(["roll", "paper", text(&film), "R1", "--frames", "400"]).ok();
    let cut = dir.join("cut.csv");
    std::fs::write(&cut, "position,roll,in,out\n1,R1,10,100\n2,R1,200,290\n").expect("written");
    call(["cut", "import", text(&film), text(&cut), "--name", "v1"]).ok();
    film
}

/// A sound made by FFmpeg, beside the film.
fn made(dir: &Path, arguments: &str, name: &str) -> PathBuf {
    ffmpeg(&format!("{arguments} {name}"), dir);
    dir.join(name)
}

#[test]
fn a_mix_has_its_samples_and_says_what_it_is() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    let bell = made(
        dir.path(),
        "-f lavfi -i sine=frequency=880:duration=3:sample_rate=44100",
        "bell.flac",
    );
    let cues = dir.path().join("cues.csv");
    let rows = "column,sound,anchor,at,in,out,gain_db,fade_in,fade_out\neffects,bell,frame,R1·210,,,-3,,\n";
    std::fs::write(&cues, rows).expect("written");
    let imported = call(["cue", "import", text(&film), text(&cues)]).ok();
    assert_eq!(imported["sounds_missing"], json!(["bell"]));
    let added = call(["sound", "add", text(&film), text(&bell)]).ok();
    assert_eq!(added[0]["cues"], 1, "the cue waited for it: {added}");
    assert_eq!(added[0]["sound"]["facts"]["rate"], 44_100);
    for (speed, leader, samples) in [
        ("18", "0", 480_000),
        ("24", "20", 400_000),
        ("16", "1", 543_000),
        ("25", "7", 359_040),
    ] {
        let out = dir.path().join(format!("mix-{speed}.wav"));
        let mix = call([
            "mix",
            text(&film),
            "--cut",
            "v1",
            "--out",
            text(&out),
            "--speed",
            speed,
            "--leader",
            leader,
        ]);
        let mix = mix.ok();
        assert_eq!(mix["samples"], samples, "{speed}");
        assert_eq!((&mix["frames"], &mix["cues"]), (&json!(180), &json!(1)));
        let bytes = std::fs::read(&out).expect("there");
        assert_eq!(
            bytes.len() as u64,
            12 + 36 + 8 + bext(&bytes) + 24 + 8 + 3 * samples
        );
        let said = String::from_utf8_lossy(&bytes[56..312]).into_owned();
        for part in [
            "Mixed, v1",
            &format!("{speed} f/s"),
            &format!("leader {leader} frames"),
        ] {
            assert!(said.contains(part), "{part}: {said}");
        }
        // The cue stands at running frame 100: nothing before, sound from there on.
        let data = bytes.len() - 3 * samples as usize;
        let fps: u64 = speed.parse().expect("a number");
        let leader: u64 = leader.parse().expect("a number");
        let first = ((leader + 100) * 48_000 / fps) as usize;
        let sample = |n: usize| {
            let at = data + 3 * n;
            i32::from_le_bytes([0, bytes[at], bytes[at + 1], bytes[at + 2]]) >> 8
        };
        assert!(
            (0..first).all(|n| sample(n) == 0),
            "{speed}: silence before"
        );
        let loudest = (first..first + 480).map(|n| sample(n).abs()).max();
        assert!(loudest > Some(500_000), "{speed}: {loudest:?}");
    }
    let again = dir.path().join("again.wav");
    call([
        "mix",
        text(&film),
        "--out",
        text(&again),
        "--speed",
        "24",
        "--leader",
        "20",
    ])
    .ok();
    let samples = |path: &Path| {
        let bytes = std::fs::read(path).expect("there");
        bytes[bytes.len() - 1_200_000..].to_vec()
    };
    assert!(
        samples(&again) == samples(&dir.path().join("mix-24.wav")),
        "bit for bit the same"
    );
}

/// How long the description is.
fn bext(bytes: &[u8]) -> u64 {
    assert_eq!(&bytes[48..52], b"bext");
    u64::from(u32::from_le_bytes([
        bytes[52], bytes[53], bytes[54], bytes[55],
    ]))
}

fn near(found: &Value, told: f64, within: f64) {
    let found = found
        .as_f64()
        .unwrap_or_else(|| panic!("a figure: {found}"));
    assert!((found - told).abs() <= within, "{found}, told {told}");
}

/// The meter that FFmpeg has of its own, on the same sounds: within 0.1 LU.
#[test]
fn loudness_agrees_with_the_meter_of_ffmpeg() {
    let dir = tempfile::tempdir().expect("a folder");
    for (name, source) in [
        (
            "tone.wav",
            "-f lavfi -i sine=frequency=1000:duration=6:sample_rate=48000",
        ),
        (
            "noise.flac",
            "-f lavfi -i anoisesrc=color=pink:duration=8:sample_rate=44100:amplitude=0.4:seed=7",
        ),
        (
            "steps.wav",
            "-f lavfi -i aevalsrc=0.3*sin(880*t)*(1+0.9*sin(2*t))|0.2*sin(500*t):duration=12:sample_rate=48000",
        ),
    ] {
        let file = made(dir.path(), source, name);
        let found = call(["loudness", text(&file)]).ok();
        let other = std::process::Command::new("ffmpeg")
            .args([
                "-hide_banner",
                "-nostats",
                "-i",
                text(&file),
                "-af",
                "ebur128=peak=true",
                "-f",
                "null",
                "-",
            ])
            .output()
            .expect("it runs");
        let said = String::from_utf8_lossy(&other.stderr).into_owned();
        let summary = said
            .rsplit("Summary:")
            .next()
            .expect("a summary")
            .to_owned();
        let figure = |word: &str| -> f64 {
            let line = summary
                .lines()
                .find(|line| line.trim().starts_with(word))
                .expect("a line");
            line.split_whitespace()
                .nth(1)
                .and_then(|n| n.parse().ok())
                .expect("a figure")
        };
        near(&found["integrated_lufs"], figure("I:"), 0.1);
        near(&found["loudness_range_lu"], figure("LRA:"), 0.2);
        near(&found["true_peak_dbtp"], figure("Peak:"), 0.2);
    }
}

#[test]
fn every_sound_that_is_not_plain_is_told_of_or_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = film(dir.path());
    let tone = "-f lavfi -i sine=frequency=300:duration=2:sample_rate";
    let add = |file: &Path| call(["sound", "add", text(&film), text(file)]);
    let told = |arguments: &str, name: &str, word: &str| {
        let file = made(dir.path(), arguments, name);
        let added = add(&file).ok();
        let remarks = added[0]["sound"]["facts"]["remarks"].to_string();
        assert!(remarks.contains(word), "{name}: {remarks}");
        added
    };
    told(&format!("{tone}=8000 -c:a pcm_u8"), "eight.wav", "");
    told(&format!("{tone}=96000"), "fast.wav", "");
    told(&format!("{tone}=44100 -c:a libmp3lame"), "tone.mp3", "");
    told(&format!("{tone}=48000 -c:a libvorbis"), "tone.ogg", "");
    told(&format!("{tone}=48000"), "tone.aiff", "");
    let five = told(&format!("{tone}=48000 -ac 6"), "five.wav", "folded to two");
    assert_eq!(five[0]["sound"]["facts"]["channels"], 2);
    told(
        "-f lavfi -i anullsrc=r=48000:cl=mono -t 2",
        "silent.wav",
        "silent from end to end",
    );
    told(
        &format!("{tone}=48000 -af volume=30dB"),
        "clipped.wav",
        "clipped",
    );
    told(
        "-f lavfi -i aevalsrc=0.2+0.1*sin(600*t):duration=2:sample_rate=48000",
        "dc.wav",
        "off the middle",
    );
    // Half of the file is gone.
    let whole = made(dir.path(), &format!("{tone}=48000"), "whole.flac");
    let bytes = std::fs::read(&whole).expect("there");
    let half = dir.path().join("half.flac");
    std::fs::write(&half, &bytes[..bytes.len() / 2]).expect("written");
    let added = add(&half).ok();
    let remarks = added[0]["sound"]["facts"]["remarks"].to_string();
    assert!(remarks.contains("breaks off"), "{remarks}");
    for (name, content, code) in [
        ("words.wav", &b"no sound at all"[..], "intake."),
        ("list.m3u", b"#EXTM3U\n/etc/passwd\n", "intake.playlist"),
        ("empty.wav", b"", "intake."),
    ] {
        let file = dir.path().join(name);
        std::fs::write(&file, content).expect("written");
        let refused = add(&file).refused();
        assert!(
            refused["code"]
                .as_str()
                .is_some_and(|c| c.starts_with(code)),
            "{name}: {refused}"
        );
    }
    let sounds = call(["sound", "list", text(&film)]).ok();
    assert_eq!(
        sounds.as_array().map(Vec::len),
        Some(10),
        "what was refused left nothing"
    );
    let left = std::fs::read_dir(film.join("sounds")).expect("a folder");
    let parts = left.filter(|entry| {
        let name = entry.as_ref().expect("an entry").file_name();
        name.to_string_lossy().contains(".part")
    });
    assert_eq!(parts.count(), 0);
}
