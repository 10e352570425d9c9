//! Our bags validated by the reference validator, and its bags read here.
//!
//! `./test` puts it into the build folder, its version and its hash pinned, and says so
//! where it cannot. A test without it says that nothing was compared; where
//! `ONESTRAND_REFERENCE_PYTHON` is set it must be there.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use onestrand_archive::{BagProblem, check};

use crate::checked::bag;

/// The interpreter that has the validator, if this machine has one.
fn python() -> Option<PathBuf> {
    if let Some(named) = std::env::var_os("ONESTRAND_REFERENCE_PYTHON") {
        return Some(PathBuf::from(named));
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).parent()?;
    let usual = folder.join("reference-package/bin/python");
    let installed = usual.parent()?.join("bagit.py").exists()
        || std::fs::read_dir(usual.parent()?.parent()?.join("lib"))
            .ok()?
            .flatten()
            .any(|one| one.path().join("site-packages/bagit.py").exists());
    installed.then_some(usual)
}

fn bagit(python: &Path, arguments: &[&str]) -> Output {
    Command::new(python)
        .args(["-m", "bagit"])
        .args(arguments)
        .output()
        .expect("Python starts")
}

#[expect(
    clippy::print_stdout,
    reason = "whoever runs it is told that nothing was compared"
)]
fn with_validator(compare: impl Fn(&Path)) {
    match python() {
        Some(python) => compare(&python),
        None => println!("NOT COMPARED: the reference validator is not here; ./test fetches it"),
    }
}

#[test]
fn the_reference_validator_finds_our_bag_valid_and_a_flipped_bit_not() {
    with_validator(|python| {
        let dir = tempfile::tempdir().expect("a folder");
        let place = bag(dir.path());
        let name = place.to_str().expect("a plain name");
        let said = bagit(python, &["--validate", name]);
        let words = String::from_utf8_lossy(&said.stderr).into_owned();
        assert!(
            said.status.success() && words.contains("is valid"),
            "{words}"
        );
        let scan = place.join("data/scans/R1.mkv");
        let mut bytes = std::fs::read(&scan).expect("there");
        bytes[2_500] ^= 4;
        std::fs::write(&scan, bytes).expect("written");
        let said = bagit(python, &["--validate", name]);
        let words = String::from_utf8_lossy(&said.stderr).into_owned();
        assert!(
            !said.status.success() && words.contains("R1.mkv"),
            "{words}"
        );
    });
}

#[test]
fn a_bag_of_the_reference_is_whole_here_too() {
    with_validator(|python| {
        let dir = tempfile::tempdir().expect("a folder");
        std::fs::create_dir(dir.path().join("sub")).expect("a folder");
        std::fs::write(dir.path().join("sub/100 %\n.txt"), "one").expect("written");
        std::fs::write(dir.path().join("two"), "two").expect("written");
        let name = dir.path().to_str().expect("a plain name");
        let said = bagit(
            python,
            &[
                "--sha256",
                "--sha512",
                "--source-organization",
                "A club",
                name,
            ],
        );
        assert!(
            said.status.success(),
            "{}",
            String::from_utf8_lossy(&said.stderr)
        );
        let found = check(dir.path(), &mut |_| true).expect("a bag");
        assert_eq!((found.problems, found.files), (Vec::<BagProblem>::new(), 2));
        assert!(
            found
                .info
                .contains(&("Source-Organization".to_owned(), "A club".to_owned()))
        );
    });
}
