//! The architecture text knows every crate, and no crate that is gone.

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "architecture";
const TEXT: &str = "ARCHITECTURE.md";

/// Compares `ARCHITECTURE.md` with the folders of `crates/`.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let Some(text) = tree.text(TEXT) else {
        return vec![Problem::of_file(
            RULE,
            TEXT,
            "the architecture text is missing",
        )];
    };
    let crates = tree.crates();
    let named: Vec<(usize, String)> = text
        .lines()
        .enumerate()
        .flat_map(|(at, line)| {
            crates_named(line)
                .into_iter()
                .map(move |name| (at + 1, name))
        })
        .collect();
    let unnamed = crates
        .iter()
        .filter(|name| !named.iter().any(|(_, n)| n == *name))
        .map(|name| Problem::of_file(RULE, TEXT, format!("says nothing of `crates/{name}`")));
    let dead = named
        .iter()
        .filter(|(_, name)| !crates.contains(&name.as_str()))
        .map(|(line, name)| {
            Problem::at_line(
                RULE,
                TEXT,
                *line,
                format!("`{name}` is named, but there is no such crate"),
            )
        });
    unnamed.chain(dead).collect()
}

/// Crates named in a line as `crates/NAME` or `onestrand-NAME`.
fn crates_named(line: &str) -> Vec<String> {
    ["crates/", "onestrand-"]
        .iter()
        .flat_map(|mark| after_each(line, mark))
        .collect()
}

fn after_each(line: &str, mark: &str) -> Vec<String> {
    let rests = line.split(mark).skip(1);
    rests
        .map(|rest| {
            rest.chars()
                .take_while(|c| c.is_ascii_lowercase())
                .collect::<String>()
        })
        .filter(|name| !name.is_empty())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(text: &str) -> Vec<String> {
        let tree = Tree::of(&[
            (TEXT, text),
            ("crates/film/Cargo.toml", ""),
            ("crates/cut/Cargo.toml", ""),
        ]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn every_crate_named_is_well() {
        assert!(problems("### `crates/film`\nand `onestrand-cut`, in crates/*").is_empty());
    }

    #[test]
    fn a_crate_passed_over_is_named() {
        let found = problems("`crates/film`");
        assert_eq!(
            found,
            ["ARCHITECTURE.md: says nothing of `crates/cut` (architecture)"]
        );
    }

    #[test]
    fn a_dead_crate_is_named_by_its_line() {
        let found = problems("`crates/film`, `crates/cut`\nthe old `crates/splice`");
        assert_eq!(found.len(), 1);
        assert!(
            found[0].starts_with("ARCHITECTURE.md:2: `splice` is named"),
            "{}",
            found[0]
        );
    }

    #[test]
    fn a_missing_text_is_a_problem() {
        assert_eq!(check(&Tree::of(&[])).len(), 1);
    }
}
