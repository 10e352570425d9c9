//! Real pictures that nobody on this project made: as many file frames as
//! FFmpeg decodes, without a flag.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::program::call;

fn media(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../tests/media")
        .join(folder)
}

fn entries(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the media are part of the repository")
        .map(|e| e.expect("an entry").path())
        .collect();
    all.sort();
    all
}

/// Frames that a bare FFmpeg decodes, by its own count.
fn decoded(path: &Path) -> u64 {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-nostdin", "-i"])
        .arg(path)
        .args([
            "-map",
            "0:v:0",
            "-fps_mode",
            "passthrough",
            "-f",
            "null",
            "-progress",
            "-",
            "-",
        ])
        .output()
        .expect("ffmpeg starts");
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    let last = text.lines().rfind(|l| l.starts_with("frame="));
    let count = last.and_then(|l| l["frame=".len()..].trim().parse().ok());
    count.unwrap_or_else(|| panic!("no count for {}", path.display()))
}

/// Film frames of files in which they are known: by `cadence.csv`, and of films
/// whose every file frame differs from the one before or stands still on purpose.
/// The woven one has two and three fields of each of 120.
const KNOWN: [(&str, u64); 4] = [
    ("repeats_18_to_25.mp4", 160),
    ("edison_1899_coaches.mp4", 819),
    ("nosferatu_1922_excerpt.mp4", 1191),
    ("pulldown_23_interlaced.mp4", 120),
];

#[test]
fn every_film_file_gives_as_many_frames_as_ffmpeg_decodes() {
    let films: Vec<PathBuf> = entries(&media("video"))
        .into_iter()
        .filter(|p| p.extension().is_some_and(|e| e == "mp4" || e == "webm"))
        .collect();
    assert!(films.len() >= 9, "{films:?}");
    for film in films {
        let found = call(["read", film.to_str().expect("plain")]).ok();
        let frames = decoded(&film);
        assert_eq!(found["file"]["frames"], frames, "{}", film.display());
        // Each file frame shows a film frame of its own, or one that stands there
        // already; and the machine may have left some out.
        let of_film = &found["film"];
        let count = |what: &str| of_film[what].as_u64().expect("a count");
        let doubled: u64 = of_film["anomalies"]
            .as_array()
            .expect("anomalies")
            .iter()
            .filter(|one| one["kind"] == "doubled")
            .map(|one| one["frames"].as_u64().expect("a count"))
            .sum();
        let shown = count("frames") - count("missing");
        assert_eq!(
            shown + count("repeats") + doubled,
            frames,
            "{}: {of_film}",
            film.display()
        );
        let name = film.file_name().expect("a name").to_string_lossy();
        if let Some((_, known)) = KNOWN.iter().find(|(one, _)| *one == name) {
            assert_eq!(count("frames"), *known, "{name}: {of_film}");
        }
        let takes = found["takes"].as_array().expect("takes");
        let ends: Vec<(u64, u64)> = takes
            .iter()
            .map(|t| {
                (
                    t["in"].as_u64().expect("in"),
                    t["out"].as_u64().expect("out"),
                )
            })
            .collect();
        assert!(ends.iter().all(|(a, b)| a < b), "{ends:?}");
        assert!(
            ends.windows(2).all(|w| w[0].1 == w[1].0),
            "takes tile: {ends:?}"
        );
    }
}

#[test]
fn every_run_of_pictures_is_read() {
    for (folder, pictures, missing) in [
        ("frames/gtr_1903_png", 8, 0),
        ("frames/market_street_1906_tiff16", 4, 0),
        ("frames/market_street_1906_dpx10", 4, 1),
    ] {
        let path = media(folder);
        assert_eq!(entries(&path).len(), pictures);
        let found = call(["read", path.to_str().expect("plain")]).ok();
        assert_eq!(found["file"]["frames"], pictures, "{folder}");
        assert_eq!(found["film"]["missing"], missing, "{folder}");
        assert_eq!(found["film"]["frames"], pictures + missing, "{folder}");
    }
}

/// A gap in the numbers keeps its place: the frame has a number, no picture,
/// and whoever reads it is told.
#[test]
fn a_gap_in_the_numbers_is_a_missing_film_frame() {
    let path = media("frames/market_street_1906_dpx10");
    let found = call(["read", path.to_str().expect("plain")]).ok();
    // Present are 0086405, 406, 408 and 409: film frame 2 is the missing one.
    assert_eq!(found["map"], serde_json::json!([0, 1, null, 2, 3]));
    let skip = &found["film"]["anomalies"][0];
    assert_eq!(
        (skip["at"].as_u64(), skip["frames"].as_u64()),
        (Some(2), Some(1))
    );
    assert_eq!(skip["kind"], "skip");
    assert!(
        found["warnings"].to_string().contains("intake.gap"),
        "{found}"
    );
}

#[test]
fn one_picture_alone_and_one_that_no_decoder_knows() {
    let single = media("frames/single/checker_10bit_rgb.dpx");
    let found = call(["read", single.to_str().expect("plain")]).ok();
    assert_eq!(found["film"]["frames"], 1);
    let cineon = media("frames/single/checker.cin");
    let refused = call(["read", cineon.to_str().expect("plain")]).refused();
    assert!(
        refused["hint"].as_str().expect("a hint").contains("DPX"),
        "{refused}"
    );
}

/// The film frames as PNG are the file's own pictures.
#[test]
fn frames_are_written_by_their_film_number() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().join("frames");
    let path = media("frames/gtr_1903_png");
    let arguments = [
        "read",
        path.to_str().expect("plain"),
        "--frames-dir",
        out.to_str().expect("plain"),
    ];
    call(arguments).ok();
    let written = entries(&out);
    assert_eq!(written.len(), 8);
    assert!(written[3].ends_with("frame_000003.png"));
    for (ours, theirs) in written.iter().zip(entries(&path)) {
        assert_eq!(pixels(ours), pixels(&theirs));
    }
    // A folder that holds something is left alone.
    assert_eq!(call(arguments).refused()["code"], "production.unfit");
}

fn pixels(path: &Path) -> Vec<u8> {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-nostdin", "-i"])
        .arg(path)
        .args(["-pix_fmt", "rgb24", "-f", "rawvideo", "-"])
        .output()
        .expect("ffmpeg starts");
    assert!(out.status.success() && !out.stdout.is_empty());
    out.stdout
}

/// Two scans of one roll, the second begun ten frames before the first ended:
/// frame names count the film, so those ten are counted once.
#[test]
fn several_files_are_one_roll_and_an_overlap_is_counted_once() {
    use onestrand_example::numbered_picture;
    use std::io::Write;
    let dir = tempfile::tempdir().expect("a folder");
    let part = |name: &str, frames: std::ops::Range<u32>| {
        let path = dir.path().join(name);
        let mut child = Command::new("ffmpeg")
            .args([
                "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24", "-s", "320x240",
            ])
            .args(["-framerate", "18", "-i", "-", "-c:v", "ffv1"])
            .arg(&path)
            .stdin(std::process::Stdio::piped())
            .spawn()
            .expect("ffmpeg starts");
        let mut pipe = child.stdin.take().expect("a pipe");
        let mut picture = vec![0; 320 * 240 * 3];
        for frame in frames {
            numbered_picture(320, 240, 1, frame, &mut picture).expect("a picture");
            pipe.write_all(&picture).expect("written");
        }
        drop(pipe);
        assert!(child.wait().expect("ffmpeg ends").success());
        path.to_str().expect("plain").to_owned()
    };
    let (first, second) = (part("a.mkv", 0..100), part("b.mkv", 90..160));
    let found = call(["read", &first, &second]).ok();
    assert_eq!(found["film"]["frames"], 160);
    assert_eq!(found["files"].as_array().map(Vec::len), Some(2));
    // File frames are counted through: 100 of the first, then ten not used.
    assert_eq!(
        (&found["map"][99], &found["map"][100]),
        (&99.into(), &110.into())
    );
    assert!(
        found["warnings"].to_string().contains("production.overlap"),
        "{}",
        found["warnings"]
    );
    let third = part("c.mkv", 160..200);
    let apart = call(["read", &first, &third]).ok();
    assert_eq!(apart["film"]["frames"], 140);
    assert_eq!(apart["warnings"], serde_json::json!([]));
}
