//! Links between our own texts lead somewhere.

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "links";

/// Follows every link of a Markdown file that is not to the world outside.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let texts = tree.texts().filter(|(path, _)| path.ends_with(".md"));
    texts
        .flat_map(|(path, text)| {
            let lines = text.lines().enumerate();
            lines.flat_map(move |(at, line)| {
                targets(line).into_iter().map(move |to| (path, at + 1, to))
            })
        })
        .filter(|(path, _, to)| !leads_somewhere(tree, path, to))
        .map(|(path, line, to)| {
            Problem::at_line(
                RULE,
                path,
                line,
                format!("the link to `{to}` leads nowhere"),
            )
        })
        .collect()
}

/// What stands in `](…)`.
fn targets(line: &str) -> Vec<&str> {
    line.split("](")
        .skip(1)
        .filter_map(|rest| rest.split_once(')'))
        .map(|(to, _)| to)
        .collect()
}

fn leads_somewhere(tree: &Tree, from: &str, to: &str) -> bool {
    let outside =
        to.contains("://") || to.starts_with("mailto:") || to.starts_with('#') || to.contains("::");
    if outside {
        return true;
    }
    let to = to.split('#').next().unwrap_or(to).trim_end_matches('/');
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in to.split('/') {
        match part {
            "." | "" => {}
            ".." => {
                parts.pop();
            }
            name => parts.push(name),
        }
    }
    tree.holds(&parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(line: &str) -> usize {
        let tree = Tree::of(&[
            ("docs/TESTING.md", line),
            ("README.md", ""),
            ("crates/film/src/lib.rs", ""),
        ]);
        check(&tree).len()
    }

    #[test]
    fn links_that_lead_somewhere_are_well() {
        assert_eq!(
            found("[a](../README.md), [b](../crates/film/), [c](TESTING.md#top), [d](#x)"),
            0
        );
        assert_eq!(
            found("[a](https://example.org/x) and [`b`](crate::Length::by_feet)"),
            0
        );
    }

    #[test]
    fn links_that_lead_nowhere_are_caught() {
        assert_eq!(found("[a](README.md) and [b](../GONE.md)"), 2);
    }
}
