//! An exposure wedge whose truth is known, filmed, scanned, read, and measured.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use onestrand_production::{
    CameraRollWedgeRequest, CameraWedgeRequest, Production, camera_wedge, camera_wedge_of_roll,
};
use onestrand_store::{Act, TakeRecord};

use crate::one_roll::read_once;

const WIDE: usize = 320;
const HIGH: usize = 240;
const FRAMES: u32 = 16;
const SETTINGS: [f64; 8] = [-1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 3.5];
/// Contrast of a reversal film, and what the meter asks for too little.
const CONTRAST: f64 = 1.5;
const OFF: f64 = 2.0 / 3.0;

/// A grey card on film that was set so against the meter: 18 per cent where it is right.
fn picture(set: f64, frame: u32) -> Vec<u8> {
    let light = 0.18 * (CONTRAST * (set - OFF)).exp2();
    let pixel = |at: usize| {
        // The card is not lit quite evenly, and the film has grain.
        let across = (at % WIDE) as f64 / WIDE as f64 - 0.5;
        let grain = (at as u32).wrapping_mul(2_654_435_761) ^ frame.wrapping_mul(40_503);
        let grain = f64::from(grain >> 20 & 0xff) / 255.0 - 0.5;
        let lit = light * (1.0 + 0.1 * across) * (1.0 + 0.15 * grain);
        (255.0 * lit.min(1.0).powf(1.0 / 2.2)).round() as u8
    };
    (0..WIDE * HIGH).flat_map(|at| [pixel(at); 3]).collect()
}

fn scan(file: PathBuf) -> PathBuf {
    let mut ffmpeg = Command::new("ffmpeg")
        .args([
            "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24", "-r", "18",
        ])
        .args(["-s", &format!("{WIDE}x{HIGH}"), "-i", "-", "-c:v", "ffv1"])
        .arg(&file)
        .stdin(Stdio::piped())
        .spawn()
        .expect("ffmpeg starts");
    let mut pipe = ffmpeg.stdin.take().expect("a pipe");
    for (take, set) in SETTINGS.iter().enumerate() {
        for frame in 0..FRAMES {
            let pixels = picture(*set, take as u32 * FRAMES + frame);
            pipe.write_all(&pixels).expect("written");
        }
    }
    drop(pipe);
    assert!(ffmpeg.wait().expect("ended").success());
    file
}

/// The roll with its takes as the slate has them.
fn film(dir: &Path) -> Production {
    let mut production = read_once(dir, &scan(dir.join("wedge.mkv")));
    let pattern = production.takes_of("R1").expect("takes")[0].clone();
    let takes = (0..SETTINGS.len() as u32).map(|at| TakeRecord {
        first: at * FRAMES,
        thrown: (at + 1) * FRAMES,
        ..pattern.clone()
    });
    let put = Act::PutTakes {
        roll: "R1".to_owned(),
        takes: takes.collect(),
    };
    production.act("takes of the wedge", &put).expect("kept");
    production
}

fn settings() -> String {
    SETTINGS.map(|set| set.to_string()).join(" ")
}

#[test]
fn the_meters_error_is_read_off_a_roll() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let request = CameraRollWedgeRequest {
        roll: "R1".to_owned(),
        set: settings(),
        first_take: None,
        right: None,
    };
    let found = camera_wedge_of_roll(&production, &request).expect("a wedge");
    assert_eq!(found.thirds, 2, "{found:?}");
    assert!((found.give_more_stops - OFF).abs() < 0.08, "{found:?}");
    assert!((found.contrast - CONTRAST).abs() < 0.1, "{found:?}");
    // The last take is clipped to white: nothing can be measured there.
    assert_eq!(found.takes[7].light_stops, None);
    assert!(found.takes[7].left_out.is_some());
    let measured = &found.takes[3];
    assert_eq!(measured.frames.as_deref(), Some("R1·52 to 59"));
    assert_eq!(found.opened.plates[0].count, "+⅔");

    let short = CameraRollWedgeRequest {
        first_take: Some(5),
        ..request.clone()
    };
    let refused = camera_wedge_of_roll(&production, &short).expect_err("four takes");
    assert_eq!(refused.code(), "production.unfit");
    let nowhere = CameraRollWedgeRequest {
        roll: "R9".to_owned(),
        ..request
    };
    assert!(camera_wedge_of_roll(&production, &nowhere).is_err());
}

#[test]
fn a_wedge_can_be_typed() {
    let request = CameraWedgeRequest {
        set: "-1 -0.5 0 0.5 1 3".to_owned(),
        light: "-3.97; -3.22; -2.47; -1.72; -0.97; x".to_owned(),
        right: None,
    };
    let found = camera_wedge(&request).expect("a wedge");
    assert_eq!(found.thirds, 0);
    assert_eq!(found.opened.text, "the meter is right to a third of a stop");
    let short = CameraWedgeRequest {
        light: "-3.97; -3.22".to_owned(),
        ..request
    };
    assert_eq!(
        camera_wedge(&short).expect_err("two").code(),
        "production.unfit"
    );
}
