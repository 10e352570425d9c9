//! The answer of `finish`.

use onestrand_finish::{Coding, Container};
use serde::Serialize;
use utoipa::ToSchema;

use crate::documents::TreatmentDocument;

/// What a finish shows of a version. Said on its label.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum FinishShows {
    /// The strip as it is on the bench, with all that joins and tears have taken.
    Strip,
    /// The version as it is planned; it was not on the bench yet.
    Planned,
    /// Every planned frame, also what the strip has lost.
    Whole,
}

impl FinishShows {
    /// Words for the label.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Strip => "the strip as it is, losses included",
            Self::Planned => "as planned, not cut yet",
            Self::Whole => "whole, with frames that the strip may have lost",
        }
    }
}

/// The sound of a finish.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct FinishSoundDocument {
    /// The mix.
    pub path: String,
    /// Leader that stood before the picture in it and was left out. Unit: frames.
    pub leader_frames: u32,
    /// Samples in the finish.
    pub samples: u64,
}

/// The answer of `finish`.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FinishDocument {
    /// The cut.
    pub cut: String,
    /// The file.
    pub path: String,
    /// Frames of the film in it.
    pub frames: u64,
    /// Frames of the film a second.
    pub speed: String,
    /// Running time.
    pub clock: String,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// The coding.
    pub coding: String,
    /// Frames that are black: leader, cards that are not drawn, frames no scan shows.
    pub black: u64,
    /// Of these, frames of the film that no scan shows.
    pub missing: u64,
    /// What it shows of the version.
    pub shows: FinishShows,
    /// Frames that lie turned over or end for end on the strip; they are shown with the
    /// picture upright.
    pub turned: u64,
    /// Frames of titles that are drawn, for they are not photographed yet.
    pub cards: u64,
    /// Frames of the file a second.
    pub file_rate: String,
    /// Frames of the file.
    pub file_frames: u64,
    /// How the film's frames stand in the file's, in words.
    pub pattern: String,
    /// Frames that were made before it was stopped and not made again.
    pub kept: u64,
    /// What was done to the pictures.
    pub treated: Option<TreatmentDocument>,
    /// The sound.
    pub sound: Option<FinishSoundDocument>,
    /// The list of all frames.
    pub list: Option<String>,
    /// The captions.
    pub captions: Option<String>,
}

/// The coding in words.
pub(super) fn coding_words(coding: Coding, container: Container) -> String {
    let within = match container {
        Container::Matroska | Container::Nut => "Matroska",
        Container::Mov => "a MOV file",
        Container::Mp4 => "MP4",
    };
    format!("{} in {within}", coding.name())
}
