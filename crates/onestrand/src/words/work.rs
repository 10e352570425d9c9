//! The bench in words.

use onestrand_production::documents::{
    BenchActDocument, BenchRoomDocument, LandmarkCountDocument, MeaningDocument, OnTheBenchDocument,
};

/// The bench as it is.
pub(crate) fn bench(room: &BenchRoomDocument) -> String {
    match &room.on_the_bench {
        Some(on) => on_the_bench(on),
        None => nothing(room),
    }
}

fn nothing(room: &BenchRoomDocument) -> String {
    let mut told = vec!["no version is on the bench".to_owned()];
    for version in &room.versions {
        told.push(match &version.why_not {
            None => format!("  {}: can be begun", version.name),
            Some(why) => format!("  {}: {why}", version.name),
        });
    }
    told.join("\n")
}

fn on_the_bench(on: &OnTheBenchDocument) -> String {
    let mut told = vec![format!(
        "{} on the bench: cuts {} of {}, joins {} of {}, pins {} of {}, wound {} of {}",
        on.cut,
        on.cuts.done,
        on.cuts.all,
        on.joins.done,
        on.joins.all,
        on.pins_taken.done,
        on.pins_taken.all,
        on.wound.done,
        on.wound.all
    )];
    told.push(match on.frames == on.planned_frames {
        true => format!("{} frames, as planned", on.frames),
        false => format!("{} frames; {} were planned", on.frames, on.planned_frames),
    });
    if on.wrong_joins > 0 {
        told.push(format!(
            "{} joins on the reel are not as {} has them; `onestrand work mend` has them made anew",
            on.wrong_joins, on.cut
        ));
    }
    if let Some(act) = on.acts.first() {
        told.extend(next(act));
    } else if on.done {
        told.push("the tail leader is joined: it is done".to_owned());
    }
    if let Some(waits) = &on.waits {
        told.push(format!("WAITS: {} {}", waits.why, waits.hint));
    }
    told.join("\n")
}

fn next(act: &BenchActDocument) -> Vec<String> {
    let mut told = vec![
        format!(
            "next, {} {} of {}: {}",
            act.act, act.number, act.of, act.title
        ),
        format!("  {}", act.what),
    ];
    if let Some(card) = &act.card {
        let place = match card.this_end.as_str() {
            "tail" => &card.tail,
            _ => &card.head,
        };
        told.extend(
            place
                .chain
                .iter()
                .map(|c| format!("  from the {}", count(c))),
        );
        let nearer = place.nearer.as_ref();
        told.extend(nearer.map(|c| format!("  or from {}", count(c))));
        told.push(format!("  {}", place.doubt));
    }
    told.extend(act.destroys.as_ref().map(|d| format!("  {d}")));
    told.extend(act.then.as_ref().map(|t| format!("  {t}")));
    told
}

fn count(count: &LandmarkCountDocument) -> String {
    format!(
        "{} at {}: count {} = {} ft {} fr = {} mm towards the {}",
        count.from, count.at, count.frames, count.feet, count.feet_frames, count.mm, count.towards
    )
}

/// What a report means.
pub(crate) fn meaning(meaning: &MeaningDocument) -> String {
    let all = [&meaning.picture, &meaning.sound, &meaning.work];
    let told: Vec<&str> = all.into_iter().flatten().map(String::as_str).collect();
    told.join("\n")
}
