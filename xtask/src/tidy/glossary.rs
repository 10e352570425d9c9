//! One word for each thing: the glossary is well formed, and the program says
//! what the glossary says.

use std::collections::BTreeSet;

use super::problem::Problem;
use super::rust_source::{RustSource, texts};
use super::tree::Tree;
use super::whole_words::{has_word, plain};

const RULE: &str = "glossary";
const TEXT: &str = "docs/GLOSSARY.md";

/// Reads the glossary, and what the crates show, beside each other.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let Some(text) = tree.text(TEXT) else {
        return vec![Problem::of_file(RULE, TEXT, "the glossary is missing")];
    };
    let mut problems = check_entries(tree, text);
    let pairs = pairs(text);
    if pairs.is_empty() {
        problems.push(Problem::of_file(RULE, TEXT, "has no table `| say | not |`"));
    }
    problems.extend(check_shown(tree, &pairs));
    problems
}

/// Entries are lines `- **Word**: meaning.`, each word once, in the order of
/// the alphabet under its heading; `Code: ` names types that exist.
fn check_entries(tree: &Tree, text: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut seen = BTreeSet::new();
    let mut before = String::new();
    for (line, entry) in entries(text) {
        let mut wrong = |what: String| problems.push(Problem::at_line(RULE, TEXT, line, what));
        if entry.starts_with('#') {
            before.clear();
            continue;
        }
        let Some((word, meaning)) = entry
            .strip_prefix("- **")
            .and_then(|rest| rest.split_once("**: "))
        else {
            wrong("an entry is `- **Word**: meaning.`".to_owned());
            continue;
        };
        if !meaning.ends_with('.') || meaning.len() < 12 {
            wrong(format!("“{word}” wants a whole sentence with its stop"));
        }
        let small = word.to_lowercase();
        if small < before {
            wrong(format!("“{word}” stands out of the order of the alphabet"));
        }
        if !seen.insert(small.clone()) {
            wrong(format!("“{word}” stands twice"));
        }
        before = small;
        for name in code_names(meaning)
            .into_iter()
            .filter(|name| !is_defined(tree, name))
        {
            wrong(format!("“{word}” names `{name}`, which no crate has"));
        }
    }
    problems
}

/// Headings and entries with their lines; an entry may run over several.
fn entries(text: &str) -> Vec<(usize, String)> {
    let mut found: Vec<(usize, String)> = Vec::new();
    for (at, line) in text.lines().enumerate() {
        if line.starts_with("## ") || line.starts_with("- ") {
            found.push((at + 1, line.to_owned()));
        } else if let (Some(more), Some((_, entry))) = (line.strip_prefix("  "), found.last_mut()) {
            entry.push(' ');
            entry.push_str(more.trim());
        }
    }
    found
}

/// Types named after `Code:`, as `crate::Name`.
fn code_names(meaning: &str) -> Vec<&str> {
    let Some((_, code)) = meaning.split_once("Code: ") else {
        return Vec::new();
    };
    code.split('`').skip(1).step_by(2).collect()
}

/// Whether a crate defines the name. `film::Frames::MAX` asks for `Frames`.
fn is_defined(tree: &Tree, name: &str) -> bool {
    let mut parts = name.split("::");
    let (Some(krate), Some(item)) = (parts.next(), parts.next()) else {
        return false;
    };
    let folder = format!("crates/{krate}/src/");
    let kinds = ["struct", "enum", "trait", "fn", "type", "const", "mod"];
    tree.production()
        .filter(|(path, _)| path.starts_with(&folder))
        .any(|(_, text)| {
            text.lines().any(|line| {
                let mut words = line
                    .trim_start()
                    .split(|c: char| !c.is_alphanumeric() && c != '_');
                words.next() == Some("pub")
                    && words.next().is_some_and(|kind| kinds.contains(&kind))
                    && words.next() == Some(item)
            })
        })
}

/// The table `| say | not |`: our word, and words that are not shown for it.
fn pairs(text: &str) -> Vec<(String, Vec<String>)> {
    let rows = text
        .lines()
        .skip_while(|line| line.trim() != "| say | not |")
        .skip(2);
    rows.take_while(|line| line.starts_with('|'))
        .filter_map(|line| {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let [say, not] = cells.as_slice() else {
                return None;
            };
            Some((
                (*say).to_owned(),
                not.split(", ").map(str::to_lowercase).collect(),
            ))
        })
        .collect()
}

fn check_shown(tree: &Tree, pairs: &[(String, Vec<String>)]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree
        .production()
        .filter(|(path, _)| path.starts_with("crates/"))
    {
        // Text that is no Rust is the size rule's to report, once.
        let Ok(source) = RustSource::read(text) else {
            continue;
        };
        for (line, shown) in texts(&source, text)
            .into_iter()
            .filter(|(_, shown)| is_prose(shown))
        {
            let shown = plain(&shown);
            for (say, not) in pairs {
                if let Some(word) = not.iter().find(|word| has_word(&shown, word)) {
                    let said = format!("the program says “{word}”; our word is “{say}”");
                    problems.push(Problem::at_line(RULE, path, line, said));
                }
            }
        }
    }
    problems
}

/// Words for a person have blanks between them; names, codes, flags and SQL
/// statements are not prose.
fn is_prose(shown: &str) -> bool {
    let statement = [
        "SELECT ", "INSERT ", "UPDATE ", "DELETE ", "CREATE ", "PRAGMA ", "ALTER ",
    ];
    shown.trim().contains(' ')
        && !statement
            .iter()
            .any(|verb| shown.trim_start().starts_with(verb))
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "# Words
## The trade's
- **Roll**: film as it left the camera. Code: `film::RollId`.
- **Take**: one run of the camera,
  without a stop.
## Say
| say | not |
|---|---|
| piece | clip, segment |
";
    const CODE: (&str, &str) = ("crates/film/src/name.rs", "pub struct RollId(String);");

    fn problems(glossary: &str, code: &str) -> Vec<String> {
        let tree = Tree::of(&[(TEXT, glossary), CODE, ("crates/cut/src/a.rs", code)]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_good_glossary_is_well() {
        assert_eq!(
            problems(GOOD, "fn f() { let _ = \"the piece is short\"; }"),
            Vec::<String>::new()
        );
    }

    #[test]
    fn each_flaw_of_an_entry_is_caught() {
        let cases = [
            (GOOD.replace("- **Roll**: ", "- Roll is "), "an entry is"),
            (
                GOOD.replace("without a stop.", "without a stop"),
                "whole sentence",
            ),
            (
                GOOD.replace("**Take**", "**Reel**"),
                "order of the alphabet",
            ),
            (GOOD.replace("**Take**", "**Roll**"), "stands twice"),
            (
                GOOD.replace("film::RollId", "film::RollName"),
                "no crate has",
            ),
            (GOOD.replace("| say | not |", "| ours | not |"), "no table"),
        ];
        for (text, said) in cases {
            let found = problems(&text, "");
            assert!(found.iter().any(|p| p.contains(said)), "{said}: {found:?}");
        }
        assert_eq!(check(&Tree::of(&[])).len(), 1, "a missing glossary");
    }

    #[test]
    fn another_word_in_what_is_shown_is_caught() {
        let code = "fn f() {}\n#[error(\"the clip {n} is short\")]\nstruct E;";
        let found = problems(GOOD, code);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].starts_with("crates/cut/src/a.rs:2: the program says “clip”"),
            "{}",
            found[0]
        );
    }

    #[test]
    fn comments_names_and_tests_may_say_it() {
        let code = "/// The clip of it.\nconst A: &str = \"clip\";\n#[cfg(test)]\nmod tests { const B: &str = \"a clip here\"; }";
        assert!(problems(GOOD, code).is_empty());
    }
}
