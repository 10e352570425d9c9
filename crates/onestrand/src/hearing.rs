//! Listening to sounds on the command line.

use onestrand_production::documents::{ListenAsked, ListenFor};
use onestrand_production::{self as acts, Cancel};

use crate::answer::Answer;
use crate::arguments::{ListenTo, ListenWhat};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn listen(given: ListenTo, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let sound = acts::sound_named(&production, &given.sound)?;
    let what = match given.what {
        ListenWhat::Seams { least, crossed } => ListenFor::Seams { least, crossed },
        ListenWhat::Tone { hertz } => ListenFor::Tone { hertz },
        ListenWhat::Hum { mains } => ListenFor::Hum { mains },
        ListenWhat::Strokes { marks, cut, column } => ListenFor::Strokes {
            cut: acts::version_for_sound(&production, cut.as_deref())?,
            marks,
            column: acts::column_named(&production, column.as_deref())?,
            cue: None,
        },
        ListenWhat::Beats { slowest, fastest } => ListenFor::Beats { slowest, fastest },
    };
    let asked = ListenAsked {
        from: given.from,
        to: given.to,
        what,
    };
    let found = acts::Listening::of(&production, sound, &asked)?.listen(cancel, bar)?;
    let words = words::listened(&found);
    Ok(Answer::yes(&found, words))
}
