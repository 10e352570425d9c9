//! Film as it lies on a bench: lengths of cells with joins between them, each
//! with what it was made of. Nothing here knows of the program but its input.

use onestrand_cut::{JoinKind, Piece, PieceKind, TrialCut};
use onestrand_film::Gauge;

/// One frame: of a roll by name, or of leader and cards by what they are.
pub(crate) type Cell = (String, u32);

/// A join; the frames hidden in it are gone from the length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Splice {
    /// It lies before the cell of this index.
    pub(crate) before: usize,
    pub(crate) kind: JoinKind,
}

/// A length of film, loose at both ends and whole but for its joins.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Length {
    pub(crate) cells: Vec<Cell>,
    pub(crate) splices: Vec<Splice>,
    /// What hangs over the ends beyond what will be shown: tongues.
    pub(crate) over_head: usize,
    pub(crate) over_tail: usize,
}

/// Frames taken (tail of the outgoing, head of the incoming film).
pub(crate) type Taken = (usize, usize);

/// What making a join hides. By the rules, not by the program's table.
pub(crate) fn hides(gauge: Gauge, kind: JoinKind) -> Taken {
    match (kind, gauge) {
        (JoinKind::Tape, _) => (0, 0),
        (JoinKind::Cement, Gauge::Super8) => (1, 0),
        (JoinKind::Cement | JoinKind::Weld, _) => (1, 1),
    }
}

/// What opening a join costs beside what it hid.
pub(crate) fn tears(gauge: Gauge, kind: JoinKind) -> Taken {
    match (kind, gauge) {
        (JoinKind::Tape, _) => (0, 0),
        (JoinKind::Cement, Gauge::Super8) => (0, 1),
        (JoinKind::Cement | JoinKind::Weld, _) => (1, 1),
    }
}

/// Leader, cards, and the leaders at both ends, which give of their own.
pub(crate) fn is_leader(cell: &Cell) -> bool {
    cell.0.contains(' ')
}

impl Length {
    /// Cuts whole film before a cell.
    pub(crate) fn cut(mut self, before: usize) -> (Self, Self) {
        assert!(0 < before && before < self.cells.len(), "inside the film");
        assert!(
            self.splices.iter().all(|s| s.before != before),
            "a join is opened, not cut"
        );
        let behind = self.cells.split_off(before);
        let mut tail = Self {
            cells: behind,
            over_tail: std::mem::take(&mut self.over_tail),
            ..Self::default()
        };
        let (here, there): (Vec<Splice>, Vec<Splice>) =
            self.splices.into_iter().partition(|s| s.before < before);
        self.splices = here;
        tail.splices = there
            .into_iter()
            .map(|s| Splice {
                before: s.before - before,
                ..s
            })
            .collect();
        (self, tail)
    }

    /// Opens a join. What it hid is gone, and so is what tears: those cells are
    /// told. Leader is not counted.
    pub(crate) fn open(mut self, which: usize, gauge: Gauge) -> (Self, Self, Vec<Cell>) {
        let splice = self.splices.remove(which);
        let (mut out, mut incoming) = self.cut(splice.before);
        let (tail, head) = tears(gauge, splice.kind);
        let mut torn = Vec::new();
        for _ in 0..tail {
            out.lose_tail(&mut torn);
        }
        for _ in 0..head {
            incoming.lose_head(&mut torn);
        }
        (out, incoming, torn)
    }

    fn lose_tail(&mut self, torn: &mut Vec<Cell>) {
        if self.cells.last().is_some_and(|c| !is_leader(c)) {
            torn.extend(self.cells.pop());
        }
    }

    fn lose_head(&mut self, torn: &mut Vec<Cell>) {
        if self.cells.first().is_some_and(|c| !is_leader(c)) {
            torn.push(self.cells.remove(0));
            for splice in &mut self.splices {
                splice.before -= 1;
            }
        }
    }

    /// Joins two lengths; each end gives its tongue, or where it has none a frame
    /// of its own.
    pub(crate) fn join(mut self, mut next: Self, kind: JoinKind, gauge: Gauge) -> Self {
        let (tail, head) = hides(gauge, kind);
        assert!(self.over_tail <= tail && next.over_head <= head);
        let mut hidden = Vec::new();
        for _ in 0..tail {
            self.lose_tail(&mut hidden);
        }
        for _ in 0..head {
            next.lose_head(&mut hidden);
        }
        let before = self.cells.len();
        self.splices.push(Splice { before, kind });
        self.splices.extend(next.splices.iter().map(|s| Splice {
            before: s.before + before,
            kind: s.kind,
        }));
        self.cells.extend(next.cells);
        self.over_tail = next.over_tail;
        self
    }

    /// Whether a join lies before this cell.
    pub(crate) fn joined_before(&self, cell: usize) -> bool {
        self.splices.iter().any(|s| s.before == cell)
    }
}

/// One strip as a version wants it, with the kind of the join behind it.
#[derive(Debug, Clone)]
pub(crate) struct Wish {
    pub(crate) cells: Vec<Cell>,
    pub(crate) join: JoinKind,
}

/// The strips of a version: pieces that go on from each other are one.
pub(crate) fn wishes(cut: &TrialCut) -> Vec<Wish> {
    let mut wishes: Vec<Wish> = Vec::new();
    let mut seen: Vec<(String, u32)> = Vec::new();
    for piece in cut.pieces() {
        let cells = cells_of(piece, &mut seen);
        let join = piece.join.unwrap_or(cut.usual_join());
        match wishes.last_mut() {
            Some(last) if goes_on(&last.cells, &cells) => {
                last.cells.extend(cells);
                last.join = join;
            }
            _ => wishes.push(Wish { cells, join }),
        }
    }
    wishes
}

fn goes_on(before: &[Cell], after: &[Cell]) -> bool {
    match (before.last(), after.first()) {
        (Some(a), Some(b)) => !is_leader(a) && a.0 == b.0 && a.1 + 1 == b.1,
        _ => false,
    }
}

/// Leader and cards are told apart by what they are and which of its kind.
fn cells_of(piece: &Piece, seen: &mut Vec<(String, u32)>) -> Vec<Cell> {
    let (what, frames) = match &piece.kind {
        PieceKind::Shot(span) => {
            let range = span.range.begin().index()..span.range.end().index();
            return range.map(|f| (span.roll.to_string(), f)).collect();
        }
        PieceKind::Leader(frames) => (format!("leader of {frames}"), frames.count()),
        PieceKind::Card { frames, title } => (format!("card {title}"), frames.count()),
    };
    let nth = match seen.iter_mut().find(|s| s.0 == what) {
        Some(s) => {
            s.1 += 1;
            s.1
        }
        None => {
            seen.push((what.clone(), 1));
            1
        }
    };
    (0..frames).map(|f| (format!("{what} {nth}"), f)).collect()
}
