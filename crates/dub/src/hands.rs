//! The hand score: which faders move when, and whether there are hands for them.

/// A move of a fader.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HandMove {
    /// The column it belongs to.
    pub column: i64,
    /// The fader: columns on one tape share one.
    pub fader: i64,
    /// Where it begins. Unit: running frames.
    pub from: i64,
    /// Where it is done; the hand is free again there.
    pub to: i64,
}

/// A stretch in which more moves than there are hands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TooMany {
    /// Where it begins. Unit: running frames.
    pub from: i64,
    /// Where it ends.
    pub to: i64,
    /// The most faders that move at once in it.
    pub moves: usize,
    /// The columns that move in it, in order.
    pub columns: Vec<i64>,
}

/// Who moves what.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HandScore {
    /// The most faders that move at once.
    pub most: usize,
    /// Where that is first. Unit: running frames.
    pub most_at: Option<i64>,
    /// Where the hands are too few.
    pub too_many: Vec<TooMany>,
    /// The fewest columns that, laid on one tape beforehand, make the hands enough; empty
    /// where they are enough, or where no such set helps.
    pub lay_together: Vec<i64>,
    /// The most at once when that is done.
    pub most_then: usize,
}

/// Faders that are busy: for each the stretches in which it moves, put together where they
/// touch, so that one hand on one fader counts once.
fn busy(moves: &[HandMove], fader_of: impl Fn(&HandMove) -> i64) -> Vec<(i64, i64)> {
    let mut spans: Vec<(i64, i64, i64)> = moves
        .iter()
        .filter(|m| m.from < m.to)
        .map(|m| (fader_of(m), m.from, m.to))
        .collect();
    spans.sort_unstable();
    let mut merged: Vec<(i64, i64, i64)> = Vec::with_capacity(spans.len());
    for (fader, from, to) in spans {
        match merged.last_mut() {
            Some(last) if last.0 == fader && from <= last.2 => last.2 = last.2.max(to),
            _ => merged.push((fader, from, to)),
        }
    }
    merged.into_iter().map(|(_, from, to)| (from, to)).collect()
}

/// How many stretches lie over each other, place by place: where the number changes, and
/// what it is from there on.
fn depth(spans: &[(i64, i64)]) -> Vec<(i64, usize)> {
    let ends = spans.iter().map(|(_, to)| (*to, 0_u8));
    let begins = spans.iter().map(|(from, _)| (*from, 1_u8));
    let mut edges: Vec<(i64, u8)> = ends.chain(begins).collect();
    // At one place ends come first: the hand is free again.
    edges.sort_unstable();
    let mut deep = 0_usize;
    let mut steps: Vec<(i64, usize)> = Vec::with_capacity(edges.len());
    for (at, kind) in edges {
        deep = if kind == 0 {
            deep.saturating_sub(1)
        } else {
            deep + 1
        };
        match steps.last_mut() {
            Some(last) if last.0 == at => last.1 = deep,
            _ => steps.push((at, deep)),
        }
    }
    steps
}

fn most(spans: &[(i64, i64)]) -> usize {
    depth(spans).iter().map(|step| step.1).max().unwrap_or(0)
}

/// Above so many columns that take part, only pairs and threes are tried.
const EXHAUSTIVE: usize = 14;

/// The score of some moves for so many hands.
#[must_use]
pub fn hand_score(moves: &[HandMove], hands: usize) -> HandScore {
    let spans = busy(moves, |m| m.fader);
    let steps = depth(&spans);
    let deepest = steps.iter().map(|step| step.1).max().unwrap_or(0);
    let most_at = steps.iter().find(|step| step.1 == deepest && deepest > 0);
    let too_many = too_many(&steps, moves, hands);
    let (lay_together, most_then) = if deepest > hands {
        lay_together(moves, &too_many, hands).unwrap_or((Vec::new(), deepest))
    } else {
        (Vec::new(), deepest)
    };
    HandScore {
        most: deepest,
        most_at: most_at.map(|step| step.0),
        too_many,
        lay_together,
        most_then,
    }
}

fn too_many(steps: &[(i64, usize)], moves: &[HandMove], hands: usize) -> Vec<TooMany> {
    let mut found: Vec<TooMany> = Vec::new();
    let mut open: Option<(i64, usize)> = None;
    for (at, deep) in steps {
        match (open, *deep > hands) {
            (None, true) => open = Some((*at, *deep)),
            (Some((from, most)), true) => open = Some((from, most.max(*deep))),
            (Some((from, most)), false) => {
                found.push(stretch(from, *at, most, moves));
                open = None;
            }
            (None, false) => {}
        }
    }
    found
}

fn stretch(from: i64, to: i64, most: usize, moves: &[HandMove]) -> TooMany {
    let mut columns: Vec<i64> = Vec::new();
    for m in moves.iter().filter(|m| m.from < to && m.to > from) {
        if !columns.contains(&m.column) {
            columns.push(m.column);
        }
    }
    TooMany {
        from,
        to,
        moves: most,
        columns,
    }
}

/// The smallest set of columns, and among those the one that leaves the fewest moves at
/// once, then the one that comes first.
fn lay_together(
    moves: &[HandMove],
    too_many: &[TooMany],
    hands: usize,
) -> Option<(Vec<i64>, usize)> {
    let mut columns: Vec<i64> = Vec::new();
    // In the order of the chart, so that of equals the leftmost are laid.
    for m in moves {
        let takes_part = too_many.iter().any(|full| full.columns.contains(&m.column));
        if takes_part && !columns.contains(&m.column) {
            columns.push(m.column);
        }
    }
    columns.sort_unstable();
    let largest = if columns.len() > EXHAUSTIVE {
        3
    } else {
        columns.len()
    };
    for size in 2..=largest {
        let mut best: Option<(usize, Vec<i64>)> = None;
        each_set(&columns, size, &mut |set| {
            let laid = |m: &HandMove| {
                if set.contains(&m.column) {
                    i64::MIN
                } else {
                    m.fader
                }
            };
            let then = most(&busy(moves, laid));
            if then <= hands && best.as_ref().is_none_or(|(least, _)| then < *least) {
                best = Some((then, set.to_vec()));
            }
        });
        if let Some((then, set)) = best {
            return Some((set, then));
        }
    }
    None
}

fn each_set(of: &[i64], size: usize, look: &mut impl FnMut(&[i64])) {
    fn deeper(of: &[i64], size: usize, set: &mut Vec<i64>, look: &mut impl FnMut(&[i64])) {
        if set.len() == size {
            look(set);
            return;
        }
        for (nth, one) in of.iter().enumerate() {
            set.push(*one);
            deeper(&of[nth + 1..], size, set, look);
            set.pop();
        }
    }
    deeper(of, size, &mut Vec::with_capacity(size), look);
}
