//! The user's word on questions of continuity: given once, kept with the film, final.

use onestrand_cut::{Answer, QuestionKey};
use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::error::unfit;

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

/// All answers, in the order they were given. What a later version of the program
/// wrote in a way that cannot be read here is left alone and answers nothing.
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
    let text = production.setting(SETTING)?;
    Ok(text
        .and_then(|text| serde_json::from_str(&text).ok())
        .unwrap_or_default())
}

fn put(all: &[Kept]) -> Act {
    let value = (!all.is_empty())
        .then(|| serde_json::to_string(all).ok())
        .flatten();
    Act::PutSetting {
        name: SETTING.to_owned(),
        value,
    }
}

impl AnswerQuestion {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        text_fits("note", &self.note)?;
        let key: QuestionKey = self.key.parse().map_err(|problem| {
            unfit(
                format!("{problem}"),
                "answer a question that the check asks",
            )
        })?;
        let mut all = kept(production)?;
        all.retain(|one| one.key != self.key);
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
        let words = format!("the answer to a question ({})", key.kind().code());
        Ok((words, put(&all)))
    }
}

impl AskAgain {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let mut all = kept(production)?;
        let before = all.len();
        all.retain(|one| one.key != self.key);
        if all.len() == before {
            return Err(unfit(
                "that question has no answer".to_owned(),
                "look at the questions once more; another window may have asked again",
            ));
        }
        Ok(("ask a question again".to_owned(), put(&all)))
    }
}
