//! The digital finish on the command line.

use onestrand_production::{self as acts, Cancel, FinishRequest, TreatmentChoice};

use crate::answer::Answer;
use crate::arguments::Finish;
use crate::bar::Bar;
use crate::commands::{Outcome, open};

pub(crate) fn finish(given: Finish, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let request = FinishRequest {
        file_rate: given.file_rate,
        whole: given.whole,
        sound: given.sound,
        black_cards: given.black_cards,
        treat: TreatmentChoice {
            light: given.light,
            steady: given.steady,
            flicker: given.flicker,
        },
        list: given.list,
        captions: given.captions,
        ..FinishRequest::plain(&given.cut, &given.out)
    };
    let made = acts::finish(&mut production, request, cancel, bar)?;
    let words = acts::finish_words(&made);
    Ok(Answer::yes(&made, words))
}
