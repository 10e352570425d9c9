//! A film already cut, and a new version of it.

use onestrand_production::{self as acts, Cancel, RecutOptions};

use crate::answer::Answer;
use crate::arguments::Recut;
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::words;

/// What the new version costs.
pub(crate) fn recut(given: &Recut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let options = RecutOptions {
        join: given.join.map(join_kind),
        tolerance: given.tolerance,
    };
    let versions = (given.from.as_str(), given.to.as_str());
    let found = match &given.keep {
        Some(name) => acts::keep_near(&mut production, versions, options, name)?,
        None => acts::recut(&production, versions, options)?,
    };
    let words = words::recut(&found, production.meta());
    Ok(Answer::yes(&found, words))
}
