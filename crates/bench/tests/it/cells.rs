//! A bench of cells: every frame of every roll with what is next to it on either
//! side. It knows nothing of lengths, links or strips.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_cut::{JoinKind, JoinTable};

/// A frame by roll and number, leader or a card by a number of its own, and the
/// two ends of the reel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Cell {
    Frame(usize, u32),
    Other(usize),
    HeadLeader,
    TailLeader,
}

/// A side of a cell: towards the head of its roll, or towards its tail.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Side {
    Low,
    High,
}

impl Side {
    pub(crate) fn other(self) -> Self {
        match self {
            Self::Low => Self::High,
            Self::High => Self::Low,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bond {
    Grown,
    Joined(JoinKind),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Where {
    Reel,
    Hanging,
    Roll,
    Outs,
    Gone,
}

type Point = (Cell, Side);

#[derive(Debug, Clone)]
pub(crate) struct Cells {
    bonds: BTreeMap<Point, (Point, Bond)>,
    pub(crate) places: BTreeMap<Cell, Where>,
    /// Whether the emulsion lies on the other side.
    over: BTreeSet<Cell>,
    others: BTreeMap<usize, usize>,
    table: JoinTable,
}

/// A cell as it is seen: whether its tail comes first, whether it is turned over,
/// and the join before it.
pub(crate) type Seen = (Cell, bool, bool, Option<JoinKind>);

impl Cells {
    pub(crate) fn new(rolls: &[u32], table: JoinTable) -> Self {
        let mut cells = Self {
            bonds: BTreeMap::new(),
            places: BTreeMap::from([(Cell::HeadLeader, Where::Reel)]),
            over: BTreeSet::new(),
            others: BTreeMap::new(),
            table,
        };
        for (roll, frames) in rolls.iter().enumerate() {
            for frame in 0..*frames {
                let cell = Cell::Frame(roll, frame);
                cells.places.insert(cell, Where::Roll);
                if frame > 0 {
                    let before = Cell::Frame(roll, frame - 1);
                    cells.bind((before, Side::High), (cell, Side::Low), Bond::Grown);
                }
            }
        }
        cells
    }

    fn bind(&mut self, a: Point, b: Point, bond: Bond) {
        assert_eq!(self.bonds.insert(a, (b, bond)), None);
        assert_eq!(self.bonds.insert(b, (a, bond)), None);
    }

    fn part(&mut self, a: Point) -> Option<(Point, Bond)> {
        let (b, bond) = self.bonds.remove(&a)?;
        self.bonds.remove(&b);
        Some((b, bond))
    }

    /// From a cell's side on: every cell with the side it is entered by, and the
    /// bond crossed to come there.
    fn walk(&self, from: Cell, out: Side) -> Vec<(Cell, Side, Bond)> {
        let mut at = (from, out);
        let mut seen = Vec::new();
        while let Some(((cell, side), bond)) = self.bonds.get(&at) {
            seen.push((*cell, *side, *bond));
            at = (*cell, side.other());
        }
        seen
    }

    /// All that hangs together with a cell.
    fn chain(&self, cell: Cell) -> Vec<Cell> {
        let both = [Side::Low, Side::High].into_iter();
        let mut all: Vec<Cell> = both
            .flat_map(|side| self.walk(cell, side))
            .map(|(cell, ..)| cell)
            .collect();
        all.push(cell);
        all
    }

    pub(crate) fn reel(&self) -> Vec<Seen> {
        self.seen_from(Cell::HeadLeader, Side::High)
    }

    pub(crate) fn seen_from(&self, cell: Cell, out: Side) -> Vec<Seen> {
        let seen = self.walk(cell, out).into_iter();
        seen.map(|(cell, entered, bond)| {
            let join = match bond {
                Bond::Grown => None,
                Bond::Joined(kind) => Some(kind),
            };
            (cell, entered == Side::High, self.over.contains(&cell), join)
        })
        .collect()
    }

    pub(crate) fn is_end(&self, cell: Cell, side: Side) -> bool {
        !self.bonds.contains_key(&(cell, side))
    }

    pub(crate) fn is_over(&self, cell: Cell) -> bool {
        self.over.contains(&cell)
    }

    pub(crate) fn is_ended(&self) -> bool {
        self.places.get(&Cell::TailLeader) == Some(&Where::Reel)
    }

    /// What no longer hangs on the head leader lies on the bench; a tail leader
    /// there is taken off.
    fn settle(&mut self) {
        let on_reel: BTreeSet<Cell> = self.chain(Cell::HeadLeader).into_iter().collect();
        let off: Vec<Cell> = self
            .places
            .iter()
            .filter(|(cell, place)| **place == Where::Reel && !on_reel.contains(cell))
            .map(|(cell, _)| *cell)
            .collect();
        for cell in off {
            self.places.insert(cell, Where::Hanging);
        }
        if !on_reel.contains(&Cell::TailLeader) {
            self.part((Cell::TailLeader, Side::Low));
            self.places.remove(&Cell::TailLeader);
        }
    }

    pub(crate) fn cut(&mut self, roll: usize, before: u32, mounted: bool) -> bool {
        let at = (Cell::Frame(roll, before), Side::Low);
        let grown = matches!(self.bonds.get(&at), Some((_, Bond::Grown)));
        let on_roll = self.places.get(&at.0) == Some(&Where::Roll);
        if !grown || (on_roll && !mounted) {
            return false;
        }
        self.part(at);
        self.settle();
        true
    }

    pub(crate) fn put(&mut self, cell: Cell, to: Where) -> bool {
        if matches!(
            self.places.get(&cell),
            None | Some(Where::Reel | Where::Gone)
        ) {
            return false;
        }
        for cell in self.chain(cell) {
            self.places.insert(cell, to);
        }
        true
    }

    /// So many cells from an end inwards, as far as they are grown together.
    fn end_cells(&self, cell: Cell, inwards: Side, count: u8) -> Vec<Cell> {
        if !matches!(cell, Cell::Frame(..)) {
            return Vec::new();
        }
        let grown = self.walk(cell, inwards);
        let grown = grown.iter().take_while(|(.., bond)| *bond == Bond::Grown);
        let all = std::iter::once(cell).chain(grown.map(|(cell, ..)| *cell));
        all.take(usize::from(count)).collect()
    }

    fn lose(&mut self, cells: &[Cell]) {
        for cell in cells {
            self.part((*cell, Side::Low));
            self.part((*cell, Side::High));
            self.places.insert(*cell, Where::Gone);
        }
    }

    fn reel_end(&self) -> Point {
        let last = self.walk(Cell::HeadLeader, Side::High).last().copied();
        last.map_or((Cell::HeadLeader, Side::High), |(cell, entered, _)| {
            (cell, entered.other())
        })
    }

    /// Joins what holds a cell; its tail first, or turned over, as asked.
    pub(crate) fn join(
        &mut self,
        cell: Cell,
        kind: JoinKind,
        tail_first: bool,
        over: bool,
    ) -> bool {
        if self.is_ended() || (cell != Cell::TailLeader && !self.put_on_bench(cell)) {
            return false;
        }
        let bite = self.table.row(kind).bite;
        let entered = if tail_first { Side::High } else { Side::Low };
        let end = self.walk(cell, entered).last().copied();
        let first = end.map_or((cell, entered), |(cell, side, _)| (cell, side.other()));
        let (out, out_side) = self.reel_end();
        let tail = self.end_cells(out, out_side.other(), bite.out_tail + 1);
        let head = self.end_cells(first.0, first.1.other(), bite.in_head + 1);
        let enough = |cells: &[Cell], of: Cell, count: u8| {
            !matches!(of, Cell::Frame(..)) || cells.len() > usize::from(count)
        };
        if !enough(&tail, out, bite.out_tail) || !enough(&head, first.0, bite.in_head) {
            return false;
        }
        let (tail, head) = (
            tail.into_iter()
                .take(usize::from(bite.out_tail))
                .collect::<Vec<_>>(),
            head.into_iter()
                .take(usize::from(bite.in_head))
                .collect::<Vec<_>>(),
        );
        let inner = |cells: &Self, lost: &[Cell], at: Point| match lost.last() {
            Some(last) => cells.bonds[&(*last, at.1.other())].0,
            None => at,
        };
        let a = inner(self, &tail, (out, out_side));
        let b = inner(self, &head, first);
        if self.over.contains(&cell) != over {
            for each in self.chain(cell) {
                if !self.over.remove(&each) {
                    self.over.insert(each);
                }
            }
        }
        self.lose(&tail);
        self.lose(&head);
        self.bind(a, b, Bond::Joined(kind));
        for each in self.chain(b.0) {
            self.places.insert(each, Where::Reel);
        }
        true
    }

    fn put_on_bench(&self, cell: Cell) -> bool {
        !matches!(
            self.places.get(&cell),
            None | Some(Where::Reel | Where::Gone)
        )
    }

    /// Leader or a card of a piece of the cut: one that lies alone, or a new one.
    pub(crate) fn other(&mut self, position: usize) -> Cell {
        let alone = self.others.iter().find(|(id, of)| {
            let cell = Cell::Other(**id);
            **of == position && self.places[&cell] == Where::Hanging && self.chain(cell).len() == 1
        });
        let id = match alone {
            Some((id, _)) => *id,
            None => self.others.len(),
        };
        self.others.insert(id, position);
        let cell = Cell::Other(id);
        self.places.entry(cell).or_insert(Where::Hanging);
        cell
    }

    pub(crate) fn position(&self, cell: Cell) -> Option<usize> {
        match cell {
            Cell::Other(id) => self.others.get(&id).copied(),
            _ => None,
        }
    }

    /// Opens the join at a side of a cell. `behind` says whether the cell lies
    /// behind the join.
    fn open_at(&mut self, at: Point, behind: bool) -> bool {
        let Some((other, Bond::Joined(kind))) = self.bonds.get(&at).copied() else {
            return false;
        };
        let opened = self.table.row(kind).opened;
        let (outgoing, incoming) = if behind { (other, at) } else { (at, other) };
        self.part(at);
        let tail = self.end_cells(outgoing.0, outgoing.1.other(), opened.out_tail);
        let head = self.end_cells(incoming.0, incoming.1.other(), opened.in_head);
        self.lose(&tail);
        self.lose(&head);
        self.settle();
        true
    }

    /// Opens a join of the reel.
    pub(crate) fn open(&mut self, join: usize) -> bool {
        let walked = self.walk(Cell::HeadLeader, Side::High);
        let mut joins = walked.iter().filter(|(.., bond)| *bond != Bond::Grown);
        match joins.nth(join).copied() {
            Some((cell, entered, _)) => self.open_at((cell, entered), true),
            None => false,
        }
    }

    /// Opens a join off the reel at a side of a cell.
    pub(crate) fn unjoin(&mut self, cell: Cell, side: Side, behind: bool) -> bool {
        self.places.get(&cell) != Some(&Where::Reel) && self.open_at((cell, side), behind)
    }

    pub(crate) fn tear(&mut self, roll: usize, begin: u32, end: u32) -> bool {
        let cells: Vec<Cell> = (begin..end).map(|f| Cell::Frame(roll, f)).collect();
        let there = |c: &Cell| !matches!(self.places.get(c), None | Some(Where::Gone));
        if !cells.iter().all(there) {
            return false;
        }
        self.lose(&cells);
        self.settle();
        true
    }
}
