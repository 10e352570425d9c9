//! The files of the repository, in memory.

use std::path::{Path, PathBuf};
use std::process::Command;

/// One file.
#[derive(Debug)]
pub(crate) struct File {
    /// From the root of the repository, with `/`.
    pub(crate) path: String,
    /// Its text; `None` where it is not UTF-8 (pictures, typefaces).
    pub(crate) text: Option<String>,
    /// Its size. Unit: bytes.
    pub(crate) bytes: u64,
}

/// All files that are tracked or about to be.
#[derive(Debug)]
pub(crate) struct Tree {
    files: Vec<File>,
}

impl Tree {
    /// The checkout this program was built in: what git tracks, and what is new
    /// and not ignored, so that a problem shows before it is committed.
    ///
    /// # Errors
    /// A text, when git does not answer.
    pub(crate) fn of_checkout() -> Result<Self, String> {
        let root = root();
        let listed = Command::new("git")
            .args([
                "ls-files",
                "-z",
                "--cached",
                "--others",
                "--exclude-standard",
            ])
            .current_dir(&root)
            .output()
            .map_err(|e| format!("git cannot be started: {e}"))?;
        if !listed.status.success() {
            return Err(format!(
                "git ls-files: {}",
                String::from_utf8_lossy(&listed.stderr).trim()
            ));
        }
        let names = String::from_utf8_lossy(&listed.stdout).into_owned();
        let files = names.split('\0').filter(|name| !name.is_empty());
        // A tracked file that is deleted and not yet committed is passed over.
        let files = files.filter_map(|name| {
            let bytes = std::fs::read(root.join(name)).ok()?;
            Some(File {
                path: name.to_owned(),
                bytes: bytes.len() as u64,
                text: String::from_utf8(bytes).ok(),
            })
        });
        Ok(Self {
            files: files.collect(),
        })
    }

    /// A made-up tree for a test: paths and texts.
    #[cfg(test)]
    pub(crate) fn of(files: &[(&str, &str)]) -> Self {
        let files = files.iter().map(|(path, text)| File {
            path: (*path).to_owned(),
            text: Some((*text).to_owned()),
            bytes: text.len() as u64,
        });
        Self {
            files: files.collect(),
        }
    }

    /// All files.
    pub(crate) fn files(&self) -> impl Iterator<Item = &File> {
        self.files.iter()
    }

    /// All files that are text: path and text.
    pub(crate) fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files
            .iter()
            .filter_map(|f| Some((f.path.as_str(), f.text.as_deref()?)))
    }

    /// The text of one file, where it exists.
    pub(crate) fn text(&self, path: &str) -> Option<&str> {
        self.texts()
            .find(|(at, _)| *at == path)
            .map(|(_, text)| text)
    }

    /// Whether a file, or a folder with a file in it, has this path.
    pub(crate) fn holds(&self, path: &str) -> bool {
        let folder = format!("{path}/");
        self.files
            .iter()
            .any(|f| f.path == path || f.path.starts_with(&folder))
    }

    /// The names of the crates: the folders of `crates/` that have a manifest.
    pub(crate) fn crates(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self
            .files
            .iter()
            .filter_map(|f| f.path.strip_prefix("crates/")?.strip_suffix("/Cargo.toml"))
            .filter(|name| !name.contains('/'))
            .collect();
        names.sort_unstable();
        names
    }

    /// Rust files that go into the program: path and text. Those of tests,
    /// examples and benchmarks are left out.
    pub(crate) fn production(&self) -> impl Iterator<Item = (&str, &str)> {
        self.texts()
            .filter(|(path, _)| path.ends_with(".rs") && !is_of_tests(path))
    }
}

/// Whether a path belongs to tests, examples or benchmarks.
pub(crate) fn is_of_tests(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    let test_name = name == "tests.rs" || name.ends_with(".test.ts") || name.ends_with(".spec.ts");
    let folders = ["tests", "examples", "benches", "fuzz"];
    test_name || path.split('/').any(|part| folders.contains(&part))
}

/// The root of the repository: this crate's folder is one below it.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tests_are_told_from_the_program() {
        for path in [
            "crates/cut/tests/it/main.rs",
            "crates/cut/src/piece/tests.rs",
            "web/src/a.test.ts",
        ] {
            assert!(is_of_tests(path), "{path}");
        }
        for path in ["crates/cut/src/piece.rs", "crates/cut/src/testimony.rs"] {
            assert!(!is_of_tests(path), "{path}");
        }
    }

    #[test]
    fn crates_are_the_folders_with_a_manifest() {
        let tree = Tree::of(&[
            ("crates/film/Cargo.toml", ""),
            ("crates/film/src/lib.rs", ""),
            ("crates/cut/Cargo.toml", ""),
            ("xtask/Cargo.toml", ""),
        ]);
        assert_eq!(tree.crates(), ["cut", "film"]);
        assert!(tree.holds("crates/film/src"));
        assert!(!tree.holds("crates/fil"));
    }
}
