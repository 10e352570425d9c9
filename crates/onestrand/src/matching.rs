//! The commands that lay takes of the same action beside each other.

use onestrand_production::documents::MatchedTake;
use onestrand_production::{
    self as acts, Cancel, FilmChange, MarkMoments, MarkedFrames, MatchRequest, Production,
    ProductionError, TakePlace, TwinSearch, Workprints,
};

use crate::answer::Answer;
use crate::arguments::{FindTwins, MatchTakes};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::in_the_hand::{keep, take_named, unfit};
use crate::words;

pub(crate) fn match_takes(given: &MatchTakes, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let mut production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let marks = given.marks.iter().map(|text| mark(text));
    let marks: Vec<(u32, u32)> = marks.collect::<Result<_, _>>()?;
    let (from, to) = (
        place(&production, &given.from)?,
        place(&production, &given.to)?,
    );
    if given.keep {
        keep_marks(&mut production, (&from, &to), &marks)?;
    }
    let request = MatchRequest {
        from,
        to,
        marks: if given.keep { Vec::new() } else { marks },
        by_pictures: given.by_pictures,
        look: false,
        leave: given.leave.map(|frame| (frame, frame.saturating_add(1))),
        enter: None,
        sheet: None,
    };
    let found = acts::match_takes(&production, &mut prints, &request, cancel, bar)?;
    if let Some(why) = &found.cannot_tell {
        let hint = format!("{}: --mark FRAME=FRAME, twice", why.hint);
        return Err(unfit(why.message.clone(), &hint));
    }
    let words = words::matched(&found);
    Ok(Answer::yes(&found, words))
}

pub(crate) fn find_twins(given: &FindTwins, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let mut prints = Workprints::open(production.dir())?;
    let of = given.of.as_deref();
    let of = of.map(|take| place(&production, take)).transpose()?;
    TwinSearch::new(&production, of.as_ref())?.look(&mut prints, cancel, bar)?;
    let mut found = acts::twins_document(&production, &mut prints)?;
    if let Some(of) = &of {
        let is = |take: &MatchedTake| take.roll == of.roll && take.first == of.first;
        found.pairs.retain(|pair| is(&pair.from) || is(&pair.to));
    }
    let words = words::twins(&found);
    Ok(Answer::yes(&found, words))
}

fn place(production: &Production, take: &str) -> Result<TakePlace, ProductionError> {
    let (roll, first) = take_named(production, take)?;
    Ok(TakePlace { roll, first })
}

fn keep_marks(
    production: &mut Production,
    (from, to): (&TakePlace, &TakePlace),
    marks: &[(u32, u32)],
) -> Result<(), ProductionError> {
    let [first, second] = marks else {
        return Err(unfit(
            format!("{} of two pairs of marks", marks.len()),
            "two are needed: --mark FRAME=FRAME, twice",
        ));
    };
    let frames = |of: &TakePlace, (first, second): (u32, u32)| MarkedFrames {
        roll: of.roll.clone(),
        first,
        second,
    };
    let change = FilmChange::MarkMoments(MarkMoments {
        here: frames(from, (first.0, second.0)),
        there: frames(to, (first.1, second.1)),
    });
    keep(production, &change).map(|_words| ())
}

fn mark(text: &str) -> Result<(u32, u32), ProductionError> {
    let pair = text.split_once('=').and_then(|(here, there)| {
        let frame = |text: &str| text.trim().parse().ok();
        frame(here).zip(frame(there))
    });
    pair.ok_or_else(|| {
        unfit(
            format!("{text} is no pair of frames"),
            "write it as 2923=531: a frame of the take that is left, and the same moment in the other",
        )
    })
}
