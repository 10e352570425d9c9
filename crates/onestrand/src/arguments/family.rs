//! Commands about family reels.

use std::path::PathBuf;

use clap::Subcommand;

/// Family reels: whose camera, in which order, which copy.
#[derive(Debug, Subcommand)]
pub(crate) enum Family {
    /// Which shots were taken with the same camera, and on which stock.
    Cameras {
        /// A production, or a shelf: a folder of productions.
        dir: PathBuf,
        /// Only these reels: R1, or film/R1 on a shelf.
        #[arg(long = "reel", value_name = "REEL")]
        reels: Vec<String>,
    },
    /// In which order the shots of each camera were taken.
    Order {
        /// A production, or a shelf: a folder of productions.
        dir: PathBuf,
        /// Only these reels: R1, or film/R1 on a shelf.
        #[arg(long = "reel", value_name = "REEL")]
        reels: Vec<String>,
    },
    /// Which of two reels that show the same is nearer the original.
    Copies {
        /// A production, or a shelf: a folder of productions.
        dir: PathBuf,
        /// One reel: R1, or film/R1 on a shelf.
        first: String,
        /// The other.
        second: String,
    },
}
