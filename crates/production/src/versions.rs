//! The versions of a film: begun, assembled, named, noted, thrown away.

use onestrand_cut::{JoinKind, TrialCut, assembly};
use onestrand_store::{Act, CutRecord, Production, StoreError};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use crate::change_acts::text_fits;
use crate::documents::join_kind;
use crate::error::unfit;
use crate::{ProductionError, strand};

/// The longest name of a version.
const LONGEST_NAME: usize = 60;

/// Begin a new version: empty, as another stands, or with every circled take.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct NewCut {
    /// Its name.
    pub cut: String,
    /// The version it begins as.
    #[serde(default)]
    pub from: Option<String>,
    /// Whether the circled takes are laid in, whole, in script order.
    #[serde(default)]
    pub assembled: bool,
    /// Its usual join; that of `from`, else tape.
    #[serde(default)]
    pub usual_join: Option<String>,
    /// The user's note.
    #[serde(default)]
    pub note: String,
}

/// Give a version another name or another note; what is not said stays.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct DescribeCut {
    /// The version.
    pub cut: String,
    /// Its name from now on.
    #[serde(default)]
    pub name: Option<String>,
    /// Its note from now on.
    #[serde(default)]
    pub note: Option<String>,
}

/// Throw a version away.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct RemoveCut {
    /// The version.
    pub cut: String,
}

impl NewCut {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        text_fits("note", &self.note)?;
        let name = free_name(production, &self.cut)?;
        let join = self.usual_join.as_deref().map(join_kind).transpose()?;
        let cut = match (&self.from, self.assembled) {
            (Some(_), true) => {
                return Err(unfit(
                    "a version begins as another stands, or is assembled, not both".to_owned(),
                    "choose one of the two",
                ));
            }
            (Some(from), false) => {
                let cut = production.cut(from)?.to_model()?;
                join.map_or(cut.clone(), |join| cut.joined_by(join))
            }
            (None, true) => assembled(production, join.unwrap_or(JoinKind::Tape))?,
            (None, false) => TrialCut::new(Vec::new(), join.unwrap_or(JoinKind::Tape)),
        };
        let words = match &self.from {
            Some(from) => format!("begin {name} from {from}"),
            None if self.assembled => format!("assemble {name} from the circled takes"),
            None => format!("begin {name}"),
        };
        let record = CutRecord::new(&cut, &self.note);
        Ok((words, put(&name, Some(record))))
    }
}

fn assembled(production: &Production, join: JoinKind) -> Result<TrialCut, ProductionError> {
    let strand = strand::strand(production)?;
    let pieces = assembly(&strand, join, &strand::rules(production).table);
    if pieces.is_empty() {
        return Err(unfit(
            "no take is circled yet".to_owned(),
            "circle the takes you like in Rolls, on the card of the take",
        ));
    }
    Ok(TrialCut::new(pieces, join))
}

impl DescribeCut {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        let before = production.cut(&self.cut)?;
        let mut after = before.clone();
        if let Some(note) = &self.note {
            text_fits("note", note)?;
            note.trim().clone_into(&mut after.note);
        }
        let name = match self.name.as_deref().map(str::trim) {
            Some(name) if name != self.cut => Some(free_name(production, name)?),
            _ => None,
        };
        let Some(name) = name else {
            let words = format!("the note of {}", self.cut);
            return Ok((words, put(&self.cut, Some(after))));
        };
        let words = format!("call {} {name}", self.cut);
        let acts = vec![put(&self.cut, None), put(&name, Some(after))];
        Ok((words, Act::All { acts }))
    }

    /// The versions it touches, by their names before and after.
    pub(crate) fn names(&self) -> impl Iterator<Item = &str> {
        let other = self.name.as_deref().map(str::trim);
        std::iter::once(self.cut.as_str()).chain(other.filter(|name| *name != self.cut))
    }
}

impl RemoveCut {
    pub(crate) fn act(&self, production: &Production) -> Result<(String, Act), ProductionError> {
        production.cut(&self.cut)?;
        Ok((format!("throw {} away", self.cut), put(&self.cut, None)))
    }
}

fn put(name: &str, cut: Option<CutRecord>) -> Act {
    Act::PutCut {
        name: name.to_owned(),
        cut,
    }
}

/// A name that no version has yet.
pub(crate) fn free_name(production: &Production, name: &str) -> Result<String, ProductionError> {
    let name = name.trim();
    if name.is_empty() || name.chars().count() > LONGEST_NAME || name.contains(char::is_control) {
        return Err(unfit(
            format!("a version's name has 1 to {LONGEST_NAME} letters"),
            "call it v2, or as you like",
        ));
    }
    match production.cut(name) {
        Ok(_) => Err(unfit(
            format!("there is a version {name} already"),
            "versions are never written over; choose another name",
        )),
        Err(StoreError::NotFound { .. }) => Ok(name.to_owned()),
        Err(problem) => Err(problem.into()),
    }
}
