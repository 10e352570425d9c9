//! Which crate may use which: the arrows of the house.

use super::manifests::{manifest, uses};
use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "layers";

/// The domain crates. They know nothing of each other, only the measure.
const DOMAIN: &[&str] = &[
    "plan",
    "archive",
    "intake",
    "inspect",
    "signs",
    "cadence",
    "compose",
    "cut",
    "title",
    "lettering",
    "sound",
    "dub",
    "follow",
    "hearing",
    "light",
    "example",
    "twins",
    "proof",
    "provenance",
];

/// What each crate may use of the house, in normal dependencies. Tests may use
/// more. A new crate is entered here on purpose.
fn allowed(name: &str) -> Option<Vec<&'static str>> {
    let of = |groups: &[&[&'static str]]| groups.concat();
    let film: &[&str] = &["film"];
    // Everything below the store; typesetting stays behind the sheets.
    let models: &[&str] = &["bench", "sheets", "finish", "exchange"];
    Some(match name {
        // Drawn transfers with known truth; only tests use them.
        "film" | "typeset" | "telecine" | "pictures" => Vec::new(),
        // Signs are measured on the planes that breaks are found on.
        "signs" => of(&[film, &["inspect"]]),
        // Pictures are put together out of exact access by the sums of cadence.
        "compose" => of(&[film, &["cadence", "intake"]]),
        name if DOMAIN.contains(&name) => film.to_vec(),
        "bench" | "exchange" => of(&[film, &["cut"]]),
        "sheets" => of(&[film, &["cut", "bench", "typeset"]]),
        "finish" => of(&[film, &["cut", "bench", "intake", "compose"]]),
        "store" => of(&[film, DOMAIN, models]),
        "production" => of(&[film, DOMAIN, models, &["store", "pictures"]]),
        "server" => of(&[film, DOMAIN, models, &["store", "production"]]),
        "onestrand" => of(&[film, DOMAIN, models, &["store", "production", "server"]]),
        _ => return None,
    })
}

/// Compares every crate's dependencies with the table.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    tree.crates()
        .into_iter()
        .flat_map(|name| check_crate(tree, name))
        .collect()
}

fn check_crate(tree: &Tree, name: &str) -> Vec<Problem> {
    let (path, text) = manifest(tree, name);
    let Some(allowed) = allowed(name) else {
        let text = "a new crate: say in xtask/src/tidy/layers.rs what it may use";
        return vec![Problem::of_file(RULE, &path, text)];
    };
    uses(text, "dependencies")
        .into_iter()
        .filter_map(|used| {
            let of_house = used.name.strip_prefix("onestrand-")?.to_owned();
            Some((used.line, of_house))
        })
        .filter(|(_, used)| !allowed.contains(&used.as_str()))
        .map(|(line, used)| {
            let may = if allowed.is_empty() {
                "nothing of the house".to_owned()
            } else {
                allowed.join(", ")
            };
            Problem::at_line(
                RULE,
                &path,
                line,
                format!("`{name}` uses `{used}`, but may use {may}"),
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(name: &str, text: &str) -> Vec<String> {
        let path = format!("crates/{name}/Cargo.toml");
        check(&Tree::of(&[(&path, text)]))
            .iter()
            .map(ToString::to_string)
            .collect()
    }

    #[test]
    fn arrows_to_the_left_are_well() {
        let text =
            "[dependencies]\nonestrand-film.workspace = true\nonestrand-intake.workspace = true\n";
        assert!(problems("finish", text).is_empty());
    }

    #[test]
    fn a_domain_crate_that_uses_another_is_caught() {
        let text =
            "[dependencies]\nonestrand-film.workspace = true\nonestrand-cut.workspace = true\n";
        let found = problems("inspect", text);
        assert_eq!(
            found,
            ["crates/inspect/Cargo.toml:3: `inspect` uses `cut`, but may use film (layers)"]
        );
    }

    #[test]
    fn typesetting_stays_behind_the_sheets() {
        let text = "[dependencies]\nonestrand-typeset.workspace = true\n";
        assert!(problems("sheets", text).is_empty());
        assert_eq!(problems("production", text).len(), 1);
    }

    #[test]
    fn tests_are_freer() {
        let text = "[dev-dependencies]\nonestrand-example.workspace = true\n";
        assert!(problems("finish", text).is_empty());
    }

    #[test]
    fn an_arrow_for_one_system_only_is_an_arrow_too() {
        let text = "[target.'cfg(unix)'.dependencies]\nonestrand-store.workspace = true\n";
        assert_eq!(problems("cut", text).len(), 1);
    }

    #[test]
    fn a_crate_nobody_entered_is_caught() {
        assert_eq!(problems("glue", "").len(), 1);
    }

    #[test]
    fn no_two_crates_may_use_each_other() {
        let all = [
            DOMAIN,
            &[
                "film",
                "typeset",
                "bench",
                "sheets",
                "finish",
                "exchange",
                "store",
                "production",
            ],
        ]
        .concat();
        for one in &all {
            for other in allowed(one).expect("it is in the table") {
                let back = allowed(other).expect("it is in the table");
                assert!(!back.contains(one), "{one} and {other}");
            }
        }
    }
}
