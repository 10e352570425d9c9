//! What a report means for the picture, the sound and the work, before it is
//! written down.

use onestrand_bench::{AsMade, Deed, Laid, Meaning, StripChange};
use onestrand_store::Production;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::happened::deed;
use super::room::{Room, Work};
use super::words::{frames, shot};
use crate::ProductionError;
use crate::documents::{HappenedWords, MeaningDocument};

/// A report that is not written down yet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MeaningRequest {
    /// What happened, oldest first.
    pub happened: Vec<HappenedWords>,
}

/// What a report would mean. Nothing is written down.
///
/// # Errors
/// [`ProductionError::CannotBe`] when it cannot have happened,
/// [`ProductionError::Unfit`], [`ProductionError::Store`].
pub fn bench_meaning(
    production: &Production,
    request: &MeaningRequest,
) -> Result<MeaningDocument, ProductionError> {
    let room = Room::of(production)?;
    let work = room.working()?;
    let (_, after) = room.with(&request.happened)?;
    let table = room.log.table();
    let (before, then) = (
        work.seen_from(room.log.state(), table),
        work.seen_from(after.state(), table),
    );
    let meaning = Meaning::between(&before, &then, &work.strips, table);
    let was = room.left()?;
    let is = work.left_from(after.state(), table)?;
    let speed = production.meta().speed.as_f64();
    let deeds: Vec<Deed> = request
        .happened
        .iter()
        .map(|h| deed(h, &work.strips))
        .collect::<Result<_, _>>()?;
    let count = |left: &onestrand_bench::WorkLeft, code: &str| {
        left.steps.iter().filter(|s| s.deed.code() == code).count()
    };
    let did = |code: &str| deeds.iter().filter(|d| d.code() == code).count();
    let mut more = Vec::new();
    for (code, one, many) in [("cut", "cut", "cuts"), ("join", "join", "joins")] {
        // Of what was planned some is done by the report itself.
        let planned = count(&was, code);
        let then = count(&is, code) + did(code);
        more.extend(difference(planned, then, one, many));
    }
    if is.pins_peak > work.pins {
        more.push(format!(
            "{} pins will be wanted at the worst moment; you own {}.",
            is.pins_peak, work.pins
        ));
    }
    if more.is_empty() {
        more.push("The rest of the work stays as it was.".to_owned());
    }
    let passed = AsMade::of(&then, &work.strips, table).passed;
    for part in passed {
        if let Some(p) = part.strip.and_then(|s| work.positions(s)) {
            more.push(format!(
                "The place of {} on the reel is passed: to bring it in, open the join there.",
                shot(p)
            ));
        }
    }
    Ok(MeaningDocument {
        changes: !meaning.is_nothing(),
        picture: picture(&meaning, work),
        sound: sound(&meaning, work, speed),
        work: more,
        frames_before: meaning.frames.0,
        frames_after: meaning.frames.1,
    })
}

fn difference(planned: usize, then: usize, one: &str, many: &str) -> Option<String> {
    let (by, word) = match then.cmp(&planned) {
        std::cmp::Ordering::Equal => return None,
        std::cmp::Ordering::Greater => (then - planned, "more"),
        std::cmp::Ordering::Less => (planned - then, "fewer"),
    };
    let what = if by == 1 { one } else { many };
    Some(format!("{by} {what} {word} than planned."))
}

fn picture(meaning: &Meaning, work: &Work) -> Vec<String> {
    let mut said: Vec<String> = meaning
        .strips
        .iter()
        .filter_map(|change| Some(strip_words(change, &shot(work.positions(change.strip)?))))
        .flatten()
        .collect();
    let (before, after) = meaning.frames;
    if before != after {
        said.push(format!(
            "The film will be {} instead of {}.",
            frames(after),
            before
        ));
    }
    if said.is_empty() {
        said.push("The picture stays as it was planned.".to_owned());
    }
    said
}

fn strip_words(change: &StripChange, name: &str) -> Vec<String> {
    let mut said = Vec::new();
    let name = capital(name);
    if change.left_out {
        said.push(format!("{name} is not seen any more."));
        return said;
    }
    let by = |n: i64| frames(n.unsigned_abs());
    match change.head {
        0 => {}
        n if n < 0 => said.push(format!("{name} begins {} later.", by(n))),
        n => said.push(format!("{name} begins {} earlier.", by(n))),
    }
    match change.tail {
        0 => {}
        n if n < 0 => said.push(format!("{name} ends {} earlier.", by(n))),
        n => said.push(format!("{name} ends {} later.", by(n))),
    }
    if change.inside < 0 {
        said.push(format!(
            "{name} has a hop: {} are missing inside it.",
            by(change.inside)
        ));
    }
    match change.laid {
        Some(Laid::TurnedOver) => said.push(format!(
            "{name} is seen mirrored and a little soft, since its emulsion lies on the other side; \
             with holes along one edge it will not run."
        )),
        Some(Laid::EndForEnd) => said.push(format!(
            "{name} stands on its head and runs backwards; with holes along one edge it will not \
             run."
        )),
        Some(Laid::EndOverEnd) => said.push(format!(
            "{name} stands on its head, runs backwards, and is a little soft, since its emulsion \
             lies on the other side."
        )),
        Some(Laid::Right) => said.push(format!("{name} lies as it should again.")),
        None => {}
    }
    said
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

fn sound(meaning: &Meaning, work: &Work, speed: f64) -> Vec<String> {
    let mut said = Vec::new();
    let mut shifted = 0_i64;
    let mut from = None;
    for change in &meaning.strips {
        let by = change.head + change.tail + change.inside;
        if by != 0 {
            shifted += by;
            from = from.or_else(|| work.positions(change.strip));
        }
    }
    if let (Some(from), true) = (from, shifted != 0) {
        let by = frames(shifted.unsigned_abs());
        let seconds = shifted.unsigned_abs() as f64 / speed;
        let (when, music) = match shifted < 0 {
            true => ("earlier", "late"),
            false => ("later", "early"),
        };
        said.push(format!(
            "After {} every picture comes {by} {when} ({seconds:.2} s): sounds laid to a frame or a \
             join go with it; music that runs by the clock is {by} {music} from there on.",
            shot(from)
        ));
    }
    if meaning.joins > 0 {
        said.push(format!(
            "{} more will be heard on a magnetic stripe.",
            match meaning.joins {
                1 => "One join".to_owned(),
                n => format!("{n} joins"),
            }
        ));
    }
    if said.is_empty() {
        said.push("Nothing is heard otherwise.".to_owned());
    }
    said
}
