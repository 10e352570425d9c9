//! The sound of a film: what is kept of it, where each cue stands in a version, and the mix.

mod captions;
mod changes;
mod cue_line;
mod cue_list;
mod cue_sheet;
mod cue_table;
mod document;
mod fits;
mod hands;
mod hearing;
mod kept;
mod kept_sound;
mod laid;
mod loudness_of;
mod mix_kept;
mod mixing;
mod music;
mod of_example;
mod recording;
mod recording_file;
mod recording_place;
mod sound_file;
mod sounds;
mod timings;
mod version;

pub use captions::{CaptionsDocument, captions, write_captions};
pub use changes::{CueChanged, DubChange, DubChangeKind};
pub use cue_list::{CueListed, cue_list};
pub use cue_sheet::{
    CueComing, CuesImported, import_cues, import_cues_text, read_cues, version_for_sound,
};
pub use cue_table::cues_csv;
pub use document::{dub_document, sound_list};
pub use hearing::{Listening, column_named, round_heard, sound_named};
pub use loudness_of::{LoudnessDocument, loudness_of_file};
pub use mixing::{MixAsked, MixSaid, MixSet, MixWritten, write_mix};
pub use music::music_beside;
pub use of_example::lay_example_sound;
pub use recording::{
    RecordedDocument, RecordingDocument, RecordingWords, begin_recording, close_recording,
    finish_recording, keep_recorded, recordings, sweep_recordings, throw_recording_away,
};
pub use sound_file::{SoundFile, sound_file};
pub use sounds::{SoundAdded, add_sound, keep_sound, sound_added};
pub use timings::{CountDocument, PredictedDocument, ProjectorDocument, TapeDocument};
pub use timings::{projector_of_timings, tape_of_timings};

pub(crate) use mix_kept::{MIX, mix_of, speed_of};
pub(crate) use timings::timings_of_text;
pub(crate) use version::version_cuts;

use std::path::{Path, PathBuf};

use onestrand_store::Production;

/// Where the sounds of a film are kept.
#[must_use]
pub fn sounds_folder(production: &Production) -> PathBuf {
    sounds_of(production.dir())
}

/// The same, of a film by its folder.
pub(crate) fn sounds_of(film: &Path) -> PathBuf {
    film.join("sounds")
}

/// Where the sounds of a film stand made ready to be heard, by its folder. It can be made
/// again from the sounds that are kept.
fn ready_folder(film: &Path) -> PathBuf {
    film.join("workprints").join("sounds")
}
