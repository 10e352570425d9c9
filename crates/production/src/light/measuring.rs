//! Weave and flicker of the stretches of a finish, measured on the workprint.

use onestrand_film::{FrameRange, Span};
use onestrand_intake::Cancel;
use onestrand_light::{FlickerWatch, GreyPicture, ShiftFinder, Transfer, steady};
use onestrand_store::{Production, Workprints};

use super::treatment::TreatmentChoice;
use crate::documents::StretchTreated;
use crate::small_pictures::scaled_down;
use crate::{ProductionError, Progress};

/// A stretch inside of one take, and as far beyond it as it is measured.
pub(super) struct Part {
    pub(super) roll: String,
    own: (u32, u32),
    pub(super) grown: (u32, u32),
}

impl Part {
    /// Its own frames, counted from the first that is measured.
    pub(super) fn own(&self) -> std::ops::Range<usize> {
        (self.own.0 - self.grown.0) as usize..(self.own.1 - self.grown.0) as usize
    }
}

/// What was measured of a part, frame by frame from the first that was looked at.
pub(super) struct Found {
    pub(super) moves: Option<Vec<[f64; 2]>>,
    /// Unit: log10 exposure.
    pub(super) given: Option<Vec<f64>>,
    pub(super) told: StretchTreated,
}

/// Weave and flicker measured on the workprint.
pub(super) struct Measuring<'a> {
    production: &'a Production,
    prints: Workprints,
    transfer: Transfer,
    cancel: &'a Cancel,
    done: u64,
}

/// Frames looked at beyond a stretch, where its take goes on: then the path and the light
/// have neighbours at its ends too.
const BEYOND: u32 = 12;
/// Pictures fetched at a time.
const RUN: u32 = 48;
/// The least size that is measured on. Unit: pixels.
const SIZE: (u16, u16) = (240, 180);

impl<'a> Measuring<'a> {
    pub(super) fn of(
        production: &'a Production,
        transfer: Transfer,
        cancel: &'a Cancel,
    ) -> Result<Self, ProductionError> {
        Ok(Self {
            production,
            prints: Workprints::open(production.dir())?,
            transfer,
            cancel,
            done: 0,
        })
    }

    /// A stretch where its takes part it.
    pub(super) fn parts(&self, span: &Span) -> Result<Vec<Part>, ProductionError> {
        let roll = span.roll.as_str();
        let (begin, end) = (span.range.begin().index(), span.range.end().index());
        let mut parts = Vec::new();
        for take in self.production.takes_of(roll)? {
            let own = (take.first.max(begin), take.thrown.min(end));
            if own.0 < own.1 {
                parts.push(Part {
                    roll: roll.to_owned(),
                    own,
                    grown: (
                        own.0.saturating_sub(BEYOND).max(take.first),
                        (own.1 + BEYOND).min(take.thrown),
                    ),
                });
            }
        }
        if parts.is_empty() {
            parts.push(Part {
                roll: roll.to_owned(),
                own: (begin, end),
                grown: (begin, end),
            });
        }
        Ok(parts)
    }

    pub(super) fn measure(
        &mut self,
        part: &Part,
        choice: TreatmentChoice,
        progress: &mut dyn Progress,
    ) -> Result<Found, ProductionError> {
        let mut looks = Looks::new(choice, self.transfer);
        let mut from = part.grown.0;
        while from < part.grown.1 {
            if self.cancel.is_cancelled() {
                return Err(ProductionError::Stopped);
            }
            let to = (from + RUN).min(part.grown.1);
            let run = self.prints.run(&part.roll, FrameRange::of(from, to)?)?;
            for at in 0..(to - from) as usize {
                let jpeg = run.get(at).and_then(Option::as_deref);
                looks.look(jpeg.and_then(grey))?;
            }
            let done = to.min(part.own.1).saturating_sub(from.max(part.own.0));
            self.done += u64::from(done);
            progress.at(self.done);
            from = to;
        }
        Ok(self.found(part, &looks))
    }

    fn found(&self, part: &Part, looks: &Looks) -> Found {
        let meta = self.production.meta();
        let mut told = StretchTreated {
            roll: part.roll.clone(),
            first: part.own.0,
            thrown: part.own.1,
            weave_um: None,
            steps_not_told: 0,
            bounded: 0,
            flicker_stops: None,
        };
        let moves = looks.choice.steady.then(|| {
            let found = steady(&looks.steps, looks.width.max(1), meta.speed);
            let gate_um = f64::from(meta.gauge.spec().camera.width_um);
            told.weave_um = Some(found.weave.map(|share| share * gate_um));
            told.steps_not_told = found.not_told;
            told.bounded = found.bounded;
            found.moves
        });
        let given = looks.choice.flicker.then(|| {
            let found = looks.flicker.found(meta.speed);
            let own = &found[part.own()];
            let sum: f64 = own.iter().map(|f| f.found * f.found).sum();
            let rms = (sum / own.len().max(1) as f64).sqrt();
            told.flicker_stops = Some(rms / std::f64::consts::LOG10_2);
            found.iter().map(|f| f.given).collect()
        });
        Found { moves, given, told }
    }
}

/// A browsing picture made small and grey; none where it cannot be read.
fn grey(jpeg: &[u8]) -> Option<GreyPicture> {
    let small = scaled_down(jpeg, SIZE).ok()?;
    GreyPicture::new(small.grey(), small.width as usize, small.height as usize).ok()
}

/// What one take's pictures showed so far.
struct Looks {
    choice: TreatmentChoice,
    finder: Option<ShiftFinder>,
    width: usize,
    count: usize,
    steps: Vec<Option<onestrand_light::Shift>>,
    flicker: FlickerWatch,
}

impl Looks {
    fn new(choice: TreatmentChoice, transfer: Transfer) -> Self {
        Self {
            choice,
            finder: None,
            width: 0,
            count: 0,
            steps: Vec::new(),
            flicker: FlickerWatch::new(transfer),
        }
    }

    fn look(&mut self, picture: Option<GreyPicture>) -> Result<(), ProductionError> {
        if self.choice.flicker {
            self.flicker.push(picture.as_ref());
        }
        if self.choice.steady {
            let step = match &picture {
                None => {
                    if let Some(finder) = &mut self.finder {
                        finder.forget();
                    }
                    None
                }
                Some(picture) => {
                    self.width = picture.width();
                    let finder = self
                        .finder
                        .get_or_insert_with(|| ShiftFinder::new(picture.width(), picture.height()));
                    finder.next(picture)?
                }
            };
            // The first picture has none before it.
            if self.count > 0 {
                self.steps.push(step);
            }
        }
        self.count += 1;
        Ok(())
    }
}
