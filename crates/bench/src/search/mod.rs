//! The search for the best order of the work.
//!
//! What comes off a roll when is a [`course::Course`]; [`table::Table`] knows for
//! every standing of several courses how many roll changes are still needed.
//! Where the table holds all rolls the answer is exact; [`sweep`] goes further
//! with the tables of groups as its bound.

pub(crate) mod best;
pub(crate) mod corners;
pub(crate) mod course;
pub(crate) mod one_way;
pub(crate) mod pins;
pub(crate) mod polish;
pub(crate) mod sweep;
pub(crate) mod table;
pub(crate) mod tails;
