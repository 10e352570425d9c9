//! Strong changes planted in drawn takes, and drawn takes without any.

use onestrand_inspect::{
    BreakFinder, BreakSettings, ChangeKind, PlaneRef, SeenFrame, StrongChange, strong_changes,
};

use crate::drawn::{DrawnRoll, RollPlan};

/// What is done to a plane from a frame on.
#[derive(Clone, Copy)]
enum Planted {
    /// Nothing.
    None,
    /// The light changes by so many stops.
    Light(f32),
    /// A dark thing covers so much of the picture, from the left.
    Covered(f32),
    /// The light goes up and comes down again, over so many frames, by two stops.
    Slow(u32),
}

/// Levels stand for light by the exponent of the drawn rolls.
fn lit(level: u8, stops: f32) -> u8 {
    let light = (f32::from(level) / 255.0).powf(2.2) * stops.exp2();
    (light.min(1.0).powf(1.0 / 2.2) * 255.0).round() as u8
}

fn plant(plane: &mut [u8], planted: Planted, since: u32) {
    let width = onestrand_inspect::PLANE_WIDTH;
    match planted {
        Planted::None => {}
        Planted::Light(stops) => plane.iter_mut().for_each(|p| *p = lit(*p, stops)),
        Planted::Covered(share) => {
            let until = (width as f32 * share) as usize;
            for row in plane.chunks_exact_mut(width) {
                row[..until].iter_mut().for_each(|p| *p = 12 + *p / 16);
            }
        }
        Planted::Slow(frames) => {
            let share = since.min(frames) as f32 / frames as f32;
            plane.iter_mut().for_each(|p| *p = lit(*p, -1.5 * share));
        }
    }
}

/// Takes of a drawn roll as frames that follow each other, with what is planted in the
/// middle of each that is long enough; and the frames at which it was.
fn seen(plan: RollPlan, planted: Planted) -> (Vec<(u32, Vec<SeenFrame>)>, Vec<u32>) {
    let roll = DrawnRoll::new(plan);
    let takes = roll.takes();
    let middle = |from: u32, until: u32| (until - from >= 60).then_some(from.midpoint(until));
    let places: Vec<Option<u32>> = takes.iter().map(|t| middle(t.from, t.until)).collect();
    let mut finder = BreakFinder::new(BreakSettings::default());
    let mut measured = Vec::new();
    for frame in 0..roll.total {
        let mut plane = roll.plane(frame);
        let take = takes
            .iter()
            .position(|t| (t.from..t.until).contains(&frame));
        if let Some(at) = take.and_then(|t| places[t])
            && frame >= at
        {
            plant(&mut plane, planted, frame - at);
        }
        let plane = PlaneRef::new(&plane).expect("a plane");
        let measures = finder.push(plane).measures;
        measured.push(SeenFrame {
            level: measures.mean,
            change: measures.change,
        });
    }
    let of_take = |t: &crate::drawn::DrawnTake| {
        let (from, until) = (t.from as usize, t.until as usize);
        (t.from, measured[from..until].to_vec())
    };
    (
        takes.iter().map(of_take).collect(),
        places.into_iter().flatten().collect(),
    )
}

fn found(takes: &[(u32, Vec<SeenFrame>)]) -> Vec<StrongChange> {
    takes
        .iter()
        .flat_map(|(first, frames)| strong_changes(frames, *first))
        .collect()
}

fn plan(seed: u64) -> RollPlan {
    RollPlan {
        disturbed_one_in: u32::MAX,
        ..RollPlan::ordinary(seed)
    }
}

/// Found at exactly the frame where it was planted, and nowhere else.
fn score(planted: Planted, kind: Option<ChangeKind>) -> (usize, usize, usize) {
    let (mut there, mut right, mut wrong) = (0, 0, 0);
    for seed in 0..4 {
        let (takes, places) = seen(plan(300 + seed), planted);
        let told = found(&takes);
        there += places.len();
        right += told
            .iter()
            .filter(|t| places.contains(&t.at) && kind.is_none_or(|k| k == t.kind))
            .count();
        wrong += told.iter().filter(|t| !places.contains(&t.at)).count();
    }
    (there, right, wrong)
}

#[test]
fn a_light_that_is_switched_is_found_between_the_two_frames() {
    for (stops, kind) in [(-1.5, ChangeKind::Darker), (1.0, ChangeKind::Lighter)] {
        let (there, right, wrong) = score(Planted::Light(stops), Some(kind));
        assert!(there >= 30 && wrong == 0, "{wrong} of {there}");
        assert!(right * 10 >= there * 8, "{right} of {there}");
    }
}

#[test]
fn a_thing_that_covers_half_the_picture_is_found_between_the_two_frames() {
    let (there, right, wrong) = score(Planted::Covered(0.5), None);
    assert!(there >= 30 && wrong == 0, "{wrong} of {there}");
    assert!(right * 10 >= there * 8, "{right} of {there}");
}

/// Still, grainy, panned and slowly fading film, and film with all that disturbs.
#[test]
fn nothing_is_invented_where_nothing_changes_at_once() {
    let ordinary = RollPlan::ordinary;
    let still = |seed| RollPlan {
        pan: 0.0,
        flicker: 0.0,
        weave: 0.0,
        grain: 1.0,
        ..plan(seed)
    };
    let grainy = |seed| RollPlan {
        grain: 14.0,
        flicker: 0.3,
        dust: 12,
        ..plan(seed)
    };
    let panned = |seed| RollPlan {
        pan: 9.0,
        ..plan(seed)
    };
    type Film<'a> = (&'a str, &'a dyn Fn(u64) -> RollPlan, Planted, f64);
    let all: [Film<'_>; 6] = [
        ("still", &still, Planted::None, 0.0),
        ("grainy", &grainy, Planted::None, 0.0),
        ("panned", &panned, Planted::None, 0.0),
        ("slow fade", &plan, Planted::Slow(30), 0.0),
        ("ordinary", &plan, Planted::None, 0.0),
        // Lightning, spots, black frames and white ones: an end of one may be told.
        ("disturbed", &ordinary, Planted::None, 0.5),
    ];
    for (name, plan_of, planted, most) in all {
        let (mut frames, mut told) = (0, 0);
        for seed in 0..4 {
            let (takes, _) = seen(plan_of(500 + seed), planted);
            frames += takes.iter().map(|(_, f)| f.len()).sum::<usize>();
            told += found(&takes).len();
        }
        let rate = told as f64 * 1000.0 / frames as f64;
        assert!(
            rate <= most,
            "{name}: {told} in {frames} frames, {rate:.2} in 1,000"
        );
    }
}
