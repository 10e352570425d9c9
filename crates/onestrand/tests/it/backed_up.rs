//! A safe copy holds what cannot be made again, and gives it back bit for bit.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use onestrand_production::{Production, keep_for_title, keep_photograph};
use serde_json::{Value, json};

use crate::program::{call, copy_of_boat};
use crate::recut::text;

/// A film with sounds, a half recording, artwork for a title and a photograph of a visit.
fn whole_film(into: &Path) -> PathBuf {
    let film = copy_of_boat(into);
    // By its first letters it is a PNG; nobody looks further here.
    let picture = |grey: u8| [b"\x89PNG\r\n\x1a\n".as_slice(), &[grey; 64]].concat();
    let production = Production::open(&film).expect("the film");
    keep_for_title(&production, &picture(40)).expect("kept");
    keep_photograph(&production, &picture(90)).expect("kept");
    std::fs::write(film.join("sounds/recording-1.wav.part"), b"half a word").expect("written");
    std::fs::write(film.join("sounds/incoming-1.part"), b"on its way").expect("written");
    film
}

/// What lies in the folders of a film that a backup holds.
fn kept(film: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    for folder in ["sounds", "titles", "recce"] {
        for entry in std::fs::read_dir(film.join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy();
            if !name.starts_with("incoming-") {
                let bytes = std::fs::read(&path).expect("bytes");
                all.insert(format!("{folder}/{name}"), bytes);
            }
        }
    }
    all
}

fn back_up(film: &Path, copy: &Path) -> Value {
    call(["backup", text(film), text(copy)]).ok()
}

/// The list of parts, by what they are called in the film.
fn listed(parts: &Path) -> BTreeMap<String, String> {
    let list = std::fs::read(parts.join("list.json")).expect("a list");
    let list: Value = serde_json::from_slice(&list).expect("a list");
    let parts = list["parts"].as_array().expect("parts").iter();
    let said = |part: &Value, what: &str| part[what].as_str().expect("words").to_owned();
    parts
        .map(|part| (said(part, "name"), said(part, "blake3")))
        .collect()
}

#[test]
fn a_lost_film_comes_back_with_its_sounds_bit_for_bit() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = whole_film(dir.path());
    let before = kept(&film);
    let copy = dir.path().join("boat.db");
    let made = back_up(&film, &copy);
    let parts = dir.path().join("boat.db-parts");
    let bytes: usize = before.values().map(Vec::len).sum();
    assert_eq!(
        made,
        json!({ "file": text(&copy), "parts": {
            "folder": text(&parts), "files": before.len(), "bytes": bytes,
            "copied": before.len(), "copied_bytes": bytes, "changed": [],
        }})
    );
    // Each lies under its fingerprint; a kept file was named by the same one, cut to 24
    // letters, when it came in.
    let list = listed(&parts);
    assert!(list.keys().eq(before.keys()));
    for (name, held) in &before {
        let part = std::fs::read(parts.join(&list[name])).expect("a part");
        assert!(part == *held, "{name}");
        let stem = name.split(['/', '.']).nth(1).expect("a name");
        assert!(stem.len() != 24 || list[name].starts_with(stem), "{name}");
    }

    // The second time only what is new is copied.
    let again = back_up(&film, &copy);
    assert_eq!(again["parts"]["copied"], 0, "{again}");
    {
        let production = Production::open(&film).expect("the film");
        let typeface = b"OTTO: a typeface, as far as its first letters say";
        keep_for_title(&production, typeface).expect("kept");
    }
    let before = kept(&film);
    let again = back_up(&film, &copy);
    assert_eq!(again["parts"]["copied"], 1, "{again}");
    assert_eq!(again["parts"]["files"], before.len(), "{again}");

    std::fs::remove_dir_all(&film).expect("lost");
    let found = call(["restore", text(&copy), text(&film)]).ok();
    assert_eq!(found["ok"], true);
    assert_eq!(found["files"], before.len());
    for none in ["missing", "damaged", "remarks"] {
        assert_eq!(found[none], json!([]), "{found}");
    }
    assert_eq!(kept(&film), before);
    let sounds = call(["sound", "list", text(&film)]).ok();
    let sounds = sounds.as_array().expect("sounds");
    assert_eq!(sounds.len(), 12);
    assert!(sounds.iter().all(|sound| sound["missing"] == false));
}

#[test]
fn a_part_that_is_missing_or_flipped_is_named_and_all_the_rest_put_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = whole_film(dir.path());
    let before = kept(&film);
    let copy = dir.path().join("boat.db");
    back_up(&film, &copy);
    let parts = dir.path().join("boat.db-parts");
    let sounds = call(["sound", "list", text(&film)]).ok();
    let named = |nth: usize| {
        let sound = &sounds[nth]["sound"];
        let name = format!("sounds/{}", sound["kept"].as_str().expect("a name"));
        let called = sound["name"].as_str().expect("a name").to_owned();
        (name, called)
    };
    let ((gone, gone_called), (flipped, flipped_called)) = (named(0), named(1));
    let list = listed(&parts);
    std::fs::remove_file(parts.join(&list[&gone])).expect("gone");
    let place = parts.join(&list[&flipped]);
    let mut bytes = std::fs::read(&place).expect("bytes");
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&place, bytes).expect("flipped");

    let back = dir.path().join("back");
    let found = call(["restore", text(&copy), text(&back)]).no();
    assert_eq!(found["ok"], false);
    let one = |name: &str, called: &str| json!([{ "name": name, "called": called }]);
    assert_eq!(found["missing"], one(&gone, &gone_called));
    assert_eq!(found["damaged"], one(&flipped, &flipped_called));
    let mut rest = before.clone();
    rest.remove(&gone);
    rest.remove(&flipped);
    assert_eq!(kept(&back), rest);

    // A backup made now puts the flipped one right again only where the film still has it:
    // the part is written anew once its length or its fingerprint no longer agrees.
    let other = dir.path().join("other.db");
    std::fs::rename(&parts, dir.path().join("other.db-parts")).expect("moved");
    std::fs::remove_file(dir.path().join("other.db-parts/list.json")).expect("gone");
    let made = back_up(&film, &other);
    assert_eq!(made["parts"]["copied"], 2, "{made}");
    let whole = dir.path().join("whole");
    call(["restore", text(&other), text(&whole)]).ok();
    assert_eq!(kept(&whole), before);

    // Without the folder beside it the film is still there, and its sounds are named.
    let bare = dir.path().join("bare");
    let found = call(["restore", text(&copy), text(&bare)]).no();
    assert_eq!(found["files"], 0);
    assert_eq!(
        found["missing"].as_array().map(Vec::len),
        Some(12),
        "{found}"
    );
    assert_eq!(
        found["remarks"].as_array().map(Vec::len),
        Some(1),
        "{found}"
    );
    let cuts = call(["cut", "list", text(&bare)]).ok();
    assert_eq!(cuts["cuts"][0]["frames"], 2724);
}

#[test]
fn a_copy_that_is_put_in_a_folder_as_its_film_finds_its_sounds() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = whole_film(dir.path());
    let before = kept(&film);
    let put = dir.path().join("put");
    std::fs::create_dir(&put).expect("a folder");
    back_up(&film, &put.join("production.db"));
    let sounds = call(["sound", "list", text(&put)]).ok();
    let mut sounds = sounds.as_array().expect("sounds").iter();
    assert!(sounds.all(|sound| sound["missing"] == false));
    assert_eq!(kept(&put), before);
}

#[test]
fn nothing_is_written_over_and_nothing_made_of_what_is_no_film() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let copy = dir.path().join("boat.db");
    call(["restore", text(&copy), text(&film)]).refused();
    assert!(film.join("production.db").is_file());
    std::fs::write(&copy, "a shopping list").expect("written");
    let back = dir.path().join("back");
    call(["restore", text(&copy), text(&back)]).refused();
    assert!(!back.join("production.db").exists());
    let nowhere = dir.path().join("nowhere");
    call(["backup", text(&nowhere), text(&copy)]).refused();
    assert!(!dir.path().join("boat.db-parts").exists());
    assert_eq!(std::fs::read(&copy).expect("as it was"), b"a shopping list");
}
