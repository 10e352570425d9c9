//! Script and plan in words.

use onestrand_production::Meta;
use onestrand_production::documents::{
    CoverageDocument, InCameraDocument, OneMoreTakeDocument, PackedRollDocument, PlanDocument,
    RetakeDocument, ScriptDocument, ScriptImported,
};

use super::{counted, length};

pub(crate) fn script_imported(done: &ScriptImported) -> String {
    let what = match done.kind.as_str() {
        "screenplay" => "a screenplay",
        "wild_sounds" => "a list of wild sounds",
        "camera_report" => return report_brought(done),
        _ => "a table of setups",
    };
    let mut lines = vec![format!(
        "Read {what}. The script has {}, {}, {} and {} now.",
        some(done.scenes, "scene"),
        some(done.actions, "action"),
        some(done.setups, "setup"),
        some(done.wild_sounds, "wild sound"),
    )];
    lines.extend(remarks(done));
    lines.join("\n")
}

fn report_brought(done: &ScriptImported) -> String {
    let takes = some(done.takes, "take");
    let mut lines = vec![format!(
        "Read a camera report: {takes}, counters and all, on their rolls."
    )];
    lines.extend(remarks(done));
    lines.join("\n")
}

fn remarks(done: &ScriptImported) -> Vec<String> {
    let mut lines = Vec::new();
    if !done.unknown_columns.is_empty() {
        let columns = done.unknown_columns.join(", ");
        lines.push(format!("  kept in the notes: {columns}"));
    }
    lines.extend(done.remarks.iter().map(|remark| format!("  {remark}")));
    lines
}

pub(crate) fn script(script: &ScriptDocument) -> String {
    let mut lines = Vec::new();
    for scene in &script.scenes {
        lines.push(format!("{}  {}", scene.scene.number, scene.scene.heading));
        for action in &scene.scene.actions {
            let speaker = action.speaker.as_ref();
            let speaker = speaker.map_or(String::new(), |who| format!("{who}: "));
            let text = action.text.replace('\n', " ");
            let by = script.planned.by_action.iter();
            let by = by
                .filter(|one| one.action == action.name)
                .flat_map(|one| &one.by);
            let by: Vec<String> = by.map(|by| format!("{}x{}", by.setup, by.takes)).collect();
            let by = match by.is_empty() {
                true => "nothing shows it".to_owned(),
                false => by.join(" "),
            };
            lines.push(format!("    {:4} {speaker}{text}  [{by}]", action.name));
        }
    }
    lines.extend(coverage("Planned", &script.planned));
    lines.extend(script.shot.iter().flat_map(|shot| coverage("Shot", shot)));
    for one in &script.problems {
        lines.push(format!("  to put right: {}: {}", one.place, one.message));
    }
    lines.join("\n")
}

pub(crate) fn plan(plan: &PlanDocument, meta: &Meta) -> String {
    let mut lines = vec![format!(
        "{}: {}, on {} of {} usable frames each.",
        some(plan.takes as usize, "take"),
        length(plan.frames, meta),
        some(plan.rolls, "roll"),
        counted(u64::from(plan.stock.load)),
    )];
    for (nth, roll) in plan.by_roll.iter().enumerate() {
        lines.push(format!("  {}. {}", nth + 1, on_roll(roll)));
    }
    lines.push(match plan.moved {
        0 => "In the order of the script.".to_owned(),
        n => format!(
            "{} shot out of the order of the script, marked *.",
            some(n, "setup")
        ),
    });
    lines.push(proof(plan));
    let order = &plan.script_order;
    let laid: Vec<String> = order
        .frames
        .iter()
        .map(|n| counted(u64::from(*n)))
        .collect();
    lines.push(format!(
        "Take by take as the script stands: {} ({}).",
        some(order.rolls, "roll"),
        laid.join(" / ")
    ));
    lines.extend(money(plan));
    for over in &plan.over_wound {
        lines.push(format!(
            "  {} runs {} frames beyond one wind of the motor: divide the action, or wind on.",
            over.setup, over.over
        ));
    }
    lines.extend(coverage("Planned", &plan.coverage));
    lines.extend(plan.shot.iter().flat_map(|shot| coverage("Shot", shot)));
    lines.extend(plan.retakes.iter().flat_map(retake));
    lines.extend(plan.one_more.iter().map(one_more));
    lines.extend(plan.in_camera.iter().flat_map(in_camera));
    lines.join("\n")
}

fn proof(plan: &PlanDocument) -> String {
    let rolls = match plan.rolls == plan.rolls_at_least {
        true => "No plan needs fewer rolls".to_owned(),
        false => format!("At least {} are needed", some(plan.rolls_at_least, "roll")),
    };
    match (
        plan.moved == plan.moved_at_least,
        plan.rolls == plan.rolls_at_least,
    ) {
        (true, true) => format!("{rolls}, and none on as many moves fewer setups: proved."),
        (true, false) => format!("{rolls}; on as many none moves fewer setups."),
        (false, _) => format!(
            "{rolls}; at least {} are moved on as many.",
            some(plan.moved_at_least, "setup")
        ),
    }
}

fn on_roll(roll: &PackedRollDocument) -> String {
    let setup = |block: &onestrand_production::documents::PackedSetupDocument| {
        let star = if block.moved { "*" } else { "" };
        let part = block.part.as_ref();
        let part = part.map_or(String::new(), |part| format!(" ({part})"));
        format!("{}{star}{part}", block.setup)
    };
    let setups: Vec<String> = roll.blocks.iter().map(setup).collect();
    format!(
        "{}: {} frames, {} to spare",
        setups.join(" "),
        counted(u64::from(roll.frames)),
        counted(u64::from(roll.spare))
    )
}

fn money(plan: &PlanDocument) -> Vec<String> {
    let mut lines = vec![format!("The rolls last {} on the screen.", plan.lasts)];
    if let Some(ratio) = &plan.ratio {
        lines.push(format!("Shot against shown: {ratio}."));
    }
    if plan.cost.whole > 0 {
        let coins = |coins: u64| format!("{}.{:02} {}", coins / 100, coins % 100, plan.cost.money);
        let second = plan.cost.shown_second.map_or(String::new(), |second| {
            format!(", a second on the screen {}", coins(second).trim_end())
        });
        let whole = coins(plan.cost.whole);
        lines.push(format!("It costs {}{second}.", whole.trim_end()));
    }
    lines
}

fn coverage(what: &str, coverage: &CoverageDocument) -> Vec<String> {
    let mut lines = vec![format!(
        "{what}: {} of {} actions covered, {} by one setup only, {} by one take only; \
         {} setups tell it all ({}).",
        coverage.covered,
        coverage.actions,
        coverage.single_setup.len(),
        coverage.single_take.len(),
        coverage.fewest_setups,
        coverage.example.join(" "),
    )];
    if coverage.setups_at_least < coverage.fewest_setups {
        let least = coverage.setups_at_least;
        lines.push(format!("  not proved fewest: at least {least} are needed"));
    }
    for (words, actions) in [
        ("nothing shows", &coverage.uncovered),
        ("one take only", &coverage.single_take),
    ] {
        if !actions.is_empty() {
            lines.push(format!("  {words}: {}", actions.join(", ")));
        }
    }
    lines
}

fn retake(retake: &RetakeDocument) -> Vec<String> {
    let actions = retake.actions.join(" and ");
    let mut lines = vec![format!(
        "{actions}: one take of {}. Again? It needs {} frames.",
        retake.setup,
        counted(u64::from(retake.needs))
    )];
    for on in &retake.on {
        let left = counted(u64::from(on.left));
        lines.push(match (on.left_after, on.short_by) {
            (None, _) => format!("  {}: {left} left, it does not fit.", on.roll),
            (Some(after), 0) => format!("  {}: {left} left, {after} after it.", on.roll),
            (Some(after), short) => format!(
                "  {}: {left} left, {after} after it: {short} short of {}, which is still to be shot.",
                on.roll,
                retake.still.join(", ")
            ),
        });
    }
    lines
}

fn one_more(more: &OneMoreTakeDocument) -> String {
    let rolls = match more.rolls_more {
        0 => format!("{} to spare afterwards", counted(u64::from(more.spare))),
        n => format!("{} more", some(n, "roll")),
    };
    format!(
        "One more take of {} ({} frames): {rolls}, {} moved.",
        more.setup,
        more.frames,
        some(more.moved, "setup")
    )
}

fn in_camera(film: &InCameraDocument) -> Vec<String> {
    let mut lines = vec![format!(
        "Cut in the camera: {} frames on the screen, {}, on {}.",
        counted(u64::from(film.frames)),
        film.clock,
        some(film.rolls.len(), "roll")
    )];
    for step in &film.steps {
        lines.push(match step.act.as_str() {
            "load" => format!("  roll {}: load it, the counter at 0", step.roll),
            "wind_back" => format!(
                "  lens covered, wind back from {} to {}",
                step.from, step.to
            ),
            _ => {
                let fade = |words: &str, frames: u32| match frames {
                    0 => String::new(),
                    n => format!(", {words} over {n}"),
                };
                format!(
                    "  {}: {} to {}{}{}",
                    step.shot.as_deref().unwrap_or(""),
                    step.from,
                    step.to,
                    fade("light up", step.fade_in),
                    fade("light down", step.fade_out)
                )
            }
        });
    }
    lines
}

fn some(count: usize, what: &str) -> String {
    match count {
        1 => format!("1 {what}"),
        n => format!("{} {what}s", counted(n as u64)),
    }
}
