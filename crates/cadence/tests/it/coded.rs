//! Files made by FFmpeg of drawn frames, and their planes as the program reads them.

use std::io::Write;
use std::ops::ControlFlow;
use std::path::Path;
use std::process::{Command, Stdio};

use onestrand_intake::{Cancel, Ffmpeg, Making, ReadOptions, Source, read};
use onestrand_telecine::levels;

/// Codings of which the tests make use.
pub(crate) const H264_18: &str = "-c:v libx264 -preset fast -crf 18 -pix_fmt yuv420p";
pub(crate) const H264_28: &str = "-c:v libx264 -preset medium -crf 28 -pix_fmt yuv420p";
/// A frame that stands by itself once in 25: a rhythm as of 24 film frames in 25.
pub(crate) const ONCE_IN_25: &str = "-c:v libx264 -preset veryfast -crf 30 -g 25 -pix_fmt yuv420p";
/// As the scans of the example are coded.
pub(crate) const EXAMPLE: &str = "-c:v libx264 -preset superfast -crf 23 -g 48 -pix_fmt yuv420p";
pub(crate) const PRORES: &str = "-c:v prores_ks -profile:v 2 -pix_fmt yuv422p10le";
pub(crate) const MJPEG: &str = "-c:v mjpeg -q:v 4 -pix_fmt yuvj420p";

/// Writes grey frames of a size into a file at a rate, coded as `coding` says.
pub(crate) fn write(
    path: &Path,
    frames: impl Iterator<Item = Vec<f32>>,
    size: (usize, usize),
    rate: (u32, u32),
    coding: &str,
) {
    let frames = frames.map(|frame| levels(&frame));
    write_raw(path, frames, ("gray", size), rate, coding);
}

/// The same of frames in colour, three bytes a pixel.
pub(crate) fn write_rgb(
    path: &Path,
    frames: impl Iterator<Item = Vec<u8>>,
    size: (usize, usize),
    rate: (u32, u32),
    coding: &str,
) {
    write_raw(path, frames, ("rgb24", size), rate, coding);
}

fn write_raw(
    path: &Path,
    frames: impl Iterator<Item = Vec<u8>>,
    (layout, size): (&str, (usize, usize)),
    rate: (u32, u32),
    coding: &str,
) {
    let mut child = Command::new("ffmpeg")
        .args(["-v", "error", "-y", "-f", "rawvideo", "-pix_fmt", layout])
        .args([
            "-color_range",
            "pc",
            "-s",
            &format!("{}x{}", size.0, size.1),
        ])
        .args(["-r", &format!("{}/{}", rate.0, rate.1), "-i", "pipe:0"])
        .args(["-threads", "1"])
        .args(coding.split_whitespace())
        .arg(path)
        .stdin(Stdio::piped())
        .spawn()
        .expect("FFmpeg is here");
    let mut feed = child.stdin.take().expect("a pipe was asked for");
    for frame in frames {
        feed.write_all(&frame).expect("FFmpeg takes frames");
    }
    drop(feed);
    assert!(child.wait().expect("FFmpeg ends").success(), "{coding}");
}

/// The measuring planes of a file, as a reading makes them.
pub(crate) fn planes(path: &Path) -> Vec<Vec<u8>> {
    let ffmpeg = Ffmpeg::locate().expect("FFmpeg is here");
    let (source, _) = Source::open(&ffmpeg, &[path.to_owned()]).expect("a film");
    let options = ReadOptions {
        making: Making::PlanesOnly,
        decode_threads: 1,
        ..ReadOptions::default()
    };
    let mut planes = Vec::new();
    let mut sink = |frame: onestrand_intake::FileFrame| {
        planes.push(frame.plane.into_bytes());
        ControlFlow::Continue(())
    };
    read(&ffmpeg, &source, &options, &Cancel::new(), &mut sink).expect("it can be read");
    planes
}

/// All frames of a file in grey at full size.
pub(crate) fn grey(path: &Path) -> Vec<u8> {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-i"])
        .arg(path)
        .args([
            "-vsync", "0", "-pix_fmt", "gray", "-f", "rawvideo", "pipe:1",
        ])
        .output()
        .expect("FFmpeg is here");
    assert!(out.status.success());
    out.stdout
}
