//! What is found out about a sound by listening to it: for the page and for a script. Nothing
//! is kept; what is found is taken by an ordinary change.

mod beats;
mod ear;
mod lay_strokes;
mod named;
mod round_heard;
mod seams;
mod speed;
mod strokes;

use onestrand_hearing::HearingError;
use onestrand_intake::Cancel;
use onestrand_store::Production;

use crate::documents::{FoundDocument, ListenAsked, ListenFor, ListenedDocument, SoundWords};
use crate::dub::kept::Kept;
use crate::error::unfit;
use crate::{ProductionError, Progress};
use ear::Ear;
use strokes::MarksAsked;

pub use named::{column_named, sound_named};
pub use round_heard::round_heard;

/// A sound that is about to be listened to: all that is needed of the film.
#[derive(Debug, Clone)]
pub struct Listening {
    id: i64,
    sound: SoundWords,
    ear: Ear,
    asked: ListenAsked,
    /// The marked frames, for strokes.
    marks: Option<MarksAsked>,
}

impl Listening {
    /// What is asked of a sound, looked over: the listening itself needs the film no more.
    ///
    /// # Errors
    /// [`ProductionError::Store`] when there is no such sound, version, column or cue;
    /// [`ProductionError::Unfit`] for what cannot be listened for.
    pub fn of(
        production: &Production,
        sound: i64,
        asked: &ListenAsked,
    ) -> Result<Self, ProductionError> {
        let kept = Kept::<SoundWords>::one(production, sound)?.words;
        let marks = match &asked.what {
            ListenFor::Strokes {
                cut,
                marks,
                column,
                cue,
            } => Some(MarksAsked::of(
                production,
                sound,
                cut,
                marks,
                (*column, *cue),
            )?),
            _ => None,
        };
        Ok(Self {
            id: sound,
            ear: Ear::of(production, &kept, asked)?,
            sound: kept,
            asked: asked.clone(),
            marks,
        })
    }

    /// Listens.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] with the next step where nothing is found,
    /// [`ProductionError::Sound`] of the disk, [`ProductionError::Stopped`].
    pub fn listen(
        &self,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<ListenedDocument, ProductionError> {
        let heard = self.ear.read(cancel, progress)?;
        let found = match &self.asked.what {
            ListenFor::Seams { least, crossed } => FoundDocument::Seams {
                seams: seams::seams(
                    &heard,
                    &self.sound,
                    (*least, *crossed),
                    &mut Told { cancel, progress },
                )?,
            },
            ListenFor::Tone { hertz } => {
                progress.begin_in("tries", "looking for the tone", Some(1));
                FoundDocument::Speed(speed::of_tone(&heard, *hertz)?)
            }
            ListenFor::Hum { mains } => {
                progress.begin_in("tries", "looking for the hum", Some(1));
                FoundDocument::Speed(speed::of_hum(&heard, *mains)?)
            }
            ListenFor::Strokes { .. } => {
                progress.begin_in("tries", "looking for strokes", Some(1));
                let Some(marks) = &self.marks else {
                    return Err(unfit("no frame is marked".to_owned(), "mark one"));
                };
                FoundDocument::Strokes(strokes::strokes(&heard, &self.sound, marks)?)
            }
            ListenFor::Beats { slowest, fastest } => {
                progress.begin_in("tries", "looking for the beat", Some(1));
                FoundDocument::Beats(beats::beats(&heard, &self.sound, (*slowest, *fastest))?)
            }
        };
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        Ok(ListenedDocument {
            sound: self.id,
            from: heard.from as f64 / f64::from(heard.rate),
            to: (heard.from + heard.samples.len() as u64) as f64 / f64::from(heard.rate),
            found,
        })
    }
}

/// Who is told how far it is, and who may stop it.
struct Told<'a> {
    cancel: &'a Cancel,
    progress: &'a mut dyn Progress,
}

impl Told<'_> {
    /// So much is done.
    fn at(&mut self, done: u64) -> Result<(), ProductionError> {
        if self.cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        self.progress.at(done);
        Ok(())
    }
}

/// What an ear cannot answer, with its own next step.
fn unheard(why: &HearingError) -> ProductionError {
    unfit(why.to_string(), why.hint())
}

fn rounded(value: f64, digits: i32) -> f64 {
    let ten = 10_f64.powi(digits);
    (value * ten).round() / ten
}
