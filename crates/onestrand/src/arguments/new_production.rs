//! The command that makes a production.

use std::path::PathBuf;

use clap::Args;

/// A production to be made.
#[derive(Debug, Args)]
pub(crate) struct NewProduction {
    /// Where to.
    pub(crate) dir: PathBuf,
    /// The working title.
    #[arg(long)]
    pub(crate) title: String,
    /// regular8, super8, 9.5, 16 or 35; the template's or the other film's when not said,
    /// else super8.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
    /// Frames a second: 18, 50/3, 24000/1001; the template's or the other film's when not
    /// said, else 18.
    #[arg(long)]
    pub(crate) speed: Option<String>,
    /// What it begins as: three-roll-story, cut-in-camera, class-two-rolls, sixteen-cement
    /// or club-reel.
    #[arg(long, conflicts_with = "like")]
    pub(crate) template: Option<String>,
    /// A production whose bench, stock and join it gets, without its film.
    #[arg(long, value_name = "DIR")]
    pub(crate) like: Option<PathBuf>,
}
