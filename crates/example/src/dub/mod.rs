//! How the sounds lie in the film: the columns of its dubbing chart and the cues, each held
//! to a frame or a join, so that they go with the picture when it is cut otherwise.

mod laid;

use crate::SOUND_RATE;

/// What an end of a cue holds to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hold {
    /// A frame that shows what is heard.
    Frame {
        /// Camera roll, 1 to 3.
        roll: u8,
        /// The frame. Unit: frames of the roll.
        frame: u32,
    },
    /// The join at which a piece begins.
    Join {
        /// Camera roll of the piece, 1 to 3.
        roll: u8,
        /// The first frame the piece shows. Unit: frames of the roll.
        frame: u32,
    },
}

/// A place in the film: what it holds to, and how far from there it lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// What it holds to.
    pub hold: Hold,
    /// How much later; earlier when negative. Unit: frames.
    pub later: i32,
}

/// A column of the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ExampleColumn {
    /// What is heard in it.
    pub name: &'static str,
    /// The column it goes down for, and by how much. Unit: tenths of a decibel.
    pub ducked: Option<(&'static str, u32)>,
}

/// A cue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ExampleCue {
    /// The column it stands in.
    pub column: &'static str,
    /// The sound it plays, by its name.
    pub sound: &'static str,
    /// What the chart calls it.
    pub name: &'static str,
    /// Where it begins.
    pub start: Place,
    /// Where it ends; with its sound when not said.
    pub end: Option<Place>,
    /// Where its sound is left; at its end when not said. Unit: samples.
    pub to: Option<u64>,
    /// Its level. Unit: tenths of a decibel.
    pub level: i32,
    /// The level line over it: how far into the cue, in frames, and tenths of a decibel.
    pub line: &'static [(u32, i32)],
    /// How long it comes and goes. Unit: frames.
    pub fades: (u32, u32),
    /// It goes round until it ends.
    pub is_round: bool,
    /// It is over in a moment, and drawn as a drop.
    pub is_stroke: bool,
    /// What a caption says of it.
    pub caption: &'static str,
    /// What the chart remarks.
    pub note: &'static str,
}

/// The columns, from left to right.
#[must_use]
pub fn columns() -> &'static [ExampleColumn] {
    &laid::COLUMNS
}

/// The cues, as they begin in the first cut.
#[must_use]
pub fn cues() -> &'static [ExampleCue] {
    &laid::CUES
}

/// Where a sound of the film goes round: back from the second place to the first, both heard
/// together for so long before. Unit: samples. Nothing for what does not go round.
///
/// Atmospheres go on from their ends into their beginnings. The steps go round from their
/// ninth to their second.
#[must_use]
pub fn goes_round(sound: &str) -> Option<(u64, u64, u64)> {
    let samples = |seconds: u64, hundredths: u64| {
        let rate = u64::from(SOUND_RATE);
        seconds * rate + hundredths * rate / 100
    };
    match sound {
        "river" | "air" => Some((0, samples(14, 0), 0)),
        "engine" => Some((0, samples(8, 0), 0)),
        "steps" => Some((samples(0, 35), samples(3, 21), samples(0, 1))),
        _ => None,
    }
}
