//! What is said of a film, in the terms of Dublin Core.

use onestrand_archive::{Term, TermKind, dublin_core};
use onestrand_film::RunningTime;
use onestrand_store::Production;

use super::accession::{KINDS, known_words};
use crate::ProductionError;
use crate::documents::{AccessionWords, StatementWords};

/// The terms of a film as XML.
pub(super) fn core_terms(
    production: &Production,
    words: &AccessionWords,
) -> Result<String, ProductionError> {
    let meta = production.meta();
    let plain = |kind, value: String| Term {
        kind,
        value,
        doubt: None,
    };
    let mut terms = vec![plain(TermKind::Title, meta.title.clone())];
    if !words.number.is_empty() {
        terms.push(plain(TermKind::Identifier, words.number.clone()));
    }
    terms.extend(words.statements.iter().filter_map(term));
    terms.push(plain(TermKind::Type, "MovingImage".to_owned()));
    terms.push(plain(
        TermKind::Medium,
        format!("{} film", meta.gauge.spec().name),
    ));
    for name in production.cut_names()? {
        let frames = crate::strand::cut(production, &name)?.frames();
        terms.push(plain(
            TermKind::Extent,
            format!(
                "{name}: {} frames, {}, {} at {} f/s",
                frames.count(),
                crate::reel_plan::footage_words(meta.gauge, frames),
                RunningTime::of(frames, meta.speed),
                meta.speed
            ),
        ));
    }
    for roll in production.rolls()? {
        let number = match roll.inspection.accession.is_empty() {
            true => String::new(),
            false => format!(", number {}", roll.inspection.accession),
        };
        let words = format!(
            "camera original {}: {} frames{number}",
            roll.name, roll.frames
        );
        terms.push(plain(TermKind::HasPart, words));
    }
    terms.extend(words.statements.iter().filter_map(how_known));
    Ok(dublin_core(&terms))
}

fn term(said: &StatementWords) -> Option<Term> {
    let (_, _, kind) = *KINDS.iter().find(|(what, ..)| *what == said.what)?;
    (said.known != "not-known").then(|| Term {
        kind,
        value: said.value.clone(),
        doubt: (said.known == "guess").then(|| known_words(&said.known).to_owned()),
    })
}

/// How a statement is known, as a statement of its own.
fn how_known(said: &StatementWords) -> Option<Term> {
    let (_, meaning, _) = KINDS.iter().find(|(what, ..)| *what == said.what)?;
    let source = match said.source.is_empty() {
        true => String::new(),
        false => format!(": {}", said.source),
    };
    let value = match said.value.is_empty() {
        true => String::new(),
        false => format!(" \u{201c}{}\u{201d},", said.value),
    };
    Some(Term {
        kind: TermKind::Provenance,
        value: format!("{meaning}:{value} {}{source}", known_words(&said.known)),
        doubt: None,
    })
}
