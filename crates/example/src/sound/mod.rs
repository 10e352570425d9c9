//! The sounds of the film, made by the program as its pictures are.

mod bell;
mod chance;
mod engine;
mod feet;
mod finish;
mod instruments;
mod march;
mod score;
mod tape;
mod tones;
mod water;

/// Samples a second of all the sounds.
pub const SOUND_RATE: u32 = 48_000;

/// Tempo of the march. Unit: beats a minute.
pub const MARCH_BPM: f64 = 100.0;
/// Bars of the march, of four beats each; the last chord rings on after them.
pub const MARCH_BARS: u32 = 20;

/// What a sound is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SoundKind {
    /// An atmosphere that can be played round and round.
    Loop,
    /// A single sound; it begins with its first sample.
    Effect,
    /// Music.
    Music,
    /// A tape as it was recorded on the spot, with its own speed.
    Tape,
}

/// A sound of the example film.
///
/// One channel at [`SOUND_RATE`]; 1 is full scale. Loops lie near −20 LUFS, music
/// and the tape near −18, the peak of an effect at −6 dBFS.
#[derive(Debug, Clone, Copy)]
pub struct ExampleSound {
    /// Its name, as a file would be called.
    pub name: &'static str,
    /// What it is, in words.
    pub words: &'static str,
    /// What it is for.
    pub kind: SoundKind,
    make: fn() -> Vec<f32>,
    onsets: fn() -> Vec<f64>,
}

impl ExampleSound {
    /// Its samples: the same every time. A sound takes well under a second.
    ///
    /// ```
    /// let bell = onestrand_example::sounds().iter().find(|sound| sound.name == "bell");
    /// let samples = bell.map(|bell| bell.samples()).unwrap_or_default();
    /// assert!(samples.len() > 96_000);
    /// ```
    #[must_use]
    pub fn samples(&self) -> Vec<f32> {
        (self.make)()
    }

    /// When something strikes in it. Unit: seconds from its first sample. Empty
    /// for what only murmurs; for the march, its beats.
    #[must_use]
    pub fn onsets(&self) -> Vec<f64> {
        (self.onsets)()
    }
}

/// All sounds of "The Ten-Past Boat".
#[must_use]
pub fn sounds() -> &'static [ExampleSound] {
    &SOUNDS
}

const SOUNDS: [ExampleSound; 12] = [
    ExampleSound {
        name: "river",
        words: "water along the landing, to be played round and round",
        kind: SoundKind::Loop,
        make: water::river,
        onsets: none,
    },
    ExampleSound {
        name: "engine",
        words: "the ferry's engine and its chain, to be played round and round",
        kind: SoundKind::Loop,
        make: engine::engine,
        onsets: engine::strokes,
    },
    ExampleSound {
        name: "lever",
        words: "the lever is thrown",
        kind: SoundKind::Effect,
        make: engine::lever,
        onsets: at_once,
    },
    ExampleSound {
        name: "splash",
        words: "the rope falls into the water",
        kind: SoundKind::Effect,
        make: water::splash,
        onsets: at_once,
    },
    ExampleSound {
        name: "bell",
        words: "one stroke of the landing bell",
        kind: SoundKind::Effect,
        make: bell::stroke,
        onsets: at_once,
    },
    ExampleSound {
        name: "bell-three",
        words: "three strokes of the landing bell, 19 frames apart at 18 f/s",
        kind: SoundKind::Effect,
        make: bell::three,
        onsets: bell::three_onsets,
    },
    ExampleSound {
        name: "bell-tape",
        words: "the bell as a slow cassette has it: a fork first, then seven strokes",
        kind: SoundKind::Tape,
        make: tape::bell_tape,
        onsets: tape::onsets,
    },
    ExampleSound {
        name: "steps",
        words: "Ida runs on planks",
        kind: SoundKind::Effect,
        make: feet::steps,
        onsets: feet::step_onsets,
    },
    ExampleSound {
        name: "rustle",
        words: "paper round the loaf",
        kind: SoundKind::Effect,
        make: feet::rustle,
        onsets: at_once,
    },
    ExampleSound {
        name: "foot",
        words: "a foot on the deck",
        kind: SoundKind::Effect,
        make: feet::foot,
        onsets: at_once,
    },
    ExampleSound {
        name: "march",
        words: "the Ten-Past March: 20 bars at 100 beats a minute, written for this film",
        kind: SoundKind::Music,
        make: march::march,
        onsets: march_beats,
    },
    ExampleSound {
        name: "air",
        words: "the air of the landing with nothing in it, to be played round and round",
        kind: SoundKind::Loop,
        make: water::air,
        onsets: none,
    },
];

/// When each beat of the march falls. Unit: seconds from its first sample; the
/// first beat of a bar is every fourth, from the first.
#[must_use]
pub fn march_beats() -> Vec<f64> {
    let beats = MARCH_BARS * march::BEATS_A_BAR;
    (0..beats)
        .map(|beat| f64::from(beat) * 60.0 / MARCH_BPM)
        .collect()
}

fn none() -> Vec<f64> {
    Vec::new()
}

fn at_once() -> Vec<f64> {
    vec![0.0]
}

/// A time in samples.
fn samples_of(seconds: f64) -> usize {
    (seconds * f64::from(SOUND_RATE)).round().max(0.0) as usize
}
