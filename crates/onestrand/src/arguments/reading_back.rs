//! Arguments of the commands that read film back.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct ProveReel {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The scan of the cut reel; several files are one reel in order.
    #[arg(required = true)]
    pub(crate) scan: Vec<PathBuf>,
    /// The version it was cut by.
    #[arg(long)]
    pub(crate) cut: String,
    /// Write what the scan shows, and nobody ticked, into the log of the bench.
    #[arg(long)]
    pub(crate) into_log: bool,
}

#[derive(Debug, Args)]
pub(crate) struct NameStrip {
    /// The production.
    pub(crate) dir: PathBuf,
    /// A photograph of the strip on a light box, JPEG or PNG.
    pub(crate) photograph: PathBuf,
}
