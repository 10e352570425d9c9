//! The shooting script and the shot list, from the script of the film.

use onestrand_film::Frames;
use onestrand_sheets::{
    ScriptedScene, ScriptedSetup, ShootingScript, ShotGroup, ShotList, ShotToTake,
};

use super::places::{Placed, placed};
use super::{ScriptSheetsToPrint, sun_of_day};
use crate::documents::{SetupDocument, SetupWords};

/// Setups that belong to no scene.
const TITLES: &str = "Titles";
const WITHOUT_SCENE: &str = "Without a scene";

pub(super) fn script(gathered: &ScriptSheetsToPrint) -> ShootingScript {
    let of_scene = |number: &str| {
        let setups = gathered.script.setups.iter();
        let setups = setups.filter(|one| one.setup.scene == number);
        setups.map(scripted).collect::<Vec<_>>()
    };
    let scenes = gathered.script.scenes.iter().map(|scene| &scene.scene);
    let scenes = scenes.filter(|scene| gathered.has_scene(&scene.number));
    let mut scenes: Vec<ScriptedScene> = scenes
        .map(|scene| ScriptedScene {
            number: scene.number.clone(),
            heading: scene.heading.clone(),
            setups: of_scene(&scene.number),
        })
        .collect();
    let left = no_scene(gathered);
    for (heading, titles) in [(WITHOUT_SCENE, false), (TITLES, true)] {
        let setups = left.iter().filter(|one| one.is_title == titles);
        let setups: Vec<ScriptedSetup> = setups.map(|one| scripted(one)).collect();
        if !setups.is_empty() {
            scenes.push(ScriptedScene {
                number: String::new(),
                heading: heading.to_owned(),
                setups,
            });
        }
    }
    ShootingScript {
        head: gathered.head.clone(),
        scenes,
    }
}

/// Setups whose scene is not there, which are shot when everything is.
fn no_scene(gathered: &ScriptSheetsToPrint) -> Vec<&SetupDocument> {
    if !gathered.scenes.is_empty() {
        return Vec::new();
    }
    let scenes = &gathered.script.scenes;
    let is_there = |number: &str| scenes.iter().any(|scene| scene.scene.number == number);
    let setups = gathered.script.setups.iter();
    setups.filter(|one| !is_there(&one.setup.scene)).collect()
}

fn frames(count: u32) -> Frames {
    Frames::new(count).unwrap_or(Frames::MAX)
}

fn needed(setup: &SetupWords) -> String {
    let all = setup.cast.iter().chain(&setup.props);
    all.map(String::as_str).collect::<Vec<_>>().join(", ")
}

/// What happens in a setup: its own words, or those of the actions it shows.
pub(super) fn what_happens(gathered: &ScriptSheetsToPrint, setup: &SetupWords) -> String {
    if !setup.action.is_empty() {
        return setup.action.clone();
    }
    let scenes = gathered.script.scenes.iter();
    let actions = scenes.flat_map(|scene| &scene.scene.actions);
    let on = |name: &str| {
        setup
            .shown
            .iter()
            .any(|one| one.action == name && !one.off_camera)
    };
    let words = actions.filter(|action| on(&action.name));
    words
        .map(|action| action.text.as_str())
        .collect::<Vec<_>>()
        .join(" ")
}

fn scripted(one: &SetupDocument) -> ScriptedSetup {
    let setup = &one.setup;
    let shows: Vec<&str> = setup
        .shown
        .iter()
        .map(|shown| shown.action.as_str())
        .collect();
    ScriptedSetup {
        name: setup.name.clone(),
        shows: shows.join(", "),
        size: setup.size.clone(),
        movement: setup.movement.clone(),
        action: setup.action.clone(),
        sound: setup.sound.clone(),
        mover: setup.mover.clone(),
        direction: setup.direction.clone(),
        needed: needed(setup),
        seconds: setup.seconds.clone(),
        takes: u32::from(setup.takes),
        frames: frames(one.take_frames),
    }
}

/// A group before it is printed.
struct Group<'a> {
    placed: Placed,
    scenes: Vec<String>,
    setups: Vec<&'a SetupDocument>,
}

pub(super) fn shot_list(gathered: &ScriptSheetsToPrint) -> ShotList {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for setup in gathered.setups() {
        let number = &setup.setup.scene;
        let scenes = gathered.script.scenes.iter().map(|scene| &scene.scene);
        let Some(scene) = { scenes }.find(|scene| &scene.number == number) else {
            continue;
        };
        let placed = placed(&scene.heading);
        let same = |group: &&mut Group<'_>| {
            group.placed.words().to_lowercase() == placed.words().to_lowercase()
        };
        match groups.iter_mut().find(same) {
            Some(group) => {
                group.setups.push(setup);
                if !group.scenes.contains(number) {
                    group.scenes.push(number.clone());
                }
            }
            None => groups.push(Group {
                placed,
                scenes: vec![number.clone()],
                setups: vec![setup],
            }),
        }
    }
    // What is shot by one light stays together, in the order of the day.
    groups.sort_by_key(|group| group.placed.hour);
    let mut groups: Vec<ShotGroup> = groups
        .into_iter()
        .map(|group| printed(gathered, group))
        .collect();
    let rest = no_scene(gathered);
    if !rest.is_empty() {
        groups.push(ShotGroup {
            place: "Titles, and what has no scene".to_owned(),
            sun: String::new(),
            // They are shot at a lamp as a rule.
            inside: true,
            shots: rest.into_iter().map(|one| to_take(gathered, one)).collect(),
        });
    }
    ShotList {
        head: gathered.head.clone(),
        groups,
    }
}

fn printed(gathered: &ScriptSheetsToPrint, group: Group<'_>) -> ShotGroup {
    let many = if group.scenes.len() == 1 {
        "scene"
    } else {
        "scenes"
    };
    ShotGroup {
        place: format!(
            "{} ({many} {})",
            group.placed.words(),
            group.scenes.join(", ")
        ),
        sun: match group.placed.is_inside() {
            true => String::new(),
            false => sun_of_day::of_scenes(gathered, &group.scenes),
        },
        inside: group.placed.is_inside(),
        shots: group
            .setups
            .into_iter()
            .map(|one| to_take(gathered, one))
            .collect(),
    }
}

fn to_take(gathered: &ScriptSheetsToPrint, one: &SetupDocument) -> ShotToTake {
    let setup = &one.setup;
    let view = [setup.size.as_str(), setup.movement.as_str()];
    let view: Vec<&str> = view.into_iter().filter(|words| !words.is_empty()).collect();
    ShotToTake {
        name: setup.name.clone(),
        view: view.join(", "),
        action: what_happens(gathered, setup),
        needed: needed(setup),
        seconds: setup.seconds.clone(),
        takes: u32::from(setup.takes),
        frames: frames(one.take_frames),
    }
}
