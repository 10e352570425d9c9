//! Files as people have them: times that wander or are missing, pictures turned,
//! clear in places, deep, odd, silent; and files that grow while they are read.

use std::fs::OpenOptions;
use std::io::Write;
use std::ops::ControlFlow;
use std::path::Path;

use onestrand_intake::{Cancel, FileFrame, Making, Plane, ReadOptions, read};

use crate::media::{bare_count, ffmpeg, folder, make, open, opened, pattern, read_all};
use crate::reading::jpeg_size;

fn planes(path: &Path) -> Vec<FileFrame> {
    let options = ReadOptions::default();
    read_all(&opened(path), &options).expect("it is read").0
}

/// The times of the second have holes and bursts, as of a telephone.
#[test]
fn a_variable_rate_gives_every_frame_once() {
    let dir = folder();
    let wandering = "setpts='(N+if(mod(N,7),0,0.6)+if(gt(N,20),9,0))/18/TB'";
    for (name, coding) in [("a.mkv", "ffv1"), ("b.mp4", "libx264")] {
        let file = make(
            &format!(
                "{} -vf {wandering} -fps_mode vfr -enc_time_base 1:1000 -c:v {coding}",
                pattern("160x120", "18", 40)
            ),
            &dir.path().join(name),
        );
        let frames = planes(&file);
        assert_eq!(frames.len() as u64, bare_count(&file), "{name}");
        assert_eq!(frames.len(), 40, "{name}");
        let times: Vec<i64> = frames.iter().filter_map(|frame| frame.pts).collect();
        assert!(times.is_sorted_by(|a, b| a < b), "{name}: {times:?}");
    }
}

/// A bare stream has pictures and nothing else.
#[test]
fn frames_without_times_are_counted() {
    let dir = folder();
    let film = make(
        &format!(
            "{} -c:v mpeg2video -g 12 -q:v 3",
            pattern("160x120", "25", 30)
        ),
        &dir.path().join("a.mpg"),
    );
    let bare = make(
        &format!("-i {} -c copy -f avi", film.display()),
        &dir.path().join("b.avi"),
    );
    let frames = planes(&bare);
    assert_eq!(frames.len() as u64, bare_count(&bare));
    assert!(frames.len() >= 30);
}

#[test]
fn a_file_that_asks_to_be_turned_is_shown_upright() {
    let dir = folder();
    let lying = make(
        &format!("{} -c:v libx264 -crf 10", pattern("320x240", "18", 6)),
        &dir.path().join("lying.mp4"),
    );
    let turned = dir.path().join("turned.mp4");
    let mut bytes = std::fs::read(&lying).unwrap();
    let track = bytes.windows(4).position(|four| four == b"tkhd").unwrap();
    // ISO/IEC 14496-12, 8.3.2: behind the box's name, version and flags, two times,
    // number, a reserve, length (four bytes each), and sixteen bytes more.
    let matrix = track + 4 + 4 + 5 * 4 + 16;
    let quarter: [i32; 9] = [0, 1 << 16, 0, -(1 << 16), 0, 0, 240 << 16, 0, 1 << 30];
    for (at, value) in quarter.into_iter().enumerate() {
        bytes[matrix + 4 * at..][..4].copy_from_slice(&value.to_be_bytes());
    }
    std::fs::write(&turned, bytes).unwrap();
    let plain = planes(&lying);
    let source = opened(&turned);
    assert_eq!(source.facts().rotation.rem_euclid(180), 90);
    assert_eq!((source.facts().width, source.facts().height), (240, 320));
    let upright = planes(&turned);
    assert_eq!(upright.len(), plain.len());
    assert_eq!(jpeg_size(&upright[0].jpeg), (240, 320));
    assert_eq!(jpeg_size(&plain[0].jpeg), (320, 240));
}

/// What is clear is shown by the colour under it; levels stay those of the film.
#[test]
fn clear_parts_deep_levels_and_odd_sizes_are_read() {
    let dir = folder();
    let grey = |layout: &str, coding: &str, name: &str, size: &str| {
        let source = format!("-f lavfi -i color=c=0x808080:s={size}:r=18 -frames:v 3");
        let words = format!("{source} -vf format={layout} -c:v {coding}");
        let file = make(&words, &dir.path().join(name));
        let frames = planes(&file);
        assert_eq!(frames.len(), 3, "{name}");
        let level = frames[1].plane.bytes()[Plane::BYTES / 2];
        assert!(level.abs_diff(128) <= 3, "{name}: {level}");
    };
    grey(
        "yuva444p10le",
        "prores_ks -profile:v 4444",
        "alpha.mov",
        "160x120",
    );
    grey("argb", "qtrle", "argb.mov", "160x120");
    grey("yuv422p10le", "ffv1", "ten.mkv", "160x120");
    grey("rgb48le", "ffv1", "sixteen.mkv", "160x120");
    grey("gray16le", "ffv1", "grey.mkv", "160x120");
    grey("yuv444p", "ffv1", "odd.mkv", "161x119");
    grey("yuv420p", "ffv1", "odder.mkv", "163x121");
}

#[test]
fn a_file_of_sound_alone_is_told_politely() {
    let dir = folder();
    for name in ["a.wav", "a.m4a", "a.mka"] {
        let file = make("-f lavfi -i sine=d=1 -ac 1", &dir.path().join(name));
        let error = open(&file).expect_err("no film");
        let code = error.code();
        assert!(
            ["intake.no_picture_track", "intake.unknown_kind"].contains(&code),
            "{name}: {code}"
        );
        assert!(!error.hint().is_empty());
    }
}

/// Still being copied: what is there is not the film.
#[test]
fn a_file_that_changes_while_it_is_read_is_refused() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v mjpeg -q:v 5", pattern("320x240", "18", 120)),
        &dir.path().join("a.avi"),
    );
    let source = opened(&file);
    let options = ReadOptions {
        making: Making::PlanesOnly,
        ..ReadOptions::default()
    };
    let mut sink = |frame: FileFrame| {
        if frame.index == 5 {
            let mut growing = OpenOptions::new().append(true).open(&file).unwrap();
            growing.write_all(&[0; 4096]).unwrap();
        }
        ControlFlow::Continue(())
    };
    let error = read(&ffmpeg(), &source, &options, &Cancel::new(), &mut sink).unwrap_err();
    assert_eq!(error.code(), "intake.changed");
    assert!(error.hint().contains("read it again"));
    assert!(source.see_unchanged().is_err());
    assert!(opened(&file).see_unchanged().is_ok());
}

/// One picture of a run taken away, or written anew.
#[test]
fn a_run_of_pictures_that_changes_is_refused_too() {
    let dir = folder();
    make(&pattern("64x48", "18", 5), &dir.path().join("p%03d.png"));
    let source = opened(dir.path());
    assert!(source.see_unchanged().is_ok());
    std::fs::write(dir.path().join("p003.png"), b"another").unwrap();
    assert_eq!(source.see_unchanged().unwrap_err().code(), "intake.changed");
    std::fs::remove_file(dir.path().join("p003.png")).unwrap();
    assert_eq!(
        source.see_unchanged().unwrap_err().code(),
        "intake.not_found"
    );
}
