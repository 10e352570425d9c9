//! Cautions for work at the bench: short, never in place of the papers and
//! people that have the last word.
//!
//! The words stand in one place for page and paper, the file that the page reads
//! them from; each is keyed by the step where it matters.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::head::{JoinBite, JoinKind};

/// One caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Caution {
    /// What it is about, one or two words.
    pub(crate) about: &'static str,
    /// What to do.
    pub(crate) words: &'static str,
}

static WORDS: &str = include_str!("../../../web/src/lib/ui/caution/cautions.json");

#[expect(clippy::expect_used, reason = "a file of the program, read in a test")]
static ALL: LazyLock<BTreeMap<&'static str, Caution>> =
    LazyLock::new(|| serde_json::from_str(WORDS).expect("cautions.json holds cautions"));

/// The cautions of these keys, in this order, after who has the last word.
pub(crate) fn cautions(keys: &[&str]) -> Vec<Caution> {
    let first = ALL.get("first").into_iter();
    let rest = keys.iter().filter_map(|key| ALL.get(key));
    first.chain(rest).cloned().collect()
}

/// The cautions for whoever handles rolls without cutting them.
pub(crate) fn handling_cautions() -> Vec<Caution> {
    cautions(&["polyester", "vinegar"])
}

/// The cautions for a copy stand: lamps, mains, and glass where it lies on the artwork.
pub(crate) fn stand_cautions(has_glass: bool) -> Vec<Caution> {
    match has_glass {
        true => cautions(&["hot_lamp", "mains", "glass"]),
        false => cautions(&["hot_lamp", "mains"]),
    }
}

/// The same as sentences, for the other faces of the program.
#[must_use]
pub fn stand_caution_words(has_glass: bool) -> Vec<String> {
    let all = stand_cautions(has_glass);
    all.iter()
        .map(|caution| format!("{}: {}", caution.about, caution.words))
        .collect()
}

/// The cautions for a bench that makes these joins. Cement is spoken of only
/// where it is used; a weld may be made with solvent too.
pub(crate) fn bench_cautions(joins: &[JoinBite]) -> Vec<Caution> {
    let solvent = |join: &JoinBite| matches!(join.kind, JoinKind::Cement | JoinKind::Weld);
    match joins.iter().any(solvent) {
        true => cautions(&["blades", "polyester", "solvent"]),
        false => cautions(&["blades", "polyester"]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_film::Frames;

    fn bench(kind: JoinKind) -> Vec<&'static str> {
        let join = JoinBite {
            kind,
            out_tail: Frames::ZERO,
            in_head: Frames::ZERO,
        };
        bench_cautions(&[join])
            .iter()
            .map(|caution| caution.about)
            .collect()
    }

    /// A key that is not there would be left out without a word.
    #[test]
    fn every_key_asked_for_is_there_and_says_something() {
        for key in ["first", "blades", "polyester", "solvent", "vinegar"] {
            let caution = ALL.get(key).expect(key);
            assert!(
                caution.words.len() > 40 && !caution.about.is_empty(),
                "{key}"
            );
        }
        assert_eq!(handling_cautions().len(), 3);
        for (key, caution) in ALL.iter() {
            assert!(caution.words.ends_with('.'), "{key}");
            assert!(
                caution.words.len() < 320,
                "{key} is too long to be read at the step"
            );
        }
    }

    #[test]
    fn solvent_is_spoken_of_only_where_it_is_used() {
        assert_eq!(bench(JoinKind::Tape), ["First", "Blades", "Polyester"]);
        assert_eq!(
            bench(JoinKind::Cement),
            ["First", "Blades", "Polyester", "Solvent"]
        );
        assert_eq!(
            bench(JoinKind::Weld),
            ["First", "Blades", "Polyester", "Solvent"]
        );
    }
}
