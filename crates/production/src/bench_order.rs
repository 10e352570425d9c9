//! The work order of a version.

use onestrand_bench::{Pull, PullList};
use onestrand_cut::JoinKind;
use onestrand_film::RollId;
use onestrand_store::Production;
use serde::Serialize;
use std::collections::BTreeMap;

use crate::{ProductionError, strand};

/// Minutes that one cut of the blade and one join take: a beginner's time with
/// gloves on, common practice; to be replaced by the user's own.
const MINUTES_A_CUT: f64 = 0.5;
const MINUTES_A_JOIN: f64 = 2.0;

/// How the work is to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BenchOptions {
    /// Another join than the cut's own usual one.
    pub join: Option<JoinKind>,
}

/// The answer of `bench`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BenchDocument {
    /// The cut.
    pub cut: String,
    /// The usual join.
    pub join: &'static str,
    /// Whether it can be done with the pins there are.
    pub feasible: bool,
    /// In which order the pieces are taken; so far `cut`: each when its turn
    /// comes, the rolls wound to and fro.
    pub order: &'static str,
    /// Whether no other order is better in roll changes, winding and pins.
    /// Cut order never claims so.
    pub best: bool,
    /// Whether the scan of each roll is proved complete.
    pub proved: BTreeMap<String, bool>,
    /// Strips after merging.
    pub pieces: usize,
    /// Cuts with the blade.
    pub cuts: usize,
    /// Joins, with head and tail leader.
    pub joins: usize,
    /// Stretches left over.
    pub leftovers: usize,
    /// Frames wound.
    pub wound_frames: u64,
    /// Pins wanted at the worst moment.
    pub pins_peak: u32,
    /// Mountings after the first.
    pub roll_changes: usize,
    /// Rolls in the order of their first mounting.
    pub roll_order: Vec<String>,
    /// Estimated time. Unit: minutes.
    pub minutes: f64,
    /// Other plans worth knowing; none are reckoned yet.
    pub alternatives: Vec<serde_json::Value>,
    /// What no plan can go below: each roll wound once to its last piece.
    pub lower_bound: LowerBound,
    /// The acts in order.
    pub steps: Vec<StepDocument>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// What no plan can go below.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct LowerBound {
    /// Every roll wanted is mounted at least once.
    pub roll_changes: usize,
    /// Every roll is wound at least to its last piece, worked from its head.
    pub wound_frames: u64,
}

/// One act at the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepDocument {
    /// `mount`, `wind`, `cut`, `take_up`, `join` or `unmount`.
    pub act: &'static str,
    /// The roll.
    pub roll: String,
    /// The frame the act is about: wound to, or cut before.
    pub frame: Option<u32>,
    /// The pin, when one is used.
    pub pin: Option<u32>,
    /// The position in the cut, from 1.
    pub position: Option<usize>,
    /// `head` or `tail`: which way it is wound.
    pub direction: Option<&'static str>,
}

/// Works the order out.
///
/// # Errors
/// [`ProductionError::CutRefused`] when the strand check refuses the cut,
/// [`ProductionError::Store`].
pub fn bench_order(
    production: &Production,
    name: &str,
    options: BenchOptions,
) -> Result<BenchDocument, ProductionError> {
    let strand::Checked {
        strand,
        cut,
        rules,
        join,
        ..
    } = strand::cuttable(production, name, options.join)?;
    let list = PullList::in_cut_order(&cut, &strand, &rules.table);
    let work = &list.work;
    let rolls = work.rolls();
    let proved = |id: &RollId| (id.to_string(), strand.roll(id).is_some_and(|r| r.proved));
    let minutes = work.cuts as f64 * MINUTES_A_CUT + work.joins as f64 * MINUTES_A_JOIN;
    Ok(BenchDocument {
        cut: name.to_owned(),
        join: join.word(),
        feasible: true,
        order: "cut",
        best: false,
        proved: rolls.iter().map(proved).collect(),
        pieces: work.pieces,
        cuts: work.cuts,
        joins: work.joins,
        leftovers: work.leftovers,
        wound_frames: list.wound,
        pins_peak: 0,
        roll_changes: list.roll_changes,
        roll_order: mounting_order(&list),
        minutes,
        alternatives: Vec::new(),
        lower_bound: lower_bound(&list),
        steps: steps(&list),
        assumptions: vec![
            "pieces are taken in cut order; the order that needs fewest roll changes and frames wound is not reckoned yet".to_owned(),
            format!("{MINUTES_A_CUT} min a cut and {MINUTES_A_JOIN} min a join, common practice: put your own in"),
        ],
    })
}

fn mounting_order(list: &PullList) -> Vec<String> {
    let mut order: Vec<String> = Vec::new();
    for pull in &list.pulls {
        let name = pull.extent.roll.to_string();
        if !order.contains(&name) {
            order.push(name);
        }
    }
    order
}

fn lower_bound(list: &PullList) -> LowerBound {
    let mut last: BTreeMap<&RollId, u32> = BTreeMap::new();
    for pull in &list.pulls {
        let end = pull.extent.taken.end().index();
        let known = last.entry(&pull.extent.roll).or_default();
        *known = (*known).max(end);
    }
    LowerBound {
        roll_changes: last.len().saturating_sub(1),
        wound_frames: last.values().map(|n| u64::from(*n)).sum(),
    }
}

fn steps(list: &PullList) -> Vec<StepDocument> {
    let mut all = Vec::new();
    let mut mounted: Option<String> = None;
    for pull in &list.pulls {
        if pull.mount {
            if let Some(before) = mounted.replace(pull.extent.roll.to_string()) {
                all.push(step("unmount", &before, None, None, None));
            }
            all.push(step("mount", pull.extent.roll.as_str(), None, None, None));
        }
        all.extend(steps_of(pull));
    }
    if let Some(last) = mounted {
        all.push(step("unmount", &last, None, None, None));
    }
    all
}

fn steps_of(pull: &Pull) -> Vec<StepDocument> {
    let roll = pull.extent.roll.as_str();
    let begin = pull.extent.taken.begin().index();
    let end = pull.extent.taken.end().index();
    let position = Some(pull.extent.positions.0);
    let mut all = Vec::new();
    if pull.wind != 0 {
        let way = if pull.wind > 0 { "tail" } else { "head" };
        all.push(step("wind", roll, Some(begin), position, Some(way)));
    }
    all.push(step("cut", roll, Some(begin), position, None));
    all.push(step("wind", roll, Some(end), position, Some("tail")));
    all.push(step("cut", roll, Some(end), position, None));
    all.push(step("take_up", roll, None, position, None));
    all.push(step("join", roll, None, position, None));
    all
}

fn step(
    act: &'static str,
    roll: &str,
    frame: Option<u32>,
    position: Option<usize>,
    direction: Option<&'static str>,
) -> StepDocument {
    StepDocument {
        act,
        roll: roll.to_owned(),
        frame,
        pin: None,
        position,
        direction,
    }
}
