//! The floor plan.

use super::PlanHead;

/// A floor plan to draw to scale.
///
/// Places are metres on the ground from a corner of the caller's own: x to the right of
/// the page, y up it. Directions are degrees clockwise from straight up the page.
#[derive(Clone, Debug)]
pub struct FloorPlan {
    /// What every sheet has in common.
    pub head: PlanHead,
    /// What the plan shows, in the maker's words: `The landing, scenes 1 to 4`.
    pub of: String,
    /// Walls, edges, tables: what stands there.
    pub outlines: Vec<FloorLine>,
    /// The line of action, none where it is not drawn.
    pub line_of_action: Option<FloorLine>,
    /// People and things.
    pub marks: Vec<FloorMark>,
    /// The cameras.
    pub cameras: Vec<FloorCamera>,
    /// Where north lies, nothing where it is not known. Unit: degrees clockwise from up
    /// the page.
    pub north: Option<f64>,
    /// Where the sun stands by the hour, empty where it is not known.
    pub sun: Vec<SunAt>,
    /// By what the sun was reckoned: place, day, and the published way; printed below.
    pub sun_from: String,
}

/// A line through places.
#[derive(Clone, Debug)]
pub struct FloorLine {
    /// What it is; empty draws no word.
    pub name: String,
    /// Its places. Unit: metres.
    pub points: Vec<(f64, f64)>,
}

/// A person or a thing.
#[derive(Clone, Debug)]
pub struct FloorMark {
    /// The name beside it.
    pub name: String,
    /// Where. Unit: metres.
    pub at: (f64, f64),
    /// Where to, if it goes. Unit: metres.
    pub goes_to: Option<(f64, f64)>,
}

/// A camera and what it sees.
#[derive(Clone, Debug)]
pub struct FloorCamera {
    /// Its setup as the slate says it.
    pub name: String,
    /// Where it stands. Unit: metres.
    pub at: (f64, f64),
    /// Where it looks. Unit: degrees clockwise from up the page.
    pub towards: f64,
    /// The width of its field. Unit: degrees, above 0 and below 180.
    pub field: f64,
    /// How far the wedge is drawn. Unit: metres.
    pub reach: f64,
    /// Lens and height, or what else is to be said: `13 mm, 1.4 m`; may be empty.
    pub lens: String,
}

/// Where the sun stands.
#[derive(Clone, Debug)]
pub struct SunAt {
    /// The hour: `09:00`.
    pub hour: String,
    /// Its bearing. Unit: degrees clockwise from north.
    pub azimuth: f64,
    /// Its height. Unit: degrees above the horizon; below it nothing is drawn.
    pub altitude: f64,
}
