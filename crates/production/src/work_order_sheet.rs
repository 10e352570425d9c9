//! The work order, the frame cards and the pin labels of a version.

use std::collections::BTreeMap;

use onestrand_bench::{
    BenchAct, Blade, COUNTED_TO_ONE_SLIP, Count, CutPlace, Doubt, DoubtBy, FrameCard, Goes,
    Landmark, Step, StripEnd, Towards,
};
use onestrand_cut::{PieceKind, Strips, Wind};
use onestrand_film::{FrameDelta, FrameName, FramePos, Frames, RollId};
use onestrand_sheets::{
    CardEnd, CardFrame, Edge, Fate, FrameCards, JoinMade, Lies, MayBeOff, Pin, PinLabel, PinLabels,
    StripCard, StripEnd as PaperEnd, TakenUp, WayCount, WorkMount, WorkOrderSheet, WorkStrip,
};

use crate::ProductionError;
use crate::gather_sheets::SheetsToPrint;
use crate::joins_on_sheet::join_word;
use crate::on_the_bench::way;

/// A number that fits on paper.
pub(crate) fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

impl SheetsToPrint {
    pub(crate) fn work_order(&mut self) -> Result<WorkOrderSheet, ProductionError> {
        let planned = self.plan()?;
        let mut writer = Writing {
            cards: planned.cards.iter(),
            before: Vec::new(),
            mounts: Vec::new(),
            stands: BTreeMap::new(),
        };
        for step in &planned.plan.steps {
            self.write_step(&mut writer, step)?;
        }
        let corner = &planned.plan.corner;
        let wound = u32::try_from(corner.wound_frames).unwrap_or(u32::MAX);
        Ok(WorkOrderSheet {
            head: self.head().clone(),
            winding: way(self.bench.winding).to_owned(),
            best: planned.plan.best,
            before: writer.before,
            mounts: writer.mounts,
            joins: self.joins_made(),
            running: self.cut.frames(),
            cuts: count(planned.work.cuts),
            leftovers: count(planned.work.leftovers),
            wound: Frames::new(wound)?,
            pins: corner.pins_peak,
            pins_owned: self.bench.pins,
            minutes: planned.plan.minutes.ceil() as u32,
        })
    }

    /// Puts one act of the plan on paper.
    fn write_step(
        &mut self,
        writing: &mut Writing<'_>,
        step: &Step,
    ) -> Result<(), ProductionError> {
        match (step.act, &step.roll, step.pin) {
            (BenchAct::Mount, Some(roll), _) => writing.mount(roll),
            (BenchAct::Wind, ..) => writing.wind(step),
            (BenchAct::Hang, ..) | (BenchAct::TakeUp, Some(_), None) => {
                if let Some(card) = writing.cards.next() {
                    let wind = writing.wound_to(card);
                    let strip = self.work_strip(card, wind)?;
                    if let Some(mount) = writing.mounts.last_mut() {
                        mount.strips.push(strip);
                    }
                }
            }
            (BenchAct::TakeUp, _, pin) => {
                let position = step.position.unwrap_or_default();
                let words = match pin {
                    Some(_) => String::new(),
                    None => self.lies_ready(position),
                };
                writing.taken_up(TakenUp {
                    pin,
                    words,
                    position: count(position),
                });
            }
            _ => {}
        }
        Ok(())
    }

    /// What comes from no roll: leader, or a card still to be shot.
    fn lies_ready(&self, position: usize) -> String {
        let piece = self.cut.pieces().get(position.saturating_sub(1));
        match piece.map(|piece| &piece.kind) {
            Some(PieceKind::Leader(frames)) => format!("leader, {frames} frames"),
            Some(PieceKind::Card { frames, title }) => format!("card {title}, {frames} frames"),
            Some(PieceKind::Shot(_)) | None => String::new(),
        }
    }

    fn work_strip(
        &mut self,
        card: &FrameCard,
        wind: FrameDelta,
    ) -> Result<WorkStrip, ProductionError> {
        let (first, second) = match card.first_cut {
            StripEnd::Head => (&card.head, &card.tail),
            StripEnd::Tail => (&card.tail, &card.head),
        };
        Ok(WorkStrip {
            kept: card.shown,
            cut: card.taken,
            first: paper_end(card.first_cut),
            first_edge: edge(first.blade),
            second_edge: edge(second.blade),
            way: ways(&card.roll, &first.main.counts)?,
            near: first
                .nearer
                .as_ref()
                .map(|near| one_way(&card.roll, near))
                .transpose()?,
            wind,
            pin: pin(card.goes),
            position: count(card.positions.0),
            last_position: count(card.positions.1),
            picture: self.picture(&FrameName {
                roll: card.roll.clone(),
                frame: card.shown.begin(),
            })?,
            then: Vec::new(),
        })
    }

    /// Every join of the cut in the order in which it is made: that of the cut.
    pub(crate) fn joins_made(&self) -> Vec<JoinMade> {
        let strips = Strips::of(&self.cut, &self.rules.table);
        let one = |joint: &onestrand_cut::Joint| JoinMade {
            after: joint.after.map(|at| count(at + 1)),
            before: joint.before.map(|at| count(at + 1)),
            kind: join_word(joint.kind),
        };
        strips.joints.iter().map(one).collect()
    }

    pub(crate) fn frame_cards(&mut self) -> Result<FrameCards, ProductionError> {
        let planned = self.plan()?;
        let mut cards = Vec::with_capacity(planned.cards.len());
        for (number, card) in (1..).zip(&planned.cards) {
            cards.push(self.strip_card(number, card)?);
        }
        Ok(FrameCards {
            head: self.head().clone(),
            lies: self.bench.lies,
            limit: self.bench.rules.limit,
            one_slip_in: COUNTED_TO_ONE_SLIP,
            cards,
        })
    }

    fn strip_card(&mut self, number: u32, card: &FrameCard) -> Result<StripCard, ProductionError> {
        let (slate, action) = self.said_of(card);
        let roll = self.strand.roll(&card.roll);
        Ok(StripCard {
            number,
            position: count(card.positions.0),
            last_position: count(card.positions.1),
            roll: card.roll.clone(),
            slate,
            action,
            kept: card.shown,
            cut: card.taken,
            is_print: roll.is_some_and(|r| r.wind == Some(Wind::A)),
            first: paper_end(card.first_cut),
            pin: pin(card.goes),
            head: self.card_end(card, &card.head, StripEnd::Head)?,
            tail: self.card_end(card, &card.tail, StripEnd::Tail)?,
        })
    }

    /// Slate and action of what a strip shows.
    fn said_of(&self, card: &FrameCard) -> (String, String) {
        let piece = self.cut.pieces().get(card.positions.0 - 1);
        let Some(span) = piece.and_then(onestrand_cut::Piece::span) else {
            return (String::new(), String::new());
        };
        let slate = self.slate_of(span, piece.and_then(|piece| piece.slate.as_ref()));
        let take = self.strand.take_at(&span.first());
        (
            slate,
            take.map(|take| take.action.clone()).unwrap_or_default(),
        )
    }

    fn card_end(
        &mut self,
        card: &FrameCard,
        place: &CutPlace,
        end: StripEnd,
    ) -> Result<CardEnd, ProductionError> {
        let mut frames: Vec<(FramePos, Fate)> = Vec::new();
        let (kept, at) = (place.kept.index(), place.at.index());
        let eaten = match end {
            StripEnd::Head => at..kept,
            StripEnd::Tail => kept + 1..at,
        };
        frames.push((place.kept, Fate::Kept));
        for frame in eaten {
            frames.push((FramePos::new(frame)?, Fate::Eaten));
        }
        if let Some(thrown) = place.thrown {
            let fate = place
                .thrown_in
                .map_or(Fate::Thrown, |at| Fate::WantedIn(count(at)));
            frames.push((thrown, fate));
        }
        frames.sort_by_key(|(frame, _)| *frame);
        let mut shown = Vec::with_capacity(frames.len());
        for (frame, fate) in frames {
            let roll = card.roll.clone();
            let picture = self.picture(&FrameName { roll, frame })?;
            shown.push(CardFrame {
                frame,
                fate,
                picture,
            });
        }
        let near = match (&place.nearer, place.nearer_doubt) {
            (Some(near), Some(doubt)) => Some((one_way(&card.roll, near)?, off(doubt))),
            _ => None,
        };
        let over = place.from_other_cut.as_ref();
        Ok(CardEnd {
            at: place.at,
            edge: edge(place.blade),
            frames: shown,
            way: ways(&card.roll, &place.main.counts)?,
            off: off(place.main_doubt),
            before_other_cut: place.before_other_cut,
            from_other_cut: over.map(|over| one_way(&card.roll, over)).transpose()?,
            near,
        })
    }

    pub(crate) fn pin_labels(&mut self) -> Result<PinLabels, ProductionError> {
        let planned = self.plan()?;
        let joins = self.joins_made();
        let mut labels = Vec::new();
        for (number, card) in (1..).zip(&planned.cards) {
            let Goes::Pin(pin) = card.goes else { continue };
            let (slate, _) = self.said_of(card);
            let position = count(card.positions.0);
            let join = joins.iter().find(|join| join.before == Some(position));
            labels.push(PinLabel {
                pin,
                number,
                position,
                last_position: count(card.positions.1),
                roll: card.roll.clone(),
                slate,
                kept: card.shown,
                cut: card.taken,
                off_after: join.and_then(|join| join.after),
                join: join.map_or(join_word(self.cut.usual_join()), |join| join.kind),
                picture: self.picture(&FrameName {
                    roll: card.roll.clone(),
                    frame: card.shown.begin(),
                })?,
            });
        }
        Ok(PinLabels {
            head: self.head().clone(),
            labels,
        })
    }
}

/// The sheet while it is written.
struct Writing<'a> {
    cards: std::slice::Iter<'a, FrameCard>,
    before: Vec<TakenUp>,
    mounts: Vec<WorkMount>,
    /// Where each roll stands that was on the rewinds.
    stands: BTreeMap<RollId, FramePos>,
}

impl Writing<'_> {
    fn mount(&mut self, roll: &RollId) {
        let again = self.stands.contains_key(roll);
        self.stands.entry(roll.clone()).or_default();
        self.mounts.push(WorkMount {
            roll: roll.clone(),
            lies: if again { Lies::AsLeft } else { Lies::HeadsOut },
            through: None,
            strips: Vec::new(),
        });
    }

    /// From where the roll stands to the first end of a strip; then it stands at
    /// the second.
    fn wound_to(&mut self, card: &FrameCard) -> FrameDelta {
        let (first, second) = match card.first_cut {
            StripEnd::Head => (card.head.at, card.tail.at),
            StripEnd::Tail => (card.tail.at, card.head.at),
        };
        let stood = self.stands.insert(card.roll.clone(), second);
        first.since(stood.unwrap_or_default())
    }

    fn wind(&mut self, step: &Step) {
        if step.position.is_none()
            && let Some(mount) = self.mounts.last_mut()
        {
            mount.through = step.frame;
            let end = step.frame.unwrap_or_default();
            self.stands.insert(mount.roll.clone(), end);
        }
    }

    fn taken_up(&mut self, taken: TakenUp) {
        let strips = self.mounts.iter_mut().flat_map(|mount| &mut mount.strips);
        match strips.last() {
            Some(strip) => strip.then.push(taken),
            None => self.before.push(taken),
        }
    }
}

fn paper_end(end: StripEnd) -> PaperEnd {
    match end {
        StripEnd::Head => PaperEnd::Head,
        StripEnd::Tail => PaperEnd::Tail,
    }
}

fn edge(blade: Blade) -> Edge {
    match blade {
        Blade::Cuts => Edge::Cut,
        Blade::CutBefore => Edge::CutBefore,
        Blade::RollEnds => Edge::RollEnds,
    }
}

fn pin(goes: Goes) -> Pin {
    match goes {
        Goes::Pin(number) => Pin::Number(number),
        Goes::Reel => Pin::None,
    }
}

fn off(doubt: Doubt) -> MayBeOff {
    MayBeOff {
        frames_100: doubt.frames_100,
        by_ruler: doubt.by == DoubtBy::Ruler,
    }
}

fn ways(roll: &RollId, counts: &[Count]) -> Result<Vec<WayCount>, ProductionError> {
    counts.iter().map(|one| one_way(roll, one)).collect()
}

fn one_way(roll: &RollId, one: &Count) -> Result<WayCount, ProductionError> {
    let roll = roll.clone();
    let landmark = Landmark {
        kind: one.from.clone(),
        at: FrameName {
            roll,
            frame: one.at,
        },
    };
    let frames = i32::try_from(one.frames.count()).unwrap_or(i32::MAX);
    Ok(WayCount {
        words: landmark.words(),
        at: one.at,
        count: FrameDelta::new(match one.towards {
            Towards::Tail => frames,
            Towards::Head => -frames,
        })?,
    })
}
