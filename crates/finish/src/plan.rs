//! What a finish is made from.

use std::path::PathBuf;

use onestrand_compose::MadeOf;
use onestrand_film::Fps;
use onestrand_intake::{FrameIndex, Source};

use crate::{Coding, FinishError, Pattern, PictureForm};

/// A scan that frames are taken from.
#[derive(Debug)]
pub struct FinishScan {
    /// The scan, opened read-only.
    pub source: Source,
    /// How its file frames are found.
    pub index: FrameIndex,
}

/// What stands at one place of the finish.
#[derive(Debug, Clone, PartialEq)]
pub enum Place {
    /// A film frame out of a scan.
    Shown {
        /// Which of the scans.
        scan: usize,
        /// Which of its file frames give it.
        made_of: MadeOf,
    },
    /// A frame of a title that is still to be photographed, as it is drawn.
    Card {
        /// Which of the cards.
        card: usize,
        /// Which frame of it.
        frame: u32,
    },
    /// Leader, a card without a drawing, or a frame no scan shows: black.
    Black,
}

/// A title that is drawn until it is photographed: its frames as 8-bit sRGB.
pub trait CardFilm: std::fmt::Debug + Send + Sync {
    /// Pixels across and down.
    fn size(&self) -> (u32, u32);

    /// For a frame the first one that looks the same.
    fn first_alike(&self, frame: u32) -> u32;

    /// The picture of a frame: red, green, blue, a byte each.
    fn frame(&self, frame: u32) -> Vec<u8>;

    /// Words that change whenever a picture does.
    fn mark(&self) -> String;
}

/// What is done to pictures on their way: their light matched, their weave taken out.
pub trait Treat {
    /// Changes the picture at a place of the cut. It comes as planes of green, blue and
    /// red, 16 bits a sample, little-endian (`gbrp16le`).
    ///
    /// # Errors
    /// Whatever stops the finish.
    fn treat(
        &mut self,
        place: u64,
        picture: &mut [u8],
        size: (u32, u32),
    ) -> Result<(), FinishError>;

    /// Words that change whenever what is done does.
    fn mark(&self) -> String;
}

/// The sound that goes with a finish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SoundOfFilm {
    /// A sound at 48 kHz.
    pub path: PathBuf,
    /// Samples before the first picture, which are left out: the leader's.
    pub skip: u64,
    /// Samples from the first picture to the last.
    pub samples: u64,
}

/// A finish to be made.
#[derive(Debug)]
pub struct FinishPlan {
    /// The scans.
    pub scans: Vec<FinishScan>,
    /// The titles that are drawn.
    pub cards: Vec<Box<dyn CardFilm>>,
    /// What stands at each place, in order.
    pub places: Vec<Place>,
    /// How the film's frames go into the file's.
    pub pattern: Pattern,
    /// How the pictures are coded.
    pub coding: Coding,
    /// Written into the file.
    pub title: String,
    /// Where it goes; the folder must be there.
    pub path: PathBuf,
    /// The sound, where there is one.
    pub sound: Option<SoundOfFilm>,
    /// Places made in one go, each in a part of its own: what is made stays made when the
    /// work is stopped. A part that would end within a piece may become half as long
    /// again, so that no piece is entered twice.
    pub part_places: usize,
}

impl FinishPlan {
    /// A silent finish at the film's own speed, coded as the end of its name asks for.
    ///
    /// # Errors
    /// None that a speed by itself can raise; see [`Pattern::new`].
    pub fn plain(
        scans: Vec<FinishScan>,
        places: Vec<Place>,
        speed: Fps,
        title: String,
        path: PathBuf,
    ) -> Result<Self, FinishError> {
        Ok(Self {
            scans,
            cards: Vec::new(),
            places,
            pattern: Pattern::new(speed, speed)?,
            coding: Coding::usual(crate::Container::of(&path)),
            title,
            path,
            sound: None,
            part_places: PART,
        })
    }

    /// The form that all scans share.
    pub(crate) fn common_form(&self) -> Result<PictureForm, FinishError> {
        let mut forms = self.scans.iter().map(|scan| form_of(&scan.source));
        let first = forms.next().ok_or(FinishError::NoScan)?;
        match forms.find(|form| *form != first) {
            None => Ok(first),
            Some(other) => Err(FinishError::UnlikeScans {
                first: in_words(&first),
                second: in_words(&other),
            }),
        }
    }
}

/// Places in a part, or somewhat more, to the end of a piece: at 18 f/s some minute of
/// film, a few minutes of work. Each part costs the start of a coder.
pub(crate) const PART: usize = 960;

fn in_words(form: &PictureForm) -> String {
    let (across, down) = form.pixel_aspect;
    let name = form.layout.name();
    format!("{} × {} {name} {across}:{down}", form.width, form.height)
}

fn form_of(source: &Source) -> PictureForm {
    let facts = source.facts();
    PictureForm {
        width: facts.width,
        height: facts.height,
        layout: source.native_layout(),
        pixel_aspect: (facts.pixel_aspect.num, facts.pixel_aspect.den),
        colour: [
            facts.range.clone(),
            facts.matrix.clone(),
            facts.primaries.clone(),
            facts.transfer.clone(),
        ],
    }
}
