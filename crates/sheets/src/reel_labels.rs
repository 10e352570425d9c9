//! Labels for the reel of a cut film, its leaders and its can.

use onestrand_film::Frames;

use crate::head::Head;

/// Reel and can labels to print, to be cut apart.
#[derive(Clone, Debug)]
pub struct ReelLabels {
    /// What every sheet has in common.
    pub head: Head,
    /// The length of the film without leaders.
    pub running: Frames,
    /// Joins, those to the leaders included.
    pub joins: u32,
    /// Which end is outermost, as it was asked; never guessed.
    pub lies: ReelLies,
    /// The sound, in words; empty for a line to write on.
    pub sound: String,
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
