//! Recordings: kept as they come, found after a crash, and what a full disk leaves.
//!
//! The files are read with the `hound` library, which did not write them.

use std::path::Path;
use std::process::Command;

use onestrand_film::Gauge;
use onestrand_production::{
    Production, ProductionError, RecordingWords, begin_recording, close_recording,
    finish_recording, keep_recorded, recordings, sound_list, sweep_recordings,
    throw_recording_away,
};

fn film(dir: &Path) -> Production {
    crate::in_the_hand::film(dir, Gauge::Super8, &[])
}

fn voice(channels: u32) -> RecordingWords {
    RecordingWords {
        name: "voice, pass 1".to_owned(),
        rate: 48_000,
        channels,
        cut: "v1".to_owned(),
        at: 120,
    }
}

/// A ramp, so that every sample says which it is.
fn ramp(from: u32, count: u32) -> Vec<u8> {
    let samples = from..from + count;
    samples
        .flat_map(|n| (n as f32 / 1_048_576.0).to_le_bytes())
        .collect()
}

fn sounds(film: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(film.join("sounds")).expect("the folder");
    let names = entries.map(|e| e.expect("an entry").file_name());
    let mut all: Vec<String> = names.map(|n| n.to_string_lossy().into_owned()).collect();
    all.sort();
    all
}

fn unfit(answer: Result<impl std::fmt::Debug, ProductionError>) -> String {
    match answer.expect_err("it is refused") {
        ProductionError::Unfit { message, .. } => message,
        other => panic!("{other}"),
    }
}

fn samples_of(path: &Path) -> (hound::WavSpec, Vec<f32>) {
    let mut reader = hound::WavReader::open(path).expect("a WAV");
    let spec = reader.spec();
    let samples = reader.samples::<f32>().map(|s| s.expect("a sample"));
    let all = samples.collect();
    (spec, all)
}

#[test]
fn a_recording_becomes_a_sound_of_the_film_sample_for_sample() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let begun = begin_recording(dir.path(), &voice(1)).expect("begun");
    assert_eq!(begun.recording, "recording-1");
    let keep =
        |at, count| keep_recorded(dir.path(), "recording-1", at, &ramp(at as u32, count), None);
    assert_eq!(keep(0, 48_000).expect("kept"), 48_000);
    assert_eq!(keep(48_000, 48_000).expect("kept"), 96_000);
    // No answer was heard: the same second is sent again, and stands once.
    assert_eq!(keep(48_000, 48_000).expect("kept"), 96_000);
    // A gap is refused, and where it goes on is said.
    let said = unfit(keep(96_001, 10));
    assert!(said.contains("at sample 96000"), "{said}");
    assert_eq!(keep(96_000, 777).expect("kept"), 96_777);
    close_recording(dir.path(), "recording-1").expect("closed");
    let done = finish_recording(&mut production, "recording-1", 1_234).expect("done");
    assert_eq!((done.samples, done.from), (96_777, 1_234));
    // 96,776 of 1,048,576 is 20.7 dB below full scale.
    assert_eq!(done.peak, Some(-207));
    // Asked again, the same; and it is one sound.
    close_recording(dir.path(), "recording-1").expect("closed");
    assert_eq!(
        finish_recording(&mut production, "recording-1", 1_234).expect("done"),
        done
    );
    assert_eq!(
        production.undo().expect("one step back takes it out"),
        "sound voice, pass 1"
    );
    production.redo().expect("and forth");
    let names = sounds(dir.path());
    let kept = names
        .iter()
        .find(|n| n.ends_with(".wav"))
        .expect("a kept sound");
    let (spec, samples) = samples_of(&dir.path().join("sounds").join(kept));
    assert_eq!(
        (spec.channels, spec.sample_rate, spec.bits_per_sample),
        (1, 48_000, 32)
    );
    let wanted: Vec<f32> = (0..96_777).map(|n| n as f32 / 1_048_576.0).collect();
    assert!(samples == wanted, "every sample is in its place");
    sweep_recordings(dir.path());
    assert_eq!(sounds(dir.path()).len(), 1, "nothing but the sound is left");
}

#[test]
fn how_loud_a_recording_is_stands_in_the_list() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    begin_recording(dir.path(), &voice(1)).expect("begun");
    // A sine of 997 Hz, 20 dB below full scale, in one channel: −3.01 LUFS at full scale in
    // one channel (ITU-R BS.1770), so −23.0 here.
    let sine = |n: u32| 0.1 * (std::f32::consts::TAU * 997.0 * n as f32 / 48_000.0).sin();
    let bytes: Vec<u8> = (0..48_000).flat_map(|n| sine(n).to_le_bytes()).collect();
    for second in 0..4 {
        keep_recorded(dir.path(), "recording-1", second * 48_000, &bytes, None).expect("kept");
    }
    close_recording(dir.path(), "recording-1").expect("closed");
    let id = finish_recording(&mut production, "recording-1", 0)
        .expect("done")
        .id;
    let list = sound_list(&production).expect("the list");
    let facts = &list.iter().find(|s| s.id == id).expect("it").sound.facts;
    assert_eq!((facts.peak, facts.loudness), (Some(-200), Some(-230)));
}

#[test]
fn what_a_crash_leaves_is_offered_again_and_can_be_finished() {
    let dir = tempfile::tempdir().expect("a folder");
    drop(film(dir.path()));
    begin_recording(dir.path(), &voice(2)).expect("begun");
    keep_recorded(
        dir.path(),
        "recording-1",
        0,
        &ramp(0, 2 * 24_000),
        Some(7_000),
    )
    .expect("kept");
    // One that was begun and holds nothing, and one whose slip was lost.
    begin_recording(dir.path(), &voice(1)).expect("begun");
    begin_recording(dir.path(), &voice(2)).expect("begun");
    keep_recorded(dir.path(), "recording-3", 0, &ramp(0, 2 * 100), Some(100)).expect("kept");
    let folder = dir.path().join("sounds");
    std::fs::remove_file(folder.join("recording-3.json")).expect("the slip is lost");
    // The machine went down in the middle of a sample.
    let half = folder.join("recording-1.wav.part");
    let mut bytes = std::fs::read(&half).expect("the half file");
    bytes.extend_from_slice(&[1, 2, 3]);
    std::fs::write(&half, &bytes).expect("written");
    sweep_recordings(dir.path());
    let found = recordings(dir.path());
    let names: Vec<_> = found
        .iter()
        .map(|r| (r.recording.as_str(), r.samples))
        .collect();
    assert_eq!(names, [("recording-1", 24_000), ("recording-3", 100)]);
    assert_eq!(found[0].about, voice(2));
    // Where its first frame is heard was noted on the way; with its slip lost it is not known.
    assert_eq!((found[0].offset, found[1].offset), (Some(7_000), None));
    assert!(found[0].runs, "it was written just now");
    assert_eq!((found[1].about.rate, found[1].about.channels), (48_000, 2));
    // A new one takes no name that is in use.
    let next = begin_recording(dir.path(), &voice(1))
        .expect("begun")
        .recording;
    assert_eq!(next, "recording-4");
    let mut production = Production::open(dir.path()).expect("opened again");
    close_recording(dir.path(), "recording-1").expect("closed");
    let done = finish_recording(&mut production, "recording-1", 0).expect("done");
    assert_eq!(done.samples, 24_000);
    throw_recording_away(dir.path(), "recording-3").expect("thrown away");
    unfit(throw_recording_away(dir.path(), "recording-1"));
    let left: Vec<String> = recordings(dir.path())
        .into_iter()
        .map(|r| r.recording)
        .collect();
    assert_eq!(left, ["recording-4"]);
}

#[test]
fn what_cannot_be_recorded_is_refused_in_words() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    for (rate, channels) in [(4_000, 1), (48_000, 0), (48_000, 6), (400_000, 1)] {
        let about = RecordingWords {
            rate,
            channels,
            ..voice(1)
        };
        unfit(begin_recording(dir.path(), &about));
    }
    unfit(begin_recording(
        dir.path(),
        &RecordingWords {
            name: " ".into(),
            ..voice(1)
        },
    ));
    begin_recording(dir.path(), &voice(2)).expect("begun");
    // Half a sample in one channel.
    unfit(keep_recorded(dir.path(), "recording-1", 0, &[0; 12], None));
    let said = unfit(close_recording(dir.path(), "recording-1"));
    assert_eq!(said, "nothing was recorded");
    for odd in [
        "recording-",
        "recording-x",
        "recording-9",
        "../recording-1",
        "recording-+1",
    ] {
        let answer = keep_recorded(dir.path(), odd, 0, &[], None);
        assert!(matches!(answer, Err(ProductionError::Store(_))), "{odd}");
    }
    // What is no number is kept as silence.
    let odd: Vec<u8> = [f32::NAN, f32::INFINITY, 0.5, -0.25]
        .iter()
        .flat_map(|s| s.to_le_bytes())
        .collect();
    keep_recorded(dir.path(), "recording-1", 0, &odd, None).expect("kept");
    unfit(finish_recording(&mut production, "recording-1", 0));
    close_recording(dir.path(), "recording-1").expect("closed");
    unfit(keep_recorded(dir.path(), "recording-1", 2, &odd, None));
    // The count-in is longer than all that was recorded.
    unfit(finish_recording(&mut production, "recording-1", 2));
    let done = finish_recording(&mut production, "recording-1", 1).expect("done");
    assert_eq!((done.samples, done.peak), (2, Some(-60)));
}

/// Set where this program runs once more with a limit on what it may write.
const FULL: &str = "ONESTRAND_RECORD_UNTIL_FULL";

#[test]
fn a_disk_that_fills_keeps_what_it_took_and_the_recording_can_be_finished() {
    if let Some(dir) = std::env::var_os(FULL) {
        record_until_full(Path::new(&dir));
        return;
    }
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    begin_recording(dir.path(), &voice(1)).expect("begun");
    // No file may grow past 600 blocks of 1024 bytes: three seconds and a bit. To the
    // program that is a disk that takes no more, in the middle of a second.
    let limited = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 600; exec \"$0\" \"$@\""])
        .arg(std::env::current_exe().expect("this program"))
        .args([
            "--exact",
            "recordings::a_disk_that_fills_keeps_what_it_took_and_the_recording_can_be_finished",
        ])
        .env(FULL, dir.path())
        .output()
        .expect("run with a limit");
    assert!(
        limited.status.success(),
        "{}",
        String::from_utf8_lossy(&limited.stdout)
    );
    let found = recordings(dir.path());
    let [half] = &found[..] else {
        panic!("{found:?}")
    };
    // All but the head of the file, whatever unit the shell counts in.
    assert!(half.samples > 48_000, "{half:?}");
    close_recording(dir.path(), "recording-1").expect("closed");
    let done = finish_recording(&mut production, "recording-1", 0).expect("done");
    assert_eq!(done.samples, half.samples);
    let names = sounds(dir.path());
    let kept = names
        .iter()
        .find(|n| n.ends_with(".wav"))
        .expect("a kept sound");
    let (_, samples) = samples_of(&dir.path().join("sounds").join(kept));
    let wanted: Vec<f32> = (0..done.samples).map(|n| n as f32 / 1_048_576.0).collect();
    assert!(samples == wanted, "to the last sample that the disk took");
}

fn record_until_full(dir: &Path) {
    for second in 0..60_u32 {
        let at = second * 48_000;
        match keep_recorded(dir, "recording-1", u64::from(at), &ramp(at, 48_000), None) {
            Ok(kept) => assert_eq!(kept, u64::from(at) + 48_000),
            Err(ProductionError::File { .. }) => {
                let kept = recordings(dir)[0].samples;
                assert!(
                    kept > u64::from(at) && kept < u64::from(at) + 48_000,
                    "{kept}"
                );
                // Closing needs no more room than the recording has, but for its slip.
                close_recording(dir, "recording-1").expect("closed while the disk is full");
                return;
            }
            Err(other) => panic!("{other}"),
        }
    }
    panic!("the disk never filled");
}
