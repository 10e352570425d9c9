//! The commands that read film back: a strip's name, a reel's proof.

use onestrand_production::documents::{NamedDocument, ProofDocument};
use onestrand_production::{
    self as acts, Cancel, ProductionError, ReelToProve, SketchMemory, StripRolls, Workprints,
};

use crate::answer::Answer;
use crate::arguments::{NameStrip, ProveReel};
use crate::bar::Bar;
use crate::commands::{Outcome, open};

pub(crate) fn name(given: &NameStrip, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let photograph = std::fs::read(&given.photograph).map_err(|source| ProductionError::File {
        what: "read the photograph",
        source,
        path: given.photograph.clone(),
    })?;
    let production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let rolls = StripRolls::of(&production)?;
    let mut memory = SketchMemory::default();
    let found = acts::name_strip_in(&photograph, &rolls, &mut memory, &mut prints, cancel, bar)?;
    let words = named(&found);
    Ok(Answer {
        is_yes: !found.candidates.is_empty(),
        ..Answer::yes(&found, words)
    })
}

pub(crate) fn prove(given: &ProveReel, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let reel = ReelToProve::of(&production, &given.cut)?;
    let mut memory = SketchMemory::default();
    let found = acts::prove_reel(&reel, &given.scan, &mut memory, &mut prints, cancel, bar)?;
    let words = proved(&found);
    Ok(Answer {
        is_yes: found.errors.is_empty(),
        ..Answer::yes(&found, words)
    })
}

fn named(found: &NamedDocument) -> String {
    let mut text = format!("{}\n", found.words);
    for other in found.candidates.iter().skip(1) {
        let last = other.thrown.saturating_sub(1);
        text += &format!("or {}·{}–{last}\n", other.roll, other.first);
    }
    if !found.hint.is_empty() {
        text += &format!("{}\n", found.hint);
    }
    text
}

fn proved(found: &ProofDocument) -> String {
    if found.errors.is_empty() {
        return format!(
            "the reel is {}: {} frames in {} strips, nothing missing and nothing else",
            found.cut,
            found.frames,
            found.spans.len()
        );
    }
    let mut text = format!("the reel is not {}:\n", found.cut);
    for error in &found.errors {
        let place = if error.earliest == error.latest {
            format!("at {}", error.at)
        } else {
            format!("between {} and {}", error.earliest, error.latest)
        };
        text += &format!("  {place}: {}\n      {}\n", error.words, error.hint);
    }
    text
}
