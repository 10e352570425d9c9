//! Story 7, the part that is about counting: figures computed and
//! cross-checked by a separate script before this program existed.

use onestrand_bench::{LandmarkKind, PullList};
use onestrand_cut::{JoinKind, JoinTable};
use onestrand_film::Gauge;

use crate::boat::{first_cut, strand};

fn list(join: JoinKind) -> PullList {
    let strand = strand();
    let table = JoinTable::usual(Gauge::Super8);
    PullList::in_cut_order(&first_cut(&strand, join), &strand, &table)
}

#[test]
fn the_work_of_the_first_cut() {
    let tape = list(JoinKind::Tape);
    let work = &tape.work;
    assert_eq!(
        (work.pieces, work.cuts, work.joins, work.leftovers),
        (23, 46, 24, 26)
    );
    assert_eq!(tape.wound, 23_038);
}

#[test]
fn shot_seven_is_found_from_its_camera_stop() {
    let tape = list(JoinKind::Tape);
    let seven = tape
        .pulls
        .iter()
        .find(|p| p.extent.positions.0 == 7)
        .expect("there is a shot 7");
    assert_eq!(seven.count_to_first, 77);
    assert_eq!(seven.landmark.words(), "camera stop 3B-T2");
    assert_eq!(seven.landmark.at.to_string(), "R2·470");
}

#[test]
fn a_second_piece_of_a_take_is_counted_from_the_last_cut() {
    let tape = list(JoinKind::Tape);
    let six = tape
        .pulls
        .iter()
        .find(|p| p.extent.positions.0 == 6)
        .expect("there is a shot 6");
    assert_eq!(six.landmark.kind, LandmarkKind::LastCut);
    assert_eq!(
        (six.landmark.at.to_string().as_str(), six.count_to_first),
        ("R1·2749", 64)
    );
}
