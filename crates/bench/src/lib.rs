#![doc = include_str!("../README.md")]
#![deny(missing_docs)]

mod card;
mod chain;
mod count;
mod doubt;
mod edge_numbers;
mod error;
mod habits;
mod landmark;
mod plan;
mod pull;
mod recut;
mod search;
mod state;
mod steps;
mod wanted;
mod work_order;

pub use card::{
    Blade, CardMaker, CardRules, CutPlace, CutsMade, FrameCard, Goes, StripEnd, USUAL_LIMIT,
};
pub use chain::{Count, LandmarkChain};
pub use count::{Extent, WorkCount};
pub use doubt::{COUNTED_TO_ONE_SLIP, Doubt, DoubtBy};
pub use edge_numbers::{EdgeConflict, EdgeReading, edge_numbers};
pub use error::NoWorkOrder;
pub use habits::{BenchHabits, BenchTimes, Winding};
pub use landmark::{Landmark, LandmarkKind, Landmarks};
pub use pull::{Pull, PullList};
pub use recut::{
    MOST_SHIFT, NearVersion, NearVersions, Price, Recut, RecutAct, RecutCorner, RecutDeed,
    RecutOrder, RecutPlan, RecutSource, RecutStep, Shift,
};
pub use state::{
    Anew, AsMade, BenchLog, BenchState, CannotBe, Deed, Entry, FEWEST_TICKS, Film, Gone, How,
    LONGEST_TICK, Laid, LearnedTimes, Length, Link, Made, Meaning, Next, NoOrder, NotSeen, Part,
    Place, Remade, RollCount, SeenFilm, StripChange, StripEvent, Taking, Tick, TickKind, WorkLeft,
    WorkStep, deeds_to_show, film_on_the_reel, history, plan_anew, takings_seen,
};
pub use steps::{BenchAct, Step, Towards};
pub use work_order::{BenchPlan, Corner, FewestPins, LowerBound, WorkOrder};
