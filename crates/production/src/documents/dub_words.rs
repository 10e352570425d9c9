//! What is kept of the sound of a film: sounds, columns of the dubbing chart, cues, and how
//! it is mixed. Levels are whole tenths of a decibel, so that they are kept exactly.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::{BeatsWords, RightsWords};

/// To what a cue holds when the cut changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum HoldsToWord {
    /// A frame of a roll: a bell stroke.
    #[default]
    Frame,
    /// The join at which a piece begins: atmosphere, music to a scene.
    Join,
    /// The clock: so many frames after the head of the film.
    Clock,
}

/// A place that a cue, or the end of one, holds to.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct AnchorWords {
    /// What kind of place.
    #[serde(default)]
    #[schema(required = true)]
    pub to: HoldsToWord,
    /// The roll, for a frame and for a join; for a join the roll of the piece that begins
    /// there. Empty at the clock, and where a piece of leader or a card begins.
    #[serde(default)]
    #[schema(required = true)]
    pub roll: String,
    /// The frame of the roll; for a join the first frame that is shown behind it. For the
    /// clock the running frame, counted from 0.
    #[serde(default)]
    #[schema(required = true)]
    pub frame: u32,
    /// So many frames later; earlier when negative.
    #[serde(default)]
    #[schema(required = true)]
    pub offset: i32,
}

/// How a fade goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum FadeShapeWord {
    /// Two that cross are as loud together as each alone.
    #[default]
    EqualPower,
    /// In equal steps of pressure.
    Linear,
}

/// A fade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct FadeWords {
    /// How long. Unit: frames; 0 is none.
    #[serde(default)]
    #[schema(required = true)]
    pub frames: u32,
    /// How it goes.
    #[serde(default)]
    #[schema(required = true)]
    pub shape: FadeShapeWord,
}

/// A handle on a level line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct LevelPointWords {
    /// Where, counted from the in of the cue. Unit: frames.
    pub at: u32,
    /// The level there. Unit: tenths of a decibel.
    pub level: i32,
}

/// Where a cue stood when it was last laid.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct LaidWords {
    /// In which version.
    pub cut: String,
    /// At which running frame.
    pub at: i64,
    /// How long it was. Unit: frames.
    pub frames: u32,
}

/// A cue: a sound at its place.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct CueWords {
    /// The column it stands in.
    pub column: i64,
    /// The sound; nothing for one that is made by hand while the mix runs.
    #[serde(default)]
    #[schema(required = true)]
    pub sound: Option<i64>,
    /// What it is, as the chart says it.
    #[serde(default)]
    #[schema(required = true)]
    pub name: String,
    /// What is said, for captions.
    #[serde(default)]
    #[schema(required = true)]
    pub speech: String,
    /// Where it begins.
    #[serde(default)]
    #[schema(required = true)]
    pub start: AnchorWords,
    /// Where it ends, when its end holds to something of its own: a bed.
    #[serde(default)]
    #[schema(required = true)]
    pub end: Option<AnchorWords>,
    /// How long it is, when its end holds to nothing. Unit: frames; not said: as long as
    /// the sound.
    #[serde(default)]
    #[schema(required = true)]
    pub frames: Option<u32>,
    /// How far into the sound it begins. Unit: samples of the sound as it is kept.
    #[serde(default)]
    #[schema(required = true)]
    pub from: u64,
    /// Where the sound is over; not said: at its end. Unit: samples.
    #[serde(default)]
    #[schema(required = true)]
    pub to: Option<u64>,
    /// The sound goes round in its loop until the cue ends.
    #[serde(default)]
    #[schema(required = true)]
    pub looped: bool,
    /// The level of the whole cue. Unit: tenths of a decibel.
    #[serde(default)]
    #[schema(required = true)]
    pub level: i32,
    /// The level line over it, in order; none: it stays.
    #[serde(default)]
    #[schema(required = true)]
    pub line: Vec<LevelPointWords>,
    /// How it comes.
    #[serde(default)]
    #[schema(required = true)]
    pub fade_in: FadeWords,
    /// How it goes.
    #[serde(default)]
    #[schema(required = true)]
    pub fade_out: FadeWords,
    /// Between the main stripe and the balance stripe, or left and right: −100 to 100.
    #[serde(default)]
    #[schema(required = true)]
    pub balance: i32,
    /// An effect of one moment: drawn as a drop.
    #[serde(default)]
    #[schema(required = true)]
    pub stroke: bool,
    /// The user's note.
    #[serde(default)]
    #[schema(required = true)]
    pub note: String,
    /// Where it stood when it was last laid.
    #[serde(default)]
    #[schema(required = true)]
    pub laid: Option<LaidWords>,
    /// It is without a place and the user has left it so.
    #[serde(default)]
    #[schema(required = true)]
    pub left: bool,
}

/// A compressor, gentle on purpose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct CompressorWords {
    /// Above which level it works. Unit: tenths of a decibel below full scale, negative.
    pub threshold: i32,
    /// By how much it holds back: 20 is 2 to 1. Unit: tenths.
    pub ratio: u32,
    /// What is given back behind it. Unit: tenths of a decibel.
    pub make_up: i32,
}

/// A column that goes down while another speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct DuckedWords {
    /// Under which column.
    pub under: i64,
    /// By how much. Unit: tenths of a decibel, positive.
    pub by: u32,
}

/// A column of the dubbing chart: one source.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct ColumnWords {
    /// What it is called.
    pub name: String,
    /// Its level. Unit: tenths of a decibel.
    #[serde(default)]
    #[schema(required = true)]
    pub gain: i32,
    /// It is not heard.
    #[serde(default)]
    #[schema(required = true)]
    pub silent: bool,
    /// Below this it is cut. Unit: hertz.
    #[serde(default)]
    #[schema(required = true)]
    pub low_cut: Option<u32>,
    /// The lows, at 200 Hz. Unit: tenths of a decibel.
    #[serde(default)]
    #[schema(required = true)]
    pub lows: i32,
    /// What makes speech plain, at 2,500 Hz. Unit: tenths of a decibel.
    #[serde(default)]
    #[schema(required = true)]
    pub presence: i32,
    /// The highs, at 6,000 Hz. Unit: tenths of a decibel.
    #[serde(default)]
    #[schema(required = true)]
    pub highs: i32,
    /// A compressor.
    #[serde(default)]
    #[schema(required = true)]
    pub compressor: Option<CompressorWords>,
    /// What it goes down for.
    #[serde(default)]
    #[schema(required = true)]
    pub ducked: Option<DuckedWords>,
    /// The tape it is laid on beforehand; columns on one tape share a fader. Empty: it has
    /// a fader of its own.
    #[serde(default)]
    #[schema(required = true)]
    pub tape: String,
}

/// Where a sound may go round without its beat being heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct LoopWords {
    /// Where it comes back to. Unit: samples of the sound as it is kept.
    pub from: u64,
    /// Where it goes back from.
    pub to: u64,
    /// How long both are heard together. Unit: samples.
    pub crossed: u64,
}

/// What was found in a sound when it was read.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct SoundFactsWords {
    /// The name of the file it came from.
    pub file: String,
    /// Samples a second, as it is kept.
    pub rate: u32,
    /// Channels in the file.
    pub channels_found: u32,
    /// Channels as it is kept: 1 or 2.
    pub channels: u32,
    /// How long. Unit: samples of each channel.
    pub samples: u64,
    /// What kind of samples the file has.
    #[serde(default)]
    #[schema(required = true)]
    pub coding: String,
    /// Its highest sample. Unit: tenths of a decibel below full scale; nothing: silence.
    #[serde(default)]
    #[schema(required = true)]
    pub peak: Option<i32>,
    /// Its loudness. Unit: tenths of LUFS; nothing where it is too short or too soft.
    #[serde(default)]
    #[schema(required = true)]
    pub loudness: Option<i32>,
    /// What was amiss, in sentences.
    #[serde(default)]
    #[schema(required = true)]
    pub remarks: Vec<String>,
}

/// A sound of the film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SoundWords {
    /// What it is called.
    pub name: String,
    /// The number on its tape or in its box, if it has one.
    #[serde(default)]
    #[schema(required = true)]
    pub number: String,
    /// The name of its kept file in the film's folder `sounds`.
    pub kept: String,
    /// What was found in it.
    pub facts: SoundFactsWords,
    /// It is played so much faster, with its pitch, to undo the speed of its tape. Unit:
    /// millionths; 1,000,000 is as it is.
    #[serde(default = "as_it_is")]
    #[schema(required = true)]
    pub play: u32,
    /// Where its first sound is. Unit: samples.
    #[serde(default)]
    #[schema(required = true)]
    pub first_sound: u64,
    /// Where it may go round.
    #[serde(default)]
    #[schema(required = true)]
    pub round: Option<LoopWords>,
    /// Its beat, once it was listened for: music.
    #[serde(default)]
    #[schema(required = true)]
    pub beats: Option<BeatsWords>,
    /// Whose it is.
    #[serde(default)]
    #[schema(required = true)]
    pub rights: RightsWords,
    /// The user's words.
    #[serde(default)]
    #[schema(required = true)]
    pub note: String,
}

fn as_it_is() -> u32 {
    1_000_000
}

/// How the mix of a film is made and played.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct MixWords {
    /// The speed the projector was measured at, such as `18.37`; empty: the film's own.
    #[schema(required = true)]
    pub speed: String,
    /// Leader before the first picture. Unit: frames.
    #[schema(required = true)]
    pub leader: u32,
    /// The start mark: a tone of one frame this many frames before the first picture; none
    /// where it is 0 or longer than the leader.
    #[schema(required = true)]
    pub pop: u32,
    /// Two channels: main stripe and balance stripe, or left and right.
    #[schema(required = true)]
    pub two_channels: bool,
    /// No sample, and nothing between samples, gets over this. Unit: tenths of a decibel
    /// below full scale, negative.
    #[schema(required = true)]
    pub ceiling: i32,
    /// The level of the whole. Unit: tenths of a decibel.
    #[schema(required = true)]
    pub gain: i32,
    /// How many hands there are at the faders.
    #[schema(required = true)]
    pub hands: u32,
    /// The film carries an optical track; else a magnetic stripe.
    #[schema(required = true)]
    pub optical: bool,
}

impl Default for MixWords {
    fn default() -> Self {
        Self {
            speed: String::new(),
            leader: 0,
            pop: 0,
            two_channels: false,
            ceiling: -10,
            gain: 0,
            hands: 2,
            optical: false,
        }
    }
}
