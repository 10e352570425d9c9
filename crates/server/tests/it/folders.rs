//! No path outside the chosen folders is read, and none is told of.

use std::os::unix::fs::symlink;
use std::path::PathBuf;

use serde_json::{Value, json};

use crate::served::{Bench, film};

/// A bench with a home in which one folder is chosen, and with things outside.
///
/// ```text
/// home/chosen/roll.mkv          home/other/late.mkv
/// home/chosen/out  -> outside   home/chosen/out.mkv -> outside/secret.mkv
/// outside/secret.mkv            homely/roll.mkv
/// ```
struct Chosen {
    bench: Bench,
    root: PathBuf,
    _dir: tempfile::TempDir,
}

impl Chosen {
    fn new() -> Self {
        let dir = tempfile::tempdir().expect("a folder");
        let root = dir.path().canonicalize().expect("a whole path");
        for file in [
            "home/chosen/roll.mkv",
            "home/other/late.mkv",
            "outside/secret.mkv",
            "homely/roll.mkv",
        ] {
            let path = root.join(file);
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("made");
            std::fs::write(path, b"no film").expect("written");
        }
        symlink(root.join("outside"), root.join("home/chosen/out")).expect("a link");
        symlink(
            root.join("outside/secret.mkv"),
            root.join("home/chosen/out.mkv"),
        )
        .expect("a link");
        let bench = Bench::with(|settings| {
            settings.home = Some(root.join("home"));
            settings.media = vec![root.join("home/chosen")];
        });
        Self {
            bench,
            root,
            _dir: dir,
        }
    }

    fn path(&self, rest: &str) -> String {
        self.root.join(rest).to_str().expect("plain").to_owned()
    }

    fn look(&self, path: &str) -> crate::served::Answer {
        let target = format!("/api/places/look?path={}", in_address(path));
        self.bench.window.get(&target)
    }

    fn bring_in(&self, path: &str) -> crate::served::Answer {
        let roll = json!({ "roll": "R9", "files": [path] });
        self.bench.window.post(&film("rolls"), &roll)
    }
}

fn in_address(text: &str) -> String {
    text.bytes().map(|b| format!("%{b:02x}")).collect()
}

/// What must be answered alike, whether it is there or not.
fn outside(chosen: &Chosen) -> Vec<String> {
    let mut all: Vec<String> = [
        "outside",
        "outside/secret.mkv",
        "outside/none",
        "homely",
        "homely/roll.mkv",
        "home/chosen/../../outside",
        "home/chosen/../../outside/secret.mkv",
        "home/chosen/out",
        "home/chosen/out/secret.mkv",
        "home/chosen/out.mkv",
        "home/chosen/none",
        "home/chosen/none/../../../outside/secret.mkv",
        "home/../outside",
    ]
    .map(|p| chosen.path(p))
    .to_vec();
    for path in [
        "/",
        "/etc/passwd",
        "",
        ".",
        "..",
        "~",
        "home",
        "\0",
        "/proc/self/root",
    ] {
        all.push(path.to_owned());
    }
    all.push("x".repeat(20_000));
    all
}

#[test]
fn what_lies_outside_is_not_looked_at_nor_told_of() {
    let chosen = Chosen::new();
    for path in outside(&chosen) {
        let answer = chosen.look(&path);
        assert_eq!(answer.refused(403), "server.outside_folders", "{path:?}");
        let document = answer.document();
        // The same words for what is there and what is not.
        let shown = document["message"]
            .as_str()
            .expect("words")
            .replace(&path, "");
        assert_eq!(shown, "this lies outside the folders you have chosen: ");
    }
}

#[test]
fn what_lies_outside_is_not_brought_in() {
    let chosen = Chosen::new();
    let mut all = outside(&chosen);
    // In the home folder, but not chosen: it may be looked at, no more.
    all.push(chosen.path("home/other/late.mkv"));
    for path in all {
        let code = chosen.bring_in(&path).refused(403);
        assert_eq!(code, "server.outside_folders", "{path:?}");
    }
    let among = json!({ "roll": "R9", "files": [chosen.path("home/chosen/roll.mkv"), chosen.path("outside/secret.mkv")] });
    let answer = chosen.bench.window.post(&film("rolls"), &among);
    assert_eq!(answer.refused(403), "server.outside_folders");
    assert_eq!(chosen.bench.window.get("/api/jobs").ok(), json!([]));
    // What lies inside is read, and found to be no film.
    let inside = chosen.bring_in(&chosen.path("home/chosen/roll.mkv"));
    assert_ne!(inside.refused(422), "server.outside_folders");
}

#[test]
fn only_a_folder_of_the_home_folder_is_chosen() {
    let chosen = Chosen::new();
    let choose = |path: &str| {
        let form = json!({ "path": path });
        chosen.bench.window.post("/api/places", &form)
    };
    let mut all = outside(&chosen);
    all.push(chosen.path("home/other/late.mkv"));
    for path in all {
        let code = choose(&path).refused(403);
        assert_eq!(code, "server.outside_folders", "{path:?}");
    }
    choose(&chosen.path("home/chosen/../other")).ok();
    let inside = chosen.bring_in(&chosen.path("home/other/late.mkv"));
    assert_ne!(inside.refused(422), "server.outside_folders");
}

#[test]
fn a_link_that_leads_out_is_not_listed() {
    let chosen = Chosen::new();
    symlink(
        chosen.root.join("home/other"),
        chosen.root.join("home/chosen/in"),
    )
    .expect("a link");
    let names = |folder: &Value| -> Vec<String> {
        let entries = folder["entries"].as_array().expect("entries");
        let name = |e: &Value| e["name"].as_str().expect("a name").to_owned();
        entries.iter().map(name).collect()
    };
    let folder = chosen.look(&chosen.path("home/chosen")).ok();
    assert_eq!(names(&folder), ["in", "roll.mkv"]);
    assert_eq!(folder["chosen"], true);
    assert_eq!(folder["above"], chosen.path("home"));
    let home = chosen.look(&chosen.path("home")).ok();
    assert_eq!(
        (names(&home), &home["above"]),
        (vec!["chosen".to_owned(), "other".to_owned()], &Value::Null)
    );
}

#[test]
fn a_dropped_file_is_not_found_outside() {
    let chosen = Chosen::new();
    let find = |name: &str| {
        let target = film(&format!("places/match?name={name}&bytes=7"));
        let ask = chosen.bench.window.request("POST", &target);
        let ends = b"no filmno film";
        ask.body("application/octet-stream", ends).send().ok()["found"].clone()
    };
    assert_eq!(
        find("roll.mkv"),
        json!([{ "path": chosen.path("home/chosen/roll.mkv") }])
    );
    assert_eq!(find("secret.mkv"), json!([]));
    assert_eq!(find("out.mkv"), json!([]));
    assert_eq!(find("late.mkv"), json!([]));
}

/// A folder is remembered on a line of its own, so one whose name has two lines
/// must not become two folders.
#[test]
fn a_name_of_two_lines_chooses_nothing_else() {
    let mut chosen = Chosen::new();
    let outside = chosen.path("outside");
    let odd = chosen.path(&format!("home/odd\n{outside}"));
    std::fs::create_dir_all(&odd).expect("made");
    let choose = |chosen: &Chosen, path: &str| {
        let form = json!({ "path": path });
        chosen.bench.window.post("/api/places", &form).ok();
    };
    choose(&chosen, &odd);
    choose(&chosen, &chosen.path("home/other"));
    chosen.bench.start_again();
    assert_eq!(chosen.look(&outside).refused(403), "server.outside_folders");
    chosen.look(&chosen.path("home/other")).ok();
}

#[test]
fn a_film_has_a_plain_name_on_the_shelf() {
    let chosen = Chosen::new();
    let bench = &chosen.bench;
    // A film beside the shelf, which must not be reached.
    std::fs::create_dir_all(bench.dir.path().join("beside")).expect("made");
    for file in ["production.db", "production.lock"] {
        let from = bench.film_dir().join(file);
        std::fs::copy(from, bench.dir.path().join("beside").join(file)).expect("copied");
    }
    let absolute = in_address(bench.film_dir().to_str().expect("plain"));
    let mut names: Vec<String> = [
        "..",
        ".",
        "..%2fbeside",
        "a%2fb",
        "a-boat%2f.",
        "a-boat%2f..%2fa-boat",
        "%00",
        "a-boat%00",
        "%ff",
        "none",
        "a-boat%0a",
    ]
    .map(str::to_owned)
    .to_vec();
    names.push(absolute);
    for name in names {
        for rest in ["", "/journal", "/cuts/v1", "/rolls/R1"] {
            let answer = bench.window.get(&format!("/api/films/{name}{rest}"));
            assert!(
                [400, 404].contains(&answer.status),
                "{name}{rest}: {answer:?}"
            );
        }
    }
    bench.window.get(&film("")).ok();
}
