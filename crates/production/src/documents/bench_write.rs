//! What may be written down at the bench.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What is written down at the bench. One of these a request.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "bench", rename_all = "snake_case")]
pub enum BenchWrite {
    /// A version goes on the bench, and is frozen.
    Begin {
        /// The version.
        cut: String,
        /// Pins owned.
        pins: u32,
        /// Whether a roll may be worked from its tail.
        #[serde(default)]
        tails: bool,
        /// Whether rolls may be wound to and fro.
        #[serde(default)]
        to_and_fro: bool,
    },
    /// The next act was done as it was shown.
    Tick {
        /// How many lines the log had when it was shown.
        lines: u32,
    },
    /// Something else was done.
    Happened {
        /// How many lines the log had when it was shown.
        lines: u32,
        /// What, oldest first.
        happened: Vec<HappenedWords>,
    },
    /// A line was written by mistake: it had not been done.
    Strike {
        /// The line.
        line: u32,
        /// Why, in the user's words.
        #[serde(default)]
        reason: String,
    },
    /// The user goes ahead though a roll's scan is not proved complete.
    GoAhead {
        /// The roll.
        roll: String,
        /// The user's words.
        words: String,
    },
    /// The rest is planned anew with other pins.
    PlanAnew {
        /// Pins owned from now on.
        pins: u32,
    },
    /// A scan of the reel shows what was done and never written down.
    Seen {
        /// How many lines the log had when it was shown.
        lines: u32,
        /// The name of the scan.
        scan: String,
        /// The film on the reel, from head to tail; leader and cards left out.
        film: Vec<SeenStrip>,
    },
    /// What lies wrongly on the reel is to be opened and joined rightly.
    Mend {},
    /// A remark.
    Remark {
        /// The user's words.
        words: String,
    },
    /// The version comes off the bench, with nothing cut yet.
    TakeOff {},
}

/// Film of a roll as a scan of the reel shows it, in one run.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SeenStrip {
    /// The roll.
    pub roll: String,
    /// Its lowest frame.
    #[serde(rename = "in")]
    pub first: u32,
    /// The first frame behind its highest.
    #[serde(rename = "out")]
    pub thrown: u32,
    /// Seen from the other side.
    pub mirrored: bool,
    /// Its head where its tail should be.
    pub upside_down: bool,
}

/// What a scan of the reel would bring into the log of the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct SeenDocument {
    /// Whether the version that was proved is the one on the bench.
    pub on_the_bench: bool,
    /// Lines of the log, to be sent with what is written.
    pub lines: u32,
    /// Runs of film that the scan shows, and of these on the reel by the log.
    pub strips: [u32; 2],
    /// Cuts, joins and other acts that were never written down.
    pub acts: [u32; 3],
    /// What would be written, one line each, oldest first.
    pub words: Vec<String>,
    /// Why it cannot be written; empty where it can.
    pub refused: String,
}

/// What else was done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "happened", rename_all = "snake_case")]
pub enum HappenedWords {
    /// A roll was put on.
    Mounted {
        /// The roll.
        roll: String,
    },
    /// The rewinds were emptied.
    Unmounted {},
    /// A roll was wound.
    Wound {
        /// The roll.
        roll: String,
        /// The frame at the splicer afterwards.
        to: u32,
    },
    /// The blade went through before this frame.
    Cut {
        /// The roll.
        roll: String,
        /// The first frame behind the blade.
        before: u32,
    },
    /// A length was hung.
    Hung {
        /// The roll of one of its frames.
        roll: String,
        /// One of its frames.
        frame: u32,
        /// The pin.
        pin: u32,
    },
    /// A length was joined to the reel.
    Joined {
        /// The roll of one of its frames; none for leader, a card or the tail leader.
        #[serde(default)]
        roll: Option<String>,
        /// One of its frames.
        #[serde(default)]
        frame: Option<u32>,
        /// The position of leader or a card; none at the tail leader.
        #[serde(default)]
        position: Option<usize>,
        /// `tape`, `cement` or `weld`.
        join: String,
        /// `right`, `turned_over` or `end_for_end`.
        #[serde(default)]
        laid: String,
        /// Whether the tail leader still hangs on it: on leader or a card from the end of
        /// the film turned back.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        ends: bool,
    },
    /// The made film was wound back, head out, to be made anew.
    TurnedBack {
        /// Leader and cards by their position in the version they were made for, and the
        /// position they have in the one that is made now.
        #[serde(default)]
        others: Vec<(usize, usize)>,
    },
    /// The made film was put on the rewinds.
    MadeMounted {},
    /// The made film was wound without a cut.
    MadeWound {
        /// The running frame at the splicer afterwards, as it ran when it was turned back.
        to: u32,
    },
    /// What hangs on the head leader was led to the empty reel.
    Led {},
    /// A join beside leader or a card of the film turned back was opened.
    UnjoinedOther {
        /// Its position.
        position: usize,
        /// Which of the joins of its length, counted along it as it lies; 0 is that with
        /// a head leader.
        join: usize,
    },
    /// A join of the reel was opened; 0 is the one with the head leader.
    Opened {
        /// Which, counted along the reel.
        join: usize,
    },
    /// A join was opened in a length that is not on the reel.
    Unjoined {
        /// The roll of a frame of the length.
        roll: String,
        /// The frame.
        frame: u32,
        /// Which of its joins, counted along it as it lies, from 1; 0 is that with a head
        /// leader.
        join: usize,
    },
    /// Frames were torn or spoiled.
    Torn {
        /// The roll.
        roll: String,
        /// The first.
        #[serde(rename = "in")]
        first: u32,
        /// The first behind them.
        out: u32,
    },
    /// Frames that were wanted are let go.
    LetGo {
        /// The roll.
        roll: String,
        /// The first.
        #[serde(rename = "in")]
        first: u32,
        /// The first behind them.
        out: u32,
    },
    /// A length was wound on a reel of outs.
    MadeUp {
        /// The roll of one of its frames.
        roll: String,
        /// One of its frames.
        frame: u32,
        /// The name of the reel.
        reel: String,
    },
}
