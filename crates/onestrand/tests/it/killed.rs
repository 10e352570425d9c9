//! Killed (signal 9) at any moment: what was acknowledged is there, the
//! production opens, and long work is begun again by itself.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::program::{call, ffmpeg, onestrand};

/// How long a piece of work takes when it is let be, on this machine now. No
/// test asks for less; it only says where the moments have to fall.
fn undisturbed(arguments: &[&str]) -> Duration {
    let begun = Instant::now();
    call(arguments.iter().copied()).ok();
    begun.elapsed()
}

/// Parts of a span fixed once, so that a failure can be had again; spread over
/// the whole work and a little beyond.
fn moments(count: u64, span: Duration) -> impl Iterator<Item = Duration> {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    (0..count).map(move |_| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        span.mul_f64(f64::from(u32::try_from(state >> 40).unwrap_or(0)) / f64::from(1_u32 << 24))
    })
}

struct Film {
    dir: tempfile::TempDir,
}

impl Film {
    fn new() -> Self {
        let film = Self {
            dir: tempfile::tempdir().expect("a folder"),
        };
        // Grain, as film has it: without, pictures that hardly differ are taken for
        // one film frame shown twice.
        ffmpeg(
            "-f lavfi -i testsrc2=s=480x360:r=18:d=20,noise=alls=20:allf=t -c:v libx264 -preset ultrafast -g 30 scan.mkv",
            film.dir.path(),
        );
        film
    }

    fn text(&self, name: &str) -> String {
        self.dir
            .path()
            .join(name)
            .to_str()
            .expect("plain")
            .to_owned()
    }

    fn fresh(&self, name: &str) -> String {
        let dir = self.text(name);
        call(["new", &dir, "--title", "Killed", "--gauge", "super8"]).ok();
        dir
    }
}

fn spawn(arguments: &[&str]) -> Child {
    onestrand()
        .arg("--json")
        .args(arguments)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts")
}

/// Lets a process work for a while, then kills it. Gives whether it had
/// acknowledged its work by then.
fn kill_after(mut child: Child, moment: Duration) -> bool {
    let out = child.stdout.take().expect("a pipe");
    let (tell, told) = std::sync::mpsc::channel();
    let reader = std::thread::spawn(move || {
        let mut line = String::new();
        let heard = BufReader::new(out).read_line(&mut line).is_ok() && !line.is_empty();
        let _nobody = tell.send(heard);
        heard
    });
    // Waiting for a moment to pass is the very thing tested here.
    let _early = told.recv_timeout(moment);
    child.kill().expect("killed");
    child.wait().expect("ended");
    reader.join().expect("the reader ends")
}

fn mjpegs(dir: &str) -> Vec<PathBuf> {
    std::fs::read_dir(Path::new(dir).join("workprints"))
        .expect("workprints")
        .map(|e| e.expect("an entry").path())
        .filter(|p| p.extension().is_some_and(|x| x == "mjpeg"))
        .collect()
}

fn state_of_jobs(dir: &str) -> Vec<String> {
    let found = call(["jobs", dir]).ok();
    let jobs = found["jobs"].as_array().expect("jobs");
    jobs.iter()
        .map(|j| j["state"].as_str().expect("a state").to_owned())
        .collect()
}

#[test]
fn a_reading_killed_at_twenty_moments_is_begun_again() {
    let film = Film::new();
    let scan = film.text("scan.mkv");
    let whole = film.fresh("whole");
    let span = undisturbed(&["roll", "add", &whole, "R1", &scan]).mul_f64(1.3);
    let mut interrupted = 0;
    for (index, moment) in moments(20, span).enumerate() {
        let dir = film.fresh(&format!("film-{index}"));
        let acknowledged = kill_after(spawn(&["roll", "add", &dir, "R1", &scan]), moment);
        // Whatever command comes next carries the reading on.
        let rolls = call(["roll", "list", &dir]).ok();
        let known = rolls["rolls"].as_array().expect("rolls");
        let jobs = state_of_jobs(&dir);
        if jobs.is_empty() {
            // Killed before anything was written down.
            assert!(!acknowledged && known.is_empty());
            assert_eq!(mjpegs(&dir), Vec::<PathBuf>::new());
            continue;
        }
        interrupted += usize::from(!acknowledged);
        assert_eq!(jobs, ["done"], "{moment:?}");
        assert_eq!(known.len(), 1);
        assert_eq!(
            (&known[0]["frames"], &known[0]["workprint"]),
            (&json!(360), &json!(true))
        );
        assert_eq!(mjpegs(&dir).len(), 1);
    }
    assert!(
        interrupted >= 3,
        "the moments fall into the work: {interrupted}"
    );
}

#[test]
fn a_finish_killed_at_twenty_moments_is_begun_again() {
    let film = Film::new();
    let dir = film.fresh("film");
    call(["roll", "add", &dir, "R1", &film.text("scan.mkv")]).ok();
    let sheet = film.text("cut.csv");
    std::fs::write(&sheet, "position,roll,in,out\n1,R1,200,360\n2,R1,0,150\n").expect("written");
    call(["cut", "import", &dir, &sheet, "--name", "v1"]).ok();
    let first = film.text("first.mkv");
    let span = undisturbed(&["finish", &dir, "--cut", "v1", "--out", &first]).mul_f64(1.3);
    let mut interrupted = 0;
    for (index, moment) in moments(20, span).enumerate() {
        let out = film.text(&format!("finish-{index}.mkv"));
        let acknowledged = kill_after(
            spawn(&["finish", &dir, "--cut", "v1", "--out", &out]),
            moment,
        );
        let begun = state_of_jobs(&dir).len();
        let whole = Path::new(&out).is_file();
        assert!(whole || !acknowledged);
        interrupted += usize::from(!acknowledged && whole);
        if whole {
            assert_eq!(frames_in(&out), 310, "{moment:?}");
            std::fs::remove_file(&out).expect("removed");
        }
        assert!(
            state_of_jobs(&dir).iter().all(|s| s == "done"),
            "of {begun} jobs"
        );
    }
    let left: Vec<String> = std::fs::read_dir(film.dir.path())
        .expect("a folder")
        .map(|e| {
            e.expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .filter(|n| n.contains("finish"))
        .collect();
    assert_eq!(left, Vec::<String>::new());
    assert!(
        interrupted >= 3,
        "the moments fall into the work: {interrupted}"
    );
}

fn frames_in(path: &str) -> u64 {
    let found = call(["read", path]).ok();
    found["film"]["frames"].as_u64().expect("a count")
}

/// Edits follow each other as fast as they can; the one under way is killed.
#[test]
fn edits_killed_at_twenty_moments_keep_all_that_was_acknowledged() {
    let film = Film::new();
    let dir = film.fresh("film");
    call(["roll", "paper", &dir, "R1", "--frames", "3600"]).ok();
    let sheet = film.text("cut.csv");
    std::fs::write(&sheet, "position,roll,in,out\n1,R1,200,360\n2,R1,0,150\n").expect("written");
    let arguments = ["cut", "import", &dir, &sheet, "--name", "first"];
    let span = undisturbed(&arguments).mul_f64(2.0);
    let mut kept = vec!["first".to_owned()];
    let mut killed = 0;
    for (index, moment) in moments(20, span).enumerate() {
        let name = format!("v{index}");
        let arguments = ["cut", "import", &dir, &sheet, "--name", &name];
        let acknowledged = kill_after(spawn(&arguments), moment);
        let cuts = call(["cut", "list", &dir]).ok();
        let names: Vec<&str> = cuts["cuts"]
            .as_array()
            .expect("cuts")
            .iter()
            .filter_map(|c| c["cut"].as_str())
            .collect();
        if acknowledged || names.contains(&name.as_str()) {
            kept.push(name.clone());
        }
        killed += usize::from(!acknowledged);
        assert_eq!(names, kept, "{moment:?}");
        whole(&cuts);
    }
    assert!(killed >= 3, "the moments fall into the work: {killed}");
    while call(["undo", &dir]).exit == 0 {}
    assert_eq!(call(["cut", "list", &dir]).ok(), json!({"cuts": []}));
}

fn whole(cuts: &Value) {
    for cut in cuts["cuts"].as_array().expect("cuts") {
        assert_eq!((&cut["pieces"], &cut["frames"]), (&json!(2), &json!(310)));
    }
}
