//! A film already cut, and a new version of it.

use onestrand_production::{self as acts, Cancel, RecutOptions};

use crate::answer::Answer;
use crate::arguments::Recut;
use crate::bar::Bar;
use crate::commands::{Outcome, join_kind, open};
use crate::words;

/// What the new version costs.
pub(crate) fn recut(given: &Recut, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let options = RecutOptions {
        join: given.join.map(join_kind),
    };
    let found = acts::recut(&production, (&given.from, &given.to), options)?;
    let words = words::recut(&found, production.meta());
    Ok(Answer::yes(&found, words))
}
