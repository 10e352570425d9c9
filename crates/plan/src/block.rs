//! A setup with all its takes, and the film it is to be laid on.

use std::collections::BTreeMap;

use onestrand_film::Frames;

use crate::found::Found;

/// One setup with all its takes. It stays whole on one roll, so that what was shot
/// together comes back from the laboratory together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// The setup as the slate says it (`2A`), or the letter of a title (`M`).
    pub setup: String,
    /// Frames of each take, run-up and run-out included.
    pub takes: Vec<Frames>,
    /// Line of the script it stands on, where it was read.
    pub line: Option<u64>,
}

impl Block {
    /// A setup whose takes are all equally long.
    #[must_use]
    pub fn even(setup: &str, takes: u16, frames: Frames) -> Self {
        Self {
            setup: setup.to_owned(),
            takes: vec![frames; usize::from(takes)],
            line: None,
        }
    }

    /// All frames of the block.
    #[must_use]
    pub fn frames(&self) -> Frames {
        Frames::total(self.takes.iter().copied())
    }

    pub(crate) fn place(&self) -> String {
        format!("setup {}", self.setup)
    }
}

/// The film that the takes are laid on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StockRules {
    /// Frames of a roll that can be used: its length without what is lost at head and
    /// tail.
    pub load: Frames,
    /// Frames of the last roll that no take may use: for titles, tests, a retake.
    pub kept_back: Frames,
    /// The longest run of a clockwork motor on one wind, where the camera has one.
    pub one_wind: Option<Frames>,
}

impl StockRules {
    /// Rolls of a usable load, nothing kept back, a motor without a limit.
    #[must_use]
    pub const fn of_load(load: Frames) -> Self {
        Self {
            load,
            kept_back: Frames::ZERO,
            one_wind: None,
        }
    }
}

/// Everything that keeps the blocks from being laid on such rolls.
pub(crate) fn problems(blocks: &[Block], rules: &StockRules) -> Vec<Found> {
    let mut found = of_rules(rules);
    if blocks.is_empty() {
        found.push(Found::new(None, "", "there is no setup to lay on film"));
    }
    found.extend(doubled(blocks));
    for block in blocks {
        found.extend(of_takes(block, rules));
    }
    found
}

fn of_rules(rules: &StockRules) -> Vec<Found> {
    let mut found = Vec::new();
    if rules.load == Frames::ZERO {
        let said = "has no frame; say how many frames of a roll can be used";
        found.push(Found::new(None, "the load", said));
    } else if rules.kept_back >= rules.load {
        let said = format!(
            "{} frames kept back leave nothing of a load of {}; buy that film as a roll of its own",
            rules.kept_back, rules.load
        );
        found.push(Found::new(None, "the load", said));
    }
    found
}

fn doubled(blocks: &[Block]) -> Vec<Found> {
    let mut seen: BTreeMap<String, Option<u64>> = BTreeMap::new();
    let mut found = Vec::new();
    for block in blocks {
        let name = block.setup.trim().to_uppercase();
        if let Some(first) = seen.get(&name) {
            let first = first.map_or(String::new(), |line| format!(", first on line {line}"));
            let said = format!("stands twice{first}; give the second another letter");
            found.push(Found::new(block.line, block.place(), said));
        } else {
            seen.insert(name, block.line);
        }
    }
    found
}

fn of_takes(block: &Block, rules: &StockRules) -> Vec<Found> {
    let mut wrong = Vec::new();
    if block.takes.is_empty() {
        wrong.push("has no take; plan one, or leave the setup out".to_owned());
    }
    let empty = block.takes.iter().filter(|t| **t == Frames::ZERO).count();
    if empty > 0 {
        wrong.push(format!(
            "{empty} of its takes {} no length; give it its seconds",
            if empty == 1 { "has" } else { "have" }
        ));
    }
    let longest = block.takes.iter().copied().max().unwrap_or(Frames::ZERO);
    if rules.load != Frames::ZERO && longest > rules.load {
        wrong.push(format!(
            "a take of {longest} frames is longer than the load of {} by {}; divide the action",
            rules.load,
            longest.saturating_sub(rules.load)
        ));
    }
    wrong
        .into_iter()
        .map(|said| Found::new(block.line, block.place(), said))
        .collect()
}
