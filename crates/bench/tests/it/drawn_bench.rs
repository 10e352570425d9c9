//! Benches drawn by lot: rolls, a cut of them that passes the check, and deeds
//! both sensible and absurd, done on the bench state and on cells alike.

use onestrand_bench::{
    AsMade, BenchLog, BenchState, Deed, Entry, Film, Laid, Next, Taking, WorkLeft,
};
use onestrand_cut::{CheckRules, JoinKind, JoinTable, Piece, Strand, Strips, TrialCut, check};
use onestrand_film::{FrameName, FramePos, FrameRange, Frames, Gauge, RollId, Span};

use crate::boat::{plain_roll, roll};
use crate::cells::{Cell, Cells, Seen, Side, Where};

pub(crate) struct Lot(pub(crate) u64);

impl Lot {
    pub(crate) fn below(&mut self, bound: u32) -> u32 {
        let next = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = next.wrapping_add(1_442_695_040_888_963_407);
        let drawn = u32::try_from(self.0 >> 33).expect("31 bits");
        drawn % bound.max(1)
    }

    pub(crate) fn one<T: Copy>(&mut self, of: &[T]) -> T {
        let count = u32::try_from(of.len()).expect("few");
        of[self.below(count) as usize]
    }
}

pub(crate) fn pos(at: u32) -> FramePos {
    FramePos::new(at).expect("a frame")
}

/// Everything of one case.
pub(crate) struct Drawn {
    pub(crate) cut: TrialCut,
    pub(crate) strand: Strand,
    pub(crate) strips: Strips,
    pub(crate) rolls: Vec<(RollId, u32)>,
    pub(crate) table: JoinTable,
    pub(crate) order: Vec<Taking>,
    pub(crate) log: BenchLog,
    pub(crate) cells: Cells,
}

pub(crate) fn drawn(lot: &mut Lot, most: u32) -> Drawn {
    let gauge = lot.one(&[Gauge::Super8, Gauge::Regular8, Gauge::Sixteen]);
    let count = 1 + lot.below(3);
    let rolls: Vec<(RollId, u32)> = (1..=count)
        .map(|r| (roll(&format!("R{r}")), 30 + lot.below(150)))
        .collect();
    let plain = rolls
        .iter()
        .map(|(id, frames)| plain_roll(id.as_str(), *frames, gauge));
    let strand = Strand::new(gauge, plain, []);
    let table = JoinTable::usual(gauge);
    let cut = cut(lot, most, &strand, &rolls, &table);
    let strips = Strips::of(&cut, &table);
    let mut order: Vec<(u32, usize)> = (0..strips.strips.len())
        .filter(|s| strips.strips[*s].span.is_some())
        .map(|s| (lot.below(100), s))
        .collect();
    order.sort_unstable();
    let order = order.into_iter().map(|(_, strip)| Taking {
        strip,
        backward: lot.below(4) == 0,
    });
    let frames: Vec<u32> = rolls.iter().map(|r| r.1).collect();
    Drawn {
        order: order.collect(),
        log: BenchLog::new(rolls.clone(), table.clone()),
        cells: Cells::new(&frames, table.clone()),
        cut,
        strand,
        strips,
        rolls,
        table,
    }
}

fn cut(
    lot: &mut Lot,
    most: u32,
    strand: &Strand,
    rolls: &[(RollId, u32)],
    table: &JoinTable,
) -> TrialCut {
    let rules = CheckRules {
        table: table.clone(),
    };
    let usual = lot.one(&JoinKind::ALL);
    let mixed = lot.below(2) == 0;
    let mut cut = TrialCut::new(vec![], usual);
    for _ in 0..=lot.below(most) {
        let mut piece = if lot.below(8) == 0 {
            Piece::leader(Frames::new(1 + lot.below(20)).expect("a length"))
        } else {
            let (id, frames) = &rolls[lot.below(u32::try_from(rolls.len()).expect("few")) as usize];
            let begin = lot.below(*frames);
            let end = (begin + 1 + lot.below(40)).min(*frames);
            let range = FrameRange::of(begin, end).expect("a range");
            Piece::shot(Span::new(id.clone(), range))
        };
        if mixed {
            piece.join = Some(lot.one(&JoinKind::ALL));
        }
        let mut pieces = cut.pieces().to_vec();
        pieces.push(piece);
        let longer = TrialCut::new(pieces, usual);
        if check(&longer, strand, &rules).is_ok() {
            cut = longer;
        }
    }
    cut
}

impl Drawn {
    pub(crate) fn state(&self) -> &BenchState {
        self.log.state()
    }

    pub(crate) fn left(&self) -> WorkLeft {
        let left = WorkLeft::of(self.state(), &self.strips, &self.order, &[], &self.table);
        left.expect("its own steps fit the bench")
    }

    pub(crate) fn mending(&self) -> WorkLeft {
        let left = WorkLeft::mending(self.state(), &self.strips, &self.order, &[], &self.table);
        left.expect("its own steps fit the bench")
    }

    pub(crate) fn as_made(&self) -> AsMade {
        AsMade::of(self.state(), &self.strips, &self.table)
    }

    /// Does a deed on both benches, which must agree; whether it could be done.
    pub(crate) fn does(&mut self, deed: &Deed) -> bool {
        let before = self.state().clone();
        let done = self.log.add(Entry::Deed(deed.clone())).is_ok();
        if !done {
            assert_eq!(*self.state(), before, "refused: {deed:?}");
            let mut straight = before.clone();
            assert!(straight.apply(deed, &self.table, 0).is_err());
            assert_eq!(straight, before, "refused: {deed:?}");
        }
        let by_cells = self.by_cells(deed, &before, done);
        assert_eq!(by_cells, done, "{deed:?}\n{before:#?}");
        self.same();
        done
    }

    fn roll_no(&self, id: &RollId) -> usize {
        let at = self.rolls.iter().position(|(r, _)| r == id);
        at.unwrap_or(usize::MAX)
    }

    fn cell(&self, name: &FrameName) -> Cell {
        Cell::Frame(self.roll_no(&name.roll), name.frame.index())
    }

    fn by_cells(&mut self, deed: &Deed, before: &BenchState, done: bool) -> bool {
        match deed {
            Deed::Cut { roll, before: at } => {
                let mounted = before.mounted() == Some(roll);
                let no = self.roll_no(roll);
                self.cells.cut(no, at.index(), mounted)
            }
            Deed::Join { next, kind, laid } => {
                let cell = match next {
                    Next::Film(name) => self.cell(name),
                    Next::Other { position, .. } | Next::Last { position, .. } => {
                        self.cells.other(*position)
                    }
                    Next::TailLeader => Cell::TailLeader,
                };
                let over = matches!(laid, Laid::TurnedOver | Laid::EndOverEnd);
                let tail_first = matches!(laid, Laid::EndForEnd | Laid::EndOverEnd);
                match cell {
                    Cell::TailLeader => self.cells.join(cell, *kind, false, false),
                    _ => self.cells.join(cell, *kind, tail_first, over),
                }
            }
            Deed::Open { join } => self.cells.open(*join),
            Deed::Unjoin { frame, join } => self.unjoin(frame, *join, before),
            Deed::Tear { roll, frames } => {
                let no = self.roll_no(roll);
                let (begin, end) = (frames.begin().index(), frames.end().index());
                self.cells.tear(no, begin, end)
            }
            Deed::Hang { frame, .. } if done => {
                let cell = self.cell(frame);
                self.cells.put(cell, Where::Hanging)
            }
            Deed::MakeUp { frame, .. } => {
                let cell = self.cell(frame);
                self.cells.put(cell, Where::Outs)
            }
            // Pins, winding and what is let go are nothing to film.
            _ => done,
        }
    }

    fn unjoin(&mut self, frame: &FrameName, join: usize, before: &BenchState) -> bool {
        let holds = |c: &&onestrand_bench::Length| {
            let holds = |l: &onestrand_bench::Link| l.film.holds(&frame.roll, frame.frame.index());
            c.links.iter().any(holds)
        };
        let Some(length) = before.lengths().iter().find(holds) else {
            return false;
        };
        if join == 0 || join >= length.links.len() {
            return false;
        }
        // Counted along from the frame named, one way or the other.
        let told = self.links(&length.links);
        let before_join = length.links[..join].iter();
        let to = before_join.map(|l| match l.film {
            Film::Roll { .. } => l.film.frames() as usize,
            Film::Other { .. } => 1,
        });
        let to: usize = to.sum();
        let named = Shown::Frame(self.roll_no(&frame.roll), frame.frame.index());
        let at = told.iter().position(|t| t.0 == named).expect("it holds it");
        let (out, back) = match told[at].1 {
            true => (Side::Low, Side::High),
            false => (Side::High, Side::Low),
        };
        let (way, steps) = if to > at {
            (out, to - at - 1)
        } else {
            (back, at - to)
        };
        let (cell, entered_high, ..) = self.cells.seen_from(self.cell(frame), way)[steps];
        let side = if entered_high { Side::High } else { Side::Low };
        self.cells.unjoin(cell, side, to > at)
    }

    /// The two benches hold the same film, joined the same way, in the same places.
    fn same(&self) {
        let state = self.state();
        assert_eq!(self.told(&self.cells.reel()), self.links(state.reel()));
        assert_eq!(self.cells.is_ended(), state.is_ended());
        for length in &state.lengths()[1..] {
            let told = self.links(&length.links);
            let Some(at) = told.iter().position(|t| matches!(t.0, Shown::Frame(..))) else {
                continue;
            };
            let Shown::Frame(r, f) = told[at].0 else {
                continue;
            };
            let cell = Cell::Frame(r, f);
            let (out, back) = match told[at].1 {
                true => (Side::Low, Side::High),
                false => (Side::High, Side::Low),
            };
            assert_eq!(self.told(&self.cells.seen_from(cell, out)), told[at + 1..]);
            assert_eq!(self.cells.seen_from(cell, back).len(), at);
            assert_eq!(self.cells.is_over(cell), told[at].2);
            assert!(at > 0 || self.cells.is_end(cell, back));
        }
        for (no, (id, frames)) in self.rolls.iter().enumerate() {
            let count = state.count(id);
            let all = count.on_the_reel + count.hanging + count.left + count.gone;
            assert_eq!(all, *frames, "the four sum to the roll");
            let cells = |wanted: &[Where]| {
                let is = |f: &u32| wanted.contains(&self.cells.places[&Cell::Frame(no, *f)]);
                u32::try_from((0..*frames).filter(is).count()).expect("few")
            };
            assert_eq!(count.on_the_reel, cells(&[Where::Reel]));
            assert_eq!(count.hanging, cells(&[Where::Hanging]));
            assert_eq!(count.left, cells(&[Where::Roll, Where::Outs]));
            assert_eq!(count.gone, cells(&[Where::Gone]));
        }
    }

    fn told(&self, cells: &[Seen]) -> Vec<Told> {
        let film = cells.iter().filter(|c| c.0 != Cell::TailLeader);
        film.map(|(cell, tail_first, over, join)| {
            let shown = match cell {
                Cell::Frame(r, f) => Shown::Frame(*r, *f),
                _ => Shown::Other(self.cells.position(*cell).expect("it has one")),
            };
            (shown, *tail_first, *over, *join)
        })
        .collect()
    }

    fn links(&self, links: &[onestrand_bench::Link]) -> Vec<Told> {
        let mut all = Vec::new();
        for link in links {
            let over = matches!(link.laid, Laid::TurnedOver | Laid::EndOverEnd);
            let tail_first = matches!(link.laid, Laid::EndForEnd | Laid::EndOverEnd);
            let first = all.len();
            match &link.film {
                Film::Roll { roll, begin, end } => {
                    let no = self.roll_no(roll);
                    let mut frames: Vec<u32> = (*begin..*end).collect();
                    if tail_first {
                        frames.reverse();
                    }
                    let told = |f| (Shown::Frame(no, f), tail_first, over, None);
                    all.extend(frames.into_iter().map(told));
                }
                Film::Other { position, .. } => {
                    all.push((Shown::Other(*position), tail_first, over, None));
                }
            }
            all[first].3 = link.join.map(|j| j.kind);
        }
        all
    }

    /// A deed of any kind, of which many cannot be.
    pub(crate) fn absurd(&self, lot: &mut Lot) -> Deed {
        let (id, frames) = self.rolls[lot.below(9) as usize % self.rolls.len()].clone();
        let at = lot.below(frames + 2);
        let frame = FrameName {
            roll: id.clone(),
            frame: pos(at),
        };
        let range = FrameRange::of(at, at + 1 + lot.below(6)).expect("a range");
        let kind = lot.one(&JoinKind::ALL);
        let laid = lot.one(&Laid::ALL);
        match lot.below(16) {
            0 => Deed::Mount { roll: id },
            1 => Deed::Unmount,
            2 => Deed::Wind {
                roll: id,
                to: pos(at),
            },
            3..=5 => Deed::Cut {
                roll: id,
                before: pos(at),
            },
            6 => Deed::Hang {
                frame,
                pin: lot.below(6),
            },
            7 => Deed::Tear {
                roll: id,
                frames: range,
            },
            8 => Deed::LetGo {
                roll: id,
                frames: range,
            },
            9 => Deed::MakeUp {
                frame,
                reel: "outs".to_owned(),
            },
            10 | 11 => Deed::Open {
                join: lot.below(8) as usize,
            },
            12 => Deed::Unjoin {
                frame,
                join: lot.below(4) as usize,
            },
            13 => {
                let next = Next::TailLeader;
                if lot.below(6) == 0 {
                    Deed::Join { next, kind, laid }
                } else {
                    Deed::Unmount
                }
            }
            _ => Deed::Join {
                next: Next::Film(frame),
                kind,
                laid,
            },
        }
    }

    /// The next step, done not quite as it should be.
    pub(crate) fn slip(&self, lot: &mut Lot) -> Option<Deed> {
        let step = self.left().steps.into_iter().next()?;
        Some(match step.deed {
            Deed::Cut { roll, before } => {
                let by = lot.below(9);
                let at = (before.index() + by).saturating_sub(4);
                let before = pos(at);
                Deed::Cut { roll, before }
            }
            Deed::Join { next, .. } => Deed::Join {
                next,
                kind: lot.one(&JoinKind::ALL),
                laid: lot.one(&Laid::ALL),
            },
            Deed::Hang { frame, .. } => Deed::Hang {
                frame,
                pin: 1 + lot.below(9),
            },
            Deed::Mount { .. } => Deed::Mount {
                roll: self.rolls[lot.below(9) as usize % self.rolls.len()]
                    .0
                    .clone(),
            },
            other => other,
        })
    }

    /// So many deeds: steps ticked off, done with a slip, or absurd.
    pub(crate) fn go_on(&mut self, lot: &mut Lot, deeds: u32, slips: u32) {
        for _ in 0..deeds {
            let deed = match lot.below(100) {
                n if n < slips / 2 => Some(self.absurd(lot)),
                n if n < slips => self.slip(lot),
                _ => self.left().steps.into_iter().next().map(|s| s.deed),
            };
            if let Some(deed) = deed {
                self.does(&deed);
            }
        }
    }

    /// Frames of a roll that a strip wants, with the strip.
    pub(crate) fn wanted(&self) -> Vec<(RollId, u32, usize)> {
        let strips = self.strips.strips.iter().enumerate();
        strips
            .filter_map(|(i, s)| Some((i, s.span.as_ref()?)))
            .flat_map(|(i, span)| {
                let (begin, end) = (span.range.begin().index(), span.range.end().index());
                (begin..end).map(move |f| (span.roll.clone(), f, i))
            })
            .collect()
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Shown {
    Frame(usize, u32),
    Other(usize),
}

type Told = (Shown, bool, bool, Option<JoinKind>);

/// The frames of a list of parts.
pub(crate) fn frames_of<'a>(
    parts: impl IntoIterator<Item = &'a onestrand_bench::Part>,
) -> Vec<(RollId, u32)> {
    let mut all = Vec::new();
    for part in parts {
        if let Film::Roll { roll, begin, end } = &part.film {
            let mut frames: Vec<u32> = (*begin..*end).collect();
            if part.laid.is_tail_first() {
                frames.reverse();
            }
            all.extend(frames.into_iter().map(|f| (roll.clone(), f)));
        }
    }
    all
}
