//! What users give by mistake, and what others might give on purpose: a clear
//! word with the next step, and nothing half-made left behind.

use std::path::{Path, PathBuf};

use serde_json::json;

use crate::program::{call, call_words, ffmpeg};

struct Bench {
    dir: tempfile::TempDir,
}

impl Bench {
    fn new() -> Self {
        let dir = tempfile::tempdir().expect("a folder");
        let bench = Self { dir };
        call([
            "new",
            bench.film_text().as_str(),
            "--title",
            "Try",
            "--gauge",
            "super8",
        ])
        .ok();
        bench
    }

    fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    fn film_text(&self) -> String {
        self.path("film").to_str().expect("plain").to_owned()
    }

    fn write(&self, name: &str, bytes: &[u8]) -> String {
        let path = self.path(name);
        std::fs::write(&path, bytes).expect("written");
        path.to_str().expect("plain").to_owned()
    }

    /// The code of a refused `roll add`, after seeing that nothing is left.
    fn refused(&self, scan: &str) -> String {
        let film = self.film_text();
        let error = call(["roll", "add", &film, "R1", scan]).refused();
        assert_eq!(
            call_words("roll list DIR", Path::new(&film)).ok(),
            json!({"rolls": []})
        );
        let left: Vec<_> = std::fs::read_dir(self.path("film/workprints"))
            .expect("workprints")
            .map(|e| e.expect("an entry").file_name())
            .filter(|n| n.to_string_lossy().ends_with(".mjpeg"))
            .collect();
        assert!(left.is_empty(), "{left:?}");
        error["code"].as_str().expect("a code").to_owned()
    }
}

#[test]
fn files_that_are_no_film() {
    let bench = Bench::new();
    let empty = bench.write("empty.mov", b"");
    let text = bench.write("letter.mov", b"Dear Bram, the boat leaves at ten past.\n");
    let missing = bench.path("nowhere.mov");
    let codes = [
        bench.refused(&empty),
        bench.refused(&text),
        bench.refused(missing.to_str().expect("plain")),
    ];
    assert!(codes.iter().all(|c| c.starts_with("intake.")), "{codes:?}");
    assert_eq!(
        codes
            .iter()
            .collect::<std::collections::BTreeSet<_>>()
            .len(),
        3,
        "{codes:?}"
    );
}

/// A playlist would make FFmpeg open whatever it names.
#[test]
fn playlists_that_point_at_another_file() {
    let bench = Bench::new();
    let secret = bench.write("secret.txt", b"the only copy of something else");
    let concat = format!("ffconcat version 1.0\nfile '{secret}'\n");
    let m3u = format!("#EXTM3U\n#EXTINF:1,\nfile://{secret}\n#EXT-X-ENDLIST\n");
    for (name, text) in [
        ("a.mov", &concat),
        ("b.mkv", &m3u),
        ("c.m3u8", &m3u),
        ("d.ffconcat", &concat),
    ] {
        let path = bench.write(name, text.as_bytes());
        let code = bench.refused(&path);
        assert!(code.starts_with("intake."), "{name}: {code}");
    }
}

#[test]
fn films_without_pictures_or_too_small_to_be_film() {
    let bench = Bench::new();
    let dir = bench.dir.path();
    ffmpeg("-f lavfi -i sine=d=1 -c:a pcm_s16le sound.mov", dir);
    ffmpeg(
        "-f lavfi -i color=s=2x2:d=1:r=18 -vf scale=1:1,format=bgr0 -c:v ffv1 dot.mkv",
        dir,
    );
    for name in ["sound.mov", "dot.mkv"] {
        let path = bench.path(name);
        let code = bench.refused(path.to_str().expect("plain"));
        assert!(code.starts_with("intake."), "{name}: {code}");
    }
}

/// Names that a careless program would take for options, patterns or options
/// of a protocol are only names.
#[test]
fn names_that_look_like_something_else() {
    let bench = Bench::new();
    let dir = bench.dir.path();
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=1 -c:v mpeg4 plain.mkv",
        dir,
    );
    for name in [
        "-i.mkv",
        "take %03d.mkv",
        "concat:a|b.mkv",
        "it's \"one\".mkv",
    ] {
        std::fs::copy(dir.join("plain.mkv"), dir.join(name)).expect("a copy");
        let path = dir.join(name);
        let found = call(["read", path.to_str().expect("plain")]).ok();
        assert_eq!(found["film"]["frames"], 18, "{name}");
    }
}

#[test]
fn a_truncated_film_gives_what_it_has_and_says_so() {
    let bench = Bench::new();
    let dir = bench.dir.path();
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=4 -c:v ffv1 whole.mkv",
        dir,
    );
    let whole = std::fs::read(dir.join("whole.mkv")).expect("the film");
    let half = bench.write("half.mkv", &whole[..whole.len() / 2]);
    let found = call(["read", &half]).ok();
    let frames = found["film"]["frames"].as_u64().expect("a count");
    assert!((20..72).contains(&frames), "{frames}");
    let said = found["warnings"].to_string();
    assert!(said.contains("intake.truncated"), "{said}");
    // Without its index at the end a QuickTime file cannot be read at all.
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=4 -c:v mjpeg whole.mov",
        dir,
    );
    let whole = std::fs::read(dir.join("whole.mov")).expect("the film");
    let half = bench.write("half.mov", &whole[..whole.len() / 2]);
    bench.refused(&half);
}

#[test]
fn a_gap_that_is_no_slip() {
    let bench = Bench::new();
    let dir = bench.path("two");
    std::fs::create_dir(&dir).expect("a folder");
    ffmpeg(
        "-f lavfi -i testsrc=s=64x48:d=1:r=2 -start_number 1 p%05d.png",
        &dir,
    );
    std::fs::rename(dir.join("p00002.png"), dir.join("p90000.png")).expect("renamed");
    assert_eq!(
        bench.refused(dir.to_str().expect("plain")),
        "production.gap_too_long"
    );
}

fn problems(error: &serde_json::Value) -> Vec<String> {
    let all = error["details"]["problems"].as_array().expect("problems");
    let place = |p: &serde_json::Value| {
        let column = p["column"].as_str().unwrap_or("");
        format!("{}:{column}", p["line"])
    };
    all.iter().map(place).collect()
}

#[test]
fn forms_with_mistakes_list_them_all_and_change_nothing() {
    let bench = Bench::new();
    let film = bench.film_text();
    call(["roll", "paper", &film, "R1", "--frames", "3600"]).ok();
    let wrong_columns = bench.write("columns.csv", b"position,reel,from,to\n1,R1,0,10\n");
    let error = call(["cut", "import", &film, &wrong_columns, "--name", "v1"]).refused();
    assert_eq!(error["code"], "production.import");
    assert_eq!(problems(&error), ["1:roll", "1:in", "1:out"]);

    let many = bench.write(
        "many.csv",
        b"position,roll,in,out,slate,join,note\n1,R1,0,10,1-T1,tape,\n2,R9,0,10,,,\n3,R1,20,20,,,\n4,R1,3590,3601,,,\n5,R1,5,x,nonsense,glue,\n5,R1,40,50,,,\n5,R1,60,70,,,\n7,leader,3,0,,,\n8,R1,1\n",
    );
    let error = call(["cut", "import", &film, &many, "--name", "v1"]).refused();
    let found = problems(&error);
    for place in [
        "3:roll",
        "4:out",
        "5:out",
        "6:join",
        "6:out",
        "6:slate",
        "8:position",
        "9:in",
        "10:",
    ] {
        assert!(found.iter().any(|p| p == place), "{place} not in {found:?}");
    }
    assert_eq!(call(["cut", "list", &film]).ok(), json!({"cuts": []}));

    let log = bench.write(
        "log.csv",
        b"roll,slate,take,in,out\nR1,1,1,0,100\nR1,1,2,90,200\nR1,1,1,300,400\nR1,!,2,500,600\n",
    );
    let error = call(["log", "import", &film, &log]).refused();
    let found = problems(&error);
    assert_eq!(found, ["3:in", "4:take", "5:slate"]);

    let picture = bench.write("picture.csv", &[0xff, 0xd8, 0xff, 0xe0, 0x00]);
    let error = call(["cut", "import", &film, &picture, "--name", "v1"]).refused();
    assert_eq!(error["code"], "production.import");
    let journal = call(["journal", &film]).ok();
    assert_eq!(
        journal["journal"].as_array().map(Vec::len),
        Some(1),
        "only the roll on paper"
    );
}

#[test]
fn productions_that_are_not_there_or_in_use() {
    let bench = Bench::new();
    let film = bench.film_text();
    let nowhere = bench.path("nowhere");
    assert_eq!(
        call_words("roll list DIR", &nowhere).refused()["code"],
        "store.no_production"
    );
    assert!(!nowhere.exists(), "looking makes nothing");
    assert_eq!(
        call(["new", &film, "--title", "Again"]).refused()["code"],
        "store.already_there"
    );
    let none = bench.path("none");
    assert_eq!(
        call([
            "new",
            none.to_str().expect("plain"),
            "--title",
            " ",
            "--gauge",
            "super8"
        ])
        .refused()["code"],
        "production.unfit"
    );
    assert!(!none.exists());
    assert_eq!(
        call(["check", &film, "--cut", "v9"]).refused()["code"],
        "store.not_found"
    );
    let taken = std::fs::File::open(bench.path("film/production.lock")).expect("the lock");
    taken.lock().expect("locked");
    assert_eq!(
        call(["roll", "list", &film]).refused()["code"],
        "store.owned"
    );
    // A safe copy may be made all the same.
    let copy = bench.path("copy.db");
    call(["backup", &film, copy.to_str().expect("plain")]).ok();
    assert!(copy.is_file());
}

#[test]
fn wrong_use_is_exit_two() {
    for arguments in [vec!["check"], vec!["nonsense"], vec!["roll", "add"], vec![]] {
        assert_eq!(call(arguments.clone()).exit, 2, "{arguments:?}");
    }
}

/// A finish is never written over a scan.
#[test]
fn a_finish_keeps_off_the_scans() {
    let bench = Bench::new();
    let film = bench.film_text();
    let dir = bench.dir.path();
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=2 -c:v ffv1 scan.mkv",
        dir,
    );
    let scan = bench.path("scan.mkv");
    let scan = scan.to_str().expect("plain");
    call(["roll", "add", &film, "R1", scan]).ok();
    let sheet = bench.write("cut.csv", b"position,roll,in,out\n1,R1,3,20\n");
    call(["cut", "import", &film, &sheet, "--name", "v1"]).ok();
    // Workprints can be thrown away: the scan is read again by itself.
    std::fs::remove_dir_all(bench.path("film/workprints")).expect("thrown away");
    let first = bench.path("first.mkv");
    let made = call([
        "finish",
        &film,
        "--cut",
        "v1",
        "--out",
        first.to_str().expect("plain"),
    ])
    .ok();
    assert_eq!((&made["frames"], &made["black"]), (&json!(17), &json!(0)));
    assert_eq!(
        call(["roll", "list", &film]).ok()["rolls"][0]["workprint"],
        true
    );
    let before = std::fs::read(scan).expect("the scan");
    let error = call(["finish", &film, "--cut", "v1", "--out", scan]).refused();
    assert_eq!(error["code"], "finish.would_replace_scan");
    assert_eq!(std::fs::read(scan).expect("the scan"), before);
    // A scan that is no longer what was read is told, not used.
    ffmpeg(
        "-f lavfi -i testsrc=s=320x240:r=18:d=1 -c:v ffv1 scan.mkv",
        dir,
    );
    let out = bench.path("out.mkv");
    let error = call([
        "finish",
        &film,
        "--cut",
        "v1",
        "--out",
        out.to_str().expect("plain"),
    ])
    .refused();
    assert_eq!(error["code"], "production.scan_changed");
    assert!(!out.exists());
}
