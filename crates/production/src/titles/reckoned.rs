//! What is reckoned of a title: its words, how long it stands, what it takes of a roll.

use onestrand_film::Fps;

use super::stand_kept::number;
use crate::ProductionError;
use crate::documents::{ReadingRuleDocument, StandWords, TitleProblemDocument, TitleWords};

/// What is reckoned of one title. Lengths in frames.
pub(super) struct Reckoned {
    pub(super) words: usize,
    pub(super) by_rule: u32,
    pub(super) hold: u32,
    pub(super) whole: u32,
    pub(super) of_roll: u32,
    pub(super) problems: Vec<TitleProblemDocument>,
}

impl Reckoned {
    pub(super) fn of(
        title: &TitleWords,
        stand: &StandWords,
        speed: Fps,
    ) -> Result<Self, ProductionError> {
        let words = title.words.split_whitespace().count();
        let read = |what, text| Ok::<f64, ProductionError>(number(what, text)?.unwrap_or(0.0));
        let seconds = read("least", &stand.least)?
            .max(read("first", &stand.first)? + read("a word", &stand.per_word)? * words as f64);
        let by_rule = (seconds * speed.as_f64()).ceil() as u32;
        let asked = &title.shooting;
        let hold = asked.hold.unwrap_or(by_rule);
        let whole = asked.before + hold + asked.after;
        Ok(Self {
            words,
            by_rule,
            hold,
            whole,
            of_roll: whole * asked.takes,
            problems: Vec::new(),
        })
    }
}

/// The reading rules there are.
pub(super) fn rules() -> Vec<ReadingRuleDocument> {
    Vec::new()
}
