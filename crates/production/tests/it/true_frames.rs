//! Film frames told from the frames of a file.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use onestrand_intake::Cancel;
use onestrand_production::documents::ReadDocument;
use onestrand_production::{Quiet, ReadRequest, read_scan};
use onestrand_telecine::{Coding, Look, Planted, Projection, Roll, Scene, Transfer, levels};

fn roll() -> Roll {
    let scenes = [
        (Scene::Walk, 150),
        (Scene::Pan(0.008), 120),
        (Scene::Title, 90),
    ];
    Roll::new((192, 144), Look::FAIR, 5, &scenes)
}

/// A transfer of the roll as a file, every frame coded by itself.
fn file(folder: &Path, transfer: &Transfer) -> PathBuf {
    let path = folder.join("transfer.mov");
    let rate = format!("{}/{}", transfer.file.0, transfer.file.1);
    let mut child = Command::new("ffmpeg")
        .args([
            "-v", "error", "-f", "rawvideo", "-pix_fmt", "gray", "-s", "192x144",
        ])
        .args(["-r", &rate, "-i", "pipe:0", "-c:v", "mjpeg", "-q:v", "3"])
        .args(["-pix_fmt", "yuvj420p"])
        .arg(&path)
        .stdin(Stdio::piped())
        .spawn()
        .expect("FFmpeg is here");
    let mut feed = child.stdin.take().expect("a pipe was asked for");
    for frame in Projection::new(&roll(), transfer, Coding { noise: 0.0 }) {
        feed.write_all(&levels(&frame.levels))
            .expect("FFmpeg takes frames");
    }
    drop(feed);
    assert!(child.wait().expect("FFmpeg ends").success());
    path
}

fn read(transfer: &Transfer) -> ReadDocument {
    let folder = tempfile::tempdir().expect("a folder");
    let request = ReadRequest {
        files: vec![file(folder.path(), transfer)],
        gauge: None,
        film_speed: None,
        measured: Some("5ft0".parse().expect("a length")),
        shrinkage: None,
        frames_dir: None,
        unslit: None,
    };
    read_scan(&request, &Cancel::new(), &mut Quiet).expect("it can be read")
}

#[test]
fn a_roll_of_five_feet_is_five_feet_in_a_file_of_25() {
    let transfer = Transfer::clean((18, 1), (25, 1));
    let found = read(&transfer);
    assert_eq!((found.film.frames, found.film.repeats), (360, 140));
    assert_eq!(found.film.speed, "18");
    assert_eq!(
        (found.film.expected, found.film.difference),
        (Some(360), Some(0))
    );
    assert_eq!(found.film.cadence.len(), 18);
    assert_eq!(found.film.cadence.iter().sum::<u32>(), 25);
    let truth = transfer.truth(360);
    for (film, shown) in (0_u32..).zip(&found.map) {
        let file_frame = shown.expect("every film frame is shown") as usize;
        assert_eq!(truth[file_frame].most(), film);
    }
    assert_eq!(
        found.assumptions[0],
        "film frames are repeated in the file; each is named once"
    );
}

#[test]
fn blends_are_told_and_their_film_frames_counted() {
    let found = read(
        &Transfer::clean((18, 1), (25, 1))
            .exposed(1.0)
            .from_phase(0.2)
            .drifting(0.01, 700.0),
    );
    let film = &found.film;
    assert!(film.frames.abs_diff(360) <= 1, "{}", film.frames);
    assert!(film.blended > 150, "{}", film.blended);
    assert_eq!(
        film.clean + film.blended + film.counted + film.missing,
        film.frames
    );
}

/// A skip is a guess: it is told, but leaves no number free. False ones were told
/// in real and in drawn films.
#[test]
fn a_doubled_frame_has_one_number_and_a_skip_is_told_as_a_guess() {
    let planted = [
        Planted::Doubled { at: 60 },
        Planted::Skipped { at: 210, frames: 2 },
    ];
    let found = read(&Transfer::clean((24, 1), (24, 1)).with(&planted));
    let told: Vec<(u32, &str, u32, u32)> = found
        .film
        .anomalies
        .iter()
        .map(|one| (one.at, one.kind.as_str(), one.frames_low, one.frames_high))
        .collect();
    assert_eq!(told, [(60, "doubled", 1, 1), (210, "skip", 0, 2)]);
    assert_eq!((found.film.frames, found.film.missing), (358, 0));
    assert_eq!((found.map[60], found.map[61]), (Some(60), Some(62)));
    assert_eq!((found.map[209], found.map[210]), (Some(210), Some(211)));
}

#[test]
fn a_test_picture_whose_figures_go_round_is_no_cadence() {
    // Every frame is another: it had been read as 17.25 film frames blended into 18.
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("test-picture.mkv");
    let made = Command::new("ffmpeg")
        .args([
            "-v",
            "error",
            "-f",
            "lavfi",
            "-i",
            "testsrc2=size=480x360:rate=18",
        ])
        .args(["-vf", "noise=alls=7:allf=t", "-frames:v", "900"])
        .args(["-c:v", "mjpeg", "-q:v", "2"])
        .arg(&path)
        .status();
    assert!(made.expect("FFmpeg is here").success());
    let request = ReadRequest {
        files: vec![path],
        gauge: None,
        film_speed: None,
        measured: None,
        shrinkage: None,
        frames_dir: None,
        unslit: None,
    };
    let found = read_scan(&request, &Cancel::new(), &mut Quiet).expect("it can be read");
    let film = &found.film;
    assert_eq!((film.frames, film.blended, film.repeats), (900, 0, 0));
}
