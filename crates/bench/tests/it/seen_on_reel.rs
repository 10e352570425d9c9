//! The bench brought up to what a scan of its reel shows.

use onestrand_bench::{
    Deed, Laid, NotSeen, SeenFilm, deeds_to_show, film_on_the_reel, takings_seen,
};
use onestrand_bench::{Entry, WorkLeft};

use crate::drawn_bench::{Drawn, Lot, drawn};

fn to_show(bench: &Drawn, seen: &[SeenFilm]) -> Result<Vec<Deed>, NotSeen> {
    let (strips, table) = (&bench.strips, &bench.table);
    let order = takings_seen(&bench.order, strips, seen);
    let mut left = |state: &_| WorkLeft::of(state, strips, &order, &[], table);
    deeds_to_show(bench.state(), (strips, table), &mut left, seen)
}

fn tick(bench: &mut Drawn) -> Option<Deed> {
    let step = bench.left().steps.into_iter().next()?;
    bench
        .log
        .add(Entry::Deed(step.deed.clone()))
        .expect("a step fits");
    Some(step.deed)
}

fn does_all(bench: &mut Drawn, deeds: Vec<Deed>) {
    for deed in deeds {
        bench
            .log
            .add(Entry::Deed(deed))
            .expect("it can have happened");
    }
}

/// As much of a reel as the scan may leave out at its end.
fn alike(found: &[SeenFilm], seen: &[SeenFilm]) -> bool {
    let (Some((a, found)), Some((b, seen))) = (found.split_last(), seen.split_last()) else {
        return found == seen;
    };
    let by = a.begin.abs_diff(b.begin) + a.end.abs_diff(b.end);
    found == seen && (&a.roll, a.laid) == (&b.roll, b.laid) && by <= 2
}

#[test]
fn a_log_that_lags_behind_is_brought_up_to_the_reel() {
    let mut brought = 0;
    for seed in 0..400 {
        let (mut lot, mut same) = (Lot(seed), Lot(seed));
        let (mut bench, mut lags) = (drawn(&mut lot, 9), drawn(&mut same, 9));
        let mut acts = 0;
        while tick(&mut bench).is_some() {
            acts += 1;
        }
        if acts == 0 {
            continue;
        }
        // The log stops somewhere, the reel went on to somewhere later.
        let logged = lot.below(acts);
        let went = logged + lot.below(acts - logged + 1);
        let mut reel = drawn(&mut Lot(seed), 9);
        (0..logged).for_each(|_| drop(tick(&mut lags)));
        (0..went).for_each(|_| drop(tick(&mut reel)));
        let seen = film_on_the_reel(reel.state().reel());
        let deeds = to_show(&lags, &seen).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        brought += usize::from(!deeds.is_empty());
        does_all(&mut lags, deeds);
        let found = film_on_the_reel(lags.state().reel());
        assert!(alike(&found, &seen), "seed {seed}: {found:?} for {seen:?}");
        for (roll, frames) in lags.state().rolls() {
            let count = lags.state().count(roll);
            let all = count.on_the_reel + count.hanging + count.made + count.left + count.gone;
            assert_eq!(
                all, frames,
                "seed {seed}: every frame of {roll} is somewhere"
            );
        }
    }
    assert!(brought > 200, "{brought}");
}

/// One cut lies some frames from its plan, one length is laid otherwise: the scan shows
/// both, and the bench has both afterwards.
#[test]
fn what_was_done_otherwise_is_taken_as_it_is_seen() {
    let (mut tried, mut brought) = (0, 0);
    for seed in 1_000..1_400 {
        let mut lot = Lot(seed);
        let mut bench = drawn(&mut lot, 9);
        let (which, by) = (lot.below(12), lot.one(&[-2_i32, -1, 1, 2]));
        let turned = lot.below(6);
        let (mut cuts, mut joins, mut otherwise) = (0, 0, false);
        for _ in 0..300 {
            let Some(step) = bench.left().steps.into_iter().next() else {
                break;
            };
            let mut deed = step.deed;
            match &mut deed {
                Deed::Cut { before, .. } => {
                    if cuts == which {
                        let at = before.index().saturating_add_signed(by);
                        *before = crate::drawn_bench::pos(at);
                        otherwise = true;
                    }
                    cuts += 1;
                }
                Deed::Join { laid, .. } => {
                    if joins == turned {
                        *laid = Laid::TurnedOver;
                        otherwise = true;
                    }
                    joins += 1;
                }
                _ => {}
            }
            if bench.log.add(Entry::Deed(deed)).is_err() {
                break;
            }
        }
        let seen = film_on_the_reel(bench.state().reel());
        if !otherwise || seen.is_empty() {
            continue;
        }
        tried += 1;
        let mut afresh = drawn(&mut Lot(seed), 9);
        // What cannot be told from the scan alone is refused, never guessed wrongly.
        let Ok(deeds) = to_show(&afresh, &seen) else {
            continue;
        };
        brought += 1;
        does_all(&mut afresh, deeds);
        let found = film_on_the_reel(afresh.state().reel());
        assert!(alike(&found, &seen), "seed {seed}: {found:?} for {seen:?}");
    }
    assert!(
        tried > 200 && brought * 100 >= tried * 95,
        "{brought} of {tried}"
    );
}

#[test]
fn a_scan_that_stops_within_a_length_has_it_joined_as_planned() {
    let longest = |bench: &Drawn| {
        let reel = film_on_the_reel(bench.state().reel());
        reel.last().map_or(0, |film| film.end - film.begin)
    };
    let mut tried = 0;
    for seed in 0..200 {
        let mut bench = drawn(&mut Lot(seed), 9);
        while tick(&mut bench).is_some() {}
        if longest(&bench) < 30 {
            continue;
        }
        tried += 1;
        let reel = film_on_the_reel(bench.state().reel());
        let mut seen = reel.clone();
        let last = seen.last_mut().expect("film");
        last.end -= 26;
        let mut afresh = drawn(&mut Lot(seed), 9);
        let deeds = to_show(&afresh, &seen).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        does_all(&mut afresh, deeds);
        let found = film_on_the_reel(afresh.state().reel());
        assert!(alike(&found, &reel), "seed {seed}: {found:?} for {reel:?}");
    }
    assert!(tried > 20, "{tried}");
}

#[test]
fn a_scan_that_contradicts_the_log_is_refused() {
    let mut bench = (0..)
        .map(|seed| drawn(&mut Lot(seed), 9))
        .find(|bench| {
            bench
                .strips
                .strips
                .iter()
                .filter(|s| s.span.is_some())
                .count()
                > 3
        })
        .expect("a longer version");
    while tick(&mut bench).is_some() {}
    let reel = film_on_the_reel(bench.state().reel());
    assert_eq!(
        to_show(&bench, &reel),
        Ok(Vec::new()),
        "nothing is left to be said"
    );
    let less = to_show(&bench, &reel[..reel.len() - 1]);
    assert!(matches!(less, Err(NotSeen::Less { .. })), "{less:?}");
    let mut other = reel.clone();
    other[0].begin += 5;
    let other = to_show(&bench, &other);
    assert!(matches!(other, Err(NotSeen::Otherwise { .. })), "{other:?}");
    let fresh = drawn(&mut Lot(0), 9);
    let nobody = SeenFilm {
        roll: reel[0].roll.clone(),
        begin: 100_000,
        end: 100_020,
        laid: Laid::Right,
    };
    let none = to_show(&fresh, &[nobody]);
    assert!(
        matches!(none, Err(NotSeen::NotNext { .. } | NotSeen::Cannot { .. })),
        "{none:?}"
    );
}
