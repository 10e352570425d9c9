//! What every crate's manifest and folder must have.

use toml::{Table, Value};

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "manifests";

/// A dependency as a manifest names it.
#[derive(Debug)]
pub(crate) struct Used {
    /// The package.
    pub(crate) name: String,
    /// The line that names it, as far as it can be told; else 1.
    pub(crate) line: usize,
    /// Whether its version comes from the workspace.
    from_workspace: bool,
}

/// Path and text of a crate's manifest.
pub(crate) fn manifest<'t>(tree: &'t Tree, name: &str) -> (String, &'t str) {
    let path = format!("crates/{name}/Cargo.toml");
    let text = tree.text(&path).unwrap_or_default();
    (path, text)
}

/// The dependencies of one kind (`dependencies`, `dev-dependencies`), those for
/// single systems included.
pub(crate) fn uses(text: &str, kind: &str) -> Vec<Used> {
    let table = text.parse::<Table>().unwrap_or_default();
    let systems = table.get("target").and_then(Value::as_table);
    let of_systems = systems
        .into_iter()
        .flat_map(Table::values)
        .filter_map(Value::as_table);
    std::iter::once(&table)
        .chain(of_systems)
        .filter_map(|part| part.get(kind)?.as_table())
        .flatten()
        .map(|(name, value)| Used {
            name: name.clone(),
            line: line_of(text, name),
            from_workspace: is_true(value.get("workspace")),
        })
        .collect()
}

/// Looks at every member of the workspace, and into every crate of the house.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let members = tree
        .texts()
        .filter(|(path, _)| path.ends_with("/Cargo.toml"));
    let mut problems: Vec<Problem> = members
        .flat_map(|(path, text)| check_manifest(path, text))
        .collect();
    problems.extend(
        tree.crates()
            .into_iter()
            .flat_map(|name| check_folder(tree, name)),
    );
    problems
}

fn check_manifest(path: &str, text: &str) -> Vec<Problem> {
    let table = match text.parse::<Table>() {
        Ok(table) => table,
        Err(why) => return vec![Problem::of_file(RULE, path, why.message().to_owned())],
    };
    let mut problems = Vec::new();
    if !is_true(table.get("lints").and_then(|lints| lints.get("workspace"))) {
        problems.push(Problem::of_file(
            RULE,
            path,
            "lacks `[lints] workspace = true`",
        ));
    }
    for field in ["version", "edition", "rust-version", "license", "publish"] {
        let value = table.get("package").and_then(|package| package.get(field));
        if !is_true(value.and_then(|value| value.get("workspace"))) {
            problems.push(Problem::of_file(
                RULE,
                path,
                format!("lacks `{field}.workspace = true`"),
            ));
        }
    }
    for kind in ["dependencies", "dev-dependencies", "build-dependencies"] {
        let own = uses(text, kind)
            .into_iter()
            .filter(|used| !used.from_workspace);
        problems.extend(own.map(|used| {
            let text = format!(
                "`{}` has its version here; it belongs into the workspace",
                used.name
            );
            Problem::at_line(RULE, path, used.line, text)
        }));
    }
    problems
}

fn check_folder(tree: &Tree, name: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    let readme = format!("crates/{name}/README.md");
    // A title alone says nothing.
    if tree
        .text(&readme)
        .is_none_or(|text| text.trim().lines().count() < 3)
    {
        problems.push(Problem::of_file(
            RULE,
            &readme,
            "says not yet what the crate is and is not",
        ));
    }
    let library = format!("crates/{name}/src/lib.rs");
    if let Some(text) = tree.text(&library) {
        for wanted in [
            "#![deny(missing_docs)]",
            "#![doc = include_str!(\"../README.md\")]",
        ] {
            if !text.lines().any(|line| line.trim() == wanted) {
                problems.push(Problem::at_line(
                    RULE,
                    &library,
                    1,
                    format!("lacks `{wanted}`"),
                ));
            }
        }
    }
    problems
}

fn is_true(value: Option<&Value>) -> bool {
    value.and_then(Value::as_bool) == Some(true)
}

fn line_of(text: &str, name: &str) -> usize {
    let names = |line: &str| {
        let rest = line.trim_start().trim_start_matches('"').strip_prefix(name);
        rest.is_some_and(|rest| rest.starts_with(['.', ' ', '=', '"']))
    };
    text.lines().position(names).map_or(1, |at| at + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MANIFEST: &str = "[package]
name = \"onestrand-film\"
version.workspace = true
edition.workspace = true
rust-version.workspace = true
license.workspace = true
publish.workspace = true
[dependencies]
thiserror.workspace = true
[lints]
workspace = true
";
    const LIBRARY: &str = "#![doc = include_str!(\"../README.md\")]\n#![deny(missing_docs)]\n";
    const README: &str = "# onestrand-film\n\nThe measure.\n";

    fn problems(manifest: &str, library: &str, readme: &str) -> Vec<String> {
        let tree = Tree::of(&[
            ("crates/film/Cargo.toml", manifest),
            ("crates/film/src/lib.rs", library),
            ("crates/film/README.md", readme),
        ]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_good_crate_is_well() {
        assert_eq!(problems(MANIFEST, LIBRARY, README), Vec::<String>::new());
    }

    #[test]
    fn each_thing_that_lacks_is_caught() {
        let cases = [
            (
                MANIFEST.replace("[lints]\nworkspace = true", ""),
                LIBRARY,
                README,
                "[lints]",
            ),
            (
                MANIFEST.replace("license.workspace", "license"),
                LIBRARY,
                README,
                "license",
            ),
            (
                MANIFEST.replace("thiserror.workspace = true", "thiserror = \"2\""),
                LIBRARY,
                README,
                ":9:",
            ),
            (MANIFEST.to_owned(), "", README, "missing_docs"),
            (
                MANIFEST.to_owned(),
                LIBRARY,
                "# onestrand-film\n",
                "README.md",
            ),
            ("[package".to_owned(), LIBRARY, README, "Cargo.toml"),
        ];
        for (manifest, library, readme, said) in cases {
            let found = problems(&manifest, library, readme);
            assert!(found.iter().any(|p| p.contains(said)), "{said}: {found:?}");
        }
    }
}
