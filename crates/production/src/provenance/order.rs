//! In which order the shots of one camera were taken.

use onestrand_provenance::{CamerasFound, OrderFound, Strip, TOLD, find_order};

use super::family::{Looked, count, side};
use crate::documents::{FamilyGrowth, FamilyOrder, FamilyPair};

/// Strips of a camera: shots that follow each other on the film without a join.
fn strips_of(shots: &[usize], looked: &[Looked]) -> Vec<Vec<usize>> {
    let mut strips: Vec<Vec<usize>> = Vec::new();
    for &shot in shots {
        let follows = |strip: &Vec<usize>| {
            let last = *strip.last()?;
            let (before, now) = (&looked[last], &looked[shot]);
            let touches = before.reel == now.reel && before.thrown == now.first;
            (touches && now.follows).then_some(())
        };
        match strips.last_mut().filter(|strip| follows(strip).is_some()) {
            Some(strip) => strip.push(shot),
            None => strips.push(vec![shot]),
        }
    }
    strips
}

/// The likeliest order of a camera's shots, with what speaks for it.
pub(super) fn of_camera(shots: &[usize], looked: &[Looked], found: &CamerasFound) -> FamilyOrder {
    let strips = strips_of(shots, looked);
    let asked: Vec<Strip<'_>> = strips
        .iter()
        .map(|strip| Strip {
            shots: strip.iter().map(|&s| looked[s].seen.as_ref()).collect(),
            stock: strip.first().and_then(|&s| found.shots[s].stock),
        })
        .collect();
    let order = find_order(&asked);
    let things = order.things.iter().map(|thing| {
        let lengths = order
            .order
            .iter()
            .flat_map(|&strip| thing.lengths[strip].clone());
        FamilyGrowth {
            side: side(thing.side),
            along: f64::from(thing.along),
            lengths: lengths.map(|length| length.map(f64::from)).collect(),
        }
    });
    let numbers = |&strip: &usize| strips[strip].iter().map(|&s| count(s)).collect();
    FamilyOrder {
        told: order.is_told,
        strips: order.order.iter().map(numbers).collect(),
        pairs: pairs(&order),
        things: things.collect(),
        words: words(&order, strips.len()),
    }
}

fn pairs(order: &OrderFound) -> Vec<FamilyPair> {
    // Of two strips each is always next to the other: that says nothing.
    let many = order.order.len() > 2;
    let pair = |pair: &onestrand_provenance::Neighbours| {
        let told = pair.before >= TOLD;
        let words = if told {
            format!(
                "the first before the second, sure to {:.0} of 100",
                pair.before * 100.0
            )
        } else if many && pair.beside >= TOLD {
            "next to each other; which came first nothing says".to_owned()
        } else {
            "nothing speaks about which came first".to_owned()
        };
        FamilyPair {
            before: pair.before,
            beside: pair.beside,
            told,
            words,
        }
    };
    order.pairs.iter().map(pair).collect()
}

fn words(order: &OrderFound, strips: usize) -> String {
    let told = order
        .pairs
        .iter()
        .filter(|pair| pair.before >= TOLD)
        .count();
    if strips == 1 {
        return "all of it hangs together on the film".to_owned();
    }
    if !order.is_told {
        return "nothing on the film speaks about the order: no hair that grows, no end of a roll; they stand as they were handed in".to_owned();
    }
    let things = match order.things.len() {
        0 => "the ends of rolls".to_owned(),
        1 => "one thing that stands in the gate".to_owned(),
        many => format!("{many} things that stand in the gate"),
    };
    format!(
        "by {things}: of {} neighbouring pairs {told} are told",
        order.pairs.len()
    )
}
