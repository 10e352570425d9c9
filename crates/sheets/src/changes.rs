//! The change list: what is done to one version to make another of it.

use onestrand_film::{FrameDelta, Frames, Span};

use crate::head::Head;

/// A change list to print.
#[derive(Clone, Debug)]
pub struct ChangeList {
    /// What every sheet has in common; its version is the new one.
    pub head: Head,
    /// The name of the version as it is joined now.
    pub old: String,
    /// Its length.
    pub old_frames: Frames,
    /// The length of the new version.
    pub new_frames: Frames,
    /// The changes, in the order of the old version.
    pub rows: Vec<ChangeRow>,
}

/// One change.
#[derive(Clone, Debug)]
pub struct ChangeRow {
    /// Where, in running frames of the old version.
    pub at: Frames,
    /// What is done, in the maker's word: lift, trim, lay in, extend, move.
    pub act: String,
    /// With how many frames.
    pub frames: Frames,
    /// With which film.
    pub film: ChangedFilm,
    /// The running frame of the new version where it then stands; nothing for
    /// what goes out.
    pub to: Option<Frames>,
    /// By how much everything after it lies elsewhere then.
    pub offset_after: FrameDelta,
    /// The first frame of it as a JPEG or PNG file, if there is a picture.
    pub picture: Option<Vec<u8>>,
}

/// What a change takes in hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChangedFilm {
    /// Frames of a roll.
    Piece {
        /// The frames.
        span: Span,
        /// The take's name, may be empty.
        slate: String,
    },
    /// Leader without picture.
    Leader,
    /// A card to shoot.
    Card {
        /// What it says or is called.
        title: String,
    },
}
