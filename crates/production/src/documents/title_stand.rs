//! What the copy stand is reckoned to do for a title.

use serde::Serialize;
use utoipa::ToSchema;

use super::CameraOpenedDocument;

/// How long a title stands.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleHoldDocument {
    /// Its words.
    pub words: usize,
    /// Frames a second, as a fraction.
    pub speed: String,
    /// By the rule. Unit: seconds.
    pub seconds: f64,
    /// The same, rounded up to whole frames.
    pub frames: u32,
    /// As the counter of the gauge shows it, such as `1ft54`; none without a gauge.
    pub footage: Option<String>,
    /// The rule: the least, to settle, and for each word. Unit: seconds.
    pub rule_s: [f64; 3],
    /// Whether it stands longer than a card should.
    pub is_long: bool,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// How high letters must be for the last row.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleLettersDocument {
    /// The rule in words.
    pub rule: String,
    /// Unit: minutes of arc.
    pub arc_minutes: f64,
    /// A capital on the screen. Unit: millimetres.
    pub on_screen_mm: f64,
    /// A capital on the artwork. Unit: millimetres.
    pub on_art_mm: f64,
    /// As a part of the height of the picture.
    pub of_height: f64,
    /// Where the rule is from.
    pub source: String,
}

/// Field and distances of the copy stand. All lengths in millimetres.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleFieldDocument {
    /// The gauge.
    pub gauge: String,
    /// The gate of the camera, wide and high.
    pub gate_mm: [f64; 2],
    /// What the projector shows of it, on the film.
    pub aperture_mm: [f64; 2],
    /// The lens.
    pub lens_mm: f64,
    /// Close-up lenses together; 0 for none. Unit: dioptres.
    pub dioptres: f64,
    /// What the lens is set to; none at infinity.
    pub focus_mm: Option<f64>,
    /// Size on the film against size on the artwork.
    pub magnification: f64,
    /// From the lens to the artwork.
    pub subject_mm: f64,
    /// From the film to the artwork, the lens taken as thin.
    pub film_to_subject_mm: f64,
    /// From the lens to the film.
    pub image_mm: f64,
    /// Light lost: open by as much. Unit: stops.
    pub exposure_stops: f64,
    /// What the camera takes in, wide and high.
    pub field_mm: [f64; 2],
    /// What of it is shown.
    pub shown_mm: [f64; 2],
    /// What of that is safe for lettering.
    pub safe_mm: [f64; 2],
    /// The part that is safe. Unit: per cent.
    pub safe_percent: f64,
    /// Sharp from here; none without a stop.
    pub near_mm: Option<f64>,
    /// Sharp to here; none without a stop, and where it is sharp to infinity.
    pub far_mm: Option<f64>,
    /// The spot that passes for a point, on the film.
    pub circle_mm: f64,
    /// How high letters must be, by each rule; empty without a hall.
    pub letters: Vec<TitleLettersDocument>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// What a glass on the artwork throws into the lens.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleGlareDocument {
    /// Whether the lens sees a lamp within the field.
    pub in_field: bool,
    /// From the edge of the field to the nearest lamp that is seen; below 0 within it.
    /// Unit: millimetres.
    pub clear_mm: f64,
    /// The least angle at which none is seen in the field. Unit: degrees.
    pub clear_from_degrees: Option<f64>,
    /// Where each lamp is seen, east and north of the middle, and the radius of what is
    /// seen of it. Unit: millimetres on the glass.
    pub seen_at_mm: Vec<[f64; 3]>,
    /// In words, with what to do.
    pub words: String,
}

/// The light of the lamps over the field.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleLightDocument {
    /// Between the axis of the lens and the light. Unit: degrees.
    pub angle_degrees: f64,
    /// From each lamp to the middle of the field. Unit: millimetres.
    pub distance_mm: f64,
    /// The field, wide and high. Unit: millimetres.
    pub field_mm: [f64; 2],
    /// The middle of the side edge against the middle of the field. Unit: stops.
    pub edge_stops: f64,
    /// The middle of the top edge. Unit: stops.
    pub top_stops: f64,
    /// The corner. Unit: stops.
    pub corner_stops: f64,
    /// From the darkest to the lightest place. Unit: stops.
    pub spread_stops: f64,
    /// Whether that looks even.
    pub even: bool,
    /// Stops over the field, rows from north to south, each from west to east.
    pub map: Vec<Vec<f64>>,
    /// Where the lamps stand: east, north and over the middle. Unit: millimetres.
    pub lamps_mm: Vec<[f64; 3]>,
    /// Where glass lies on the artwork; none where none was asked.
    pub glare: Option<TitleGlareDocument>,
    /// What hurts: lamps, mains, glass.
    pub cautions: Vec<String>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}

/// One line of an exposure sheet: frames that are exposed alike.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ExposureLineDocument {
    /// From 1; each further one begins after winding back.
    pub pass: u32,
    /// The first frame, counted from 0 of the card.
    pub from: u32,
    /// The first frame after it.
    pub to: u32,
    /// `ground`, `card`, `black` or `next`.
    pub background: String,
    /// `none`, `blank`, `lettered` or `second`.
    pub cel_1: String,
    /// The cel on that.
    pub cel_2: String,
    /// Where the ground lies on the first frame, east and south. Unit: millimetres.
    pub art_mm: [f64; 2],
    /// Its step before each further frame. Unit: millimetres.
    pub art_step_mm: [f64; 2],
    /// Where the lettering lies on the first frame, east and south. Unit: millimetres.
    pub letters_mm: [f64; 2],
    /// Its step before each further frame. Unit: millimetres.
    pub letters_step_mm: [f64; 2],
    /// Against the right exposure; none where the lens stays shut. Unit: stops.
    pub stops: Option<f64>,
    /// As a part of the right exposure, for a variable shutter.
    pub part: f64,
    /// `single` or `running`.
    pub exposing: String,
    /// How far the iris is set off for that way of exposing. Unit: stops.
    pub iris_stops: f64,
    /// What the hand does before it.
    pub note: String,
}

/// Something to look out for, with a way out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitleWarningDocument {
    /// What it is.
    pub what: String,
    /// What can be done.
    pub next: String,
}

/// What a title needs of the roll.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitleNeedDocument {
    /// Takes, spares counted.
    pub takes: u32,
    /// Of each with its run-up. Unit: frames.
    pub frames_each: u32,
    /// All of it. Unit: frames.
    pub frames: u32,
    /// All of it as the counter of the gauge shows it; none without a gauge.
    pub footage: Option<String>,
    /// The furthest that the film is wound back. Unit: frames.
    pub wound_back: u32,
}

/// The exposure sheet of a title.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleSheetDocument {
    /// Of one take, without its run-up. Unit: frames.
    pub frames: u32,
    /// The ground alone, then the lettering, then the ground alone. Unit: frames.
    pub parts: [u32; 3],
    /// On the screen. Unit: seconds.
    pub seconds: f64,
    /// How often the film runs through for one take.
    pub passes: u32,
    /// The lines, pass by pass.
    pub lines: Vec<ExposureLineDocument>,
    /// What it needs of the roll.
    pub need: TitleNeedDocument,
    /// How much more light a single frame gets than a running one; none where the times
    /// are not known. Unit: stops.
    pub single_over_running_stops: Option<f64>,
    /// What to look out for.
    pub warnings: Vec<TitleWarningDocument>,
    /// What hurts: lamps, mains.
    pub cautions: Vec<String>,
    /// Plates, sums, and the line for the script.
    #[serde(flatten)]
    pub opened: CameraOpenedDocument,
}
