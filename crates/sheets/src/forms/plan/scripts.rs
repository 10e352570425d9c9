//! The shooting script and the shot list of a day.

use onestrand_film::Frames;
use serde::Serialize;

use super::furniture::{count_of, film_words, plan_form, say_missing};
use crate::forms::record::{Figure, FormRecord};
use crate::plan::{ScriptedSetup, ShootingScript, ShotList, ShotToTake, times};
use crate::words;

/// What the forms call themselves.
pub(super) const SHOOTING_SCRIPT: &str = "Shooting script";
pub(super) const SHOT_LIST: &str = "Shot list";
/// The most boxes to tick in a row; more takes are written as a figure.
const MOST_BOXES: u32 = 4;

#[derive(Serialize)]
pub(super) struct ScriptRecord {
    pub(super) form: FormRecord,
    scenes: Vec<SceneRecord>,
}

#[derive(Serialize)]
struct SceneRecord {
    number: String,
    heading: String,
    sums: String,
    setups: Vec<SetupRecord>,
}

#[derive(Serialize)]
struct SetupRecord {
    name: String,
    shows: String,
    size: String,
    movement: String,
    action: String,
    sound: String,
    mover: String,
    direction: String,
    needed: String,
    seconds: String,
    takes: String,
    frames: String,
    all_frames: String,
}

pub(super) fn shooting_script(script: &ShootingScript) -> ScriptRecord {
    let head = &script.head;
    let scenes = script.scenes.iter().map(|scene| {
        let film = Frames::total(scene.setups.iter().map(ScriptedSetup::all_frames));
        SceneRecord {
            number: words::plain(&scene.number),
            heading: words::plain(&scene.heading),
            sums: format!(
                "{}, {}",
                words::counted(count_of(scene.setups.len()), "setup", "setups"),
                words::counted(film.count(), "frame", "frames"),
            ),
            setups: scene.setups.iter().map(setup_record).collect(),
        }
    });
    ScriptRecord {
        scenes: scenes.collect(),
        form: {
            let all = || script.scenes.iter().flat_map(|scene| &scene.setups);
            let mut form = plan_form(head, SHOOTING_SCRIPT, "in the order of the film", &[]);
            let film = Frames::total(all().map(ScriptedSetup::all_frames));
            let scenes = script.scenes.iter().filter(|one| !one.number.is_empty());
            let takes = all().map(|one| one.takes).fold(0, u32::saturating_add);
            form.figures = vec![
                Figure::counted(count_of(scenes.count()), "scene", "scenes"),
                Figure::counted(count_of(all().count()), "setup", "setups"),
                Figure::counted(takes, "take", "takes"),
                Figure::counted(film.count(), "frame", "frames"),
                Figure::new(film_words(head, film), "of film through the camera"),
            ];
            form.foot = vec!["Write to the setup you change; the script is mended later.".into()];
            form.totals = vec![film_words(head, film)];
            form.assumptions = vec![film_reckoned(head.speed)];
            say_missing(&mut form, head, all().flat_map(written));
            form
        },
    }
}

/// How the film of a take is reckoned.
fn film_reckoned(speed: onestrand_film::Fps) -> String {
    format!(
        "Seconds are estimates. The film of a take is its seconds at {speed} f/s, rounded up to a \
         whole frame, and its run-up and run-out, of which a title has none of its own; all takes \
         is that as often as takes are planned."
    )
}

fn written(setup: &ScriptedSetup) -> impl Iterator<Item = &str> {
    let words = [&setup.size, &setup.movement, &setup.action, &setup.sound];
    let more = [&setup.mover, &setup.direction, &setup.needed];
    words.into_iter().chain(more).map(String::as_str)
}

fn setup_record(setup: &ScriptedSetup) -> SetupRecord {
    SetupRecord {
        name: words::plain(&setup.name),
        shows: words::plain(&setup.shows),
        size: words::plain(&setup.size),
        movement: words::plain(&setup.movement),
        action: words::plain(&setup.action),
        sound: words::plain(&setup.sound),
        mover: words::plain(&setup.mover),
        direction: words::plain(&setup.direction),
        needed: words::plain(&setup.needed),
        seconds: words::plain(&setup.seconds),
        takes: words::count(setup.takes),
        frames: words::count(setup.frames.count()),
        all_frames: words::count(setup.all_frames().count()),
    }
}

#[derive(Serialize)]
pub(super) struct ShotListRecord {
    pub(super) form: FormRecord,
    groups: Vec<GroupRecord>,
}

#[derive(Serialize)]
struct GroupRecord {
    place: String,
    sums: String,
    sun: String,
    shots: Vec<ShotRecord>,
}

#[derive(Serialize)]
struct ShotRecord {
    name: String,
    view: String,
    action: String,
    needed: String,
    seconds: String,
    frames: String,
    takes: String,
    boxes: u32,
}

pub(super) fn shot_list(list: &ShotList) -> ShotListRecord {
    let film_of = |shot: &ShotToTake| times(shot.frames, shot.takes);
    let groups = list.groups.iter().map(|group| {
        let film = Frames::total(group.shots.iter().map(film_of));
        GroupRecord {
            place: words::plain(&group.place),
            sums: format!(
                "{}, {}",
                words::counted(count_of(group.shots.len()), "setup", "setups"),
                words::counted(film.count(), "frame", "frames"),
            ),
            sun: words::plain(&group.sun),
            shots: group.shots.iter().map(shot_record).collect(),
        }
    });
    let groups = groups.collect();
    ShotListRecord {
        form: shot_list_form(list, film_of),
        groups,
    }
}

fn shot_record(shot: &ShotToTake) -> ShotRecord {
    ShotRecord {
        name: words::plain(&shot.name),
        view: words::plain(&shot.view),
        action: words::plain(&shot.action),
        needed: words::plain(&shot.needed),
        seconds: words::plain(&shot.seconds),
        frames: words::count(times(shot.frames, shot.takes).count()),
        takes: words::count(shot.takes),
        boxes: shot.takes.min(MOST_BOXES),
    }
}

fn shot_list_form(list: &ShotList, film_of: impl Fn(&ShotToTake) -> Frames) -> FormRecord {
    let head = &list.head;
    let all = || list.groups.iter().flat_map(|group| &group.shots);
    let mut form = plan_form(head, SHOT_LIST, "by place and light", &care_of(list));
    let film = Frames::total(all().map(film_of));
    let takes = all().map(|shot| shot.takes).fold(0, u32::saturating_add);
    form.figures = vec![
        Figure::counted(
            count_of(list.groups.len()),
            "place and light",
            "places and lights",
        ),
        Figure::counted(count_of(all().count()), "setup", "setups"),
        Figure::counted(takes, "take", "takes"),
        Figure::counted(film.count(), "frame", "frames"),
        Figure::new(film_words(head, film), "of film"),
    ];
    form.foot = vec!["A box a take. Tick it when it is on the camera report.".to_owned()];
    form.totals = vec![film_words(head, film)];
    form.assumptions = vec![film_reckoned(head.speed)];
    let words = all().flat_map(|shot| [&*shot.view, &*shot.action, &*shot.needed]);
    let places = list
        .groups
        .iter()
        .flat_map(|group| [&*group.place, &*group.sun]);
    say_missing(&mut form, head, words.chain(places));
    form
}

/// Lamps and mains are spoken of where something is shot inside.
pub(super) fn care_of(list: &ShotList) -> Vec<&'static str> {
    let mut care = vec!["location"];
    if list.groups.iter().any(|group| group.inside) {
        care.extend(["hot_lamp", "mains"]);
    }
    care
}
