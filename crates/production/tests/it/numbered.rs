//! Pictures that know their number, coded as a workprint's are.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use onestrand_example::numbered_picture;
use onestrand_store::{NewFrame, WorkprintWriter, Workprints};

pub(crate) const WIDTH: u32 = 960;
pub(crate) const HEIGHT: u32 = 720;

/// The pictures of roll `roll`, from frame 0, through FFmpeg as `intake` has
/// them made.
pub(crate) fn jpegs(roll: u8, frames: u32) -> Vec<Vec<u8>> {
    let dir = tempfile::tempdir().expect("a folder");
    let mut ffmpeg = Command::new("ffmpeg")
        .args(["-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24"])
        .args(["-s", &format!("{WIDTH}x{HEIGHT}"), "-i", "-"])
        .args([
            "-pix_fmt", "yuvj420p", "-c:v", "mjpeg", "-huffman", "default",
        ])
        .args(["-q:v", "6", "-start_number", "0"])
        .arg(dir.path().join("%d.jpg"))
        .stdin(Stdio::piped())
        .spawn()
        .expect("ffmpeg starts");
    let mut pixels = vec![0; (WIDTH * HEIGHT * 3) as usize];
    let mut pipe = ffmpeg.stdin.take().expect("a pipe");
    for frame in 0..frames {
        numbered_picture(WIDTH, HEIGHT, roll, frame, &mut pixels).expect("a picture");
        pipe.write_all(&pixels).expect("written");
    }
    drop(pipe);
    assert!(ffmpeg.wait().expect("ended").success());
    let one = |frame| std::fs::read(dir.path().join(format!("{frame}.jpg"))).expect("a picture");
    (0..frames).map(one).collect()
}

/// A workprint of roll R1 with these pictures; the frames named have none.
pub(crate) fn workprint(dir: &Path, jpegs: &[Vec<u8>], without: &[usize]) -> Workprints {
    let mut writer = WorkprintWriter::begin(dir, "R1").expect("begun");
    for (frame, jpeg) in jpegs.iter().enumerate() {
        writer
            .push(&NewFrame {
                jpeg: (!without.contains(&frame)).then_some(jpeg.as_slice()),
                shown_by: Some((0, frame as u64)),
                made_of: None,
                level: 0.0,
                sharpness: 0.0,
                change: 0.0,
            })
            .expect("pushed");
    }
    writer.finish("hash", "").expect("finished");
    Workprints::open(dir).expect("open")
}
