//! What is kept of a title, of the copy stand and of the hall: as it is typed.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What a title is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum TitleKindWord {
    /// The name of the film.
    Main,
    /// Words between two shots.
    #[default]
    Intertitle,
    /// Who made it.
    Credits,
    /// The end.
    End,
}

/// What lies under the lettering.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum TitleGroundWord {
    /// A plain card.
    #[default]
    Plain,
    /// The user's own picture.
    Picture,
    /// A frame of the film.
    Frame,
}

/// Where lettering stands from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum LettersAcrossWord {
    /// Lines begin under each other.
    Left,
    /// Each line in the middle.
    #[default]
    Centre,
    /// Lines end under each other.
    Right,
}

/// Where lettering stands from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum LettersDownWord {
    /// At the top of the safe field.
    Top,
    /// In the middle, as the eye sees it.
    #[default]
    Middle,
    /// At the foot of the safe field.
    Low,
}

/// How a title is lettered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct LetteringWords {
    /// The card design, by its word: `brush`.
    #[schema(required = true)]
    pub design: String,
    /// How high capitals are: thousandths of the picture's height; not said, as large as
    /// the design likes and the safe field lets it.
    #[schema(required = true)]
    pub letter_height: Option<u32>,
    /// From left to right.
    #[schema(required = true)]
    pub across: LettersAcrossWord,
    /// From top to bottom.
    #[schema(required = true)]
    pub down: LettersDownWord,
    /// Letters with a line round them; not said, as the design has it.
    #[schema(required = true)]
    pub outline: Option<bool>,
    /// Letters with a shadow; not said, as the design has it.
    #[schema(required = true)]
    pub shadow: Option<bool>,
    /// A plate under the lettering.
    #[schema(required = true)]
    pub plate: bool,
    /// Dark letters instead of light ones.
    #[schema(required = true)]
    pub dark: bool,
    /// The user's own typeface, by the name it was kept under; empty for the design's.
    #[schema(required = true)]
    pub face: String,
}

impl Default for LetteringWords {
    fn default() -> Self {
        Self {
            design: "brush".to_owned(),
            letter_height: None,
            across: LettersAcrossWord::Centre,
            down: LettersDownWord::Middle,
            outline: None,
            shadow: None,
            plate: false,
            dark: false,
            face: String::new(),
        }
    }
}

/// What lies under the lettering, and how light it is.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct TitleGroundWords {
    /// Which of the three.
    #[schema(required = true)]
    pub kind: TitleGroundWord,
    /// A plain card: how much of the light it throws back, in per cent.
    #[schema(required = true)]
    pub light: u32,
    /// The user's picture, by the name it was kept under.
    #[schema(required = true)]
    pub picture: String,
    /// The frame of the film: `R1·120`.
    #[schema(required = true)]
    pub frame: String,
    /// By how much the artwork is darkened. Unit: tenths of a stop.
    #[schema(required = true)]
    pub darker: u32,
}

/// The artwork moved under the camera, with a soft begin and end. Places are tenths of a
/// millimetre on the artwork, east and south of where it lies else.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ArtMoveWords {
    /// Where it begins, to the east.
    #[schema(required = true)]
    pub from_east: i32,
    /// Where it begins, to the south.
    #[schema(required = true)]
    pub from_south: i32,
    /// Where it ends, to the east.
    #[schema(required = true)]
    pub to_east: i32,
    /// Where it ends, to the south.
    #[schema(required = true)]
    pub to_south: i32,
    /// The last frame on which it still lies where it began, counted from 0.
    #[schema(required = true)]
    pub first: u32,
    /// Steps, one a frame.
    #[schema(required = true)]
    pub frames: u32,
    /// Steps that grow.
    #[schema(required = true)]
    pub ease_in: u32,
    /// Steps that shrink.
    #[schema(required = true)]
    pub ease_out: u32,
}

/// How a title is put on film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct ShootingWords {
    /// How long the lettering stands. Unit: frames; not said, as the reading rule has it.
    #[schema(required = true)]
    pub hold: Option<u32>,
    /// Artwork with the blank cel before the lettering drops. Unit: frames.
    #[schema(required = true)]
    pub before: u32,
    /// Artwork with the blank cel after it. Unit: frames.
    #[schema(required = true)]
    pub after: u32,
    /// The whole comes out of the dark. Unit: frames; 0 for none.
    #[schema(required = true)]
    pub fade_in: u32,
    /// The whole goes into the dark. Unit: frames; 0 for none.
    #[schema(required = true)]
    pub fade_out: u32,
    /// The lettering comes slowly. Unit: frames; 0 to drop it at once.
    #[schema(required = true)]
    pub letters_in: u32,
    /// The lettering goes slowly. Unit: frames; 0 to lift it at once.
    #[schema(required = true)]
    pub letters_out: u32,
    /// A crawl: how far the lettering goes up for each frame. Unit: hundredths of a
    /// millimetre on the artwork; 0 for none.
    #[schema(required = true)]
    pub crawl: u32,
    /// The title that the last frames dissolve into, by its name; empty for none.
    #[schema(required = true)]
    pub dissolve_to: String,
    /// Over how many frames. Unit: frames.
    #[schema(required = true)]
    pub dissolve: u32,
    /// The artwork moves; not said, it lies still.
    #[schema(required = true)]
    pub art_move: Option<ArtMoveWords>,
    /// A cel without lettering lies on the artwork from the first frame.
    #[schema(required = true)]
    pub blank_cel: bool,
    /// White letters exposed a second time over the picture, instead of a cel.
    #[schema(required = true)]
    pub exposed_twice: bool,
    /// Frame by frame with the single-frame release, instead of running.
    #[schema(required = true)]
    pub single_frame: bool,
    /// How often it is shot, the first time counted.
    #[schema(required = true)]
    pub takes: u32,
}

impl Default for ShootingWords {
    fn default() -> Self {
        Self {
            hold: None,
            before: 0,
            after: 0,
            fade_in: 0,
            fade_out: 0,
            letters_in: 0,
            letters_out: 0,
            crawl: 0,
            dissolve_to: String::new(),
            dissolve: 0,
            art_move: None,
            blank_cel: true,
            exposed_twice: false,
            single_frame: false,
            takes: 1,
        }
    }
}

/// A title as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct TitleWords {
    /// As the slate and the cut name it: `M`, `E`, `T1`. Empty gives the next one.
    #[schema(required = true)]
    pub name: String,
    /// What it is for.
    #[schema(required = true)]
    pub kind: TitleKindWord,
    /// What it says, line by line.
    #[schema(required = true)]
    pub words: String,
    /// How it is lettered.
    #[schema(required = true)]
    pub lettering: LetteringWords,
    /// What lies under it.
    #[schema(required = true)]
    pub ground: TitleGroundWords,
    /// How it is put on film.
    #[schema(required = true)]
    pub shooting: ShootingWords,
    /// The user's note.
    #[schema(required = true)]
    pub note: String,
}

/// The copy stand and the hall, for all titles of the film. Numbers stand as they are
/// typed; an empty one is as the gauge has it, or not known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct StandWords {
    /// The reading rule, by its word.
    #[schema(required = true)]
    pub rule: String,
    /// Of the user's own rule: the least that any title stands. Unit: seconds.
    #[schema(required = true)]
    pub least: String,
    /// Of the user's own rule: before the first word. Unit: seconds.
    #[schema(required = true)]
    pub first: String,
    /// Of the user's own rule: for each word. Unit: seconds.
    #[schema(required = true)]
    pub per_word: String,
    /// The lens. Unit: mm.
    #[schema(required = true)]
    pub lens: String,
    /// The camera's gate, where it was measured: `5.69x4.22`. Unit: mm.
    #[schema(required = true)]
    pub gate: String,
    /// How wide the field on the artwork is. Unit: mm.
    #[schema(required = true)]
    pub width: String,
    /// Instead of the width: how far the artwork lies from the lens. Unit: mm.
    #[schema(required = true)]
    pub distance: String,
    /// How near the lens focuses, from film to artwork. Unit: mm.
    #[schema(required = true)]
    pub closest: String,
    /// The close-up lens. Unit: dioptres.
    #[schema(required = true)]
    pub close_up: String,
    /// The stop: `5.6`.
    #[schema(required = true)]
    pub stop: String,
    /// The circle of confusion. Unit: mm.
    #[schema(required = true)]
    pub blur: String,
    /// From the lens axis to each lamp. Unit: degrees.
    #[schema(required = true)]
    pub lamp_angle: String,
    /// From each lamp to the middle of the field. Unit: mm.
    #[schema(required = true)]
    pub lamp_distance: String,
    /// Glass lies on the artwork.
    #[schema(required = true)]
    pub glass: bool,
    /// The density of the cels that are used.
    #[schema(required = true)]
    pub cel_density: String,
    /// How long a frame gets light while the camera runs: `1/43`; empty where not known.
    /// Unit: seconds.
    #[schema(required = true)]
    pub running_time: String,
    /// How long one gets light by the single-frame release: `1/30`. Unit: seconds.
    #[schema(required = true)]
    pub single_time: String,
    /// From the last row to the screen. Unit: metres.
    #[schema(required = true)]
    pub last_row: String,
    /// How wide the screen is. Unit: mm.
    #[schema(required = true)]
    pub screen: String,
    /// Which part of the projected field is kept free of loss. Unit: per cent.
    #[schema(required = true)]
    pub safe: u32,
}

impl Default for StandWords {
    fn default() -> Self {
        let none = String::new;
        Self {
            rule: "own".to_owned(),
            least: "2.5".to_owned(),
            first: "1".to_owned(),
            per_word: "0.5".to_owned(),
            lens: "25".to_owned(),
            gate: none(),
            width: "240".to_owned(),
            distance: none(),
            closest: none(),
            close_up: none(),
            stop: "5.6".to_owned(),
            blur: none(),
            lamp_angle: "45".to_owned(),
            lamp_distance: "800".to_owned(),
            glass: false,
            cel_density: "0.04".to_owned(),
            running_time: none(),
            single_time: none(),
            last_row: "5".to_owned(),
            screen: "1200".to_owned(),
            safe: 80,
        }
    }
}
