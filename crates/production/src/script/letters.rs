//! Numbers and letters that nobody needs to think of.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_plan::action_letter;
use onestrand_store::{ActionRecord, SetupRecord, ShownRecord};

use crate::documents::ActionWords;

/// The lowest scene number that is free above those that are taken.
pub(crate) fn next_scene<'a>(taken: impl Iterator<Item = &'a str>) -> String {
    let highest = taken.filter_map(|number| leading(number).parse::<u32>().ok());
    (highest.max().unwrap_or(0).saturating_add(1)).to_string()
}

fn leading(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_ascii_digit());
    end.map_or(text, |end| &text[..end])
}

/// The next setup of a scene: its number for the master, then its letters. I and O are
/// left out, since on a slate they read as figures (common practice).
pub(crate) fn next_setup(scene: &str, taken: &BTreeSet<String>) -> String {
    if !taken.contains(&scene.to_uppercase()) {
        return scene.to_owned();
    }
    let letters = || ('A'..='Z').filter(|letter| !matches!(letter, 'I' | 'O'));
    let one = letters().map(|a| format!("{scene}{a}"));
    let two = letters().flat_map(|a| letters().map(move |b| format!("{scene}{a}{b}")));
    let free = one
        .chain(two)
        .find(|name| !taken.contains(&name.to_uppercase()));
    free.unwrap_or_default()
}

/// The actions of a scene with letters in their order, and what those that had a name
/// are called now.
pub(crate) fn lettered(
    number: &str,
    actions: &[ActionWords],
) -> (Vec<ActionRecord>, BTreeMap<String, String>) {
    let mut now = BTreeMap::new();
    let named = actions.iter().enumerate().map(|(nth, action)| {
        let name = format!("{number}{}", action_letter(nth));
        if !action.name.is_empty() {
            now.insert(action.name.clone(), name.clone());
        }
        ActionRecord {
            name,
            text: action.text.clone(),
            speaker: action.speaker.clone(),
        }
    });
    (named.collect(), now)
}

/// A setup after actions were renamed or struck out: `before` are all names that may
/// have changed, `now` what those that are left are called.
pub(crate) fn with_actions(
    setup: &SetupRecord,
    before: &BTreeSet<String>,
    now: &BTreeMap<String, String>,
) -> SetupRecord {
    let kept = |shown: &ShownRecord| {
        if !before.contains(&shown.action) {
            return Some(shown.clone());
        }
        now.get(&shown.action).map(|name| ShownRecord {
            action: name.clone(),
            off_camera: shown.off_camera,
        })
    };
    SetupRecord {
        shown: setup.shown.iter().filter_map(kept).collect(),
        ..setup.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_setup_is_the_master_then_a_letter_that_reads_as_no_figure() {
        let taken = |names: &[&str]| names.iter().map(|n| (*n).to_owned()).collect();
        assert_eq!(next_setup("2", &taken(&[])), "2");
        assert_eq!(next_setup("2", &taken(&["2", "2A"])), "2B");
        let to_h: Vec<String> = std::iter::once("2".to_owned())
            .chain(('A'..='H').map(|c| format!("2{c}")))
            .collect();
        assert_eq!(next_setup("2", &to_h.into_iter().collect()), "2J");
    }

    #[test]
    fn the_next_scene_stands_above_all_others() {
        assert_eq!(next_scene(["1", "12B", "prologue"].into_iter()), "13");
        assert_eq!(next_scene(std::iter::empty()), "1");
    }
}
