//! The work order in words.

use onestrand_film::{Frames, Length, Shrinkage};
use onestrand_production::Meta;
use onestrand_production::documents::{AlternativeDocument, BenchDocument, StepDocument};

use super::counted;

pub(crate) fn bench(order: &BenchDocument, meta: &Meta) -> String {
    let mut lines = vec![format!(
        "{} with {}: {}, {}, {}, {}.",
        order.cut,
        order.join,
        some(order.pieces, "piece"),
        some(order.cuts, "cut"),
        some(order.joins, "join"),
        some(order.leftovers, "leftover"),
    )];
    not_proved(order, &mut lines);
    match order.feasible {
        true => the_order(order, meta, &mut lines),
        false => too_few_pins(order, &mut lines),
    }
    others(order, meta, &mut lines);
    for one in &order.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}

fn not_proved(order: &BenchDocument, lines: &mut Vec<String>) {
    let open = order.proved.iter().filter(|(_, is)| !**is);
    let rolls: Vec<&str> = open.map(|(roll, _)| roll.as_str()).collect();
    if rolls.is_empty() {
        return;
    }
    lines.push(format!(
        "NOT PROVED: nobody knows yet whether the scan shows every frame of {}. Measure the \
         film before you cut it: see `onestrand roll list`.",
        listed(&rolls)
    ));
}

fn the_order(order: &BenchDocument, meta: &Meta, lines: &mut Vec<String>) {
    let mountings = mountings(&order.steps);
    lines.push(format!("Put on {}.", put_on(order, &mountings)));
    for (turn, mounting) in mountings.iter().enumerate() {
        lines.push(format!("  {}. {}", turn + 1, mounting.words()));
    }
    let tails = from_tails(&order.tails);
    if !tails.is_empty() {
        lines.push(format!("{tails}, after it was wound through, all of it."));
    }
    let pins = match order.pins_peak.unwrap_or(0) {
        0 => "Nothing is hung on a pin".to_owned(),
        n => format!(
            "{} hang at the worst moment, of {}",
            some(n as usize, "piece"),
            some(order.pins as usize, "pin"),
        ),
    };
    let wound = order.wound_frames.unwrap_or(0);
    lines.push(format!(
        "{pins}; {}; {} frames = {} ft wound; about {:.0} minutes.",
        some(order.roll_changes.unwrap_or(0), "roll change"),
        counted(wound),
        feet(wound, meta),
        order.minutes.unwrap_or(0.0),
    ));
    lines.push(match order.best {
        true => format!(
            "Proved: with {} and {}, no order is better.",
            some(order.pins as usize, "pin"),
            way(&order.winding)
        ),
        false => format!(
            "This is a good order, but not proved the best: less than {} and {} ft wound \
             cannot be.",
            some(order.lower_bound.roll_changes, "roll change"),
            feet(order.lower_bound.wound_frames, meta),
        ),
    });
}

/// The order of the rolls in one breath; where each is put on many times, only
/// which comes first.
fn put_on<'a>(order: &BenchDocument, mountings: &[Mounting<'a>]) -> String {
    let mut seen: Vec<&str> = Vec::new();
    let one = |mounting: &Mounting<'a>| match seen.contains(&mounting.roll) {
        true => format!("{} again", mounting.roll),
        false => {
            seen.push(mounting.roll);
            mounting.roll.to_owned()
        }
    };
    let all: Vec<String> = mountings.iter().map(one).collect();
    match all.len() > 2 * order.roll_order.len() {
        true => format!("{}, and then as the list says", order.roll_order[0]),
        false => all.join(", then "),
    }
}

/// One time on the rewinds.
struct Mounting<'a> {
    roll: &'a str,
    cut_out: usize,
    hung: usize,
}

impl Mounting<'_> {
    fn words(&self) -> String {
        let pieces = some(self.cut_out, "piece");
        let hung = match self.hung {
            0 => "straight on the take-up reel".to_owned(),
            all if all == self.cut_out && all == 1 => "hung on a pin".to_owned(),
            all if all == self.cut_out => "all hung on pins".to_owned(),
            1 => "1 of them hung on a pin".to_owned(),
            n => format!("{n} of them hung on pins"),
        };
        format!("{}: {pieces}, {hung}", self.roll)
    }
}

fn mountings(steps: &[StepDocument]) -> Vec<Mounting<'_>> {
    let mut all: Vec<Mounting<'_>> = Vec::new();
    for step in steps {
        match (step.act.as_str(), step.roll.as_deref(), all.last_mut()) {
            ("mount", Some(roll), _) => all.push(Mounting {
                roll,
                cut_out: 0,
                hung: 0,
            }),
            ("hang", _, Some(now)) => {
                now.hung += 1;
                now.cut_out += 1;
            }
            // From a pin it was cut out before; leader and cards come from no roll.
            ("take_up", Some(_), Some(now)) if step.pin.is_none() => now.cut_out += 1,
            _ => {}
        }
    }
    all
}

fn too_few_pins(order: &BenchDocument, lines: &mut Vec<String>) {
    let pins = some(order.pins as usize, "pin");
    let way_asked = way(&order.winding);
    let sure = order
        .fewest_at_least
        .get(&order.winding)
        .is_some_and(|least| *least > order.pins);
    lines.push(match sure {
        true => format!("With {pins}, {way_asked}, it cannot be done: there is no work order."),
        false => format!(
            "With {pins}, {way_asked}, no work order was found. That there is none is not proved."
        ),
    });
    for (code, fewest) in &order.fewest {
        let least = order.fewest_at_least.get(code).copied().unwrap_or(0);
        let wanted = match fewest {
            0 => "no pin is wanted".to_owned(),
            n if least == *n => format!("it takes {}", some(*n as usize, "pin")),
            n => format!(
                "{} are enough, and fewer than {least} are not",
                some(*n as usize, "pin")
            ),
        };
        let option = match code.as_str() {
            "tails" => " (--tails)",
            "to_and_fro" => " (--to-and-fro)",
            _ => "",
        };
        lines.push(format!("  {}{option}: {wanted}.", capital(&way(code))));
    }
}

fn others(order: &BenchDocument, meta: &Meta, lines: &mut Vec<String>) {
    if order.alternatives.is_empty() {
        return;
    }
    lines.push(
        match order.feasible {
            true => "Other orders, each better in something:",
            false => "Orders that can be done:",
        }
        .to_owned(),
    );
    for other in &order.alternatives {
        lines.push(format!("  {}", other_words(other, meta)));
    }
}

fn other_words(other: &AlternativeDocument, meta: &Meta) -> String {
    let pins = match other.pins_peak {
        0 => "No pin".to_owned(),
        n => some(n as usize, "pin"),
    };
    let tails = from_tails(&other.tails);
    let how = match (tails.is_empty(), other.to_and_fro) {
        (_, true) => "the rolls are wound back and forth".to_owned(),
        (true, false) => "one pass a roll".to_owned(),
        (false, false) => tails,
    };
    format!(
        "{pins}, {}, {} ft wound; {how}.",
        some(other.roll_changes, "roll change"),
        feet(other.wound_frames, meta)
    )
}

fn from_tails(rolls: &[String]) -> String {
    let names: Vec<&str> = rolls.iter().map(String::as_str).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => format!("{one} is worked from its tail"),
        _ => format!("{} are worked from their tails", listed(&names)),
    }
}

fn way(code: &str) -> String {
    match code {
        "tails" => "rolls worked from head or tail",
        "to_and_fro" => "rolls wound back and forth",
        _ => "one pass a roll",
    }
    .to_owned()
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn listed(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
    }
}

fn some(count: usize, thing: &str) -> String {
    match count {
        0 => format!("no {thing}s"),
        1 => format!("1 {thing}"),
        n => format!("{} {thing}s", counted(n as u64)),
    }
}

fn feet(frames: u64, meta: &Meta) -> String {
    let count = u32::try_from(frames).ok().and_then(|n| Frames::new(n).ok());
    count.map_or_else(String::new, |n| {
        Length::by_feet(n, meta.gauge, Shrinkage::NONE).feet_text(1)
    })
}
