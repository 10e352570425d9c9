//! Sounds listened to: what is found is where it was put, and what is laid by it is heard
//! there in the mix.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_production::documents::{
    AnchorWords, ColumnWords, CueWords, CutChange, FoundDocument, HoldsToWord, ListenAsked,
    ListenFor, MixWords, PieceForm, PieceWord, SoundFactsWords, SoundWords,
};
use onestrand_production::{
    Cancel, DubChange, DubChangeKind, FilmChange, Listening, MixAsked, MixSet, NewCut, Production,
    Progress, Quiet, column_named, dub_document, round_heard, sound_list, sound_named,
};

use crate::in_the_hand::change;

const RATE: u32 = 48_000;

/// A film on paper of one roll, its version and one column; the projector runs at the
/// speed.
fn film(dir: &Path, speed: &str) -> Production {
    let mut production = crate::in_the_hand::film(dir, Gauge::Super8, &["R1"]);
    let new = NewCut {
        cut: "v1".to_owned(),
        ..NewCut::default()
    };
    change(&mut production, &FilmChange::NewCut(new)).expect("a version");
    let piece = |first, thrown| PieceForm {
        kind: PieceWord::Shot,
        roll: Some("R1".to_owned()),
        first: Some(first),
        thrown: Some(thrown),
        frames: None,
        title: None,
        slate: None,
        join: None,
        effect: None,
        note: String::new(),
    };
    // From running frame 1,000 on the roll is 500 frames ahead.
    for (at, piece) in [piece(0, 1000), piece(1500, 3200)].into_iter().enumerate() {
        let cut = "v1".to_owned();
        let cut_change = CutChange::Insert { at, piece };
        change(&mut production, &FilmChange::ChangeCut { cut, cut_change }).expect("laid in");
    }
    let mix = MixWords {
        speed: speed.to_owned(),
        ..MixWords::default()
    };
    dub(
        &mut production,
        None,
        DubChangeKind::Mix { mix: Box::new(mix) },
    );
    let column = ColumnWords {
        name: "effects".to_owned(),
        ..ColumnWords::default()
    };
    let column = Box::new(column);
    dub(&mut production, None, DubChangeKind::Column { column });
    production
}

fn dub(production: &mut Production, id: Option<i64>, to: DubChangeKind) {
    let asked = DubChange {
        id,
        after: None,
        to,
    };
    change(production, &FilmChange::Dub(Box::new(asked))).expect("kept");
}

/// Keeps a sound in the film as it is kept when it comes through FFmpeg.
fn keep(production: &mut Production, name: &str, samples: &[f32], play: u32) -> i64 {
    let kept = format!("{name}.wav");
    let folder = production.dir().join("sounds");
    std::fs::create_dir_all(&folder).expect("a folder");
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE,
        bits_per_sample: 32,
        sample_format: hound::SampleFormat::Float,
    };
    let mut file = hound::WavWriter::create(folder.join(&kept), spec).expect("a file");
    for sample in samples {
        file.write_sample(*sample).expect("written");
    }
    file.finalize().expect("whole");
    let sound = SoundWords {
        name: name.to_owned(),
        number: String::new(),
        kept,
        facts: SoundFactsWords {
            file: format!("{name}.flac"),
            rate: RATE,
            channels_found: 1,
            channels: 1,
            samples: samples.len() as u64,
            ..SoundFactsWords::default()
        },
        play,
        first_sound: 0,
        round: None,
        beats: None,
        rights: onestrand_production::documents::RightsWords::default(),
        note: String::new(),
    };
    let sound = Box::new(sound);
    dub(production, None, DubChangeKind::Sound { sound });
    sound_named(production, name).expect("there")
}

fn listen(production: &Production, sound: i64, what: ListenFor) -> FoundDocument {
    let asked = ListenAsked {
        from: None,
        to: None,
        what,
    };
    let listening = Listening::of(production, sound, &asked).expect("asked");
    let heard = listening.listen(&Cancel::new(), &mut Quiet);
    heard.expect("heard").found
}

/// Noise that is the same every time (a linear congruence, Knuth's MMIX).
fn noise(count: usize, seed: u64) -> Vec<f32> {
    let mut state = seed;
    let mut next = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 40) as f32 / 8_388_608.0 - 1.0
    };
    (0..count).map(|_| next()).collect()
}

/// Knocks at some seconds, in noise 40 dB below them.
fn knocks(seconds: f64, at: &[f64]) -> Vec<f32> {
    let mut sound = noise((seconds * f64::from(RATE)) as usize, 7);
    for sample in &mut sound {
        *sample *= 0.005;
    }
    for (nth, start) in at.iter().enumerate() {
        let start = (start * f64::from(RATE)).round() as usize;
        for (k, part) in noise(6_000, 100 + nth as u64).into_iter().enumerate() {
            sound[start + k] += 0.5 * part * (-(k as f32) / 900.0).exp();
        }
    }
    sound
}

/// The raw onsets of story 11.
const STORY: [f64; 7] = [2.104, 3.228, 4.262, 5.292, 6.363, 7.420, 8.510];

#[test]
fn a_fork_gives_the_play_rate_of_the_story() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18");
    let turn = std::f64::consts::TAU * 433.4 / f64::from(RATE);
    let fork: Vec<f32> = (0..4 * RATE)
        .map(|n| (0.3 * (turn * f64::from(n)).sin()) as f32)
        .collect();
    let sound = keep(&mut production, "fork", &fork, 1_000_000);
    let found = listen(&production, sound, ListenFor::Tone { hertz: 440.0 });
    let FoundDocument::Speed(found) = found else {
        panic!("{found:?}");
    };
    assert_eq!(format!("{:.4}", found.play), "1.0152");
    assert!((found.heard_hertz - 433.4).abs() < 0.005, "{found:?}");
    assert_eq!(found.play_millionths, (found.play * 1e6).round() as u32);
    // There is no hum in it, and no tone near 1,000 Hz: it says so and what to do.
    for what in [
        ListenFor::Hum { mains: 50 },
        ListenFor::Tone { hertz: 1000.0 },
        ListenFor::Hum { mains: 55 },
        ListenFor::Beats {
            slowest: Some(0.0),
            fastest: None,
        },
    ] {
        let asked = ListenAsked {
            from: None,
            to: None,
            what,
        };
        let listening = Listening::of(&production, sound, &asked).expect("asked");
        let refused = listening
            .listen(&Cancel::new(), &mut Quiet)
            .expect_err("none");
        assert!(!refused.hint().is_empty(), "{refused}");
    }
}

#[test]
fn strokes_of_the_story_are_chosen_and_heard_on_their_frames() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18.36");
    let sound = keep(&mut production, "hammer", &knocks(10.0, &STORY), 1_015_200);
    let column = column_named(&production, Some("effects")).expect("there");
    let marks = [1349_u32, 1368, 1387];
    let asked = |cut: &str, marks: &[u32]| ListenFor::Strokes {
        cut: cut.to_owned(),
        marks: marks.to_vec(),
        column,
        cue: None,
    };
    let found = listen(&production, sound, asked("v1", &marks));
    let FoundDocument::Strokes(found) = found else {
        panic!("{found:?}");
    };
    assert_eq!(found.heard.len(), 7);
    for (heard, planted) in found.heard.iter().zip(STORY) {
        assert!(
            (heard.seconds - planted).abs() < 0.005,
            "{planted}: {heard:?}"
        );
    }
    let best = &found.fits[0];
    assert_eq!(best.strokes, [3, 4, 5]);
    // Story 11 says 13.5 ms of 27.2; each onset is found within some tenths of one.
    assert!((best.worst_ms - 13.5).abs() < 1.0, "{best:?}");
    assert!(best.holds && best.one_piece);
    assert_eq!(format!("{:.1}", found.half_frame_ms), "27.2");
    dub(
        &mut production,
        None,
        DubChangeKind::Cues {
            cues: best.cues.clone(),
        },
    );
    let document = dub_document(&production, "v1").expect("a dub");
    let cue = &document.cues[0];
    // Held to the frame of the roll that shows the first stroke, half a second before it.
    let holds = AnchorWords {
        to: HoldsToWord::Frame,
        roll: "R1".to_owned(),
        frame: 1849,
        offset: -9,
    };
    assert_eq!((&cue.cue.start, cue.at), (&holds, 1340));
    assert_eq!(cue.short_by, 0);
    // In the mix the three are where the fit says, and no other is heard.
    let set = MixSet::of(&production, "v1", &MixAsked::default()).expect("a mix");
    let first = set.mix.sample_of(1330);
    let mut heard = vec![0.0_f32; (set.mix.sample_of(1430) - first) as usize];
    let mut run = set.run().expect("sounds");
    run.render(u64::try_from(first).expect("after 0"), &mut heard)
        .expect("rendered");
    let mut starts: Vec<usize> = Vec::new();
    for (at, sample) in heard.iter().enumerate() {
        let fresh = starts.last().is_none_or(|last| at - last > 12_000);
        if sample.abs() > 0.1 && fresh {
            starts.push(at);
        }
    }
    assert_eq!(starts.len(), 3, "{starts:?}");
    for ((start, mark), off) in starts.iter().zip(marks).zip(&best.off_ms) {
        let late = *start as i64 + first - set.mix.sample_of(i64::from(mark));
        let late_ms = late as f64 / 48.0;
        assert!(
            (late_ms - off).abs() < 3.0,
            "{mark}: {late_ms} ms, said {off}"
        );
    }
    // Frames that are not in the version, and too few strokes.
    let far = ListenAsked {
        from: None,
        to: None,
        what: asked("v1", &[2700]),
    };
    assert!(Listening::of(&production, sound, &far).is_err());
    let short = ListenAsked {
        from: Some(2.0),
        to: Some(4.0),
        what: asked("v1", &marks),
    };
    let listening = Listening::of(&production, sound, &short).expect("asked");
    let few = listening
        .listen(&Cancel::new(), &mut Quiet)
        .expect_err("two");
    assert!(few.to_string().contains("2 strokes"), "{few}");
}

#[test]
fn strokes_that_do_not_follow_one_another_are_laid_one_by_one() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18");
    // The second and the fourth are a second and a half apart, as the marks are.
    let sound = knocks(8.0, &[1.0, 2.0, 2.9, 3.5, 6.0]);
    let sound = keep(&mut production, "steps", &sound, 1_000_000);
    let column = column_named(&production, None).expect("there");
    let what = ListenFor::Strokes {
        cut: "v1".to_owned(),
        marks: vec![127, 100],
        column,
        cue: None,
    };
    let FoundDocument::Strokes(found) = listen(&production, sound, what) else {
        panic!("no strokes");
    };
    let best = &found.fits[0];
    assert_eq!(
        (best.strokes.as_slice(), best.one_piece),
        (&[2, 4][..], false)
    );
    assert!(best.worst_ms < 5.0);
    assert_eq!(best.cues.len(), 2);
    let at = |nth: usize| best.cues[nth].cue.start.clone();
    assert_eq!(i64::from(at(0).frame) + i64::from(at(0).offset), 100 - 9);
    // Its own before it is 0.6 s earlier: of that a part is let in.
    assert_eq!(i64::from(at(1).frame) + i64::from(at(1).offset), 127 - 6);
    dub(
        &mut production,
        None,
        DubChangeKind::Cues {
            cues: best.cues.clone(),
        },
    );
    assert_eq!(
        dub_document(&production, "v1").expect("a dub").cues.len(),
        2
    );
}

#[test]
fn the_sharpest_stroke_is_offered_for_a_slate() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18");
    let mut take = knocks(4.0, &[1.2]);
    // Somebody says something later: it swells over a tenth of a second.
    for k in 0..24_000_usize {
        let swell = (k as f32 / 4_800.0).min(1.0) * (1.0 - k as f32 / 24_000.0);
        take[120_000 + k] += 0.3 * swell * (k as f32 * 0.03).sin();
    }
    let sound = keep(&mut production, "take", &take, 1_000_000);
    let column = column_named(&production, None).expect("there");
    let what = ListenFor::Strokes {
        cut: "v1".to_owned(),
        marks: vec![60],
        column,
        cue: None,
    };
    let FoundDocument::Strokes(found) = listen(&production, sound, what) else {
        panic!("no strokes");
    };
    let best = &found.fits[0];
    let clap = found.heard[best.strokes[0] - 1].seconds;
    assert!((clap - 1.2).abs() < 0.003, "{clap}");
    assert!(best.times_louder.is_some_and(|louder| louder > 100.0));
    // Half a second before the clap, which is nine frames before frame 60.
    let cue = &best.cues[0].cue;
    assert_eq!((cue.start.frame, cue.start.offset), (60, -9));
    let before = (clap * f64::from(RATE) - cue.from as f64) / f64::from(RATE);
    assert!((before - 0.5).abs() < 1e-4, "{before}");
}

#[test]
fn a_loop_goes_round_in_the_mix_as_it_was_heard_before() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18");
    let water = example("river");
    let id = keep(&mut production, "river", &water, 1_000_000);
    let what = ListenFor::Seams {
        least: None,
        crossed: None,
    };
    let FoundDocument::Seams { seams } = listen(&production, id, what) else {
        panic!("no seams");
    };
    let best = &seams[0];
    assert!(!best.heard && best.times_usual < 2.0, "{seams:?}");
    assert!(best.round.crossed <= best.round.from);
    let play = round_heard(&production, id, best.round).expect("a loop");
    let before = play().expect("heard");
    // Kept, and laid for longer than the sound is.
    let mut sound = sound_list(&production).expect("sounds")[0].sound.clone();
    sound.round = Some(best.round);
    let sound = Box::new(sound);
    dub(&mut production, Some(id), DubChangeKind::Sound { sound });
    let cue = CueWords {
        column: column_named(&production, None).expect("there"),
        sound: Some(id),
        start: AnchorWords {
            to: HoldsToWord::Clock,
            ..AnchorWords::default()
        },
        frames: Some(1800),
        looped: true,
        ..CueWords::default()
    };
    let cue = Box::new(cue);
    dub(&mut production, None, DubChangeKind::Cue { cue });
    let set = MixSet::of(&production, "v1", &MixAsked::default()).expect("a mix");
    let mut run = set.run().expect("sounds");
    let mut heard = vec![0.0_f32; 100 * RATE as usize];
    run.render(0, &mut heard).expect("rendered");
    // What was heard before it was kept is what the mix has round its seam.
    let middle = best.round.to as usize;
    let around = 3 * RATE as usize;
    // But for the edges, where what is cut out is faded so that it does not click.
    let edge = RATE as usize / 10;
    let apart =
        (edge..2 * around - edge).map(|k| (heard[middle - around + k] - before[2 * k]).abs());
    let apart = apart.fold(0.0, f32::max);
    assert!(apart < 1e-4, "{apart}");
    // And each round is the one before it.
    let turn = (best.round.to - best.round.from) as usize;
    let from = best.round.to as usize;
    let off = (from..from + turn).map(|k| (heard[k] - heard[k + turn]).abs());
    assert!(off.fold(0.0, f32::max) < 1e-4);
}

fn example(name: &str) -> Vec<f32> {
    let all = onestrand_example::sounds().iter();
    let found = all.clone().find(|one| one.name == name);
    let names: Vec<&str> = all.map(|one| one.name).collect();
    found
        .unwrap_or_else(|| panic!("no {name}: {names:?}"))
        .samples()
}

#[test]
fn the_march_has_its_bars() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18.36");
    // Played two in a hundred faster than it was kept.
    let id = keep(&mut production, "march", &example("march"), 1_020_000);
    let what = ListenFor::Beats {
        slowest: None,
        fastest: None,
    };
    let FoundDocument::Beats(found) = listen(&production, id, what) else {
        panic!("no beats");
    };
    assert!(
        (found.bpm - onestrand_example::MARCH_BPM).abs() < 0.05,
        "{}",
        found.bpm
    );
    assert!((found.played_bpm - 1.02 * found.bpm).abs() < 0.01);
    assert_eq!(found.beats.in_a_bar, 4);
    let bars = onestrand_example::MARCH_BARS as usize;
    // Its first beats are soft and its last are held: two bars may be missing.
    assert!((bars - 2..=bars).contains(&found.bars), "{}", found.bars);
}

/// Stops when it is told how far the work is.
struct StopsIt(Cancel);

impl Progress for StopsIt {
    fn begin(&mut self, _words: &str, _total: Option<u64>) {}
    fn at(&mut self, _done: u64) {
        self.0.cancel();
    }
    fn note(&mut self, _words: &str) {}
}

#[test]
fn listening_is_stopped_when_it_is_told_to() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path(), "18");
    let id = keep(&mut production, "long", &noise(600_000, 3), 1_000_000);
    let asked = ListenAsked {
        from: None,
        to: None,
        what: ListenFor::Seams {
            least: None,
            crossed: None,
        },
    };
    let cancel = Cancel::new();
    let listening = Listening::of(&production, id, &asked).expect("asked");
    let ended = listening.listen(&cancel, &mut StopsIt(cancel.clone()));
    assert!(ended.expect_err("stopped").is_stopped());
    let behind = ListenAsked {
        from: Some(13.0),
        to: None,
        what: asked.what,
    };
    assert!(Listening::of(&production, id, &behind).is_err());
}
