//! Questions of continuity: asked at the join, answered by the user.
//!
//! The rules, and the idea of the handbooks behind each, stand in
//! `docs/QUESTIONS.md`.

mod at_the_join;
mod key;
mod log_words;
mod steps_of_light;
mod through_the_cut;

use onestrand_film::{Fps, Span};

use crate::{Piece, Slate, Strand, Strips, TrialCut};

pub use key::{QuestionKey, QuestionKeyError};
pub use log_words::{LineSide, Mover, TakeWords, ViewSize, Way};

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum QuestionKind {
    /// The same view goes on after a gap, or in another take: it hops.
    Jump,
    /// Somebody goes the other way than where last seen.
    Direction,
    /// The camera has gone to the other side of the line of action.
    Line,
    /// Two views of one scene are nearly the same size.
    Size,
    /// Rolls of unlike wind are joined: the focus jumps.
    Wind,
    /// The light of one view steps from one time it is seen to the next.
    Light,
    /// A picture stands too briefly to be taken in.
    ShortHold,
}

impl QuestionKind {
    /// Every kind.
    pub const ALL: [Self; 7] = [
        Self::Jump,
        Self::Direction,
        Self::Line,
        Self::Size,
        Self::Wind,
        Self::Light,
        Self::ShortHold,
    ];

    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Jump => "jump",
            Self::Direction => "direction",
            Self::Line => "line",
            Self::Size => "size",
            Self::Wind => "wind",
            Self::Light => "light",
            Self::ShortHold => "short_hold",
        }
    }

    /// What it is about, in the words of screens: `the answer about a hop`.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Jump => "a hop",
            Self::Direction => "who turns over",
            Self::Line => "the line of action",
            Self::Size => "a step of size",
            Self::Wind => "two winds",
            Self::Light => "a step of light",
            Self::ShortHold => "a short picture",
        }
    }
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub kind: QuestionKind,
    /// The positions it is about, counted from 1: both sides of a join, or the
    /// two pieces between which something changed.
    pub positions: Vec<usize>,
    /// The question in words.
    pub text: String,
    /// What it is about, to keep an answer by.
    pub key: QuestionKey,
    /// The user's word on it, which is final; none while it is open.
    pub answer: Option<Answer>,
}

/// The user's word on a question: it is meant so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer {
    /// The question it was given to.
    pub key: QuestionKey,
    /// What the user wrote beside it; may be empty.
    pub note: String,
}

/// From where on something is asked; to be moved by the user.
///
/// Source: common practice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct QuestionLimits {
    /// A size step smaller than this is asked about. Unit: half steps, so that 2
    /// is from wide to medium.
    pub size_half_steps: u8,
    /// Views from directions this far apart may have the same size. Unit: degrees.
    pub angle_degrees: f64,
    /// A step of light greater than this is asked about. Unit: points, twelve to
    /// a stop; half a stop is what reversal forgives.
    pub light_points: f64,
    /// A picture that stands shorter than this is asked about. Unit: seconds.
    pub short_hold_seconds: f64,
    /// A join nudged by no more than this is still the one that was answered
    /// for. Unit: frames.
    pub nudge_frames: u32,
}

impl Default for QuestionLimits {
    fn default() -> Self {
        Self {
            size_half_steps: 2,
            angle_degrees: 30.0,
            light_points: 6.0,
            short_hold_seconds: 1.0,
            nudge_frames: 12,
        }
    }
}

/// Whoever has measured how light the film is.
pub trait LightMeasure {
    /// How much lighter the beginning of one run is than the end of another, as far
    /// as both show the same things; nothing where they do not, or nobody can tell.
    ///
    /// Unit: points of 1/12 stop.
    fn step(&self, end_of: &Span, beginning_of: &Span) -> Option<f64>;
}

/// Nobody has measured.
#[derive(Debug, Clone, Copy, Default)]
pub struct NotMeasured;

impl LightMeasure for NotMeasured {
    fn step(&self, _: &Span, _: &Span) -> Option<f64> {
        None
    }
}

/// What is known of the film that a question may rest on.
#[derive(Clone, Copy)]
pub struct Facts<'a> {
    /// The rolls and takes.
    pub strand: &'a Strand,
    /// The running speed.
    pub fps: Fps,
    /// From where on something is asked.
    pub limits: QuestionLimits,
    /// How light the film is.
    pub light: &'a dyn LightMeasure,
}

impl std::fmt::Debug for Facts<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Facts")
            .field("fps", &self.fps)
            .field("limits", &self.limits)
            .finish_non_exhaustive()
    }
}

impl<'a> Facts<'a> {
    /// What the log says, at the usual limits, without measures of light.
    #[must_use]
    pub fn of_log(strand: &'a Strand, fps: Fps) -> Self {
        Self {
            strand,
            fps,
            limits: QuestionLimits::default(),
            light: &NotMeasured,
        }
    }
}

/// The questions a cut raises, by position; those answered carry their answer.
///
/// Time: O(n) in the pieces, with the answers looked through for each question.
#[must_use]
pub fn questions(cut: &TrialCut, facts: &Facts<'_>, answered: &[Answer]) -> Vec<Question> {
    let views: Vec<Option<View<'_>>> = (0..cut.pieces().len())
        .map(|at| View::of(cut, at, facts))
        .collect();
    let mut asked = at_the_join::asked(&views, facts);
    asked.extend(at_the_join::mixed_winds(cut, facts));
    asked.extend(through_the_cut::asked(&views));
    asked.extend(steps_of_light::asked(&views, facts));
    asked.extend(short_holds(cut, facts));
    for question in &mut asked {
        let nudge = facts.limits.nudge_frames;
        let word = answered
            .iter()
            .find(|a| a.key.answers(&question.key, nudge));
        question.answer = word.cloned();
    }
    asked.sort_by(|a, b| (&a.positions, a.kind, &a.key).cmp(&(&b.positions, b.kind, &b.key)));
    asked
}

/// A piece of film as it is looked at: none for leader, cards and titles.
struct View<'a> {
    position: usize,
    piece: &'a Piece,
    slate: Option<Slate>,
    /// The take as one names it: its slate, else its first frame.
    take: Option<String>,
    words: TakeWords,
}

impl<'a> View<'a> {
    fn of(cut: &'a TrialCut, at: usize, facts: &Facts<'_>) -> Option<Self> {
        let piece = &cut.pieces()[at];
        let take = facts.strand.take_at(&piece.span()?.first());
        let slate = piece.slate.clone();
        let slate = slate.or_else(|| take.and_then(|t| t.slate.clone()));
        if slate.as_ref().is_some_and(Slate::is_title) {
            return None;
        }
        let named = slate.as_ref().map(Slate::to_string);
        Some(Self {
            position: at + 1,
            piece,
            take: named.or_else(|| take.map(|t| t.span.first().to_string())),
            words: take.map(TakeWords::read).unwrap_or_default(),
            slate,
        })
    }

    /// The scene: the number at the head of the setup.
    fn scene(&self) -> Option<&str> {
        let setup = self.slate.as_ref()?.setup();
        let end = setup
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(setup.len());
        (end > 0).then(|| &setup[..end])
    }

    /// How it is called in a question: `3 (2-T2)`.
    fn called(&self) -> String {
        match &self.take {
            Some(take) => format!("{} ({take})", self.position),
            None => self.position.to_string(),
        }
    }

    /// What names it in a key.
    fn named(&self) -> String {
        let first = || self.piece.span().map(|s| s.first().to_string());
        self.take.clone().or_else(first).unwrap_or_default()
    }
}

fn question(kind: QuestionKind, positions: [usize; 2], text: String, key: QuestionKey) -> Question {
    Question {
        kind,
        positions: positions.to_vec(),
        text,
        key,
        answer: None,
    }
}

/// Pictures that stand too briefly; pieces that continue each other are one.
fn short_holds(cut: &TrialCut, facts: &Facts<'_>) -> Vec<Question> {
    let table = crate::JoinTable::usual(facts.strand.gauge());
    let strips = Strips::of(cut, &table);
    let limit = facts.limits.short_hold_seconds;
    let mut out = Vec::new();
    for strip in &strips.strips {
        let (first, last) = strip.positions;
        let seconds = f64::from(strip.frames.count()) / facts.fps.as_f64();
        let Some(span) = strip.span.as_ref().filter(|_| seconds < limit) else {
            continue;
        };
        if View::of(cut, first, facts).is_none() {
            continue;
        }
        let sides = [span.first().to_string(), span.last().to_string()];
        out.push(Question {
            kind: QuestionKind::ShortHold,
            positions: (first + 1..=last + 1).collect(),
            text: format!(
                "{} stands for {} frames ({seconds:.1} s): is that long enough to see it?",
                first + 1,
                strip.frames.count()
            ),
            key: QuestionKey::new(QuestionKind::ShortHold, "", sides),
            answer: None,
        });
    }
    out
}
