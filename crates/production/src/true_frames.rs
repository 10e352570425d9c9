//! Film frames out of the frames of one file, with their pictures.

use std::collections::VecDeque;

use onestrand_cadence::{
    CadenceFinder, CadenceSettings, Fault, FaultKind, FieldFinder, FieldOrder, FilmFrame, Found,
    Standing, WovenFrame,
};
use onestrand_compose::{Browsing, MadeOf, mixed_plane, woven_plane};
use onestrand_film::Fps;
use onestrand_intake::{FileFrame, FirstField, Plane, Ratio, Source};

use crate::documents::{AnomalyDocument, WarningDocument};

/// File frames before those that show a film frame which may help to unmix it or a
/// later one: twice as many as cadence takes to either side.
const BEHIND: u64 = 8;

/// A film frame of a part of the roll, with what shows it.
#[derive(Debug)]
pub(crate) struct Told {
    /// The file frame that shows it best, unless none does.
    pub(crate) shown_by: Option<u64>,
    /// What its picture is made of, where it is not that file frame alone.
    pub(crate) made_of: Option<MadeOf>,
    /// How it is known.
    pub(crate) standing: Standing,
    /// Its number in the name of a picture file, for runs of pictures.
    pub(crate) number: Option<u64>,
    /// Its picture, empty when none were made or none shows it.
    pub(crate) jpeg: Vec<u8>,
    /// Its plane, unless nothing shows it.
    pub(crate) plane: Option<Plane>,
}

/// What is said of a file whose frames are woven of fields.
pub(crate) fn fields_warning(source: &Source, part: u32) -> Option<WarningDocument> {
    let facts = source.facts();
    let order = facts.field_order.as_deref()?;
    if !["tt", "bb", "tb", "bt"].contains(&order) {
        return None;
    }
    let file = part + 1;
    let is_parted = facts.first_field().is_some();
    let (message, hint) = if is_parted {
        (
            format!(
                "file {file} is woven of fields of two moments; each film frame is woven anew of \
                 two fields that show it"
            ),
            "look at a frame with much movement: its edges must not look like a comb; if they \
             do, have the roll transferred one file frame for each film frame",
        )
    } else {
        (
            format!(
                "file {file} is woven of fields of two moments and turned on its side; each of \
                 its frames is taken for one film frame"
            ),
            "have it transferred upright, one file frame for each film frame; do not cut by its \
             numbers",
        )
    };
    Some(WarningDocument {
        code: "production.interlaced".to_owned(),
        message,
        hint: hint.to_owned(),
    })
}

/// Tells the film frames of one file as its frames come.
#[derive(Debug)]
pub(crate) struct TrueFrames {
    finder: Finder,
    /// File frames of which a film frame may still be told.
    held: VecDeque<FileFrame>,
    browsing: Browsing,
}

#[derive(Debug)]
enum Finder {
    /// A run of pictures: each is a film frame by its number.
    Pictures,
    /// Frames as they are.
    Frames(Box<CadenceFinder>),
    /// Frames woven of two fields.
    Fields(Box<FieldFinder>),
}

/// A film frame as either finder tells it.
struct Shown {
    shown_by: Option<u64>,
    made_of: Option<MadeOf>,
    /// For a blend: the weights that give it, where that is nearer the film.
    weights: Vec<(u64, f32)>,
    standing: Standing,
    /// The first file frame that this film frame or a later one may need.
    needs_from: u64,
}

impl TrueFrames {
    /// For one file; `film_speed` is what the user says of the film.
    pub(crate) fn of(source: &Source, film_speed: Option<Fps>) -> Self {
        let facts = source.facts();
        let settings = CadenceSettings {
            file_rate: facts.rate.and_then(Ratio::as_fps),
            film_speed,
        };
        let finder = match facts.first_field() {
            _ if source.sequence().is_some() => Finder::Pictures,
            Some(first) => {
                let order = match first {
                    FirstField::Top => FieldOrder::TopFirst,
                    FirstField::Bottom => FieldOrder::BottomFirst,
                };
                Finder::Fields(Box::new(FieldFinder::new(settings, order)))
            }
            None => Finder::Frames(Box::new(CadenceFinder::new(settings))),
        };
        Self {
            finder,
            held: VecDeque::new(),
            browsing: Browsing::default(),
        }
    }

    /// Takes the next file frame and tells film frames that are certain now.
    pub(crate) fn push(&mut self, frame: FileFrame) -> Vec<Told> {
        let of_size = "a plane of intake has the size of a plane";
        let shown: Vec<Shown> = match &mut self.finder {
            Finder::Pictures => return vec![of_picture(frame)],
            Finder::Frames(finder) => {
                let told = finder.push(frame.plane.bytes()).expect(of_size);
                told.into_iter().filter_map(Shown::of).collect()
            }
            Finder::Fields(finder) => {
                let (top, bottom) = frame.fields.as_ref().map_or_else(
                    || (frame.plane.bytes(), frame.plane.bytes()),
                    |(top, bottom)| (top.bytes(), bottom.bytes()),
                );
                let told = finder.push(top, bottom).expect(of_size);
                told.iter().filter_map(Shown::woven).collect()
            }
        };
        self.held.push_back(frame);
        shown
            .into_iter()
            .map(|film| self.with_picture(film))
            .collect()
    }

    /// Tells the rest, and how the file shows the film.
    pub(crate) fn finish(mut self) -> (Vec<Told>, Option<Found>) {
        let (rest, found): (Vec<Shown>, Found) =
            match std::mem::replace(&mut self.finder, Finder::Pictures) {
                Finder::Pictures => return (Vec::new(), None),
                Finder::Frames(finder) => {
                    let (rest, found) = finder.finish();
                    (rest.into_iter().filter_map(Shown::of).collect(), found)
                }
                Finder::Fields(finder) => {
                    let (rest, found) = finder.finish();
                    (rest.iter().filter_map(Shown::woven).collect(), found)
                }
            };
        let told = rest.into_iter().map(|film| self.with_picture(film));
        (told.collect(), Some(found))
    }

    fn with_picture(&mut self, film: Shown) -> Told {
        if film.shown_by.is_some() {
            let is_past = |frame: &FileFrame| frame.index < film.needs_from;
            while self.held.front().is_some_and(is_past) {
                self.held.pop_front();
            }
            self.browsing.forget_before(film.needs_from);
        }
        let (jpeg, plane) = match self.put_together(&film) {
            Some((jpeg, plane)) => (jpeg, Some(plane)),
            None => {
                let frame = film.shown_by.and_then(|k| self.held(k));
                let jpeg = frame.map_or_else(Vec::new, |frame| frame.jpeg.clone());
                (jpeg, frame.map(|frame| frame.plane.clone()))
            }
        };
        Told {
            shown_by: film.shown_by,
            made_of: film.made_of,
            standing: film.standing,
            number: None,
            jpeg,
            plane,
        }
    }

    fn held(&self, index: u64) -> Option<&FileFrame> {
        self.held.iter().find(|frame| frame.index == index)
    }

    /// Picture and plane out of several file frames; nothing where the best file frame
    /// stands for the film frame.
    fn put_together(&mut self, film: &Shown) -> Option<(Vec<u8>, Plane)> {
        let held = &self.held;
        let of = |index: u64| held.iter().find(|frame| frame.index == index);
        let jpeg = |index| of(index).map(|frame| frame.jpeg.as_slice());
        let has_pictures = held.front().is_some_and(|frame| !frame.jpeg.is_empty());
        let (plane, jpeg) = match film.made_of.as_ref()? {
            MadeOf::One(_) => return None,
            MadeOf::Woven { top, bottom } => {
                let (upper, _) = of(*top)?.fields.as_ref()?;
                let (_, lower) = of(*bottom)?.fields.as_ref()?;
                let woven = has_pictures.then(|| self.browsing.woven(*top, *bottom, jpeg));
                (woven_plane(upper, lower), woven)
            }
            MadeOf::Mixed(_) if film.weights.is_empty() => return None,
            MadeOf::Mixed(_) => {
                let planes = film.weights.iter();
                let planes = planes.map(|(k, weight)| Some((&of(*k)?.plane, *weight)));
                let planes: Vec<(&Plane, f32)> = planes.collect::<Option<_>>()?;
                let mixed = has_pictures.then(|| self.browsing.mixed(&film.weights, jpeg));
                (mixed_plane(&planes), mixed)
            }
        };
        let jpeg = jpeg.unwrap_or_else(|| Ok(Vec::new())).ok()?;
        Some((jpeg, plane.ok()?))
    }
}

impl Shown {
    /// Nothing for one that is only guessed to be missing.
    fn of(film: FilmFrame) -> Option<Self> {
        if film.standing == Standing::Missing {
            return None;
        }
        Some(Self {
            shown_by: film.shown_by,
            standing: film.standing,
            needs_from: film.file_frames.0.saturating_sub(BEHIND),
            made_of: film.recipe.map(MadeOf::Mixed),
            weights: film.unmix,
        })
    }

    fn woven(film: &WovenFrame) -> Option<Self> {
        let (top, bottom) = match (film.top, film.bottom) {
            (Some(top), Some(bottom)) => (top, bottom),
            // Half of the lines are better than none.
            (Some(one), None) | (None, Some(one)) => (one, one),
            (None, None) => return None,
        };
        Some(Self {
            shown_by: Some(top.min(bottom)),
            standing: film.standing,
            needs_from: top.min(bottom),
            weights: Vec::new(),
            made_of: (top != bottom).then_some(MadeOf::Woven { top, bottom }),
        })
    }
}

fn of_picture(frame: FileFrame) -> Told {
    Told {
        shown_by: Some(frame.index),
        made_of: None,
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
