//! The work order and the outs list as tables.

use onestrand_sheets::{Edge, OutsList, Pin, StripEnd, WorkOrderSheet};

use crate::sheet_csv::{feet, written};

/// A row a strip, then one for each strip that comes off a pin after it.
const ORDER: [&str; 16] = [
    "number",
    "act",
    "roll",
    "wind",
    "landmark",
    "landmark_frame",
    "count_to_first_end",
    "first_end",
    "cut_out",
    "in",
    "out",
    "frames",
    "pin",
    "position",
    "last_position",
    "through_first",
];

/// `in` and `out` are the first frame kept and the first after them; `cut_out` counts
/// what the joins eat as well. A strip is taken on the act `hang` or `take_up`; what
/// comes off a pin then, or lies ready, is taken up on a row of its own.
pub(crate) fn order_csv(order: &WorkOrderSheet) -> String {
    let mut rows = Vec::new();
    let taken = |taken: &onestrand_sheets::TakenUp| {
        let mut row: [String; 16] = std::array::from_fn(|_| String::new());
        row[1] = "take_up".to_owned();
        row[4] = taken.words.clone();
        row[12] = taken.pin.map(|pin| pin.to_string()).unwrap_or_default();
        row[13] = taken.position.to_string();
        row
    };
    rows.extend(order.before.iter().map(taken));
    let mut number = 0;
    for mount in &order.mounts {
        for (place, strip) in mount.strips.iter().enumerate() {
            number += 1;
            let last = strip.way.last().filter(|_| strip.first_edge == Edge::Cut);
            let (act, pin) = match strip.pin {
                Pin::Number(pin) => ("hang", pin.to_string()),
                _ => ("take_up", String::new()),
            };
            let through = mount.through.filter(|_| place == 0);
            rows.push([
                number.to_string(),
                act.to_owned(),
                mount.roll.to_string(),
                strip.wind.frames().to_string(),
                last.map(|way| way.words.clone()).unwrap_or_default(),
                last.map(|way| way.at.to_string()).unwrap_or_default(),
                last.map(|way| way.count.frames().to_string())
                    .unwrap_or_default(),
                match strip.first {
                    StripEnd::Head => "head",
                    StripEnd::Tail => "tail",
                }
                .to_owned(),
                strip.cut.len().to_string(),
                strip.kept.begin().to_string(),
                strip.kept.end().to_string(),
                strip.kept.len().to_string(),
                pin,
                strip.position.to_string(),
                strip.last_position.to_string(),
                through.map(|at| at.to_string()).unwrap_or_default(),
            ]);
            rows.extend(strip.then.iter().map(taken));
        }
    }
    written(&ORDER, rows)
}

const OUTS: [&str; 10] = [
    "number",
    "reel",
    "roll",
    "in",
    "out",
    "frames",
    "length",
    "lies_at",
    "lies_at_frame",
    "holds",
];

/// A row a stretch; where it lies counts from the head of its outs reel.
pub(crate) fn outs_csv(list: &OutsList) -> String {
    let mut rows = Vec::new();
    for reel in &list.reels {
        let gauge = list.head.gauge_of(&reel.roll);
        for out in &reel.outs {
            rows.push([
                (rows.len() + 1).to_string(),
                format!("Outs {}", reel.roll),
                reel.roll.to_string(),
                out.frames.begin().to_string(),
                out.frames.end().to_string(),
                out.frames.len().to_string(),
                feet(gauge, out.frames.len().count()),
                feet(gauge, out.starts.count()),
                out.starts.to_string(),
                out.words.clone(),
            ]);
        }
    }
    written(&OUTS, rows)
}
