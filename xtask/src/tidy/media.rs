//! Pictures of others: each with its line of licence, and not too many.

use super::problem::Problem;
use super::tree::Tree;

const RULE: &str = "media";
const FOLDER: &str = "tests/media/";
const LIST: &str = "tests/media/README.md";

/// Most bytes of all media together: a clone should stay a matter of seconds.
const BYTES: u64 = 25_000_000;

/// Looks at the test media.
pub(crate) fn check(tree: &Tree) -> Vec<Problem> {
    let list = tree.text(LIST).unwrap_or_default();
    let media = || tree.files().filter(|file| file.path.starts_with(FOLDER));
    let mut problems: Vec<Problem> = media()
        .map(|file| file.path.as_str())
        .filter(|path| ends_as_media(path) && !is_listed(list, path))
        .map(|path| {
            Problem::of_file(
                RULE,
                path,
                format!("has no line with its licence in {LIST}"),
            )
        })
        .collect();
    let bytes: u64 = media().map(|file| file.bytes).sum();
    if bytes > BYTES {
        let text = format!("{bytes} bytes of media, at most {BYTES}");
        problems.push(Problem::of_file(RULE, FOLDER, text));
    }
    problems
}

/// Texts of our own (tables, sums) need no licence line.
fn ends_as_media(path: &str) -> bool {
    let own = ["md", "csv", "txt"];
    path.rsplit_once('.')
        .is_some_and(|(_, ending)| !own.contains(&ending))
}

/// A file is listed by its name, or its folder is.
fn is_listed(list: &str, path: &str) -> bool {
    let mut parts = path.rsplit('/');
    let (name, folder) = (
        parts.next().unwrap_or(path),
        parts.next().unwrap_or_default(),
    );
    list.contains(&format!("`{name}`"))
        || list.contains(&format!("`{folder}`"))
        || list.contains(&format!("`{folder}/{name}`"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const README: (&str, &str) = (
        LIST,
        "| `a.mp4` | CC0 |\n| `run_png` | CC0 |\n| `single/x.dpx` | CC0 |",
    );

    #[test]
    fn listed_files_and_folders_are_well() {
        let tree = Tree::of(&[
            README,
            ("tests/media/video/a.mp4", ""),
            ("tests/media/video/truth.csv", ""),
            ("tests/media/frames/run_png/1.png", ""),
            ("tests/media/frames/single/x.dpx", ""),
        ]);
        assert!(check(&tree).is_empty());
    }

    #[test]
    fn a_file_without_its_line_is_caught() {
        for path in ["tests/media/video/b.mp4", "tests/media/frames/single/y.dpx"] {
            assert_eq!(check(&Tree::of(&[README, (path, "")])).len(), 1, "{path}");
        }
    }

    #[test]
    fn too_much_of_it_is_caught() {
        let big = "x".repeat(25_000_001);
        assert_eq!(
            check(&Tree::of(&[README, ("tests/media/video/a.mp4", &big)])).len(),
            1
        );
    }
}
