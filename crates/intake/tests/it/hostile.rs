//! Files that are broken, disguised or oddly named: each a clear case with a
//! next step, nothing hung, nothing written.

use std::ffi::OsStr;
use std::os::unix::ffi::OsStrExt;
use std::path::Path;

use onestrand_intake::{IntakeError, ReadOptions, Source, Warning};

use crate::media::{bare_count, ffmpeg, folder, make, open, opened, pattern, read_all};

/// The error of opening or, if it opens, of reading; code and a usable hint.
fn refusal(path: &Path) -> IntakeError {
    let error = match open(path) {
        Err(error) => error,
        Ok((source, _)) => read_all(&source, &ReadOptions::default()).unwrap_err(),
    };
    assert!(error.hint().len() > 20, "{error:?}");
    assert!(!error.to_string().is_empty());
    error
}

#[test]
fn no_films_at_all() {
    let dir = folder();
    let write = |name: &str, bytes: &[u8]| {
        let path = dir.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let secret = write("secret.txt", b"not to be read");
    let m3u = format!("#EXTM3U\n#EXTINF:1,\n{}\n", secret.display());
    let concat = format!("ffconcat version 1.0\nfile '{}'\n", secret.display());
    for (name, bytes, code) in [
        ("empty.mov", &b""[..], "intake.empty_file"),
        ("words.mov", b"These are words.\n", "intake.unknown_kind"),
        ("list.m3u8", m3u.as_bytes(), "intake.playlist"),
        ("list.mov", m3u.as_bytes(), "intake.playlist"),
        ("list.mkv", concat.as_bytes(), "intake.playlist"),
        ("list.txt", concat.as_bytes(), "intake.playlist"),
        ("scan.cin", b"\x80\x2a\x5f\xd7 and more", "intake.cineon"),
        ("scan.dpx", b"\x80\x2a\x5f\xd7 and more", "intake.cineon"),
        (
            "noise.mkv",
            b"\x1a\x45\xdf\xa3 no matroska at all, only its mark",
            "intake.not_understood",
        ),
        (
            "noise.avi",
            b"RIFF\x40\0\0\0AVI LIST no avi at all, only its mark and this",
            "intake.not_understood",
        ),
        (
            "noise.mov",
            b"\0\0\0\x10ftypqt  \0\0\0\0\0\0\0\x08mdat",
            "intake.no_frame_table",
        ),
        ("noise.png", b"\x89PNG\r\n\x1a\n", "intake.no_frames"),
    ] {
        assert_eq!(refusal(&write(name, bytes)).code(), code, "{name}");
    }
    assert_eq!(
        refusal(&dir.path().join("not-there.mov")).code(),
        "intake.not_found"
    );
    assert_eq!(refusal(Path::new("/dev/null")).code(), "intake.not_a_file");
    assert_eq!(
        Source::open(&ffmpeg(), &[]).unwrap_err().code(),
        "intake.nothing_named"
    );
}

#[test]
fn files_without_a_picture_that_could_be_film() {
    let dir = folder();
    let sound = make(
        "-f lavfi -i sine=d=0.3 -c:a aac",
        &dir.path().join("sound.mp4"),
    );
    assert_eq!(refusal(&sound).code(), "intake.no_picture_track");
    let wav = make("-f lavfi -i sine=d=0.1", &dir.path().join("sound.wav"));
    assert_eq!(refusal(&wav).code(), "intake.unknown_kind");
    let dot = make(
        "-f lavfi -i color=red:s=16x16:d=0.2,format=yuv444p,crop=1:1 -pix_fmt yuv444p -c:v ffv1",
        &dir.path().join("dot.mkv"),
    );
    assert_eq!(refusal(&dot).code(), "intake.too_small");
    let dot = make(
        "-f lavfi -i color=red:s=16x16,format=rgb24,crop=1:1 -frames:v 1",
        &dir.path().join("dot.png"),
    );
    assert_eq!(refusal(&dot).code(), "intake.too_small");
    let huge = dir.path().join("huge.png");
    std::fs::write(
        &huge,
        b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\x01\0\0\0\x01\0\0\x08\0\0\0\0",
    )
    .unwrap();
    assert_eq!(refusal(&huge).code(), "intake.too_large");
}

#[test]
fn a_cover_picture_is_no_film() {
    let dir = folder();
    let cover = make(
        "-f lavfi -i testsrc2=s=200x200 -frames:v 1",
        &dir.path().join("cover.png"),
    );
    let song = format!(
        "-f lavfi -i sine=d=0.3 -i {} -map 0 -map 1 -c:v copy -disposition:v attached_pic",
        cover.display()
    );
    let song = make(&song, &dir.path().join("song.mp4"));
    assert_eq!(refusal(&song).code(), "intake.no_picture_track");
}

#[test]
fn names_that_could_mean_something_else() {
    let dir = folder();
    let plain = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 3)),
        &dir.path().join("plain.mkv"),
    );
    let picture = make(
        "-f lavfi -i testsrc2=s=64x48 -frames:v 1",
        &dir.path().join("plain.png"),
    );
    let names: [&[u8]; 8] = [
        b"-i",
        b"%03d",
        b"a:b",
        b"concat:plain",
        b"line\nbreak",
        b"it's \"quoted\" [0:v],;",
        b"\xff\xfe not utf-8",
        b"pipe:0|plain.mkv",
    ];
    for name in names {
        for (model, extension, frames) in [(&plain, "mkv", 3), (&picture, "png", 1)] {
            let mut own = name.to_vec();
            own.extend_from_slice(format!(".{extension}").as_bytes());
            let path = dir.path().join(OsStr::from_bytes(&own));
            std::fs::copy(model, &path).unwrap();
            let (read, end) = read_all(&opened(&path), &ReadOptions::default()).unwrap();
            assert_eq!(
                (read.len(), end.warnings.len()),
                (frames, 0),
                "{}",
                path.display()
            );
            std::fs::remove_file(path).unwrap();
        }
    }
}

#[test]
fn a_relative_name_with_a_dash_is_a_file() {
    // The crate makes names absolute, so this must be looked for and not
    // taken for an option of FFmpeg.
    let error = open(Path::new("-version")).unwrap_err();
    assert_eq!(error.code(), "intake.not_found");
}

/// The first part of a file, as a broken-off copy leaves it.
fn cut_short(path: &Path, name: &str, parts: (u64, u64)) -> std::path::PathBuf {
    let bytes = std::fs::read(path).unwrap();
    let keep = usize::try_from(bytes.len() as u64 * parts.0 / parts.1).unwrap();
    let out = path.with_file_name(name);
    std::fs::write(&out, &bytes[..keep]).unwrap();
    out
}

#[test]
fn truncated_files_give_all_frames_up_to_the_damage() {
    let dir = folder();
    for (name, coding) in [
        ("a.mp4", "-c:v libx264 -g 10 -bf 0 -movflags +faststart"),
        ("a.mov", "-c:v prores_ks -movflags +faststart"),
        ("a.mkv", "-c:v ffv1 -g 1"),
        ("a.avi", "-c:v mjpeg -q:v 3"),
    ] {
        let whole = make(
            &format!("{} {coding}", pattern("160x120", "18", 60)),
            &dir.path().join(name),
        );
        let (full, _) = read_all(&opened(&whole), &ReadOptions::default()).unwrap();
        let broken = cut_short(&whole, &format!("broken-{name}"), (3, 5));
        let (frames, end) = read_all(&opened(&broken), &ReadOptions::default()).unwrap();
        // The last picture may be there in part; FFmpeg alone would show it,
        // grey below, which is no film frame.
        let bare = bare_count(&broken);
        assert!(
            end.frames == bare || end.frames + 1 == bare,
            "{name}: {} of {bare}",
            end.frames
        );
        assert!((25..45).contains(&end.frames), "{name}: {}", end.frames);
        for (a, b) in frames.iter().zip(&full) {
            assert_eq!(a.plane, b.plane, "{name} frame {}", a.index);
        }
        let told = end.warnings.iter().find_map(|w| match w {
            Warning::Truncated {
                frames_read,
                frames_promised,
            } => Some((*frames_read, *frames_promised)),
            _ => None,
        });
        assert_eq!(
            told,
            Some((end.frames, Some(60))),
            "{name}: {:?}",
            end.warnings
        );
        assert!(
            end.warnings
                .iter()
                .all(|w| w.hint().len() > 20 && !w.to_string().is_empty())
        );
    }
}

#[test]
fn a_recording_that_was_never_closed() {
    let dir = folder();
    let whole = make(
        &format!("{} -c:v libx264", pattern("160x120", "18", 30)),
        &dir.path().join("a.mp4"),
    );
    assert_eq!(
        refusal(&cut_short(&whole, "b.mp4", (3, 5))).code(),
        "intake.no_frame_table"
    );
}

#[test]
fn a_broken_stream_of_packets_still_gives_frames() {
    let dir = folder();
    let whole = make(
        &format!("{} -c:v mpeg2video -g 5", pattern("160x120", "25", 40)),
        &dir.path().join("a.ts"),
    );
    let broken = cut_short(&whole, "b.ts", (3, 5));
    let (_, end) = read_all(&opened(&broken), &ReadOptions::default()).unwrap();
    assert_eq!(end.frames, bare_count(&broken));
}

#[test]
fn damage_in_the_middle_is_told() {
    let dir = folder();
    let whole = make(
        &format!("{} -c:v libx264 -g 10", pattern("160x120", "18", 60)),
        &dir.path().join("a.mkv"),
    );
    let mut bytes = std::fs::read(&whole).unwrap();
    let middle = bytes.len() / 2;
    for byte in &mut bytes[middle..middle + 400] {
        *byte = !*byte;
    }
    std::fs::write(&whole, bytes).unwrap();
    let (_, end) = read_all(&opened(&whole), &ReadOptions::default()).unwrap();
    assert_eq!(end.frames, bare_count(&whole));
    assert!(
        end.warnings.iter().any(|w| w.code() == "intake.damage"),
        "{:?}",
        end.warnings
    );
}

#[test]
fn what_may_not_be_read() {
    use std::os::unix::fs::PermissionsExt;
    let dir = folder();
    let file = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 2)),
        &dir.path().join("a.mkv"),
    );
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o000)).unwrap();
    // The administrator may read everything; then it must simply work.
    match std::fs::File::open(&file) {
        Ok(_) => assert_eq!(
            read_all(&opened(&file), &ReadOptions::default())
                .unwrap()
                .1
                .frames,
            2
        ),
        Err(_) => assert_eq!(refusal(&file).code(), "intake.no_permission"),
    }
}
