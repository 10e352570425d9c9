//! Commands about the work at the bench: what comes next, what was done.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};
use onestrand_film::FrameName;

use super::Join;

#[derive(Debug, Subcommand)]
pub(crate) enum Work {
    /// Put a version on the bench: it is frozen from now on.
    Begin(WorkBegin),
    /// What comes next, what hangs where, what was done.
    Show {
        /// The production.
        dir: PathBuf,
    },
    /// The next act was done as it is shown.
    Tick {
        /// The production.
        dir: PathBuf,
    },
    /// Something else was done: what it means is said, and it is written down.
    Happened(WorkHappened),
    /// A line was written by mistake: it had not been done.
    Strike {
        /// The production.
        dir: PathBuf,
        /// Its number.
        line: u32,
        /// Why.
        #[arg(long, default_value = "", value_name = "TEXT")]
        reason: String,
    },
    /// Go ahead with a roll whose scan is not proved complete.
    GoAhead {
        /// The production.
        dir: PathBuf,
        /// The roll.
        roll: String,
        /// Why, in your own words.
        because: String,
    },
    /// Open what lies wrongly on the reel, and join it anew as the version has it.
    Mend {
        /// The production.
        dir: PathBuf,
    },
    /// Plan the rest anew with so many pins.
    PlanAnew {
        /// The production.
        dir: PathBuf,
        /// Pins owned from now on.
        #[arg(long)]
        pins: u32,
    },
    /// The life of a frame and of the strip it is in.
    Life {
        /// The production.
        dir: PathBuf,
        /// The frame: R2.2485.
        frame: FrameName,
    },
    /// Take the version off again, while nothing is cut.
    TakeOff {
        /// The production.
        dir: PathBuf,
    },
}

#[derive(Debug, Args)]
pub(crate) struct WorkBegin {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version.
    #[arg(long)]
    pub(crate) cut: String,
    /// Pins of the trim bin.
    #[arg(long, default_value_t = onestrand_production::USUAL_PINS)]
    pub(crate) pins: u32,
    /// A roll may be worked from its tail.
    #[arg(long)]
    pub(crate) tails: bool,
    /// Rolls may be wound to and fro, and from the tail.
    #[arg(long)]
    pub(crate) to_and_fro: bool,
}

#[derive(Debug, Args)]
pub(crate) struct WorkHappened {
    /// The production.
    pub(crate) dir: PathBuf,
    /// Only say what it would mean; write nothing down.
    #[arg(long, global = true)]
    pub(crate) only_ask: bool,
    #[command(subcommand)]
    pub(crate) what: Happening,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Happening {
    /// A roll was put on.
    Mounted {
        /// The roll.
        roll: String,
    },
    /// The rewinds were emptied.
    Unmounted,
    /// The blade went through before this frame.
    Cut {
        /// The first frame behind the blade: R2.548.
        before: FrameName,
    },
    /// A strip was hung.
    Hung {
        /// One of its frames.
        frame: FrameName,
        /// The pin.
        pin: u32,
    },
    /// A strip was joined to the reel.
    Joined {
        /// One of its frames; the tail leader when not said.
        frame: Option<FrameName>,
        /// Leader or a card at this position of the version.
        #[arg(long, conflicts_with = "frame")]
        position: Option<usize>,
        /// The join.
        #[arg(long)]
        join: Join,
        /// How it lies.
        #[arg(long, default_value = "right")]
        laid: LaidWord,
    },
    /// A join of the reel was opened; 0 is the one with the head leader.
    Opened {
        /// Which, counted along the reel.
        join: usize,
    },
    /// Frames were torn or spoiled.
    Torn {
        /// The first.
        first: FrameName,
        /// How many.
        #[arg(default_value_t = 1)]
        frames: u32,
    },
    /// Frames that were wanted are let go.
    LetGo {
        /// The first.
        first: FrameName,
        /// How many.
        #[arg(default_value_t = 1)]
        frames: u32,
    },
    /// A length was wound on a reel of outs.
    MadeUp {
        /// One of its frames.
        frame: FrameName,
        /// The name of the reel.
        reel: String,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum LaidWord {
    Right,
    TurnedOver,
    EndForEnd,
}
