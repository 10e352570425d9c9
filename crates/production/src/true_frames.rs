//! Film frames out of the frames of one file, with their pictures.

use std::collections::VecDeque;

use onestrand_cadence::{
    CadenceFinder, CadenceSettings, Fault, FaultKind, FilmFrame, Found, Standing,
};
use onestrand_film::Fps;
use onestrand_intake::{FileFrame, Plane, Ratio, Source};

use crate::documents::{AnomalyDocument, WarningDocument};

/// A film frame of a part of the roll, with what shows it.
#[derive(Debug)]
pub(crate) struct Told {
    /// The file frame that shows it, unless none does.
    pub(crate) shown_by: Option<u64>,
    /// How it is known.
    pub(crate) standing: Standing,
    /// Its number in the name of a picture file, for runs of pictures.
    pub(crate) number: Option<u64>,
    /// Its picture, empty when none were made or none shows it.
    pub(crate) jpeg: Vec<u8>,
    /// Its plane, unless nothing shows it.
    pub(crate) plane: Option<Plane>,
}

/// Whether a file says that its frames are woven of two fields.
pub(crate) fn is_interlaced(source: &Source) -> bool {
    let order = source.facts().field_order.as_deref();
    order.is_some_and(|order| ["tt", "bb", "tb", "bt"].contains(&order))
}

/// What is said of such a file: its film frames are not told apart yet.
pub(crate) fn interlaced_warning(part: u32) -> WarningDocument {
    WarningDocument {
        code: "production.interlaced".to_owned(),
        message: format!(
            "file {} is woven of fields of two moments; each of its frames is taken for one film frame",
            part + 1
        ),
        hint: "have it transferred one file frame for each film frame, or part the fields first; \
               do not cut by its numbers"
            .to_owned(),
    }
}

/// Tells the film frames of one file as its frames come.
#[derive(Debug)]
pub(crate) struct TrueFrames {
    /// Nothing for a run of pictures, where each is a film frame by its number, and
    /// for fields of two moments woven together, which have to be parted first.
    finder: Option<CadenceFinder>,
    /// File frames of which a film frame may still be told.
    held: VecDeque<FileFrame>,
}

impl TrueFrames {
    /// For one file; `film_speed` is what the user says of the film.
    pub(crate) fn of(source: &Source, film_speed: Option<Fps>) -> Self {
        let settings = CadenceSettings {
            file_rate: source.facts().rate.and_then(Ratio::as_fps),
            film_speed,
        };
        let is_one_to_one = source.sequence().is_some() || is_interlaced(source);
        Self {
            finder: (!is_one_to_one).then(|| CadenceFinder::new(settings)),
            held: VecDeque::new(),
        }
    }

    /// Takes the next file frame and tells film frames that are certain now.
    pub(crate) fn push(&mut self, frame: FileFrame) -> Vec<Told> {
        let Some(finder) = &mut self.finder else {
            return vec![of_picture(frame)];
        };
        let told = finder
            .push(frame.plane.bytes())
            .expect("a plane of intake has the size of a plane");
        self.held.push_back(frame);
        told.into_iter()
            .filter(|film| film.standing != Standing::Missing)
            .map(|film| self.with_picture(&film))
            .collect()
    }

    /// Tells the rest, and how the file shows the film.
    pub(crate) fn finish(mut self) -> (Vec<Told>, Option<Found>) {
        let Some(finder) = self.finder.take() else {
            return (Vec::new(), None);
        };
        let (rest, found) = finder.finish();
        let told = rest
            .into_iter()
            .filter(|film| film.standing != Standing::Missing)
            .map(|film| self.with_picture(&film));
        (told.collect(), Some(found))
    }

    fn with_picture(&mut self, film: &FilmFrame) -> Told {
        // What no later film frame can be shown by is let go.
        let is_past =
            |frame: &FileFrame| film.shown_by.is_some() && frame.index < film.file_frames.0;
        while self.held.front().is_some_and(is_past) {
            self.held.pop_front();
        }
        let frame = film
            .shown_by
            .and_then(|k| self.held.iter().find(|frame| frame.index == k));
        Told {
            shown_by: film.shown_by,
            standing: film.standing,
            number: None,
            jpeg: frame.map_or_else(Vec::new, |frame| frame.jpeg.clone()),
            plane: frame.map(|frame| frame.plane.clone()),
        }
    }
}

fn of_picture(frame: FileFrame) -> Told {
    Told {
        shown_by: Some(frame.index),
        standing: Standing::Clean,
        number: frame.number,
        jpeg: frame.jpeg,
        plane: Some(frame.plane),
    }
}

/// What the machine did wrong in a part that begins at a film frame of the roll.
///
/// A skip is guessed from a jump in what moves, and things do jump: it is told, as
/// none to so many frames, and no number is left free for it. The ruler decides.
pub(crate) fn anomalies(begins_at: u64, found: &Found) -> Vec<AnomalyDocument> {
    let begins_at = u32::try_from(begins_at).unwrap_or(u32::MAX);
    let is_guess = |fault: &Fault| fault.kind == FaultKind::Skipped;
    let mut guessed = 0;
    let mut all = Vec::with_capacity(found.faults.len());
    for fault in &found.faults {
        all.push(AnomalyDocument {
            at: begins_at.saturating_add(fault.at.saturating_sub(guessed)),
            kind: match fault.kind {
                FaultKind::Skipped => "skip",
                FaultKind::Doubled => "doubled",
            }
            .to_owned(),
            frames: fault.frames,
            frames_low: if is_guess(fault) { 0 } else { fault.frames_low },
            frames_high: fault.frames_high,
        });
        if is_guess(fault) {
            guessed += fault.frames;
        }
    }
    all
}
