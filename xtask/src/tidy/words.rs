//! No words of editing programs: the trade has its own.

use super::problem::Problem;
use super::tree::Tree;
use super::whole_words::{has_word, plain};

const RULE: &str = "words";

/// What is not said, and what is.
const WORDS: &[(&str, &str)] = &[
    ("timeline", "cut"),
    ("playhead", "frame shown"),
    ("razor", "cut, blade"),
    ("ripple", "move all that follows (and water has waves)"),
    ("media pool", "rolls"),
    ("render queue", "jobs"),
    ("storyboard panel", "setup"),
    ("source monitor", "roll on the light table"),
    ("program monitor", "screen"),
];

/// An exchange format is called what it is called, and so is the outermost object
/// of its files.
const NAMES: &[&str] = &["OpenTimelineIO", "\"Timeline.1\""];

/// Looks through crates and page, tests included.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let ours = tree
        .texts()
        .filter(|(path, _)| path.starts_with("crates/") || path.starts_with("web/src/"));
    ours.flat_map(|(path, text)| {
        text.lines()
            .enumerate()
            .flat_map(move |(at, line)| check_line(path, at + 1, line))
    })
    .collect()
}

fn check_line(path: &str, number: usize, line: &str) -> Vec<Problem> {
    let line = NAMES
        .iter()
        .fold(line.to_owned(), |line, name| line.replace(name, ""));
    let line = plain(&line);
    let found = WORDS
        .iter()
        .filter(|(word, _)| has_word(&line, word))
        .map(|(word, ours)| {
            Problem::at_line(
                RULE,
                path,
                number,
                format!("“{word}” is a word of editing programs: {ours}"),
            )
        });
    found.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> usize {
        check(&Tree::of(&[("crates/cut/src/a.rs", text)])).len()
    }

    #[test]
    fn each_word_is_caught() {
        for (word, _) in WORDS {
            assert_eq!(
                found(&format!("let x = 1;\n// the {word}s of it")),
                1,
                "{word}"
            );
        }
        assert_eq!(found("struct TimelineView; fn render_queue() {}"), 2);
    }

    #[test]
    fn the_trade_and_the_exchange_format_are_well() {
        assert_eq!(
            found("// OpenTimelineIO, a roll, a razorbill's pool of media"),
            0
        );
        assert_eq!(found("{\"OTIO_SCHEMA\": \"Timeline.1\", \"name\": 1}"), 0);
        assert_eq!(found("the Timeline.1 of it"), 1);
        assert!(check(&Tree::of(&[("xtask/src/a.rs", "timeline")])).is_empty());
    }
}
