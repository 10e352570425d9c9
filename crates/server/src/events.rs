//! What the page is told without asking.

use onestrand_production::FilmPart;
use serde::Serialize;
use tokio::sync::broadcast;
use utoipa::ToSchema;

use crate::jobs::JobDocument;

/// One thing the page is told.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
#[serde(tag = "event", rename_all = "snake_case")]
pub(crate) enum EventDocument {
    /// A film was changed.
    Changed {
        /// The film.
        film: String,
        /// The revision now.
        revision: u64,
        /// What was done, in words.
        words: String,
        /// The parts it touched.
        parts: Vec<PartDocument>,
    },
    /// Long work is so far, or has ended.
    Job {
        /// The work.
        job: Box<JobDocument>,
    },
    /// The tablet's door has opened or shut, or somebody came in or was sent away.
    Tablets,
    /// Films have come to the shelf or gone.
    Shelf,
    /// Events were lost because this window listened too slowly: all is to be
    /// asked for again.
    Lost,
}

/// A part of a film that was touched.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
#[serde(tag = "part", rename_all = "snake_case")]
pub(crate) enum PartDocument {
    /// A roll itself.
    Roll {
        /// Its name.
        roll: String,
    },
    /// The takes of a roll.
    Takes {
        /// The roll.
        roll: String,
    },
    /// A version.
    Cut {
        /// Its name.
        cut: String,
    },
    /// Notes on frames.
    Notes,
    /// A reel or can.
    Reel {
        /// Its name.
        reel: String,
    },
    /// What is said of the film for its archive box.
    Accession,
    /// From where on signs are told.
    SignLimits,
    /// The user's word on questions.
    Answers,
    /// Which takes show the same action.
    Twins,
    /// The log of the bench.
    Bench,
    /// The shooting script.
    Script,
    /// The stock that is planned with.
    Stock,
    /// The titles.
    Titles,
    /// The copy stand and the hall.
    CopyStand,
    /// The sound: columns, cues, sounds, and how it is mixed.
    Dub,
    /// The light of the shots.
    Light,
}

impl From<&FilmPart> for PartDocument {
    fn from(part: &FilmPart) -> Self {
        match part {
            FilmPart::Roll(roll) => Self::Roll { roll: roll.clone() },
            FilmPart::Takes(roll) | FilmPart::Take(roll, _) => Self::Takes { roll: roll.clone() },
            FilmPart::Cut(cut) => Self::Cut { cut: cut.clone() },
            FilmPart::Reel(reel) => Self::Reel { reel: reel.clone() },
            FilmPart::Accession => Self::Accession,
            FilmPart::SignLimits => Self::SignLimits,
            FilmPart::Answers => Self::Answers,
            FilmPart::Twins => Self::Twins,
            FilmPart::Bench => Self::Bench,
            FilmPart::Script(_) => Self::Script,
            FilmPart::Stock => Self::Stock,
            FilmPart::Title(_) => Self::Titles,
            FilmPart::CopyStand => Self::CopyStand,
            FilmPart::Dub(_) | FilmPart::Mix => Self::Dub,
            FilmPart::Light => Self::Light,
            FilmPart::Note(_) | FilmPart::Notes => Self::Notes,
        }
    }
}

/// How many events a slow window may be behind before it is told to ask anew.
const BEHIND: usize = 512;

/// Where events are told.
#[derive(Debug, Clone)]
pub(crate) struct Events(broadcast::Sender<EventDocument>);

impl Events {
    pub(crate) fn new() -> Self {
        Self(broadcast::channel(BEHIND).0)
    }

    /// Tells whoever listens; nobody need.
    pub(crate) fn tell(&self, event: EventDocument) {
        let _heard = self.0.send(event);
    }

    pub(crate) fn listen(&self) -> broadcast::Receiver<EventDocument> {
        self.0.subscribe()
    }
}
