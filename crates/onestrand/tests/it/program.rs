//! Running the program, and the example film that the tests share.

use std::ffi::OsStr;
use std::ops::Deref;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::{Mutex, MutexGuard, OnceLock, PoisonError};

use serde_json::Value;

pub(crate) fn onestrand() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_onestrand"));
    command.stdin(Stdio::null());
    command
}

/// What came of one call.
pub(crate) struct Called {
    pub(crate) exit: i32,
    pub(crate) document: Value,
    pub(crate) words: String,
}

impl Called {
    fn of(output: &Output) -> Self {
        let out = String::from_utf8_lossy(&output.stdout).into_owned();
        let err = String::from_utf8_lossy(&output.stderr).into_owned();
        Self {
            exit: output.status.code().unwrap_or(-1),
            // Exactly one document, or nothing at all.
            document: serde_json::from_str(&out).unwrap_or(Value::Null),
            words: format!("{out}{err}"),
        }
    }

    /// The document of a call that must have gone well.
    pub(crate) fn ok(self) -> Value {
        assert_eq!(self.exit, 0, "{}", self.words);
        assert!(!self.document.is_null(), "no document: {}", self.words);
        self.document
    }

    /// The error document of a call that must have been refused.
    pub(crate) fn refused(self) -> Value {
        assert_eq!(self.exit, 1, "{}", self.words);
        let error = &self.document["error"];
        for field in ["code", "message", "hint"] {
            let text = error[field].as_str().unwrap_or("");
            assert!(!text.is_empty(), "no {field}: {}", self.words);
        }
        error.clone()
    }

    /// The document of a call that ran and whose answer is no.
    pub(crate) fn no(self) -> Value {
        assert_eq!(self.exit, 1, "{}", self.words);
        assert!(self.document["error"].is_null(), "{}", self.words);
        assert!(!self.document.is_null(), "no document: {}", self.words);
        self.document
    }
}

/// Calls the program with `--json`.
pub(crate) fn call<S: AsRef<OsStr>>(arguments: impl IntoIterator<Item = S>) -> Called {
    let output = onestrand()
        .arg("--json")
        .args(arguments)
        .output()
        .expect("the program starts");
    Called::of(&output)
}

/// Calls the program with words split at spaces; for paths without spaces.
pub(crate) fn call_words(line: &str, dir: &Path) -> Called {
    let dir = dir.to_str().expect("test folders have plain names");
    call(
        line.split(' ')
            .map(|word| if word == "DIR" { dir } else { word }),
    )
}

/// The example film, for one test at a time: a production has one owner.
pub(crate) struct Boat(#[expect(dead_code, reason = "held, not read")] MutexGuard<'static, ()>);

impl Deref for Boat {
    type Target = Path;
    fn deref(&self) -> &Path {
        boat_folder()
    }
}

/// Waits for its turn with the example film.
pub(crate) fn boat() -> Boat {
    static TURN: Mutex<()> = Mutex::new(());
    // A test that failed with it in hand has not harmed it: acts are whole.
    Boat(TURN.lock().unwrap_or_else(PoisonError::into_inner))
}

/// The example film with its scans, made once for all tests of this run. The
/// scans may be read without waiting; the production may not.
///
/// It is kept from run to run under the build folder, and made anew whenever
/// the program has been built anew.
pub(crate) fn boat_folder() -> &'static Path {
    static BOAT: OnceLock<PathBuf> = OnceLock::new();
    BOAT.get_or_init(|| {
        let built = std::fs::metadata(env!("CARGO_BIN_EXE_onestrand"))
            .and_then(|m| m.modified())
            .expect("the program is there")
            .duration_since(std::time::UNIX_EPOCH)
            .expect("after 1970")
            .as_millis();
        let shelf = Path::new(env!("CARGO_TARGET_TMPDIR")).join("boats");
        let dir = shelf.join(built.to_string());
        if !dir.exists() {
            let _none_before = std::fs::remove_dir_all(&shelf);
        }
        call([OsStr::new("demo"), dir.as_os_str()]).ok();
        dir
    })
}

/// A production of its own that shares the example's scans: rolls are read
/// again only where a test wants it.
pub(crate) fn copy_of_boat(into: &Path) -> PathBuf {
    let boat = boat();
    let dir = into.join("film");
    std::fs::create_dir_all(dir.join("workprints")).expect("a folder");
    for entry in std::fs::read_dir(boat.join("workprints")).expect("workprints") {
        let entry = entry.expect("an entry").path();
        let name = entry.file_name().expect("a name");
        let target = dir.join("workprints").join(name);
        if std::fs::hard_link(&entry, &target).is_err() || name == "index.db" {
            let _linked = std::fs::remove_file(&target);
            std::fs::copy(&entry, &target).expect("a copy");
        }
    }
    std::fs::create_dir_all(dir.join("sounds")).expect("a folder");
    for entry in std::fs::read_dir(boat.join("sounds")).expect("sounds") {
        let entry = entry.expect("an entry").path();
        let target = dir.join("sounds").join(entry.file_name().expect("a name"));
        std::fs::copy(&entry, &target).expect("a copy");
    }
    // The command would lay the sounds beside it once more.
    let copy = dir.join("production.db");
    onestrand_production::Production::backup(&boat, &copy).expect("a copy");
    dir
}

/// FFmpeg for making odd files; a test without it would prove nothing.
pub(crate) fn ffmpeg(arguments: &str, dir: &Path) {
    let status = Command::new("ffmpeg")
        .args(["-v", "error", "-nostdin", "-y"])
        .args(arguments.split_whitespace())
        .current_dir(dir)
        .status()
        .expect("ffmpeg starts");
    assert!(status.success(), "ffmpeg {arguments}");
}
