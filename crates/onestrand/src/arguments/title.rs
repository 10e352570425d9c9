//! Commands about titles and the copy stand.

use clap::{Args, Subcommand};

/// Titles: words, copy stand and exposure sheet.
#[derive(Debug, Subcommand)]
pub(crate) enum Title {
    /// How long so many words stand.
    Hold(TitleHold),
    /// The field on the artwork for lens, gauge and close-up lens, both ways.
    Field(Box<TitleField>),
    /// How even the lamps light the artwork, and whether a glass shows them.
    Light(TitleLight),
}

#[derive(Debug, Args)]
pub(crate) struct TitleHold {
    /// How many words.
    #[arg(long, value_name = "COUNT", required_unless_present = "text")]
    pub(crate) words: Option<usize>,
    /// The text itself, whose words are counted.
    #[arg(long, conflicts_with = "words")]
    pub(crate) text: Option<String>,
    /// Frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
    /// The reading rule: own, wpm120, wpm160, wpm180, silent or study.
    #[arg(long, default_value = "own")]
    pub(crate) rule: String,
    /// The least a title stands, instead of the rule's.
    #[arg(long, value_name = "SECONDS")]
    pub(crate) least: Option<f64>,
    /// For the eye to settle, instead of the rule's.
    #[arg(long, value_name = "SECONDS")]
    pub(crate) first: Option<f64>,
    /// For each word, instead of the rule's.
    #[arg(long, value_name = "SECONDS")]
    pub(crate) per_word: Option<f64>,
    /// regular8, super8, 9.5, 16 or 35: tells feet and frames too.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct TitleField {
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// The lens in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) lens: f64,
    /// How wide the field on the artwork is, in mm.
    #[arg(long, value_name = "MM", conflicts_with = "distance")]
    pub(crate) width: Option<f64>,
    /// Or how far the artwork lies from the lens: 1.2m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: Option<String>,
    /// The camera's gate as measured, in mm: 5.69x4.22. The gauge's when not said.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) gate: Option<String>,
    /// The spot that passes for a point, in mm; the gauge's usual one when not said.
    #[arg(long, value_name = "MM")]
    pub(crate) coc: Option<f64>,
    /// Close-up lenses before the lens, in dioptres: 3, or 1,2.
    #[arg(long, value_name = "POWERS")]
    pub(crate) diopter: Option<String>,
    /// Behind them, what the lens is set to: 2m; infinity when nothing else is said.
    #[arg(long, value_name = "LENGTH", requires = "diopter")]
    pub(crate) focus: Option<String>,
    /// The stop: 5.6. Tells from where to where it is sharp.
    #[arg(long)]
    pub(crate) stop: Option<f64>,
    /// The nearest mark on the lens, which counts from the film: 1.2m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) closest: Option<String>,
    /// The part of what is shown that is safe for lettering, in per cent.
    #[arg(long, value_name = "PERCENT", default_value_t = 80.0)]
    pub(crate) safe: f64,
    /// From the screen to the last row: 5m. Tells how high letters must be.
    #[arg(long, value_name = "LENGTH", requires = "screen")]
    pub(crate) last_row: Option<String>,
    /// Across the picture on the screen: 1.2m.
    #[arg(long, value_name = "LENGTH", requires = "last_row")]
    pub(crate) screen: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct TitleLight {
    /// Between the axis of the lens and the light, in degrees.
    #[arg(long, value_name = "DEGREES")]
    pub(crate) angle: f64,
    /// From each lamp to the middle of the field, in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) distance: f64,
    /// The field in mm: 240x178.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) field: String,
    /// Pairs of lamps: 1 or 2.
    #[arg(long, default_value_t = 1)]
    pub(crate) pairs: u32,
    /// Of two pairs, how far apart the lamps of a side stand, in mm; as far as the field
    /// is high when not said.
    #[arg(long, value_name = "MM")]
    pub(crate) apart: Option<f64>,
    /// Glass lies on the artwork, and the lens is so far over it: 1.08m.
    #[arg(long, value_name = "LENGTH")]
    pub(crate) glass: Option<String>,
    /// Across a lamp with its reflector, in mm.
    #[arg(long, value_name = "MM", default_value_t = 120.0)]
    pub(crate) lamp: f64,
}
