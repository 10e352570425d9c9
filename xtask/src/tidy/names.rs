//! A module's name says what is in it.

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "names";

/// Names that say nothing of the content.
const EMPTY: &[&str] = &[
    "util", "utils", "helper", "helpers", "common", "misc", "manager", "managers", "data",
];

/// Endings of files that hold code.
const CODE: &[&str] = &["rs", "ts", "svelte", "typ"];

/// Looks at the names of files and folders of code.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let places = ["crates/", "xtask/", "benchmarks/", "web/src/", "fuzz/"];
    let ours = tree.files().map(|file| file.path.as_str());
    ours.filter(|path| places.iter().any(|place| path.starts_with(place)))
        .filter_map(|path| {
            let (stem, ending) = path.rsplit_once('.')?;
            let part = CODE
                .contains(&ending)
                .then_some(stem)?
                .split('/')
                .find(|part| {
                    let words = part.split(['.', '-', '_']).next_back().unwrap_or(part);
                    EMPTY.contains(part) || EMPTY.contains(&words)
                })?;
            let text = format!("`{part}` does not say what is in it: name the content");
            Some(Problem::of_file(RULE, path, text))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn empty_names_are_caught_in_files_and_folders() {
        for path in [
            "crates/cut/src/utils.rs",
            "crates/cut/src/helpers/mod.rs",
            "crates/cut/src/roll_manager.rs",
            "crates/cut/tests/it/common.rs",
            "web/src/lib/data.ts",
        ] {
            assert_eq!(check(&Tree::of(&[(path, "")])).len(), 1, "{path}");
        }
    }

    #[test]
    fn names_of_content_are_well() {
        for path in [
            "crates/cut/src/rounding.rs",
            "crates/cut/src/uncommon.rs",
            "docs/data.md",
        ] {
            assert!(check(&Tree::of(&[(path, "")])).is_empty(), "{path}");
        }
    }
}
