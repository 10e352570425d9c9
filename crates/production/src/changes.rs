//! What the page may ask to be changed, and what it then touches.

use std::collections::BTreeMap;

use onestrand_cut::{JoinKind, Slate, TrialCut};
use onestrand_film::{Fps, FrameName, FramePos, Quantity, RollId, Shrinkage};
use onestrand_store::{
    Act, CutRecord, NoteRecord, Production, RollRecord, StoreError, TakeRecord, Touched,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::documents::{CutChange, TakeWords, join_kind};
use crate::{ProductionError, takes_of_roll};

/// A change of a film, as the page asks for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "film_change", rename_all = "snake_case")]
pub enum FilmChange {
    /// Say what a take is.
    NameTake {
        /// Its roll.
        roll: String,
        /// Its first frame.
        #[serde(rename = "in")]
        first: u32,
        /// What is said of it.
        words: TakeWords,
    },
    /// A take begins at this frame: the one it lies in is divided there.
    BreakAt {
        /// The roll.
        roll: String,
        /// The frame that begins the new take.
        frame: u32,
    },
    /// No take begins at this frame: the two on its sides become one, with
    /// what is said of the first.
    MendBreak {
        /// The roll.
        roll: String,
        /// The first frame of the take that goes.
        frame: u32,
    },
    /// What is known of the roll itself.
    RollFacts {
        /// The roll.
        roll: String,
        /// What is known.
        facts: RollFacts,
    },
    /// Take a roll out of the production; its scans stay where they are.
    RemoveRoll {
        /// The roll.
        roll: String,
    },
    /// Change a trial cut.
    ChangeCut {
        /// The version.
        cut: String,
        /// How.
        cut_change: CutChange,
    },
    /// Begin a new version, empty or as another stands.
    NewCut {
        /// Its name.
        cut: String,
        /// The version it begins as.
        #[serde(default)]
        from: Option<String>,
        /// Its usual join; that of `from`, else tape.
        #[serde(default)]
        usual_join: Option<String>,
        /// The user's note.
        #[serde(default)]
        note: String,
    },
    /// Throw a version away.
    RemoveCut {
        /// The version.
        cut: String,
    },
    /// Write a note on a frame, or rewrite one.
    WriteNote {
        /// The note to rewrite; a new one when not said.
        #[serde(default)]
        id: Option<i64>,
        /// The roll.
        roll: String,
        /// The frame.
        frame: u32,
        /// The user's words.
        words: String,
        /// Who writes, where several do.
        #[serde(default)]
        writer: String,
    },
    /// Take a note away.
    RemoveNote {
        /// The note.
        id: i64,
    },
}

/// What is known of a roll beside its frames; all of it is replaced.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RollFacts {
    /// `triacetate`, `polyester` or `not-known`.
    pub base: String,
    /// `project`, `scan-only` or `never-cut`.
    pub fit: String,
    /// `A` or `B`.
    #[serde(default)]
    pub wind: Option<String>,
    /// The length measured on the bench, such as `50ft0`.
    #[serde(default)]
    pub measured: Option<String>,
    /// The shrinkage in per cent.
    #[serde(default)]
    pub shrinkage: Option<String>,
}

/// A part of a film that a change touches, and that another window may show.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FilmPart {
    /// A roll itself.
    Roll(String),
    /// The division of a roll into takes, and all that is said of them.
    Takes(String),
    /// What is said of one take, by its roll and first frame.
    Take(String, u32),
    /// A version.
    Cut(String),
    /// A note.
    Note(i64),
    /// Some notes, not known which.
    Notes,
}

impl FilmPart {
    /// Whether a change of one may have changed what the other shows.
    fn meets(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Takes(a), Self::Take(b, _)) | (Self::Take(a, _), Self::Takes(b)) => a == b,
            (Self::Notes, Self::Note(_)) | (Self::Note(_), Self::Notes) => true,
            (a, b) => a == b,
        }
    }
}

/// When each part of a film was changed last, as far back as this process has
/// owned it: so a change made against an older state is refused only where
/// that state is no longer true.
#[derive(Debug, Clone, Default)]
pub struct LastTouched(BTreeMap<FilmPart, u64>);

impl LastTouched {
    /// These parts were changed by the change that made this revision.
    pub fn note(&mut self, parts: impl IntoIterator<Item = FilmPart>, revision: u64) {
        for part in parts {
            self.0.insert(part, revision);
        }
    }

    /// Whether any of these parts has changed since a revision.
    #[must_use]
    pub fn since(&self, revision: u64, parts: &[FilmPart]) -> bool {
        self.0
            .iter()
            .any(|(part, at)| *at > revision && parts.iter().any(|p| p.meets(part)))
    }
}

/// The parts that an act of the store touches.
#[must_use]
pub fn parts_touched(touched: &std::collections::BTreeSet<Touched>) -> Vec<FilmPart> {
    let one = |touched: &Touched| match touched {
        Touched::Roll(name) => FilmPart::Roll(name.clone()),
        Touched::Takes(roll) => FilmPart::Takes(roll.clone()),
        Touched::Cut(name) => FilmPart::Cut(name.clone()),
        _ => FilmPart::Notes,
    };
    touched.iter().map(one).collect()
}

impl FilmChange {
    /// The parts it touches.
    #[must_use]
    pub fn parts(&self) -> Vec<FilmPart> {
        match self {
            Self::NameTake { roll, first, .. } => vec![FilmPart::Take(roll.clone(), *first)],
            Self::BreakAt { roll, .. } | Self::MendBreak { roll, .. } => {
                vec![FilmPart::Takes(roll.clone())]
            }
            Self::RollFacts { roll, .. } => vec![FilmPart::Roll(roll.clone())],
            Self::RemoveRoll { roll } => {
                vec![FilmPart::Roll(roll.clone()), FilmPart::Takes(roll.clone())]
            }
            Self::ChangeCut { cut, .. } | Self::NewCut { cut, .. } | Self::RemoveCut { cut } => {
                vec![FilmPart::Cut(cut.clone())]
            }
            Self::WriteNote { id: Some(id), .. } | Self::RemoveNote { id } => {
                vec![FilmPart::Note(*id)]
            }
            Self::WriteNote { id: None, .. } => Vec::new(),
        }
    }

    /// What it says in the journal, and the act that carries it out.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`], [`ProductionError::Unit`] or
    /// [`ProductionError::Store`] naming what does not fit.
    pub fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        match self {
            Self::NameTake { roll, first, words } => name_take(production, roll, *first, words),
            Self::BreakAt { roll, frame } => takes_of_roll::divided(production, roll, *frame),
            Self::MendBreak { roll, frame } => takes_of_roll::mended(production, roll, *frame),
            Self::RollFacts { roll, facts } => roll_facts(production, roll, facts),
            Self::RemoveRoll { roll } => remove_roll(production, roll),
            Self::ChangeCut { cut, cut_change } => {
                let change = cut_change.to_model()?;
                let act = Act::ChangeCut {
                    name: cut.clone(),
                    change: (&change).into(),
                };
                Ok((format!("change {cut}"), act))
            }
            Self::NewCut {
                cut,
                from,
                usual_join,
                note,
            } => new_cut(
                production,
                cut,
                from.as_deref(),
                usual_join.as_deref(),
                note,
            ),
            Self::RemoveCut { cut } => {
                production.cut(cut)?;
                let act = Act::PutCut {
                    name: cut.clone(),
                    cut: None,
                };
                Ok((format!("throw {cut} away"), act))
            }
            Self::WriteNote {
                id,
                roll,
                frame,
                words,
                writer,
            } => write_note(production, *id, roll, *frame, words, writer),
            Self::RemoveNote { id } => {
                let note = note(production, *id)?;
                let words = format!("take the note on {}·{} away", note.roll, note.frame);
                let act = Act::PutNote {
                    id: *id,
                    note: None,
                };
                Ok((words, act))
            }
        }
    }
}

fn unfit(message: String, hint: &str) -> ProductionError {
    ProductionError::Unfit {
        message,
        hint: hint.to_owned(),
    }
}

/// The most letters of a text that a user types into one field.
const LONGEST_TEXT: usize = 4_000;

fn text_fits(what: &str, text: &str) -> Result<(), ProductionError> {
    if text.chars().count() <= LONGEST_TEXT {
        return Ok(());
    }
    Err(unfit(
        format!("the {what} is longer than {LONGEST_TEXT} letters"),
        "keep the rest in a file of your own",
    ))
}

fn name_take(
    production: &Production,
    roll: &str,
    first: u32,
    words: &TakeWords,
) -> Result<(String, Act), ProductionError> {
    let mut takes = production.takes_of(roll)?;
    let take = takes
        .iter_mut()
        .find(|t| t.first == first)
        .ok_or_else(|| no_take(roll, first))?;
    put_words(take, words)?;
    // What the model refuses is refused before it is kept.
    take.to_model()?;
    let name = match (&take.setup, take.take) {
        (Some(setup), Some(number)) => format!("{roll}·{first} is {setup}-T{number}"),
        _ => format!("the take at {roll}·{first}"),
    };
    let act = Act::PutTakes {
        roll: roll.to_owned(),
        takes,
    };
    Ok((name, act))
}

fn no_take(roll: &str, first: u32) -> ProductionError {
    unfit(
        format!("no take begins at {roll}·{first}"),
        "look at the roll once more; another window may have changed it",
    )
}

fn put_words(take: &mut TakeRecord, words: &TakeWords) -> Result<(), ProductionError> {
    for (what, text) in [
        ("size", &words.size),
        ("camera's move", &words.camera_move),
        ("direction", &words.direction),
        ("action", &words.action),
        ("note", &words.note),
    ] {
        text_fits(what, text)?;
    }
    match (&words.setup, words.take) {
        (Some(setup), Some(number)) => {
            let slate = Slate::new(setup, number).map_err(|e| {
                unfit(
                    e.to_string(),
                    "a setup is letters and digits, such as 3A; a take is a number from 1 to 999",
                )
            })?;
            take.setup = Some(slate.setup().to_owned());
            take.take = Some(slate.take());
        }
        (None, None) => (take.setup, take.take) = (None, None),
        _ => {
            return Err(unfit(
                "a slate has a setup and a take, or neither".to_owned(),
                "say both, such as 3A and 2",
            ));
        }
    }
    take.rating.clone_from(&words.rating);
    take.size.clone_from(&words.size);
    take.camera_move.clone_from(&words.camera_move);
    take.direction.clone_from(&words.direction);
    take.action.clone_from(&words.action);
    take.note.clone_from(&words.note);
    Ok(())
}

fn roll_facts(
    production: &Production,
    name: &str,
    facts: &RollFacts,
) -> Result<(String, Act), ProductionError> {
    let before = production.roll(name)?;
    let model = before.to_model()?;
    let speed: Fps = before.film_speed.parse()?;
    let shrinkage = match &facts.shrinkage {
        Some(text) => text.parse()?,
        None => Shrinkage::NONE,
    };
    let expected = match &facts.measured {
        Some(text) => {
            let measured: Quantity = text.parse()?;
            Some(measured.frames(model.gauge, speed, shrinkage)?.count())
        }
        None => None,
    };
    let roll = RollRecord {
        base: facts.base.clone(),
        fit: facts.fit.clone(),
        wind: facts.wind.clone(),
        measured: facts.measured.clone(),
        shrinkage: facts.shrinkage.clone(),
        expected,
        ..before
    };
    roll.to_model().map_err(|e| {
        unfit(
            e.to_string(),
            "choose one of the words that the card offers",
        )
    })?;
    let act = Act::PutRoll {
        name: name.to_owned(),
        roll: Some(roll),
    };
    Ok((format!("what is known of {name}"), act))
}

fn remove_roll(production: &Production, name: &str) -> Result<(String, Act), ProductionError> {
    production.roll(name)?;
    for cut in production.cut_names()? {
        let record = production.cut(&cut)?;
        if let Some(at) = record
            .pieces
            .iter()
            .position(|p| p.roll.as_deref() == Some(name))
        {
            return Err(unfit(
                format!("{name} is in {cut}, position {}", at + 1),
                "lift its pieces out of every version first",
            ));
        }
    }
    let mut acts: Vec<Act> = production
        .notes_of(name)?
        .into_iter()
        .map(|(id, _)| Act::PutNote { id, note: None })
        .collect();
    acts.push(Act::PutTakes {
        roll: name.to_owned(),
        takes: Vec::new(),
    });
    acts.push(Act::PutRoll {
        name: name.to_owned(),
        roll: None,
    });
    Ok((format!("take {name} out"), Act::All { acts }))
}

/// The longest name of a version.
const LONGEST_NAME: usize = 60;

fn new_cut(
    production: &Production,
    name: &str,
    from: Option<&str>,
    usual_join: Option<&str>,
    note: &str,
) -> Result<(String, Act), ProductionError> {
    let name = name.trim();
    text_fits("note", note)?;
    if name.is_empty() || name.chars().count() > LONGEST_NAME || name.contains(char::is_control) {
        return Err(unfit(
            format!("a version's name has 1 to {LONGEST_NAME} letters"),
            "call it v2, or as you like",
        ));
    }
    match production.cut(name) {
        Ok(_) => {
            return Err(unfit(
                format!("there is a version {name} already"),
                "versions are never written over; choose another name",
            ));
        }
        Err(StoreError::NotFound { .. }) => {}
        Err(problem) => return Err(problem.into()),
    }
    let mut cut = match from {
        Some(from) => production.cut(from)?.to_model()?,
        None => TrialCut::new(Vec::new(), JoinKind::Tape),
    };
    if let Some(word) = usual_join {
        cut = cut.joined_by(join_kind(word)?);
    }
    let words = match from {
        Some(from) => format!("begin {name} from {from}"),
        None => format!("begin {name}"),
    };
    let act = Act::PutCut {
        name: name.to_owned(),
        cut: Some(CutRecord::new(&cut, note)),
    };
    Ok((words, act))
}

fn note(production: &Production, id: i64) -> Result<NoteRecord, ProductionError> {
    let found = production.notes()?.into_iter().find(|(n, _)| *n == id);
    found.map(|(_, note)| note).ok_or_else(|| {
        unfit(
            format!("there is no note {id}"),
            "another window may have taken it away",
        )
    })
}

fn write_note(
    production: &Production,
    id: Option<i64>,
    roll: &str,
    frame: u32,
    words: &str,
    writer: &str,
) -> Result<(String, Act), ProductionError> {
    let words = words.trim();
    text_fits("note", words)?;
    text_fits("writer's name", writer)?;
    if words.is_empty() {
        return Err(unfit("the note is empty".to_owned(), "write a word or two"));
    }
    let frames = production.roll(roll)?.frames;
    let name = FrameName {
        roll: RollId::new(roll)?,
        frame: FramePos::new(frame)?,
    };
    if frame >= frames {
        return Err(unfit(
            format!("{roll} has {frames} frames, there is no {name}"),
            "choose a frame of the roll",
        ));
    }
    let record = match id {
        Some(id) => NoteRecord {
            words: words.to_owned(),
            ..note(production, id)?
        },
        None => NoteRecord::new(roll, frame, words, writer),
    };
    let id = match id {
        Some(id) => id,
        None => production.next_note_id()?,
    };
    let act = Act::PutNote {
        id,
        note: Some(record),
    };
    Ok((format!("a note on {name}"), act))
}
