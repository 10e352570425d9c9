//! What is listened for in a sound, and what was found. Places are seconds and samples of
//! the sound as it is kept, before the speed it is played at.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::dub::CueChanged;

/// What is listened for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "listen_for", rename_all = "snake_case")]
pub enum ListenFor {
    /// Places where an atmosphere can go round.
    Seams {
        /// The shortest loop that will do. Unit: seconds; a quarter of the sound when not
        /// said.
        #[serde(default)]
        least: Option<f64>,
        /// How long its two ends are heard together. Unit: seconds; half a second when not
        /// said.
        #[serde(default)]
        crossed: Option<f64>,
    },
    /// A tone whose pitch is known: a tuning fork, a tone from a test record.
    Tone {
        /// Its true pitch. Unit: hertz.
        hertz: f64,
    },
    /// The hum of the mains.
    Hum {
        /// 50 or 60. Unit: hertz.
        mains: u32,
    },
    /// Strokes that belong to frames that are marked in the picture; for one frame the clap
    /// of a slate.
    Strokes {
        /// The version.
        cut: String,
        /// The marked frames. Unit: running frames of the version.
        marks: Vec<u32>,
        /// The column that what fits is laid in.
        column: i64,
        /// A cue that is laid anew; a new one when not said.
        #[serde(default)]
        cue: Option<i64>,
    },
    /// Tempo, beats and bars of a music.
    Beats {
        /// The slowest tempo. Unit: beats a minute, from 30.
        #[serde(default)]
        slowest: Option<f64>,
        /// The fastest, to 300.
        #[serde(default)]
        fastest: Option<f64>,
    },
}

/// What is listened for in which part of a sound.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct ListenAsked {
    /// Where in the sound it is listened from. Unit: seconds; its beginning when not said.
    #[serde(default)]
    pub from: Option<f64>,
    /// To where. Unit: seconds; its end when not said, at most twenty minutes.
    #[serde(default)]
    pub to: Option<f64>,
    /// What for.
    pub what: ListenFor,
}

/// What was found in a sound.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ListenedDocument {
    /// The sound.
    pub sound: i64,
    /// From where it was listened to. Unit: seconds.
    pub from: f64,
    /// To where. Unit: seconds.
    pub to: f64,
    /// What was found.
    pub found: FoundDocument,
}

/// What was found, by what was listened for.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
#[serde(tag = "found", rename_all = "snake_case")]
pub enum FoundDocument {
    /// Places where it can go round, the least audible first.
    Seams {
        /// Them.
        seams: Vec<SeamDocument>,
    },
    /// How fast it ran.
    Speed(SpeedDocument),
    /// Strokes and how they fit.
    Strokes(StrokesDocument),
    /// Its beat.
    Beats(BeatsDocument),
}

/// A loop that may be made of an atmosphere.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SeamDocument {
    /// Where it goes round.
    pub round: super::LoopWords,
    /// How long it is before it comes again, as it is played. Unit: seconds.
    pub seconds: f64,
    /// What changes at the seam over what changes elsewhere: about 1 and below nobody
    /// hears it, above 2 one does.
    pub times_usual: f64,
    /// How far its loudest moment stands out: above 7 dB it is heard to come again.
    pub stands_out_db: f64,
    /// How far both ends differ in level and colour. Unit: dB.
    pub off_db: f64,
    /// It is likely to be heard.
    pub heard: bool,
}

/// How fast a sound was recorded or is played.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct SpeedDocument {
    /// The true pitch. Unit: hertz.
    pub true_hertz: f64,
    /// The pitch that is heard. Unit: hertz.
    pub heard_hertz: f64,
    /// Its standard error. Unit: hertz.
    pub error_hertz: f64,
    /// How many times faster it is to be played to be true.
    pub play: f64,
    /// The same as it is kept. Unit: millionths.
    pub play_millionths: u32,
    /// How much the tape wandered from second to second; nothing for hum, whose mains
    /// wander themselves. Unit: per cent.
    pub wander_percent: Option<f64>,
    /// How far the tone stands above what is heard beside it; nothing for hum. Unit: dB.
    pub above_rest_db: Option<f64>,
    /// Which harmonics of hum were heard; none for a tone.
    pub harmonics: Vec<u32>,
}

/// A stroke that was heard.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StrokeDocument {
    /// When. Unit: seconds.
    pub seconds: f64,
    /// How strong: 1 is what just counts.
    pub strength: f64,
}

/// Strokes that were heard, and how they may be laid to the marked frames.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StrokesDocument {
    /// All that were heard, in order.
    pub heard: Vec<StrokeDocument>,
    /// Ways to lay them, best first.
    pub fits: Vec<StrokeFitDocument>,
    /// Half of the time a frame is shown. Unit: milliseconds.
    pub half_frame_ms: f64,
    /// From so much too early on it is noticed (ITU-R BT.1359-1). Unit: milliseconds.
    pub noticed_early_ms: f64,
    /// From so much too late on. Unit: milliseconds.
    pub noticed_late_ms: f64,
}

/// A way to lay strokes to marked frames.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct StrokeFitDocument {
    /// Which strokes, counted from 1.
    pub strokes: Vec<usize>,
    /// How far each lies from its frame: above 0 late. Unit: milliseconds.
    pub off_ms: Vec<f64>,
    /// The farthest, without its sign. Unit: milliseconds.
    pub worst_ms: f64,
    /// Every one is within half a frame.
    pub holds: bool,
    /// They follow one another, and one piece of the sound is laid; else each is laid by
    /// itself.
    pub one_piece: bool,
    /// For a single frame: how many times louder it is just after than just before; a clap
    /// in a quiet room some thousands, a word under ten.
    pub times_louder: Option<f64>,
    /// The cues that it comes to, ready to be kept.
    pub cues: Vec<CueChanged>,
}

/// Tempo, beats and bars.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct BeatsDocument {
    /// The tempo as it is kept, not as it is played. Unit: beats a minute.
    pub bpm: f64,
    /// The tempo as it is played. Unit: beats a minute.
    pub played_bpm: f64,
    /// How sure that is, 0 to 1; half and double the tempo count against it.
    pub sure: f64,
    /// How sure the bars are.
    pub sure_of_bars: f64,
    /// Other tempos that it allows, likeliest first. Unit: beats a minute as it is kept.
    pub or_bpm: Vec<f64>,
    /// How far the beats lie from even ones. Unit: milliseconds.
    pub uneven_ms: f64,
    /// Whole bars.
    pub bars: usize,
    /// What would be kept with the sound.
    pub beats: BeatsWords,
}

/// The beat of a music, as it is kept with its sound.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
pub struct BeatsWords {
    /// Where each beat falls. Unit: samples of the sound as it is kept.
    pub at: Vec<u64>,
    /// Beats in a bar.
    pub in_a_bar: u32,
    /// Which beat begins the first bar, from 0.
    pub first_bar: u32,
    /// The tempo, out of all beats together. Unit: thousandths of a beat a minute.
    pub tempo: u32,
}
