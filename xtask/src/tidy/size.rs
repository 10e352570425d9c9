//! Files and functions stay small, or say why not.

use std::collections::BTreeMap;

use super::problem::Problem;
use super::rust_source::RustSource;
use super::tree::Tree;

const RULE: &str = "size";
const EXCEPTIONS: &str = "xtask/size-exceptions.txt";

/// Most lines of a file that are not tests.
const FILE_LINES: usize = 400;
/// Most lines of a function, from its signature to its closing brace.
const FUNCTION_LINES: usize = 80;

/// Measures every Rust file of the program and of this crate.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut exceptions = read_exceptions(tree, &mut problems);
    for (path, text) in tree.production() {
        match RustSource::read(text) {
            Ok(source) => {
                for (what, line, said) in too_long(path, text, &source) {
                    if exceptions.remove(&what).is_none() {
                        problems.push(Problem::at_line(RULE, path, line, said));
                    }
                }
            }
            Err((line, why)) => problems.push(Problem::at_line(
                RULE,
                path,
                line,
                format!("no Rust: {why}"),
            )),
        }
    }
    let stale = exceptions.into_iter().map(|(what, line)| {
        let text = format!("`{what}` needs no exception (any more)");
        Problem::at_line(RULE, EXCEPTIONS, line, text)
    });
    problems.extend(stale);
    problems
}

/// What is too long: its name in the list of exceptions, line, and words.
fn too_long(path: &str, text: &str, source: &RustSource) -> Vec<(String, usize, String)> {
    let mut found = Vec::new();
    let lines = source.production_lines(text);
    if lines > FILE_LINES {
        let said = format!("{lines} production lines, at most {FILE_LINES}: split by subject");
        found.push((path.to_owned(), 1, said));
    }
    for function in source.functions.iter().filter(|f| f.lines > FUNCTION_LINES) {
        let said = format!(
            "`{}` has {} lines, at most {FUNCTION_LINES}",
            function.name, function.lines
        );
        found.push((format!("{path} fn {}", function.name), function.line, said));
    }
    found
}

/// The exceptions and the lines they stand on. One without a reason is none.
fn read_exceptions(tree: &Tree, problems: &mut Vec<Problem>) -> BTreeMap<String, usize> {
    let text = tree.text(EXCEPTIONS).unwrap_or_default();
    let mut exceptions = BTreeMap::new();
    for (at, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        match line.split_once(": ") {
            Some((what, reason)) if !reason.trim().is_empty() => {
                exceptions.insert(what.to_owned(), at + 1);
            }
            _ => problems.push(Problem::at_line(
                RULE,
                EXCEPTIONS,
                at + 1,
                "wants `PATH: reason`",
            )),
        }
    }
    exceptions
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

    fn file_of(lines: usize) -> String {
        "const A: u8 = 1;\n".repeat(lines)
    }

    fn function_of(lines: usize) -> String {
        format!("fn long() {{\n{}}}\n", "    f();\n".repeat(lines - 2))
    }

    #[test]
    fn the_limits_are_exact() {
        assert!(problems(&[("crates/a/src/a.rs", &file_of(400))]).is_empty());
        assert_eq!(problems(&[("crates/a/src/a.rs", &file_of(401))]).len(), 1);
        assert!(problems(&[("crates/a/src/a.rs", &function_of(80))]).is_empty());
        let found = problems(&[("crates/a/src/a.rs", &function_of(81))]);
        assert_eq!(
            found,
            ["crates/a/src/a.rs:1: `long` has 81 lines, at most 80 (size)"]
        );
    }

    #[test]
    fn tests_do_not_count() {
        let text = format!("#[cfg(test)]\nmod tests {{\n{}}}\n", file_of(500));
        assert!(problems(&[("crates/a/src/a.rs", &text)]).is_empty());
        assert!(problems(&[("crates/a/tests/it/main.rs", &file_of(500))]).is_empty());
    }

    #[test]
    fn an_exception_holds_with_a_reason_and_goes_when_it_is_not_needed() {
        let long = file_of(401);
        let with = |line| problems(&[("crates/a/src/a.rs", &long), (EXCEPTIONS, line)]);
        assert!(with("# head\ncrates/a/src/a.rs: one table\n").is_empty());
        assert_eq!(
            with("crates/a/src/a.rs:\n").len(),
            2,
            "no reason: refused, and no exception"
        );
        let stale = with("crates/a/src/a.rs: one table\ncrates/b.rs: gone\n");
        assert_eq!(stale.len(), 1);
        assert!(
            stale[0].starts_with("xtask/size-exceptions.txt:2:"),
            "{}",
            stale[0]
        );
    }

    #[test]
    fn text_that_is_no_rust_is_named() {
        assert_eq!(problems(&[("crates/a/src/a.rs", "fn ( {")]).len(), 1);
    }
}
