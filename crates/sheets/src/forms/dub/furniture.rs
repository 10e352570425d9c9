//! The furniture that forms for the dub share.

use onestrand_film::{Fps, Frames, Gauge, RunningTime};

use crate::cautions::cautions;
use crate::forms::proof::{TITLE_MOST, VERSION_MOST};
use crate::forms::record::{FormRecord, missing_words, paper_word};
use crate::plan::PlanHead;
use crate::words;

/// The furniture of a form for the dub; figures, foot and assumptions are the form's own.
pub(super) fn dub_form(
    head: &PlanHead,
    form: &'static str,
    kind: &str,
    care: &[&str],
) -> FormRecord {
    FormRecord {
        form,
        kind: kind.to_owned(),
        title: words::short(&words::plain(&head.title), TITLE_MOST),
        version: words::short(&words::plain(&head.place), VERSION_MOST),
        facts: format!(
            "{}, {} f/s",
            head.gauge.spec().name,
            speed_words(head.speed)
        ),
        day: words::short(&words::plain(&head.day), 24),
        hand: "by",
        manner: "print on one side",
        got: "How these figures were got",
        paper: paper_word(head.paper),
        figures: Vec::new(),
        not_cuttable: Vec::new(),
        not_proved: Vec::new(),
        foot: Vec::new(),
        totals: Vec::new(),
        assumptions: Vec::new(),
        in_full: in_full(head),
        cautions: cautions(care),
    }
}

/// What the running head has no room for.
fn in_full(head: &PlanHead) -> Vec<String> {
    let title = words::plain(&head.title);
    match title.chars().count() > TITLE_MOST {
        true => vec![format!("The title in full: {title}")],
        false => Vec::new(),
    }
}

/// Says which signs among a person's words could not be drawn.
pub(super) fn admit_missing(form: &mut FormRecord, said: &[&str]) {
    form.assumptions.extend(missing_words(&said.join("\n")));
}

/// A speed for the eye: whole, or to a hundredth.
pub(super) fn speed_words(speed: Fps) -> String {
    match speed.den() {
        1 => speed.to_string(),
        _ => format!("{:.2}", speed.as_f64()),
    }
}

/// A running frame for the eye: `1,728`, and before the first picture `− 12`.
pub(super) fn frame_words(frame: i64) -> String {
    let size = u32::try_from(frame.unsigned_abs()).unwrap_or(u32::MAX);
    match frame < 0 {
        true => format!("− {}", words::count(size)),
        false => words::count(size),
    }
}

/// A running frame as feet and frames: `23 ft 30 fr`; nothing where it cannot be counted.
pub(super) fn footage_words(gauge: Gauge, frame: u32) -> String {
    let frames = Frames::new(frame).ok();
    frames.map_or(String::new(), |frames| {
        words::footage(gauge.footage(frames))
    })
}

/// When a running frame comes at a speed: `2:24.4`.
pub(super) fn time_words(frame: u32, speed: Fps) -> String {
    let frames = Frames::new(frame).ok();
    frames.map_or(String::new(), |frames| {
        RunningTime::of(frames, speed).to_string()
    })
}

/// Seconds for the eye: `2:24.4`, to a tenth.
pub(super) fn seconds_words(seconds: f64) -> String {
    let tenths = (seconds.clamp(0.0, 3.6e6) * 10.0).round() as u64;
    format!("{}:{:02}.{}", tenths / 600, tenths / 10 % 60, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn seconds_carry_into_minutes() {
        assert_eq!(seconds_words(59.96), "1:00.0");
        assert_eq!(seconds_words(0.04), "0:00.0");
        assert_eq!(seconds_words(1_028.4), "17:08.4");
        assert_eq!(seconds_words(-3.0), "0:00.0");
    }

    #[test]
    fn frames_before_the_film_have_a_minus() {
        assert_eq!(frame_words(-1_012), "− 1,012");
        assert_eq!(frame_words(1_728), "1,728");
    }
}
