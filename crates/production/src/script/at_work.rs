//! Changes of the script, worked out against the script as it is.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_plan::is_title;
use onestrand_store::{
    Act, Production, SceneRecord, ScriptPart, ScriptRecord, SetupRecord, StoreError,
};

use super::changes::{ScriptChange, seconds_fit, short};
use super::kept::{Kept, KeptScript};
use super::letters::{lettered, next_scene, next_setup, with_actions};
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{SceneWords, SetupWords};
use crate::error::unfit;
use crate::list_places::{anew, between};

/// A change being worked out against the script as it is.
pub(super) struct Work<'a> {
    production: &'a Production,
    kept: &'a KeptScript,
}

impl<'a> Work<'a> {
    pub(super) const fn on(production: &'a Production, kept: &'a KeptScript) -> Self {
        Self { production, kept }
    }

    pub(super) fn scene(
        &self,
        change: &ScriptChange,
        words: &SceneWords,
    ) -> Result<(String, Act), ProductionError> {
        text_fits("heading", &words.heading)?;
        for action in &words.actions {
            text_fits("action", &action.text)?;
        }
        let others = self.kept.scenes.iter().filter(|s| Some(s.id) != change.id);
        let taken: BTreeSet<String> = others.map(|s| s.it.number.to_uppercase()).collect();
        let number = match words.number.trim() {
            "" => next_scene(taken.iter().map(String::as_str)),
            number => number.to_owned(),
        };
        let before = change
            .id
            .and_then(|id| self.kept.scenes.iter().find(|s| s.id == id));
        // A number that came with a screenplay may be of another kind; it stays.
        if before.is_none_or(|before| before.it.number != number) {
            scene_number_fits(&number)?;
        }
        if taken.contains(&number.to_uppercase()) {
            return Err(unfit(
                format!("there is a scene {number} already"),
                "give one of them another number",
            ));
        }
        let (actions, now) = lettered(&number, &words.actions);
        let scene = SceneRecord {
            number: number.clone(),
            heading: words.heading.trim().to_owned(),
            actions,
            note: words.note.clone(),
        };
        let mut acts = Vec::new();
        if let Some(before) = before {
            acts = self.setups_renamed(&before.it, &number, &now);
        }
        acts.insert(0, self.put(change, ScriptPart::Scene(scene))?);
        Ok((format!("scene {number}"), one_act(acts)))
    }

    /// Setups that show actions of a scene that is written anew.
    fn setups_renamed(
        &self,
        before: &SceneRecord,
        number: &str,
        now: &BTreeMap<String, String>,
    ) -> Vec<Act> {
        let names: BTreeSet<String> = before.actions.iter().map(|a| a.name.clone()).collect();
        let changed = self.kept.setups.iter().filter_map(|kept| {
            let mut setup = with_actions(&kept.it, &names, now);
            if setup.scene == before.number {
                number.clone_into(&mut setup.scene);
            }
            (setup != kept.it).then(|| put_at(kept.id, kept.place, ScriptPart::Setup(setup)))
        });
        changed.collect()
    }

    pub(super) fn setup(
        &self,
        change: &ScriptChange,
        words: &SetupWords,
    ) -> Result<(String, Act), ProductionError> {
        for (what, text) in [
            ("action", &words.action),
            ("sound", &words.sound),
            ("note", &words.note),
        ] {
            text_fits(what, text)?;
        }
        seconds_fit(&words.seconds)?;
        let others = self.kept.setups.iter().filter(|s| Some(s.id) != change.id);
        let taken: BTreeSet<String> = others.map(|s| s.it.name.to_uppercase()).collect();
        let name = match words.name.trim() {
            "" => next_setup(words.scene.trim(), &taken),
            name => name.to_uppercase(),
        };
        setup_name_fits(&name)?;
        if taken.contains(&name) {
            return Err(unfit(
                format!("there is a setup {name} already"),
                "give one of them another letter",
            ));
        }
        let known: BTreeSet<&str> = self
            .kept
            .scenes
            .iter()
            .flat_map(|s| s.it.actions.iter().map(|a| &*a.name))
            .collect();
        if let Some(lost) = words.shown.iter().find(|s| !known.contains(&*s.action)) {
            return Err(unfit(
                format!("no action is named {}", lost.action),
                "write the action into its scene first",
            ));
        }
        onestrand_film::Frames::new(words.dissolve)?;
        if words.takes > 999 {
            return Err(unfit(
                "more than 999 takes of one setup".to_owned(),
                "a slate has three figures for the take",
            ));
        }
        let record = SetupRecord {
            name: name.clone(),
            ..SetupRecord::from(words.clone())
        };
        let act = self.put(change, ScriptPart::Setup(record))?;
        Ok((format!("setup {name}"), act))
    }

    pub(super) fn gone(&self, id: i64) -> Result<(String, Act), ProductionError> {
        let record = self.production.script_part(id)?;
        let words = match &record.part {
            ScriptPart::Scene(scene) => format!("scene {} goes", scene.number),
            ScriptPart::Setup(setup) => format!("setup {} goes", setup.name),
            ScriptPart::WildSound(sound) => format!("wild sound goes: {}", short(&sound.sound)),
            ScriptPart::FloorPlan(plan) => format!("floor plan goes: {}", short(&plan.name)),
            ScriptPart::Recce(recce) => format!("visit goes: {}", short(&recce.place)),
            _ => "a part of the script goes".to_owned(),
        };
        let mut acts = vec![Act::PutScript { id, part: None }];
        if let ScriptPart::Scene(scene) = &record.part {
            acts.extend(self.setups_without(scene));
        }
        Ok((words, one_act(acts)))
    }

    /// Setups of a scene go with it; those of other scenes lose its actions.
    fn setups_without(&self, scene: &SceneRecord) -> Vec<Act> {
        let names: BTreeSet<String> = scene.actions.iter().map(|a| a.name.clone()).collect();
        let changed = self.kept.setups.iter().filter_map(|kept| {
            if kept.it.scene == scene.number && !is_title(&kept.it.name) {
                return Some(Act::PutScript {
                    id: kept.id,
                    part: None,
                });
            }
            let setup = with_actions(&kept.it, &names, &BTreeMap::new());
            (setup != kept.it).then(|| put_at(kept.id, kept.place, ScriptPart::Setup(setup)))
        });
        changed.collect()
    }

    pub(super) fn moved(
        &self,
        id: i64,
        after: Option<i64>,
    ) -> Result<(String, Act), ProductionError> {
        let record = self.production.script_part(id)?;
        let words = match &record.part {
            ScriptPart::Scene(scene) => format!("scene {} stands elsewhere", scene.number),
            ScriptPart::Setup(setup) => format!("setup {} stands elsewhere", setup.name),
            _ => "a part of the script stands elsewhere".to_owned(),
        };
        let (place, mut acts) = self.place(&record.part, Some(id), after)?;
        acts.push(put_at(id, place, record.part));
        Ok((words, one_act(acts)))
    }

    /// The act that puts a part: where it stands, or in its place among its like.
    pub(super) fn put(
        &self,
        change: &ScriptChange,
        part: ScriptPart,
    ) -> Result<Act, ProductionError> {
        if let Some(id) = change.id {
            let before = self.production.script_part(id)?;
            if before.part.kind() != part.kind() {
                return Err(StoreError::NotFound {
                    what: part.kind(),
                    name: id.to_string(),
                }
                .into());
            }
            return Ok(put_at(id, before.place, part));
        }
        let id = self.production.next_script_id()?;
        let (place, mut acts) = self.place(&part, None, change.after)?;
        acts.push(put_at(id, place, part));
        Ok(one_act(acts))
    }

    /// The place behind a part of the same kind, and the acts that make room there.
    fn place(
        &self,
        part: &ScriptPart,
        itself: Option<i64>,
        after: Option<i64>,
    ) -> Result<(i64, Vec<Act>), ProductionError> {
        let mut others = self.like(part);
        others.retain(|(id, ..)| Some(*id) != itself);
        let at = match after {
            None => others.len(),
            Some(0) => 0,
            Some(after) => {
                let found = others.iter().position(|(id, ..)| *id == after);
                1 + found.ok_or_else(|| StoreError::NotFound {
                    what: "part of the script",
                    name: after.to_string(),
                })?
            }
        };
        let low = at.checked_sub(1).map(|at| others[at].1);
        let high = others.get(at).map(|other| other.1);
        if let Some(place) = between(low, high) {
            return Ok((place, Vec::new()));
        }
        // No room is left: all of them stand anew.
        let acts = others
            .into_iter()
            .enumerate()
            .map(|(nth, (id, _, part))| put_at(id, anew(nth + usize::from(nth >= at)), part));
        Ok((anew(at), acts.collect()))
    }

    /// All parts of one kind in their order.
    fn like(&self, part: &ScriptPart) -> Vec<(i64, i64, ScriptPart)> {
        fn all<T: Clone>(of: &[Kept<T>], make: fn(T) -> ScriptPart) -> Vec<(i64, i64, ScriptPart)> {
            let one = |kept: &Kept<T>| (kept.id, kept.place, make(kept.it.clone()));
            of.iter().map(one).collect()
        }
        match part {
            ScriptPart::Scene(_) => all(&self.kept.scenes, ScriptPart::Scene),
            ScriptPart::Setup(_) => all(&self.kept.setups, ScriptPart::Setup),
            ScriptPart::WildSound(_) => all(&self.kept.wild_sounds, ScriptPart::WildSound),
            ScriptPart::FloorPlan(_) => all(&self.kept.floor_plans, ScriptPart::FloorPlan),
            ScriptPart::Recce(_) => all(&self.kept.recces, ScriptPart::Recce),
            _ => Vec::new(),
        }
    }
}

pub(super) fn put_at(id: i64, place: i64, part: ScriptPart) -> Act {
    let part = Some(Box::new(ScriptRecord { place, part }));
    Act::PutScript { id, part }
}

/// One act for several, or the one there is.
pub(super) fn one_act(mut acts: Vec<Act>) -> Act {
    if acts.len() == 1 {
        return acts.remove(0);
    }
    Act::All { acts }
}

fn scene_number_fits(number: &str) -> Result<(), ProductionError> {
    let fits = (1..=8).contains(&number.len())
        && number.starts_with(|c: char| c.is_ascii_digit())
        && number.chars().all(|c| c.is_ascii_alphanumeric());
    if fits {
        return Ok(());
    }
    Err(unfit(
        format!("{number:?} is no number of a scene"),
        "write a number, with letters behind it if need be: 12, 12X",
    ))
}

pub(crate) fn setup_name_fits(name: &str) -> Result<(), ProductionError> {
    let fits = (1..=12).contains(&name.len()) && name.chars().all(|c| c.is_ascii_alphanumeric());
    if fits {
        return Ok(());
    }
    Err(unfit(
        format!("{name:?} is no name of a setup"),
        "write it as the slate says it: 2, 2A; M or E for a title",
    ))
}
