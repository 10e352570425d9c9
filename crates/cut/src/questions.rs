//! Questions of continuity: asked at the join, answered by the user.
//!
//! So far the two that need no more than the cut itself; the ones that need
//! to know who moves which way come with the log's fuller use.

use onestrand_film::Fps;

use crate::{Piece, TrialCut};

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum QuestionKind {
    /// The same run of the camera goes on after a gap: the view hops.
    Jump,
}

impl QuestionKind {
    /// The word in commands and files.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Jump => "jump",
        }
    }
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub kind: QuestionKind,
    /// The positions on both sides of the join, counted from 1.
    pub positions: Vec<usize>,
    /// The question in words.
    pub text: String,
}

/// The questions a cut raises.
///
/// Source: the jump cut of the trade: the same view joined to itself across a
/// gap makes whatever moves hop (common practice).
#[must_use]
pub fn questions(cut: &TrialCut, fps: Fps) -> Vec<Question> {
    cut.pieces()
        .windows(2)
        .enumerate()
        .filter_map(|(index, pair)| jump(index + 1, &pair[0], &pair[1], fps))
        .collect()
}

fn jump(position: usize, before: &Piece, after: &Piece, fps: Fps) -> Option<Question> {
    let (first, second) = (before.span()?, after.span()?);
    let same_take = before.slate.is_some() && before.slate == after.slate;
    let gap = second.range.begin().since(first.range.end()).frames();
    if first.roll != second.roll || !same_take || gap == 0 {
        return None;
    }
    let slate = before.slate.as_ref()?;
    let seconds = f64::from(gap.unsigned_abs()) / fps.as_f64();
    let how = if gap > 0 { "across" } else { "back over" };
    Some(Question {
        kind: QuestionKind::Jump,
        positions: vec![position, position + 1],
        text: format!(
            "{slate} is joined to itself {how} {} frames ({seconds:.1} s): is the hop meant?",
            gap.unsigned_abs()
        ),
    })
}
