//! The user's word on questions of continuity: given once, kept with the film, final.

use onestrand_cut::{Answer, QuestionKey, QuestionLimits};
use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::error::unfit;
use crate::kept_list;

/// Under what the answers are kept.
pub(crate) const SETTING: &str = "answers";

/// More answers than any film raises; a longer list is somebody's mistake.
const MOST: usize = 10_000;

/// A question is answered: it is meant so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct AnswerQuestion {
    /// What the question is about, as the check says it.
    pub key: String,
    /// What the user writes beside it.
    #[serde(default)]
    pub note: String,
}

/// An answer is taken back: the question is open again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct AskAgain {
    /// What the question is about.
    pub key: String,
}

/// An answer as it is kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Kept {
    key: String,
    #[serde(default)]
    note: String,
}

/// All answers, in the order they were given.
pub(crate) fn answers(production: &Production) -> Result<Vec<Answer>, ProductionError> {
    let readable = |one: Kept| {
        let key: QuestionKey = one.key.parse().ok()?;
        Some(Answer {
            key,
            note: one.note,
        })
    };
    Ok(kept(production)?.into_iter().filter_map(readable).collect())
}

fn kept(production: &Production) -> Result<Vec<Kept>, ProductionError> {
    kept_list::read(production, SETTING)
}

/// Whether what is kept answers the question: the check counts it as answered then,
/// also where the join was nudged since.
fn is_answer_to(kept: &Kept, asked: &QuestionKey) -> bool {
    let nudge = QuestionLimits::default().nudge_frames;
    let key: Result<QuestionKey, _> = kept.key.parse();
    key.is_ok_and(|key| key.answers(asked, nudge))
}

fn key_of(text: &str) -> Result<QuestionKey, ProductionError> {
    text.parse().map_err(|problem| {
        unfit(
            format!("{problem}"),
            "answer a question that the check asks",
        )
    })
}

impl AnswerQuestion {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        text_fits("note", &self.note)?;
        let key = key_of(&self.key)?;
        let mut all = kept(production)?;
        let before = all.len();
        all.retain(|one| !is_answer_to(one, &key));
        let is_changed = all.len() < before;
        if all.len() >= MOST {
            return Err(unfit(
                format!("{MOST} questions are answered already"),
                "ask some of them again first",
            ));
        }
        all.push(Kept {
            key: self.key.clone(),
            note: self.note.trim().to_owned(),
        });
        let about = key.kind().about();
        let words = if is_changed {
            format!("the note beside the answer about {about}")
        } else {
            format!("the answer about {about}")
        };
        Ok((words, kept_list::put(SETTING, &all)))
    }
}

impl AskAgain {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let key = key_of(&self.key)?;
        let mut all = kept(production)?;
        let before = all.len();
        all.retain(|one| !is_answer_to(one, &key));
        if all.len() == before {
            return Err(unfit(
                "that question has no answer".to_owned(),
                "look at the questions once more; another window may have asked again",
            ));
        }
        let words = format!("the question about {} is open again", key.kind().about());
        Ok((words, kept_list::put(SETTING, &all)))
    }
}
