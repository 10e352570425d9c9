//! What was done to the originals, as a form that goes on by hand.

use onestrand_film::RollId;

use crate::head::Head;

/// The handling ledger: each time an original was run, cleaned, cut or mended.
#[derive(Clone, Debug)]
pub struct HandlingLedger {
    /// What every sheet has in common.
    pub head: Head,
    /// The rolls in order.
    pub rolls: Vec<HandledRoll>,
}

/// The ledger of one roll.
#[derive(Clone, Debug)]
pub struct HandledRoll {
    /// The roll.
    pub roll: RollId,
    /// What it comes to, in words: `run twice, cut 12 times`.
    pub sums: String,
    /// The entries, the first day first.
    pub entries: Vec<HandledEntry>,
}

/// One entry.
#[derive(Clone, Debug)]
pub struct HandledEntry {
    /// The day, as `2026-03-03`.
    pub on: String,
    /// What was done, in words: `through the projector`, `cut`.
    pub what: String,
    /// How many times on that day.
    pub times: u32,
    /// Who did it.
    pub by: String,
    /// What is to be said of it.
    pub note: String,
}
