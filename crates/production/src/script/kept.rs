//! The script as it is kept, sorted by what its parts are.

use std::collections::BTreeMap;

use onestrand_film::{Fps, Frames, Gauge};
use onestrand_plan::{Action, Scene, Script, Seconds, Setup, Shown, WildSound};
use onestrand_store::{
    FloorPlanRecord, Production, RecceRecord, SceneRecord, ScriptPart, SetupRecord, StoreError,
    WildSoundRecord,
};

use crate::ProductionError;
use crate::documents::{
    FloorPlanDocument, PlanFieldDocument, RecceDocument, SceneDocument, SetupDocument, StockWords,
    WildSoundDocument,
};

/// A part with its number and its place among its like.
#[derive(Debug, Clone)]
pub(crate) struct Kept<T> {
    pub(crate) id: i64,
    pub(crate) place: i64,
    pub(crate) it: T,
}

/// All parts of the script, each kind in its order.
#[derive(Debug, Clone, Default)]
pub(crate) struct KeptScript {
    pub(crate) scenes: Vec<Kept<SceneRecord>>,
    pub(crate) setups: Vec<Kept<SetupRecord>>,
    pub(crate) wild_sounds: Vec<Kept<WildSoundRecord>>,
    pub(crate) floor_plans: Vec<Kept<FloorPlanRecord>>,
    pub(crate) recces: Vec<Kept<RecceRecord>>,
}

impl KeptScript {
    pub(crate) fn read(production: &Production) -> Result<Self, StoreError> {
        let mut all = Self::default();
        for (id, record) in production.script()? {
            let place = record.place;
            match record.part {
                ScriptPart::Scene(it) => all.scenes.push(Kept { id, place, it }),
                ScriptPart::Setup(it) => all.setups.push(Kept { id, place, it }),
                ScriptPart::WildSound(it) => all.wild_sounds.push(Kept { id, place, it }),
                ScriptPart::FloorPlan(it) => all.floor_plans.push(Kept { id, place, it }),
                ScriptPart::Recce(it) => all.recces.push(Kept { id, place, it }),
                // A later program may keep more kinds; they are left alone.
                _ => {}
            }
        }
        Ok(all)
    }

    /// The script as the plan sees it. Seconds that cannot be read count as none.
    pub(crate) fn model(&self) -> Script {
        let seconds = |text: &str| text.parse::<Seconds>().unwrap_or(Seconds::ZERO);
        Script {
            scenes: self.scenes.iter().map(|s| scene(&s.it)).collect(),
            setups: self
                .setups
                .iter()
                .map(|s| setup(&s.it, seconds(&s.it.seconds)))
                .collect(),
            wild_sounds: self
                .wild_sounds
                .iter()
                .map(|s| WildSound {
                    sound: s.it.sound.clone(),
                    place: s.it.place.clone(),
                    seconds: seconds(&s.it.seconds),
                    distance: s.it.distance.clone(),
                    note: s.it.note.clone(),
                })
                .collect(),
        }
    }

    pub(crate) fn scene_documents(&self) -> Vec<SceneDocument> {
        let of = |kept: &Kept<SceneRecord>| SceneDocument {
            id: kept.id,
            scene: kept.it.clone().into(),
        };
        self.scenes.iter().map(of).collect()
    }

    pub(crate) fn setup_documents(
        &self,
        planned: &Script,
        speed: Fps,
        stock: &StockWords,
        shot: &BTreeMap<String, u32>,
    ) -> Result<Vec<SetupDocument>, ProductionError> {
        let run_up = onestrand_film::Frames::new(stock.run_up)?;
        let blocks = planned.blocks(speed, run_up);
        let of = |(kept, block): (&Kept<SetupRecord>, &onestrand_plan::Block)| {
            // How long a take is does not hang on how many are planned.
            let one = block.takes.first().copied();
            SetupDocument {
                id: kept.id,
                is_title: onestrand_plan::is_title(&kept.it.name),
                take_frames: one.map_or(0, onestrand_film::Frames::count),
                shot: shot.get(&kept.it.name).copied().unwrap_or(0),
                setup: kept.it.clone().into(),
            }
        };
        Ok(self.setups.iter().zip(&blocks).map(of).collect())
    }

    pub(crate) fn wild_sound_documents(&self) -> Vec<WildSoundDocument> {
        let of = |kept: &Kept<WildSoundRecord>| WildSoundDocument {
            id: kept.id,
            wild_sound: kept.it.clone().into(),
        };
        self.wild_sounds.iter().map(of).collect()
    }

    pub(crate) fn recce_documents(&self) -> Vec<RecceDocument> {
        let of = |kept: &Kept<RecceRecord>| RecceDocument {
            id: kept.id,
            recce: kept.it.clone().into(),
        };
        self.recces.iter().map(of).collect()
    }

    pub(crate) fn floor_plan_documents(&self, gauge: Gauge) -> Vec<FloorPlanDocument> {
        let of = |kept: &Kept<FloorPlanRecord>| FloorPlanDocument {
            id: kept.id,
            fields: fields(&kept.it, gauge),
            plan: kept.it.clone().into(),
        };
        self.floor_plans.iter().map(of).collect()
    }
}

fn fields(plan: &FloorPlanRecord, gauge: Gauge) -> Vec<PlanFieldDocument> {
    let first = plan.cameras.first().map(|camera| camera.at);
    let field = |camera: &onestrand_store::PlanCameraRecord| PlanFieldDocument {
        setup: camera.setup.clone(),
        angle: onestrand_plan::field_angle(gauge, camera.lens),
        over_the_line: plan
            .line_of_action
            .zip(first)
            .is_some_and(|(line, first)| onestrand_plan::over_the_line(line, first, camera.at)),
    };
    plan.cameras.iter().map(field).collect()
}

fn scene(record: &SceneRecord) -> Scene {
    let action = |action: &onestrand_store::ActionRecord| Action {
        name: action.name.clone(),
        text: action.text.clone(),
        speaker: action.speaker.clone(),
        line: None,
    };
    Scene {
        number: record.number.clone(),
        heading: record.heading.clone(),
        actions: record.actions.iter().map(action).collect(),
        line: None,
    }
}

fn setup(record: &SetupRecord, seconds: Seconds) -> Setup {
    let shown = |shown: &onestrand_store::ShownRecord| Shown {
        action: shown.action.clone(),
        on_camera: !shown.off_camera,
    };
    Setup {
        name: record.name.clone(),
        scene: record.scene.clone(),
        shown: record.shown.iter().map(shown).collect(),
        size: record.size.clone(),
        movement: record.movement.clone(),
        action: record.action.clone(),
        sound: record.sound.clone(),
        mover: record.mover.clone(),
        direction: record.direction.clone(),
        cast: record.cast.clone(),
        props: record.props.clone(),
        seconds,
        takes: record.takes,
        dissolve: Frames::new(record.dissolve).unwrap_or(Frames::ZERO),
        note: record.note.clone(),
        line: None,
    }
}
