//! The lines of the log as they are kept.

use onestrand_bench::Taking;
use onestrand_store::CutRecord;
use serde::{Deserialize, Serialize};

use crate::documents::HappenedWords;

/// One line. What is kept once is never edited: fields are added, with a default.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "line", rename_all = "snake_case")]
pub(super) enum BenchLine {
    /// A version went on the bench.
    Begin(Box<Begin>),
    /// What lies wrongly on the reel is to be opened and joined rightly.
    Mend {},
    /// The rest was planned anew.
    Order { pins: u32, order: Vec<TakingRecord> },
    /// The user goes ahead with a roll whose scan is not proved complete.
    GoAhead { roll: String, words: String },
    /// Something was done.
    Deed { deed: HappenedWords },
    /// A line was wrong.
    Strike { number: u32, reason: String },
    /// The user's words.
    Remark { words: String },
    /// The version came off the bench before anything was done to film.
    TakeOff {},
}

/// A version as it went on the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Begin {
    /// Its name.
    pub(super) cut: String,
    /// The version itself: whatever becomes of its name, this is being made.
    pub(super) version: CutRecord,
    /// The way of winding.
    pub(super) winding: String,
    /// Pins owned.
    pub(super) pins: u32,
    /// All rolls of the film with their lengths as they were known.
    pub(super) rolls: Vec<(String, u32)>,
    /// In which order strips are taken.
    pub(super) order: Vec<TakingRecord>,
    /// Rolls that are wound through first.
    pub(super) through: Vec<String>,
    /// Of a re-cut: what the made film is turned back with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) turn_back: Option<TurnBack>,
}

/// How the made film is turned back to make another version of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct TurnBack {
    /// How often it was turned back before.
    pub(super) before: usize,
    /// Leader and cards: the position each had, and the one it has now.
    pub(super) others: Vec<(usize, usize)>,
}

/// One strip in the order in which they are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct TakingRecord {
    strip: usize,
    #[serde(default)]
    backward: bool,
}

impl From<Taking> for TakingRecord {
    fn from(taking: Taking) -> Self {
        Self {
            strip: taking.strip,
            backward: taking.backward,
        }
    }
}

impl From<TakingRecord> for Taking {
    fn from(record: TakingRecord) -> Self {
        Self {
            strip: record.strip,
            backward: record.backward,
        }
    }
}

impl BenchLine {
    /// The word for its kind.
    pub(super) const fn kind(&self) -> &'static str {
        match self {
            Self::Begin(_) => "begin",
            Self::Mend {} => "mend",
            Self::Order { .. } => "order",
            Self::GoAhead { .. } => "go_ahead",
            Self::Deed { .. } => "deed",
            Self::Strike { .. } => "strike",
            Self::Remark { .. } => "note",
            Self::TakeOff {} => "take_off",
        }
    }
}
