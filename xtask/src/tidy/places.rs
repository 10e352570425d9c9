//! Nothing in the repository knows one machine, or where packages come from.

use super::problem::Problem;
use super::tree::{Tree, is_of_tests};

const RULE: &str = "places";

/// Beginnings of paths that exist on somebody's machine. In two parts, lest
/// this file name itself.
const PATHS: &[&str] = &[
    concat!("/wo", "rk/"),
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/tm", "p/"),
    concat!("/Us", "ers/"),
];

/// Hosts of package registries, and addresses that downloads come from.
const HOSTS: &[&str] = &[
    concat!("crates", ".io"),
    concat!("npm", "js."),
    concat!("pypi", ".org"),
    concat!("pythonhosted", ".org"),
    concat!("debian", ".org"),
    concat!("proxy.", "golang"),
    concat!("codeload.", "github"),
    concat!("raw.", "githubusercontent"),
    concat!("/releases/", "download/"),
];

/// How cargo itself writes "the ordinary registry" into its lock file. The line
/// says where every Rust package in the world is counted from, not where this
/// machine fetched it, and cargo does not read the file without it.
const CARGO_OWN: &str = concat!(
    "source = \"registry+https://github.com/rust-lang/",
    "crates",
    ".io-index\""
);

/// Looks through all texts for hosts, and through all but tests for paths.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.texts() {
        for (at, line) in text.lines().enumerate() {
            let of_cargo = path == "Cargo.lock" && line == CARGO_OWN;
            if let Some(host) = HOSTS.iter().find(|host| !of_cargo && line.contains(*host)) {
                let said = format!("`{host}`: no registry's host or download address is named");
                problems.push(Problem::at_line(RULE, path, at + 1, said));
            }
            if let Some(place) = PATHS
                .iter()
                .find(|place| !is_of_tests(path) && stands_alone(line, place))
            {
                let said = format!("`{place}…` is a path of one machine");
                problems.push(Problem::at_line(RULE, path, at + 1, said));
            }
        }
    }
    problems
}

/// Whether a path begins here, and is not the middle of another one.
fn stands_alone(line: &str, place: &str) -> bool {
    line.match_indices(place).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        !before
            .is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '*' | '}' | ')'))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(path: &str, line: &str) -> usize {
        check(&Tree::of(&[(path, line)])).len()
    }

    #[test]
    fn paths_of_a_machine_are_caught_outside_of_tests() {
        for place in PATHS {
            let line = format!("open(\"{place}roll.mov\")");
            assert_eq!(found("crates/cut/src/a.rs", &line), 1, "{place}");
            assert_eq!(found("run", &line), 1, "{place}");
            assert_eq!(found("crates/cut/tests/it/main.rs", &line), 0, "{place}");
        }
        assert_eq!(found("a.md", &format!("target{}list", PATHS[0])), 0);
    }

    #[test]
    fn hosts_are_caught_everywhere() {
        for host in HOSTS {
            assert_eq!(
                found("crates/cut/tests/it/main.rs", &format!("https://{host}x")),
                1,
                "{host}"
            );
            assert_eq!(found("web/package-lock.json", host), 1, "{host}");
        }
    }

    #[test]
    fn only_cargos_own_line_in_its_own_file_is_let_be() {
        assert_eq!(found("Cargo.lock", CARGO_OWN), 0);
        assert_eq!(found("README.md", CARGO_OWN), 1);
        let elsewhere = format!("source = \"registry+https://mirror.{}/index\"", HOSTS[0]);
        assert_eq!(found("Cargo.lock", &elsewhere), 1);
    }
}
