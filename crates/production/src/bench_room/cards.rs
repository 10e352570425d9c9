//! Frame cards of the acts to come.

use onestrand_bench::{
    Blade, CardMaker, CardRules, Count, CutPlace, CutsMade, Doubt, Film, FrameCard, Goes, Landmark,
    LandmarkKind, Landmarks, Place, StripEnd, Taking, WorkCount,
};
use onestrand_cut::{Strand, Wind};
use onestrand_film::{FrameName, FramePos, Length, RollId, Shrinkage};
use std::collections::BTreeMap;

use super::room::{Room, Work};
use crate::documents::{CutPlaceDocument, FrameCardDocument, LandmarkCountDocument};

/// What cards are made from.
pub(super) struct Cards<'a> {
    pub(super) strand: &'a Strand,
    pub(super) count: WorkCount,
    pub(super) landmarks: Landmarks,
    pub(super) rules: CardRules,
}

impl Cards<'_> {
    /// The card of a strip, the bench being as it is; `cut` says which of its ends
    /// it is asked for.
    pub(super) fn of(
        &self,
        room: &Room,
        work: &Work,
        (strip, cut): (usize, FramePos),
        pin: Option<u32>,
    ) -> Option<FrameCardDocument> {
        let extent = self.count.extents.iter().find(|e| e.strip == strip)?;
        let taking = work.order.iter().find(|t: &&Taking| t.strip == strip);
        let first = match taking.is_some_and(|t| t.backward) {
            true => StripEnd::Tail,
            false => StripEnd::Head,
        };
        let maker = CardMaker {
            work: &self.count,
            strand: self.strand,
            landmarks: &self.landmarks,
            rules: &self.rules,
        };
        let goes = pin.map_or(Goes::Reel, Goes::Pin);
        // Its own ends are thought uncut: the card is the same for both its cuts.
        let mut made = cuts_made(room);
        if let Some(cuts) = made.get_mut(&extent.roll) {
            let own = |at: &FramePos| extent.taken.begin() <= *at && *at <= extent.taken.end();
            cuts.retain(|at| !own(at));
        }
        let card = maker.card(extent, &made, first, goes);
        Some(self.document(&card, cut))
    }

    fn document(&self, card: &FrameCard, cut: FramePos) -> FrameCardDocument {
        let near = |place: &CutPlace| place.at.index().abs_diff(cut.index());
        let this_end = match near(&card.head) <= near(&card.tail) {
            true => "head",
            false => "tail",
        };
        FrameCardDocument {
            this_end: this_end.to_owned(),
            frames: card.shown.len().count(),
            goes: match card.goes {
                Goes::Pin(pin) => format!("pin {pin}"),
                Goes::Reel => "straight on the take-up reel".to_owned(),
            },
            is_print: self
                .strand
                .roll(&card.roll)
                .is_some_and(|r| r.wind == Some(Wind::A)),
            head: self.place(&card.head, &card.roll),
            tail: self.place(&card.tail, &card.roll),
        }
    }

    fn place(&self, place: &CutPlace, roll: &RollId) -> CutPlaceDocument {
        CutPlaceDocument {
            at: place.at.index(),
            blade: match place.blade {
                Blade::Cuts => "cuts",
                Blade::CutBefore => "cut_before",
                Blade::RollEnds => "roll_ends",
            }
            .to_owned(),
            kept: place.kept.index(),
            thrown: place.thrown.map(FramePos::index),
            thrown_in: place.thrown_in,
            eaten: place.eaten.count(),
            chain: place
                .main
                .counts
                .iter()
                .map(|c| self.counted(c, roll))
                .collect(),
            doubt: doubt_words(&place.main_doubt),
            from_other_cut: place.from_other_cut.as_ref().map(|c| self.counted(c, roll)),
            nearer: place.nearer.as_ref().map(|c| self.counted(c, roll)),
        }
    }

    pub(super) fn counted(&self, count: &Count, roll: &RollId) -> LandmarkCountDocument {
        let gauge = self
            .strand
            .roll(roll)
            .map_or(self.strand.gauge(), |r| r.gauge);
        let shrinkage = self.rules.shrinkage.get(roll).copied();
        let length = Length::by_pitch(count.frames, gauge, shrinkage.unwrap_or(Shrinkage::NONE));
        let feet = gauge.footage(count.frames);
        let landmark = Landmark {
            kind: count.from.clone(),
            at: FrameName {
                roll: roll.clone(),
                frame: count.at,
            },
        };
        LandmarkCountDocument {
            from: landmark.words(),
            kind: kind_word(&count.from).to_owned(),
            at: count.at.index(),
            frames: count.frames.count(),
            towards: count.towards.code().to_owned(),
            feet: feet.feet(),
            feet_frames: feet.frames(),
            mm: length.mm_text(1),
        }
    }
}

const fn kind_word(kind: &LandmarkKind) -> &'static str {
    match kind {
        LandmarkKind::Head => "head",
        LandmarkKind::CameraStop(_) => "camera_stop",
        LandmarkKind::Join(_) => "join",
        LandmarkKind::EdgeNumber(_) => "edge_number",
        LandmarkKind::NewPicture(_) => "new_picture",
        LandmarkKind::Flash => "flash",
        LandmarkKind::LastCut => "last_cut",
        LandmarkKind::Tail => "tail",
        LandmarkKind::Change(_) => "change",
        LandmarkKind::Mark(_) => "mark",
        LandmarkKind::PaperSlip => "paper_slip",
    }
}

fn doubt_words(doubt: &Doubt) -> String {
    let mm = doubt.um as f64 / 1000.0;
    let frames = f64::from(doubt.frames_100) / 100.0;
    format!("± {mm:.1} mm, {frames:.1} frame")
}

/// Where the blade has been on film that still lies with its roll.
fn cuts_made(room: &Room) -> CutsMade {
    let mut made: CutsMade = BTreeMap::new();
    for length in room.log.state().lengths() {
        if length.place != Place::Roll {
            continue;
        }
        for link in &length.links {
            if let Film::Roll { roll, begin, end } = &link.film {
                let cuts = made.entry(roll.clone()).or_default();
                for at in [*begin, *end] {
                    if at > 0
                        && let Ok(at) = FramePos::new(at)
                    {
                        cuts.insert(at);
                    }
                }
            }
        }
    }
    made
}
