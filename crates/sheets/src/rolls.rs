//! Sheets about rolls, apart from any cut: the log, the labels of the trim bin,
//! the inspection and the scans.

use onestrand_film::{FramePos, FrameRange, Frames, RollId};

use crate::head::Head;

/// A log sheet to print: what is on each roll.
///
/// Its head names no version; in its place stand the rolls.
#[derive(Clone, Debug)]
pub struct LogSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// The rolls in their order.
    pub rolls: Vec<LoggedRoll>,
}

/// One roll of a log.
#[derive(Clone, Debug)]
pub struct LoggedRoll {
    /// The roll.
    pub roll: RollId,
    /// Its length.
    pub frames: Frames,
    /// Its takes in order.
    pub takes: Vec<LoggedTake>,
}

/// One take of a log.
#[derive(Clone, Debug)]
pub struct LoggedTake {
    /// Setup and take, `3A-T2`; empty when it was not named.
    pub slate: String,
    /// Its frames, first to first thrown.
    pub span: FrameRange,
    /// How it begins, in words: `camera stop`.
    pub begins: String,
    /// Size of the view, may be empty.
    pub size: String,
    /// What the camera does, may be empty.
    pub camera_move: String,
    /// Who moves which way, may be empty.
    pub direction: String,
    /// What happens, may be empty.
    pub action: String,
    /// Signs of faults, in words, each with its measure.
    pub signs: Vec<String>,
    /// What the makers thought of it.
    pub chosen: Chosen,
    /// The maker's note, may be empty.
    pub note: String,
    /// Its first frame as a JPEG or PNG file, nothing for a roll that was never
    /// scanned.
    pub picture: Option<Vec<u8>>,
}

/// Whether a take is meant to be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// Nothing was said.
    NotSaid,
    /// Circled.
    Circled,
    /// Kept in reserve.
    Hold,
    /// Not to be used.
    NotUsed,
}

/// Labels for the pins of a trim bin, to be cut apart.
#[derive(Clone, Debug)]
pub struct TrimLabels {
    /// What every sheet has in common.
    pub head: Head,
    /// The labels in the order of the pins.
    pub labels: Vec<TrimLabel>,
}

/// The label of one strip.
#[derive(Clone, Debug)]
pub struct TrimLabel {
    /// The pin it hangs on, counted from 1.
    pub pin: u32,
    /// The roll.
    pub roll: RollId,
    /// Setup and take; empty when it was not named.
    pub slate: String,
    /// The frames of the strip, first to first thrown.
    pub span: FrameRange,
    /// What to know before it is cut, in a few words, may be empty.
    pub remark: String,
    /// Its first frame as a JPEG or PNG file.
    pub picture: Option<Vec<u8>>,
}

/// An inspection sheet: a block for each roll, filled in as far as is known;
/// the rest is for the pencil.
#[derive(Clone, Debug)]
pub struct InspectionSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// The rolls in their order.
    pub rolls: Vec<InspectedRoll>,
}

/// What is known of a roll on the bench. An empty text is a line to write on.
#[derive(Clone, Debug)]
pub struct InspectedRoll {
    /// The roll.
    pub roll: RollId,
    /// Its length.
    pub frames: Frames,
    /// The base, in words.
    pub base: String,
    /// The length as it was measured, in the maker's words.
    pub measured: String,
    /// The wind, A or B.
    pub wind: String,
    /// What it is fit for, in words.
    pub fit: String,
    /// Camera stops and joins between its takes, in words.
    pub joins: String,
    /// Fog, scratches and other signs that run over takes, in words.
    pub signs: Vec<String>,
    /// Where it is wound and its number in a collection, in words.
    pub kept: String,
    /// A hundred frames on the ruler: `377.6 mm, new 381.0`.
    pub hundred: String,
    /// Its length by a ruler on its reel, with what is left open.
    pub wound: String,
    /// Which half of a strip of double-run film it is and how it lies, in words.
    pub half: String,
    /// What was found with the film in the hand.
    pub found: FoundByHand,
    /// Joins that were found on it, in the order of the film.
    pub joins_found: Vec<FoundJoin>,
    /// What to be careful of with this roll.
    pub cautions: Vec<String>,
}

/// What was found with the film in the hand. An empty text was not looked at.
#[derive(Clone, Debug, Default)]
pub struct FoundByHand {
    /// Colour, black and white, toned.
    pub picture: String,
    /// Heads out or tails out.
    pub lies: String,
    /// Level of an acid strip.
    pub acid: String,
    /// Smell of vinegar.
    pub vinegar: String,
    /// How flat it lies.
    pub warping: String,
    /// The perforations.
    pub perforations: String,
    /// Scratches, and on which side.
    pub scratches: String,
    /// Whether the colour holds.
    pub fading: String,
    /// The sound on it.
    pub sound: String,
    /// Who inspected it, and on which day.
    pub by: String,
    /// Anything more.
    pub note: String,
}

/// A join found on a roll.
#[derive(Clone, Debug)]
pub struct FoundJoin {
    /// The first frame after it.
    pub frame: FramePos,
    /// The kind, in a word.
    pub kind: String,
    /// What is to be said of it, may be empty.
    pub note: String,
}

/// A scan sheet: which file holds which roll, and whether all of it.
#[derive(Clone, Debug)]
pub struct ScanSheet {
    /// What every sheet has in common.
    pub head: Head,
    /// The scans in the order of the rolls.
    pub scans: Vec<ScanRow>,
}

/// One scanned file.
#[derive(Clone, Debug)]
pub struct ScanRow {
    /// The roll.
    pub roll: RollId,
    /// The name of the file, or of the first picture of a sequence.
    pub file: String,
    /// File frames a second, or `pictures`.
    pub rate: String,
    /// Width and height. Unit: pixels.
    pub size: (u32, u32),
    /// The coding, in words.
    pub coding: String,
    /// Size of all of it. Unit: bytes.
    pub bytes: u64,
    /// Frames in the file.
    pub file_frames: u64,
    /// BLAKE3 of the file, in hexadecimal.
    pub checksum: String,
    /// The film frames of the roll that this file shows, first to first after;
    /// nothing where that is not known.
    pub film: Option<FrameRange>,
    /// Film frames on the roll that some file shows.
    pub found: Frames,
    /// Frames that the measured length calls for; nothing when it was not measured.
    pub expected: Option<Frames>,
    /// Whether this is the first file of its roll: what is said of the whole
    /// roll stands there.
    pub first_of_roll: bool,
}
