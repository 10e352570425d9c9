//! The work order of a re-cut in words: every act on a line of its own.

use onestrand_film::{Frames, Length, Shrinkage};
use onestrand_production::Meta;
use onestrand_production::documents::{RecutCornerDocument, RecutStepDocument, RecutWorkDocument};

use super::counted;
use super::recut::some;

pub(super) fn recut_work(work: &RecutWorkDocument, meta: &Meta, lines: &mut Vec<String>) {
    let pins = some(work.pins as usize, "pin");
    lines.push(format!(
        "The work with {pins}: {} opened, {}, {} made.",
        some(work.opened, "join"),
        some(work.cuts, "cut"),
        some(work.joins, "join"),
    ));
    if work.left_joined > 0 {
        lines.push(format!(
            "{} between pieces that go out may stay.",
            some(work.left_joined, "join")
        ));
    }
    match work.feasible {
        true => order(work, meta, lines),
        false => too_few(work, lines),
    }
    if !work.alternatives.is_empty() {
        lines.push("Other orders:".to_owned());
        let others = work.alternatives.iter();
        lines.extend(others.map(|other| format!("  {}", other_words(other, meta))));
    }
}

fn order(work: &RecutWorkDocument, meta: &Meta, lines: &mut Vec<String>) {
    let hang = match work.pins_peak.unwrap_or(0) {
        0 => "Nothing is hung on a pin".to_owned(),
        1 => "1 length hangs at the worst moment".to_owned(),
        n => format!("{n} lengths hang at the worst moment"),
    };
    lines.push(format!(
        "{hang}; {}; {} ft wound; about {:.0} minutes.",
        changes(work.roll_changes.unwrap_or(0)),
        feet(work.wound_frames.unwrap_or(0), meta),
        work.minutes.unwrap_or(0.0),
    ));
    lines.push(match work.best {
        true => format!(
            "Proved: with {} and {}, no order is better.",
            some(work.pins as usize, "pin"),
            way(&work.winding)
        ),
        false => "This is a good order, but not proved the best.".to_owned(),
    });
    let steps = work.steps.iter().enumerate();
    lines.extend(steps.map(|(nth, step)| format!("  {:>3}. {}", nth + 1, act(step))));
}

fn act(step: &RecutStepDocument) -> String {
    let from = match (step.reel, &step.roll) {
        (true, _) => "the made reel".to_owned(),
        (false, Some(roll)) => roll.clone(),
        (false, None) => "leader or card".to_owned(),
    };
    match step.act.as_str() {
        "mount" => format!("Put {from} on the rewinds, heads out."),
        "unmount" => format!("Take {from} off the rewinds, as it stands."),
        "wind" => format!(
            "Wind {from} towards its {} to {}.",
            step.direction.as_deref().unwrap_or("tail"),
            place(step)
        ),
        "open" => format!("Open the join {}.", opened(step)),
        "cut" => format!("Cut before {}.", place(step)),
        "hang" => format!("Hang {} on pin {}.", positions(step), step.pin.unwrap_or(0)),
        "take_up" => match step.pin {
            Some(pin) => format!(
                "Take {} from pin {pin} to the take-up reel.",
                positions(step)
            ),
            None => format!("Lead {} to the take-up reel.", positions(step)),
        },
        _ => match (step.put_back, step.position) {
            (true, _) => format!("Join back inside {}.", positions(step)),
            (false, Some(1)) => "Join it to the head leader.".to_owned(),
            (false, Some(position)) => format!("Join {} to {position}.", position - 1),
            (false, None) => "Join the tail leader.".to_owned(),
        },
    }
}

fn opened(step: &RecutStepDocument) -> String {
    match (step.opens_after, step.opens_before) {
        (Some(after), Some(before)) => format!("between the old {after} and {before}"),
        (None, Some(before)) => format!("between the head leader and the old {before}"),
        (Some(after), None) => format!("between the old {after} and the tail leader"),
        (None, None) => "with the leader".to_owned(),
    }
}

/// Frame and place. Leader has no frame names, and the end has none behind it.
fn place(step: &RecutStepDocument) -> String {
    let frame = match (&step.roll, step.frame) {
        (Some(roll), Some(frame)) => Some(format!("{roll}\u{b7}{frame}")),
        _ => None,
    };
    let at = step
        .at
        .map(|at| format!("running frame {}", counted(u64::from(at))));
    let both: Vec<String> = frame.into_iter().chain(at).collect();
    both.join(", ")
}

fn positions(step: &RecutStepDocument) -> String {
    match (step.position, step.to_position) {
        (Some(first), Some(last)) if first < last => format!("{first} to {last}"),
        (Some(first), _) => first.to_string(),
        _ => "the leader".to_owned(),
    }
}

fn too_few(work: &RecutWorkDocument, lines: &mut Vec<String>) {
    lines.push(format!(
        "With {}, {}, there is no work order.",
        some(work.pins as usize, "pin"),
        way(&work.winding)
    ));
    for (code, fewest) in &work.fewest {
        let option = match code.as_str() {
            "tails" => " (--tails)",
            "to_and_fro" => " (--to-and-fro)",
            _ => "",
        };
        let wanted = match fewest {
            0 => "no pin is wanted".to_owned(),
            n => format!("it takes {}", some(*n as usize, "pin")),
        };
        lines.push(format!("  {}{option}: {wanted}.", way(code)));
    }
}

fn way(code: &str) -> &'static str {
    match code {
        "tails" => "reel and rolls worked from head or tail",
        "to_and_fro" => "reel and rolls wound back and forth",
        _ => "one pass of reel and rolls",
    }
}

fn other_words(other: &RecutCornerDocument, meta: &Meta) -> String {
    let how = match (other.tails.is_empty(), other.to_and_fro) {
        (_, true) => "wound back and forth".to_owned(),
        (true, false) => "one pass".to_owned(),
        (false, false) => format!("{} worked from the tail", other.tails.join(", ")),
    };
    format!(
        "{}, {}, {} ft wound; {how}.",
        some(other.pins_peak as usize, "pin"),
        changes(other.roll_changes),
        feet(other.wound_frames, meta)
    )
}

fn feet(frames: u64, meta: &Meta) -> String {
    let count = u32::try_from(frames).ok().and_then(|n| Frames::new(n).ok());
    count.map_or_else(String::new, |n| {
        Length::by_feet(n, meta.gauge, Shrinkage::NONE).feet_text(1)
    })
}

/// How often something else is put on the rewinds.
fn changes(count: usize) -> String {
    match count {
        0 => "nothing else is put on the rewinds".to_owned(),
        1 => "the rewinds change once".to_owned(),
        n => format!("the rewinds change {n} times"),
    }
}
