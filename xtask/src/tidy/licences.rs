//! Everything taken from others may be given on.

use std::process::Command;

use serde_json::Value;

use super::problem::Problem;
use super::tree::{Tree, root};

const RULE: &str = "licences";

/// Licences that go with MIT or Apache-2.0: permissive ones, the open font
/// licence, MPL-2.0, which asks only for changes to its own files, and IJG, which asks
/// for a sentence that stands in the README.
const ALLOWED: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "CDLA-Permissive-2.0",
    "IJG",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "OFL-1.1",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Every package of the dependency tree with what it says of its licence.
///
/// # Errors
/// A text, when cargo does not answer.
pub(crate) fn ask_cargo() -> Result<Value, String> {
    // Without the network first: after a build everything is there. `--locked`
    // keeps the question from changing the answer.
    let answer =
        cargo_metadata(&["--offline", "--locked"]).or_else(|_| cargo_metadata(&["--locked"]))?;
    serde_json::from_str(&answer).map_err(|e| format!("cargo metadata: {e}"))
}

fn cargo_metadata(more: &[&str]) -> Result<String, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let system = this_system()?;
    let answer = Command::new(cargo)
        .args(["metadata", "--format-version", "1"])
        // Packages for other systems need not be on this machine.
        .args(["--filter-platform", &system])
        .args(more)
        .current_dir(root())
        .output()
        .map_err(|e| format!("cargo cannot be started: {e}"))?;
    if !answer.status.success() {
        return Err(format!(
            "cargo metadata: {}",
            String::from_utf8_lossy(&answer.stderr).trim()
        ));
    }
    Ok(String::from_utf8_lossy(&answer.stdout).into_owned())
}

/// The system that the compiler builds for, by its own word.
fn this_system() -> Result<String, String> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let answer = Command::new(rustc)
        .arg("-vV")
        .output()
        .map_err(|e| format!("rustc cannot be started: {e}"))?;
    let answer = String::from_utf8_lossy(&answer.stdout).into_owned();
    let host = answer.lines().find_map(|line| line.strip_prefix("host: "));
    host.map(str::to_owned)
        .ok_or_else(|| "rustc does not say its system".to_owned())
}

/// Compares every package's licence with the list.
pub(crate) fn check_dependencies(metadata: &Value) -> Vec<Problem> {
    let packages = metadata.get("packages").and_then(Value::as_array);
    let found = packages.into_iter().flatten().filter_map(|package| {
        let licence = package.get("license").and_then(Value::as_str);
        if licence.is_some_and(is_allowed) {
            return None;
        }
        let field = |name| package.get(name).and_then(Value::as_str).unwrap_or("?");
        let said = licence.unwrap_or("none");
        let text = format!(
            "{} {} has the licence {said}",
            field("name"),
            field("version")
        );
        Some(Problem::of_file(RULE, "Cargo.lock", text))
    });
    found.collect()
}

/// Whether a licence text lets one choose from the list: of `OR` one, of `AND`
/// all. `/` is the old sign for `OR`. Brackets nest.
fn is_allowed(text: &str) -> bool {
    let text = text
        .replace('/', " OR ")
        .replace('(', " ( ")
        .replace(')', " ) ");
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut at = 0;
    any_of(&words, &mut at) && at == words.len()
}

fn any_of(words: &[&str], at: &mut usize) -> bool {
    let mut allowed = all_of(words, at);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        allowed |= all_of(words, at);
    }
    allowed
}

fn all_of(words: &[&str], at: &mut usize) -> bool {
    let mut allowed = one(words, at);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        allowed &= one(words, at);
    }
    allowed
}

fn one(words: &[&str], at: &mut usize) -> bool {
    let Some(word) = words.get(*at) else {
        return false;
    };
    *at += 1;
    if *word == "(" {
        let inside = any_of(words, at);
        let closed = words.get(*at) == Some(&")");
        *at += 1;
        return inside && closed;
    }
    let mut name = (*word).to_owned();
    if words.get(*at) == Some(&"WITH") {
        name = format!(
            "{name} WITH {}",
            words.get(*at + 1).copied().unwrap_or_default()
        );
        *at += 2;
    }
    ALLOWED.contains(&name.as_str())
}

/// Every typeface in `fonts/` has its licence beside it: `Family-OFL.txt`.
pub(crate) fn check_typefaces(tree: &Tree) -> Vec<Problem> {
    let faces = tree.files().map(|file| file.path.as_str()).filter(|path| {
        path.rsplit_once('.')
            .is_some_and(|(_, ending)| ["ttf", "otf", "woff2"].contains(&ending))
    });
    faces
        .filter_map(|path| {
            let family = path.rsplit_once('-').map_or(path, |(family, _)| family);
            let licence = format!("{family}-OFL.txt");
            let said = tree
                .text(&licence)
                .is_some_and(|text| text.contains("SIL OPEN FONT LICENSE"));
            (!said).then(|| {
                Problem::of_file(RULE, path, format!("its licence `{licence}` is missing"))
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn licences_are_read_as_they_are_written() {
        for good in [
            "MIT",
            "MIT OR GPL-3.0-only",
            "MIT/Apache-2.0",
            "(MIT OR Apache-2.0) AND Unicode-3.0",
            "Apache-2.0 WITH LLVM-exception OR GPL-2.0",
            "Zlib AND (MIT OR (GPL-3.0 AND ISC))",
        ] {
            assert!(is_allowed(good), "{good}");
        }
        for bad in [
            "GPL-3.0-only",
            "MIT AND GPL-3.0-only",
            "",
            "(MIT",
            "MIT ISC",
            "MIT WITH x",
            "AGPL-3.0 OR SSPL-1.0",
        ] {
            assert!(!is_allowed(bad), "{bad}");
        }
    }

    #[test]
    fn a_package_with_another_licence_or_none_is_caught() {
        let metadata = serde_json::json!({"packages": [
            {"name": "a", "version": "1.0.0", "license": "MIT"},
            {"name": "b", "version": "2.0.0", "license": "GPL-3.0-only"},
            {"name": "c", "version": "3.0.0", "license": null},
        ]});
        let found: Vec<String> = check_dependencies(&metadata)
            .iter()
            .map(ToString::to_string)
            .collect();
        assert_eq!(
            found,
            [
                "Cargo.lock: b 2.0.0 has the licence GPL-3.0-only (licences)",
                "Cargo.lock: c 3.0.0 has the licence none (licences)",
            ]
        );
    }

    #[test]
    fn a_typeface_without_its_licence_is_caught() {
        let licence = ("fonts/Bitter-OFL.txt", "SIL OPEN FONT LICENSE Version 1.1");
        assert!(check_typefaces(&Tree::of(&[("fonts/Bitter-Bold.ttf", ""), licence])).is_empty());
        assert_eq!(
            check_typefaces(&Tree::of(&[("fonts/Other-Bold.ttf", ""), licence])).len(),
            1
        );
    }
}
