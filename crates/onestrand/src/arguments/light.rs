//! Commands about the light of the shots.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use onestrand_film::FrameName;

/// The light of the shots, in points: 12 are a stop, more is lighter.
#[derive(Debug, Subcommand)]
pub(crate) enum Light {
    /// The grading card as it stands.
    List {
        /// The production.
        dir: PathBuf,
    },
    /// How much light a patch of a frame holds.
    Measure {
        /// The production.
        dir: PathBuf,
        /// The frame, such as R1·402.
        frame: FrameName,
        /// Left, top, width and height in per cent of the picture, such as 40,30,10,10.
        #[arg(long, value_name = "L,T,W,H")]
        at: String,
    },
    /// Solve shots together from patches of the same things in a CSV form
    /// `thing,frame,left,top,width,height`, the sides in per cent.
    Solve(LightSolve),
    /// Give a shot its light by hand.
    Set(LightSet),
    /// A shot is to have no light of its own any more.
    Strike {
        /// The production.
        dir: PathBuf,
        /// The shot, by its slate or its first frame.
        shot: String,
    },
    /// Write the grading card as an ASC CDL collection, or read one in.
    Cdl(LightCdl),
    /// Print the grading card of a version.
    Sheet {
        /// The production.
        dir: PathBuf,
        /// The version.
        #[arg(long)]
        cut: String,
        /// The folder.
        #[arg(long)]
        out: PathBuf,
        /// The paper.
        #[arg(long, value_enum, default_value_t = super::Paper::A4)]
        paper: super::Paper,
    },
}

/// Patches to solve.
#[derive(Debug, Args)]
pub(crate) struct LightSolve {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The form.
    pub(crate) file: PathBuf,
    /// The shot that keeps its light, by any of its frames; the mean of all when not said.
    #[arg(long, value_name = "FRAME")]
    pub(crate) held: Option<FrameName>,
    /// The version whose pieces are the shots; takes are when not said.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// Keep the points on the grading card.
    #[arg(long)]
    pub(crate) keep: bool,
    /// Why, for the card.
    #[arg(long, default_value = "", requires = "keep")]
    pub(crate) reason: String,
}

/// A light given by hand.
#[derive(Debug, Args)]
pub(crate) struct LightSet {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The shot: a take by its slate, or a frame of it.
    pub(crate) shot: String,
    /// Red, green and blue, such as 5,5,7 or -2,0,0.
    #[arg(
        long,
        value_name = "R,G,B",
        allow_hyphen_values = true,
        value_delimiter = ','
    )]
    pub(crate) points: Vec<i16>,
    /// The version whose piece is meant; the whole take when not said.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// Why, for the card.
    #[arg(long, default_value = "")]
    pub(crate) reason: String,
}

/// The card as an ASC CDL.
#[derive(Debug, Args)]
pub(crate) struct LightCdl {
    /// The production.
    pub(crate) dir: PathBuf,
    /// Write it here (`.ccc`).
    #[arg(long, required_unless_present = "from", conflicts_with = "from")]
    pub(crate) out: Option<PathBuf>,
    /// Read points from here (`.ccc`, `.cdl`, `.cc`).
    #[arg(long)]
    pub(crate) from: Option<PathBuf>,
    /// Keep what was read on the grading card.
    #[arg(long, requires = "from")]
    pub(crate) keep: bool,
}
