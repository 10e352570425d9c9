//! The plan of a version at the user's bench, as the printed sheets follow it.

use onestrand_bench::{
    BenchHabits, BenchPlan, BenchTimes, CardMaker, CardRules, CutsMade, FrameCard, Landmarks,
    Winding, WorkCount, WorkOrder,
};
use onestrand_film::RollId;
use onestrand_sheets::{OnBench, ReelLies};
use onestrand_store::Production;

use crate::bench_order::with_its_cut;
use crate::error::unfit;
use crate::gather_sheets::SheetsToPrint;
use crate::landmarks::{landmarks, shrinkages};
use crate::{ProductionError, bench_set_up};

/// How the bench is for sheets that are printed once; what is not said is as it is
/// kept with the film.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BenchPaper {
    /// Pins of the trim bin.
    pub pins: Option<u32>,
    /// Whether a roll may be worked from its tail.
    pub tails: bool,
    /// Whether rolls may be wound to and fro.
    pub to_and_fro: bool,
    /// Whether the emulsion is up.
    pub emulsion_up: Option<bool>,
    /// Whether the head lies to the left.
    pub head_left: Option<bool>,
    /// No single count is longer. Unit: frames.
    pub longest_count: Option<u32>,
    /// Which end of the cut reel is outermost; never guessed.
    pub lies: ReelLies,
}

impl BenchPaper {
    /// Nothing is said.
    pub const USUAL: Self = Self {
        pins: None,
        tails: false,
        to_and_fro: false,
        emulsion_up: None,
        head_left: None,
        longest_count: None,
        lies: ReelLies::NotSaid,
    };
}

/// The bench, and what can be counted from on it.
#[derive(Debug)]
pub(crate) struct BenchAtHand {
    pub(crate) pins: u32,
    pub(crate) winding: Winding,
    pub(crate) lies: OnBench,
    pub(crate) rules: CardRules,
    landmarks: Landmarks,
}

impl BenchAtHand {
    pub(crate) fn of(
        production: &Production,
        rolls: &[RollId],
        said: &BenchPaper,
    ) -> Result<Self, ProductionError> {
        let mut kept = bench_set_up(production)?;
        kept.pins = said.pins.unwrap_or(kept.pins);
        kept.longest_count = said.longest_count.unwrap_or(kept.longest_count);
        let kept = kept.fit()?;
        Ok(Self {
            pins: kept.pins,
            winding: match (said.to_and_fro, said.tails) {
                (true, _) => Winding::ToAndFro,
                (false, true) => Winding::Tails,
                (false, false) => Winding::OnePass,
            },
            lies: OnBench {
                emulsion_up: said.emulsion_up.unwrap_or(kept.up == "emulsion"),
                head_left: said.head_left.unwrap_or(kept.head == "left"),
            },
            rules: CardRules {
                limit: kept.longest_count,
                shrinkage: shrinkages(production, rolls)?,
            },
            landmarks: landmarks(production, rolls)?,
        })
    }
}

/// The plan of a version, with a card for each strip in the order of the work.
#[derive(Debug, Clone)]
pub(crate) struct Planned {
    pub(crate) work: WorkCount,
    pub(crate) plan: BenchPlan,
    pub(crate) cards: Vec<FrameCard>,
}

impl SheetsToPrint {
    /// The plan; worked out once for all sheets.
    ///
    /// # Errors
    /// [`ProductionError::CutRefused`], [`ProductionError::NoWorkOrder`], and
    /// [`ProductionError::Unfit`] when the pins do not suffice.
    pub(crate) fn plan(&mut self) -> Result<Planned, ProductionError> {
        if let Some(planned) = &self.planned {
            return Ok(planned.clone());
        }
        let habits = BenchHabits {
            pins: self.bench.pins,
            winding: self.bench.winding,
            times: BenchTimes::default(),
        };
        let order = WorkOrder::plan(&self.cut, &self.strand, &self.rules, &habits)
            .map_err(|problem| with_its_cut(&self.head().version, problem))?;
        let Some(plan) = order.plan else {
            let fewest = order.fewest.iter();
            let one = |f: &onestrand_bench::FewestPins| format!("{} {}", f.pins, way(f.winding));
            let known: Vec<String> = fewest.map(one).collect();
            return Err(unfit(
                format!("{} pins do not suffice for this version", self.bench.pins),
                &format!(
                    "print it for more pins; these would do: {}",
                    known.join(", ")
                ),
            ));
        };
        let cards = CardMaker {
            work: &order.work,
            strand: &self.strand,
            landmarks: &self.bench.landmarks,
            rules: &self.bench.rules,
        }
        .by_steps(&plan.steps, CutsMade::new());
        let planned = Planned {
            work: order.work,
            plan,
            cards,
        };
        self.planned = Some(planned.clone());
        Ok(planned)
    }
}

/// A way of winding, in words.
pub(crate) const fn way(winding: Winding) -> &'static str {
    match winding {
        Winding::OnePass => "in one pass a roll",
        Winding::Tails => "where a roll may be worked from its tail",
        Winding::ToAndFro => "wound to and fro",
    }
}
