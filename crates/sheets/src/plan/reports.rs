//! What is filled in on the spot: camera report, sound report, list of wild sounds.

use super::PlanHead;

/// A camera report to fill in, with what is planned or blank.
#[derive(Clone, Debug)]
pub struct CameraReportSheet {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The roll; empty leaves a line to write on, as all that follows here.
    pub roll: String,
    /// The batch of the stock.
    pub batch: String,
    /// The camera.
    pub camera: String,
    /// The takes that are planned, in the order in which they are to be shot.
    pub takes: Vec<CameraReportTake>,
    /// Empty lines after them. Range: what does not fit on a page goes on the next.
    pub blank_lines: u32,
}

/// A take that is planned.
#[derive(Clone, Debug, Default)]
pub struct CameraReportTake {
    /// Its setup as the slate says it: `3A`.
    pub setup: String,
    /// Which take of it; empty leaves it to be written.
    pub take: String,
    /// What happens, in a few words.
    pub action: String,
}

/// A sound report to fill in.
#[derive(Clone, Debug)]
pub struct SoundReportSheet {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// What is planned to be recorded.
    pub sounds: Vec<PlannedSound>,
    /// Empty lines after them.
    pub blank_lines: u32,
}

/// A sound that is planned.
#[derive(Clone, Debug, Default)]
pub struct PlannedSound {
    /// What is heard.
    pub what: String,
    /// How far the microphone stands, in the maker's words.
    pub distance: String,
    /// Whether it is recorded without the camera.
    pub wild: bool,
}

/// The sounds to be got without the camera.
#[derive(Clone, Debug)]
pub struct WildSoundList {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// The sounds.
    pub sounds: Vec<WildSoundLine>,
    /// Empty lines after them.
    pub blank_lines: u32,
}

/// A wild sound.
#[derive(Clone, Debug, Default)]
pub struct WildSoundLine {
    /// What is heard.
    pub sound: String,
    /// Where it is to be had.
    pub place: String,
    /// How long, as it is read: `30 s`; empty leaves it to be written.
    pub length: String,
    /// How far the microphone stands.
    pub distance: String,
    /// What else is to be said of it.
    pub note: String,
}
