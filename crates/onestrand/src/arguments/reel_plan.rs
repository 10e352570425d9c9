//! Commands about making reels up, and about the hall.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::LiesWord;

/// What goes on which reel.
#[derive(Debug, Args)]
pub(crate) struct ReelPlan {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version; several with commas, in the order in which they are shown.
    #[arg(long, required = true, value_delimiter = ',')]
    pub(crate) cut: Vec<String>,
    /// Leader at the head of each reel: 10ft0.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) leader: Option<String>,
    /// Leader at the tail of each reel.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) tail_leader: Option<String>,
    /// Spacing between two films.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) spacing: Option<String>,
    /// Diameter of the hub in mm, of all reels.
    #[arg(long, value_name = "MM")]
    pub(crate) hub: Option<f64>,
    /// Thickness of the film in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) thickness: Option<f64>,
    /// The true speed of the machine; the film's own when not said.
    #[arg(long)]
    pub(crate) speed: Option<String>,
    /// Only this reel: 50ft, or one of your own by its name. May be given several times.
    #[arg(long, value_name = "REEL")]
    pub(crate) reel: Vec<String>,
    /// How it will lie; written on the label as it is said here, and not else.
    #[arg(long)]
    pub(crate) lies: Option<LiesWord>,
    /// What sound it has.
    #[arg(long)]
    pub(crate) sound: Option<ReelSoundWord>,
    /// Colour, or black and white.
    #[arg(long, value_name = "TEXT")]
    pub(crate) picture: Option<String>,
    /// Whose it is.
    #[arg(long, value_name = "WHO")]
    pub(crate) owner: Option<String>,
    /// The date on the label.
    #[arg(long, value_name = "DATE")]
    pub(crate) date: Option<String>,
    /// Also print the labels of all reels, their cans and leaders: a new file.
    #[arg(long, value_name = "PDF")]
    pub(crate) labels: Option<PathBuf>,
    /// The paper for them.
    #[arg(long, default_value = "a4")]
    pub(crate) paper: super::Paper,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReelSoundWord {
    Silent,
    Magnetic,
    Optical,
}

/// How far the projector stands, how large the picture is.
#[derive(Debug, Args)]
pub(crate) struct ThrowAsked {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: Option<f64>,
    /// Across the picture: 1.2m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) width: Option<String>,
    /// From the lens to the screen: 4.5m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: Option<String>,
    /// From the screen to the last row: 5m. Says how high letters must be.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) last_row: Option<String>,
}
