//! Work left open names its issue.

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "marks";

/// Marks that are refused, spelled in two parts lest this file name itself.
const REFUSED: &[&str] = &[
    concat!("FIX", "ME"),
    concat!("XX", "X"),
    concat!("HA", "CK"),
];
const OPEN: &str = concat!("TO", "DO");

/// Endings of files that hold code or instructions to a machine.
const CODE: &[&str] = &[
    "rs", "toml", "sh", "typ", "ts", "svelte", "css", "html", "sql", "js",
];

/// Looks through code for open marks.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let code = tree.texts().filter(|(path, _)| {
        let name = path.rsplit('/').next().unwrap_or(path);
        name.rsplit_once('.')
            .is_none_or(|(_, ending)| CODE.contains(&ending))
    });
    code.filter(|(path, _)| !path.starts_with("LICENSE"))
        .flat_map(|(path, text)| {
            let lines = text.lines().enumerate();
            lines.filter_map(move |(at, line)| {
                Some(Problem::at_line(RULE, path, at + 1, wrong(line)?))
            })
        })
        .collect()
}

fn wrong(line: &str) -> Option<String> {
    if let Some(mark) = REFUSED.iter().find(|mark| has_mark(line, mark)) {
        return Some(format!(
            "`{mark}`: write `{OPEN}(#n)` with the issue's number, or mend it"
        ));
    }
    let without_issue = line.split(OPEN).skip(1).any(|rest| !names_issue(rest));
    (has_mark(line, OPEN) && without_issue)
        .then(|| format!("`{OPEN}` names no issue: `{OPEN}(#n)`"))
}

fn names_issue(rest: &str) -> bool {
    let number = rest
        .strip_prefix("(#")
        .and_then(|rest| rest.split_once(')'));
    number.is_some_and(|(n, _)| !n.is_empty() && n.bytes().all(|b| b.is_ascii_digit()))
}

fn has_mark(line: &str, mark: &str) -> bool {
    line.split(|c: char| !c.is_ascii_alphabetic())
        .any(|word| word == mark)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(line: &str) -> usize {
        check(&Tree::of(&[("crates/cut/src/a.rs", line)])).len()
    }

    #[test]
    fn open_marks_without_an_issue_are_caught() {
        for line in [
            format!("// {OPEN}: later"),
            format!("// {OPEN}(#) x"),
            format!("// {OPEN}(#12a)"),
        ] {
            assert_eq!(found(&line), 1, "{line}");
        }
        for mark in REFUSED {
            assert_eq!(found(&format!("// {mark} later")), 1, "{mark}");
        }
    }

    #[test]
    fn a_mark_with_its_issue_is_well() {
        assert_eq!(found(&format!("// {OPEN}(#12): blends")), 0);
        assert_eq!(found("let mastodon = 1; // hackberry"), 0);
        assert!(check(&Tree::of(&[("CONTRIBUTING.md", OPEN)])).is_empty());
    }
}
