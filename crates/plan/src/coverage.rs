//! What covers what: actions, setups and takes, before the set is struck.

mod fewest_setups;
mod retake;

pub use retake::{RetakeOn, RollLeft, retake};

use std::collections::BTreeMap;

use crate::script::Script;
use fewest_setups::fewest_setups;

/// A setup that shows an action, and how often it was or will be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CoveredBy {
    /// The setup.
    pub setup: String,
    /// Its takes.
    pub takes: u32,
}

/// An action with all that shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ActionCover {
    /// The action's name.
    pub action: String,
    /// The setups that show it on camera and have a take.
    pub by: Vec<CoveredBy>,
}

impl ActionCover {
    /// Takes that show it, over all setups.
    #[must_use]
    pub fn takes(&self) -> u32 {
        self.by.iter().map(|by| by.takes).sum()
    }
}

/// The coverage of a script.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Coverage {
    /// Every action in the order of the film.
    pub actions: Vec<ActionCover>,
    /// A smallest set of setups that still shows every action that is shown at all, in
    /// the order of the script.
    pub fewest_setups: Vec<String>,
    /// No set that does so is smaller than this.
    pub setups_at_least: usize,
}

impl Coverage {
    /// Actions that something shows.
    #[must_use]
    pub fn covered(&self) -> usize {
        self.actions.iter().filter(|a| !a.by.is_empty()).count()
    }

    /// Actions that nothing shows.
    #[must_use]
    pub fn uncovered(&self) -> Vec<&str> {
        self.named(|a| a.by.is_empty())
    }

    /// Actions that hang on one setup.
    #[must_use]
    pub fn single_setup(&self) -> Vec<&str> {
        self.named(|a| a.by.len() == 1)
    }

    /// Actions that hang on one take.
    #[must_use]
    pub fn single_take(&self) -> Vec<&str> {
        self.named(|a| a.takes() == 1)
    }

    /// Whether no smaller set of setups tells the story, proved.
    #[must_use]
    pub const fn is_fewest(&self) -> bool {
        self.fewest_setups.len() == self.setups_at_least
    }

    fn named(&self, is: impl Fn(&ActionCover) -> bool) -> Vec<&str> {
        let found = self.actions.iter().filter(|a| is(a));
        found.map(|a| a.action.as_str()).collect()
    }
}

/// Coverage by the takes that are planned.
#[must_use]
pub fn planned_coverage(script: &Script) -> Coverage {
    let planned = script.setups.iter();
    coverage(
        script,
        &planned
            .map(|s| (s.name.clone(), u32::from(s.takes)))
            .collect(),
    )
}

/// Coverage by takes that were shot, by setup. Setups that the script does not know show
/// nothing of it.
#[must_use]
pub fn coverage(script: &Script, takes: &BTreeMap<String, u32>) -> Coverage {
    let taken = |setup: &str| takes.get(setup).copied().unwrap_or(0);
    let mut by_action: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, setup) in script.setups.iter().enumerate() {
        if taken(&setup.name) == 0 {
            continue;
        }
        for shown in setup.shown.iter().filter(|shown| shown.on_camera) {
            let by = by_action.entry(&shown.action).or_default();
            if by.last() != Some(&at) {
                by.push(at);
            }
        }
    }
    let by = |name: &str| by_action.get(name).map_or(&[][..], Vec::as_slice);
    let named = |at: &usize| {
        let setup = script.setups[*at].name.clone();
        let takes = taken(&setup);
        CoveredBy { setup, takes }
    };
    let actions: Vec<ActionCover> = script
        .actions()
        .map(|action| ActionCover {
            action: action.name.clone(),
            by: by(&action.name).iter().map(named).collect(),
        })
        .collect();
    let wanted: Vec<Vec<usize>> = script
        .actions()
        .map(|action| by(&action.name).to_vec())
        .filter(|by| !by.is_empty())
        .collect();
    let fewest = fewest_setups(&wanted);
    let names = fewest.chosen.iter();
    Coverage {
        actions,
        fewest_setups: names.map(|at| script.setups[*at].name.clone()).collect(),
        setups_at_least: fewest.bound,
    }
}
