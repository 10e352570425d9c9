//! The printed work order, read back off the paper and carried out on rolls that are
//! lists of frame numbers: it must yield the cut, frame for frame.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use onestrand_cut::{
    CheckRules, JoinKind, JoinTable, PieceKind, Roll, Strand, Strips, TrialCut, check,
};
use onestrand_film::{Fps, Frames, Gauge, RollId};
use onestrand_production::{BenchPaper, Meta, Production, SheetName, SheetOptions, gather_sheets};
use onestrand_store::{Act, CutRecord, InspectionRecord, PieceRecord, RollRecord, TakeRecord};

use crate::one_roll::shot;

/// A frame on the reel: of a roll, or of leader.
type Frame = Option<(String, u32)>;

/// What a line of the sheet says.
#[derive(Debug)]
enum Line {
    Mount {
        roll: String,
        again: bool,
        through: Option<u32>,
    },
    Strip(Strip),
    /// Off a pin, or leader of so many frames that lies ready; and its position.
    TakeUp(Result<u32, u32>, usize),
}

#[derive(Debug)]
struct Strip {
    number: usize,
    wind: i64,
    tail_first: bool,
    /// The roll and frame of the landmark, and the count.
    way: Option<(String, u32, i64)>,
    kept: (u32, u32),
    out: u32,
    pin: Option<u32>,
    position: usize,
}

/// What is printed, in one line, pages parted by form feeds.
pub(crate) fn text_of(pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("order.pdf");
    std::fs::write(&file, pdf).expect("written");
    let answer = Command::new("pdftotext")
        .args(["-raw", "-enc", "UTF-8"])
        .arg(&file)
        .arg("-")
        .output()
        .expect("poppler is there");
    let text = String::from_utf8(answer.stdout).expect("text");
    let text = text.replace('\u{200b}', "");
    let flat = |page: &str| page.split_whitespace().collect::<Vec<_>>().join(" ");
    text.split('\u{c}')
        .map(flat)
        .collect::<Vec<_>>()
        .join("\u{c}")
}

/// The rows of the sheet as the eye reads them, heads and feet of pages left out.
fn rows(pdf: &[u8]) -> Vec<String> {
    let mut tokens = Vec::new();
    for flat in text_of(pdf).split('\u{c}') {
        let rows = flat
            .split_once("goes to position done")
            .map_or("", |(_, rows)| rows);
        let rows = rows.split("The landmark is frame 0;").next().unwrap_or("");
        tokens.extend(rows.split(' ').filter(|t| !t.is_empty()).map(str::to_owned));
    }
    let end = tokens.windows(3).position(|w| w == ["joins", "each", "as"]);
    tokens.truncate(end.unwrap_or(tokens.len()));
    tokens
}

fn number(token: &str) -> Option<u32> {
    token.replace(',', "").parse().ok()
}

fn named(token: &str) -> Option<(String, u32)> {
    let (roll, frame) = token.split_once('·')?;
    Some((roll.to_owned(), frame.parse().ok()?))
}

/// Where words stand one after the other.
fn find(tokens: &[String], words: &[&str]) -> Option<usize> {
    tokens.windows(words.len()).position(|w| w == words)
}

fn read(tokens: &[String]) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let rest = &tokens[at..];
        if rest.get(1).is_some_and(|t| t == "mount,") || find(rest, &["mount", "again,"]) == Some(1)
        {
            let end = find(rest, &["kept."]).expect("a heading ends") + 1;
            let mut taken = end;
            let mut through = None;
            if rest.get(end).is_some_and(|t| t == "Wind") {
                through = number(&rest[end + 5]);
                taken = end + find(&rest[end..], &["tail."]).expect("a sentence ends") + 1;
            }
            lines.push(Line::Mount {
                roll: rest[0].clone(),
                again: rest[1] == "mount",
                through,
            });
            at += taken;
        } else if rest[0] == "Then" || rest[0] == "First" {
            at += 3;
            at += taken_up(&tokens[at..], &mut lines);
        } else {
            let hang = find(rest, &["hang"]).map(|i| i + 1);
            let reel = find(rest, &["on", "the", "reel"]).map(|i| i + 3);
            let end = hang.into_iter().chain(reel).min().expect("a row ends");
            lines.push(Line::Strip(strip(&rest[..end])));
            at += end;
        }
    }
    lines
}

/// `8 position 5`, or `leader, 24 frames position 3`, as often as it stands there.
fn taken_up(tokens: &[String], lines: &mut Vec<Line>) -> usize {
    let mut at = 0;
    loop {
        let rest = &tokens[at..];
        if find(rest, &["position"]) == Some(1) {
            let pin = number(&rest[0]).expect("a pin");
            lines.push(Line::TakeUp(
                Ok(pin),
                number(&rest[2]).expect("a place") as usize,
            ));
            at += 3;
        } else if rest.first().is_some_and(|t| t == "leader,") {
            let frames = number(&rest[1]).expect("frames");
            assert_eq!((rest[2].as_str(), rest[3].as_str()), ("frames", "position"));
            lines.push(Line::TakeUp(
                Err(frames),
                number(&rest[4]).expect("a place") as usize,
            ));
            at += 5;
        } else {
            return at;
        }
    }
}

fn strip(row: &[String]) -> Strip {
    let mut row = row.to_vec();
    // The number in the empty frame: there is no picture of a film on paper.
    if number(&row[1]).is_some() {
        row.remove(1);
    }
    let row = &row;
    let number_at = |i: usize| number(&row[i]).unwrap_or_else(|| panic!("{i} of {row:?}"));
    let wound = i64::from(number_at(2));
    let name = row.iter().rposition(|t| t.contains('·'));
    let sign = |t: &String| match t.as_str() {
        "+" => Some(1),
        "−" => Some(-1),
        _ => None,
    };
    let (way, mut at) = match name {
        Some(name) => {
            // A count ends in no comma; the nearer way beside it does.
            let is_count = |i: &usize| sign(&row[*i]).is_some() && !row[i + 1].ends_with(',');
            let count = (name..row.len() - 1).find(is_count).expect("a count");
            let (roll, frame) = named(&row[name]).expect("a frame");
            let counted = sign(&row[count]).unwrap_or(0) * i64::from(number_at(count + 1));
            let mm = find(&row[count..], &["mm"]).expect("a length");
            (Some((roll, frame, counted)), count + mm + 1)
        }
        None => {
            let ends = find(row, &["cut", "already"]).map(|i| i + 2);
            let roll = find(row, &["the", "roll", "ends", "here"]).map(|i| i + 4);
            (None, ends.into_iter().chain(roll).min().expect("a reason"))
        }
    };
    let (kept, out) = ((number_at(at), number_at(at + 1)), number_at(at + 2));
    at += 3;
    let skip = |words: &[&str], at: usize| match find(&row[at..], words) {
        Some(0) => at + words.len(),
        _ => at,
    };
    at = match row[at + 1] == "mm" {
        true => at + 2,
        false => skip(
            &["the", "roll", "ends", "here"],
            skip(&["cut", "already"], at),
        ),
    };
    // `incl. 1 at tail`, `incl. 1 and 1`.
    if row.get(at).is_some_and(|t| t == "incl.") {
        at += 4;
    }
    let hangs = row.last().is_some_and(|t| t == "hang");
    let pin = hangs.then(|| number_at(at));
    Strip {
        number: number_at(0) as usize,
        wind: match row[1].as_str() {
            "back" => -wound,
            "on" | "stay" => wound,
            other => panic!("{other} is no way to wind"),
        },
        tail_first: find(row, &["tail", "first"]).is_some(),
        way,
        kept,
        out,
        pin,
        position: number_at(at + usize::from(hangs)) as usize,
    }
}

#[derive(Default)]
struct Bench {
    /// Pieces of film of each roll, each hanging together.
    film: BTreeMap<String, Vec<Vec<u32>>>,
    stands: BTreeMap<String, i64>,
    mounted: String,
    pins: BTreeMap<u32, Vec<Frame>>,
    reel: Vec<Frame>,
    strips: usize,
    /// The position that went on the reel last.
    last: usize,
}

impl Bench {
    fn carry_out(&mut self, line: &Line) {
        match line {
            Line::Mount {
                roll,
                again,
                through,
            } => {
                assert_eq!(self.stands.contains_key(roll), *again);
                self.mounted.clone_from(roll);
                let stands = self.stands.entry(roll.clone()).or_insert(0);
                *stands = through.map_or(*stands, i64::from);
            }
            Line::Strip(strip) => self.strip(strip),
            Line::TakeUp(Ok(pin), position) => {
                self.next(*position);
                let strip = self.pins.remove(pin).expect("it hangs there");
                self.reel.extend(strip);
            }
            Line::TakeUp(Err(frames), position) => {
                self.next(*position);
                self.reel.extend(vec![None; *frames as usize]);
            }
        }
    }

    /// What goes on the reel stands behind what is there.
    fn next(&mut self, position: usize) {
        assert!(self.last < position, "{position} after {}", self.last);
        self.last = position;
    }

    fn strip(&mut self, strip: &Strip) {
        self.strips += 1;
        assert_eq!(strip.number, self.strips);
        let stands = self.stands.get_mut(&self.mounted).expect("mounted");
        let first = *stands + strip.wind;
        let film = self.film.get_mut(&self.mounted).expect("on the shelf");
        if let Some((roll, landmark, count)) = &strip.way {
            assert_eq!(roll, &self.mounted);
            assert_eq!(first, i64::from(*landmark) + count, "{strip:?}");
            let (low, high) = (
                first.min(i64::from(*landmark)),
                first.max(i64::from(*landmark)),
            );
            let hangs = |piece: &Vec<u32>| {
                i64::from(piece[0]) <= low && high <= i64::from(piece[piece.len() - 1]) + 1
            };
            assert!(
                film.iter().any(hangs),
                "the count goes over a cut: {strip:?}"
            );
        }
        let out = i64::from(strip.out);
        let (begin, end) = match strip.tail_first {
            true => (first - out, first),
            false => (first, first + out),
        };
        *stands = if strip.tail_first { begin } else { end };
        for place in [begin, end] {
            let at = u32::try_from(place).expect("on the roll");
            let inside = |piece: &Vec<u32>| piece[0] < at && at <= piece[piece.len() - 1];
            if let Some(whole) = film.iter().position(inside) {
                let behind = film[whole].iter().copied().filter(|f| *f >= at).collect();
                film[whole].retain(|f| *f < at);
                film.insert(whole + 1, behind);
            }
        }
        let is_it = |piece: &Vec<u32>| {
            i64::from(piece[0]) == begin && i64::from(piece[piece.len() - 1]) + 1 == end
        };
        let loose = film.iter().position(is_it).expect("the strip lies loose");
        let frames = film.remove(loose);
        assert!(frames.contains(&strip.kept.0) && frames.contains(&strip.kept.1));
        let roll = self.mounted.clone();
        let frames = frames.into_iter().map(|f| Some((roll.clone(), f)));
        match strip.pin {
            Some(pin) => {
                assert!(
                    self.pins.insert(pin, frames.collect()).is_none(),
                    "the pin is free"
                );
            }
            None => {
                self.reel.extend(frames);
                self.next(strip.position);
            }
        }
    }
}

/// The reel as the cut wants it: each strip with what its joins eat.
fn wanted(cut: &TrialCut, table: &JoinTable) -> Vec<Frame> {
    let strips = Strips::of(cut, table);
    let mut reel = Vec::new();
    for (index, strip) in strips.strips.iter().enumerate() {
        match (&strip.span, strips.extent(index)) {
            (Some(span), Some((begin, end))) => reel.extend((begin..end).map(|frame| {
                Some((
                    span.roll.to_string(),
                    u32::try_from(frame).expect("on the roll"),
                ))
            })),
            _ => reel.extend(vec![None; strip.frames.count() as usize]),
        }
    }
    reel
}

fn record(name: &str, gauge: Gauge, frames: u32) -> RollRecord {
    RollRecord {
        name: name.to_owned(),
        gauge: gauge.to_string(),
        film_speed: "18".to_owned(),
        base: "triacetate".to_owned(),
        fit: "project".to_owned(),
        wind: None,
        frames,
        missing: 0,
        expected: Some(frames),
        measured: None,
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    }
}

fn take(roll: &str, (first, thrown): (u32, u32), slate: Option<(&str, u16)>) -> TakeRecord {
    TakeRecord {
        roll: roll.to_owned(),
        first,
        thrown,
        setup: slate.map(|(setup, _)| setup.to_owned()),
        take: slate.map(|(_, take)| take),
        rating: "none".to_owned(),
        size: String::new(),
        camera_move: String::new(),
        direction: String::new(),
        action: String::new(),
        note: String::new(),
        begins: "camera_stop".to_owned(),
        flash_frames: 0,
        flash_stops: None,
        looked: true,
        pin: None,
    }
}

/// A film known on paper, its takes and one version.
fn film(
    dir: &Path,
    gauge: Gauge,
    rolls: &[(String, u32)],
    takes: &[TakeRecord],
    cut: &CutRecord,
) -> Production {
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(dir, &meta).expect("new");
    let mut acts = Vec::new();
    for (name, frames) in rolls {
        acts.push(Act::PutRoll {
            name: name.clone(),
            roll: Some(Box::new(record(name, gauge, *frames))),
        });
        acts.push(Act::PutTakes {
            roll: name.clone(),
            takes: takes.iter().filter(|t| &t.roll == name).cloned().collect(),
        });
    }
    acts.push(Act::PutCut {
        name: "v1".to_owned(),
        cut: Some(cut.clone()),
    });
    for act in acts {
        production.act("as it is", &act).expect("kept");
    }
    production
}

fn cut_of(pieces: Vec<PieceRecord>, join: JoinKind) -> CutRecord {
    CutRecord {
        usual_join: join.word().to_owned(),
        note: String::new(),
        made: "2026-01-01T00:00:00Z".to_owned(),
        pieces,
    }
}

fn of_roll(roll: &str, first: u32, thrown: u32) -> PieceRecord {
    PieceRecord {
        roll: Some(roll.to_owned()),
        ..shot(first, thrown)
    }
}

/// Prints, reads the paper and works by it.
fn replay(production: &Production, rolls: &[(String, u32)], gauge: Gauge, bench: BenchPaper) {
    let options = SheetOptions {
        only: Some(SheetName::WorkOrder),
        letter: false,
        join: None,
        bench,
    };
    let mut gathered = gather_sheets(production, "v1", &options).expect("it can be made");
    let printed = gathered.print_one(SheetName::WorkOrder).expect("printed");
    let tokens = rows(&printed.pdf);
    let mut on_bench = Bench::default();
    for (name, frames) in rolls {
        on_bench
            .film
            .insert(name.clone(), vec![(0..*frames).collect()]);
    }
    let cut = production
        .cut("v1")
        .expect("kept")
        .to_model()
        .expect("sound");
    let lines = read(&tokens);
    for line in &lines {
        on_bench.carry_out(line);
    }
    let table = JoinTable::usual(gauge);
    assert_eq!(on_bench.reel, wanted(&cut, &table), "{lines:?}");
    assert!(on_bench.pins.is_empty());
}

#[test]
fn the_work_order_of_the_example_yields_the_cut_off_the_paper() {
    let rolls: Vec<(String, u32)> = ["R1", "R2", "R3"].map(|r| (r.to_owned(), 3600)).to_vec();
    let takes: Vec<TakeRecord> = onestrand_example::takes()
        .iter()
        .map(|t| {
            let name = t.name();
            let (setup, number) = name.split_once("-T").expect("a slate");
            let slate = Some((setup, number.parse().expect("a take")));
            take(&format!("R{}", t.roll), (t.span_in, t.span_out), slate)
        })
        .collect();
    for join in [JoinKind::Tape, JoinKind::Cement] {
        let pieces = onestrand_example::first_cut()
            .iter()
            .map(|p| of_roll(&format!("R{}", p.roll), p.span_in, p.span_out));
        let cut = cut_of(pieces.collect(), join);
        let dir = tempfile::tempdir().expect("a folder");
        let production = film(
            &dir.path().join("film"),
            Gauge::Super8,
            &rolls,
            &takes,
            &cut,
        );
        for (tails, to_and_fro, count) in
            [(false, false, 144), (true, false, 30), (false, true, 144)]
        {
            let bench = BenchPaper {
                tails,
                to_and_fro,
                longest_count: Some(count),
                ..BenchPaper::USUAL
            };
            replay(&production, &rolls, Gauge::Super8, bench);
        }
    }
}

/// Numbers by lot, the same every time.
struct Lot(u64);

impl Lot {
    fn below(&mut self, most: u32) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        u32::try_from((self.0 >> 33) % u64::from(most)).expect("small")
    }
}

#[test]
fn any_work_order_yields_its_cut_off_the_paper() {
    let rolls: Vec<(String, u32)> = ["A", "B", "C"].map(|r| (r.to_owned(), 160)).to_vec();
    let gauge = Gauge::Sixteen;
    let model = rolls.iter().map(|(name, frames)| Roll {
        id: RollId::new(name).expect("a name"),
        gauge,
        base: onestrand_cut::Base::Triacetate,
        fit: onestrand_cut::Fit::Project,
        wind: None,
        frames: Frames::new(*frames).expect("short"),
        proved: true,
    });
    let strand = Strand::new(gauge, model, []);
    let rules = CheckRules {
        table: JoinTable::usual(gauge),
    };
    let mut printed = 0;
    for seed in 0..24 {
        let mut lot = Lot(seed);
        let join = JoinKind::ALL[lot.below(3) as usize];
        let mut cut = cut_of(Vec::new(), join);
        for _ in 0..14 {
            let first = lot.below(150);
            let mut piece = of_roll(
                ["A", "B", "C"][lot.below(3) as usize],
                first,
                first + 8 + lot.below(9),
            );
            if lot.below(6) == 0 {
                piece = PieceRecord {
                    kind: "leader".to_owned(),
                    roll: None,
                    first: None,
                    thrown: None,
                    frames: Some(20 + lot.below(9)),
                    ..shot(0, 1)
                };
            } else if lot.below(4) == 0 {
                piece.join = Some(JoinKind::ALL[lot.below(3) as usize].word().to_owned());
            }
            cut.pieces.push(piece);
            let tried = cut.to_model().expect("sound");
            if !check(&tried, &strand, &rules).is_ok() {
                cut.pieces.pop();
            }
        }
        let shots = cut.to_model().expect("sound");
        let is_shot = |p: &onestrand_cut::Piece| matches!(p.kind, PieceKind::Shot(_));
        if !shots.pieces().iter().any(is_shot) {
            continue;
        }
        let takes: Vec<TakeRecord> = rolls
            .iter()
            .flat_map(|(name, _)| {
                let middle = 20 + lot.below(100);
                [
                    take(name, (0, middle), None),
                    take(name, (middle, 160), Some(("7", 2))),
                ]
            })
            .collect();
        let dir = tempfile::tempdir().expect("a folder");
        let production = film(&dir.path().join("film"), gauge, &rolls, &takes, &cut);
        let bench = BenchPaper {
            pins: Some(14),
            tails: lot.below(2) == 0,
            to_and_fro: lot.below(3) == 0,
            longest_count: Some(10 + lot.below(100)),
            ..BenchPaper::USUAL
        };
        replay(&production, &rolls, gauge, bench);
        printed += 1;
    }
    assert!(printed > 20, "{printed} films were cut");
}
