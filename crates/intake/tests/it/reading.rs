//! Good files: every frame, once, in order.

use onestrand_intake::{Plane, ReadOptions};

use crate::media::{bare_count, folder, make, opened, pattern, read_all};

#[test]
fn a_film_file_gives_every_frame_with_picture_and_plane() {
    let dir = folder();
    let file = make(
        &format!(
            "{} -pix_fmt yuv420p -c:v libx264 -g 12 -bf 2 -x264-params scenecut=0",
            pattern("320x240", "18", 50)
        ),
        &dir.path().join("a.mp4"),
    );
    let source = opened(&file);
    let (frames, end) = read_all(&source, &ReadOptions::default()).unwrap();
    assert_eq!(frames.len() as u64, end.frames);
    assert_eq!(end.frames, bare_count(&file));
    assert_eq!(end.frames, 50);
    assert_eq!(end.warnings, []);
    assert!(!end.is_stopped);
    for (n, frame) in frames.iter().enumerate() {
        assert_eq!(frame.index, n as u64);
        assert_eq!(frame.key, n % 12 == 0, "frame {n}");
        assert!(frame.jpeg.starts_with(b"\xff\xd8") && frame.jpeg.ends_with(b"\xff\xd9"));
        assert_eq!(frame.plane.bytes().len(), Plane::BYTES);
        assert_eq!(frame.size, (320, 240));
    }
    let pts: Vec<i64> = frames.iter().map(|f| f.pts.unwrap()).collect();
    assert!(pts.is_sorted_by(|a, b| a < b), "{pts:?}");
    let hashes: std::collections::BTreeSet<_> = frames.iter().map(|f| f.plane.hash()).collect();
    assert_eq!(hashes.len(), 50, "no two frames of the pattern are alike");
}
