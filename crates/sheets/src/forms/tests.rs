//! The templates are sound: the typesetting has nothing to remark on them.

use onestrand_film::{Fps, FrameDelta, FramePos, FrameRange, Frames, Gauge, RollId, Span};

use super::{Ready, cutting, pull};
use crate::{
    After, CuttingRow, CuttingSheet, Head, JoinBite, JoinKind, Landmark, Lies, Mount, Paper, Piece,
    Pin, Proof, PullList, PullOrder, RollState, Standing, Strip,
};

fn head(proof: Proof) -> Head {
    Head {
        title: "The Ten-Past Boat".to_owned(),
        version: "v1".to_owned(),
        gauge: Gauge::Sixteen,
        speed: Fps::TWENTY_FOUR,
        joins: vec![JoinBite {
            kind: JoinKind::Weld,
            out_tail: Frames::ZERO,
            in_head: Frames::ZERO,
        }],
        rolls: vec![RollState {
            roll: RollId::new("R1").expect("a good name"),
            gauge: Gauge::Sixteen,
            proof,
            shrinkage: None,
            measured_by: String::new(),
        }],
        paper: Paper::Letter,
    }
}

fn sheet(proof: Proof, rows: usize) -> CuttingSheet {
    let row = CuttingRow {
        what: Standing::Piece(Piece {
            slate: "1-T1".to_owned(),
            action: "ferry ⛴".to_owned(),
            span: Span::new(
                RollId::new("R1").expect("a good name"),
                FrameRange::of(10, 40).expect("not reversed"),
            ),
            first: None,
            last: None,
        }),
        after: After::Join(JoinKind::Weld),
        note: "again".to_owned(),
    };
    CuttingSheet {
        head: head(proof),
        head_join: Some(JoinKind::Weld),
        rows: vec![row; rows],
    }
}

fn list(proof: Proof, strips: usize) -> PullList {
    let strip = Strip {
        kept: FrameRange::of(10, 40).expect("not reversed"),
        cut: FrameRange::of(9, 41).expect("not reversed"),
        landmark: Landmark {
            words: "flash".to_owned(),
            at: FramePos::ZERO,
        },
        wind: FrameDelta::new(0).expect("in range"),
        pin: Pin::None,
        position: 1,
        last_position: 1,
        picture: None,
    };
    let mount = Mount {
        roll: RollId::new("R1").expect("a good name"),
        lies: Lies::HeadsOut,
        strips: vec![strip; strips],
    };
    PullList {
        head: head(proof),
        order: PullOrder::Cut,
        mounts: vec![mount],
        running: Frames::ZERO,
        cuts: 2,
        joins: 2,
        leftovers: 2,
        wound: Frames::ZERO,
    }
}

#[test]
fn the_typesetting_has_nothing_to_remark() {
    for proof in [Proof::Proved, Proof::PaperOnly] {
        for rows in [0, 1, 40] {
            let sheet = cutting::ready(&sheet(proof.clone(), rows))
                .and_then(Ready::typeset)
                .expect("a sound sheet");
            assert_eq!(sheet.warnings, [], "{rows} rows");
            let list = pull::ready(&list(proof.clone(), rows))
                .and_then(Ready::typeset)
                .expect("a sound list");
            assert_eq!(list.warnings, [], "{rows} strips");
        }
    }
}
