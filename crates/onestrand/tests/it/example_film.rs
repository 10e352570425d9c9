//! "The Ten-Past Boat" from scan to finish.

use std::io::Read;
use std::process::{Command, Stdio};

use onestrand_example::{FaultKind, HEIGHT, WIDTH, edge_code, faults, first_cut, takes};
use serde_json::{Value, json};

use crate::program::{boat, boat_folder, call, call_words, copy_of_boat};

/// Story 4 and the takes of section 5: every inner break, to the frame.
#[test]
fn the_rolls_are_read_to_the_frame() {
    for roll in 1..=3_u8 {
        let scan = boat_folder().join(format!("scans/R{roll}.mkv"));
        let scan = scan.to_str().expect("a plain name");
        let found = call(["read", scan, "--measured", "50ft0"]).ok();
        assert_eq!(found["file"]["frames"], 3600);
        assert_eq!(found["film"]["frames"], 3600);
        assert_eq!(found["film"]["missing"], 0);
        assert_eq!(found["film"]["footage"], json!({"feet": 50, "frames": 0}));
        assert_eq!(found["film"]["difference"], 0);
        let map: Vec<u64> = found["map"]
            .as_array()
            .expect("a map")
            .iter()
            .map(|k| k.as_u64().expect("a file frame"))
            .collect();
        assert!(map.iter().enumerate().all(|(n, k)| n as u64 == *k));

        let logged: Vec<u64> = takes()
            .iter()
            .filter(|t| t.roll == roll)
            .map(|t| u64::from(t.span_in))
            .collect();
        let seen: Vec<u64> = found["takes"]
            .as_array()
            .expect("takes")
            .iter()
            .map(|t| t["in"].as_u64().expect("a frame"))
            .collect();
        assert_eq!(seen, logged, "R{roll}");
        the_planted_faults_are_told_and_no_other(&found["signs"], roll);
    }
}

/// Story 4: what was planted in a roll is told to three frames, and nothing else.
/// Flashes and fogged ends are no faults.
fn the_planted_faults_are_told_and_no_other(signs: &Value, roll: u8) {
    let word = |kind| match kind {
        FaultKind::Hair => "hair",
        FaultKind::Soft => "soft",
        FaultKind::Scratch => "scratch",
        _ => "another",
    };
    let planted = faults().iter().filter(|fault| fault.roll == roll);
    let told: Vec<&Value> = signs
        .as_array()
        .expect("signs")
        .iter()
        .filter(|sign| sign["kind"] != "flash" && sign["unit"] != "frames")
        .collect();
    assert_eq!(told.len(), planted.clone().count(), "R{roll}: {told:?}");
    for (sign, fault) in told.into_iter().zip(planted) {
        assert_eq!(sign["kind"], word(fault.kind));
        for (end, frame) in [("in", fault.span_in), ("out", fault.span_out)] {
            let seen = sign[end].as_u64().expect("a frame");
            assert!(seen.abs_diff(u64::from(frame)) <= 3, "{sign}");
        }
        assert!(sign["most"].is_u64() && sign["least"].is_u64(), "{sign}");
        if fault.kind == FaultKind::Soft {
            let measure = sign["measure"].as_f64().expect("a number");
            assert!((measure - 0.41).abs() <= 0.03, "{sign}");
        }
    }
}

/// Story 3: the same rolls, found again in transfers that others made.
#[test]
fn true_frames_are_found_in_a_telecine_and_in_a_copy_off_the_wall() {
    let read = |name: &str| {
        let file = boat_folder().join("scans").join(name);
        let file = file.to_str().expect("a plain name");
        call(["read", file, "--film-speed", "18", "--measured", "50ft0"]).ok()
    };
    let telecine = read("R1-25.mp4");
    assert_eq!(telecine["file"]["frames"], 5000);
    let film = &telecine["film"];
    assert_eq!(
        film["cadence"],
        json!([2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 2, 1, 1, 2, 1, 1])
    );
    for (what, count) in [
        ("frames", 3600),
        ("repeats", 1400),
        ("difference", 0),
        ("blended", 0),
        ("missing", 0),
    ] {
        assert_eq!(film[what], count, "{what} of {film}");
    }
    let map = telecine["map"].as_array().expect("a map");
    // Film frame n stands first where j * 18 / 25 reaches it.
    let first = |n: u64| (n * 25).div_ceil(18);
    for (n, file) in map.iter().enumerate() {
        let n = n as u64;
        let file = file.as_u64().expect("a file frame");
        assert!((first(n)..first(n + 1)).contains(&file), "{n} at {file}");
    }
    let logged: Vec<u64> = takes()
        .iter()
        .filter(|t| t.roll == 1)
        .map(|t| u64::from(t.span_in))
        .collect();
    let seen = telecine["takes"].as_array().expect("takes").iter();
    let seen: Vec<u64> = seen.map(|t| t["in"].as_u64().expect("a frame")).collect();
    assert_eq!(seen, logged);

    let wall = read("R2-wall.mp4");
    assert_eq!(wall["file"]["frames"], 6116);
    let film = &wall["film"];
    assert_eq!(film["frames"], 3600);
    assert_eq!(film["missing"], 0);
    // By how the phase falls, one more or one less of each: the story says so.
    let near = |what: &str, count: u64| {
        let found = film[what].as_u64().expect("a count");
        assert!(found.abs_diff(count) <= 1, "{what}: {found} for {count}");
    };
    near("clean", 2517);
    near("blended", 1083);
}

/// Story 6.
#[test]
fn the_first_cut_is_checked() {
    let found = call_words("check DIR --cut v1 --join cement", &boat()).ok();
    assert_eq!(found["ok"], true);
    assert_eq!(found["frames"], 2724);
    assert_eq!(
        (&found["pieces"], &found["joins"], &found["eaten"]),
        (&json!(23), &json!(24), &json!(23))
    );
    let sums: Vec<Value> = found["rolls"]
        .as_array()
        .expect("rolls")
        .iter()
        .map(|r| {
            json!([
                r["roll"],
                r["used"],
                r["eaten"],
                r["left"],
                r["frames"],
                r["proved"]
            ])
        })
        .collect();
    let expected = [
        json!(["R1", 747, 7, 2846, 3600, true]),
        json!(["R2", 834, 8, 2758, 3600, true]),
        json!(["R3", 1143, 8, 2449, 3600, true]),
    ];
    assert_eq!(sums, expected);
    assert_eq!(found["conflicts"], json!([]));
    assert_eq!(found["questions"], json!([]), "its light is measured");
    let pace = found["pace"]["mean_seconds"].as_f64().expect("a pace");
    assert!((pace - 6.516).abs() < 0.001);
}

/// Story 6, the two refusals, through the cutting sheet as CSV.
#[test]
fn one_frame_too_few_and_thirty_too_many() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let csv = call_words("cut export DIR --cut v1", &film).ok();
    let sheet = csv["csv"].as_str().expect("a form").to_owned();

    let moved = sheet.replace("8,R1,2996,3122", "8,R1,2939,3122");
    assert_ne!(moved, sheet);
    let path = dir.path().join("moved.csv");
    std::fs::write(&path, moved).expect("written");
    let path = path.to_str().expect("a plain name").to_owned();
    call([
        "cut",
        "import",
        film.to_str().expect("plain"),
        &path,
        "--name",
        "moved",
    ])
    .ok();
    let cement = call_words("check DIR --cut moved --join cement", &film);
    assert_eq!(cement.exit, 1);
    assert_eq!(cement.document["ok"], false);
    let conflicts = cement.document["conflicts"].as_array().expect("conflicts");
    assert_eq!(conflicts.len(), 1);
    assert_eq!(conflicts[0]["kind"], "bite");
    assert_eq!(conflicts[0]["severity"], "refused");
    assert_eq!(conflicts[0]["frames"], 1);
    assert_eq!(
        conflicts[0]["span"],
        json!({"roll": "R1", "in": 2939, "out": 2940})
    );
    let ways: Vec<&str> = conflicts[0]["remedies"]
        .as_array()
        .expect("remedies")
        .iter()
        .filter_map(|r| r["text"].as_str())
        .collect();
    assert!(ways.contains(&"make join 6 | 7 with tape"), "{ways:?}");
    assert!(
        ways.contains(&"start 8 at R1·2940, 1 frame later"),
        "{ways:?}"
    );
    assert_eq!(
        call_words("check DIR --cut moved --join tape", &film).ok()["ok"],
        true
    );

    let look_back = format!("{sheet}24,R1,2900,2930,3-T2,,a look back\n");
    let path = dir.path().join("look.csv");
    std::fs::write(&path, look_back).expect("written");
    let path = path.to_str().expect("a plain name").to_owned();
    call([
        "cut",
        "import",
        film.to_str().expect("plain"),
        &path,
        "--name",
        "look",
    ])
    .ok();
    let found = call_words("check DIR --cut look", &film);
    assert_eq!(found.exit, 1);
    let doubled = &found.document["conflicts"][0];
    assert_eq!(
        (&doubled["kind"], &doubled["frames"]),
        (&json!("doubled"), &json!(30))
    );
    // No work order and no finish for a cut that cannot be made.
    for line in [
        "bench DIR --cut look",
        "finish DIR --cut look --out never.mkv",
    ] {
        let refused = call_words(line, &film).refused();
        assert_eq!(refused["code"], "production.cut_refused");
    }
    assert!(!std::path::Path::new("never.mkv").exists());
}

/// Story 6, the questions: each where it is asked, and none of the light that was
/// measured in the scans.
#[test]
fn the_hop_and_the_other_way_are_asked_about_and_nothing_else() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let csv = call_words("cut export DIR --cut v1", &film).ok();
    let sheet = csv["csv"].as_str().expect("a form").to_owned();
    let asked = |name: &str, rows: String| {
        assert_ne!(rows, sheet);
        let path = dir.path().join(format!("{name}.csv"));
        std::fs::write(&path, rows).expect("written");
        let path = path.to_str().expect("a plain name");
        let folder = film.to_str().expect("plain");
        call(["cut", "import", folder, path, "--name", name]).ok();
        let found = call(["check", folder, "--cut", name]).ok();
        let questions = found["questions"].as_array().expect("questions").clone();
        questions
            .iter()
            .map(|q| json!([q["kind"], q["positions"]]))
            .collect::<Vec<Value>>()
    };
    let mut place = 0;
    let lifted: Vec<String> = sheet
        .lines()
        .filter(|row| !row.starts_with("11,"))
        .map(|row| {
            let (_, rest) = row.split_once(',').expect("columns");
            place += 1;
            match place {
                1 => row.to_owned(),
                _ => format!("{},{rest}", place - 1),
            }
        })
        .collect();
    assert_eq!(
        asked("lifted", lifted.join("\n")),
        [json!(["jump", [10, 11]])]
    );
    let other = sheet.replace("5,R1,1590,1662,2A-T2", "5,R1,1374,1446,2A-T1");
    assert_eq!(
        asked("other-way", other),
        [json!(["direction", [3, 5]]), json!(["direction", [5, 9]])]
    );
}

/// Every frame of the finish is the frame it claims to be, read from the
/// numbers that the pictures carry in their frame lines.
#[test]
fn every_frame_of_the_finish_is_the_frame_of_the_cut() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = dir.path().join("v1.mkv");
    let out = out.to_str().expect("a plain name");
    let made = call([
        "finish",
        boat().to_str().expect("a plain name"),
        "--cut",
        "v1",
        "--out",
        out,
    ])
    .ok();
    assert_eq!(made["frames"], 2724);
    assert_eq!(made["clock"], "2:31.3");

    let wanted: Vec<(u8, u32)> = first_cut()
        .iter()
        .flat_map(|p| (p.span_in..p.span_out).map(|f| (p.roll, f)))
        .collect();
    assert_eq!(wanted.len(), 2724);
    assert_eq!(numbers_in(out), wanted);
    let left: Vec<_> = std::fs::read_dir(dir.path()).expect("a folder").collect();
    assert_eq!(left.len(), 1, "nothing beside the finish");
}

/// The numbers of all frames of a film file, in order.
fn numbers_in(path: &str) -> Vec<(u8, u32)> {
    let mut child = Command::new("ffmpeg")
        .args([
            "-v", "error", "-i", path, "-pix_fmt", "gray", "-f", "rawvideo", "-",
        ])
        .stdout(Stdio::piped())
        .spawn()
        .expect("ffmpeg starts");
    let mut out = child.stdout.take().expect("a pipe");
    let mut luma = vec![0; WIDTH as usize * HEIGHT as usize];
    let mut numbers = Vec::new();
    while out.read_exact(&mut luma).is_ok() {
        let number = edge_code::read_edge_code(&luma, WIDTH, HEIGHT, WIDTH as usize);
        numbers.push(number.unwrap_or_else(|| panic!("no number in frame {}", numbers.len())));
    }
    assert!(child.wait().expect("ffmpeg ends").success());
    numbers
}

#[test]
fn the_example_may_be_asked_for_again() {
    let boat = boat();
    let dir = boat.to_str().expect("a plain name");
    let again = call(["demo", dir]).ok();
    assert_eq!(again["kept"], true);
}

#[test]
fn a_change_is_taken_back_and_made_again_after_closing() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let before = call_words("log export DIR", &film).ok();
    let log = dir.path().join("log.csv");
    std::fs::write(
        &log,
        "roll,slate,take,in,out,use,light\nR1,9Z,1,12+34,12+60,yes,low sun\n",
    )
    .expect("written");
    let log = log.to_str().expect("plain");
    let done = call(["log", "import", film.to_str().expect("plain"), log]).ok();
    assert_eq!(
        (&done["takes"], &done["unknown_columns"]),
        (&json!(1), &json!(["light"]))
    );
    let after = call_words("log export DIR", &film).ok();
    let text = after["csv"].as_str().expect("a form");
    // 12 feet and 34 frames of Super 8: 12 · 72 + 34 = 898.
    assert!(
        text.contains("R1,9Z,1,898,924,,,,,yes,light: low sun"),
        "{text}"
    );
    call_words("undo DIR", &film).ok();
    assert_eq!(call_words("log export DIR", &film).ok(), before);
    call_words("redo DIR", &film).ok();
    assert_eq!(call_words("log export DIR", &film).ok(), after);
    assert_eq!(
        call_words("redo DIR", &film).refused()["code"],
        "store.nothing_to_do"
    );
}
