//! Commands about the ledger of an original.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

#[derive(Debug, Args)]
pub(crate) struct RollRun {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The name of the roll.
    pub(crate) roll: String,
    /// The day: 2026-03-03.
    #[arg(long, value_name = "DATE")]
    pub(crate) on: String,
    /// What it was run through.
    #[arg(long)]
    pub(crate) through: MachineWord,
    /// Who ran it.
    #[arg(long, default_value = "", value_name = "WHO")]
    pub(crate) by: String,
    /// What is to be said of it.
    #[arg(long, default_value = "", value_name = "TEXT")]
    pub(crate) note: String,
}

/// What was done to an original, other than running it.
#[derive(Debug, Args)]
pub(crate) struct RollHandled {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The name of the roll.
    pub(crate) roll: String,
    /// What was done.
    #[arg(long)]
    pub(crate) kind: HandledWord,
    /// The day: 2026-03-03.
    #[arg(long, value_name = "DATE")]
    pub(crate) on: String,
    /// How many times on that day: 12 cuts.
    #[arg(long, default_value_t = 1)]
    pub(crate) times: u32,
    /// Who did it.
    #[arg(long, default_value = "", value_name = "WHO")]
    pub(crate) by: String,
    /// What is to be said of it.
    #[arg(long, default_value = "", value_name = "TEXT")]
    pub(crate) note: String,
}

/// A run is written down with `roll run`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum HandledWord {
    Cleaning,
    Cut,
    Opened,
    Repair,
    Inspection,
}

#[derive(Debug, Args)]
pub(crate) struct RollRuns {
    /// The production.
    pub(crate) dir: PathBuf,
    /// Only this roll.
    pub(crate) roll: Option<String>,
    /// Strike the entry of this number off: it was not run then after all.
    #[arg(long, value_name = "NUMBER", requires = "roll")]
    pub(crate) strike: Option<u32>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MachineWord {
    Projector,
    Viewer,
    Scanner,
}
