//! A record that was kept is judged as the first one was.

use crate::drawn::{Camera, Fault, RollPlan};
use crate::reading::read;
use onestrand_signs::{SignLimits, SignRecord};

#[test]
fn a_record_comes_back_from_bytes_as_it_was_and_is_judged_with_other_limits() {
    let plan = RollPlan::new(77, &[(Camera::Stands, 60), (Camera::Pans(0.6, 0.3), 84)])
        .with(Fault::Blur(0.5), 20..40)
        .with(Fault::Hair(1.0, 7.0, 2), 80..126);
    let roll = read(plan);
    let bytes = roll.record.to_bytes();
    let again = SignRecord::from_bytes(&bytes).expect("what was just written");
    assert_eq!(again.frames(), roll.record.frames());
    let usual = SignLimits::default();
    let told = again.signs(&roll.takes, &usual);
    assert!(told.len() >= 2, "{told:?}");
    assert_eq!(told, roll.record.signs(&roll.takes, &usual));
    let none = SignLimits {
        soft_below: 0.0,
        hair_above: 10.0,
        ..usual
    };
    assert!(again.signs(&roll.takes, &none).is_empty());
    let per_frame = bytes.len() / again.frames() as usize;
    assert!(per_frame < 220, "{per_frame} bytes a frame");
}

#[test]
fn bytes_that_are_no_record_are_refused() {
    let roll = read(RollPlan::new(78, &[(Camera::Stands, 30)]));
    let bytes = roll.record.to_bytes();
    assert!(SignRecord::from_bytes(&bytes[..bytes.len() - 1]).is_none());
    assert!(SignRecord::from_bytes(&[&bytes[..], &[0]].concat()).is_none());
    assert!(SignRecord::from_bytes(b"signs 1\n").is_none());
    assert!(SignRecord::from_bytes(&[]).is_none());
    // A number of frames that nobody could have written takes no memory.
    let mut many = bytes[..8].to_vec();
    many.extend([0xff; 4]);
    assert!(SignRecord::from_bytes(&many).is_none());
}
