//! The few doors to the outside: processes, SQL and HTTP each have theirs.

use super::manifests::{manifest, uses};
use super::problem::Problem;
use super::rust_source::RustSource;
use super::tree::Tree;

const RULE: &str = "doors";

/// Crates that may start processes.
const MAY_START: &[&str] = &["intake", "finish"];

/// Packages that one crate alone may use, and whose.
const PACKAGES: &[(&str, &str, &str)] = &[
    ("rusqlite", "store", "only the store speaks SQL"),
    ("axum", "server", "only the server speaks HTTP"),
    ("typst", "typeset", "only typeset knows the engine"),
];

/// Looks for doors where there should be walls.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems: Vec<Problem> = tree
        .crates()
        .into_iter()
        .flat_map(|name| check_packages(tree, name))
        .collect();
    for (path, text) in tree.production() {
        let Some(name) = crate_of(path) else { continue };
        if !MAY_START.contains(&name) {
            problems.extend(check_processes(path, text));
        }
    }
    problems
}

fn check_packages(tree: &Tree, name: &str) -> Vec<Problem> {
    let (path, text) = manifest(tree, name);
    let found = uses(text, "dependencies").into_iter().filter_map(|used| {
        let (_, owner, why) = PACKAGES
            .iter()
            .find(|(package, ..)| *package == used.name)?;
        (*owner != name).then(|| {
            Problem::at_line(
                RULE,
                &path,
                used.line,
                format!("`{}` here: {why}", used.name),
            )
        })
    });
    found.collect()
}

fn check_processes(path: &str, text: &str) -> Vec<Problem> {
    // Text that is no Rust is the size rule's to report, once.
    let Ok(source) = RustSource::read(text) else {
        return Vec::new();
    };
    let starts = |at: &str| {
        let parts: Vec<&str> = at.split("::").collect();
        parts
            .windows(2)
            .any(|two| two == ["process", "Command"] || two == ["process", "*"])
    };
    let found = source
        .paths
        .iter()
        .filter(|(_, at)| starts(at))
        .map(|(line, at)| {
            let text = format!("`{at}`: only intake and finish start processes");
            Problem::at_line(RULE, path, *line, text)
        });
    found.collect()
}

fn crate_of(path: &str) -> Option<&str> {
    path.strip_prefix("crates/")?.split('/').next()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(files: &[(&str, &str)]) -> Vec<String> {
        check(&Tree::of(files))
            .iter()
            .map(ToString::to_string)
            .collect()
    }

    #[test]
    fn a_process_outside_of_its_door_is_caught_however_it_is_named() {
        for text in [
            "use std::process::Command;",
            "use std::process::{Command, Stdio};",
            "use std::process::*;",
            "use std::process;\nfn f() { process::Command::new(\"x\"); }",
            "fn f() { let _ = std::process::Command::new(\"x\"); }",
        ] {
            let found = problems(&[("crates/cut/src/a.rs", text)]);
            assert_eq!(found.len(), 1, "{text}: {found:?}");
        }
    }

    #[test]
    fn other_commands_and_the_doors_themselves_are_well() {
        assert!(
            problems(&[
                (
                    "crates/onestrand/src/main.rs",
                    "use std::process::ExitCode; use clap::Command;"
                ),
                ("crates/intake/src/process.rs", "use std::process::Command;"),
                (
                    "crates/store/tests/it/main.rs",
                    "use std::process::Command;"
                ),
                (
                    "crates/store/src/a.rs",
                    "#[cfg(test)]\nmod tests { use std::process::Command; }"
                ),
            ])
            .is_empty()
        );
    }

    #[test]
    fn sql_and_http_elsewhere_are_caught() {
        let wanted = "[dependencies]\nrusqlite.workspace = true\naxum.workspace = true\n";
        assert_eq!(problems(&[("crates/cut/Cargo.toml", wanted)]).len(), 2);
        assert_eq!(problems(&[("crates/store/Cargo.toml", wanted)]).len(), 1);
    }
}
