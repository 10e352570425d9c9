//! Two takes laid beside each other: asked, looked at, answered.

use onestrand_film::FrameRange;
use onestrand_intake::Cancel;
use onestrand_store::{Production, TakeRecord, Workprints};
use onestrand_twins::{MatchPoint, MatchWish, TakeMovement, TimeMap, lay_beside, match_points};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::moments::{by_marks, marks_of};
use super::movement::{MatchMemory, PictureSource};
use super::on_sheet::{OnSheet, SheetCut, Tried};
use super::takes::{TakePlace, range, take_at, told};
use crate::documents::{CannotTellDocument, MatchedDocument, decimal};
use crate::{ProductionError, Progress};

/// What is to be matched.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct MatchRequest {
    /// The take that is left.
    pub from: TakePlace,
    /// The take that is entered.
    pub to: TakePlace,
    /// Frames of both that show the same moment: two pairs. Without them it goes by
    /// the marks that are kept for the two takes, and without these by the pictures.
    #[serde(default)]
    pub marks: Vec<(u32, u32)>,
    /// By the pictures, though marks are kept.
    #[serde(default)]
    pub by_pictures: bool,
    /// Whether points by marks are ranked by what moves too, where there are pictures.
    #[serde(default)]
    pub look: bool,
    /// Where the first frame thrown away of the take that is left may lie, half-open;
    /// anywhere in it when not said.
    #[serde(default)]
    pub leave: Option<(u32, u32)>,
    /// Where the first frame kept of the take that is entered may lie, half-open.
    #[serde(default)]
    pub enter: Option<(u32, u32)>,
    /// The version whose strand check has to let the cuts pass.
    #[serde(default)]
    pub sheet: Option<OnSheet>,
}

/// Lays two takes beside each other and tells where to cut; nothing is remembered.
///
/// # Errors
/// Those of [`MatchPlan::new`] and [`MatchPlan::answer`].
pub fn match_takes(
    production: &Production,
    prints: &mut Workprints,
    request: &MatchRequest,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<MatchedDocument, ProductionError> {
    let plan = MatchPlan::new(production, request)?;
    plan.answer(&mut MatchMemory::default(), prints, cancel, progress)
}

/// A question with all that is needed of the production to answer it, so that nobody
/// waits for the production while pictures are looked at.
#[derive(Debug)]
pub struct MatchPlan {
    from: TakeRecord,
    to: TakeRecord,
    marks: Vec<(u32, u32)>,
    kept: bool,
    look: bool,
    leave: FrameRange,
    enter: FrameRange,
    tried: Option<Tried>,
    backwards: bool,
}

/// What moves in both takes, and which moment is which.
struct Beside {
    moving: Option<(std::sync::Arc<TakeMovement>, std::sync::Arc<TakeMovement>)>,
    map: TimeMap,
}

impl MatchPlan {
    /// What the production knows of the two takes.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for takes and places that are not there;
    /// [`ProductionError::Store`].
    pub fn new(production: &Production, request: &MatchRequest) -> Result<Self, ProductionError> {
        let from = take_at(production, &request.from)?;
        let to = take_at(production, &request.to)?;
        let kept = match request.marks.is_empty() && !request.by_pictures {
            true => marks_of(production, &from, &to)?,
            false => None,
        };
        let marks = match &kept {
            Some(kept) => kept.pairs().to_vec(),
            None => request.marks.clone(),
        };
        let within = |asked: Option<(u32, u32)>, of: &TakeRecord| match asked {
            Some((first, thrown)) => Ok(FrameRange::of(first, thrown)?),
            None => range(of),
        };
        let tried = match &request.sheet {
            None => None,
            Some(sheet) => {
                // Going back, the take that was laid in is the one that is left.
                let other = match sheet.made {
                    SheetCut::Back { .. } => (&request.from, range(&from)?),
                    SheetCut::Join | SheetCut::LayIn => (&request.to, range(&to)?),
                };
                Some(Tried::new(production, sheet, other)?)
            }
        };
        Ok(Self {
            leave: within(request.leave, &from)?,
            enter: within(request.enter, &to)?,
            look: request.look,
            kept: kept.is_some(),
            // Without a version both ways are told.
            backwards: request.sheet.is_none(),
            from,
            to,
            marks,
            tried,
        })
    }

    /// Lays the two takes beside each other and tells where to cut.
    ///
    /// With two marks no pictures are needed. Without them both takes are read from
    /// the workprints; where these tell nothing the answer says why, with no points.
    ///
    /// # Errors
    /// [`ProductionError::Unfit`] for marks that are no pair and rolls without
    /// pictures; [`ProductionError::Store`], [`ProductionError::Picture`],
    /// [`ProductionError::Stopped`].
    pub fn answer(
        &self,
        memory: &mut MatchMemory,
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<MatchedDocument, ProductionError> {
        let mut document = self.blank();
        let beside = match self.beside(memory, source, cancel, progress)? {
            Ok(beside) => beside,
            Err(cannot) => {
                document.cannot_tell = Some(cannot);
                return Ok(document);
            }
        };
        let Beside { moving, map } = &beside;
        let both = moving.as_ref().map(|(left, entered)| (&**left, &**entered));
        let points = match_points(
            map,
            both,
            &MatchWish::new(self.leave, self.enter),
            |a, b| self.tried.as_ref().is_none_or(|tried| tried.allows(a, b)),
        );
        document.points = points.iter().map(Into::into).collect();
        if self.backwards {
            document.back = self.back(&beside)?.iter().map(Into::into).collect();
        }
        document.by = if self.marks.is_empty() {
            "pictures"
        } else {
            "marks"
        };
        document.pace = decimal(map.pace());
        document.pace_exact = map.pace().to_string();
        let strength = map.strength();
        document.strength = strength.map(|strength| (strength * 10.0).round() / 10.0);
        Ok(document)
    }

    fn blank(&self) -> MatchedDocument {
        MatchedDocument {
            from: told(&self.from),
            to: told(&self.to),
            by: "nothing",
            marks: self.marks.iter().map(Into::into).collect(),
            marks_kept: self.kept,
            pace: 1.0,
            pace_exact: "1".to_owned(),
            strength: None,
            cannot_tell: None,
            points: Vec::new(),
            back: Vec::new(),
        }
    }

    fn beside(
        &self,
        memory: &mut MatchMemory,
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<Result<Beside, CannotTellDocument>, ProductionError> {
        if !self.marks.is_empty() {
            let map = by_marks(&self.marks)?;
            // What moves only ranks the points: without it they are told all the same.
            let moving = match self.look {
                true => self.moving(memory, source, cancel, progress).ok(),
                false => None,
            };
            return Ok(Ok(Beside { moving, map }));
        }
        let moving = self.moving(memory, source, cancel, progress)?;
        let laid = memory.laid(source, (&self.from, &self.to), || {
            lay_beside(&moving.0, &moving.1)
        })?;
        Ok(match laid {
            Ok(map) => Ok(Beside {
                moving: Some(moving),
                map,
            }),
            Err(why) => Err(CannotTellDocument {
                code: why.code().to_owned(),
                message: why.to_string(),
                hint: why.hint().to_owned(),
            }),
        })
    }

    fn moving(
        &self,
        memory: &mut MatchMemory,
        source: &mut dyn PictureSource,
        cancel: &Cancel,
        progress: &mut dyn Progress,
    ) -> Result<(std::sync::Arc<TakeMovement>, std::sync::Arc<TakeMovement>), ProductionError> {
        let frames = |take: &TakeRecord| u64::from(take.thrown - take.first);
        let both = frames(&self.from) + frames(&self.to);
        progress.begin("looking at what moves", Some(both));
        let mut seen = 0;
        let mut read = |take: &TakeRecord| {
            memory.movement(source, take, cancel, &mut |by| {
                seen += by;
                progress.at(seen);
            })
        };
        Ok((read(&self.from)?, read(&self.to)?))
    }

    /// The ways back to the take that was left.
    fn back(&self, beside: &Beside) -> Result<Vec<MatchPoint>, ProductionError> {
        let turned = beside
            .moving
            .as_ref()
            .map(|(left, entered)| (&**entered, &**left));
        let wish = MatchWish::new(range(&self.to)?, range(&self.from)?);
        Ok(match_points(
            &beside.map.reversed(),
            turned,
            &wish,
            |_, _| true,
        ))
    }
}
