//! Runs of numbered pictures: whole, with gaps, with broken ones, mixed up.

use std::path::{Path, PathBuf};

use onestrand_intake::{IntakeError, PictureKind, ReadOptions, Source, Warning};

use crate::media::{ffmpeg, folder, make, open, opened, pattern, read_all};

/// Pictures `NAME00001.EXT` … in a folder.
fn run(folder: &Path, pattern_name: &str, frames: u32, size: &str) {
    std::fs::create_dir_all(folder).unwrap();
    make(
        &format!("{} -start_number 1", pattern(size, "18", frames)),
        &folder.join(pattern_name),
    );
}

fn numbers(source: &Source) -> Vec<u64> {
    let (frames, _) = read_all(source, &ReadOptions::default()).unwrap();
    frames.iter().map(|f| f.number.unwrap()).collect()
}

fn code(result: Result<(Source, Vec<Warning>), IntakeError>) -> &'static str {
    let error = result.unwrap_err();
    assert!(error.hint().len() > 20);
    error.code()
}

#[test]
fn a_gap_keeps_the_numbers() {
    let dir = folder();
    run(dir.path(), "scan_%05d.png", 8, "64x48");
    std::fs::remove_file(dir.path().join("scan_00003.png")).unwrap();
    std::fs::remove_file(dir.path().join("scan_00004.png")).unwrap();
    let (source, warnings) = open(dir.path()).unwrap();
    assert_eq!(
        warnings,
        [Warning::Gap {
            after: 2,
            missing: 2
        }]
    );
    assert_eq!(numbers(&source), [1, 2, 5, 6, 7, 8]);
    assert_eq!(
        (source.expected_places(), source.frames_promised()),
        (Some(8), Some(6))
    );
    let sequence = source.sequence().unwrap();
    assert_eq!(
        (
            sequence.first_number(),
            sequence.last_number(),
            sequence.kind()
        ),
        (1, 8, PictureKind::Png)
    );
}

#[test]
fn one_picture_stands_for_its_run_and_several_for_themselves() {
    let dir = folder();
    run(dir.path(), "scan_%05d.png", 5, "64x48");
    run(dir.path(), "other%d.png", 3, "64x48");
    let named = |n: u32| dir.path().join(format!("scan_{n:05}.png"));
    let (source, warnings) = open(&named(3)).unwrap();
    assert_eq!(
        warnings,
        [Warning::WholeRunTaken {
            first: 1,
            last: 5,
            pictures: 5
        }]
    );
    assert_eq!(numbers(&source), [1, 2, 3, 4, 5]);
    let (source, warnings) = Source::open(&ffmpeg(), &[named(4), named(2), named(3)]).unwrap();
    assert_eq!((numbers(&source), warnings), (vec![2, 3, 4], vec![]));
    let mixed = [named(1), dir.path().join("other2.png")];
    assert_eq!(code(Source::open(&ffmpeg(), &mixed)), "intake.mixed_files");
    assert_eq!(code(open(dir.path())), "intake.several_sequences");
}

#[test]
fn files_given_together_become_one_source_each() {
    let dir = folder();
    run(dir.path(), "scan_%05d.png", 3, "64x48");
    run(&dir.path().join("sub"), "%d.png", 2, "64x48");
    let film = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 2)),
        &dir.path().join("a.mkv"),
    );
    let named = |n: u32| dir.path().join(format!("scan_{n:05}.png"));
    let given: Vec<PathBuf> = vec![
        film.clone(),
        named(1),
        named(2),
        named(3),
        dir.path().join("sub"),
        film,
    ];
    let (sources, warnings) = Source::open_each(&ffmpeg(), &given).unwrap();
    let pictures: Vec<usize> = sources
        .iter()
        .map(|s| s.sequence().map_or(0, |s| s.pictures().len()))
        .collect();
    assert_eq!(pictures, [0, 3, 2, 0]);
    assert_eq!(warnings, []);
}

#[test]
fn a_single_unnumbered_picture_is_a_run_of_one() {
    let dir = folder();
    let title = make(
        "-f lavfi -i testsrc2=s=64x48 -frames:v 1",
        &dir.path().join("title.tif"),
    );
    let (source, warnings) = open(&title).unwrap();
    assert_eq!((numbers(&source), warnings), (vec![0], vec![]));
}

#[test]
fn broken_pictures_leave_their_place_empty() {
    let dir = folder();
    run(dir.path(), "%05d.png", 9, "64x48");
    let at = |n: u32| dir.path().join(format!("{n:05}.png"));
    let truth: Vec<_> = {
        let (frames, _) = read_all(&opened(dir.path()), &ReadOptions::default()).unwrap();
        frames
            .into_iter()
            .map(|f| (f.number.unwrap(), f.plane))
            .collect()
    };
    // Nothing, words, a sound header with no picture behind it, and half a file.
    std::fs::write(at(2), b"").unwrap();
    std::fs::write(at(4), b"words").unwrap();
    let sound = std::fs::read(at(6)).unwrap();
    std::fs::write(at(6), &sound[..60]).unwrap();
    let (source, warnings) = open(dir.path()).unwrap();
    let broken = |number: u64, n: u32| Warning::Undecodable {
        number,
        path: at(n),
    };
    assert_eq!(warnings, [broken(2, 2), broken(4, 4)]);
    let (frames, end) = read_all(&source, &ReadOptions::default()).unwrap();
    assert_eq!(end.warnings, [broken(6, 6)]);
    let got: Vec<_> = frames
        .into_iter()
        .map(|f| (f.number.unwrap(), f.plane))
        .collect();
    let expected: Vec<_> = truth
        .into_iter()
        .filter(|(n, _)| ![2, 4, 6].contains(n))
        .collect();
    assert_eq!(got, expected);
}

#[test]
fn the_first_and_the_last_may_be_broken() {
    let dir = folder();
    run(dir.path(), "%05d.png", 6, "64x48");
    let at = |n: u32| dir.path().join(format!("{n:05}.png"));
    for n in [1, 6] {
        let sound = std::fs::read(at(n)).unwrap();
        std::fs::write(at(n), &sound[..60]).unwrap();
    }
    let source = opened(dir.path());
    let (frames, end) = read_all(&source, &ReadOptions::default()).unwrap();
    assert_eq!(
        frames.iter().map(|f| f.number.unwrap()).collect::<Vec<_>>(),
        [2, 3, 4, 5]
    );
    assert_eq!(end.warnings.len(), 2);
}

#[test]
fn what_does_not_belong_together_is_refused() {
    let dir = folder();
    let empty = dir.path().join("empty");
    std::fs::create_dir(&empty).unwrap();
    std::fs::write(empty.join("notes.txt"), b"words").unwrap();
    assert_eq!(code(open(&empty)), "intake.no_pictures");

    let sizes = dir.path().join("sizes");
    run(&sizes, "%05d.png", 2, "64x48");
    make(
        "-f lavfi -i testsrc2=s=64x50 -frames:v 1",
        &sizes.join("00003.png"),
    );
    assert_eq!(code(open(&sizes)), "intake.unlike_pictures");

    let kinds = dir.path().join("kinds");
    run(&kinds, "%05d.png", 2, "64x48");
    std::fs::copy(
        make(
            "-f lavfi -i testsrc2=s=64x48 -frames:v 1",
            &dir.path().join("x.jpg"),
        ),
        kinds.join("00003.png"),
    )
    .unwrap();
    assert_eq!(code(open(&kinds)), "intake.unlike_pictures");

    let twice = dir.path().join("twice");
    run(&twice, "%05d.png", 2, "64x48");
    std::fs::copy(twice.join("00001.png"), twice.join("1.png")).unwrap();
    assert_eq!(code(open(&twice)), "intake.double_number");

    let wide = dir.path().join("wide");
    run(&wide, "%05d.png", 1, "64x48");
    std::fs::copy(wide.join("00001.png"), wide.join("99999999.png")).unwrap();
    assert_eq!(code(open(&wide)), "intake.gap_too_wide");

    let cineon = dir.path().join("cineon");
    std::fs::create_dir(&cineon).unwrap();
    std::fs::write(cineon.join("0001.cin"), b"\x80\x2a\x5f\xd7").unwrap();
    assert_eq!(code(open(&cineon)), "intake.cineon");
}

#[test]
fn a_picture_with_another_name_than_its_kind_is_read() {
    let dir = folder();
    let png = make(
        "-f lavfi -i testsrc2=s=64x48 -frames:v 1",
        &dir.path().join("x.png"),
    );
    let run = dir.path().join("run");
    std::fs::create_dir(&run).unwrap();
    std::fs::copy(&png, run.join("7.tiff")).unwrap();
    std::fs::write(run.join("._7.tiff"), b"another system's note").unwrap();
    let source = opened(&run);
    assert_eq!(source.sequence().unwrap().kind(), PictureKind::Png);
    assert_eq!(numbers(&source), [7]);
}
