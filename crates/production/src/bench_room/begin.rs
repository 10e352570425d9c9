//! A version goes on the bench.

use onestrand_bench::NoOrder;
use onestrand_cut::Strand;
use onestrand_store::{CutRecord, Production};

use super::line::{Begin, BenchLine};
use super::remade::begin_remake;
use super::room::Room;
use super::write::Said;
use crate::bench_order::work_order;
use crate::error::unfit;
use crate::{BenchOptions, ProductionError};

/// More pins than any bin has.
pub(super) const MOST_PINS: u32 = 999;

pub(super) fn begin(
    production: &Production,
    cut: &str,
    pins: u32,
    (tails, to_and_fro): (bool, bool),
) -> Result<Said, ProductionError> {
    let room = Room::of(production)?;
    if let Some(work) = &room.work
        && !room.log.state().is_ended()
    {
        return Err(unfit(
            format!("{} is on the bench", work.name),
            "finish it, or take it off before anything is cut",
        ));
    }
    if let Some(made) = room.made() {
        return begin_remake(production, &room, made, (cut, pins_fit(pins)?));
    }
    let options = BenchOptions {
        join: None,
        pins: pins_fit(pins)?,
        tails,
        to_and_fro,
    };
    let (order, strips, checked) = work_order(production, cut, options)?;
    let plan = order.plan.as_ref().ok_or_else(|| {
        let fewest = order.fewest.iter().map(|f| f.pins).min();
        unfit(
            format!("{pins} pins do not suffice for {cut}"),
            &fewest.map_or_else(
                || "own more pins, or wind to and fro".to_owned(),
                |n| {
                    format!(
                        "the fewest known are {n}, where rolls may be wound as the work wants it"
                    )
                },
            ),
        )
    })?;
    let (order, through) = plan.takings(&strips);
    let begin = Begin {
        cut: cut.to_owned(),
        version: CutRecord::new(&checked.cut, ""),
        winding: options.winding().code().to_owned(),
        pins,
        rolls: lengths(&checked.strand),
        order: order.into_iter().map(Into::into).collect(),
        through: through.iter().map(ToString::to_string).collect(),
        turn_back: None,
    };
    let words = format!("{cut} goes on the bench");
    Ok((words, vec![BenchLine::Begin(Box::new(begin))]))
}

pub(super) fn lengths(strand: &Strand) -> Vec<(String, u32)> {
    let rolls = strand.rolls();
    rolls
        .map(|r| (r.id.to_string(), r.frames.count()))
        .collect()
}

pub(super) fn no_order(problem: NoOrder) -> ProductionError {
    match problem {
        NoOrder::Cannot(why) => ProductionError::CannotBe(why),
        NoOrder::TooFewPins { fewest, proved } => {
            let at = if proved {
                "the fewest"
            } else {
                "the fewest known"
            };
            unfit(
                "the pins do not suffice for what is left".to_owned(),
                &format!("{at} are {fewest}"),
            )
        }
    }
}

pub(super) fn pins_fit(pins: u32) -> Result<u32, ProductionError> {
    match pins <= MOST_PINS {
        true => Ok(pins),
        false => Err(unfit(
            format!("{pins} pins are more than any trim bin has"),
            "say how many strips can hang at a time",
        )),
    }
}
