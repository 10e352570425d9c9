//! Commands about the ledger of runs.

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
