//! Reading a drawn roll.

use crate::drawn::{DrawnRoll, Planted, RollPlan};
use onestrand_inspect::PlaneRef;
use onestrand_signs::{SignReader, SignRecord};
use std::ops::Range;

/// A roll that was drawn and read.
pub(crate) struct ReadRoll {
    pub(crate) takes: Vec<Range<u32>>,
    pub(crate) record: SignRecord,
    pub(crate) planted: Vec<Planted>,
}

pub(crate) fn read(plan: RollPlan) -> ReadRoll {
    let roll = DrawnRoll::new(plan);
    let mut reader = SignReader::new();
    for plane in roll.planes() {
        let plane = PlaneRef::new(&plane).expect("a plane");
        reader.push(plane);
    }
    ReadRoll {
        takes: roll.takes(),
        planted: roll.planted().to_vec(),
        record: reader.finish(),
    }
}
