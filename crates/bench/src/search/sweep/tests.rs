//! What is left out would not have been better.

use onestrand_film::RollId;

use super::{Aim, Groups, Sweep};
use crate::habits::Winding;
use crate::plan::Figures;
use crate::wanted::{Wanted, WantedRoll, WantedStrip};

struct Lot(u64);

impl Lot {
    fn below(&mut self, bound: u32) -> u32 {
        let next = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = next.wrapping_add(1);
        u32::try_from(self.0 >> 33).unwrap() % bound
    }
}

fn wanted(lot: &mut Lot, strips: usize) -> Wanted {
    let mut order: Vec<usize> = (0..strips).collect();
    for i in (1..strips).rev() {
        let bound = u32::try_from(i + 1).unwrap();
        order.swap(i, lot.below(bound) as usize);
    }
    let count = 1 + lot.below(3) as usize;
    let mut rolls: Vec<WantedRoll> = Vec::new();
    for r in 0..count {
        let mut at = lot.below(40);
        let turns = order.iter().skip(r).step_by(count);
        let strips = turns.map(|turn| {
            let begin = at + lot.below(30);
            at = begin + 1 + lot.below(12);
            WantedStrip {
                begin,
                end: at,
                turn: *turn,
                strip: *turn,
            }
        });
        rolls.push(WantedRoll {
            id: RollId::new(["A", "B", "C"][r]).unwrap(),
            strips: strips.collect(),
            frames: at + 5,
            by_turn: Vec::new(),
        });
    }
    Wanted::from_rolls(rolls, strips)
}

fn swept(wanted: &Wanted, winding: Winding, pins: usize, compared: usize) -> Option<Figures> {
    let groups = Groups::new(wanted, winding, pins);
    let swept = Sweep {
        wanted,
        winding,
        pins,
        groups: &groups,
        least_changes: 0,
        at_most: None,
        aim: Aim::Changes,
        choice: usize::MAX,
        compared,
        width: usize::MAX,
        work: usize::MAX,
    }
    .run();
    assert!(!swept.dropped);
    swept.found.map(|f| f.figures)
}

#[test]
fn leaving_out_loses_nothing() {
    let mut lot = Lot(1);
    for case in 0..400 {
        let wanted = wanted(&mut lot, if case < 360 { 5 } else { 6 });
        for winding in Winding::ALL {
            for pins in [1, 2, 4] {
                let all = swept(&wanted, winding, pins, 0);
                let few = swept(&wanted, winding, pins, 64);
                let both = |f: Option<Figures>| f.map(|f| (f.changes, f.wound));
                assert_eq!(both(few), both(all), "{winding:?}, {pins} pins: {wanted:?}");
            }
        }
    }
}
