//! What may be asked to be changed in the light of the shots.

use onestrand_store::{Act, Production, Workprints};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::card::{grading_card, points_of, put};
use super::frames::transfer_of_roll;
use super::measure::{measured, told};
use crate::change_acts::text_fits;
use crate::documents::{GradedShot, PatchMeasured, PatchWords};
use crate::error::unfit;
use crate::{FilmPart, ProductionError};

/// A change of the grading card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct LightChange {
    /// What is changed.
    pub to: LightChangeKind,
}

/// What is changed in the light of the shots.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum LightChangeKind {
    /// These shots are given this light, in the place of what the same stretches had.
    Keep {
        /// The shots.
        shots: Vec<GradedShot>,
        /// The patches they were found by, measured anew now.
        #[serde(default)]
        patches: Vec<PatchWords>,
    },
    /// A shot is given no light of its own any more.
    Strike {
        /// The roll.
        roll: String,
        /// The first frame of the stretch.
        #[serde(rename = "in")]
        first: u32,
        /// The first frame after it.
        #[serde(rename = "out")]
        thrown: u32,
    },
}

impl LightChange {
    /// The parts it touches.
    pub(crate) fn parts(&self) -> Vec<FilmPart> {
        vec![FilmPart::Light]
    }

    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let mut card = grading_card(production)?;
        match &self.to {
            LightChangeKind::Keep { shots, patches } => {
                for shot in shots {
                    fits(production, shot)?;
                    card.shots.retain(|kept| !is_same(kept, shot));
                    card.patches.retain(|kept| !lies_in(kept, shot));
                    card.shots.push(shot.clone());
                }
                card.patches.extend(measured_anew(production, patches)?);
                Ok((kept_words(shots), put(card)))
            }
            LightChangeKind::Strike {
                roll,
                first,
                thrown,
            } => {
                let before = card.shots.len();
                let is_meant = |kept: &GradedShot| {
                    (&kept.roll, kept.first, kept.thrown) == (roll, *first, *thrown)
                };
                let struck = card.shots.iter().find(|kept| is_meant(kept)).cloned();
                card.shots.retain(|kept| !is_meant(kept));
                if let Some(shot) = &struck {
                    card.patches.retain(|kept| !lies_in(kept, shot));
                }
                if card.shots.len() == before {
                    return Err(unfit(
                        format!("{roll}·{first} has no light of its own"),
                        "look at the card once more; another window may have changed it",
                    ));
                }
                Ok((
                    format!("{roll}·{first} gets no light of its own"),
                    put(card),
                ))
            }
        }
    }
}

fn is_same(a: &GradedShot, b: &GradedShot) -> bool {
    (&a.roll, a.first, a.thrown) == (&b.roll, b.first, b.thrown)
}

fn lies_in(patch: &PatchMeasured, shot: &GradedShot) -> bool {
    patch.patch.roll == shot.roll && (shot.first..shot.thrown).contains(&patch.patch.frame)
}

fn fits(production: &Production, shot: &GradedShot) -> Result<(), ProductionError> {
    let roll = production.roll(&shot.roll)?;
    if shot.first >= shot.thrown || shot.thrown > roll.frames {
        return Err(unfit(
            format!(
                "{} has no frames from {} up to {}",
                shot.roll, shot.first, shot.thrown
            ),
            "give the first frame and the first frame after the shot",
        ));
    }
    points_of(shot)?;
    text_fits("reason", &shot.reason)
}

fn measured_anew(
    production: &Production,
    patches: &[PatchWords],
) -> Result<Vec<PatchMeasured>, ProductionError> {
    let mut prints = Workprints::open(production.dir())?;
    let mut out = Vec::new();
    for patch in patches {
        text_fits("thing", &patch.thing)?;
        let (transfer, _is_said) = transfer_of_roll(production, &patch.roll);
        out.push(told(patch, &measured(&mut prints, patch, transfer)?));
    }
    Ok(out)
}

fn kept_words(shots: &[GradedShot]) -> String {
    match shots {
        [one] => format!(
            "the light of {}·{}: {:+} {:+} {:+}",
            one.roll, one.first, one.red, one.green, one.blue
        ),
        many => format!("the light of {} shots", many.len()),
    }
}
