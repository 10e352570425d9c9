//! Commands about rolls: bringing in, on paper, listing.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use super::{
    RollEdge, RollHalves, RollHandled, RollInspect, RollJoin, RollRun, RollRuns, RollSlit,
};

#[derive(Debug, Subcommand)]
pub(crate) enum Roll {
    /// Bring a scan in as a roll.
    Add(RollAdd),
    /// A roll known on paper only.
    Paper(RollPaper),
    /// What was found with the film in the hand: said or shown.
    Inspect(RollInspect),
    /// A join that was found on a roll.
    Join(RollJoin),
    /// Numbers on the edge of the stock: write one down, strike one out, list them.
    Edge(RollEdge),
    /// Two rolls are the halves of one strip of double-run film.
    Halves(RollHalves),
    /// A strip of double-run film has been slit.
    Slit(RollSlit),
    /// The original was run: write it into the ledger of its runs.
    Run(RollRun),
    /// The original was cleaned, cut, mended, looked at, or a join was opened: write
    /// it into its ledger.
    Handled(RollHandled),
    /// The ledger of the originals: how often each was run, and what else was done to it.
    Runs(RollRuns),
    /// Read the scan of a roll again: where its pictures were thrown away, or where
    /// an older program did not keep all that this one does.
    Again {
        /// The production.
        dir: PathBuf,
        /// The name of the roll; all rolls when not said.
        roll: Option<String>,
    },
    /// Say where the scans of a roll are now; they must be the same to the bit.
    Moved {
        /// The production.
        dir: PathBuf,
        /// The name of the roll.
        roll: String,
        /// The files in the order they were brought in.
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// All rolls.
    List {
        /// The production.
        dir: PathBuf,
    },
}

#[derive(Debug, Args)]
pub(crate) struct RollAdd {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The name of the roll, such as R1.
    #[arg(required_unless_present = "each", conflicts_with = "each")]
    pub(crate) roll: Option<String>,
    /// A film file, a folder of pictures, or several in order along the roll.
    #[arg(required_unless_present = "each", conflicts_with = "each")]
    pub(crate) files: Vec<PathBuf>,
    /// In their place: each of these is a roll of its own, read in one go with a
    /// summary at the end. A folder stands for the film files in it.
    #[arg(long, num_args = 1.., value_name = "FILE")]
    pub(crate) each: Vec<PathBuf>,
    /// The gauge; the production's when not said.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
    /// Frames a second in the camera; the production's when not said.
    #[arg(long)]
    pub(crate) film_speed: Option<String>,
    /// Length measured on the bench: 50ft0.
    #[arg(long)]
    pub(crate) measured: Option<String>,
    /// Shrinkage in per cent, if measured.
    #[arg(long)]
    pub(crate) shrinkage: Option<String>,
    #[command(flatten)]
    pub(crate) state: RollState,
}

#[derive(Debug, Args)]
pub(crate) struct RollPaper {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The name of the roll, such as R1.
    pub(crate) roll: String,
    /// Its length in frames.
    #[arg(long)]
    pub(crate) frames: u32,
    /// The gauge; the production's when not said.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
    #[command(flatten)]
    pub(crate) state: RollState,
}

#[derive(Debug, Args)]
pub(crate) struct RollState {
    /// What the film is made of.
    #[arg(long, default_value = "not-known")]
    pub(crate) base: BaseWord,
    /// A: reads right through the emulsion; B: through the base.
    #[arg(long)]
    pub(crate) wind: Option<WindWord>,
    /// What the roll may be used for.
    #[arg(long, default_value = "project")]
    pub(crate) fit: FitWord,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BaseWord {
    Triacetate,
    Polyester,
    NotKnown,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum WindWord {
    #[value(name = "A")]
    A,
    #[value(name = "B")]
    B,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FitWord {
    Project,
    ScanOnly,
    NeverCut,
}
