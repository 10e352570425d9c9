//! A finish made in parts: stopped and gone on, carried into another rate, with sound,
//! with titles, with pictures changed on their way.

use std::cell::Cell;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_compose::MadeOf;
use onestrand_film::Fps;
use onestrand_finish::{
    CardFilm, Coding, Container, FilmWriter, FinishError, FinishPlan, FinishScan, Made, Pattern,
    Place, SoundOfFilm, Treat, make, parts_of,
};
use onestrand_intake::{Cancel, Ffmpeg, FrameIndex, PixelLayout, ReadOptions, Source, read};

use super::{form, picture, pictures_in};

pub(super) const FRAMES: u64 = 40;

pub(super) fn places(wanted: impl IntoIterator<Item = u64>) -> Vec<Place> {
    let shown = |n| Place::Shown {
        scan: 0,
        made_of: MadeOf::One(n),
    };
    wanted.into_iter().map(shown).collect()
}

pub(super) struct Desk {
    dir: tempfile::TempDir,
    pub(super) ffmpeg: Ffmpeg,
}

impl Desk {
    pub(super) fn new() -> Self {
        let desk = Self {
            dir: tempfile::tempdir().expect("a folder"),
            ffmpeg: Ffmpeg::locate().expect("ffmpeg is here"),
        };
        let form = form(
            "yuv420p",
            [Some("tv"), Some("bt709"), Some("bt709"), Some("bt709")],
        );
        let path = desk.at("scan.mkv");
        let mut writer =
            FilmWriter::begin(&desk.ffmpeg, &path, &form, Fps::EIGHTEEN, Coding::Ffv1, "s")
                .expect("begun");
        for frame in 0..FRAMES {
            writer.push(&picture(&form, frame)).expect("pushed");
        }
        writer.finish().expect("a scan");
        desk
    }

    fn at(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    fn scan(&self) -> FinishScan {
        let (source, _) = Source::open(&self.ffmpeg, &[self.at("scan.mkv")]).expect("opens");
        let mut rows = Vec::new();
        let end = read(
            &self.ffmpeg,
            &source,
            &ReadOptions::default(),
            &Cancel::new(),
            &mut |frame| {
                rows.push((&frame).into());
                ControlFlow::Continue(())
            },
        )
        .expect("is read");
        let index = FrameIndex::new(rows, end.time_base);
        FinishScan { source, index }
    }

    pub(super) fn plan(&self, name: &str, places: Vec<Place>) -> FinishPlan {
        let plan = FinishPlan::plain(
            vec![self.scan()],
            places,
            Fps::EIGHTEEN,
            "t".to_owned(),
            self.at(name),
        );
        FinishPlan {
            part_places: 10,
            ..plan.expect("a plan")
        }
    }

    pub(super) fn make(&self, plan: &FinishPlan) -> Result<Made, FinishError> {
        make(&self.ffmpeg, plan, None, &Cancel::new(), &mut |_| {})
    }
}

/// A film made in parts, and in one go.
fn both<T: Copy>(film: T) -> [(T, usize); 2] {
    [(film, 10), (film, 960)]
}

/// What a tool from outside says of a file.
fn probed(path: &Path, entries: &str) -> String {
    let out = Command::new("ffprobe")
        .args(["-v", "error", "-show_entries", entries, "-of", "csv=p=0"])
        .arg(path)
        .output()
        .expect("ffprobe is here");
    String::from_utf8(out.stdout).expect("words")
}

#[test]
fn what_is_made_stays_made_and_the_bits_are_those_of_an_undisturbed_finish() {
    let desk = Desk::new();
    let wanted: Vec<u64> = (20..FRAMES).chain(0..15).collect();
    let whole = desk.plan("whole.mkv", places(wanted.clone()));
    let undisturbed = desk.make(&whole).expect("made");
    assert_eq!((undisturbed.frames, undisturbed.kept), (35, 0));

    let stopped = desk.plan("stopped.mkv", places(wanted.clone()));
    let cancel = Cancel::new();
    let asked = cancel.clone();
    let ended = make(&desk.ffmpeg, &stopped, None, &cancel, &mut |n| {
        if n == 27 {
            asked.cancel();
        }
    });
    assert!(matches!(ended, Err(FinishError::Cancelled { .. })));
    assert!(!stopped.path.exists() && parts_of(&stopped.path).is_dir());
    let first = Cell::new(None);
    let gone_on = make(&desk.ffmpeg, &stopped, None, &Cancel::new(), &mut |n| {
        first.set(first.get().or(Some(n)));
    })
    .expect("goes on");
    assert_eq!((gone_on.kept, first.get()), (20, Some(10)));
    assert_eq!(gone_on.pictures, undisturbed.pictures);
    let bytes = |plan: &FinishPlan| std::fs::read(&plan.path).expect("a file");
    assert!(bytes(&stopped) == bytes(&whole));
    assert!(!parts_of(&stopped.path).exists());

    let layout = PixelLayout::nearest("yuv420p");
    let form = form(
        "yuv420p",
        [Some("tv"), Some("bt709"), Some("bt709"), Some("bt709")],
    );
    let shown = pictures_in(&desk.ffmpeg, &whole.path, layout);
    let planned: Vec<Vec<u8>> = wanted.iter().map(|n| picture(&form, *n)).collect();
    assert!(shown == planned);
    let hashes: Vec<_> = planned.iter().map(|one| blake3::hash(one)).collect();
    assert_eq!(undisturbed.pictures, hashes);
    assert_eq!(
        probed(
            &whole.path,
            "stream=color_space,color_transfer,color_primaries,r_frame_rate"
        ),
        "bt709,bt709,bt709,18/1\n"
    );
}

#[test]
fn a_film_of_one_part_is_written_at_once_and_leaves_nothing_when_stopped() {
    let desk = Desk::new();
    let in_one = |name| FinishPlan {
        part_places: 960,
        ..desk.plan(name, places((20..FRAMES).chain(0..15)))
    };
    let cancel = Cancel::new();
    let asked = cancel.clone();
    let stopped = in_one("stopped.mkv");
    let ended = make(&desk.ffmpeg, &stopped, None, &cancel, &mut |n| {
        // The coder is at work by then, and its half file is there.
        if n == 27 {
            asked.cancel();
        }
    });
    assert!(matches!(ended, Err(FinishError::Cancelled { frames: 27 })));
    let names = || {
        std::fs::read_dir(desk.dir.path())
            .expect("a folder")
            .count()
    };
    assert_eq!(names(), 1, "the scan alone");
    let made = |plan: &FinishPlan| {
        let made = desk.make(plan).expect("made");
        (made.pictures, std::fs::read(&plan.path).expect("a file"))
    };
    let (first, second) = (made(&in_one("a.mkv")), made(&in_one("b.mkv")));
    assert!(first == second, "the same plan gives the same bytes");
    let in_parts = desk.plan("c.mkv", in_one("c.mkv").places);
    assert_eq!(desk.make(&in_parts).expect("made").pictures, first.0);
    assert_eq!(names(), 4);
}

#[test]
fn another_finish_of_the_same_name_begins_afresh() {
    let desk = Desk::new();
    let stop_at = |plan: &FinishPlan, at: u64| {
        let cancel = Cancel::new();
        let asked = cancel.clone();
        let ended = make(&desk.ffmpeg, plan, None, &cancel, &mut |n| {
            if n == at {
                asked.cancel();
            }
        });
        assert!(matches!(ended, Err(FinishError::Cancelled { .. })));
    };
    stop_at(&desk.plan("film.mkv", places(0..30)), 25);
    let other = desk.plan("film.mkv", places(1..31));
    assert_eq!(desk.make(&other).expect("made").kept, 0);
}

#[test]
fn carried_into_another_rate_by_whole_frames_in_every_coding() {
    let desk = Desk::new();
    let rate: Fps = "25".parse().expect("a rate");
    let films = [("a.mkv", "ffv1"), ("a.mov", "prores"), ("a.mp4", "h264")];
    for ((name, coded), part_places) in films.into_iter().flat_map(both) {
        let plan = FinishPlan {
            part_places,
            pattern: Pattern::new(Fps::EIGHTEEN, rate).expect("a pattern"),
            ..desk.plan(name, places(0..36))
        };
        let made = desk.make(&plan).expect(name);
        assert_eq!(made.file_frames, 50, "{name}");
        let said = probed(
            &plan.path,
            "stream=codec_name,color_space,color_transfer,color_primaries,r_frame_rate",
        );
        assert_eq!(said, format!("{coded},bt709,bt709,bt709,25/1\n"));
        let times = probed(&plan.path, "packet=pts_time");
        let mut times: Vec<f64> = times
            .lines()
            .map(|line| line.trim_end_matches(',').parse().expect("a time"))
            .collect();
        times.sort_by(f64::total_cmp);
        for (n, time) in times.iter().enumerate() {
            assert!(
                (time - times[0] - n as f64 / 25.0).abs() < 0.000_6,
                "{name} {n} {time}"
            );
        }
        assert_eq!(times.len(), 50);
        if coded == "ffv1" {
            let shown = pictures_in(&desk.ffmpeg, &plan.path, PixelLayout::nearest("yuv420p"));
            for (k, shown) in shown.iter().enumerate() {
                let hash = blake3::hash(shown);
                assert_eq!(hash, made.pictures[k * 18 / 25], "frame {k} of the file");
            }
        }
    }
}

#[test]
fn the_sound_begins_with_the_picture_and_ends_with_it() {
    let desk = Desk::new();
    let mix = desk.at("mix.wav");
    // A leader of half a second, silent, then a tone.
    let made = Command::new("ffmpeg")
        .args(["-v", "error", "-f", "lavfi", "-i"])
        .arg("aevalsrc='if(gte(t,0.5),0.5*sin(2*PI*1000*t),0)':s=48000:d=3")
        .args(["-c:a", "pcm_s24le"])
        .arg(&mix)
        .status();
    assert!(made.expect("ffmpeg is here").success());
    for (name, part_places) in ["s.mkv", "s.mov", "s.mp4"].into_iter().flat_map(both) {
        let plan = FinishPlan {
            part_places,
            sound: Some(SoundOfFilm {
                path: mix.clone(),
                skip: 24_000,
                samples: 96_000,
            }),
            ..desk.plan(name, places(0..36))
        };
        desk.make(&plan).expect(name);
        let heard = Command::new("ffmpeg")
            .args(["-v", "error", "-i"])
            .arg(&plan.path)
            .args(["-map", "0:a", "-f", "f32le", "-ac", "1", "-"])
            .output()
            .expect("ffmpeg is here")
            .stdout;
        let samples: Vec<f32> = heard
            .chunks_exact(4)
            .map(|four| f32::from_le_bytes([four[0], four[1], four[2], four[3]]))
            .collect();
        let first = samples.iter().position(|s| s.abs() > 0.1).expect("a tone");
        assert!(first < 48, "{name}: silent for {first} samples");
        if name != "s.mp4" {
            assert_eq!(samples.len(), 96_000, "{name}");
        }
    }
}

/// A card of two pictures: red for three frames, then blue.
#[derive(Debug)]
struct RedThenBlue;

impl CardFilm for RedThenBlue {
    fn size(&self) -> (u32, u32) {
        (128, 96)
    }

    fn first_alike(&self, frame: u32) -> u32 {
        if frame < 3 { 0 } else { 3 }
    }

    fn frame(&self, frame: u32) -> Vec<u8> {
        let colour = if frame < 3 { [255, 0, 0] } else { [0, 0, 255] };
        colour.repeat(128 * 96)
    }

    fn mark(&self) -> String {
        "red, blue".to_owned()
    }
}

/// Luma of the primaries in ITU-R BT.709, 16 to 235: 16 + 219 · 0.2126 and 0.0722.
#[test]
fn a_title_that_is_not_photographed_is_drawn_into_its_place() {
    let desk = Desk::new();
    let mut all = places(0..4);
    all.extend((0..5).map(|frame| Place::Card { card: 0, frame }));
    all.extend(places(4..6));
    let plan = FinishPlan {
        cards: vec![Box::new(RedThenBlue)],
        ..desk.plan("title.mkv", all)
    };
    desk.make(&plan).expect("made");
    let shown = pictures_in(&desk.ffmpeg, &plan.path, PixelLayout::nearest("yuv420p"));
    let middle = |n: usize| i32::from(shown[n][24 * 64 + 32]);
    for n in 4..7 {
        assert!((middle(n) - 63).abs() <= 1, "{n}: {}", middle(n));
    }
    for n in 7..9 {
        assert!((middle(n) - 32).abs() <= 1, "{n}: {}", middle(n));
    }
    let form = form(
        "yuv420p",
        [Some("tv"), Some("bt709"), Some("bt709"), Some("bt709")],
    );
    assert!(shown[3] == picture(&form, 3) && shown[9] == picture(&form, 4));
}

/// Halves what it is shown, and remembers where it was called.
struct Halves(Vec<u64>);

impl Treat for Halves {
    fn treat(
        &mut self,
        place: u64,
        picture: &mut [u8],
        size: (u32, u32),
    ) -> Result<(), FinishError> {
        assert_eq!((size, picture.len()), ((64, 48), 64 * 48 * 6));
        self.0.push(place);
        for sample in picture.chunks_exact_mut(2) {
            let half = u16::from_le_bytes([sample[0], sample[1]]) / 2;
            sample.copy_from_slice(&half.to_le_bytes());
        }
        Ok(())
    }

    fn mark(&self) -> String {
        "half".to_owned()
    }
}

#[test]
fn pictures_are_changed_on_their_way_where_that_is_asked_and_only_those_of_scans() {
    let desk = Desk::new();
    let mut all = places(0..3);
    all.push(Place::Black);
    all.extend(places(5..7));
    let mut halves = Halves(Vec::new());
    let plan = desk.plan("half.mov", all);
    make(
        &desk.ffmpeg,
        &plan,
        Some(&mut halves),
        &Cancel::new(),
        &mut |_| {},
    )
    .expect("made");
    assert_eq!(halves.0, [0, 1, 2, 4, 5]);
    let plain = desk.plan("plain.mov", places(0..3));
    desk.make(&plain).expect("made");
    let layout = PixelLayout::nearest("yuv422p10le");
    let mean = |path: &Path| {
        let shown = pictures_in(&desk.ffmpeg, path, layout);
        let luma = shown[0][..64 * 48 * 2].chunks_exact(2);
        let sum: u64 = luma
            .map(|s| u64::from(u16::from_le_bytes([s[0], s[1]])))
            .sum();
        sum as f64 / f64::from(64 * 48) - 64.0
    };
    let ratio = mean(&plan.path) / mean(&plain.path);
    assert!((0.4..0.6).contains(&ratio), "{ratio}");
}

#[test]
fn what_cannot_be_is_told_with_the_next_step() {
    let desk = Desk::new();
    let plan = FinishPlan {
        coding: Coding::Ffv1,
        ..desk.plan("master.mp4", places(0..3))
    };
    let told = desk.make(&plan).expect_err("FFV1 does not lie in MP4");
    assert_eq!(told.code(), "finish.wrong_container");
    assert!(told.hint().contains(".mkv"));
    let slow = Pattern::new(Fps::EIGHTEEN, "16".parse().expect("a rate"));
    assert_eq!(slow.expect_err("too slow").code(), "finish.rate_too_low");
    assert_eq!(Container::of(Path::new("x.MP4")), Container::Mp4);
}
