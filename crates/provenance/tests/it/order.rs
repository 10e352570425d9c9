//! Known rolls cut up and shuffled: which order the shots were taken in.

use onestrand_provenance::{ShotSeen, Strip, find_order};

use crate::chance::Chance;
use crate::family::{Camera, Hair, Shot, Stock, draw};
use crate::tally::Tally;

/// Shots of one camera in the order they were taken.
fn taken(chance: &mut Chance) -> Vec<ShotSeen> {
    let camera = Camera::new(chance, 1.0);
    let mut seen = Vec::new();
    for _roll in 0..chance.below(2) + 1 {
        let stock = Stock::new(chance);
        let shots = chance.below(3) + 3;
        let mut hairs: Vec<Hair> = Vec::new();
        let fogged = chance.below(4) > 0;
        for n in 0..shots {
            // A hair comes now and then; what is there grows by jumps; now and then one goes.
            if chance.below(3) == 0 {
                hairs.push(Hair::new(chance));
            }
            if !hairs.is_empty() && chance.below(12) == 0 {
                hairs.remove(0);
            }
            for hair in &mut hairs {
                if chance.below(2) == 0 {
                    hair.length += chance.between(2.0, 16.0);
                }
            }
            let fog = |is: bool| if is && fogged { 60.0 } else { 0.0 };
            let fog = (fog(n == 0), fog(n + 1 == shots));
            let shot = Shot {
                camera: &camera,
                stock,
                hairs: hairs.clone(),
                fog,
            };
            seen.push(ShotSeen::of(&draw(&shot, chance)).expect("looked at"));
        }
    }
    seen
}

/// What came of many rolls.
#[derive(Default)]
struct Sum {
    rolls: usize,
    pairs: Tally,
    neighbours: Tally,
    silent: usize,
}

fn tally(sum: &mut Sum, seed: u64) {
    let mut chance = Chance::new(seed);
    let seen = taken(&mut chance);
    // Shuffled: `lying[i]` is the true place of the strip handed in as number i.
    let mut lying: Vec<usize> = (0..seen.len()).collect();
    for i in (1..lying.len()).rev() {
        lying.swap(i, chance.below(i + 1));
    }
    let strip = |&i: &usize| Strip {
        shots: vec![&seen[i]],
        stock: None,
    };
    let strips: Vec<Strip<'_>> = lying.iter().map(strip).collect();
    let found = find_order(&strips);
    for a in 0..lying.len() {
        for b in 0..a {
            let before = found.before[a][b];
            let is_before = lying[a] < lying[b];
            sum.pairs
                .add(before.max(1.0 - before), is_before == (before > 0.5));
        }
    }
    for (pair, said) in found.order.windows(2).zip(&found.pairs) {
        sum.neighbours
            .add(said.before, lying[pair[0]] < lying[pair[1]]);
    }
    sum.rolls += 1;
    sum.silent += usize::from(!found.is_told);
}

fn told(sum: &Sum) -> String {
    format!(
        "{} shelves, nothing said of {}; pairs {}, said with 0.8 and wrong {:?}, with 0.9 {:?}\n{}neighbours {}, with 0.8 {:?}, with 0.9 {:?}\n{}",
        sum.rolls,
        sum.silent,
        sum.pairs.count(),
        sum.pairs.from(0.8),
        sum.pairs.from(0.9),
        sum.pairs.table(),
        sum.neighbours.count(),
        sum.neighbours.from(0.8),
        sum.neighbours.from(0.9),
        sum.neighbours.table(),
    )
}

#[test]
fn a_hair_that_grows_tells_the_order_and_what_nothing_speaks_about_is_not_told() {
    let mut chance = Chance::new(5);
    let camera = Camera::new(&mut chance, 1.0);
    let stock = Stock::new(&mut chance);
    let hair = Hair {
        side: 2,
        at: 0.4,
        bend: 0.004,
        length: 12.0,
    };
    let mut draw_with = |length: Option<f32>| {
        let hairs = length
            .map(|length| Hair { length, ..hair })
            .into_iter()
            .collect();
        let shot = Shot {
            camera: &camera,
            stock,
            hairs,
            fog: (0.0, 0.0),
        };
        ShotSeen::of(&draw(&shot, &mut chance)).expect("looked at")
    };
    let seen = [Some(60.0), Some(12.0), Some(36.0)].map(&mut draw_with);
    let strips: Vec<Strip<'_>> = seen
        .iter()
        .map(|shot| Strip {
            shots: vec![shot],
            stock: None,
        })
        .collect();
    let found = find_order(&strips);
    assert_eq!(found.order, [1, 2, 0], "{found:?}");
    assert!(
        found.pairs.iter().all(|pair| pair.before > 0.95),
        "{found:?}"
    );

    let bare = [None, None, None].map(&mut draw_with);
    let strips: Vec<Strip<'_>> = bare
        .iter()
        .map(|shot| Strip {
            shots: vec![shot],
            stock: None,
        })
        .collect();
    let found = find_order(&strips);
    assert!(!found.is_told, "{found:?}");
}

/// The wide run: `PROVENANCE_SEEDS=from-to`.
#[test]
#[ignore = "many drawn rolls; the figures of docs/PROVENANCE.md"]
#[expect(clippy::print_stderr, reason = "it measures")]
fn many_rolls() {
    let mut sum = Sum::default();
    crate::tally::seeds().for_each(|seed| tally(&mut sum, seed));
    eprintln!("{}", told(&sum));
    let (sure, wrong) = sum.pairs.from(0.9);
    assert!(wrong * 20 <= sure, "more than 1 in 20 sure pairs are wrong");
}
