//! The digital finish: what it costs beside a plain FFmpeg transcode of the same frames.

use std::ffi::OsStr;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

use onestrand_cut::{JoinKind, Piece, TrialCut};
use onestrand_example::{FRAME_BYTES, HEIGHT, RollPainter, WIDTH, first_cut};
use onestrand_film::{Fps, FrameRange, Gauge, RollId, Span};
use onestrand_finish::{Coding, Container};
use onestrand_intake::Ffmpeg;
use onestrand_store::{Act, CutRecord, Meta, Production};

use crate::cost::{self, Cost, output_of};
use crate::figures::{Figures, megabytes, ratio};
use crate::reading::program;
use crate::say;
use crate::table::{Table, beside};
use crate::trouble::{Trouble, make_sure};

/// How often each is run, in turn with the other.
const ROUNDS: u32 = 3;
/// The most memory that a finish may take. Source: issue 10. Unit: bytes.
const MEMORY: f64 = 600e6;
/// The camera roll of the example film that is finished from: its four pieces of v1 that
/// end by [`PAINTED`] need 0.82 frames decoded before them for each of their own where a
/// key frame comes every 250; all of v1 needs 0.80.
const ROLL: u8 = 3;
/// Frames of it that are painted.
const PAINTED: u32 = 1_600;
/// Frames of the cut.
const FRAMES: u32 = 558;

/// How the scan is coded, and what a finish from it may cost.
struct Scan {
    name: &'static str,
    /// The end of its name.
    end: &'static str,
    pixels: &'static str,
    arguments: &'static str,
    /// Multiples of the plain transcode. Source: issue 10.
    at_most: f64,
}

const SCANS: [Scan; 2] = [
    Scan {
        name: "ProRes 422 HQ",
        end: "mov",
        pixels: "yuv422p10le",
        arguments: "-c:v prores_ks -profile:v 3",
        at_most: 1.05,
    },
    Scan {
        name: "H.264, GOP of 250",
        end: "mkv",
        pixels: "yuv420p",
        arguments: "-c:v libx264 -preset veryfast -crf 16 -g 250 -keyint_min 250 -sc_threshold 0",
        at_most: 1.3,
    },
];

/// The ends of the names that finishes get.
const MADE: [&str; 2] = ["mkv", "mp4"];

/// Measures, and prints the table.
///
/// # Errors
/// [`Trouble`] when a scan cannot be made, read or finished.
pub(crate) fn measure() -> Result<(), Trouble> {
    let ffmpeg = Ffmpeg::locate()?;
    let temp = std::env::temp_dir();
    let room = tempfile::tempdir().map_err(Trouble::file("make a folder", &temp))?;
    say(&format!(
        "painting {PAINTED} pictures in {}",
        room.path().display()
    ));
    let bench = Bench {
        ffmpeg: ffmpeg.ffmpeg_path(),
        onestrand: program()?,
        room: room.path(),
    };
    bench.paint("roll.rgb", 0..PAINTED)?;
    bench.paint("cut.rgb", spans().flat_map(|(begin, end)| begin..end))?;
    let mut table = Table::new(&[
        "from, to",
        "plain ms/f",
        "ours ms/f",
        "wall ratio",
        "spread",
        "ratio",
        "target",
        "",
    ]);
    let mut memory = Table::new(&["memory while finishing", "plain", "ours", "target", ""]);
    for scan in &SCANS {
        say(&format!("making and reading a scan in {}", scan.name));
        let plain = bench.encode("cut.rgb", scan)?;
        let dir = bench.production(&bench.encode("roll.rgb", scan)?)?;
        for end in MADE {
            let name = format!("{}, {end}", scan.name);
            say(&format!("finishing: {name}, {ROUNDS} times beside plain"));
            let (mut bare, mut ours) = (Vec::new(), Vec::new());
            for _ in 0..ROUNDS {
                bare.push(bench.plain(&plain, end)?);
                ours.push(bench.ours(&dir, end)?);
            }
            rows(&name, scan, (&bare, &ours), (&mut table, &mut memory));
        }
        std::fs::remove_dir_all(&dir).map_err(Trouble::file("remove the production", &dir))?;
    }
    println!(
        "The digital finish of four pieces of v1, {FRAMES} frames of {WIDTH}×{HEIGHT}: `onestrand finish`\n\
         beside a plain transcode, by the same FFmpeg and with the same words for the coder, of a\n\
         file in the coding of the scan that holds these frames alone. Processor time of all\n\
         processes, medians of {ROUNDS} runs of each in turn; spread: least and greatest ratio of a pair.\n"
    );
    println!("{table}");
    if crate::memory::can_be_seen() {
        println!("{memory}");
    } else {
        println!("Memory: not measured, this kernel does not name the children of a process.\n");
    }
    Ok(())
}

/// The spans of the cut, in its order. Unit: frames of the roll, the end not included.
fn spans() -> impl Iterator<Item = (u32, u32)> {
    let pieces = first_cut().iter();
    let of_roll = pieces.filter(|piece| piece.roll == ROLL && piece.span_out <= PAINTED);
    of_roll.map(|piece| (piece.span_in, piece.span_out))
}

fn rows(
    name: &str,
    scan: &Scan,
    (bare, ours): (&[Cost], &[Cost]),
    (table, memory): (&mut Table, &mut Table),
) {
    let median = |costs: &[Cost], of: fn(&Cost) -> f64| Figures::of(costs.iter().map(of)).median();
    let processor = [bare, ours].map(|costs| median(costs, |cost| cost.processor));
    let wall = median(ours, |cost| cost.wall) / median(bare, |cost| cost.wall);
    let pairs = ours.iter().zip(bare);
    let pairs = Figures::of(pairs.map(|(ours, bare)| ours.processor / bare.processor));
    let found = processor[1] / processor[0];
    let [target, verdict] = beside(found, Some(scan.at_most), ratio);
    let each = |seconds: f64| format!("{:.2}", seconds / f64::from(FRAMES) * 1e3);
    table.row([
        name.to_owned(),
        each(processor[0]),
        each(processor[1]),
        ratio(wall),
        format!("{}–{}", ratio(pairs.best()), ratio(pairs.worst())),
        ratio(found),
        target,
        verdict,
    ]);
    let peak = |costs: &[Cost]| Figures::of(costs.iter().map(|cost| cost.peak as f64)).worst();
    let [target, verdict] = beside(peak(ours), Some(MEMORY), megabytes);
    memory.row([
        name.to_owned(),
        megabytes(peak(bare)),
        megabytes(peak(ours)),
        target,
        verdict,
    ]);
}

/// What runs, and where.
struct Bench<'a> {
    ffmpeg: &'a Path,
    onestrand: PathBuf,
    room: &'a Path,
}

impl Bench<'_> {
    /// Paints frames of the roll into one file, RGB24.
    fn paint(&self, name: &str, frames: impl Iterator<Item = u32>) -> Result<(), Trouble> {
        let path = self.room.join(name);
        let unwritten = || Trouble::file("write the pictures", &path);
        let painter = RollPainter::new(ROLL)?;
        let mut file = BufWriter::with_capacity(1 << 20, File::create(&path).map_err(unwritten())?);
        let mut bytes = vec![0; FRAME_BYTES];
        for frame in frames {
            painter.paint(frame, &mut bytes)?;
            file.write_all(&bytes).map_err(unwritten())?;
        }
        file.flush().map_err(unwritten())
    }

    /// Codes painted pictures as the scan is coded, with grain.
    fn encode(&self, pictures: &str, scan: &Scan) -> Result<PathBuf, Trouble> {
        let path = self.room.join(pictures).with_extension(scan.end);
        let mut command = Command::new(self.ffmpeg);
        command
            .args([
                "-nostdin", "-v", "error", "-f", "rawvideo", "-pix_fmt", "rgb24",
            ])
            .args(["-s", &format!("{WIDTH}x{HEIGHT}"), "-r", "18", "-i"])
            .arg(self.room.join(pictures))
            .arg("-vf")
            .arg(format!(
                "format=yuv444p,noise=alls=12:allf=t:all_seed=7,format={}",
                scan.pixels
            ))
            .args(scan.arguments.split_ascii_whitespace())
            .arg("-y")
            .arg(&path);
        output_of(&mut command, &format!("making the scan {}", scan.name))?;
        Ok(path)
    }

    /// A production with the roll read and the cut laid.
    fn production(&self, scan: &Path) -> Result<PathBuf, Trouble> {
        let dir = self.room.join("production");
        let meta = Meta {
            title: "Benchmark".to_owned(),
            gauge: Gauge::Super8,
            speed: Fps::EIGHTEEN,
        };
        drop(Production::create(&dir, &meta)?);
        let mut command = Command::new(&self.onestrand);
        command.args(["roll", "add"]).arg(&dir).arg("R1").arg(scan);
        output_of(&mut command, "onestrand roll add")?;
        let roll = RollId::new("R1")?;
        let piece = |(begin, end)| {
            let range = FrameRange::of(begin, end)?;
            Ok::<Piece, Trouble>(Piece::shot(Span::new(roll.clone(), range)))
        };
        let cut = TrialCut::new(
            spans().map(piece).collect::<Result<_, _>>()?,
            JoinKind::Tape,
        );
        make_sure(
            "frames of the cut",
            cut.frames().count().into(),
            FRAMES.into(),
        )?;
        let act = Act::PutCut {
            name: "v1".to_owned(),
            cut: Some(CutRecord::new(&cut, "")),
        };
        Production::open(&dir)?.act("lay the cut", &act)?;
        Ok(dir)
    }

    fn plain(&self, of: &Path, end: &str) -> Result<Cost, Trouble> {
        let out = self.room.join("plain").with_extension(end);
        let coding = Coding::usual(Container::of(&out));
        let layout = coding.layout().map(|name| format!("format={name}"));
        let mut command = Command::new(self.ffmpeg);
        command
            .args(["-nostdin", "-v", "error", "-i"])
            .arg(of)
            .args(["-map", "0:v:0", "-fps_mode", "passthrough"])
            .args(layout.iter().flat_map(|words| ["-vf", words]))
            .args(coding.words().split_ascii_whitespace())
            .arg("-y")
            .arg(&out);
        let cost = cost::of(&mut command, "the plain transcode")?;
        self.has_all(&out)?;
        Ok(cost)
    }

    fn ours(&self, dir: &Path, end: &str) -> Result<Cost, Trouble> {
        let out = self.room.join("ours").with_extension(end);
        let mut command = Command::new(&self.onestrand);
        command
            .args(["finish", "--cut", "v1", "--out"])
            .args([out.as_os_str(), dir.as_os_str()]);
        let cost = cost::of(&mut command, "onestrand finish")?;
        self.has_all(&out)?;
        Ok(cost)
    }

    /// Makes sure that a film has every frame of the cut, and takes it off the disk.
    fn has_all(&self, film: &Path) -> Result<(), Trouble> {
        let mut command = Command::new(self.ffmpeg);
        let null: [&OsStr; 4] = ["-f", "framecrc", "-fps_mode", "passthrough"].map(OsStr::new);
        command
            .args(["-nostdin", "-v", "error", "-i"])
            .arg(film)
            .args(["-map", "0:v:0", "-c", "copy"])
            .args(null)
            .arg("-");
        let told = output_of(&mut command, "counting frames")?;
        let told = String::from_utf8_lossy(&told);
        let frames = told.lines().filter(|line| line.starts_with("0,")).count();
        make_sure("frames of a finish", frames as u64, FRAMES.into())?;
        std::fs::remove_file(film).map_err(Trouble::file("remove the film", film))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cut_is_as_long_as_said_and_needs_as_much_before_it_as_all_of_v1() {
        let frames: u32 = spans().map(|(begin, end)| end - begin).sum();
        assert_eq!(frames, FRAMES);
        let before: u32 = spans().map(|(begin, _)| begin % 250).sum();
        let all = first_cut().iter();
        let of_v1: u32 = all.clone().map(|piece| piece.span_in % 250).sum();
        let long: u32 = all.map(|piece| piece.span_out - piece.span_in).sum();
        let (here, there) = (
            f64::from(before) / f64::from(frames),
            f64::from(of_v1) / f64::from(long),
        );
        assert!((here - 0.82).abs() < 0.005 && (there - 0.80).abs() < 0.005);
    }
}
