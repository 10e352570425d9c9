//! Film read back by command: a loose strip gets its name, a cut reel is laid beside its
//! version. The strips and reels are put together out of the example's scans by FFmpeg, so
//! that which frames they show is known.

use std::path::Path;

use serde_json::{Value, json};

use crate::program::{boat, boat_folder, call, call_words, copy_of_boat, ffmpeg};

/// Photographs some frames of the example on a light box, drawn by the figures of the gauge
/// table at 30 pixels a millimetre.
fn photographed(roll: u8, first: u32, lying: &str, into: &Path) {
    let scan = boat_folder().join(format!("scans/R{roll}.mkv"));
    let taken = format!("trim=start_frame={first}:end_frame={}", first + 9);
    let frame = "scale=174:120,pad=239:127:44:3:black,drawbox=15:46:27:34:white:fill";
    let laid = "tile=1x9,pad=1600:1200:(ow-iw)/2:(oh-ih)/2:0xe6e6e6";
    let line = format!(
        "-i {} -vf {taken},{frame},{laid}{lying} -frames:v 1 -q:v 3 strip.jpg",
        scan.display()
    );
    ffmpeg(&line, into);
}

#[test]
fn a_loose_strip_gets_its_name_any_way_up_and_from_either_side() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat();
    let photograph = dir.path().join("strip.jpg");
    let lying = [
        (2, 600, "", false, false, 0.0),
        (3, 1300, ",rotate=200*PI/180:c=0xe6e6e6", false, true, 200.0),
        (
            1,
            1100,
            ",hflip,rotate=75*PI/180:c=0xe6e6e6",
            true,
            false,
            75.0,
        ),
    ];
    for (roll, first, how, mirrored, upside_down, turned) in lying {
        photographed(roll, first, how, dir.path());
        let found = call(["name".as_ref(), film.as_os_str(), photograph.as_os_str()]).ok();
        let best = &found["candidates"][0];
        assert_eq!(best["roll"], format!("R{roll}"), "{best}");
        let (told_first, told_end) = (best["in"].as_u64(), best["out"].as_u64());
        // Where little moves a longer span is told, and said to be one.
        let still = found["still"].as_bool().expect("said");
        let (least, most) = (u64::from(first), u64::from(first) + 9);
        assert!(told_first.is_some_and(|at| at <= least), "{best}");
        assert!(told_end.is_some_and(|at| at >= most), "{best}");
        let long = told_end.expect("an end") - told_first.expect("a begin");
        assert!(long == 9 || (still && long < 30), "{best}");
        assert!(
            best["confidence"].as_f64().expect("a share") > 0.9,
            "{best}"
        );
        assert_eq!(best["mirrored"], mirrored, "{best}");
        assert_eq!(best["upside_down"], upside_down, "{best}");
        let off = (best["turned"].as_f64().expect("degrees") - turned).abs();
        assert!(off.min(360.0 - off) < 5.0, "{best}");
        let places = best["places"].as_array().expect("places");
        assert_eq!(
            places.len() as u64,
            best["frames"].as_u64().expect("a count")
        );
    }
}

/// The answer is no: its document says so, and what to do next.
#[test]
fn a_photograph_with_no_film_in_it_is_told_so() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = boat();
    let photograph = dir.path().join("none.jpg");
    let name = || call(["name".as_ref(), film.as_os_str(), photograph.as_os_str()]);
    ffmpeg(
        "-f lavfi -i color=gray:s=1600x1200,noise=alls=20:all_seed=3 -frames:v 1 none.jpg",
        dir.path(),
    );
    let found = name().no();
    assert_eq!(found["candidates"], json!([]), "{found}");
    assert_eq!(found["film"], false, "{found}");
    assert_eq!(found["still"], false, "{found}");
    let (words, hint) = (found["words"].as_str(), found["hint"].as_str());
    assert!(
        words.is_some_and(|words| words.contains("no film")),
        "{found}"
    );
    assert!(
        hint.is_some_and(|hint| hint.contains("light box")),
        "{found}"
    );

    std::fs::write(&photograph, "no picture at all").expect("written");
    let refused = name().refused();
    let hint = refused["hint"].as_str();
    assert!(hint.is_some_and(|hint| hint.contains("JPEG")), "{refused}");
}

const VERSION: &str = "position,roll,in,out,slate,join,note
1,R2,590,650,,,
2,R3,1290,1350,,,
3,R1,1090,1150,,,
4,R2,690,750,,,
";

/// Scans a reel of these pieces: roll, first frame, first frame after.
fn scanned(pieces: &[(u8, u32, u32)], name: &str, into: &Path) {
    let mut parts = String::new();
    let mut names = String::new();
    for (n, (roll, first, end)) in pieces.iter().enumerate() {
        let scan = boat_folder().join(format!("scans/R{roll}.mkv"));
        let scan = scan.display();
        parts +=
            &format!("movie={scan},trim=start_frame={first}:end_frame={end},setpts=N/18/TB[p{n}];");
        names += &format!("[p{n}]");
    }
    let count = pieces.len();
    let graph = format!("{parts}{names}concat=n={count},fps=18,setpts=N/18/TB");
    ffmpeg(
        &format!("-filter_complex {graph} -r 18 -c:v mjpeg -q:v 3 {name}"),
        into,
    );
}

fn told(error: &Value) -> (&str, u64, u64, u64) {
    let number = |name: &str| error[name].as_u64().expect("a number");
    let kind = error["kind"].as_str().expect("a kind");
    (kind, number("frames"), number("earliest"), number("latest"))
}

#[test]
fn a_cut_reel_is_proved_and_what_was_done_wrong_is_found_at_its_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = copy_of_boat(dir.path());
    let sheet = dir.path().join("cut.csv");
    std::fs::write(&sheet, VERSION).expect("written");
    let line = format!("cut import DIR {} --name reel", sheet.display());
    call_words(&line, &film).ok();

    let right = [
        (2, 590, 650),
        (3, 1290, 1350),
        (1, 1090, 1150),
        (2, 690, 750),
    ];
    scanned(&right, "right.mkv", dir.path());
    let prove = format!("prove DIR {}/right.mkv --cut reel", dir.path().display());
    let found = call_words(&prove, &film).ok();
    assert_eq!(found["frames"], 240);
    assert_eq!(found["errors"], json!([]), "{found}");
    let mut at = 0;
    let spans = right.map(|(roll, first, end)| {
        at += end - first;
        json!({"at": at - (end - first), "roll": format!("R{roll}"), "in": first, "out": end,
               "mirrored": false, "upside_down": false})
    });
    assert_eq!(found["spans"], json!(spans));

    // Three frames left out at 30; the last piece before the two that it should follow, at
    // 57; a frame twice at 208.
    let wrong = [
        (2, 590, 620),
        (2, 623, 650),
        (2, 690, 750),
        (3, 1290, 1350),
        (1, 1090, 1121),
        (1, 1120, 1150),
    ];
    scanned(&wrong, "wrong.mkv", dir.path());
    let prove = prove.replace("right.mkv", "wrong.mkv");
    let found = call_words(&prove, &film).no();
    assert_eq!(found["frames"], 238);
    let errors = found["errors"].as_array().expect("errors");
    let planted = [("missing", 3, 30), ("order", 60, 57), ("doubled", 1, 208)];
    assert_eq!(errors.len(), planted.len(), "{errors:?}");
    for (kind, frames, at) in planted {
        let of = errors.iter().map(told).find(|told| told.0 == kind);
        let (_, count, earliest, latest) = of.unwrap_or_else(|| panic!("no {kind}: {errors:?}"));
        assert_eq!(count, frames, "{kind}: {errors:?}");
        assert!((earliest..=latest).contains(&at), "{kind}: {errors:?}");
    }
    // Where nothing moves another three frames of the piece may be the missing ones.
    let lost = errors.iter().find(|e| e["kind"] == "missing").expect("one");
    let lost = &lost["expected"];
    assert_eq!(lost["roll"], "R2");
    let (first, end) = (lost["in"].as_u64(), lost["out"].as_u64());
    assert_eq!(end, first.map(|first| first + 3), "{lost}");
    assert!((590..=647).contains(&first.expect("a frame")), "{lost}");

    let refused = call_words("prove DIR nowhere.mkv --cut reel", &film).refused();
    assert!(
        refused["message"]
            .as_str()
            .is_some_and(|m| m.contains("nowhere.mkv")),
        "{refused}"
    );
    let refused = call_words(&prove.replace("--cut reel", "--cut v9"), &film).refused();
    assert!(
        refused["message"]
            .as_str()
            .is_some_and(|m| m.contains("v9")),
        "{refused}"
    );
}
