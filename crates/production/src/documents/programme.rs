//! A programme: films and versions of a shelf in the order in which they are shown.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::FootageDocument;

/// A programme as it is asked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ProgrammeForm {
    /// What it is called.
    pub title: String,
    /// Where it is shown.
    pub place: String,
    /// When, in the user's words.
    pub day: String,
    /// The machine, in the user's words.
    pub machine: String,
    /// The lens. Unit: millimetres, as it was written; empty where it is not known.
    pub lens_mm: String,
    /// Across the picture, such as `1.2m`; empty where it is not known.
    pub screen: String,
    /// What the largest reel of the machine takes. Unit: feet.
    pub reel_feet: u32,
    /// Leader at the head of each reel. Unit: feet.
    pub leader_feet: u32,
    /// Spacing between two films on one reel. Unit: feet.
    pub spacing_feet: u32,
    /// How long it takes to thread the next reel. Unit: seconds.
    pub changeover_seconds: u32,
    /// Films and intervals in order.
    pub rows: Vec<ProgrammeRow>,
}

/// A film or an interval of a programme.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ProgrammeRow {
    /// `film` or `interval`.
    pub what: String,
    /// The film, by the name of its folder on the shelf.
    pub film: String,
    /// Its version; the newest when empty.
    pub cut: String,
    /// Another title than the film's own.
    pub title: String,
    /// Who made it.
    pub maker: String,
    /// When.
    pub year: String,
    /// Its sound, in the user's words; `silent`, `magnetic`.
    pub sound: String,
    /// The true speed; the film's own when empty.
    pub speed: String,
    /// What whoever shows it must know.
    pub remark: String,
    /// How long an interval is. Unit: minutes.
    pub minutes: u32,
}

impl Default for ProgrammeForm {
    fn default() -> Self {
        Self {
            title: String::new(),
            place: String::new(),
            day: String::new(),
            machine: String::new(),
            lens_mm: String::new(),
            screen: String::new(),
            reel_feet: 400,
            leader_feet: 10,
            spacing_feet: 2,
            changeover_seconds: 90,
            rows: Vec::new(),
        }
    }
}

/// A programme worked out.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProgrammeDocument {
    /// The rows in order.
    pub rows: Vec<ProgrammeRowDocument>,
    /// The reels, in the order in which they are threaded.
    pub reels: Vec<ProgrammeReelDocument>,
    /// How far the projector stands, for each gauge that is shown.
    pub throws: Vec<ProgrammeThrowDocument>,
    /// Film time, without intervals and changes. Unit: seconds.
    pub film_seconds: f64,
    /// From the first picture to the last, with intervals and changes.
    pub clock: String,
    /// Times a reel is changed.
    pub changes: u32,
    /// What whoever shows it must know, in order.
    pub remarks: Vec<String>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// A film or an interval, worked out.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProgrammeRowDocument {
    /// What was asked.
    pub asked: ProgrammeRow,
    /// Its title; of an interval `interval`.
    pub title: String,
    /// The version that is shown.
    pub cut: String,
    /// The gauge.
    pub gauge: String,
    /// The speed at which it is shown.
    pub speed: String,
    /// Its length.
    pub frames: u32,
    /// The same in feet and frames.
    pub footage: Option<FootageDocument>,
    /// How long it is on the screen.
    pub clock: String,
    /// When it begins, from the first picture.
    pub begins: String,
    /// The reel it lies on, from 1; nothing for an interval.
    pub reel: Option<u32>,
    /// What is done before it: `first reel`, `next reel`, `other gauge`, `other speed`,
    /// `other sound`; empty where it follows on the same reel.
    pub before: String,
    /// Why it cannot be shown as it stands; empty when it can.
    pub problem: String,
}

/// A reel of a programme.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProgrammeReelDocument {
    /// Its number, from 1.
    pub reel: u32,
    /// Its gauge.
    pub gauge: String,
    /// The speed at which it is shown.
    pub speed: String,
    /// The titles on it.
    pub films: Vec<String>,
    /// With leader and spacing.
    pub footage: FootageDocument,
    /// How long its films run.
    pub clock: String,
}

/// How far the projector stands for a gauge.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ProgrammeThrowDocument {
    /// The gauge.
    pub gauge: String,
    /// From the lens to the screen. Unit: metres, to the centimetre.
    pub throw_m: String,
    /// How high the picture is. Unit: millimetres.
    pub high_mm: f64,
}
