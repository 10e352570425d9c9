//! Gauges: the widths of film and all that follows from them.

use std::fmt;
use std::str::FromStr;

use crate::gauge_table::TABLE;
use crate::{SoundLead, SoundTrack, UnitError};

/// A gauge of film.
///
/// Written `regular8`, `super8`, `9.5`, `16`, `35`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Gauge {
    /// 8 mm of the older kind, slit from 16 mm.
    Regular8,
    /// Super 8.
    Super8,
    /// 9.5 mm with its hole on the frame line in the middle.
    NineFive,
    /// 16 mm.
    Sixteen,
    /// 35 mm with four perforations a frame.
    ThirtyFive,
}

/// What is known of a gauge.
///
/// The values are data for a calculation, to be calibrated on the user's own
/// machines; each names its source in the table.
#[derive(Debug)]
pub struct GaugeSpec {
    /// The gauge described.
    pub gauge: Gauge,
    /// The word in commands and files.
    pub code: &'static str,
    /// The word on sheets and screens.
    pub name: &'static str,
    /// Frames a foot as the trade counts. Unit: frames.
    pub frames_per_foot: u32,
    /// From frame to frame on new film. Unit: micrometres.
    pub pitch_um: u32,
    /// Where the pitch comes from.
    pub pitch_source: &'static str,
    /// What the camera exposes, if known.
    pub camera: Aperture,
    /// What the projector shows, if known.
    pub shown: Aperture,
    /// The strip as it is drawn.
    pub strip: StripGeometry,
    /// Leads of the sound over its picture.
    pub sound: &'static [SoundLead],
    /// The usual load. Unit: frames; with the words for it.
    pub load: Option<(u32, &'static str)>,
    /// A usual small hub, taken when none is given. Unit: micrometres.
    pub hub_um: Option<u32>,
    /// Thickness of triacetate stock, taken when none is given. Unit: micrometres.
    pub thickness_um: Option<u32>,
}

/// A picture area, width by height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Aperture {
    /// Unit: micrometres.
    pub width_um: u32,
    /// Unit: micrometres.
    pub height_um: u32,
    /// Where the figures come from.
    pub source: &'static str,
}

/// The strip to scale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StripGeometry {
    /// Width of the strip. Unit: micrometres.
    pub width_um: u32,
    /// Width and height of a perforation, if known. Unit: micrometres.
    pub hole_um: Option<(u32, u32)>,
    /// From the edge of the strip to the hole, if at the edge. Unit: micrometres.
    pub edge_um: Option<u32>,
    /// Radius of the hole's corners. Unit: micrometres.
    pub radius_um: Option<u32>,
    /// From the left edge of the strip to the picture, seen through the base,
    /// heads up; for drawing. Unit: micrometres.
    pub picture_left_um: u32,
    /// Where the hole lies.
    pub place: HolePlace,
    /// Where the figures come from.
    pub source: &'static str,
}

/// Where a gauge has its holes, seen through the base, heads up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum HolePlace {
    /// One hole beside the middle of each picture.
    BesidePicture,
    /// One hole at the edge on each frame line.
    EdgeOnFrameLine,
    /// One hole in the middle of each frame line.
    CentreOnFrameLine,
    /// Four holes on both edges of each picture.
    FourBothEdges,
}

impl Gauge {
    /// Every gauge, narrow to wide.
    pub const ALL: [Self; 5] = [
        Self::Regular8,
        Self::Super8,
        Self::NineFive,
        Self::Sixteen,
        Self::ThirtyFive,
    ];

    /// What is known of this gauge.
    #[must_use]
    pub fn spec(self) -> &'static GaugeSpec {
        match self {
            Self::Regular8 => &TABLE[0],
            Self::Super8 => &TABLE[1],
            Self::NineFive => &TABLE[2],
            Self::Sixteen => &TABLE[3],
            Self::ThirtyFive => &TABLE[4],
        }
    }

    /// The leads known for one kind of sound track, the usual one first.
    pub fn sound_leads(self, track: SoundTrack) -> impl Iterator<Item = &'static SoundLead> {
        self.spec()
            .sound
            .iter()
            .filter(move |lead| lead.track == track)
    }
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.spec().code)
    }
}

impl FromStr for Gauge {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        let plain = text.trim().to_ascii_lowercase();
        Self::ALL
            .into_iter()
            .find(|g| g.spec().code == plain)
            .ok_or_else(|| {
                UnitError::unreadable("a gauge", text, "regular8, super8, 9.5, 16 or 35")
            })
    }
}
