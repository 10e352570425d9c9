//! What the page may ask to be changed in the script.

use onestrand_store::{Act, Production, ScriptPart};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::at_work::{Work, setup_name_fits};
use super::kept::KeptScript;
use super::stock::{SET_MAY_GO, STOCK, stock_fits};
use crate::change_acts::text_fits;
use crate::documents::{
    FloorPlanWords, RecceWords, SceneWords, SetupWords, StockWords, WildSoundWords,
};
use crate::error::unfit;
use crate::kept_list;
use crate::{FilmPart, ProductionError};

/// A change of the script.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct ScriptChange {
    /// The part that is changed or moved; a new one when not said.
    #[serde(default)]
    pub id: Option<i64>,
    /// Behind which part of its kind a new or moved one stands; the last when not said,
    /// 0 for the first.
    #[serde(default)]
    pub after: Option<i64>,
    /// What is changed.
    pub to: ScriptChangeKind,
}

/// What is changed in the script.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "part", rename_all = "snake_case")]
pub enum ScriptChangeKind {
    /// A scene with all its actions. Actions keep their setups by the names they had;
    /// letters are given anew in their order.
    Scene {
        /// As it is from now on.
        scene: SceneWords,
    },
    /// A setup.
    Setup {
        /// As it is from now on.
        setup: SetupWords,
    },
    /// A wild sound.
    WildSound {
        /// As it is from now on.
        wild_sound: WildSoundWords,
    },
    /// A place drawn from above.
    FloorPlan {
        /// As it is from now on.
        plan: FloorPlanWords,
    },
    /// A visit.
    Recce {
        /// As it is from now on.
        recce: RecceWords,
    },
    /// The part goes; a scene takes its setups with it.
    Gone,
    /// The part stands elsewhere among its like.
    Moved,
    /// Setups whose one take is meant so: the set may go. All of them, each time.
    SetMayGo {
        /// Their names.
        setups: Vec<String>,
    },
    /// The film that is planned with.
    Stock {
        /// As it is from now on.
        stock: StockWords,
    },
}

impl ScriptChange {
    /// The parts it touches.
    pub(crate) fn parts(&self) -> Vec<FilmPart> {
        match (&self.to, self.id) {
            (ScriptChangeKind::Stock { .. } | ScriptChangeKind::SetMayGo { .. }, _) => {
                vec![FilmPart::Stock]
            }
            (_, Some(id)) => vec![FilmPart::Script(id)],
            // What is only added stands beside whatever another window has done.
            (_, None) => Vec::new(),
        }
    }

    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let kept = KeptScript::read(production)?;
        let work = Work::on(production, &kept);
        match &self.to {
            ScriptChangeKind::Scene { scene } => work.scene(self, scene),
            ScriptChangeKind::Setup { setup } => work.setup(self, setup),
            ScriptChangeKind::WildSound { wild_sound } => {
                text_fits("sound", &wild_sound.sound)?;
                seconds_fit(&wild_sound.seconds)?;
                let part = ScriptPart::WildSound(wild_sound.clone().into());
                let words = format!("wild sound: {}", short(&wild_sound.sound));
                Ok((words, work.put(self, part)?))
            }
            ScriptChangeKind::FloorPlan { plan } => {
                super::plan_checks::floor_plan_fits(plan)?;
                let words = format!("floor plan: {}", short(&plan.name));
                let part = ScriptPart::FloorPlan(plan.clone().into());
                Ok((words, work.put(self, part)?))
            }
            ScriptChangeKind::Recce { recce } => {
                text_fits("visit", &recce.words)?;
                super::photographs::photograph_fits(production, &recce.photograph)?;
                let words = format!("visit: {}", short(&recce.place));
                let part = ScriptPart::Recce(recce.clone().into());
                Ok((words, work.put(self, part)?))
            }
            ScriptChangeKind::Gone => work.gone(self.named()?),
            ScriptChangeKind::Moved => work.moved(self.named()?, self.after),
            ScriptChangeKind::SetMayGo { setups } => {
                for setup in setups {
                    setup_name_fits(setup)?;
                }
                let words = match setups.last() {
                    Some(last) => format!("the set of {last} may go"),
                    None => "no set may go".to_owned(),
                };
                Ok((words, kept_list::put(SET_MAY_GO, setups)))
            }
            ScriptChangeKind::Stock { stock } => {
                stock_fits(stock)?;
                let value = serde_json::to_string(stock).ok();
                let name = STOCK.to_owned();
                Ok(("the stock".to_owned(), Act::PutSetting { name, value }))
            }
        }
    }

    fn named(&self) -> Result<i64, ProductionError> {
        self.id.ok_or_else(|| {
            unfit(
                "no part of the script is named".to_owned(),
                "say which part by its number",
            )
        })
    }
}

pub(super) fn short(text: &str) -> String {
    let first: String = text
        .lines()
        .next()
        .unwrap_or_default()
        .chars()
        .take(40)
        .collect();
    if first.is_empty() {
        "not named".to_owned()
    } else {
        first
    }
}

pub(super) fn seconds_fit(text: &str) -> Result<(), ProductionError> {
    if text.is_empty() {
        return Ok(());
    }
    let read = text.parse::<onestrand_plan::Seconds>();
    read.map(|_| ())
        .map_err(|e| unfit(e.to_string(), "write seconds, such as 7.5"))
}
