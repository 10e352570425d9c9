//! A strong change inside a take: planted in a drawn scan, counted from at the bench.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH};
use onestrand_intake::Cancel;
use onestrand_production::documents::{CutPlaceDocument, FrameCardDocument, OnTheBenchDocument};
use onestrand_production::{
    BenchSetUp, FilmChange, Production, Quiet, SetUpBench, add_roll, bench_set_up,
};
use onestrand_store::{Act, CutRecord};

use crate::bench_room::{change, told, write};
use crate::one_roll::{meta, request, shot};

/// The frames are of 2-T2 of the first roll, which runs from 1,050 to 1,352.
const FIRST: u32 = 1_062;
const FRAMES: u32 = 230;
/// The light goes down before this frame of the scan.
const DARKER: u32 = 50;
/// No count is longer.
const LONGEST: u32 = 60;

/// A scan of one take whose light goes down by so many stops.
fn scan(dir: &Path, stops: f64) -> Production {
    let file = dir.join("R1.mkv");
    let darker: Vec<u8> = (0..=255_u8)
        .map(|level| {
            let light = (f64::from(level) / 255.0).powf(2.2) * (-stops).exp2();
            (255.0 * light.powf(1.0 / 2.2)).round() as u8
        })
        .collect();
    let mut ffmpeg = Command::new("ffmpeg")
        .args([
            "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24", "-r", "18",
        ])
        .args(["-s", &format!("{WIDTH}x{HEIGHT}"), "-i", "-"])
        .args(["-c:v", "ffv1"])
        .arg(&file)
        .stdin(Stdio::piped())
        .spawn()
        .expect("ffmpeg starts");
    let mut pipe = ffmpeg.stdin.take().expect("a pipe");
    let painter = RollPainter::new(1).expect("roll 1");
    let mut pixels = vec![0; FRAME_BYTES];
    for frame in 0..FRAMES {
        painter.paint(FIRST + frame, &mut pixels).expect("painted");
        if frame >= DARKER {
            pixels.iter_mut().for_each(|l| *l = darker[usize::from(*l)]);
        }
        pipe.write_all(&pixels).expect("written");
    }
    drop(pipe);
    assert!(ffmpeg.wait().expect("ended").success());
    let mut production = Production::create(&dir.join("film"), &meta()).expect("new");
    add_roll(&mut production, &request(&file), &Cancel::new(), &mut Quiet).expect("read");
    production
}

/// These pieces of the one take, on the bench.
fn on_the_bench(production: &mut Production, pieces: &[(u32, u32)]) -> OnTheBenchDocument {
    let takes = production.takes_of("R1").expect("takes");
    assert_eq!(takes.len(), 1, "the reading parts nothing there: {takes:?}");
    let bench = BenchSetUp {
        longest_count: LONGEST,
        ..bench_set_up(production).expect("a bench")
    };
    change(production, &FilmChange::SetUpBench(SetUpBench { bench })).expect("set up");
    let cut = CutRecord {
        usual_join: "tape".to_owned(),
        note: String::new(),
        made: "2026-11-26T10:00:00Z".to_owned(),
        pieces: pieces
            .iter()
            .map(|(first, thrown)| shot(*first, *thrown))
            .collect(),
    };
    let act = Act::PutCut {
        name: "v1".to_owned(),
        cut: Some(cut),
    };
    production.act("v1", &act).expect("a cut");
    write(production, crate::bench_room::begin()).expect("begun");
    told(production).1
}

/// The cards of all cuts to be made.
fn cards(on: &OnTheBenchDocument) -> Vec<&FrameCardDocument> {
    on.acts.iter().filter_map(|act| act.card.as_ref()).collect()
}

/// Kind, frame and length of each count.
fn counts(place: &CutPlaceDocument) -> Vec<(&str, u32, u32)> {
    let chain = place.chain.iter();
    chain
        .map(|one| (one.kind.as_str(), one.at, one.frames))
        .collect()
}

/// The same film once more, as it was read.
fn copied(film: &Path, to: &Path) -> Production {
    let prints = to.join("workprints");
    std::fs::create_dir_all(&prints).expect("a folder");
    std::fs::copy(film.join("production.db"), to.join("production.db")).expect("copied");
    for entry in std::fs::read_dir(film.join("workprints")).expect("a folder") {
        let entry = entry.expect("an entry");
        std::fs::copy(entry.path(), prints.join(entry.file_name())).expect("copied");
    }
    Production::open(to).expect("opened")
}

/// The strip begins 110 frames into the roll and 110 from its end: with counts of 60
/// at most, the change at 50 is what spares a slip of paper. Then cuts on every side of
/// the change, some a few frames from it: it is told as nearer by, and no chain begins
/// there.
#[test]
fn the_count_goes_by_way_of_the_change_and_never_begins_there() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    drop(scan(dir.path(), 1.5));

    let mut once = copied(&film, &dir.path().join("once"));
    let on = on_the_bench(&mut once, &[(110, 120)]);
    let card = cards(&on)[0];
    assert_eq!(
        counts(&card.head),
        [("head", 0, DARKER), ("change", DARKER, 60)],
        "{card:?}"
    );
    assert_eq!(card.head.chain[1].from, "it gets darker");

    let mut more = copied(&film, &dir.path().join("more"));
    let pieces = [(56, 70), (20, 45), (150, 170), (90, 100)];
    let on = on_the_bench(&mut more, &pieces);
    let cards = cards(&on);
    let mut begin: Vec<u32> = cards.iter().map(|card| card.head.at).collect();
    begin.sort_unstable();
    begin.dedup();
    assert_eq!(begin, [20, 56, 90, 150], "a card for every strip");
    let mut goes_by = 0;
    for card in &cards {
        for place in [&card.head, &card.tail] {
            let counts = counts(place);
            assert_ne!(counts[0].0, "change", "{place:?}");
            goes_by += counts.iter().filter(|one| one.0 == "change").count();
        }
    }
    assert!(goes_by > 0, "no count goes by way of it: {cards:?}");
    let near = cards.iter().filter_map(|card| card.head.nearer.as_ref());
    let mut near = near.filter(|near| near.kind == "change");
    let near = near.next().expect("it is told as nearer by");
    assert_eq!((near.at, near.frames), (DARKER, 6));
}

#[test]
fn without_a_change_of_the_light_there_is_none_to_count_from() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = scan(dir.path(), 0.0);
    let on = on_the_bench(&mut production, &[(110, 120)]);
    let cards = cards(&on);
    let all = cards
        .iter()
        .flat_map(|card| card.head.chain.iter().chain(&card.tail.chain));
    let kinds: Vec<&str> = all.map(|one| one.kind.as_str()).collect();
    assert!(!kinds.is_empty() && !kinds.contains(&"change"), "{kinds:?}");
    let head = counts(&cards[0].head);
    assert_eq!(head.len(), 2, "a slip of paper on the way: {head:?}");
}
