//! Good files: every frame, once, in order.

use std::ops::ControlFlow;

use onestrand_intake::{
    Cancel, Container, IntakeError, Making, Plane, ReadOptions, SourceKind, read,
};

use crate::media::{bare_count, ffmpeg, folder, make, opened, pattern, read_all};

#[test]
fn a_film_file_gives_every_frame_with_picture_and_plane() {
    let dir = folder();
    let file = make(
        &format!(
            "{} -pix_fmt yuv420p -c:v libx264 -g 12 -bf 2 -x264-params scenecut=0",
            pattern("320x240", "18", 50)
        ),
        &dir.path().join("a.mp4"),
    );
    let source = opened(&file);
    let (frames, end) = read_all(&source, &ReadOptions::default()).unwrap();
    assert_eq!(frames.len() as u64, end.frames);
    assert_eq!(end.frames, bare_count(&file));
    assert_eq!(end.frames, 50);
    assert_eq!(end.warnings, []);
    assert!(!end.is_stopped);
    for (n, frame) in frames.iter().enumerate() {
        assert_eq!(frame.index, n as u64);
        assert_eq!(frame.key, n % 12 == 0, "frame {n}");
        assert!(frame.jpeg.starts_with(b"\xff\xd8") && frame.jpeg.ends_with(b"\xff\xd9"));
        assert_eq!(frame.plane.bytes().len(), Plane::BYTES);
        assert_eq!(frame.size, (320, 240));
    }
    let pts: Vec<i64> = frames.iter().map(|f| f.pts.unwrap()).collect();
    assert!(pts.is_sorted_by(|a, b| a < b), "{pts:?}");
    let hashes: std::collections::BTreeSet<_> = frames.iter().map(|f| f.plane.hash()).collect();
    assert_eq!(hashes.len(), 50, "no two frames of the pattern are alike");
}

#[test]
fn planes_are_the_same_every_time() {
    let dir = folder();
    let file = make(
        &format!(
            "{} -c:v libx264 -preset veryfast -bf 2",
            pattern("320x240", "18", 40)
        ),
        &dir.path().join("a.mp4"),
    );
    let source = opened(&file);
    let planes = |decode_threads, making| {
        let options = ReadOptions {
            decode_threads,
            making,
            queue: 1,
            ..ReadOptions::default()
        };
        let (frames, _) = read_all(&source, &options).unwrap();
        frames.into_iter().map(|f| f.plane).collect::<Vec<_>>()
    };
    let first = planes(1, Making::PicturesAndPlanes);
    assert_eq!(first.len(), 40);
    assert_eq!(planes(4, Making::PicturesAndPlanes), first);
    assert_eq!(planes(2, Making::PlanesOnly), first);
}

/// Width and height out of the start-of-frame segment of a JPEG file.
pub(crate) fn jpeg_size(jpeg: &[u8]) -> (u32, u32) {
    let at = jpeg.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    let two = |n: usize| u32::from(u16::from_be_bytes([jpeg[at + n], jpeg[at + n + 1]]));
    (two(7), two(5))
}

#[test]
fn every_depth_and_layout_gives_true_levels() {
    let dir = folder();
    // Left half black, right half white, as each coding means them.
    let halves = "-f lavfi -i color=black:s=128x96:r=18,drawbox=x=64:w=64:h=96:color=white:t=fill -frames:v 3";
    for (name, coding) in [
        ("limited.mkv", "-pix_fmt yuv420p -c:v ffv1"),
        ("full.avi", "-pix_fmt yuvj422p -c:v mjpeg -q:v 2"),
        ("ten.mov", "-pix_fmt yuv422p10le -c:v prores_ks"),
        ("twelve.mkv", "-pix_fmt yuv444p12le -c:v ffv1"),
        ("rgb.mkv", "-pix_fmt bgr0 -c:v ffv1"),
        ("gray.mkv", "-pix_fmt gray16le -c:v ffv1"),
        ("alpha.mkv", "-pix_fmt yuva444p10le -c:v ffv1"),
        (
            "tagged.mp4",
            "-pix_fmt yuv420p -colorspace bt709 -color_range tv -c:v libx264 -qp 0",
        ),
        ("deep.mkv", "-pix_fmt rgb48le -c:v ffv1"),
        ("pal.avi", "-pix_fmt rgb24 -c:v rawvideo"),
    ] {
        let source = opened(&make(&format!("{halves} {coding}"), &dir.path().join(name)));
        let (frames, end) = read_all(&source, &ReadOptions::default()).unwrap();
        assert_eq!((frames.len(), end.warnings.len()), (3, 0), "{name}");
        let plane = frames[1].plane.bytes();
        for row in plane.chunks(Plane::WIDTH) {
            assert!(
                row[..90].iter().all(|v| *v <= 2),
                "{name}: black is {:?}",
                row[45]
            );
            assert!(
                row[102..].iter().all(|v| *v >= 253),
                "{name}: white is {:?}",
                row[150]
            );
        }
        assert_eq!(jpeg_size(&frames[0].jpeg), (128, 96), "{name}");
    }
}

#[test]
fn pictures_are_shown_in_their_true_shape() {
    let dir = folder();
    let wide = format!("{} -vf setsar=4/3 -c:v ffv1", pattern("1440x1080", "25", 1));
    let wide = opened(&make(&wide, &dir.path().join("wide.mkv")));
    let (frames, _) = read_all(&wide, &ReadOptions::default()).unwrap();
    assert_eq!(jpeg_size(&frames[0].jpeg), (960, 540));
    assert_eq!(frames[0].size, (1440, 1080));

    let plain = make(
        &format!("{} -c:v libx264", pattern("160x90", "25", 2)),
        &dir.path().join("plain.mp4"),
    );
    let turned = dir.path().join("turned.mp4");
    make(
        &format!("-i {} -c copy -metadata:s:v rotate=90", plain.display()),
        &turned,
    );
    let source = opened(&turned);
    assert_eq!((source.facts().width, source.facts().height), (90, 160));
    let (frames, _) = read_all(&source, &ReadOptions::default()).unwrap();
    assert_eq!(
        (jpeg_size(&frames[0].jpeg), frames[0].size),
        ((90, 160), (90, 160))
    );
}

#[test]
fn all_kinds_of_film_file_are_read() {
    let dir = folder();
    for (name, coding, kind) in [
        ("a.mpg", "-c:v mpeg2video", Container::MpegPs),
        ("a.ts", "-c:v mpeg2video", Container::MpegTs),
        (
            "a.m2v",
            "-c:v mpeg2video -f mpeg2video",
            Container::MpegVideo,
        ),
        ("a.mxf", "-c:v mpeg2video", Container::Mxf),
        ("a.ogv", "-c:v libtheora", Container::Ogg),
        ("a.wmv", "-c:v wmv2", Container::Asf),
        (
            "a.dv",
            "-s 720x576 -pix_fmt yuv420p -c:v dvvideo",
            Container::Dv,
        ),
        ("a.mjpeg", "-c:v mjpeg -f mjpeg", Container::MotionJpeg),
        ("a.y4m", "-pix_fmt yuv420p", Container::Y4m),
        (
            "a.webm",
            "-c:v libvpx -deadline realtime",
            Container::Matroska,
        ),
    ] {
        let file = make(
            &format!("{} {coding}", pattern("160x120", "25", 10)),
            &dir.path().join(name),
        );
        // The name must not matter.
        let renamed = file.with_extension(if name.ends_with("mjpeg") {
            "mjpg"
        } else {
            "data"
        });
        std::fs::rename(&file, &renamed).unwrap();
        let source = opened(&renamed);
        assert_eq!(source.kind(), &SourceKind::Film(kind), "{name}");
        let (_, end) = read_all(&source, &ReadOptions::default()).unwrap();
        assert_eq!(end.frames, bare_count(&renamed), "{name}");
        assert!(!source.describe().is_empty());
    }
}

#[test]
fn a_slow_sink_makes_ffmpeg_wait_and_loses_nothing() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v mjpeg -q:v 5", pattern("320x240", "18", 120)),
        &dir.path().join("a.avi"),
    );
    let source = opened(&file);
    // Each frame is handed over hand to hand: the sink blocks until the other
    // side, which hashes it many times over, takes the next.
    let (give, take) = std::sync::mpsc::sync_channel(0);
    let slow = std::thread::spawn(move || {
        let mut seen = Vec::new();
        while let Ok((index, plane)) = take.recv() {
            let plane: onestrand_intake::Plane = plane;
            let hashes: Vec<_> = (0..20).map(|_| plane.hash()).collect();
            assert!(hashes.windows(2).all(|w| w[0] == w[1]));
            seen.push(index);
        }
        seen
    });
    let options = ReadOptions {
        queue: 1,
        ..ReadOptions::default()
    };
    let end = read(&ffmpeg(), &source, &options, &Cancel::new(), &mut |frame| {
        give.send((frame.index, frame.plane)).unwrap();
        ControlFlow::Continue(())
    })
    .unwrap();
    drop(give);
    assert_eq!(end.frames, 120);
    assert_eq!(slow.join().unwrap(), (0..120).collect::<Vec<u64>>());
}

#[test]
fn the_lever_and_the_sink_stop_a_reading() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v mjpeg -q:v 5", pattern("320x240", "18", 120)),
        &dir.path().join("a.avi"),
    );
    let source = opened(&file);
    let lever = Cancel::new();
    let error = read(
        &ffmpeg(),
        &source,
        &ReadOptions::default(),
        &lever,
        &mut |frame| {
            if frame.index == 9 {
                lever.cancel();
            }
            ControlFlow::Continue(())
        },
    )
    .unwrap_err();
    assert!(
        matches!(error, IntakeError::Cancelled { frames: 10 }),
        "{error:?}"
    );
    let end = read(
        &ffmpeg(),
        &source,
        &ReadOptions::default(),
        &Cancel::new(),
        &mut |frame| {
            if frame.index == 9 {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        },
    )
    .unwrap();
    assert_eq!((end.frames, end.is_stopped), (10, true));
}

#[test]
fn a_fingerprint_knows_the_scan_again() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 3)),
        &dir.path().join("a.mkv"),
    );
    let source = opened(&file);
    let mut told = 0;
    let print = source
        .fingerprint(&mut |bytes| told = bytes, &Cancel::new())
        .unwrap();
    let bytes = std::fs::read(&file).unwrap();
    assert_eq!(print.hash, *blake3::hash(&bytes).as_bytes());
    assert_eq!(
        (print.size, told, source.size_in_bytes().unwrap()),
        (bytes.len() as u64, print.size, print.size)
    );
    assert_eq!(print.hex().len(), 64);

    let run = dir.path().join("run");
    std::fs::create_dir(&run).unwrap();
    make(&pattern("64x48", "18", 3), &run.join("%03d.png"));
    let before = opened(&run)
        .fingerprint(&mut |_| {}, &Cancel::new())
        .unwrap();
    let moved = dir.path().join("moved");
    std::fs::rename(&run, &moved).unwrap();
    let after = opened(&moved)
        .fingerprint(&mut |_| {}, &Cancel::new())
        .unwrap();
    assert_eq!((before.hash, before.size), (after.hash, after.size));
    std::fs::rename(moved.join("003.png"), moved.join("004.png")).unwrap();
    let other = opened(&moved)
        .fingerprint(&mut |_| {}, &Cancel::new())
        .unwrap();
    assert_ne!(other.hash, after.hash);
    let lever = Cancel::new();
    lever.cancel();
    assert_eq!(
        opened(&moved)
            .fingerprint(&mut |_| {}, &lever)
            .unwrap_err()
            .code(),
        "intake.cancelled"
    );
}

/// The middle pixel of a JPEG file as red, green and blue.
fn middle_colour(folder: &std::path::Path, jpeg: &[u8]) -> [u8; 3] {
    let (picture, raw) = (folder.join("one.jpg"), folder.join("one.rgb"));
    std::fs::write(&picture, jpeg).unwrap();
    make(
        &format!("-i {} -pix_fmt rgb24 -f rawvideo", picture.display()),
        &raw,
    );
    let bytes = std::fs::read(raw).unwrap();
    let at = bytes.len() / 2 / 3 * 3;
    [bytes[at], bytes[at + 1], bytes[at + 2]]
}

#[test]
fn colours_are_true_whatever_the_matrix() {
    let dir = folder();
    let red = "-f lavfi -i color=0xe03020:s=128x96:r=18,format=gbrp,scale=out_color_matrix";
    for (name, rest) in [
        (
            "sd.mp4",
            "=bt601:out_range=tv,format=yuv444p -c:v libx264 -qp 0 -colorspace smpte170m -color_range tv",
        ),
        (
            "hd.mp4",
            "=bt709:out_range=tv,format=yuv444p -c:v libx264 -qp 0 -colorspace bt709 -color_range tv",
        ),
        (
            "wide.mp4",
            "=bt2020:out_range=tv,format=yuv444p -c:v libx264 -qp 0 -colorspace bt2020nc -color_range tv",
        ),
        ("untagged.mkv", "=bt601,format=yuv444p -c:v ffv1"),
        ("rgb.png", "=auto,format=rgb24"),
        ("deep.dpx", "=auto,format=gbrp10be"),
    ] {
        let file = make(&format!("{red}{rest} -frames:v 1"), &dir.path().join(name));
        let source = opened(&file);
        let (frames, _) = read_all(&source, &ReadOptions::default()).unwrap();
        let got = middle_colour(dir.path(), &frames[0].jpeg);
        let off = got
            .iter()
            .zip([0xe0_u8, 0x30, 0x20])
            .map(|(a, b)| a.abs_diff(b))
            .max()
            .unwrap();
        assert!(
            off <= 8,
            "{name}: {got:?}, tagged {:?}",
            source.facts().matrix
        );
    }
}
