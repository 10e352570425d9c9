//! What the page may ask to be changed, and what it then touches.

use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::answers::{AnswerQuestion, AskAgain};
use crate::archive::SayAccession;
use crate::bench_habits::SetUpBench;
use crate::bench_room::{cut_is_free, roll_is_free};
use crate::change_acts::{change_cut, name_take, remove_note, remove_roll, roll_facts, write_note};
use crate::documents::{BenchWrite, CutChange, TakeWords};
use crate::dub::DubChange;
use crate::edge_numbers::{EdgeNumberGone, EdgeNumberRead};
use crate::halves::{PairHalves, PartHalves, SlitStrip};
use crate::inspect_roll::{InspectRoll, JoinFound, JoinGone};
use crate::ledger::HandleRoll;
use crate::light::LightChange;
use crate::on_action::{MarkMoments, UnmarkMoments};
use crate::reels::{PutReel, RemoveReel};
use crate::roll_measures::{MeasureHundred, MeasureWound};
use crate::runs_of_roll::{RunRoll, StrikeRun};
use crate::script::ScriptChange;
use crate::sign_limits::MoveSignLimit;
use crate::titles::TitleChange;
use crate::trim_bin::MoveToPin;
use crate::versions::{DescribeCut, NewCut, RemoveCut};
use crate::{FilmPart, ProductionError, takes_of_roll};

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
    /// A take begins at another frame than it did: the one before it ends there.
    /// Both keep what is said of them.
    MoveBreak {
        /// The roll.
        roll: String,
        /// The first frame of the take as it is.
        frame: u32,
        /// Its first frame from now on.
        to: u32,
    },
    /// Somebody has looked at where a take begins, and lets it stand.
    LetBreakStand {
        /// The roll.
        roll: String,
        /// The first frame of the take.
        frame: u32,
    },
    /// What is known of the roll itself.
    RollFacts {
        /// The roll.
        roll: String,
        /// What is known.
        facts: RollFacts,
    },
    /// Hang a take on another pin.
    MoveToPin(MoveToPin),
    /// What was found on a roll with the film in the hand.
    InspectRoll(InspectRoll),
    /// A join was found on a roll.
    JoinFound(JoinFound),
    /// There is no join there after all.
    JoinGone(JoinGone),
    /// A number was read on the edge of a roll.
    EdgeNumberRead(EdgeNumberRead),
    /// There is no such number there after all.
    EdgeNumberGone(EdgeNumberGone),
    /// A hundred frames were measured.
    MeasureHundred(MeasureHundred),
    /// A roll was measured on its reel.
    MeasureWound(MeasureWound),
    /// An original was run.
    RunRoll(RunRoll),
    /// Something was done to an original: a run, a cleaning, a cut, a repair.
    HandleRoll(HandleRoll),
    /// An entry of the ledger is struck off.
    StrikeRun(StrikeRun),
    /// What a reel or can is, and what is wound on it.
    PutReel(PutReel),
    /// Strike a reel or can off.
    RemoveReel(RemoveReel),
    /// Two rolls are the halves of one strip.
    PairHalves(PairHalves),
    /// A strip has been slit, or was not.
    SlitStrip(SlitStrip),
    /// The rolls of a strip are no halves after all.
    PartHalves(PartHalves),
    /// What is said of the film for its archive box, and how each statement is known.
    SayAccession(SayAccession),
    /// The bench is set up otherwise.
    SetUpBench(SetUpBench),
    /// Move the limit from which on a sign is told.
    MoveSignLimit(MoveSignLimit),
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
    /// Begin a new version: empty, as another stands, or with every circled take.
    NewCut(NewCut),
    /// Give a version another name or another note.
    DescribeCut(DescribeCut),
    /// Throw a version away.
    RemoveCut(RemoveCut),
    /// A question is answered: it is meant so.
    AnswerQuestion(AnswerQuestion),
    /// A question is asked again.
    AskAgain(AskAgain),
    /// Two moments are marked in each of two takes that show the same.
    MarkMoments(MarkMoments),
    /// The marks of two takes are taken away.
    UnmarkMoments(UnmarkMoments),
    /// Something in the shooting script, or the film that is planned with.
    Script(Box<ScriptChange>),
    /// Something in the titles, or the copy stand they are shot on.
    Titles(Box<TitleChange>),
    /// Something in the sound: a sound, a column, a cue, or how it is mixed.
    Dub(Box<DubChange>),
    /// Something in the light of the shots.
    Light(Box<LightChange>),
    /// Write something down at the bench. It is not undone.
    AtTheBench(BenchWrite),
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

impl FilmChange {
    /// The parts it touches.
    #[must_use]
    pub fn parts(&self) -> Vec<FilmPart> {
        match self {
            Self::NameTake { roll, first, .. } => vec![FilmPart::Take(roll.clone(), *first)],
            Self::LetBreakStand { roll, frame } => vec![FilmPart::Take(roll.clone(), *frame)],
            Self::BreakAt { roll, .. }
            | Self::MendBreak { roll, .. }
            | Self::MoveBreak { roll, .. } => vec![FilmPart::Takes(roll.clone())],
            Self::RollFacts { roll, .. }
            | Self::InspectRoll(InspectRoll { roll, .. })
            | Self::JoinFound(JoinFound { roll, .. })
            | Self::JoinGone(JoinGone { roll, .. })
            | Self::EdgeNumberRead(EdgeNumberRead { roll, .. })
            | Self::EdgeNumberGone(EdgeNumberGone { roll, .. })
            | Self::MeasureHundred(MeasureHundred { roll, .. })
            | Self::MeasureWound(MeasureWound { roll, .. })
            | Self::StrikeRun(StrikeRun { roll, .. }) => vec![FilmPart::Roll(roll.clone())],
            Self::MoveToPin(change) => vec![FilmPart::Take(change.roll.clone(), change.first)],
            Self::PutReel(PutReel { reel, .. }) | Self::RemoveReel(RemoveReel { reel }) => {
                vec![FilmPart::Reel(reel.clone())]
            }
            Self::PairHalves(halves) => vec![
                FilmPart::Roll(halves.a.clone()),
                FilmPart::Roll(halves.b.clone()),
            ],
            // Which rolls they are is only known when the change is worked out.
            Self::SlitStrip(_) | Self::PartHalves(_) => Vec::new(),
            // How the bench is touches no film.
            Self::SetUpBench(_) => Vec::new(),
            Self::RemoveRoll { roll } => {
                vec![FilmPart::Roll(roll.clone()), FilmPart::Takes(roll.clone())]
            }
            Self::ChangeCut { cut, .. }
            | Self::NewCut(NewCut { cut, .. })
            | Self::RemoveCut(RemoveCut { cut }) => vec![FilmPart::Cut(cut.clone())],
            Self::DescribeCut(change) => {
                let parts = change.names().map(|name| FilmPart::Cut(name.to_owned()));
                parts.collect()
            }
            Self::SayAccession(_) => vec![FilmPart::Accession],
            Self::MoveSignLimit(_) => vec![FilmPart::SignLimits],
            Self::Script(change) => change.parts(),
            Self::Titles(change) => change.parts(),
            Self::Dub(change) => change.parts(),
            Self::Light(change) => change.parts(),
            // What it must have seen it says itself, by the number of lines.
            Self::AtTheBench(_) => Vec::new(),
            // Another answer, or marks of other takes, do not make these untrue.
            Self::AnswerQuestion(_)
            | Self::AskAgain(_)
            | Self::MarkMoments(_)
            | Self::UnmarkMoments(_) => Vec::new(),
            Self::WriteNote { id: Some(id), .. } | Self::RemoveNote { id } => {
                vec![FilmPart::Note(*id)]
            }
            // What is only added stands beside whatever another window has done.
            Self::RunRoll(_) | Self::HandleRoll(_) | Self::WriteNote { id: None, .. } => Vec::new(),
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
            Self::MoveBreak { roll, frame, to } => {
                takes_of_roll::moved(production, roll, *frame, *to)
            }
            Self::LetBreakStand { roll, frame } => {
                takes_of_roll::looked_at(production, roll, *frame)
            }
            Self::RollFacts { roll, facts } => roll_facts(production, roll, facts),
            Self::RemoveRoll { roll } => {
                roll_is_free(production, roll)?;
                remove_roll(production, roll)
            }
            Self::AtTheBench(write) => write.act(production, ""),
            Self::Script(change) => change.act(production),
            Self::Titles(change) => change.act(production),
            Self::Dub(change) => change.act(production),
            Self::Light(change) => change.act(production),
            Self::MoveToPin(change) => change.act(production),
            Self::InspectRoll(change) => change.act(production),
            Self::JoinFound(change) => change.act(production),
            Self::JoinGone(change) => change.act(production),
            Self::EdgeNumberRead(change) => change.act(production),
            Self::EdgeNumberGone(change) => change.act(production),
            Self::MeasureHundred(change) => change.act(production),
            Self::MeasureWound(change) => change.act(production),
            Self::RunRoll(change) => change.act(production),
            Self::HandleRoll(change) => change.act(production),
            Self::StrikeRun(change) => change.act(production),
            Self::PutReel(change) => change.act(production),
            Self::RemoveReel(change) => change.act(production),
            Self::PairHalves(change) => change.act(production),
            Self::SlitStrip(change) => change.act(production),
            Self::PartHalves(change) => change.act(production),
            Self::SayAccession(change) => change.act(),
            Self::SetUpBench(change) => change.act(),
            Self::MoveSignLimit(change) => change.act(production),
            Self::AnswerQuestion(change) => change.act(production),
            Self::AskAgain(change) => change.act(production),
            Self::MarkMoments(change) => change.act(production),
            Self::UnmarkMoments(change) => change.act(production),
            Self::ChangeCut { cut, cut_change } => {
                cut_is_free(production, cut)?;
                change_cut(production, cut, cut_change)
            }
            Self::NewCut(change) => change.act(production),
            Self::DescribeCut(change) => {
                if change.name.is_some() {
                    cut_is_free(production, &change.cut)?;
                }
                change.act(production)
            }
            Self::RemoveCut(change) => {
                cut_is_free(production, &change.cut)?;
                change.act(production)
            }
            Self::WriteNote {
                id,
                roll,
                frame,
                words,
                writer,
            } => write_note(production, *id, roll, *frame, words, writer),
            Self::RemoveNote { id } => remove_note(production, *id),
        }
    }
}
