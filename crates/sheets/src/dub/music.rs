//! Music and rights on paper.

use crate::plan::PlanHead;

/// A list of music and rights to print.
#[derive(Clone, Debug)]
pub struct MusicList {
    /// What every sheet has in common; `place` says which version.
    pub head: PlanHead,
    /// The pieces, in the order of the film.
    pub rows: Vec<MusicRow>,
    /// Blank rows to write into.
    pub blank_rows: u32,
}

/// A piece of music, or another recording that belongs to somebody. What is
/// empty leaves a line to write on.
#[derive(Clone, Debug)]
pub struct MusicRow {
    /// Its title.
    pub title: String,
    /// Who wrote it, words too, and when they died if they did.
    pub written_by: String,
    /// Who plays, speaks or recorded it.
    pub played_by: String,
    /// Where the recording comes from: record, tape, number, year.
    pub recording: String,
    /// Running frames of the film in which it is heard: first, and after the last.
    pub used: Vec<(u32, u32)>,
    /// The right in the work.
    pub work: RightsStanding,
    /// Who must be asked for the work.
    pub ask_for_work: String,
    /// The right in the recording, which is another.
    pub recorded: RightsStanding,
    /// Who must be asked for the recording.
    pub ask_for_recording: String,
    /// What was agreed: for which showings, for how much.
    pub agreed: String,
}

/// How a right stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RightsStanding {
    /// Nobody has asked yet.
    NotKnown,
    /// Asked, no answer yet.
    Asked,
    /// Granted, in writing.
    Granted,
    /// Nobody need be asked: our own, given away by its maker, or its term is over.
    NotNeeded,
    /// Refused.
    Refused,
}
