//! Which order: what came and stayed in the gate, what grew, and fog at the ends of rolls.

mod cost;
mod evidence;
mod walk;

use crate::shot::ShotSeen;

use self::cost::Costs;
use self::walk::{Walked, walked};

pub use self::evidence::GateThing;

/// A strip whose order among others is asked: shots that follow each other on the film
/// without a join, and so are in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip<'a> {
    /// Its shots, from head to tail.
    pub shots: Vec<&'a ShotSeen>,
    /// Number of its stock, where it is known.
    pub stock: Option<usize>,
}

/// Two neighbours in the order found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neighbours {
    /// How probable it is that the first was taken before the second. Near a half nothing
    /// speaks about it.
    pub before: f64,
    /// How probable it is that nothing of these strips was taken between them.
    pub beside: f64,
}

/// What speaks about the order.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderFound {
    /// The likeliest order, by the place of each strip among those handed in.
    pub order: Vec<usize>,
    /// For each neighbouring pair of it.
    pub pairs: Vec<Neighbours>,
    /// For each pair of strips as handed in, how probable it is that the row's was taken
    /// before the column's.
    pub before: Vec<Vec<f64>>,
    /// What stands in the gate of more than one strip, and which ones.
    pub things: Vec<GateThing>,
    /// Whether anything speaks about the order at all.
    pub is_told: bool,
}

/// From here on one strip is told to stand before another.
pub const TOLD: f64 = 0.9;

/// Finds the likeliest order of strips of one camera.
///
/// Strips of several cameras must not be mixed: what stands in two gates says nothing about
/// one order.
#[must_use]
pub fn find_order(strips: &[Strip<'_>]) -> OrderFound {
    let things = evidence::things(strips);
    let costs = Costs::of(strips, &things);
    let Walked {
        order,
        before,
        beside,
    } = walked(&costs);
    let pairs = order.windows(2).map(|pair| Neighbours {
        before: before[pair[0]][pair[1]],
        beside: beside[pair[0]][pair[1]],
    });
    let tells = |p: &f64| (1.0 - TOLD..=TOLD).contains(p);
    let is_told = (0..strips.len()).any(|i| (0..i).any(|j| !tells(&before[i][j])));
    OrderFound {
        pairs: pairs.collect(),
        is_told,
        order,
        before,
        things,
    }
}
