//! The grading card as an ASC CDL, out and in.

use onestrand_light::{Correction, read_corrections, write_corrections};
use onestrand_store::Production;

use super::card::{grading_card, points_of};
use crate::ProductionError;
use crate::documents::GradedShot;

/// The grading card as a collection of colour corrections (`.ccc`), and how many there are.
///
/// The name of each is roll, first and last frame: `R1.402-545`.
///
/// # Errors
/// [`ProductionError::Store`], [`ProductionError::Light`].
pub fn decision_list(production: &Production) -> Result<(String, usize), ProductionError> {
    let card = grading_card(production)?;
    let one = |shot: &GradedShot| -> Result<Correction, ProductionError> {
        let id = name(shot);
        let words = [points_of(shot)?.to_string(), shot.reason.clone()];
        let words = words.join("; ");
        let words = words.trim_end_matches("; ");
        Ok(Correction::of_points(&id, words, points_of(shot)?))
    };
    let corrections: Vec<Correction> = card.shots.iter().map(one).collect::<Result<_, _>>()?;
    let about = format!(
        "{}: slopes for linear light (the scan's transfer undone first); out = in x slope",
        production.meta().title
    );
    let count = corrections.len();
    Ok((write_corrections(&about, &corrections), count))
}

fn name(shot: &GradedShot) -> String {
    format!(
        "{}.{}-{}",
        shot.roll,
        shot.first,
        shot.thrown.saturating_sub(1)
    )
}

/// Points out of a collection that this program or another wrote, for shots that are named
/// as [`decision_list`] names them; and what could not be taken, in words.
///
/// # Errors
/// [`ProductionError::Light`] when it cannot be read.
pub fn points_of_decision_list(
    text: &str,
) -> Result<(Vec<GradedShot>, Vec<String>), ProductionError> {
    let (mut shots, mut left) = (Vec::new(), Vec::new());
    for correction in read_corrections(text)? {
        let id = &correction.id;
        let Some((roll, first, thrown)) = place(id) else {
            left.push(format!("{id}: no shot by such a name, as R1.402-545 is"));
            continue;
        };
        match correction.points() {
            Ok((points, is_all)) => {
                if !is_all {
                    left.push(format!(
                        "{id}: it is more than whole points of light; {points} is the nearest"
                    ));
                }
                let [red, green, blue] = points.rgb();
                let reason = correction.description.clone();
                shots.push(GradedShot {
                    roll,
                    first,
                    thrown,
                    red,
                    green,
                    blue,
                    reason,
                });
            }
            Err(problem) => left.push(format!("{id}: {problem}")),
        }
    }
    Ok((shots, left))
}

fn place(id: &str) -> Option<(String, u32, u32)> {
    let (roll, frames) = id.split_once('.')?;
    let (first, last) = frames.split_once('-')?;
    let (first, last) = (first.parse().ok()?, last.parse::<u32>().ok()?);
    (first <= last).then(|| (roll.to_owned(), first, last + 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_read_back() {
        assert_eq!(place("R1.402-545"), Some(("R1".to_owned(), 402, 546)));
        assert_eq!(place("R1.5-4"), None);
        assert_eq!(place("cc03345"), None);
    }
}
