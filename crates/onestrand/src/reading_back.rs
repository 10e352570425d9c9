//! The commands that read film back: a strip's name, a reel's proof.

use onestrand_production::documents::{
    BenchWrite, NamedDocument, ProofDocument, SeenDocument, SeenStrip,
};
use onestrand_production::{
    self as acts, Cancel, FilmChange, Production, ProductionError, ReelToProve, SeenRequest,
    SketchMemory, StripRolls, Workprints,
};

use crate::answer::Answer;
use crate::arguments::{NameStrip, ProveReel};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::keep;

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
    let mut production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let reel = ReelToProve::of(&production, &given.cut)?;
    let mut memory = SketchMemory::default();
    let found = acts::prove_reel(&reel, &given.scan, &mut memory, &mut prints, cancel, bar)?;
    let mut answer = Answer {
        is_yes: found.errors.is_empty(),
        ..Answer::yes(&found, proved(&found))
    };
    if given.into_log {
        let seen = into_log(&mut production, given, &found)?;
        answer.words += &logged(&seen, &given.cut);
        answer.document["log"] = serde_json::to_value(&seen).unwrap_or_default();
    }
    Ok(answer)
}

/// Brings the log of the bench up to what the scan shows. Gives what was to be brought.
fn into_log(
    production: &mut Production,
    given: &ProveReel,
    found: &ProofDocument,
) -> Result<SeenDocument, ProductionError> {
    let film: Vec<SeenStrip> = found.strips.iter().map(SeenStrip::from).collect();
    let request = SeenRequest {
        cut: given.cut.clone(),
        film: film.clone(),
    };
    let seen = acts::seen_on_the_reel(production, &request)?;
    if seen.on_the_bench && !(seen.refused.is_empty() && seen.words.is_empty()) {
        let names = given.scan.iter().filter_map(|path| path.file_name());
        let names: Vec<_> = names.map(|name| name.to_string_lossy()).collect();
        let write = BenchWrite::Seen {
            lines: seen.lines,
            scan: names.join(", "),
            film,
        };
        // What is refused is told by the refusal itself, with its next step.
        keep(production, &FilmChange::AtTheBench(write))?;
    }
    Ok(seen)
}

fn logged(seen: &SeenDocument, cut: &str) -> String {
    match (seen.on_the_bench, seen.words.as_slice()) {
        (false, _) => format!("\n{cut} is not on the bench: nothing was written there"),
        (true, []) => "\nthe log of the bench already says so".to_owned(),
        (true, words) => format!(
            "\nwritten into the log of the bench:\n  {}",
            words.join("\n  ")
        ),
    }
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
