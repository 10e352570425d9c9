//! From a plan to the order in which its strips are taken.

use onestrand_cut::Strips;
use onestrand_film::RollId;

use super::Taking;
use crate::steps::{BenchAct, Towards};
use crate::{BenchPlan, Step};

impl BenchPlan {
    /// The strips in the order in which the plan takes them off their rolls, and
    /// the rolls that it winds through first.
    #[must_use]
    pub fn takings(&self, strips: &Strips) -> (Vec<Taking>, Vec<RollId>) {
        let mut wound = Towards::Tail;
        let mut takings = Vec::new();
        for step in &self.steps {
            if let Some(direction) = step.direction {
                wound = direction;
            }
            if let Some(strip) = taken(step, strips) {
                takings.push(Taking {
                    strip,
                    backward: wound == Towards::Head,
                });
            }
        }
        (takings, self.corner.tails.clone())
    }
}

/// The strip that a step takes off its roll, if it does.
fn taken(step: &Step, strips: &Strips) -> Option<usize> {
    let off_its_roll = matches!(
        (step.act, &step.roll, step.pin),
        (BenchAct::Hang, ..) | (BenchAct::TakeUp, Some(_), None)
    );
    let position = step.position.filter(|_| off_its_roll)?;
    let at = |s: &onestrand_cut::Strip| s.positions.0 + 1 == position;
    strips.strips.iter().position(at)
}
