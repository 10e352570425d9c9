//! Film frames at full size, beside what a plain decode gives.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::Command;

use onestrand_compose::{FilmForm, MadeOf, Scan, fetch_film};
use onestrand_intake::{
    Cancel, Ffmpeg, FileFrame, FrameIndex, IndexRow, PixelLayout, ReadOptions, Source, read,
};

const SIZE: (u32, u32) = (64, 48);
const FRAMES: usize = 9;

fn ffmpeg(arguments: &[&str]) -> Vec<u8> {
    let out = Command::new("ffmpeg")
        .args(["-v", "error", "-nostdin", "-y"])
        .args(arguments)
        .output()
        .expect("FFmpeg starts");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    out.stdout
}

/// Noise in all colours, so that every line of every plane is its own.
fn film(path: &Path, layout: &str) -> Vec<Vec<u8>> {
    let noise = format!(
        "nullsrc=s={}x{}:d=1:r={FRAMES},geq=random(1)*255:128+90*sin(X+N):128+90*cos(Y*N)",
        SIZE.0, SIZE.1
    );
    let name = path.to_str().expect("plain");
    ffmpeg(&[
        "-f", "lavfi", "-i", &noise, "-pix_fmt", layout, "-c:v", "ffv1", name,
    ]);
    let raw = ffmpeg(&["-i", name, "-f", "rawvideo", "-pix_fmt", layout, "pipe:1"]);
    let layout = PixelLayout::nearest(layout);
    let bytes = usize::try_from(layout.frame_bytes(SIZE.0, SIZE.1)).expect("small");
    raw.chunks_exact(bytes).map(<[u8]>::to_vec).collect()
}

fn fetched(path: &Path, wanted: &[MadeOf], form: FilmForm) -> Vec<Vec<u8>> {
    let ffmpeg = Ffmpeg::locate().expect("FFmpeg is here");
    let (source, _) = Source::open(&ffmpeg, &[path.to_owned()]).expect("it opens");
    let mut rows: Vec<IndexRow> = Vec::new();
    let mut keep = |frame: FileFrame| {
        rows.push((&frame).into());
        ControlFlow::Continue(())
    };
    let end = read(
        &ffmpeg,
        &source,
        &ReadOptions::default(),
        &Cancel::new(),
        &mut keep,
    );
    let index = FrameIndex::new(rows, end.expect("it is read").time_base);
    let scan = Scan {
        source: &source,
        index: &index,
    };
    let mut all = Vec::new();
    let mut sink = |picture: onestrand_compose::FilmPicture| {
        assert_eq!(picture.place, all.len());
        all.push(picture.bytes);
        ControlFlow::Continue(())
    };
    fetch_film(&ffmpeg, scan, wanted, form, &Cancel::new(), &mut sink).expect("they are there");
    all
}

fn samples(bytes: &[u8]) -> Vec<u16> {
    bytes
        .chunks_exact(2)
        .map(|b| u16::from_le_bytes([b[0], b[1]]))
        .collect()
}

#[test]
fn lines_of_every_plane_are_woven_and_others_are_handed_on() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("noise.mkv");
    let decoded = film(&path, "yuv420p");
    assert_eq!(decoded.len(), FRAMES);
    let layout = PixelLayout::nearest("yuv420p");
    let wanted = [
        MadeOf::One(0),
        MadeOf::Woven { top: 2, bottom: 1 },
        MadeOf::Woven { top: 2, bottom: 3 },
        MadeOf::One(3),
        MadeOf::One(8),
    ];
    let made = fetched(&path, &wanted, FilmForm::Raw(layout));
    assert_eq!(made.len(), wanted.len());
    for (place, frame) in [(0, 0), (3, 3), (4, 8)] {
        assert!(made[place] == decoded[frame], "film frame {place}");
    }
    for (place, top, bottom) in [(1, 2, 1), (2, 2, 3)] {
        let mut begin = 0;
        for (line, lines) in layout.planes(SIZE.0, SIZE.1) {
            for at in 0..lines {
                let here = begin + at * line..begin + (at + 1) * line;
                let from: &Vec<u8> = &decoded[if at % 2 == 0 { top } else { bottom }];
                assert!(
                    made[place][here.clone()] == from[here],
                    "line {at} of a plane"
                );
            }
            begin += line * lines;
        }
    }
}

#[test]
fn ten_bits_are_unmixed_and_stay_ten_bits() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("noise.mkv");
    let decoded = film(&path, "yuv422p10le");
    let layout = PixelLayout::nearest("yuv422p10le");
    let wanted = [MadeOf::Mixed(vec![(4, 1.75), (5, -0.75)]), MadeOf::One(5)];
    let made = fetched(&path, &wanted, FilmForm::Raw(layout));
    let (a, b, mixed) = (
        samples(&decoded[4]),
        samples(&decoded[5]),
        samples(&made[0]),
    );
    let mut at_the_ends = 0;
    for ((a, b), mixed) in a.iter().zip(&b).zip(&mixed) {
        let exact = 1.75 * f64::from(*a) - 0.75 * f64::from(*b);
        let within = exact.clamp(0.0, 1023.0);
        at_the_ends += usize::from(exact > within);
        assert!(
            (f64::from(*mixed) - within).abs() <= 0.51,
            "{a} {b} {mixed}"
        );
    }
    assert!(at_the_ends > 20, "some levels would have left the ten bits");
    assert!(made[1] == decoded[5]);
}

#[test]
fn a_png_of_woven_lines_is_a_picture_of_sixteen_bits() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("noise.mkv");
    film(&path, "yuv444p10le");
    let wanted = [
        MadeOf::Woven { top: 1, bottom: 2 },
        MadeOf::One(1),
        MadeOf::One(2),
    ];
    let made = fetched(&path, &wanted[..1], FilmForm::Png);
    let apart = [1, 2].map(|place: usize| {
        let picture = fetched(&path, &wanted[place..=place], FilmForm::Png);
        image::load_from_memory(&picture[0]).expect("a PNG")
    });
    let woven = image::load_from_memory(&made[0]).expect("a PNG");
    assert_eq!(woven.color(), image::ColorType::Rgb16);
    let [top, bottom] = apart.map(image::DynamicImage::into_rgb16);
    for (x, y, pixel) in woven.into_rgb16().enumerate_pixels() {
        let from = if y % 2 == 0 { &top } else { &bottom };
        let levels = from.get_pixel(x, y).0.into_iter().zip(pixel.0);
        for (plain, made) in levels {
            assert!(plain.abs_diff(made) <= 64, "{plain} {made}");
        }
    }
}
