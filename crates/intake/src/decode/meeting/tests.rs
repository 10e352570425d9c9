use super::*;
use std::sync::Arc;

const LINE: FrameLine = FrameLine {
    pts: Some(0),
    key: true,
    byte_pos: None,
    size: None,
};
const LONG: Duration = Duration::from_secs(30);

fn met_number(met: Met) -> u8 {
    match met {
        Met::Frame(_, picture, plane) => {
            assert_eq!(picture, plane);
            plane[0]
        }
        other => panic!("no frame: {other:?}"),
    }
}

#[test]
fn pictures_far_behind_planes_do_not_lock_up() {
    let meeting = Arc::new(Meeting::new(2, [true; 3]));
    let writer = Arc::clone(&meeting);
    let writing = std::thread::spawn(move || {
        for n in 0..100_u8 {
            writer.push_time(LINE);
            assert!(writer.push_plane(vec![n]));
            // The encoder holds back forty pictures, far more than the queue.
            if let Some(behind) = n.checked_sub(40) {
                assert!(writer.push_picture(vec![behind]));
            }
        }
        for behind in 60..100 {
            assert!(writer.push_picture(vec![behind]));
        }
        for stream in [Stream::Times, Stream::Pictures, Stream::Planes] {
            writer.end(stream, None);
        }
    });
    for n in 0..100 {
        assert_eq!(met_number(meeting.next(LONG)), n);
    }
    assert!(matches!(meeting.next(LONG), Met::End([0, 0, 0])));
    writing.join().unwrap();
}

#[test]
fn a_full_queue_waits_and_closing_lets_go() {
    let meeting = Arc::new(Meeting::new(2, [true, false, true]));
    for _ in 0..2 {
        meeting.push_time(LINE);
        assert!(meeting.push_plane(vec![0]));
    }
    meeting.push_time(LINE);
    let writer = Arc::clone(&meeting);
    let waiting = std::thread::spawn(move || writer.push_plane(vec![0]));
    meeting.close();
    assert!(!waiting.join().unwrap());
}

#[test]
fn what_is_left_over_is_told() {
    let meeting = Meeting::new(4, [true; 3]);
    meeting.push_time(LINE);
    meeting.push_plane(vec![1]);
    for stream in [Stream::Times, Stream::Pictures, Stream::Planes] {
        meeting.end(stream, None);
    }
    assert!(matches!(meeting.next(LONG), Met::End([1, 0, 1])));
}

#[test]
fn a_stream_that_runs_away_is_a_fault() {
    let meeting = Meeting::new(1, [true; 3]);
    for _ in 0..=STRAY_MOST + 1 {
        meeting.push_plane(vec![0]);
    }
    assert!(matches!(meeting.next(LONG), Met::Fault(_)));
}
