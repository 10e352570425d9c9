//! Our files read, and written again, by the reference package of the standard.
//!
//! `./test` puts the package into the build folder, its version and its hashes
//! pinned, and says so where it cannot. A test without it says that nothing was
//! compared; where `ONESTRAND_REFERENCE_PYTHON` is set it must be there.

use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_cut::{Effect, PieceKind};
use onestrand_exchange::{Film, Version, read, write};
use serde_json::{Value, json};

use crate::film::{boat, one_of_each, one_of_each_and_pictures, with_pictures};

/// The interpreter that has the package, if this machine has one.
fn python() -> Option<PathBuf> {
    if let Some(named) = std::env::var_os("ONESTRAND_REFERENCE_PYTHON") {
        return Some(PathBuf::from(named));
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).parent()?;
    let usual = folder.join("reference-package/bin/python");
    usual.exists().then_some(usual)
}

/// What the package understood of a file, and the file as it wrote it again.
fn understood(python: &Path, text: &str) -> (Value, String) {
    let dir = tempfile::tempdir().expect("a folder");
    let (ours, theirs) = (dir.path().join("ours.otio"), dir.path().join("theirs.otio"));
    std::fs::write(&ours, text).expect("written");
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/rewrite.py");
    let answer = Command::new(python)
        .arg(script)
        .args([&ours, &theirs])
        .output()
        .expect("Python starts");
    let said = String::from_utf8_lossy(&answer.stderr);
    assert!(answer.status.success(), "the package refused it: {said}");
    let understood = serde_json::from_slice(&answer.stdout).expect("one document");
    let written = std::fs::read_to_string(&theirs).expect("written again");
    (understood, written)
}

#[expect(
    clippy::print_stdout,
    reason = "whoever runs it is told that nothing was compared"
)]
fn with_package(compare: impl Fn(&Path)) {
    match python() {
        Some(python) => compare(&python),
        None => println!("NOT COMPARED: the reference package is not here; ./test fetches it"),
    }
}

/// What the package must say of a version, worked out from the version alone.
fn expected(film: &Film, version: &Version) -> Vec<Value> {
    let rate = film.speed.as_f64();
    let time = |frames: u32| json!([f64::from(frames), rate]);
    let mut at = 0;
    let mut all = Vec::new();
    for piece in version.cut.pieces() {
        let length = piece.frames().count();
        let begin = piece.span().map_or(0, |span| span.range.begin().index());
        let marks: Vec<Value> = version
            .notes
            .iter()
            .filter(|note| {
                piece.span().is_some_and(|span| {
                    span.roll == note.frame.roll && span.range.contains(note.frame.frame)
                })
            })
            .map(|note| json!([note.words, [time(note.frame.frame.index()), time(1)]]))
            .collect();
        let effect = piece.effect.map(|effect| match effect {
            Effect::Freeze => json!(["FreezeFrame", 0.0]),
            Effect::Reverse => json!(["LinearTimeWarp", -1.0]),
            Effect::Speed => json!(["TimeEffect", null]),
            Effect::Fade => json!(["Effect", null]),
        });
        let (schema, media) = match &piece.kind {
            PieceKind::Shot(span) => ("Clip", json!(span.roll.as_str())),
            PieceKind::Card { title, .. } => ("Clip", json!(title)),
            PieceKind::Leader(_) => ("Gap", Value::Null),
        };
        all.push(json!({
            "schema": schema,
            "range": [time(begin), time(length)],
            "in_cut": [time(at), time(length)],
            "media_name": media,
            "available": piece.span().map(|_| json!([time(0), time(3600)])),
            "effects": effect.into_iter().collect::<Vec<_>>(),
            "marks": marks,
        }));
        at += length;
    }
    all
}

#[test]
fn the_reference_package_counts_as_we_do() {
    with_package(|python| {
        for speed in ["18", "50/3", "24000/1001"] {
            let film = boat(speed);
            let version = one_of_each();
            let (said, _) = understood(python, &write(&film, &version));
            assert_eq!(said["package"], "0.18.1");
            assert_eq!(said["name"], json!(version.name));
            assert_eq!(said["kind"], "Video");
            assert_eq!(said["ours"]["speed"], speed);
            assert_eq!(said["ours"]["note"], json!(version.note));
            let whole = f64::from(version.cut.frames().count());
            assert_eq!(said["duration"], json!([whole, film.speed.as_f64()]));
            let items = said["items"].as_array().expect("items");
            let expected = expected(&film, &version);
            assert_eq!(items.len(), expected.len());
            for (found, wanted) in items.iter().zip(&expected) {
                for (field, wanted) in wanted.as_object().expect("fields") {
                    assert_eq!(found[field], *wanted, "{speed}, {field} of {found}");
                }
            }
            assert_eq!(items[1]["url"], "R1%20the%20quay.mkv");
            assert_eq!(items[1]["ours"]["slate"], "1-T2");
            assert_eq!(items[0]["ours"]["join"], "weld");
        }
    });
}

#[test]
fn a_run_of_pictures_is_the_same_run_to_the_reference_package() {
    with_package(|python| {
        for speed in ["18", "50/3", "24000/1001"] {
            let film = with_pictures(speed);
            let version = one_of_each_and_pictures();
            let (said, written) = understood(python, &write(&film, &version));
            let items = said["items"].as_array().expect("items");
            let last = items.last().expect("the roll of pictures");
            assert_eq!(last["media"], "ImageSequenceReference");
            let run = json!([
                3600,
                "fifth%20roll/R5%200101.dpx",
                "fifth%20roll/R5%203700.dpx",
                3700
            ]);
            assert_eq!(last["pictures"], run, "{speed}");
            let time = |frames: u32| json!([f64::from(frames), film.speed.as_f64()]);
            assert_eq!(last["range"], json!([time(40), time(36)]));
            let back = read(&written, &film).expect("the package's own file");
            assert_eq!((back.version, back.remarks), (version, vec![]), "{speed}");
        }
    });
}

#[test]
fn what_the_reference_package_writes_again_is_the_same_version() {
    with_package(|python| {
        for speed in ["18", "50/3", "24000/1001"] {
            let film = boat(speed);
            let version = one_of_each();
            let (_, written) = understood(python, &write(&film, &version));
            assert_ne!(
                written,
                write(&film, &version),
                "the package wrote it, not we"
            );
            let back = read(&written, &film).expect("the package's own file");
            assert_eq!(back.version, version, "{speed}");
            assert_eq!(back.remarks, [], "{speed}");
        }
    });
}
