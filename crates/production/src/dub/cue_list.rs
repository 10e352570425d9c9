//! The cues of a film as the command line lists them.

use onestrand_store::Production;
use serde::Serialize;

use super::document::dub_document;
use crate::ProductionError;
use crate::documents::{
    CueDocument, CueEchoDocument, CueProposalDocument, CueStateWord, HoldsToWord,
};

/// A cue in the list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CueListed {
    /// Its column.
    pub column: String,
    /// The sound, or what is made by hand.
    pub sound: String,
    /// `frame`, `join` or `clock`.
    pub anchor: HoldsToWord,
    /// What it holds to, in words.
    pub at: String,
    /// The running frame it begins at; an orphan stands where it was last.
    pub at_running_frame: i64,
    /// How long. Unit: frames.
    pub frames: u32,
    /// What became of it.
    pub state: CueStateWord,
    /// Where it was last laid.
    pub was: Option<i64>,
    /// Where it might go.
    pub proposals: Vec<CueProposalDocument>,
    /// A join heard near it.
    pub echo: Option<CueEchoDocument>,
}

/// The cues as they stand in a version.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version, or it cannot be read.
pub fn cue_list(production: &Production, cut: &str) -> Result<Vec<CueListed>, ProductionError> {
    let document = dub_document(production, cut)?;
    let one = |cue: &CueDocument| {
        let column = document
            .columns
            .iter()
            .find(|known| known.id == cue.cue.column);
        let sound = document
            .sounds
            .iter()
            .find(|known| Some(known.id) == cue.cue.sound);
        let named = match cue.cue.name.trim() {
            "" => sound.map_or(String::new(), |known| known.sound.name.clone()),
            name => name.to_owned(),
        };
        CueListed {
            column: column.map_or(String::new(), |known| known.column.name.clone()),
            sound: named,
            anchor: cue.cue.start.to,
            at: cue.holds.clone(),
            at_running_frame: cue.at,
            frames: cue.frames,
            state: cue.state,
            was: cue.was,
            proposals: cue.proposals.clone(),
            echo: cue.echo.clone(),
        }
    };
    Ok(document.cues.iter().map(one).collect())
}
