//! The commands for a safe copy.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Backup {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The copy.
    pub(crate) file: PathBuf,
}

#[derive(Debug, Args)]
pub(crate) struct Restore {
    /// The copy.
    pub(crate) file: PathBuf,
    /// A folder that is not there yet.
    pub(crate) dir: PathBuf,
}
