//! How fast the rest of the work is told after each tick: a club reel of 300
//! pieces, ticked off from head to tail. `cargo run -p onestrand-bench --example ticks`
#![expect(clippy::print_stdout, reason = "a program that prints its figures")]

use std::error::Error;
use std::time::Instant;

use onestrand_bench::{
    AsMade, BenchHabits, BenchLog, Entry, Meaning, Recut, Remade, WorkLeft, WorkOrder, plan_anew,
};
use onestrand_cut::{
    Base, CheckRules, Fit, JoinKind, JoinTable, Piece, Roll, Strand, Strips, TrialCut,
};
use onestrand_film::{FrameRange, Frames, Gauge, RollId, Span};

const GAUGE: Gauge = Gauge::Sixteen;

fn film(rolls: u32, pieces: u32) -> Result<(TrialCut, Strand), Box<dyn Error>> {
    let mut drawn: Vec<(u32, Piece)> = Vec::new();
    let mut strand = Vec::new();
    for r in 0..rolls {
        let id = RollId::new(&format!("R{}", r + 1))?;
        let mut at = 20;
        for i in 0..pieces / rolls {
            let begin = at + 3 + (r * 37 + i * 61) % 120;
            at = begin + 18 + (r * 53 + i * 29) % 180;
            let span = Span::new(id.clone(), FrameRange::of(begin, at)?);
            // Near the order of the rolls, neighbours changed.
            drawn.push((r * 100 + i * 10 + (i * 7 + r * 13) % 31, Piece::shot(span)));
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
        TrialCut::new(pieces, JoinKind::Cement),
        Strand::new(GAUGE, strand, []),
    ))
}

/// The mean and the slowest of some times.
#[derive(Default)]
struct Took(Vec<f64>);

impl Took {
    fn does<T>(&mut self, work: impl FnOnce() -> T) -> T {
        let begun = Instant::now();
        let done = work();
        self.0.push(begun.elapsed().as_secs_f64() * 1000.0);
        done
    }

    fn say(&self, what: &str) {
        let slowest = self.0.iter().copied().fold(0.0, f64::max);
        let mean = self.0.iter().sum::<f64>() / self.0.len() as f64;
        println!("{what}: mean {mean:.2} ms, slowest {slowest:.2} ms");
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    for (rolls, pieces) in [(3, 24), (6, 60), (20, 300)] {
        let (cut, strand) = film(rolls, pieces)?;
        let rules = CheckRules {
            table: JoinTable::usual(GAUGE),
        };
        let habits = BenchHabits {
            pins: 48,
            ..BenchHabits::default()
        };
        let order = WorkOrder::plan(&cut, &strand, &rules, &habits)?;
        let plan = order.plan.ok_or("48 pins do not suffice")?;
        let strips = Strips::of(&cut, &rules.table);
        let (order, through) = plan.takings(&strips);
        let lengths = strand.rolls().map(|r| (r.id.clone(), r.frames.count()));
        let mut log = BenchLog::new(lengths.collect(), rules.table.clone());
        let (mut left, mut meaning, mut mending, mut anew) = <(Took, Took, Took, Took)>::default();
        let mut ticks = 0_u32;
        loop {
            let state = log.state();
            let table = &rules.table;
            let told = left.does(|| WorkLeft::of(state, &strips, &order, &through, table))?;
            let Some(step) = told.steps.into_iter().next() else {
                break;
            };
            if ticks.is_multiple_of(40) {
                mending.does(|| WorkLeft::mending(state, &strips, &order, &through, table))?;
                anew.does(|| plan_anew(state, &strips, table, habits.pins))?;
            }
            let before = state.clone();
            log.add(Entry::Deed(step.deed))?;
            meaning.does(|| Meaning::between(&before, log.state(), &strips, table));
            ticks += 1;
        }
        let made = AsMade::of(log.state(), &strips, &rules.table);
        // Every tenth piece out: another version of the film that is made now.
        let pieces_kept = cut.pieces().iter().enumerate();
        let kept = pieces_kept.filter(|(i, _)| i % 10 != 9);
        let new = TrialCut::new(kept.map(|(_, p)| p.clone()).collect(), JoinKind::Cement);
        let news = Strips::of(&new, &rules.table);
        let others = Recut::others(&cut, &new, &rules.table);
        let mut remade = Took::default();
        for _ in 0..5 {
            remade.does(|| Remade::of(log.state(), &others, &news, &rules.table, 999))?;
        }
        println!(
            "{pieces} pieces on {rolls} rolls, {ticks} ticks, {} frames as made",
            made.frames()
        );
        left.say("  what is left");
        mending.say("  with what lies wrongly mended");
        meaning.say("  what a tick means");
        anew.say("  the rest planned anew");
        remade.say("  another version of it, its price and order");
    }
    Ok(())
}
