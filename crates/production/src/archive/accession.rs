//! What is said of a film, and how each statement is known.

use jiff::civil::Date;
use onestrand_archive::TermKind;
use onestrand_store::{Act, Production};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::actions::actions;
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{AccessionDocument, AccessionWords, StatementKindDocument, StatementWords};
use crate::error::unfit;
use crate::reels::one_of;

/// The name under which it is kept.
pub(crate) const SETTING: &str = "accession";

/// More statements are no sheet any more.
const MOST: usize = 200;

/// What is said of the film is otherwise; all of it is replaced.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct SayAccession {
    /// What is said.
    pub words: AccessionWords,
}

/// Kinds of statement: the word, what it means, the term of Dublin Core.
pub(super) const KINDS: [(&str, &str, TermKind); 12] = [
    (
        "title",
        "title, where another than the film's",
        TermKind::Title,
    ),
    (
        "other_title",
        "another title it goes by",
        TermKind::Alternative,
    ),
    ("maker", "who made it", TermKind::Creator),
    (
        "people",
        "who is seen in it, or took part",
        TermKind::Contributor,
    ),
    ("date", "when it was shot", TermKind::Created),
    ("place", "where it was shot", TermKind::Spatial),
    ("about", "what happens in it", TermKind::Description),
    ("subject", "what it is about, in a word", TermKind::Subject),
    ("language", "language spoken or written", TermKind::Language),
    ("rights", "whose the rights are", TermKind::Rights),
    ("who_may_see", "who may see it", TermKind::AccessRights),
    ("came_from", "where it came from", TermKind::Provenance),
];

/// How a statement can be known: the word, and the same on paper.
pub(super) const KNOWN: [(&str, &str); 4] = [
    ("maker", "the maker says so"),
    ("written", "written on can, leader or paper"),
    ("guess", "guessed"),
    ("not-known", "not known"),
];

/// The words on paper for how a statement is known.
pub(super) fn known_words(known: &str) -> &'static str {
    let found = KNOWN.iter().find(|(word, _)| *word == known);
    found.map_or("not known", |(_, words)| words)
}

/// What is said of a film, as it is kept.
///
/// # Errors
/// [`ProductionError::Store`].
pub(super) fn accession_words(production: &Production) -> Result<AccessionWords, ProductionError> {
    let kept = production.setting(SETTING)?;
    // Words of a later version of the program, if there were any, are left alone.
    Ok(kept
        .and_then(|text| serde_json::from_str(&text).ok())
        .unwrap_or_default())
}

/// What is said of a film, and what was done to it.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn accession_document(production: &Production) -> Result<AccessionDocument, ProductionError> {
    let kinds = KINDS.iter().map(|(what, words, _)| StatementKindDocument {
        what: (*what).to_owned(),
        words: (*words).to_owned(),
    });
    Ok(AccessionDocument {
        revision: production.revision()?.number(),
        words: accession_words(production)?,
        what: kinds.collect(),
        actions: actions(production)?,
    })
}

impl SayAccession {
    pub(crate) fn act(&self) -> Result<(String, Act), ProductionError> {
        let words = self.words.clone().fit()?;
        let said = words.statements.len();
        let value = serde_json::to_string(&words).ok();
        let act = Act::PutSetting {
            name: SETTING.to_owned(),
            value: value.filter(|_| words != AccessionWords::default()),
        };
        let count = match said {
            1 => "1 statement".to_owned(),
            n => format!("{n} statements"),
        };
        Ok((format!("what is known of the film: {count}"), act))
    }
}

impl AccessionWords {
    /// Itself, trimmed, where nothing is wrong with it.
    fn fit(mut self) -> Result<Self, ProductionError> {
        for (what, text) in [
            ("number", &mut self.number),
            ("keeper", &mut self.keeper),
            ("place", &mut self.kept),
            ("day", &mut self.look_again),
        ] {
            text_fits(what, text)?;
            *text = text.trim().to_owned();
        }
        let day = &self.look_again;
        if !day.is_empty() && day.parse::<Date>().map(|d| d.to_string()).ok().as_ref() != Some(day)
        {
            return Err(unfit(
                format!("{day:?} is no day"),
                "write year, month and day, such as 2028-03-03",
            ));
        }
        if self.statements.len() > MOST {
            return Err(unfit(
                format!(
                    "{} statements are more than a sheet holds",
                    self.statements.len()
                ),
                "say several people or places in one statement",
            ));
        }
        for statement in &mut self.statements {
            statement.fit()?;
        }
        Ok(self)
    }
}

impl StatementWords {
    fn fit(&mut self) -> Result<(), ProductionError> {
        one_of(
            "kind of statement",
            &self.what,
            &KINDS.map(|(what, ..)| what),
        )?;
        one_of("way to know", &self.known, &KNOWN.map(|(known, _)| known))?;
        text_fits("statement", &self.value)?;
        text_fits("source", &self.source)?;
        self.value = self.value.trim().to_owned();
        self.source = self.source.trim().to_owned();
        match (self.value.is_empty(), self.known.as_str()) {
            (true, "maker" | "written" | "guess") => Err(unfit(
                "a statement that says nothing is known by nobody".to_owned(),
                "write what is said, or say that it is not known",
            )),
            (false, "not-known") => Err(unfit(
                format!("{:?} stands there, and is said not to be known", self.value),
                "say who says so or where it is written, or call it a guess",
            )),
            _ => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(what: &str, value: &str, known: &str) -> SayAccession {
        SayAccession {
            words: AccessionWords {
                statements: vec![StatementWords {
                    what: what.to_owned(),
                    value: value.to_owned(),
                    known: known.to_owned(),
                    source: String::new(),
                }],
                ..AccessionWords::default()
            },
        }
    }

    #[test]
    fn a_statement_says_how_it_is_known() {
        assert!(said("date", "1961", "guess").act().is_ok());
        assert!(said("date", "", "not-known").act().is_ok());
        for (what, value, known) in [
            ("date", "1961", "not-known"),
            ("date", "", "maker"),
            ("date", "1961", "approx."),
            ("hat size", "57", "maker"),
        ] {
            assert!(
                said(what, value, known).act().is_err(),
                "{what} {value} {known}"
            );
        }
        let mut words = said("date", "1961", "guess");
        for (day, fits) in [("2028-03-03", true), ("2028-02-30", false), ("soon", false)] {
            words.words.look_again = day.to_owned();
            assert_eq!(words.act().is_ok(), fits, "{day}");
        }
    }
}
