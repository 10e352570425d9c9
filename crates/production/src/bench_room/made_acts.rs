//! The acts of a re-cut, as the hand reads them: the made film is run from head to tail,
//! and parted where the new version wants it otherwise.

use onestrand_bench::{Count, Deed, Film, Laid, LandmarkKind, Next, Place, Towards, WorkStep};
use onestrand_film::{FrameName, FramePos, Frames};

use super::acts_left::Acts;
use super::words::{frame, shot};
use crate::documents::{FrameRefDocument, LandmarkCountDocument};

impl Acts<'_> {
    /// The version whose film is made anew.
    fn made_of(&self) -> &str {
        let made = self.work.made_of.as_ref();
        made.map_or("the version before", |(name, _)| name.as_str())
    }

    pub(super) fn made_title(&self, step: &WorkStep) -> Option<String> {
        let made_of = self.made_of();
        Some(match &step.deed {
            Deed::TurnBack { .. } => format!("Turn {made_of} back"),
            Deed::MountMade => format!("Put {made_of} on the rewinds"),
            Deed::WindMade { .. } => format!("Wind {made_of} on"),
            Deed::Lead => format!("Lead the head of {made_of} on"),
            Deed::Unmount if self.work.made_of.is_some() => "Clear the rewinds".to_owned(),
            Deed::Unjoin { .. } | Deed::UnjoinOther { .. } => {
                let [before, behind] = self.opened_sides(step);
                format!("Open {before} | {behind} of {made_of}")
            }
            Deed::Cut { .. } if is_of_made(step) => {
                let for_shot = step.strip.and_then(|s| self.work.positions(s));
                match for_shot {
                    Some(p) => format!("Cut {made_of}, for {}", shot(p)),
                    None => format!("Cut {made_of}"),
                }
            }
            _ => return None,
        })
    }

    /// What the made film had before and behind a join: positions, or a leader.
    fn opened_sides(&self, step: &WorkStep) -> [String; 2] {
        let was = |name: &Option<FrameName>, last: bool| {
            let name = name.as_ref()?;
            let (first, end) = self.work.was_at(&name.roll, name.frame.index())?;
            Some(if last { end } else { first }.to_string())
        };
        let leader = |side: Option<String>, is_leader: bool| {
            side.unwrap_or_else(|| match is_leader {
                true => "leader".to_owned(),
                false => "card".to_owned(),
            })
        };
        let join = match &step.deed {
            Deed::Unjoin { join, .. } | Deed::UnjoinOther { join, .. } => *join,
            _ => 0,
        };
        [
            leader(was(&step.outgoing, true), join == 0),
            leader(was(&step.incoming, false), join > 0),
        ]
    }

    /// Positions on both sides of a join that is opened are those of the version it was
    /// made in.
    pub(super) fn was_named(&self, name: &FrameName) -> FrameRefDocument {
        let was = self.work.was_at(&name.roll, name.frame.index());
        FrameRefDocument {
            roll: name.roll.to_string(),
            frame: name.frame.index(),
            position: was.map(|p| p.0),
            laid: Laid::Right.code().to_owned(),
        }
    }

    pub(super) fn made_what(&self, step: &WorkStep) -> Option<(String, &'static str)> {
        let made_of = self.made_of();
        Some(match &step.deed {
            Deed::TurnBack { .. } => (
                format!(
                    "Wind {made_of} back on its reel, head out. An empty reel takes up. Nothing is \
                     opened yet."
                ),
                "Wound back",
            ),
            Deed::MountMade => (
                format!("Put {made_of} on the feed side, its head to the take-up side."),
                "It is on",
            ),
            Deed::WindMade { .. } => (
                format!("Wind {made_of} on to the end of what is taken next."),
                "Wound on",
            ),
            Deed::Lead => (
                "Lead it on the empty reel with its head leader: that join stays.".to_owned(),
                "Led on",
            ),
            Deed::Unmount if self.work.made_of.is_some() => (
                format!(
                    "Wind what is there on its reel. What is left of {made_of} are outs now: make \
                     them up with a list, so that they are found again."
                ),
                "Rewinds are clear",
            ),
            Deed::Unjoin { .. } | Deed::UnjoinOther { .. } => {
                let kind = step.opens.map_or("", |k| k.word());
                let [before, behind] = self.opened_sides(step);
                (
                    format!("Wind to the {kind} join {before} | {behind} and open it."),
                    "Join open",
                )
            }
            Deed::Cut { roll, before } if is_of_made(step) => (
                format!(
                    "Cut on the line before {}. The film is still joined there: count from its \
                     join.",
                    frame(roll, before.index())
                ),
                "Cut made",
            ),
            Deed::Join {
                next: Next::Last { .. },
                kind,
                ..
            } => (
                format!(
                    "Lead it to the reel with its tail leader and join it with {}.",
                    kind.word()
                ),
                "Join made",
            ),
            _ => return None,
        })
    }

    /// Of a cut in the made film: the count from the nearer end of the piece it is in.
    pub(super) fn counted_from_join(&self, step: &WorkStep) -> Option<LandmarkCountDocument> {
        let Deed::Cut { roll, before } = &step.deed else {
            return None;
        };
        let state = self
            .work
            .seen_from(self.room.log.state(), self.room.log.table());
        let made = state.lengths().iter().filter(|l| l.place == Place::Made);
        let mut links = made.flat_map(|l| &l.links);
        let link = links.find(|l| l.film.holds(roll, before.index()))?;
        let Film::Roll { begin, end, .. } = link.film else {
            return None;
        };
        let (since, until) = (before.index() - begin, end - before.index());
        let (at, count, towards, from) = match since <= until {
            true => (begin, since, Towards::Tail, "the join before it"),
            false => (end, until, Towards::Head, "the join behind it"),
        };
        let count = Count {
            from: LandmarkKind::Join(None),
            at: FramePos::new(at).ok()?,
            frames: Frames::new(count).ok()?,
            towards,
        };
        Some(LandmarkCountDocument {
            from: from.to_owned(),
            ..self.cards.counted(&count, roll)
        })
    }
}

/// Whether a step cuts film that was turned back: such a cut names both its sides.
pub(super) fn is_of_made(step: &WorkStep) -> bool {
    matches!(step.deed, Deed::Cut { .. }) && step.outgoing.is_some() && step.incoming.is_some()
}
