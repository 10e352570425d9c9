//! Pages that are laid on the copy stand: what they show is as large as they say.

use crate::Paper;

/// What every page of true size has in common.
#[derive(Clone, Debug)]
pub struct TrueSizeHead {
    /// The title of the film, in the maker's words.
    pub title: String,
    /// Which title of it, or what else tells one page from another; may be empty.
    pub of: String,
    /// What the camera takes in, wide and high. Unit: millimetres. Range: 2 to 2,000.
    pub field_mm: [f64; 2],
    /// What of it is shown. Unit: millimetres.
    pub shown_mm: [f64; 2],
    /// What of that is safe for lettering. Unit: millimetres.
    pub safe_mm: [f64; 2],
    /// The smaller paper there is. A page that does not fit on it is set on the paper of
    /// twice its size, and beyond that on several pages to be joined.
    pub paper: Paper,
}

/// The field chart: what the camera takes in, shows and loses, to lay under it.
#[derive(Clone, Debug)]
pub struct TitleFieldChart {
    /// What it has in common with the cels.
    pub head: TrueSizeHead,
    /// Lens, distance and stop in a line: `25 mm lens, 1,079.5 mm from the lens`; may be
    /// empty.
    pub set_up: String,
}

/// A cel with the lettering as outlines.
#[derive(Clone, Debug)]
pub struct TitleCel {
    /// What it has in common with the chart.
    pub head: TrueSizeHead,
    /// The outlines as the data of an SVG path, in millimetres from the upper left corner
    /// of the field. Only the letters of such data and figures are printed.
    pub outlines: String,
    /// A line round the letters; 0 for none. Unit: millimetres.
    pub pen_mm: f64,
    /// How high the cel is, where a crawl is higher than the field. Unit: millimetres.
    pub high_mm: f64,
    /// White letters on black, for a second exposure, instead of black on clear.
    pub reversed: bool,
    /// Mirrored, to be printed on the back of clear film.
    pub mirrored: bool,
}
