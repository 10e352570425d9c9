//! Tries a transfer out.
#![allow(missing_docs, clippy::all, clippy::print_stdout, clippy::unwrap_used)]
use onestrand_cadence::{CadenceFinder, CadenceSettings, Standing};
use onestrand_telecine::*;
fn main() {
    let a: Vec<f64> = std::env::args()
        .skip(1)
        .map(|v| v.parse().unwrap())
        .collect();
    let (film, file, expo, grain, noise, drift) = (a[0], a[1], a[2], a[3], a[4], a[5]);
    let seed = a.get(6).copied().unwrap_or(5.0) as u64;
    let look = Look {
        grain: grain as f32,
        ..Look::FAIR
    };
    let roll = Roll::new(
        (192, 144),
        look,
        seed,
        &[
            (Scene::Walk, 150),
            (Scene::Pan(0.01), 150),
            (Scene::Still, 100),
            (Scene::Black, 150),
            (Scene::Title, 80),
            (Scene::Walk, 150),
            (Scene::Pan(-0.006), 200),
            (Scene::Still, 200),
            (Scene::Walk, 300),
        ],
    );
    let tr = Transfer::clean(
        ((film * 1000.0) as u32, 1000),
        ((file * 1000.0) as u32, 1000),
    )
    .exposed(expo)
    .drifting(drift, 1500.0)
    .from_phase(if expo > 0.0 { 0.13 } else { 0.0 });
    let set = CadenceSettings {
        file_rate: format!("{file}").parse().ok(),
        film_speed: None,
    };
    let mut finder = CadenceFinder::new(set);
    let truth = tr.truth(roll.frames());
    let mut frames = vec![];
    let mut spent = std::time::Duration::ZERO;
    for f in Projection::new(
        &roll,
        &tr,
        Coding {
            noise: noise as f32,
        },
    ) {
        let l = levels(&f.levels);
        let t = std::time::Instant::now();
        frames.extend(finder.push(&l).unwrap());
        spent += t.elapsed();
    }
    let t = std::time::Instant::now();
    let (rest, found) = finder.finish();
    frames.extend(rest);
    spent += t.elapsed();
    let mut wrong = 0;
    for f in &frames {
        let best = truth
            .iter()
            .map(|s| {
                s.weights
                    .iter()
                    .filter(|w| w.0 == f.number)
                    .map(|w| w.1)
                    .sum::<f32>()
            })
            .fold(0.0, f32::max);
        let here = f.shown_by.map_or(0.0, |k| {
            truth[k as usize]
                .weights
                .iter()
                .filter(|w| w.0 == f.number)
                .map(|w| w.1)
                .sum::<f32>()
        });
        if here < best - 0.1 {
            wrong += 1;
            if wrong < 3 {
                println!(
                    "  wrong {} {:?} {} best {best} here {here}",
                    f.number, f.shown_by, f.share
                );
            }
        }
    }
    let n = |s: Standing| frames.iter().filter(|f| f.standing == s).count();
    println!(
        "frames {} of {}; file {}; wrong {wrong}; clean {} blended {} counted {} missing {} unmixed {}; {:.0} us/frame",
        frames.len(),
        roll.frames(),
        truth.len(),
        n(Standing::Clean),
        n(Standing::Blended),
        n(Standing::Counted),
        n(Standing::Missing),
        frames.iter().filter(|f| !f.unmix.is_empty()).count(),
        spent.as_micros() as f64 / truth.len() as f64
    );
    println!(
        "{:?} {} {} {:?} rep {} {:?}",
        found.transfer,
        found.step,
        found.exposure,
        found.film_speed.map(|f| f.to_string()),
        found.repeats,
        found.faults
    );
}
