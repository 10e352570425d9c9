//! Visits to the places.

use super::PlanHead;

/// What was seen when the places were visited, with room for what is seen on the day.
#[derive(Clone, Debug)]
pub struct VisitsSheet {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The visits in the order in which they were written down.
    pub visits: Vec<Visit>,
}

/// A visit.
#[derive(Clone, Debug, Default)]
pub struct Visit {
    /// The place, in the maker's words.
    pub place: String,
    /// The scenes it is for, by number; none is for the whole film.
    pub scenes: Vec<String>,
    /// What was seen, in the maker's words.
    pub words: String,
    /// The photograph, the bytes of a JPEG or PNG file.
    pub photograph: Option<Vec<u8>>,
    /// What is said in place of a photograph that was lost; empty where there was none.
    pub lost: String,
}
