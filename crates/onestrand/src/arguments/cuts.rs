//! Commands about the versions of a film.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use onestrand_production::USUAL_PINS;

use super::Join;

#[derive(Debug, Subcommand)]
pub(crate) enum Cut {
    /// Begin a version: empty, as another stands, or with every circled take.
    New(CutNew),
    /// Give a version another name or another note.
    Describe(CutDescribe),
    /// What leads from one version to another: the change list.
    Compare {
        /// The production.
        dir: PathBuf,
        /// The version that is changed.
        #[arg(long)]
        from: String,
        /// The version it becomes.
        #[arg(long)]
        to: String,
    },
    /// Bring a cutting sheet in as a new version: CSV, or OpenTimelineIO where
    /// the file is called .otio.
    Import {
        /// The production.
        dir: PathBuf,
        /// The form.
        file: PathBuf,
        /// The name of the version.
        #[arg(long)]
        name: String,
        /// The usual join of the version; what the file says, else tape.
        #[arg(long)]
        join: Option<Join>,
    },
    /// Print a version as CSV.
    Export {
        /// The production.
        dir: PathBuf,
        /// The version.
        #[arg(long)]
        cut: String,
    },
    /// All versions.
    List {
        /// The production.
        dir: PathBuf,
    },
}

#[derive(Debug, Args)]
pub(crate) struct CutNew {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The name of the version.
    #[arg(long)]
    pub(crate) name: String,
    /// The version it begins as.
    #[arg(long, conflicts_with = "assembled")]
    pub(crate) from: Option<String>,
    /// Lay every circled take in, whole, in script order.
    #[arg(long)]
    pub(crate) assembled: bool,
    /// Its usual join; that of `--from`, else tape.
    #[arg(long)]
    pub(crate) join: Option<Join>,
    /// A note on it.
    #[arg(long, default_value = "")]
    pub(crate) note: String,
}

#[derive(Debug, Args)]
pub(crate) struct CutDescribe {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version.
    #[arg(long)]
    pub(crate) cut: String,
    /// Its name from now on.
    #[arg(long, required_unless_present = "note")]
    pub(crate) name: Option<String>,
    /// Its note from now on.
    #[arg(long)]
    pub(crate) note: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct Bench {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version.
    #[arg(long)]
    pub(crate) cut: String,
    /// The usual join; the version's own when not said.
    #[arg(long)]
    pub(crate) join: Option<Join>,
    /// Pins of the trim bin.
    #[arg(long, default_value_t = USUAL_PINS)]
    pub(crate) pins: u32,
    /// A roll may be worked from its tail: it is wound through first, all of it.
    #[arg(long)]
    pub(crate) tails: bool,
    /// Rolls may be wound back and forth as the work wants it, and from the tail.
    #[arg(long)]
    pub(crate) to_and_fro: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Recut {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version that the film is cut to.
    #[arg(long)]
    pub(crate) from: String,
    /// The version it is to become.
    #[arg(long)]
    pub(crate) to: String,
    /// The usual join of both; the versions' own when not said.
    #[arg(long)]
    pub(crate) join: Option<Join>,
    /// Look for cheaper versions too, whose pieces begin and end up to so many frames
    /// earlier or later; 12 at most.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) tolerance: Option<u32>,
    /// Keep the cheapest of them as a new version of this name.
    #[arg(long, value_name = "NAME", requires = "tolerance")]
    pub(crate) keep: Option<String>,
    /// Make the work order too, with so many pins of the trim bin: the made reel is
    /// run once from head to tail, new pieces come off their rolls.
    #[arg(long, value_name = "N")]
    pub(crate) pins: Option<u32>,
    /// Reel and rolls may be worked from their tails: wound through first.
    #[arg(long, requires = "pins")]
    pub(crate) tails: bool,
    /// Reel and rolls may be wound back and forth.
    #[arg(long, requires = "pins")]
    pub(crate) to_and_fro: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Exchange {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version.
    #[arg(long)]
    pub(crate) cut: String,
    /// The file, called .otio.
    #[arg(long, value_name = "FILE")]
    pub(crate) otio: PathBuf,
}

#[derive(Debug, Args)]
pub(crate) struct MatchTakes {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The take that is left: by its slate, 3-T2, or its first frame, R1.2611.
    #[arg(long)]
    pub(crate) from: String,
    /// The take that is entered.
    #[arg(long)]
    pub(crate) to: String,
    /// Frames that show the same moment, such as 2923=531; twice. Without marks those
    /// kept with the film count, and without these the pictures are looked at.
    #[arg(long = "mark", value_name = "FRAME=FRAME")]
    pub(crate) marks: Vec<String>,
    /// Keep the marks with the film: they are then known everywhere, and final.
    #[arg(long, requires = "marks")]
    pub(crate) keep: bool,
    /// Look at the pictures, though marks are kept.
    #[arg(long, conflicts_with = "marks")]
    pub(crate) by_pictures: bool,
    /// The first frame thrown away of the take that is left, where it is settled.
    #[arg(long)]
    pub(crate) leave: Option<u32>,
}

#[derive(Debug, Args)]
pub(crate) struct FindTwins {
    /// The production.
    pub(crate) dir: PathBuf,
    /// One take, beside all others: by its slate, 3-T2, or its first frame, R1.2611.
    /// Without it all takes of each scene are laid beside each other.
    #[arg(long)]
    pub(crate) of: Option<String>,
}
