//! What may be asked to be changed in the sound.

use onestrand_store::{Act, DubKind, Production, StoreError};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::fits::{column_fits, cue_fits, pass_fits, sound_fits};
use super::kept::{Kept, Part};
use super::mix_kept;
use crate::documents::{ColumnWords, CueWords, MixWords, PassWords, SoundWords};
use crate::error::unfit;
use crate::list_places::{Behind, anew, behind};
use crate::{FilmPart, ProductionError};

/// A change of the sound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct DubChange {
    /// What is changed or moved; something new when not said.
    #[serde(default)]
    pub id: Option<i64>,
    /// Behind which of its like a new or moved one stands; the last when not said, 0 for
    /// the first. Cues stand where they are heard and need none.
    #[serde(default)]
    pub after: Option<i64>,
    /// What is changed.
    pub to: DubChangeKind,
}

/// A cue among several that are changed at once.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct CueChanged {
    /// Which; a new one when not said.
    #[serde(default)]
    pub id: Option<i64>,
    /// As it is from now on.
    pub cue: CueWords,
}

/// What is changed in the sound.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum DubChangeKind {
    /// A sound.
    Sound {
        /// As it is from now on.
        sound: Box<SoundWords>,
    },
    /// A column.
    Column {
        /// As it is from now on.
        column: Box<ColumnWords>,
    },
    /// A cue.
    Cue {
        /// As it is from now on.
        cue: Box<CueWords>,
    },
    /// Several cues at once: one step back undoes them all.
    Cues {
        /// Them.
        cues: Vec<CueChanged>,
    },
    /// A pass of the mix, in the log of the mix.
    Pass {
        /// As it is from now on.
        pass: Box<PassWords>,
    },
    /// It goes; with a column its cues.
    Gone,
    /// It stands elsewhere among its like.
    Moved,
    /// How the sound is mixed.
    Mix {
        /// As it is from now on.
        mix: Box<MixWords>,
    },
}

impl DubChange {
    /// The parts it touches.
    pub(crate) fn parts(&self) -> Vec<FilmPart> {
        match &self.to {
            DubChangeKind::Mix { .. } => vec![FilmPart::Mix],
            DubChangeKind::Cues { cues } => {
                let known = cues.iter().filter_map(|changed| changed.id);
                known.map(FilmPart::Dub).collect()
            }
            // What is only added stands beside whatever another window has done.
            _ => self.id.map(FilmPart::Dub).into_iter().collect(),
        }
    }

    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        match &self.to {
            DubChangeKind::Sound { sound } => {
                sound_fits(production, sound)?;
                self.put(production, sound.as_ref())
            }
            DubChangeKind::Column { column } => {
                column_fits(production, self.id, column)?;
                self.put(production, column.as_ref())
            }
            DubChangeKind::Cue { cue } => {
                cue_fits(production, cue)?;
                self.put(production, cue.as_ref())
            }
            DubChangeKind::Cues { cues } => several(production, cues),
            DubChangeKind::Pass { pass } => {
                pass_fits(pass)?;
                self.put(production, pass.as_ref())
            }
            DubChangeKind::Gone => gone(production, self.named()?),
            DubChangeKind::Moved => self.moved(production),
            DubChangeKind::Mix { mix } => {
                Ok(("how the sound is mixed".to_owned(), mix_kept::put(mix)?))
            }
        }
    }

    fn named(&self) -> Result<i64, ProductionError> {
        self.id.ok_or_else(|| {
            let what = "nothing is named".to_owned();
            unfit(what, "say which by its number")
        })
    }

    fn put<T: Part + Clone>(
        &self,
        production: &Production,
        words: &T,
    ) -> Result<(String, Act), ProductionError> {
        let said = format!("{} {}", T::KIND.word(), words.called());
        let words = words.clone();
        if let Some(id) = self.id {
            let place = Kept::<T>::one(production, id)?.place;
            return Ok((said, Kept { id, place, words }.put()?));
        }
        let id = production.next_dub_id()?;
        let (place, mut acts) = place::<T>(production, self.after, None)?;
        acts.push(Kept { id, place, words }.put()?);
        Ok((said, Act::All { acts }))
    }

    fn moved(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let id = self.named()?;
        match production.dub_part(id)?.kind {
            DubKind::Sound => moved::<SoundWords>(production, id, self.after),
            DubKind::Column => moved::<ColumnWords>(production, id, self.after),
            DubKind::Pass => moved::<PassWords>(production, id, self.after),
            DubKind::Cue => Err(unfit(
                "that stands where it is heard".to_owned(),
                "change what it holds to",
            )),
        }
    }
}

fn moved<T: Part>(
    production: &Production,
    id: i64,
    after: Option<i64>,
) -> Result<(String, Act), ProductionError> {
    let mut kept = Kept::<T>::one(production, id)?;
    let (place, mut acts) = place::<T>(production, after, Some(id))?;
    kept.place = place;
    acts.push(kept.put()?);
    let said = format!(
        "{} {} stands elsewhere",
        T::KIND.word(),
        kept.words.called()
    );
    Ok((said, Act::All { acts }))
}

fn several(production: &Production, cues: &[CueChanged]) -> Result<(String, Act), ProductionError> {
    let mut next = production.next_dub_id()?;
    let mut acts = Vec::with_capacity(cues.len());
    for changed in cues {
        cue_fits(production, &changed.cue)?;
        let words = changed.cue.clone();
        let kept = if let Some(id) = changed.id {
            let place = Kept::<CueWords>::one(production, id)?.place;
            Kept { id, place, words }
        } else {
            next += 1;
            let id = next - 1;
            Kept {
                id,
                place: 0,
                words,
            }
        };
        acts.push(kept.put()?);
    }
    let said = match cues {
        [] => return Err(unfit("no cue is named".to_owned(), "choose one at least")),
        [one] => format!("cue {}", one.cue.name),
        more => format!("{} cues", more.len()),
    };
    Ok((said, Act::All { acts }))
}

fn gone(production: &Production, id: i64) -> Result<(String, Act), ProductionError> {
    let away = |id| Act::PutDub { id, part: None };
    match production.dub_part(id)?.kind {
        DubKind::Sound => {
            let sound = Kept::<SoundWords>::one(production, id)?.words;
            let cues = Kept::<CueWords>::all(production)?;
            let used = cues.iter().filter(|kept| kept.words.sound == Some(id));
            let used = used.count();
            if used > 0 {
                return Err(unfit(
                    format!("{used} of the cues play {}", sound.name),
                    "take them out first, or give them another sound",
                ));
            }
            Ok((format!("sound {} goes", sound.name), away(id)))
        }
        DubKind::Column => {
            let column = Kept::<ColumnWords>::one(production, id)?.words;
            let mut acts = vec![away(id)];
            for kept in Kept::<CueWords>::all(production)? {
                if kept.words.column == id {
                    acts.push(away(kept.id));
                }
            }
            for mut kept in Kept::<ColumnWords>::all(production)? {
                if kept.words.ducked.is_some_and(|its| its.under == id) {
                    kept.words.ducked = None;
                    acts.push(kept.put()?);
                }
            }
            Ok((format!("column {} goes", column.name), Act::All { acts }))
        }
        DubKind::Cue => {
            let cue = Kept::<CueWords>::one(production, id)?.words;
            Ok((format!("cue {} goes", cue.name), away(id)))
        }
        DubKind::Pass => {
            let pass = Kept::<PassWords>::one(production, id)?.words;
            Ok((format!("pass {} goes", pass.pass), away(id)))
        }
    }
}

/// The place behind another of its like, and the acts that make room there.
fn place<T: Part>(
    production: &Production,
    after: Option<i64>,
    itself: Option<i64>,
) -> Result<(i64, Vec<Act>), ProductionError> {
    let mut others = Kept::<T>::all(production)?;
    others.retain(|kept| Some(kept.id) != itself);
    let parts: Vec<(i64, i64)> = others.iter().map(|kept| (kept.id, kept.place)).collect();
    let place = behind(&parts, after).ok_or_else(|| StoreError::NotFound {
        what: T::KIND.word(),
        name: after.unwrap_or_default().to_string(),
    })?;
    let at = match place {
        Behind::Room(place) => return Ok((place, Vec::new())),
        Behind::Anew(at) => at,
    };
    // No room is left: all of them stand anew.
    let mut acts = Vec::new();
    for (nth, mut kept) in others.into_iter().enumerate() {
        kept.place = anew(nth + usize::from(nth >= at));
        acts.push(kept.put()?);
    }
    Ok((anew(at), acts))
}
