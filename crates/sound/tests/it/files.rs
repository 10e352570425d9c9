//! The Broadcast Wave that is written, byte by byte (check values M070 to M080).

use onestrand_sound::{Bext, Loudness, WaveOut, dithered};

fn bext() -> Bext {
    Bext {
        description: "The Ten-Past Boat, v2, 18.37 f/s, leader 180 frames".to_owned(),
        originator: "Onestrand".to_owned(),
        reference: "v2".to_owned(),
        date: "2026-11-27".to_owned(),
        time: "10:11:12".to_owned(),
        history: vec!["A=PCM,F=48000,W=24,M=mono,T=Onestrand".to_owned()],
    }
}

const LOUDNESS: Loudness = Loudness {
    integrated_lufs: Some(-23.0),
    range_lu: Some(15.0),
    max_momentary_lufs: Some(-18.5),
    max_short_term_lufs: None,
    true_peak_dbtp: Some(-1.0),
};

#[test]
fn the_description_stands_where_the_standard_has_it() {
    let bytes = bext().to_bytes(Some(&LOUDNESS));
    assert!(
        bytes.starts_with(b"The Ten-Past Boat, v2"),
        "M070 Description"
    );
    assert!(bytes[256..].starts_with(b"Onestrand\0"), "Originator");
    assert!(bytes[288..].starts_with(b"v2\0"), "OriginatorReference");
    assert_eq!(&bytes[320..330], b"2026-11-27");
    assert_eq!(&bytes[330..338], b"10:11:12");
    assert_eq!(bytes[338..346], [0; 8], "TimeReference");
    assert_eq!(bytes[346..348], [2, 0], "M074 Version");
    assert_eq!(bytes[348..412], [0; 64], "UMID");
    assert_eq!(bytes[412..414], [0x04, 0xf7], "M072 -23.00");
    assert_eq!(bytes[414..416], [0xdc, 0x05], "M072 15.00");
    assert_eq!(bytes[416..418], [0x9c, 0xff], "M072 -1.00");
    assert_eq!(bytes[420..422], [0xff, 0x7f], "M072 unused");
    assert_eq!(bytes[422..602], [0; 180], "Reserved");
    assert!(bytes[602..].starts_with(b"A=PCM"), "M071 CodingHistory");
    assert_eq!(bytes.len() % 2, 0);
    assert!(bytes.trim_ascii_end().ends_with(b"T=Onestrand"));
    let odd = Bext {
        description: "Größe\n".to_owned(),
        ..bext()
    };
    assert!(odd.to_bytes(None).starts_with(b"Gr??e?\0"));
}

#[test]
fn what_is_written_is_read_by_another() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("mix.wav");
    let samples: Vec<f32> = (0..9999)
        .map(|n| (f64::from(n) * 0.01).sin() as f32 * 0.5)
        .collect();
    let mut out = WaveOut::create(&path, 1, bext()).expect("begun");
    assert!(
        !path.exists(),
        "until it is done it stands under another name"
    );
    out.write(&samples).expect("written");
    assert_eq!(out.done(Some(&LOUDNESS)).expect("done"), 9999);
    let mut reader = hound::WavReader::open(&path).expect("a WAV");
    let spec = reader.spec();
    assert_eq!(
        (spec.sample_rate, spec.bits_per_sample, spec.channels),
        (48_000, 24, 1)
    );
    assert_eq!(reader.duration(), 9999);
    for (sample, read) in samples.iter().zip(reader.samples::<i32>()) {
        let back = f64::from(read.expect("a sample")) / 8_388_608.0;
        assert!((back - f64::from(*sample)).abs() <= 2.0 / 8_388_608.0);
    }
    let bytes = std::fs::read(&path).expect("read");
    assert_eq!(&bytes[..4], b"RIFF");
    let size = u32::from_le_bytes([bytes[4], bytes[5], bytes[6], bytes[7]]);
    assert_eq!(
        size as usize + 8,
        bytes.len(),
        "with the pad of an odd length (M075)"
    );
    assert_eq!(bytes.len() % 2, 0);
    assert_eq!(&bytes[12..16], b"JUNK", "M078");
    assert_eq!(&bytes[48..52], b"bext");
}

#[test]
fn half_a_mix_leaves_no_file() {
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("mix.wav");
    let mut out = WaveOut::create(&path, 2, bext()).expect("begun");
    out.write(&[0.1; 1000]).expect("written");
    drop(out);
    assert_eq!(std::fs::read_dir(dir.path()).expect("a folder").count(), 0);
}

#[test]
fn dither_is_the_same_each_time_small_and_even() {
    let value = 0.123_456_7_f32;
    let exact = f64::from(value) * 8_388_608.0;
    let all: Vec<f64> = (0..100_000)
        .map(|n| f64::from(dithered(value, n)) - exact)
        .collect();
    assert!(all.iter().all(|off| off.abs() <= 1.5));
    let mean = all.iter().sum::<f64>() / all.len() as f64;
    assert!(mean.abs() < 0.01, "{mean}");
    assert_eq!(dithered(value, 77), dithered(value, 77));
    assert_eq!(dithered(0.0, 5), 0, "silence stays silence");
    assert_eq!(
        dithered(2.0, 5),
        8_388_607,
        "what is too loud stops at the top"
    );
    assert_eq!(dithered(-2.0, 5), -8_388_608);
}
