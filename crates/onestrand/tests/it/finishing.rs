//! The digital finish from outside: carried into another rate, with its sound, drawn
//! titles, the list that proves it; stopped and gone on.

use std::path::Path;
use std::process::Command;

use onestrand_example::{HEIGHT, WIDTH, edge_code};
use serde_json::json;

use crate::program::{call, copy_of_boat};
use crate::recut::text;

/// A short version of the example, with a title that is still to be photographed.
const CUT: &str = "position,roll,in,out,note\n1,R1,402,438,\n2,card,0,30,M\n\
                   3,R2,540,576,\n4,R1,600,618,\n";
/// 36 + 30 + 36 + 18.
const FRAMES: u64 = 120;

fn luma_of(path: &Path) -> Vec<Vec<u8>> {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-i", text(path), "-map", "0:v"])
        .args([
            "-fps_mode",
            "passthrough",
            "-pix_fmt",
            "gray",
            "-f",
            "rawvideo",
            "-",
        ])
        .output()
        .expect("ffmpeg starts");
    assert!(out.status.success());
    let size = WIDTH as usize * HEIGHT as usize;
    out.stdout.chunks_exact(size).map(<[u8]>::to_vec).collect()
}

fn pictures_of(path: &Path) -> Vec<blake3::Hash> {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-i", text(path), "-map", "0:v"])
        .args(["-fps_mode", "passthrough", "-f", "rawvideo", "-"])
        .output()
        .expect("ffmpeg starts");
    let size = WIDTH as usize * HEIGHT as usize * 3 / 2;
    out.stdout.chunks_exact(size).map(blake3::hash).collect()
}

fn probed(path: &Path, entries: &str) -> String {
    let out = Command::new("ffprobe")
        .args(["-v", "error", "-show_entries", entries, "-of", "csv=p=0"])
        .arg(path)
        .output()
        .expect("ffprobe starts");
    String::from_utf8(out.stdout).expect("words")
}

#[test]
fn every_frame_of_a_finish_in_another_rate_is_proved_by_its_list() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let sheet = dir.path().join("short.csv");
    std::fs::write(&sheet, CUT).expect("written");
    call([
        "cut",
        "import",
        text(&film),
        text(&sheet),
        "--name",
        "short",
    ])
    .ok();
    let mix = dir.path().join("mix.wav");
    call([
        "mix",
        text(&film),
        "--cut",
        "short",
        "--out",
        text(&mix),
        "--leader",
        "9",
    ])
    .ok();
    let at = |name: &str| dir.path().join(name);
    let (out, list, captions) = (at("short.mkv"), at("short.csv.list"), at("short.vtt"));
    let arguments = [
        "finish",
        text(&film),
        "--cut",
        "short",
        "--out",
        text(&out),
        "--file-rate",
        "25",
        "--sound",
        text(&mix),
        "--list",
        text(&list),
        "--captions",
        text(&captions),
    ];
    let made = call(arguments).ok();
    // ⌈120 · 25 / 18⌉ = 167.
    assert_eq!(
        (&made["frames"], &made["file_frames"]),
        (&json!(FRAMES), &json!(167))
    );
    assert_eq!(made["shows"], "planned");
    assert_eq!(made["cards"], 30);
    assert_eq!(made["sound"]["leader_frames"], 9);
    // ⌊9 · 48000 / 18⌋ of ⌈129 · 48000 / 18⌉ samples are the leader's.
    assert_eq!(made["sound"]["samples"], 344_000 - 24_000);
    assert_eq!(
        probed(&out, "stream=codec_name,r_frame_rate")
            .lines()
            .collect::<Vec<_>>(),
        ["ffv1,25/1", "pcm_s24le,0/0"]
    );
    assert!(
        std::fs::read_to_string(&captions)
            .expect("captions")
            .starts_with("WEBVTT")
    );

    let told = std::fs::read_to_string(&list).expect("a list");
    let rows: Vec<Vec<&str>> = told
        .lines()
        .skip(1)
        .map(|l| l.split(',').collect())
        .collect();
    assert_eq!(rows.len(), 167);
    let (luma, hashes) = (luma_of(&out), pictures_of(&out));
    for (k, row) in rows.iter().enumerate() {
        let place = k * 18 / 25;
        assert_eq!(row[..2], [k.to_string(), place.to_string()]);
        assert_eq!(row[3], hashes[k].to_hex().as_str(), "frame {k} of the file");
        let number = edge_code::read_edge_code(&luma[k], WIDTH, HEIGHT, WIDTH as usize);
        let shown = number.map(|(roll, frame)| format!("R{roll}·{frame}"));
        match place {
            36..66 => assert_eq!((row[2], shown), ("\"card M\"", None)),
            _ => assert_eq!(Some(row[2].to_owned()), shown, "frame {k} of the file"),
        }
    }
    // A title of the example's own list is drawn, and is not black.
    let mean = |n: usize| luma[n].iter().map(|p| u64::from(*p)).sum::<u64>() / luma[n].len() as u64;
    assert!(mean(70) > 20, "{}", mean(70));
}

#[test]
fn what_a_finish_cannot_be_is_told_before_it_is_begun() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let out = dir.path().join("x.mkv");
    let refused = |more: &[&str]| {
        let mut all = vec!["finish", text(&film), "--cut", "v1", "--out", text(&out)];
        all.extend(more);
        let told = call(all).refused();
        assert!(!out.exists());
        told["code"].as_str().expect("a code").to_owned()
    };
    assert_eq!(refused(&["--file-rate", "16"]), "finish.rate_too_low");
    assert_eq!(refused(&["--steady"]), "finish.master_changed");
    assert_eq!(refused(&["--flicker"]), "finish.master_changed");
    // The mix of another length.
    let short = dir.path().join("short.wav");
    let made = Command::new("ffmpeg")
        .args([
            "-v",
            "error",
            "-f",
            "lavfi",
            "-i",
            "sine=d=2:r=48000",
            "-c:a",
            "pcm_s24le",
        ])
        .arg(&short)
        .status();
    assert!(made.expect("ffmpeg starts").success());
    assert_eq!(refused(&["--sound", text(&short)]), "production.unfit");
}
