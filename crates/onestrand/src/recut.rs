//! A film already cut, and a new version of it.

use onestrand_production::{self as acts, Cancel, RecutOptions, Winding};

use crate::answer::Answer;
use crate::arguments::Recut;
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::words;

/// What the new version costs. That the pins do not suffice for its work order is a
/// no, told with how many would.
pub(crate) fn recut(given: &Recut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let winding = match (given.to_and_fro, given.tails) {
        (true, _) => Winding::ToAndFro,
        (false, true) => Winding::Tails,
        (false, false) => Winding::OnePass,
    };
    let options = RecutOptions {
        join: given.join.map(join_kind),
        tolerance: given.tolerance,
        bench: given.pins.map(|pins| (pins, winding)),
    };
    let versions = (given.from.as_str(), given.to.as_str());
    let found = match &given.keep {
        Some(name) => acts::keep_near(&mut production, versions, options, name)?,
        None => acts::recut(&production, versions, options)?,
    };
    let words = words::recut(&found, production.meta());
    let is_yes = found.work.as_ref().is_none_or(|work| work.feasible);
    Ok(Answer {
        is_yes,
        ..Answer::yes(&found, words)
    })
}
