//! What may be asked to be changed in the titles.

use std::collections::BTreeSet;

use onestrand_store::{Act, Production, StoreError};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::kept::KeptTitle;
use super::stand_kept;
use crate::change_acts::text_fits;
use crate::documents::{ShootingWords, StandWords, TitleKindWord, TitleWords};
use crate::error::unfit;
use crate::list_places::{Behind, anew, behind};
use crate::{FilmPart, ProductionError};

/// A change of the titles.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct TitleChange {
    /// The title that is changed or moved; a new one when not said.
    #[serde(default)]
    pub id: Option<i64>,
    /// Behind which title a new or moved one stands; the last when not said, 0 for the
    /// first.
    #[serde(default)]
    pub after: Option<i64>,
    /// What is changed.
    pub to: TitleChangeKind,
}

/// What is changed in the titles.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum TitleChangeKind {
    /// A title.
    Title {
        /// As it is from now on.
        title: Box<TitleWords>,
    },
    /// The title goes.
    Gone,
    /// The title stands elsewhere in the list.
    Moved,
    /// The copy stand and the hall.
    Stand {
        /// As they are from now on.
        stand: Box<StandWords>,
    },
}

impl TitleChange {
    /// The parts it touches.
    pub(crate) fn parts(&self) -> Vec<FilmPart> {
        match (&self.to, self.id) {
            (TitleChangeKind::Stand { .. }, _) => vec![FilmPart::CopyStand],
            (_, Some(id)) => vec![FilmPart::Title(id)],
            // What is only added stands beside whatever another window has done.
            (_, None) => Vec::new(),
        }
    }

    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        match &self.to {
            TitleChangeKind::Title { title } => self.title(production, title),
            TitleChangeKind::Gone => {
                let kept = KeptTitle::one(production, self.named()?)?;
                let id = kept.id;
                let words = format!("title {} goes", kept.title.name);
                Ok((words, Act::PutTitle { id, title: None }))
            }
            TitleChangeKind::Moved => {
                let mut kept = KeptTitle::one(production, self.named()?)?;
                let (place, mut acts) = self.place(production, Some(kept.id))?;
                kept.place = place;
                acts.push(kept.put()?);
                let words = format!("title {} stands elsewhere", kept.title.name);
                Ok((words, Act::All { acts }))
            }
            TitleChangeKind::Stand { stand } => {
                Ok(("the copy stand".to_owned(), stand_kept::put(stand)?))
            }
        }
    }

    fn title(
        &self,
        production: &Production,
        words: &TitleWords,
    ) -> Result<(String, Act), ProductionError> {
        let all = KeptTitle::all(production)?;
        let others = all.iter().filter(|kept| Some(kept.id) != self.id);
        let taken: BTreeSet<String> = others.map(|k| k.title.name.to_uppercase()).collect();
        let name = match words.name.trim() {
            "" => next_name(words.kind, &taken),
            name => name.to_uppercase(),
        };
        crate::script::setup_name_fits(&name)?;
        if taken.contains(&name) {
            return Err(unfit(
                format!("there is a title {name} already"),
                "give one of them another name",
            ));
        }
        title_fits(words)?;
        super::pictures::kept_files_fit(production, words)?;
        let title = TitleWords {
            name: name.clone(),
            ..words.clone()
        };
        let said = format!("title {name}");
        if let Some(id) = self.id {
            let place = KeptTitle::one(production, id)?.place;
            return Ok((said, KeptTitle { id, place, title }.put()?));
        }
        let id = production.next_title_id()?;
        let (place, mut acts) = self.place(production, None)?;
        acts.push(KeptTitle { id, place, title }.put()?);
        Ok((said, Act::All { acts }))
    }

    fn named(&self) -> Result<i64, ProductionError> {
        self.id
            .ok_or_else(|| unfit("no title is named".to_owned(), "say which by its number"))
    }

    /// The place behind another title, and the acts that make room there.
    fn place(
        &self,
        production: &Production,
        itself: Option<i64>,
    ) -> Result<(i64, Vec<Act>), ProductionError> {
        let mut others = KeptTitle::all(production)?;
        others.retain(|kept| Some(kept.id) != itself);
        let parts: Vec<(i64, i64)> = others.iter().map(|kept| (kept.id, kept.place)).collect();
        let place = behind(&parts, self.after).ok_or_else(|| StoreError::NotFound {
            what: "title",
            name: self.after.unwrap_or_default().to_string(),
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
}

/// The next name that is free: M for the name of the film, E for the end, T1, T2 for
/// what stands between, C for those who made it.
fn next_name(kind: TitleKindWord, taken: &BTreeSet<String>) -> String {
    let (alone, letter) = match kind {
        TitleKindWord::Main => (true, "M"),
        TitleKindWord::Intertitle => (false, "T"),
        TitleKindWord::Credits => (true, "C"),
        TitleKindWord::End => (true, "E"),
    };
    let alone = alone.then(|| letter.to_owned());
    let counted = (1_u32..).map(|n| format!("{letter}{n}"));
    let mut names = alone.into_iter().chain(counted);
    names.find(|name| !taken.contains(name)).unwrap_or_default()
}

fn title_fits(title: &TitleWords) -> Result<(), ProductionError> {
    text_fits("title", &title.words)?;
    text_fits("note", &title.note)?;
    for (what, percent, most) in [
        (
            "the light of a plain card, in per cent,",
            title.ground.light,
            100,
        ),
        (
            "the darkening, in tenths of a stop,",
            title.ground.darker,
            80,
        ),
        (
            "the height of the letters, in thousandths of the picture,",
            title.lettering.letter_height.unwrap_or(0),
            1000,
        ),
        ("the number of takes", title.shooting.takes, 99),
        (
            "the crawl, in hundredths of a millimetre,",
            title.shooting.crawl,
            10_000,
        ),
    ] {
        if percent > most {
            return Err(unfit(
                format!("{what} is {percent}"),
                "write a smaller number",
            ));
        }
    }
    frames_fit(&title.shooting)
}

/// An hour of a title is a slip of the finger.
const LONGEST: u32 = 3600 * 24;

fn frames_fit(asked: &ShootingWords) -> Result<(), ProductionError> {
    let all = [
        asked.before,
        asked.after,
        asked.fade_in,
        asked.fade_out,
        asked.letters_in,
        asked.letters_out,
        asked.hold.unwrap_or(0),
    ];
    if all.iter().any(|frames| *frames > LONGEST) {
        return Err(unfit(
            "a part of the title is longer than an hour".to_owned(),
            "write frames: 126 at 18 frames a second are seven seconds",
        ));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_come_from_what_a_title_is_for() {
        let taken: BTreeSet<String> = ["M", "T1", "E"].map(str::to_owned).into();
        assert_eq!(next_name(TitleKindWord::Main, &taken), "M1");
        assert_eq!(next_name(TitleKindWord::Intertitle, &taken), "T2");
        assert_eq!(next_name(TitleKindWord::Credits, &taken), "C");
        assert_eq!(next_name(TitleKindWord::End, &BTreeSet::new()), "E");
    }

    #[test]
    fn what_cannot_be_meant_is_refused() {
        let mut title = TitleWords::default();
        title_fits(&title).expect("nothing is amiss");
        title.shooting.before = LONGEST + 1;
        assert!(title_fits(&title).is_err());
        title.shooting.before = 0;
        title.ground.light = 101;
        assert!(title_fits(&title).is_err());
    }
}
