//! Commands about titles and the copy stand.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::Paper;

/// Titles: words, copy stand and exposure sheet.
#[derive(Debug, Subcommand)]
pub(crate) enum Title {
    /// How long so many words stand.
    Hold(TitleHold),
    /// The field on the artwork for lens, gauge and close-up lens, both ways.
    Field(Box<TitleField>),
    /// How even the lamps light the artwork, and whether a glass shows them.
    Light(TitleLight),
    /// Letters a card and writes it as a picture (PNG).
    Card(Box<TitleCardAsked>),
    /// The exposure sheet: what lies under the camera, frame by frame.
    Sheet(Box<TitleSheet>),
    /// Letters a cel true to size, as a PDF to print or an SVG to draw on.
    Cel(Box<TitleCelAsked>),
    /// The titles of a film, and what is reckoned of them.
    List {
        /// The production's folder.
        dir: PathBuf,
    },
    /// Prints the titles of a film: list, exposure sheets, copy stand, field chart, cels.
    Sheets(TitleSheets),
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

#[derive(Debug, Args)]
pub(crate) struct TitleSheet {
    /// Words, for the hold by the reading rule.
    #[arg(long, value_name = "COUNT")]
    pub(crate) words: Option<usize>,
    /// Or the hold itself.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) hold: Option<u32>,
    /// The ground alone before the lettering.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) before: Option<u32>,
    /// The ground alone after it.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) after: Option<u32>,
    /// The lettering comes over as many; at once when not said.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) letters_in: Option<u32>,
    /// The lettering goes over as many; at once when not said.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) letters_out: Option<u32>,
    /// All of it comes out of the dark.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) fade_in: Option<u32>,
    /// All of it goes into the dark.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) fade_out: Option<u32>,
    /// Its last frames dissolve into another card.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) dissolve: Option<u32>,
    /// The name of that card.
    #[arg(long, value_name = "TITLE", requires = "dissolve")]
    pub(crate) dissolve_to: Option<String>,
    /// How the lettering comes over the ground: cel, card or second.
    #[arg(long, value_name = "WAY", default_value = "cel")]
    pub(crate) letters_by: String,
    /// Leave the blank cel out; the sheet says what happens then.
    #[arg(long)]
    pub(crate) no_blank_cel: bool,
    /// Another cel that lies in all along: its name.
    #[arg(long, value_name = "NAME")]
    pub(crate) second_cel: Option<String>,
    /// Density of one cel; 0.04 when not said.
    #[arg(long)]
    pub(crate) density: Option<f64>,
    /// A crawl upwards: the step of each frame, in mm on the artwork.
    #[arg(long, value_name = "MM", requires_all = ["text_high", "shown"])]
    pub(crate) crawl: Option<f64>,
    /// How tall the lettering of the crawl is, in mm on the artwork.
    #[arg(long, value_name = "MM")]
    pub(crate) text_high: Option<f64>,
    /// What is shown of the artwork, in mm: 224x169.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) shown: Option<String>,
    /// The thinnest stroke of the letters, in mm on the artwork.
    #[arg(long, value_name = "MM")]
    pub(crate) stroke: Option<f64>,
    /// Words in one line of the crawl; 3 when not said.
    #[arg(long, value_name = "COUNT")]
    pub(crate) line_words: Option<usize>,
    /// The artwork moves: from east, from south, to east, to south, in mm: "-20 0 20 0".
    #[arg(long, value_name = "PLACES", allow_hyphen_values = true)]
    pub(crate) art_move: Option<String>,
    /// The frame from which it moves, from 0.
    #[arg(long, value_name = "FRAME", requires = "art_move")]
    pub(crate) move_from: Option<u32>,
    /// Frames of the move; to the end of the card when not said.
    #[arg(long, value_name = "FRAMES", requires = "art_move")]
    pub(crate) move_frames: Option<u32>,
    /// Frames over which the move begins softly, and over which it ends so.
    #[arg(long, value_name = "FRAMES", requires = "art_move")]
    pub(crate) ease: Option<u32>,
    /// Run the camera where nothing changes, instead of single frames all along.
    #[arg(long)]
    pub(crate) running: bool,
    /// How long a frame gets light while the camera runs: 1/43.
    #[arg(long, value_name = "SECONDS", requires = "single_time")]
    pub(crate) running_time: Option<String>,
    /// How long a single frame gets light: 1/30.
    #[arg(long, value_name = "SECONDS", requires = "running_time")]
    pub(crate) single_time: Option<String>,
    /// How often it is shot, the first counted.
    #[arg(long, default_value_t = 1)]
    pub(crate) takes: u32,
    /// Film run before each take; 24 when not said.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) run_up: Option<u32>,
    /// The furthest that the camera winds back.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) wind_back: Option<u32>,
    /// regular8, super8, 9.5, 16 or 35: tells feet and frames too.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
    /// Frames a second.
    #[arg(long, default_value = "18")]
    pub(crate) speed: String,
}

#[derive(Debug, Args)]
pub(crate) struct TitleCardAsked {
    /// A text file with the words; - reads them from standard input. A line end is a line
    /// end, an empty line a gap.
    #[arg(long, value_name = "FILE")]
    pub(crate) words: PathBuf,
    /// brush, pen, transfer, chalk, cut-paper, typewriter, silent, engraved, stencil,
    /// wood-type or plain.
    #[arg(long, value_name = "NAME")]
    pub(crate) design: String,
    /// regular8, super8, 9.5, 16 or 35: the card is the picture that its projector shows.
    #[arg(long)]
    pub(crate) gauge: String,
    /// A picture under the words, PNG or JPEG.
    #[arg(long, value_name = "FILE", conflicts_with = "ground")]
    pub(crate) picture: Option<PathBuf>,
    /// A plain ground: a grey in per cent of white, or a colour such as #203040; black
    /// when not said, near white under black letters.
    #[arg(long, value_name = "GREY")]
    pub(crate) ground: Option<String>,
    /// The picture to write.
    #[arg(long, value_name = "CARD.png")]
    pub(crate) out: PathBuf,
    /// Its size in pixels.
    #[arg(long, value_name = "WIDTHxHEIGHT", default_value = "1440x1080")]
    pub(crate) size: String,
    /// left, centre or right.
    #[arg(long, value_name = "PLACE")]
    pub(crate) across: Option<String>,
    /// top, middle or low.
    #[arg(long = "where", value_name = "PLACE")]
    pub(crate) down: Option<String>,
    /// How high a capital is, in per cent of the picture's height; as large as fits well
    /// when not said.
    #[arg(long, value_name = "PERCENT")]
    pub(crate) letter_height: Option<f64>,
    /// The part of what is shown that is safe for lettering, in per cent.
    #[arg(long, value_name = "PERCENT", default_value_t = 80.0)]
    pub(crate) safe: f64,
    /// Your own typeface, TTF or OTF, lettered in the manner of the design.
    #[arg(long, value_name = "FILE")]
    pub(crate) font: Option<PathBuf>,
    /// Black letters, for a light ground.
    #[arg(long)]
    pub(crate) black: bool,
    /// A contour around the letters.
    #[arg(long)]
    pub(crate) outline: bool,
    /// A shadow beside the letters.
    #[arg(long)]
    pub(crate) shadow: bool,
    /// A plate behind the words.
    #[arg(long)]
    pub(crate) plate: bool,
}

#[derive(Debug, Args)]
pub(crate) struct TitleCelAsked {
    /// A text file with the words; - reads them from standard input.
    #[arg(long, value_name = "FILE")]
    pub(crate) words: PathBuf,
    /// The card design, as for `title card`.
    #[arg(long, value_name = "NAME")]
    pub(crate) design: String,
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: String,
    /// How wide the camera sees the artwork, in mm.
    #[arg(long, value_name = "MM")]
    pub(crate) width: f64,
    /// The camera's gate as measured, in mm: 5.69x4.22. The gauge's when not said.
    #[arg(long, value_name = "WIDTHxHEIGHT")]
    pub(crate) gate: Option<String>,
    /// The file to write: its name ends in .pdf or .svg.
    #[arg(long, value_name = "FILE")]
    pub(crate) out: PathBuf,
    /// How high a capital is, in per cent of the picture's height.
    #[arg(long, value_name = "PERCENT")]
    pub(crate) letter_height: Option<f64>,
    /// left, centre or right.
    #[arg(long, value_name = "PLACE")]
    pub(crate) across: Option<String>,
    /// top, middle or low.
    #[arg(long = "where", value_name = "PLACE")]
    pub(crate) down: Option<String>,
    /// The part of what is shown that is safe for lettering, in per cent.
    #[arg(long, value_name = "PERCENT", default_value_t = 80.0)]
    pub(crate) safe: f64,
    /// Your own typeface, TTF or OTF.
    #[arg(long, value_name = "FILE")]
    pub(crate) font: Option<PathBuf>,
    /// White letters on black, for a second exposure.
    #[arg(long)]
    pub(crate) reversed: bool,
    /// Mirrored, to be printed on the back of clear film.
    #[arg(long)]
    pub(crate) mirrored: bool,
    /// The paper of a PDF.
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    pub(crate) paper: Paper,
}

#[derive(Debug, Args)]
pub(crate) struct TitleSheets {
    /// The production's folder.
    pub(crate) dir: PathBuf,
    /// The folder to print into.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: PathBuf,
    /// Only this one: title-list, exposure-sheet, stand-drawing, field-chart or cel.
    #[arg(long, value_name = "SHEET")]
    pub(crate) only: Option<String>,
    /// Only this title, by its name.
    #[arg(long, value_name = "NAME")]
    pub(crate) title: Option<String>,
    /// Cels with white letters on black.
    #[arg(long)]
    pub(crate) reversed: bool,
    /// Cels mirrored, to be printed on the back of clear film.
    #[arg(long)]
    pub(crate) mirrored: bool,
    /// The paper.
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    pub(crate) paper: Paper,
}
