//! Pictures of film frames that no file frame shows alone: woven of fields, and
//! unmixed out of blends; in the workprint and at full size.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use onestrand_intake::Cancel;
use onestrand_production::documents::ReadDocument;
use onestrand_production::{FinishRequest, Quiet, ReadRequest, finish, read_scan};
use onestrand_store::{Act, CutRecord, Workprints};
use onestrand_telecine::{
    Coding, FieldOrder, Look, Projection, Roll, Scene, Shown, Transfer, levels, weave,
};

use crate::one_roll::{read_once, shot};

const SIZE: (usize, usize) = (320, 240);

fn roll() -> Roll {
    let scenes = [
        (Scene::Walk, 230),
        (Scene::Pan(0.008), 120),
        (Scene::Title, 40),
    ];
    Roll::new(SIZE, Look::FAIR, 41, &scenes)
}

/// Codes grey pictures without loss, as a file that says how it is woven.
fn coded(path: &Path, rate: &str, woven: Option<&str>, pictures: impl Iterator<Item = Vec<u8>>) {
    let size = format!("{}x{}", SIZE.0, SIZE.1);
    let mut command = Command::new("ffmpeg");
    command
        .args([
            "-v", "error", "-f", "rawvideo", "-pix_fmt", "gray", "-s", &size,
        ])
        .args(["-r", rate, "-i", "pipe:0", "-pix_fmt", "gray"])
        .args(["-c:v", "ffv1"]);
    if let Some(order) = woven {
        command.args(["-flags", "+ilme+ildct", "-field_order", order]);
    }
    let mut child = command
        .arg(path)
        .stdin(Stdio::piped())
        .spawn()
        .expect("FFmpeg is here");
    let mut feed = child.stdin.take().expect("a pipe was asked for");
    for picture in pictures {
        feed.write_all(&picture).expect("FFmpeg takes pictures");
    }
    drop(feed);
    assert!(child.wait().expect("FFmpeg ends").success());
}

fn read(file: &Path, frames_dir: &Path) -> ReadDocument {
    let request = ReadRequest {
        files: vec![file.to_owned()],
        gauge: None,
        film_speed: None,
        measured: None,
        shrinkage: None,
        frames_dir: Some(frames_dir.to_owned()),
        unslit: None,
    };
    read_scan(&request, &Cancel::new(), &mut Quiet).expect("it can be read")
}

fn grey(picture: &Path) -> Vec<u8> {
    let bytes = std::fs::read(picture).expect("a picture");
    image::load_from_memory(&bytes)
        .expect("a picture that can be read")
        .to_luma8()
        .into_raw()
}

fn psnr(a: &[u8], b: &[u8]) -> f64 {
    assert_eq!(a.len(), b.len());
    let squares = a
        .iter()
        .zip(b)
        .map(|(a, b)| f64::from(a.abs_diff(*b)).powi(2));
    let mean = squares.sum::<f64>() / a.len() as f64;
    10.0 * (255.0_f64.powi(2) / mean.max(1e-3)).log10()
}

fn frame_file(dir: &Path, film: usize) -> PathBuf {
    dir.join(format!("frame_{film:06}.png"))
}

/// Two and three fields each, three, three and four, four and four: every film
/// frame comes out as it was on the film, though many file frames show two.
#[test]
fn film_in_fields_comes_out_free_of_comb() {
    for (speed, order, tag) in [
        (24, FieldOrder::TopFirst, "tt"),
        (18, FieldOrder::BottomFirst, "bb"),
        (18, FieldOrder::TopFirst, "tt"),
        (15, FieldOrder::TopFirst, "tt"),
    ] {
        let dir = tempfile::tempdir().expect("a folder");
        let (film, roll) = (dir.path().join("woven.mkv"), roll());
        let transfer = Transfer::clean((speed, 1), (60, 1));
        let moments: Vec<Vec<u8>> = Projection::new(&roll, &transfer, Coding { noise: 0.0 })
            .map(|frame| levels(&frame.levels))
            .collect();
        let woven = moments
            .chunks_exact(2)
            .map(|pair| weave(&pair[0], &pair[1], SIZE.0, order));
        coded(&film, "30", Some(tag), woven);
        let found = read(&film, &dir.path().join("frames"));
        assert_eq!(found.film.frames, roll.frames(), "{speed} {tag}");
        assert_eq!(found.film.speed, speed.to_string());
        assert!(
            found
                .warnings
                .iter()
                .any(|w| w.code == "production.interlaced")
        );
        let mut combed = 0;
        for film in 0..roll.frames() {
            let drawn = levels(&roll.frame(film));
            let made = grey(&frame_file(&dir.path().join("frames"), film as usize));
            // Without loss but for the rounding of grey to colour and back.
            if psnr(&made, &drawn) < 48.0 {
                combed += 1;
            }
        }
        // The last one may have one field only.
        assert!(
            combed <= 1,
            "{speed} {tag}: {combed} film frames differ from the film"
        );
    }
}

/// How near the picture of each film frame that moves is to the film, and how near
/// the best file frame is. Unit: decibels.
fn gains(
    roll: &Roll,
    truth: &[Shown],
    of_film: impl Fn(u32) -> Vec<u8>,
    of_file: impl Fn(usize) -> Vec<u8>,
) -> Vec<f64> {
    let share = |shown: &Shown, film: u32| {
        let one = shown.weights.iter().find(|(number, _)| *number == film);
        one.map_or(0.0, |(_, share)| *share)
    };
    let mut gains = Vec::new();
    for film in 5..340 {
        let best = (0..truth.len())
            .max_by(|a, b| share(&truth[*a], film).total_cmp(&share(&truth[*b], film)));
        let best = best.expect("file frames");
        if share(&truth[best], film) > 0.98 {
            continue;
        }
        let drawn = levels(&roll.frame(film));
        gains.push(psnr(&of_film(film), &drawn) - psnr(&of_file(best), &drawn));
    }
    gains
}

fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    of[of.len() / 2]
}

#[test]
fn blended_film_frames_are_unmixed_in_the_workprint_and_at_full_size() {
    let dir = tempfile::tempdir().expect("a folder");
    let (film, roll) = (dir.path().join("wall.mkv"), roll());
    let transfer = Transfer::clean((18, 1), (25, 1))
        .exposed(1.0)
        .from_phase(0.2)
        .drifting(0.01, 700.0);
    let truth = transfer.truth(roll.frames());
    let shown: Vec<Vec<u8>> = Projection::new(&roll, &transfer, Coding { noise: 0.0 })
        .map(|frame| levels(&frame.levels))
        .collect();
    coded(&film, "25", None, shown.iter().cloned());

    let frames = dir.path().join("frames");
    let found = read(&film, &frames);
    assert_eq!(found.film.frames, roll.frames());
    let full = gains(
        &roll,
        &truth,
        |film| grey(&frame_file(&frames, film as usize)),
        |file| shown[file].clone(),
    );
    assert!(
        full.len() > 100,
        "most film frames are blended: {}",
        full.len()
    );
    let least = full.iter().copied().fold(f64::INFINITY, f64::min);
    assert!(least > -0.5, "none is made worse: {least}");
    let full = median(full);
    assert!(full > 3.0, "{full} dB at full size");

    let work = gains_of_workprint(dir.path(), &film, &roll, &truth);
    assert!(work > 3.0, "{work} dB in the workprint");
}

/// What is finished is what was on the film: two pieces of a woven roll.
#[test]
fn the_finish_of_a_woven_roll_is_free_of_comb() {
    let dir = tempfile::tempdir().expect("a folder");
    let (film, roll) = (dir.path().join("woven.mkv"), roll());
    let transfer = Transfer::clean((24, 1), (60, 1));
    let moments: Vec<Vec<u8>> = Projection::new(&roll, &transfer, Coding { noise: 0.0 })
        .map(|frame| levels(&frame.levels))
        .collect();
    let order = FieldOrder::TopFirst;
    let woven = moments
        .chunks_exact(2)
        .map(|pair| weave(&pair[0], &pair[1], SIZE.0, order));
    coded(&film, "30", Some("tt"), woven);
    let mut production = read_once(dir.path(), &film);
    let pieces = [(100, 140), (20, 60)];
    let act = Act::PutCut {
        name: "v1".to_owned(),
        cut: Some(CutRecord {
            usual_join: "tape".to_owned(),
            note: String::new(),
            made: "2026-01-01T00:00:00Z".to_owned(),
            pieces: pieces.map(|(first, thrown)| shot(first, thrown)).to_vec(),
        }),
    };
    production.act("a cut", &act).expect("kept");
    let out = dir.path().join("finish.mkv");
    let told = finish(
        &mut production,
        FinishRequest::plain("v1", &out),
        &Cancel::new(),
        &mut Quiet,
    )
    .expect("finished");
    assert_eq!((told.frames, told.missing), (80, 0));
    let shown = Command::new("ffmpeg")
        .args(["-v", "error", "-nostdin", "-i"])
        .arg(&out)
        .args(["-f", "rawvideo", "-pix_fmt", "gray", "pipe:1"])
        .output()
        .expect("FFmpeg is here");
    let pictures: Vec<&[u8]> = shown.stdout.chunks_exact(SIZE.0 * SIZE.1).collect();
    assert_eq!(pictures.len(), 80);
    let films = pieces.into_iter().flat_map(|(first, thrown)| first..thrown);
    for (film, picture) in films.zip(pictures) {
        let near = psnr(picture, &levels(&roll.frame(film)));
        assert!(near > 48.0, "film frame {film}: {near} dB");
    }
}

/// The same for the pictures of a workprint, beside those it would show otherwise.
fn gains_of_workprint(dir: &Path, film: &Path, roll: &Roll, truth: &[Shown]) -> f64 {
    let production = read_once(dir, film);
    let mut prints = Workprints::open(production.dir()).expect("workprints");
    let mut pictures: Vec<Vec<u8>> = Vec::new();
    for frame in 0..roll.frames() {
        let jpeg = prints.picture("R1", frame).expect("no trouble");
        let jpeg = jpeg.expect("every film frame has a picture");
        pictures.push(
            image::load_from_memory(&jpeg)
                .expect("a JPEG")
                .to_luma8()
                .into_raw(),
        );
    }
    let of_files = browsing_of_files(film);
    median(gains(
        roll,
        truth,
        |film| pictures[film as usize].clone(),
        |file| of_files[file].clone(),
    ))
}

/// The pictures that a workprint has of file frames as they are.
fn browsing_of_files(film: &Path) -> Vec<Vec<u8>> {
    use onestrand_intake::{Ffmpeg, ReadOptions, Source, read};
    let ffmpeg = Ffmpeg::locate().expect("FFmpeg is here");
    let (source, _) = Source::open(&ffmpeg, &[film.to_owned()]).expect("it opens");
    let mut all = Vec::new();
    let options = ReadOptions::default();
    read(&ffmpeg, &source, &options, &Cancel::new(), &mut |frame| {
        all.push(
            image::load_from_memory(&frame.jpeg)
                .expect("a JPEG")
                .to_luma8()
                .into_raw(),
        );
        std::ops::ControlFlow::Continue(())
    })
    .expect("it is read");
    all
}
