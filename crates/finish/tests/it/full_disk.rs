//! A disk that fills up: a small one of its own, in the memory of a namespace that the
//! system gives to any user who may have one (`user_namespaces(7)`, `tmpfs(5)`).

use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_finish::{FinishError, FinishPlan, Made, parts_of};

use super::making::{Desk, FRAMES, places};

/// Where the small disk is, for the test that runs on it.
const PLACE: &str = "ONESTRAND_SMALL_DISK";

/// What a shell says inside the namespace before it becomes the program.
const MOUNT: &str = "mount -t tmpfs -o size=2m tmpfs \"$0\" && exec \"$@\"";

fn on_a_small_disk(place: &Path, program: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new("unshare");
    command
        .args(["--user", "--map-root-user", "--mount", "sh", "-c", MOUNT])
        .arg(place)
        .arg(program)
        .args(arguments)
        .env(PLACE, place);
    command
}

#[test]
#[expect(clippy::print_stdout, reason = "a test that was not tried must say so")]
fn a_disk_that_fills_up_is_named_and_the_work_goes_on_when_there_is_room() {
    let dir = tempfile::tempdir().expect("a folder");
    let may = on_a_small_disk(dir.path(), Path::new("true"), &[]).output();
    if !may.is_ok_and(|out| out.status.success()) {
        println!("not tried: this system gives no disk to a plain user");
        return;
    }
    let this = std::env::current_exe().expect("this program");
    let inside = ["--ignored", "--exact", "full_disk::on_the_small_disk"];
    let out = on_a_small_disk(dir.path(), &this, &inside).output();
    let out = out.expect("it starts");
    let said = String::from_utf8_lossy(&out.stdout);
    assert!(out.status.success() && said.contains("1 passed"), "{said}");
}

#[test]
#[ignore = "is run on a disk of its own by the test above"]
fn on_the_small_disk() {
    let disk = PathBuf::from(std::env::var_os(PLACE).expect("a small disk"));
    for name in ["film.mkv", "film.mov", "film.mp4"] {
        let desk = Desk::new();
        let plan = |path: PathBuf| FinishPlan {
            path,
            ..desk.plan(name, places((20..FRAMES).chain(0..15)))
        };
        size(&disk, "16m");
        let whole = plan(disk.join("whole").with_extension(&name[5..]));
        let undisturbed = desk.make(&whole).expect("there is room");
        let bytes = std::fs::read(&whole.path).expect("a film");
        std::fs::remove_file(&whole.path).expect("removed");
        let film = plan(disk.join(name));
        // The parts and the whole lie there at the end: a tenth of that, four, and nine.
        let all = bytes.len() as u64 * 2;
        for (tenths, needed_is_said) in [(1, false), (4, true), (9, true)] {
            size(&disk, &(all * tenths / 10).to_string());
            let told = desk.make(&film).expect_err("the disk is full");
            is_plain(&told, &film, needed_is_said, tenths);
        }
        size(&disk, "16m");
        let made: Made = desk.make(&film).expect("there is room now");
        assert!(made.kept >= 10, "{name}: {} places were kept", made.kept);
        assert_eq!(made.pictures, undisturbed.pictures);
        assert!(
            std::fs::read(&film.path).expect("a film") == bytes,
            "{name}"
        );
        std::fs::remove_file(&film.path).expect("removed");
    }
}

fn is_plain(told: &FinishError, film: &FinishPlan, needed_is_said: bool, tenths: u64) {
    let FinishError::DiskFull { folder, needed } = told else {
        panic!("{tenths} tenths of {}: {told}", film.path.display());
    };
    assert_eq!(Some(folder.as_path()), film.path.parent());
    assert!(needed.is_some() || !needed_is_said, "{tenths} tenths");
    assert_eq!(told.code(), "finish.disk_full");
    assert!(told.hint().contains("make room"));
    let names = std::fs::read_dir(folder).expect("a folder").flatten();
    let left: Vec<_> = names.map(|entry| entry.path()).collect();
    assert_eq!(left, [parts_of(&film.path)], "no half file is left");
}

fn size(disk: &Path, size: &str) {
    let done = Command::new("mount")
        .args(["-o", &format!("remount,size={size}")])
        .arg(disk)
        .status();
    assert!(done.expect("mount starts").success());
}
