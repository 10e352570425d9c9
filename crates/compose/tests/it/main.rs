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

/// Of noise nobody can say what is film: the best file frame is kept. Of a film whose
/// frames are known, the blend of two is undone, in ten bits and no more.
#[test]
fn ten_bits_are_unmixed_and_stay_ten_bits() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("blends.mkv");
    let layout = PixelLayout::nearest("yuv422p10le");
    let film = |number: u64, at: u64| -> u16 {
        // Stranger from frame to frame, and often near the end of the ten bits.
        let mixed = (number * 7919 + at * 104_729).wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 40;
        u16::try_from(mixed % 1900).expect("small").min(1023)
    };
    let shares = [(0, 1.0), (0, 0.25), (1, 0.6), (2, 1.0), (3, 1.0), (3, 0.5)];
    let samples_of = usize::try_from(layout.frame_bytes(SIZE.0, SIZE.1) / 2).expect("small") as u64;
    let mut raw = Vec::new();
    for (number, share) in shares {
        for at in 0..samples_of {
            let (a, b) = (film(number, at), film(number + 1, at));
            let level = share * f64::from(a) + (1.0 - share) * f64::from(b);
            raw.extend((level.round() as u16).to_le_bytes());
        }
    }
    let source = dir.path().join("raw");
    std::fs::write(&source, &raw).expect("it is written");
    let size = format!("{}x{}", SIZE.0, SIZE.1);
    let names = [&source, &path].map(|path| path.to_str().expect("plain"));
    ffmpeg(&[
        "-f",
        "rawvideo",
        "-pix_fmt",
        "yuv422p10le",
        "-s",
        &size,
        "-r",
        "18",
        "-i",
        names[0],
        "-c:v",
        "ffv1",
        names[1],
    ]);
    let text = "mixed 1 1 0:1 1:0.25,0.75 2:0,0.6,0.4 3:0,0,1 4:0,0,0,1 5:0,0,0,0.5,0.5";
    let wanted = [MadeOf::parse(text).expect("a recipe"), MadeOf::One(3)];
    let made = fetched(&path, &wanted, FilmForm::Raw(layout));
    let levels = samples(&made[0]);
    assert!(levels.iter().all(|level| *level <= 1023));
    let off = |levels: &[u16]| {
        let apart = levels
            .iter()
            .zip(0_u64..)
            .map(|(level, at)| (f64::from(*level) - f64::from(film(1, at))).powi(2));
        (apart.sum::<f64>() / levels.len() as f64).sqrt()
    };
    let best = samples(&raw[raw.len() / 6..raw.len() / 3]);
    assert!(
        off(&levels) * 10.0 < off(&best),
        "{} of {}",
        off(&levels),
        off(&best)
    );
    assert_eq!(
        samples(&made[1]),
        samples(&raw[raw.len() / 2..raw.len() / 6 * 4])
    );
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
