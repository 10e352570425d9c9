//! Commands about film in the hand: pins, inspections, joins, reels, halves.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use super::ReelPlan;

#[derive(Debug, Args)]
pub(crate) struct Pin {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The take: its slate, 3A-T2, or its first frame, R2·547.
    pub(crate) take: String,
    /// The pin; the next free one when not said. Where it is taken, the two takes
    /// change places.
    #[arg(long)]
    pub(crate) to: Option<u32>,
}

/// What is said is changed, the rest stands; nothing said, and it is shown.
#[derive(Debug, Args)]
pub(crate) struct RollInspect {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The roll.
    pub(crate) roll: String,
    /// The number it has in a collection.
    #[arg(long)]
    pub(crate) accession: Option<String>,
    /// How it lies.
    #[arg(long)]
    pub(crate) lies: Option<LiesWord>,
    /// The length of a hundred frames in mm: shrinkage follows from it.
    #[arg(long, value_name = "MM")]
    pub(crate) hundred: Option<String>,
    /// Across the film on its reel in mm, with --hub.
    #[arg(long, value_name = "MM", requires = "hub")]
    pub(crate) across: Option<String>,
    /// Across the hub in mm.
    #[arg(long, value_name = "MM", requires = "across")]
    pub(crate) hub: Option<String>,
    /// Thickness of the film in mm, if measured.
    #[arg(long, value_name = "MM", requires = "across")]
    pub(crate) thickness: Option<String>,
    /// Level of an acid strip, 0 to 3.
    #[arg(long)]
    pub(crate) acid: Option<String>,
    /// Smell of vinegar.
    #[arg(long)]
    pub(crate) vinegar: Option<VinegarWord>,
    /// How flat it lies: flat, cupped, curled, twisted.
    #[arg(long)]
    pub(crate) warping: Option<String>,
    /// Colour, black and white, toned.
    #[arg(long)]
    pub(crate) picture: Option<String>,
    /// The perforations: whole, nicked, torn, repaired.
    #[arg(long)]
    pub(crate) perforations: Option<String>,
    /// Scratches: none, base, emulsion, both.
    #[arg(long)]
    pub(crate) scratches: Option<String>,
    /// Whether the colour holds.
    #[arg(long)]
    pub(crate) fading: Option<String>,
    /// The sound on it: none, magnetic, optical.
    #[arg(long)]
    pub(crate) sound: Option<String>,
    /// Who inspected it, and on which day.
    #[arg(long)]
    pub(crate) by: Option<String>,
    /// Anything more.
    #[arg(long)]
    pub(crate) note: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct RollJoin {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The first frame after the join: R1·720.
    pub(crate) frame: String,
    /// What it is made with.
    #[arg(long, default_value = "not-known")]
    pub(crate) kind: FoundJoinWord,
    /// What is to be said of it.
    #[arg(long, default_value = "")]
    pub(crate) note: String,
    /// There is no join there after all.
    #[arg(long, conflicts_with_all = ["kind", "note"])]
    pub(crate) gone: bool,
}

#[derive(Debug, Args)]
pub(crate) struct RollEdge {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The frame it stands at, R1·120; a roll alone, R1, and its numbers are listed.
    pub(crate) frame: String,
    /// The number as it stands there: 4127.
    pub(crate) number: Option<String>,
    /// Frames from one number to the next on this stock, counted on the film.
    #[arg(long, value_name = "FRAMES", requires = "number")]
    pub(crate) step: Option<u32>,
    /// There is no number there after all.
    #[arg(long, conflicts_with_all = ["number", "step"])]
    pub(crate) gone: bool,
}

#[derive(Debug, Args)]
pub(crate) struct RollHalves {
    /// The production.
    pub(crate) dir: PathBuf,
    /// What the strip is called, such as R4.
    pub(crate) strip: String,
    /// The roll that was run first.
    pub(crate) a: String,
    /// The roll that was run after the spools were changed over.
    pub(crate) b: String,
    /// The strip has been slit.
    #[arg(long)]
    pub(crate) slit: bool,
}

#[derive(Debug, Args)]
pub(crate) struct RollSlit {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The strip.
    pub(crate) strip: String,
    /// It is not slit after all.
    #[arg(long)]
    pub(crate) not: bool,
    /// Its rolls are no halves after all.
    #[arg(long, conflicts_with = "not")]
    pub(crate) no_halves: bool,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Reel {
    /// Say what a reel or can is and what is wound on it.
    Put(ReelPut),
    /// What goes on which reel: how full, how long, and what is written on it.
    Plan(ReelPlan),
    /// All reels and cans.
    List {
        /// The production.
        dir: PathBuf,
    },
    /// Strike a reel or can off; the rolls stay.
    Remove {
        /// The production.
        dir: PathBuf,
        /// What it is called.
        reel: String,
    },
}

/// What is said is changed, the rest stands.
#[derive(Debug, Args)]
pub(crate) struct ReelPut {
    /// The production.
    pub(crate) dir: PathBuf,
    /// What it is called.
    pub(crate) reel: String,
    /// What it is.
    #[arg(long)]
    pub(crate) kind: Option<ReelKindWord>,
    /// What it takes, in feet.
    #[arg(long)]
    pub(crate) feet: Option<u32>,
    /// How far it is across, in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) across: Option<String>,
    /// How far its hub is across, in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) hub: Option<String>,
    /// How the film on it lies.
    #[arg(long)]
    pub(crate) lies: Option<LiesWord>,
    /// Where it is kept.
    #[arg(long)]
    pub(crate) kept_in: Option<String>,
    /// The number it has in a collection.
    #[arg(long)]
    pub(crate) accession: Option<String>,
    /// Anything more.
    #[arg(long)]
    pub(crate) note: Option<String>,
    /// What is wound on it, in order from the head: R1, or R2:0-1800 for frames 0 to
    /// before 1800. May be given several times.
    #[arg(long)]
    pub(crate) wound: Vec<String>,
    /// Nothing is wound on it.
    #[arg(long, conflicts_with = "wound")]
    pub(crate) empty: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum LiesWord {
    Heads,
    Tails,
    NotKnown,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum VinegarWord {
    None,
    Slight,
    Strong,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FoundJoinWord {
    Tape,
    Cement,
    Weld,
    NotKnown,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReelKindWord {
    Reel,
    Core,
    Can,
}

/// In what a counter without a unit counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum CounterWord {
    Feet,
    Frames,
    Seconds,
}
