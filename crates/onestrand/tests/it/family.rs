//! Family reels by command. A reel is put together by FFmpeg out of a real camera roll: six
//! shots through two drawn gates, a hair growing in one, cut up and joined in another order.
//! Which camera each was, and in which order, is known because it was drawn so.

use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::program::{call_words, ffmpeg};

/// Burrs at the edges of two gates: place and size, in pixels of the picture.
const GATES: [&str; 2] = [
    "scale=480:360,drawbox=0:120:5:30:0x14120f:fill,drawbox=300:0:40:3:0x14120f:fill,drawbox=476:40:4:90:0x14120f:fill,drawbox=90:356:70:4:0x14120f:fill",
    "scale=486:356,drawbox=0:220:3:60:0x14120f:fill,drawbox=100:0:60:4:0x14120f:fill,drawbox=483:250:3:50:0x14120f:fill,drawbox=330:352:90:4:0x14120f:fill",
];
const BORDER: &str =
    "pad=640:480:(ow-iw)/2:(oh-ih)/2:0x14120f,noise=alls=5:allf=t:all_seed=4,setsar=1";

/// First and last picture of the roll, which gate, and the length of the hair.
type Drawn = (u32, u32, usize, u32);

/// As they lie on the reel. Of the first gate they were taken 84, 185, 0: 20, 40, 60.
const SHOTS: [Drawn; 5] = [
    (62, 100, 0, 60),
    (3, 50, 1, 0),
    (150, 190, 0, 20),
    (262, 320, 1, 0),
    (334, 380, 0, 40),
];

fn roll() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video/camera_roll_b.mp4")
}

/// Draws a reel of these shots; `after` is done to each picture as a printer would.
fn drawn(shots: &[Drawn], border: &str, name: &str, into: &Path) {
    let mut parts = String::new();
    let mut names = String::new();
    for (n, &(first, last, gate, hair)) in shots.iter().enumerate() {
        let hair = match hair {
            0 => String::new(),
            long => format!(",drawbox=200:0:4:{long}:0x100e0c:fill"),
        };
        parts += &format!(
            "movie={},select='between(n\\,{first}\\,{last})',setpts=N/18/TB,crop=iw*0.7:ih*0.7,{}{hair},{border}[p{n}];",
            roll().display(),
            GATES[gate],
        );
        names += &format!("[p{n}]");
    }
    let count = shots.len();
    let graph = format!("{parts}{names}concat=n={count},fps=18,setpts=N/18/TB");
    ffmpeg(
        &format!("-filter_complex {graph} -r 18 -c:v mjpeg -q:v 2 {name}"),
        into,
    );
}

fn film(dir: &Path, scans: &[(&str, &str)]) -> PathBuf {
    let film = dir.join("film");
    call_words("new DIR --title Attic --gauge super8 --speed 18", &film).ok();
    for (name, file) in scans {
        let line = format!("roll add DIR {name} {}", dir.join(file).display());
        call_words(&line, &film).ok();
    }
    film
}

/// The camera of the shot that holds a frame.
fn camera(found: &Value, frame: u64) -> Option<u64> {
    let shots = found["shots"].as_array().expect("shots");
    let holds = |shot: &&Value| {
        let at = |key: &str| shot[key].as_u64().expect("a frame");
        (at("in")..at("out")).contains(&frame)
    };
    shots.iter().find(holds)?["camera"].as_u64()
}

#[test]
fn a_cut_up_reel_is_parted_by_camera_and_its_order_told_by_a_hair() {
    let dir = tempfile::tempdir().expect("a folder");
    drawn(&SHOTS, BORDER, "reel.mkv", dir.path());
    let film = film(dir.path(), &[("R1", "reel.mkv")]);
    let found = call_words("family cameras DIR", &film).ok();
    // Frames in the middle of each shot as it lies on the reel.
    let cameras: Vec<Option<u64>> = [20, 60, 105, 155, 210].map(|f| camera(&found, f)).to_vec();
    assert_eq!(cameras[0], cameras[2], "{found}");
    assert_eq!(cameras[0], cameras[4], "{found}");
    assert_eq!(cameras[1], cameras[3], "{found}");
    assert_ne!(cameras[0], cameras[1], "{found}");

    let found = call_words("family order DIR", &film).ok();
    let first = &found["cameras"][0]["order"];
    assert_eq!(first["told"], true, "{first}");
    let frame = |strip: &Value| {
        let shot = strip[0].as_u64().expect("a shot") as usize;
        found["shots"][shot]["in"].as_u64().expect("a frame")
    };
    let order: Vec<u64> = first["strips"]
        .as_array()
        .expect("strips")
        .iter()
        .map(frame)
        .collect();
    let place = |near: u64| {
        order
            .iter()
            .position(|&at| at.abs_diff(near) < 8)
            .expect("there")
    };
    assert!(place(84) < place(184) && place(184) < place(0), "{order:?}");
}

#[test]
fn a_scan_without_a_border_says_so() {
    let dir = tempfile::tempdir().expect("a folder");
    std::fs::copy(roll(), dir.path().join("bare.mp4")).expect("copied");
    let film = film(dir.path(), &[("R1", "bare.mp4")]);
    let found = call_words("family cameras DIR", &film);
    // Parts of the roll show an old film with a gate of its own: those may be told.
    let shots = found.document["shots"].as_array().expect("shots").clone();
    let unseen = shots.iter().filter(|shot| shot["camera"].is_null());
    assert!(unseen.clone().count() > 0, "{}", found.words);
    for shot in unseen {
        assert_ne!(shot["unseen"], "", "{shot}");
        assert_eq!(shot["probability"], 0.0, "{shot}");
    }
}

#[test]
fn a_soft_cropped_print_is_not_taken_for_the_original() {
    let dir = tempfile::tempdir().expect("a folder");
    let shots = [(62, 100, 0, 0), (262, 320, 0, 0), (334, 380, 0, 0)];
    drawn(&shots, BORDER, "one.mkv", dir.path());
    let print = format!(
        "gblur=1.4,drawbox=0:0:8:ih:black:fill,drawbox=iw-9:0:9:ih:black:fill,drawbox=0:0:iw:7:black:fill,drawbox=0:ih-8:iw:8:black:fill,{BORDER}"
    );
    drawn(&shots, &print, "two.mkv", dir.path());
    let film = film(dir.path(), &[("R1", "one.mkv"), ("R2", "two.mkv")]);
    let found = call_words("family copies DIR R1 R2", &film);
    let best = &found.document["kinships"][0];
    assert_eq!(best["kinship"], "first_is_nearer", "{}", found.words);
    let turned = call_words("family copies DIR R2 R1", &film);
    let best = &turned.document["kinships"][0];
    assert_eq!(best["kinship"], "second_is_nearer", "{}", turned.words);
    let refused = call_words("family copies DIR R1 R9", &film).refused();
    assert_eq!(refused["code"], "production.unfit");
}
