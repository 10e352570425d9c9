//! What reading costs beside a bare FFmpeg decode, in processor time.
//!
//! `cargo run -p onestrand-intake --example speed -- DIR [FRAMES]` makes clips
//! of 1440×1080 with grain in DIR (kept for the next run) and prints, for each,
//! the bare decode (`ffmpeg -i F -f null -`), our reading, the ratio of the
//! processor times (user and system, ours and the child's) and the peak memory
//! of both together. Each is measured three times; the least counts, since
//! other work on the machine can only add.
#![allow(clippy::print_stdout)]

use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use onestrand_intake::{Cancel, Ffmpeg, Making, ReadOptions, Source, read};

/// Name, coding arguments, and the ratio that issue 2 asks of the whole reading.
const CLIPS: [(&str, &str, Option<f64>); 6] = [
    (
        "h264.mp4",
        "-pix_fmt yuv420p -c:v libx264 -preset medium -g 250 -crf 18",
        Some(1.25),
    ),
    (
        "prores.mov",
        "-pix_fmt yuv422p10le -c:v prores_ks -profile:v 3",
        Some(1.35),
    ),
    (
        "ffv1.mkv",
        "-pix_fmt yuv422p10le -c:v ffv1 -level 3 -slices 4 -slicecrc 1 -g 1",
        Some(1.15),
    ),
    (
        "mjpeg.avi",
        "-pix_fmt yuvj422p -c:v mjpeg -q:v 3",
        Some(1.8),
    ),
    ("dpx", "-pix_fmt gbrp10be", None),
    ("tiff", "-pix_fmt rgb48le -compression_algo raw", None),
];

/// A moving scene with the weave and the grain of a scan: grain mostly in the
/// luma, some in the colour, sharp at full size.
const SCENE: &str = "testsrc2=s=1456x1092:r=18,gblur=sigma=3,hue=s=0.5,crop=1440:1080:\
'8+4*sin(n*1.7)':'6+4*cos(n*1.3)',format=yuv444p,noise=c0s=20:c1s=8:c2s=8:allf=t:all_seed=11";

fn main() {
    let mut arguments = std::env::args_os().skip(1);
    let folder = PathBuf::from(arguments.next().expect("the folder for the clips"));
    let frames = arguments
        .next()
        .and_then(|n| n.to_str()?.parse().ok())
        .unwrap_or(300_u64);
    let ffmpeg = Ffmpeg::locate().unwrap_or_else(|error| panic!("{error}; {}", error.hint()));
    println!(
        "FFmpeg {}, {frames} frames of 1440×1080",
        ffmpeg.version_text()
    );
    println!(
        "clip        bare ms/f   ours ms/f   ratio   asked   planes only   wall ratio   peak MB"
    );
    for (name, coding, asked) in CLIPS {
        // Pictures cost fifteen times the disk.
        let frames = if name.contains('.') {
            frames
        } else {
            frames.min(60)
        };
        let path = clip(&ffmpeg, &folder, name, coding, frames);
        let bare = least(|| bare_decode(&ffmpeg, &path));
        let ours = least(|| reading(&ffmpeg, &path, Making::PicturesAndPlanes));
        let planes = least(|| reading(&ffmpeg, &path, Making::PlanesOnly));
        let each = |cost: &Cost| cost.processor * 1000.0 / frames as f64;
        let asked = asked.map_or_else(|| "-".to_owned(), |a| format!("{a:.2}"));
        println!(
            "{name:10} {:9.2} {:11.2} {:8.3} {asked:>7} {:12.3} {:12.3} {:10.0}",
            each(&bare),
            each(&ours),
            ours.processor / bare.processor,
            planes.processor / bare.processor,
            ours.wall / bare.wall,
            ours.peak_mb
        );
    }
}

struct Cost {
    processor: f64,
    wall: f64,
    peak_mb: f64,
}

fn least(measure: impl Fn() -> Cost) -> Cost {
    let mut costs: Vec<Cost> = (0..3).map(|_| measure()).collect();
    costs.sort_by(|a, b| a.processor.total_cmp(&b.processor));
    costs.swap_remove(0)
}

fn measured(work: impl FnOnce()) -> Cost {
    let stop = Arc::new(AtomicBool::new(false));
    let watch = std::thread::spawn({
        let stop = Arc::clone(&stop);
        move || peak_of_children(&stop)
    });
    let (started, before) = (Instant::now(), processor_seconds());
    work();
    let (wall, processor) = (
        started.elapsed().as_secs_f64(),
        processor_seconds() - before,
    );
    stop.store(true, Ordering::SeqCst);
    let children = watch.join().unwrap_or(0.0);
    Cost {
        processor,
        wall,
        peak_mb: children + status_mb("/proc/self/status", "VmRSS:"),
    }
}

fn reading(ffmpeg: &Ffmpeg, path: &Path, making: Making) -> Cost {
    let (source, _) = Source::open(ffmpeg, &[path.to_owned()]).expect("our own clip opens");
    measured(|| {
        let options = ReadOptions {
            making,
            ..ReadOptions::default()
        };
        let mut bytes = 0;
        read(ffmpeg, &source, &options, &Cancel::new(), &mut |frame| {
            bytes += frame.jpeg.len();
            ControlFlow::Continue(())
        })
        .expect("our own clip is read");
    })
}

fn bare_decode(ffmpeg: &Ffmpeg, path: &Path) -> Cost {
    let mut command = Command::new(ffmpeg.ffmpeg_path());
    command.args(["-nostdin", "-v", "error", "-i"]);
    if path.is_dir() {
        command.arg(path.join(format!("%05d.{}", extension_of(path))));
    } else {
        command.arg(path);
    }
    command.args(["-f", "null", "-"]).stdin(Stdio::null());
    measured(|| {
        assert!(
            command.status().is_ok_and(|status| status.success()),
            "bare decode"
        )
    })
}

fn extension_of(folder: &Path) -> &'static str {
    if folder.ends_with("dpx") {
        "dpx"
    } else {
        "tiff"
    }
}

fn clip(ffmpeg: &Ffmpeg, folder: &Path, name: &str, coding: &str, frames: u64) -> PathBuf {
    let path = folder.join(name);
    if path.exists() {
        return path;
    }
    let mut out = path.clone();
    if !name.contains('.') {
        std::fs::create_dir_all(&path).expect("the folder can be written");
        out = path.join(format!("%05d.{}", extension_of(&path)));
    }
    let made = Command::new(ffmpeg.ffmpeg_path())
        .args([
            "-nostdin",
            "-v",
            "error",
            "-f",
            "lavfi",
            "-i",
            SCENE,
            "-frames:v",
            &frames.to_string(),
        ])
        .args(coding.split_ascii_whitespace())
        .arg(&out)
        .stdin(Stdio::null())
        .status();
    assert!(
        made.is_ok_and(|status| status.success()),
        "making {}",
        path.display()
    );
    path
}

/// User and system seconds of this process and the children it has awaited.
///
/// Source: proc(5), fields 14 to 17 of `/proc/self/stat`, in hundredths.
fn processor_seconds() -> f64 {
    let text = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let behind_name = text.rsplit_once(") ").map_or("", |(_, rest)| rest);
    let ticks = behind_name
        .split_whitespace()
        .skip(11)
        .take(4)
        .filter_map(|v| v.parse::<f64>().ok());
    ticks.sum::<f64>() / 100.0
}

fn peak_of_children(stop: &AtomicBool) -> f64 {
    let mut peak = 0.0_f64;
    while !stop.load(Ordering::SeqCst) {
        for task in std::fs::read_dir("/proc/self/task")
            .into_iter()
            .flatten()
            .flatten()
        {
            let children =
                std::fs::read_to_string(task.path().join("children")).unwrap_or_default();
            for child in children.split_whitespace() {
                peak = peak.max(status_mb(&format!("/proc/{child}/status"), "VmHWM:"));
            }
        }
        std::thread::park_timeout(std::time::Duration::from_millis(50));
    }
    peak
}

fn status_mb(path: &str, key: &str) -> f64 {
    let text = std::fs::read_to_string(path).unwrap_or_default();
    let line = text
        .lines()
        .find_map(|line| line.strip_prefix(key))
        .unwrap_or("0");
    line.split_whitespace()
        .next()
        .and_then(|v| v.parse::<f64>().ok())
        .unwrap_or(0.0)
        / 1024.0
}
