//! Labels for reels of cut film, their leaders and their cans.

use crate::head::Head;

/// Reel and can labels to print, to be cut apart.
#[derive(Clone, Debug)]
pub struct ReelLabels {
    /// What every sheet has in common.
    pub head: Head,
    /// The reels in order: four labels each.
    pub reels: Vec<ReelLabel>,
}

/// What is written on one reel, on its can and on its leaders: one record, so that
/// they cannot disagree. An empty text is a line to write on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReelLabel {
    /// The title of the production.
    pub title: String,
    /// The films on it: `v2`, or `v2, no. 1 to 12`.
    pub films: String,
    /// Which reel, from 1, of how many; nothing where it is not known.
    pub number: Option<(u32, u32)>,
    /// Gauge and speed: `Super 8, 18 f/s`.
    pub what: String,
    /// The sound, in words.
    pub sound: String,
    /// Colour or black and white.
    pub picture: String,
    /// Which end is outermost, as it was said; never guessed.
    pub lies: ReelLies,
    /// Whose it is.
    pub owner: String,
    /// The date.
    pub date: String,
    /// The films alone, in feet and frames.
    pub length: String,
    /// How long they run.
    pub clock: String,
    /// With leaders, in feet and frames.
    pub with_leaders: String,
    /// What it is wound on.
    pub reel: String,
    /// Its joins: `24 joins, tape`; nothing where they were not counted.
    pub joins: String,
}

/// How the reel lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum ReelLies {
    /// Nobody has said: boxes to tick.
    #[default]
    NotSaid,
    /// Its head is outermost.
    HeadsOut,
    /// Its tail is.
    TailsOut,
}
