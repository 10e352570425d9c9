//! Where cues stand in a version, and what became of them.

use onestrand_dub::{Anchor, CueState, Laid, Mark, Proposal, Why, echo_near, proposals, state};
use onestrand_film::Fps;
use onestrand_store::Production;

use super::kept::Kept;
use super::version::Version;
use crate::ProductionError;
use crate::documents::{
    AnchorWords, CueDocument, CueEchoDocument, CueProposalDocument, CueStateWord, CueWords,
    HoldsToWord, SoundWords,
};

/// What places are proposed at most.
const PROPOSED: usize = 3;

/// All that the places of cues rest on.
pub(crate) struct Laying<'a> {
    pub(crate) version: &'a Version,
    pub(crate) sounds: &'a [Kept<SoundWords>],
    pub(crate) speed: Fps,
    /// How many frames the sound lies ahead of its picture.
    pub(crate) lead: Option<i64>,
    pub(crate) joins: Vec<i64>,
    pub(crate) marks: Vec<Mark>,
}

impl Laying<'_> {
    /// What is written on frames, for proposals.
    pub(crate) fn marks(production: &Production) -> Result<Vec<Mark>, ProductionError> {
        let notes = production.notes()?.into_iter();
        let mark = |(_, note): (i64, onestrand_store::NoteRecord)| Mark {
            roll: note.roll,
            frame: note.frame,
            words: note.words,
        };
        Ok(notes.map(mark).collect())
    }

    /// Where a cue stands; nothing where it has no place.
    pub(crate) fn place(&self, cue: &CueWords) -> Option<Laid> {
        let at = in_version(&cue.start, &self.version.placed)?;
        let frames = match &cue.end {
            Some(end) => in_version(end, &self.version.placed)
                .and_then(|end| u32::try_from(end - at).ok())
                .filter(|frames| *frames > 0)?,
            None => self.frames_of(cue),
        };
        Some(Laid { at, frames })
    }

    /// How long a cue is whose end holds to nothing. Unit: frames, at least 1.
    fn frames_of(&self, cue: &CueWords) -> u32 {
        if let Some(frames) = cue.frames {
            return frames;
        }
        self.frames_of_sound(cue).unwrap_or(1)
    }

    /// How long its sound lasts. Unit: frames, rounded up.
    pub(crate) fn frames_of_sound(&self, cue: &CueWords) -> Option<u32> {
        let id = cue.sound?;
        let sound = &self.sounds.iter().find(|kept| kept.id == id)?.words;
        let samples = cue
            .to
            .unwrap_or(sound.facts.samples)
            .saturating_sub(cue.from);
        // Exact: samples · S / rate, played so much faster.
        let over = u128::from(samples) * u128::from(self.speed.num()) * 1_000_000;
        let under = u128::from(sound.facts.rate)
            * u128::from(self.speed.den())
            * u128::from(sound.play.max(1));
        let frames = over.div_ceil(under.max(1)).max(1);
        Some(u32::try_from(frames).unwrap_or(u32::MAX))
    }

    pub(crate) fn document(&self, kept: Kept<CueWords>) -> CueDocument {
        let cue = kept.words;
        let was = cue.laid.as_ref().map(|laid| Laid {
            at: laid.at,
            frames: laid.frames,
        });
        let now = self.place(&cue);
        let stands = now.or(was).unwrap_or(Laid {
            at: 0,
            frames: self.frames_of(&cue),
        });
        let short_by = match (now, self.frames_of_sound(&cue)) {
            (Some(now), Some(sounds)) if !cue.looped => now.frames.saturating_sub(sounds),
            _ => 0,
        };
        let echo = now.zip(self.lead).and_then(|(now, lead)| {
            let echo = echo_near(now.at, &self.joins, lead)?;
            Some(CueEchoDocument {
                join_at: echo.join_at,
                heard_at: echo.heard_at,
                frames_away: echo.frames_away,
            })
        });
        CueDocument {
            id: kept.id,
            at: stands.at,
            frames: stands.frames,
            state: match state(was, now) {
                CueState::Held => CueStateWord::Held,
                CueState::Moved => CueStateWord::Moved,
                CueState::Stretched => CueStateWord::Stretched,
                CueState::Orphan => CueStateWord::Orphan,
            },
            was: was.map(|was| was.at),
            proposals: if now.is_none() {
                self.proposals(&cue)
            } else {
                Vec::new()
            },
            echo,
            short_by,
            holds: holds(&cue.start),
            cue,
        }
    }

    fn proposals(&self, cue: &CueWords) -> Vec<CueProposalDocument> {
        // What has lost its end is proposed where its start is.
        let placed = &self.version.placed;
        if let Some(at) = in_version(&cue.start, placed) {
            return vec![CueProposalDocument {
                at,
                anchor: cue.start.clone(),
                why: "its end has no place in this version: it would last as long as its sound"
                    .to_owned(),
            }];
        }
        let offset = cue.start.offset;
        let found = proposals(&cue.start.roll, cue.start.frame, &self.marks, placed);
        let one = |found: Proposal| CueProposalDocument {
            at: found.at + i64::from(offset),
            why: why(&found.why),
            anchor: AnchorWords {
                offset,
                ..words_of(&found.anchor)
            },
        };
        found.into_iter().take(PROPOSED).map(one).collect()
    }
}

/// The running frame of what a cue holds to.
fn in_version(anchor: &AnchorWords, version: &onestrand_dub::Placed) -> Option<i64> {
    let roll = anchor.roll.clone();
    let held = match anchor.to {
        HoldsToWord::Frame => Anchor::Frame {
            roll,
            frame: anchor.frame,
        },
        // A join before leader or a card has no roll: it is the head of the film, or a card
        // at the place it was.
        HoldsToWord::Join if roll.is_empty() => {
            let at = i64::from(anchor.frame);
            let begins = version.pieces().iter().any(|piece| piece.at == at);
            return begins.then(|| at + i64::from(anchor.offset));
        }
        HoldsToWord::Join => Anchor::Join {
            roll,
            first: anchor.frame,
        },
        HoldsToWord::Clock => Anchor::Clock {
            at: i64::from(anchor.frame),
        },
    };
    Some(held.in_version(version)? + i64::from(anchor.offset))
}

fn words_of(anchor: &Anchor) -> AnchorWords {
    let (to, roll, frame) = match anchor {
        Anchor::Frame { roll, frame } => (HoldsToWord::Frame, roll.clone(), *frame),
        Anchor::Join { roll, first } => (HoldsToWord::Join, roll.clone(), *first),
        Anchor::Clock { at } => {
            let frame = u32::try_from(*at).unwrap_or(0);
            (HoldsToWord::Clock, String::new(), frame)
        }
    };
    AnchorWords {
        to,
        roll,
        frame,
        offset: 0,
    }
}

fn why(why: &Why) -> String {
    match why {
        Why::SameMark { words, nth } => format!("{words} {nth} of the take that is shown"),
        Why::BesideMark { words } => format!("as far from {words} in the take that is shown"),
        Why::NearestLeft { frames } => {
            format!("the nearest frame of its take that is left, {frames} away")
        }
    }
}

/// What a start holds to, in words.
fn holds(anchor: &AnchorWords) -> String {
    let further = match anchor.offset {
        0 => String::new(),
        later if later > 0 => format!(", {later} later"),
        earlier => format!(", {} earlier", earlier.unsigned_abs()),
    };
    let AnchorWords { roll, frame, .. } = anchor;
    match anchor.to {
        HoldsToWord::Frame => format!("frame {roll}·{frame}{further}"),
        HoldsToWord::Join if roll.is_empty() => format!("the join at {frame}{further}"),
        HoldsToWord::Join => format!("the join before {roll}·{frame}{further}"),
        HoldsToWord::Clock => format!("the clock, frame {frame}{further}"),
    }
}
