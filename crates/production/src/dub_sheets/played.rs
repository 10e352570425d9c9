//! What hands and machines do: the hand score and the table of the tape's counter.

use onestrand_dub::{TapeFit, Timing, fit_tape};
use onestrand_sheets::{HandMove, HandScore, TapeCount, TapeTable};

use super::{DubSheetsToPrint, db, frame_on_paper};
use crate::ProductionError;
use crate::documents::{CueDocument, HandMoveDocument};
use crate::error::unfit;

/// Steps between the even counts of a table; the smallest that gives few enough rows.
const STEPS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
/// Most rows of even counts.
const EVEN_ROWS: f64 = 60.0;

pub(super) fn score(all: &DubSheetsToPrint) -> HandScore {
    let hands = &all.dub.hands;
    HandScore {
        head: all.head.clone(),
        true_speed: all.true_speed,
        hands: hands.hands,
        moves: moves(all),
        most: (hands.most, hands.most_at.map_or(0, frame_on_paper)),
        remedies: remedies(all),
    }
}

/// The moves of the faders that lie on the film.
pub(super) fn moves(all: &DubSheetsToPrint) -> Vec<HandMove> {
    let on_film = all.dub.hands.moves.iter().filter(|m| m.to > 0);
    let one = |m: &HandMoveDocument| HandMove {
        what: m.what.clone(),
        fader: fader(all, m.column),
        from: frame_on_paper(m.from),
        to: frame_on_paper(m.to),
        levels: levels(all, m),
    };
    on_film.map(one).collect()
}

/// The fader of a column: its tape's, where it is laid on one beforehand.
fn fader(all: &DubSheetsToPrint, column: i64) -> String {
    let Some(known) = all.column(column) else {
        return String::new();
    };
    match known.column.tape.trim() {
        "" => known.column.name.clone(),
        tape => format!("tape {tape}"),
    }
}

fn levels(all: &DubSheetsToPrint, m: &HandMoveDocument) -> (Option<f64>, Option<f64>) {
    let mut cues = all.dub.cues.iter();
    let Some(cue) = cues.find(|cue| cue.id == m.cue) else {
        return (None, None);
    };
    let words = &cue.cue;
    let end = cue.at + i64::from(cue.frames);
    let inside = |frames: u32| i64::from(frames.min(cue.frames));
    if words.fade_in.frames > 0 && (m.from, m.to) == (cue.at, cue.at + inside(words.fade_in.frames))
    {
        return (None, Some(level_at(cue, m.to)));
    }
    if words.fade_out.frames > 0 && (m.from, m.to) == (end - inside(words.fade_out.frames), end) {
        return (Some(level_at(cue, m.from)), None);
    }
    (Some(level_at(cue, m.from)), Some(level_at(cue, m.to)))
}

/// The level of a cue at a running frame, its own and its line's together, straight between
/// two handles. Unit: dB.
fn level_at(cue: &CueDocument, frame: i64) -> f64 {
    let (line, own) = (&cue.cue.line, db(cue.cue.level));
    let at = (frame - cue.at) as f64;
    let Some(first) = line.first() else {
        return own;
    };
    let mut level = db(first.level);
    for two in line.windows(2) {
        let (from, to) = (f64::from(two[0].at), f64::from(two[1].at));
        if at < from {
            break;
        }
        let part = match to > from {
            true => ((at - from) / (to - from)).clamp(0.0, 1.0),
            false => 1.0,
        };
        level = db(two[0].level) + part * (db(two[1].level) - db(two[0].level));
    }
    own + level
}

/// What would make the score playable.
fn remedies(all: &DubSheetsToPrint) -> Vec<String> {
    let hands = &all.dub.hands;
    if hands.lay_together.is_empty() {
        let enough = hands.too_many.is_empty();
        let none = "No columns laid on one tape beforehand would make the hands enough: \
                    move a fade, or ask another person to the faders.";
        return (!enough).then(|| none.to_owned()).into_iter().collect();
    }
    let named = hands.lay_together.iter();
    let named = named.filter_map(|id| Some(all.column(*id)?.column.name.as_str()));
    let named: Vec<&str> = named.collect();
    vec![format!(
        "Lay {} on one tape beforehand: {} at once at the most then.",
        and(&named),
        hands.most_then
    )]
}

/// `river, engine and music`.
fn and(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// The law of the tape's counter out of its timings.
pub(super) fn law(all: &DubSheetsToPrint) -> Result<TapeFit, ProductionError> {
    let timings = all.timings.as_ref().ok_or_else(|| {
        unfit(
            "there are no timings of the tape's counter".to_owned(),
            "time it at three counts or more and give them as a form: count,seconds",
        )
    })?;
    let pair = |(count, seconds): &(f64, f64)| Timing {
        count: *count,
        seconds: *seconds,
    };
    let pairs: Vec<Timing> = timings.iter().map(pair).collect();
    fit_tape(&pairs).map_err(|why| unfit(why.to_string(), why.hint()))
}

/// The table of the tape's counter, from the first picture on.
pub(super) fn tape(all: &DubSheetsToPrint) -> Result<TapeTable, ProductionError> {
    let law = law(all)?;
    let speed = all.true_speed.as_f64();
    let row = |count: f64, seconds: f64, cue: String| TapeCount {
        count,
        seconds,
        frame: frame_at(all, seconds),
        frames_a_count: law.seconds_a_count(count) * speed,
        cue,
    };
    let last = law.count(f64::from(all.dub.frames) / speed);
    let step = STEPS.iter().find(|step| last / **step <= EVEN_ROWS);
    let step = step.copied().unwrap_or_else(|| (last / EVEN_ROWS).ceil());
    let even = (last / step).floor() as u32;
    let mut rows: Vec<TapeCount> = (0..=even)
        .map(|nth| f64::from(nth) * step)
        .map(|count| row(count, law.seconds(count), String::new()))
        .collect();
    let on_film = all.placed().filter(|cue| cue.at >= 0);
    rows.extend(on_film.map(|cue| {
        let seconds = cue.at as f64 / speed;
        row(law.count(seconds), seconds, all.name_of(cue))
    }));
    rows.sort_by(|a, b| a.count.total_cmp(&b.count));
    Ok(TapeTable {
        head: all.head.clone(),
        tape: all.tape.clone(),
        law: (law.a, law.b),
        timings: all.timings.clone().unwrap_or_default(),
        true_speed: all.true_speed,
        rows,
    })
}

/// The running frame that stands in the gate then; none behind the last.
fn frame_at(all: &DubSheetsToPrint, seconds: f64) -> Option<u32> {
    // A cue's own frame must come back as itself: what is lost in its seconds is far less
    // than a thousandth of a frame.
    let frame = (seconds * all.true_speed.as_f64() + 1e-3).floor();
    (frame >= 0.0 && frame < f64::from(all.dub.frames)).then_some(frame as u32)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_joined_as_one_says_them() {
        assert_eq!(and(&[]), "");
        assert_eq!(and(&["river"]), "river");
        assert_eq!(
            and(&["river", "engine", "music"]),
            "river, engine and music"
        );
    }
}
