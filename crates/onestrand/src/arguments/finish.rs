//! The command for the digital finish.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Finish {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version.
    #[arg(long)]
    pub(crate) cut: String,
    /// The file: .mkv for FFV1, the archive master; .mov for ProRes; .mp4 for H.264.
    #[arg(long)]
    pub(crate) out: PathBuf,
    /// Frames a second of the file, by whole frames: 24, 25, 30000/1001, 30. The film's
    /// own speed where nothing is said.
    #[arg(long, value_name = "RATE")]
    pub(crate) file_rate: Option<String>,
    /// Every planned frame, also what the strip on the bench has lost.
    #[arg(long)]
    pub(crate) whole: bool,
    /// The mix, as `onestrand mix` writes it.
    #[arg(long, value_name = "MIX.wav")]
    pub(crate) sound: Option<PathBuf>,
    /// Titles that are not photographed yet stand black instead of drawn.
    #[arg(long)]
    pub(crate) black_cards: bool,
    /// Give each shot the light of the grading card.
    #[arg(long)]
    pub(crate) light: bool,
    /// Take the weave out of the pictures. Not for the archive master.
    #[arg(long)]
    pub(crate) steady: bool,
    /// Even the flicker of the light. Not for the archive master.
    #[arg(long)]
    pub(crate) flicker: bool,
    /// A list of all frames with the hash of each picture, as CSV.
    #[arg(long, value_name = "LIST.csv")]
    pub(crate) list: Option<PathBuf>,
    /// What the voices say, as WebVTT.
    #[arg(long, value_name = "FILE.vtt")]
    pub(crate) captions: Option<PathBuf>,
}
