//! Sounds kept in a film's folder: the outline that is there at once, halves, the disk.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_intake::Cancel;
use onestrand_production::{Quiet, add_sound, keep_sound, sound_file, sweep_recordings};

/// Three seconds at 22,050 Hz: silence, a second at half scale, silence.
fn loud_in_the_middle(path: &Path) {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: 22_050,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut out = hound::WavWriter::create(path, spec).expect("a file");
    for n in 0..3 * 22_050_u32 {
        let high = if (n / 50).is_multiple_of(2) {
            16_384
        } else {
            -16_384
        };
        let value: i16 = if n / 22_050 == 1 { high } else { 0 };
        out.write_sample(value).expect("written");
    }
    out.finalize().expect("written");
}

#[test]
fn the_outline_is_there_before_the_sound_is_made_ready() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = crate::in_the_hand::film(dir.path(), Gauge::Super8, &[]);
    let source = dir.path().join("burst.wav");
    loud_in_the_middle(&source);
    let added = add_sound(&mut film, &source, &Cancel::new(), &mut Quiet).expect("brought in");
    let file = sound_file(&film, added.id).expect("kept");
    // Thirty columns over three seconds, counted at 48 kHz.
    let columns = file.columns(0, 144_000, 30).expect("an outline");
    let ready: Vec<_> = std::fs::read_dir(dir.path().join("workprints/sounds"))
        .expect("the folder")
        .map(|e| e.expect("an entry").file_name())
        .collect();
    assert_eq!(ready.len(), 1, "nothing but the outline: {ready:?}");
    for (nth, (low, high)) in columns.iter().enumerate() {
        // A bucket of 256 samples lies over the border of a column.
        let expected = match nth {
            11..19 => (-64, 64),
            9 | 10 | 19 | 20 => continue,
            _ => (0, 0),
        };
        assert!(
            (i32::from(*low) - expected.0).abs() <= 1 && (i32::from(*high) - expected.1).abs() <= 1,
            "column {nth}: {low} to {high}"
        );
    }
    // When the workprints are gone it is read from the sound again, and is the same.
    std::fs::remove_dir_all(dir.path().join("workprints/sounds")).expect("gone");
    assert_eq!(file.columns(0, 144_000, 30).expect("read anew"), columns);
}

#[test]
fn halves_that_a_killed_program_left_go_when_the_film_is_opened() {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = dir.path().join("sounds");
    std::fs::create_dir_all(&folder).expect("a folder");
    for name in [
        "arriving-a1.part",
        "incoming-b2.part",
        "0123.wav",
        "incoming.wav",
    ] {
        std::fs::write(folder.join(name), b"half").expect("written");
    }
    sweep_recordings(dir.path());
    let mut left: Vec<_> = std::fs::read_dir(&folder)
        .expect("the folder")
        .map(|e| e.expect("an entry").file_name())
        .collect();
    left.sort();
    assert_eq!(left, ["0123.wav", "incoming.wav"]);
}

#[test]
fn a_sound_that_cannot_be_written_leaves_nothing_half() {
    let dir = tempfile::tempdir().expect("a folder");
    let source = dir.path().join("burst.wav");
    loud_in_the_middle(&source);
    // A file stands where the folder should be: nothing can be written there.
    let folder = dir.path().join("sounds");
    std::fs::write(&folder, b"no folder").expect("written");
    let wrong =
        keep_sound(&folder, &source, "burst.wav", &Cancel::new(), &mut Quiet).expect_err("refused");
    assert!(wrong.to_string().contains("sounds"), "{wrong}");
}
