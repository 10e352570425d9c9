//! Rows S051, S053 and S054 of the handbook's check values: S051 ITU-R BT.1359-1 and S054 EBU
//! R 37, both from memory with high sureness; S053 is computed from S051.

use onestrand_dub::SyncLimit;

#[test]
fn limits_are_those_of_the_two_papers() {
    let of = |limit: SyncLimit| (limit.early_ms, limit.late_ms);
    assert_eq!(of(SyncLimit::NOTICED), (45.0, 125.0));
    assert_eq!(of(SyncLimit::ACCEPTED), (90.0, 185.0));
    assert_eq!(of(SyncLimit::EXCHANGED), (40.0, 60.0));
}

#[test]
fn in_frames_they_are_what_the_handbook_computes() {
    for (speed, early, late) in [(18.0, "0.81", "2.25"), (24.0, "1.08", "3.00")] {
        let (found_early, found_late) = SyncLimit::NOTICED.in_frames(speed).expect("a speed");
        assert_eq!(format!("{found_early:.2}"), early);
        assert_eq!(format!("{found_late:.2}"), late);
    }
    assert!(SyncLimit::NOTICED.in_frames(0.0).is_err());
}

#[test]
fn a_sound_on_a_limit_is_inside_and_beyond_it_outside() {
    for limit in [
        SyncLimit::NOTICED,
        SyncLimit::ACCEPTED,
        SyncLimit::EXCHANGED,
    ] {
        assert!(limit.holds(0.0) && limit.holds(limit.late_ms) && limit.holds(-limit.early_ms));
        assert!(!limit.holds(limit.late_ms + 0.1) && !limit.holds(-limit.early_ms - 0.1));
    }
}
