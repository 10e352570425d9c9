//! The list of titles on paper.

use crate::plan::PlanHead;

/// The titles of a film to print.
#[derive(Clone, Debug)]
pub struct TitleList {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The titles.
    pub rows: Vec<TitleListRow>,
    /// The reading rule in words.
    pub rule: String,
    /// What the copy stand is set to, in words; may be empty.
    pub set_up: String,
}

/// A title of the list; words ready for the eye.
#[derive(Clone, Debug)]
pub struct TitleListRow {
    /// As the slate names it.
    pub name: String,
    /// What it says.
    pub words: String,
    /// Its words.
    pub count: u32,
    /// How long the lettering stands. Unit: frames.
    pub hold: u32,
    /// The whole card. Unit: frames.
    pub whole: u32,
    /// What lies under the lettering.
    pub ground: String,
    /// `cel`, `card` or `second exposure`.
    pub cel: String,
    /// How it comes.
    pub comes: String,
    /// How it goes.
    pub goes: String,
    /// Width of the field. Unit: millimetres in words.
    pub field: String,
    /// The lens.
    pub lens: String,
    /// From the lens to the artwork.
    pub distance: String,
    /// The stop.
    pub stop: String,
    /// What it takes of the roll. Unit: frames.
    pub of_roll: u32,
}
