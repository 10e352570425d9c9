//! The price of a new version in words.

use onestrand_production::Meta;
use onestrand_production::documents::{
    LostDocument, NearDocument, PriceDocument, RecutDocument, RemadeDocument,
};

use super::comparison::line;
use super::recut_work::recut_work;
use super::{counted, length};

pub(crate) fn recut(found: &RecutDocument, meta: &Meta) -> String {
    let mut lines = vec![format!(
        "{} cut anew from {} with {}: {} opened, {} made, {} kept.",
        found.to,
        found.from,
        found.join,
        some(found.opened, "join"),
        found.made,
        found.kept,
    )];
    leaders(found, &mut lines);
    if found.prices.is_empty() {
        lines.push(
            "Both are the same at the bench: nothing is opened and nothing is made.".to_owned(),
        );
    }
    if let Some(bench) = &found.from_the_bench {
        lines.push(from_the_bench(bench, &found.to));
    }
    not_proved(found, &mut lines);
    lengths(found, meta, &mut lines);
    if !found.prices.is_empty() {
        lines.push("What each change costs by itself:".to_owned());
        lines.extend(found.prices.iter().map(price));
    }
    if !found.changes.is_empty() {
        lines.push("The change list:".to_owned());
        lines.extend(found.changes.iter().map(line));
    }
    if let Some(near) = &found.near {
        cheaper(near, &mut lines);
    }
    if let Some(name) = &found.kept_as {
        lines.push(format!(
            "The last of these is kept as {name}. Next: onestrand check DIR --cut {name}"
        ));
    }
    if let Some(work) = &found.work {
        recut_work(work, meta, &mut lines);
    }
    for one in &found.assumptions {
        lines.push(format!("  taken: {one}"));
    }
    lines.join("\n")
}

/// What was really made counts, where it is known.
fn from_the_bench(bench: &RemadeDocument, to: &str) -> String {
    let missing = match bench.missing {
        0 => String::new(),
        n => format!(", {} wanted that cannot be had any more", some(n, "frame")),
    };
    format!(
        "From the bench, where {} is made: {} opened, {} made, {} kept, leaders counted; {} lost\
         {missing}; {} long; {} on {}.\nNext: onestrand work begin DIR --cut {to} leads it act by act.",
        bench.from,
        some(bench.opened, "join"),
        bench.made,
        bench.kept,
        some(bench.lost, "frame"),
        some(usize::try_from(bench.frames).unwrap_or(usize::MAX), "frame"),
        some(bench.cuts, "cut"),
        some(bench.pins as usize, "pin"),
    )
}

fn leaders(found: &RecutDocument, lines: &mut Vec<String>) {
    if found.leader_opened + found.leader_made > 0 {
        lines.push(format!(
            "With the leaders: {} opened, {} made.",
            some(found.leader_opened, "join"),
            found.leader_made
        ));
    }
    if found.put_back > 0 {
        let places = match found.put_back {
            1 => "at 1 place".to_owned(),
            n => format!("at {n} places"),
        };
        lines.push(format!(
            "Inside pieces, film is joined back {places} where it was cut before; a join is seen \
             there."
        ));
    }
}

fn not_proved(found: &RecutDocument, lines: &mut Vec<String>) {
    let open = found.proved.iter().filter(|(_, is)| !**is);
    let rolls: Vec<&str> = open.map(|(roll, _)| roll.as_str()).collect();
    if !rolls.is_empty() {
        lines.push(format!(
            "NOT PROVED: nobody knows yet whether the scan shows every frame of {}. See \
             `onestrand roll list`.",
            rolls.join(", ")
        ));
    }
}

fn lengths(found: &RecutDocument, meta: &Meta, lines: &mut Vec<String>) {
    let planned = length(found.planned_frames, meta);
    match found.lost {
        0 => lines.push(format!("No frame of it is lost: {planned}.")),
        n => {
            lines.push(format!(
                "{} of it are lost for good: {}.",
                some(n, "frame"),
                named(&found.lost_film)
            ));
            lines.push(format!(
                "It will be {}; planned were {}.",
                length(found.real_frames, meta),
                counted(u64::from(found.planned_frames)),
            ));
        }
    }
    if found.lost_outs > 0 {
        lines.push(format!(
            "{} of what is lifted are lost too: {}.",
            some(found.lost_outs, "frame"),
            named(&found.lost_outs_film)
        ));
    }
}

fn price(price: &PriceDocument) -> String {
    let mut told = format!(
        "  {}: {} opened, {} made, {} lost",
        price.change,
        price.opened,
        price.made,
        some(price.lost, "frame"),
    );
    if price.leader_opened + price.leader_made > 0 {
        told.push_str(&format!(
            "; with the leaders {} opened, {} made",
            price.leader_opened, price.leader_made
        ));
    }
    if price.put_back > 0 {
        told.push_str(&format!("; {} joined back inside", price.put_back));
    }
    told
}

/// Versions near the new one that cost less.
fn cheaper(near: &NearDocument, lines: &mut Vec<String>) {
    let within = some(near.tolerance as usize, "frame");
    if near.found.is_empty() {
        lines.push(match near.best {
            true => format!("Within {within} nothing is cheaper; that is proved."),
            false => format!("Within {within} nothing cheaper was found; it is not proved."),
        });
        return;
    }
    lines.push(format!(
        "Cheaper, when pieces may begin and end up to {within} elsewhere:"
    ));
    for version in &near.found {
        let leaders = version.leader_opened + version.leader_made;
        let leaders = match leaders {
            0 => String::new(),
            n => format!(", {n} at the leaders"),
        };
        lines.push(format!(
            "  within {}: {} opened, {} made{leaders}, {} lost; {} frames",
            some(version.tolerance as usize, "frame"),
            version.opened,
            version.made,
            some(version.lost, "frame"),
            counted(u64::from(version.real_frames)),
        ));
        let shifts = version.shifts.iter();
        lines.extend(shifts.map(|shift| format!("      {}", shift.words)));
    }
    lines.push(match near.best {
        true => "  Proved: nothing else within these frames is cheaper than the last.".to_owned(),
        false => "  That nothing else near is cheaper is not proved.".to_owned(),
    });
}

/// `R2·2485 to 2486`.
fn named(lost: &[LostDocument]) -> String {
    let one = |lost: &LostDocument| {
        let last = lost.thrown.saturating_sub(1);
        match last == lost.first {
            true => format!("{}\u{b7}{last}", lost.roll),
            false => format!("{}\u{b7}{} to {last}", lost.roll, lost.first),
        }
    };
    let all: Vec<String> = lost.iter().map(one).collect();
    all.join(", ")
}

pub(super) fn some(count: usize, thing: &str) -> String {
    match count {
        0 => format!("no {thing}s"),
        1 => format!("1 {thing}"),
        n => format!("{} {thing}s", counted(n as u64)),
    }
}
