//! How long a work order takes: cuts drawn by lot, an evening's film and a club
//! reel. `cargo run -p onestrand-bench --example speeds`
#![expect(clippy::print_stdout, reason = "a program that prints its figures")]

use std::error::Error;
use std::time::Instant;

use onestrand_bench::{BenchHabits, BenchTimes, Recut, Winding, WorkOrder};
use onestrand_cut::{Base, CheckRules, Fit, JoinKind, JoinTable, Piece, Roll, Strand, TrialCut};
use onestrand_film::{FrameRange, Frames, Gauge, RollId, Span};

const GAUGE: Gauge = Gauge::Sixteen;

/// How far a cut leaves the order of the rolls.
#[derive(Debug, Clone, Copy)]
enum Order {
    /// Roll after roll, with neighbours changed here and there.
    Near,
    /// Any strip anywhere.
    Far,
}

struct Lot(u64);

impl Lot {
    /// A number below `bound`; the same for the same seed.
    fn below(&mut self, bound: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (self.0 >> 33) % bound
    }
}

fn film(
    rolls: u64,
    pieces: u64,
    order: Order,
    seed: u64,
) -> Result<(TrialCut, Strand), Box<dyn Error>> {
    let mut lot = Lot(seed);
    let mut drawn: Vec<(u64, Piece)> = Vec::new();
    let mut strand = Vec::new();
    for r in 0..rolls {
        let id = RollId::new(&format!("R{}", r + 1))?;
        let mut at = 20;
        let here = pieces / rolls + u64::from(r < pieces % rolls);
        for i in 0..here {
            let begin = at + 3 + u32::try_from(lot.below(120))?;
            at = begin + 18 + u32::try_from(lot.below(180))?;
            let span = Span::new(id.clone(), FrameRange::of(begin, at)?);
            let key = match order {
                Order::Near => (r * here + i) * 10 + lot.below(here * 25),
                Order::Far => lot.below(1_000_000),
            };
            drawn.push((key, Piece::shot(span)));
        }
        strand.push(Roll {
            id,
            gauge: GAUGE,
            base: Base::Triacetate,
            fit: Fit::Project,
            wind: None,
            frames: Frames::new(at + 40)?,
            proved: true,
        });
    }
    drawn.sort_by_key(|d| d.0);
    let pieces = drawn.into_iter().map(|d| d.1).collect();
    Ok((
        TrialCut::new(pieces, JoinKind::Tape),
        Strand::new(GAUGE, strand, []),
    ))
}

fn main() -> Result<(), Box<dyn Error>> {
    let rules = CheckRules {
        table: JoinTable::usual(GAUGE),
    };
    for (rolls, pieces) in [(3, 25), (6, 60), (20, 300)] {
        for order in [Order::Near, Order::Far] {
            for winding in Winding::ALL {
                for pins in [6, 12, 24, 48] {
                    let (mut slowest, mut sum) = (0.0_f64, 0.0_f64);
                    let (mut best, mut none, mut last) = (0, 0, String::new());
                    const FILMS: u64 = 3;
                    for seed in 1..=FILMS {
                        let (cut, strand) = film(rolls, pieces, order, seed)?;
                        let habits = BenchHabits {
                            pins,
                            winding,
                            times: BenchTimes::default(),
                        };
                        let begun = Instant::now();
                        let made = WorkOrder::plan(&cut, &strand, &rules, &habits)?;
                        let took = begun.elapsed().as_secs_f64();
                        slowest = slowest.max(took);
                        sum += took;
                        let bound = made.lower_bound;
                        let bound = (bound.roll_changes, bound.wound_frames, bound.pins_peak);
                        last = match &made.plan {
                            Some(plan) => {
                                best += u64::from(plan.best);
                                let c = &plan.corner;
                                let got = (c.roll_changes, c.wound_frames, c.pins_peak);
                                format!("{got:?} bound {bound:?}")
                            }
                            None => {
                                none += 1;
                                let few = |f: &onestrand_bench::FewestPins| (f.pins, f.at_least);
                                let few: Vec<_> = made.fewest.iter().map(few).collect();
                                format!("fewest {few:?}")
                            }
                        };
                    }
                    println!(
                        "{pieces} pieces, {rolls} rolls, {order:?}, {winding:?}, {pins} pins: \
                         best {best}, none {none} of {FILMS}; mean {:.3} s, slowest {slowest:.3} s; last: {last}",
                        sum / FILMS as f64
                    );
                }
            }
        }
    }
    println!();
    let (old, strand) = film(20, 300, Order::Far, 1)?;
    for every in [50, 10, 3] {
        let mut pieces = old.pieces().to_vec();
        for at in (1..pieces.len()).step_by(every) {
            pieces.swap(at - 1, at);
        }
        pieces.remove(150);
        let new = TrialCut::new(pieces, JoinKind::Cement);
        let begun = Instant::now();
        let told = Recut::price(
            &old.joined_by(JoinKind::Cement),
            &new,
            &strand,
            &rules.table,
        );
        let took = begun.elapsed().as_secs_f64() * 1000.0;
        println!(
            "re-cut of 300 pieces, {} changes, {} opened, {} lost: {took:.1} ms",
            told.prices.len(),
            told.opened,
            told.lost
        );
    }
    Ok(())
}
