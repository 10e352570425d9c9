//! Files of other programs: what can be read is read and told, all that cannot
//! be is told at once with its line.

use onestrand_cut::{Effect, PieceKind};
use onestrand_exchange::{ExchangeError, Found, ReadVersion, read};
use serde_json::{Value, json};

use crate::film::{boat, with_pictures};

fn time(value: f64, rate: f64) -> Value {
    json!({"OTIO_SCHEMA": "RationalTime.1", "rate": rate, "value": value})
}

fn range(start: f64, length: f64, rate: f64) -> Value {
    json!({
        "OTIO_SCHEMA": "TimeRange.1",
        "start_time": time(start, rate),
        "duration": time(length, rate),
    })
}

/// A clip that names a file by its address, in the older form of the standard.
fn clip(name: &str, url: &str, start: f64, length: f64, rate: f64) -> Value {
    json!({
        "OTIO_SCHEMA": "Clip.1",
        "name": name,
        "source_range": range(start, length, rate),
        "media_reference": {"OTIO_SCHEMA": "ExternalReference.1", "target_url": url},
    })
}

fn with(mut object: Value, field: &str, value: Value) -> Value {
    object[field] = value;
    object
}

fn gap(length: f64, rate: f64) -> Value {
    json!({"OTIO_SCHEMA": "Gap.1", "name": "", "source_range": range(0.0, length, rate)})
}

fn track(children: &[Value]) -> Value {
    json!({"OTIO_SCHEMA": "Track.1", "kind": "Video", "children": children})
}

fn file(tracks: &[Value]) -> String {
    let whole = json!({
        "OTIO_SCHEMA": "Timeline.1",
        "name": "from elsewhere",
        "tracks": {"OTIO_SCHEMA": "Stack.1", "children": tracks},
    });
    format!("{whole:#}")
}

fn problems(text: &str) -> Vec<Found> {
    match read(text, &boat("18")) {
        Err(ExchangeError::Problems { problems }) => problems,
        other => panic!("it was read: {other:?}"),
    }
}

fn well(text: &str) -> ReadVersion {
    read(text, &boat("18")).expect("it can be read")
}

const QUAY: &str = "file:///scans/R1%20the%20quay.mkv";

#[test]
fn a_cut_of_the_scans_is_read_by_their_names() {
    let text = file(&[track(&[
        clip("3A-T2", QUAY, 402.0, 144.0, 18.0),
        gap(36.0, 18.0),
        clip("she runs", "R3.mkv", 10.0, 20.0, 25.0),
        clip("plain", "C:\\films\\R1 the quay.mkv", 0.0, 3600.0, 18.0),
    ])]);
    let found = well(&text);
    let pieces = found.version.cut.pieces();
    let spans: Vec<String> = pieces
        .iter()
        .map(|p| p.span().map_or("leader".to_owned(), ToString::to_string))
        .collect();
    assert_eq!(spans, ["R1[402,546)", "leader", "R3[10,30)", "R1[0,3600)"]);
    assert_eq!(
        pieces[0].slate.as_ref().map(ToString::to_string).as_deref(),
        Some("3A-T2")
    );
    assert_eq!(pieces[2].note, "she runs");
    assert!(!found.says_join);
    let told: Vec<&str> = found.remarks.iter().map(|r| r.message.as_str()).collect();
    assert!(
        told.iter()
            .any(|t| t.contains("the slate 3A-T2 is taken from its name")),
        "{told:?}"
    );
    assert!(told.iter().any(|t| t.contains("a gap: leader")), "{told:?}");
    assert!(
        told.iter()
            .any(|t| t.contains("counts the frames of the scan")),
        "{told:?}"
    );
}

/// Every kind of trouble in one file: each is told with the line it stands on.
/// A clip of numbered pictures.
fn pictures(base: &str, first: u32, step: u32, begins: f64, start: f64, rate: f64) -> Value {
    json!({
        "OTIO_SCHEMA": "Clip.2",
        "name": "",
        "source_range": range(start, 36.0, rate),
        "media_references": {"DEFAULT_MEDIA": {
            "OTIO_SCHEMA": "ImageSequenceReference.1",
            "target_url_base": base,
            "name_prefix": "R5 ",
            "name_suffix": ".dpx",
            "start_frame": first,
            "frame_step": step,
            "rate": rate,
            "frame_zero_padding": 4,
            "available_range": range(begins, 500.0, rate),
        }},
    })
}

#[test]
fn numbered_pictures_are_the_frames_of_their_roll_wherever_their_count_begins() {
    let spans = |clips: &[Value]| -> Vec<String> {
        let found = read(&file(&[track(clips)]), &with_pictures("18")).expect("it can be read");
        let pieces = found.version.cut.pieces();
        let spans = pieces.iter().filter_map(|p| p.span());
        spans.map(ToString::to_string).collect()
    };
    let base = "file:///scans/fifth%20roll/";
    assert_eq!(
        spans(&[
            pictures(base, 101, 1, 0.0, 40.0, 18.0),
            // Counted by the number of the picture.
            pictures(base, 101, 1, 101.0, 141.0, 18.0),
            // From the hundredth picture on.
            pictures(base, 201, 1, 0.0, 40.0, 18.0),
            // At a rate of its own a picture is a picture all the same.
            pictures("", 201, 1, 201.0, 241.0, 24.0),
        ]),
        ["R5[40,76)", "R5[40,76)", "R5[140,176)", "R5[140,176)"]
    );
}

#[test]
fn pictures_of_another_folder_or_every_second_one_are_told() {
    let told = |clip: Value| match read(&file(&[track(&[clip])]), &with_pictures("18")) {
        Err(ExchangeError::Problems { problems }) => problems[0].message.clone(),
        other => panic!("it was read: {other:?}"),
    };
    let other = told(pictures("sixth roll/", 101, 1, 0.0, 40.0, 18.0));
    assert!(
        other.starts_with("no roll is known by “sixth roll/R5 0101.dpx”"),
        "{other}"
    );
    let second = told(pictures("fifth%20roll", 101, 2, 0.0, 40.0, 18.0));
    assert!(second.contains("only each picture no. 2 of R5"), "{second}");
    let before = told(pictures("fifth%20roll", 41, 1, 0.0, 0.0, 18.0));
    assert!(before.contains("before the head of R5"), "{before}");
}

#[test]
fn all_that_is_wrong_is_told_at_once_with_its_line() {
    let unmapped = clip("u", "R2.mov", 0.0, 10.0, 18.0);
    let part = with(
        track(&[gap(9.0, 18.0)]),
        "source_range",
        range(0.0, 2.0, 18.0),
    );
    let rows = [
        (
            clip("a", "/x/nowhere.mov", 0.0, 9.0, 18.0),
            "no roll is known by “/x/nowhere.mov”; there are: R1, R2, R3, R4",
        ),
        (clip("b", QUAY, 10.0, 0.0, 18.0), "0 frames long"),
        (clip("c", QUAY, 10.0, -4.0, 18.0), "-4 frames long"),
        (clip("d", QUAY, -5.0, 9.0, 18.0), "before the head of R1"),
        (
            clip("e", QUAY, 3599.0, 2.0, 18.0),
            "R1 has 3600 frames, this ends at 3601",
        ),
        (
            clip("f", QUAY, 10.5, 9.0, 18.0),
            "falls inside a frame of the film",
        ),
        (unmapped, "does not show R2 one film frame a file frame"),
        (
            with(clip("g", QUAY, 0.0, 9.0, 18.0), "source_range", json!(null)),
            "which frames are wanted is not said",
        ),
        (
            with(
                clip("h", QUAY, 0.0, 9.0, 18.0),
                "source_range",
                json!({"start_time": 3}),
            ),
            "cannot be read as a time",
        ),
        (part, "only a part of it is wanted"),
        (
            json!({"OTIO_SCHEMA": "Riddle.7", "name": "i"}),
            "nothing is known of an object called \"Riddle\"",
        ),
        (
            clip("j", QUAY, 0.0, 9.0, 24.0),
            "counted at 24 frames a second, here and in 1 more place",
        ),
        (clip("k", QUAY, 0.0, 9.0, 24.0), ""),
        (json!("text"), "no object of the standard"),
    ];
    let children: Vec<Value> = rows.iter().map(|(row, _)| row.clone()).collect();
    let text = file(&[track(&children)]);
    let found = problems(&text);
    let lines: Vec<&str> = text.lines().collect();
    for (row, wanted) in rows.iter().filter(|(_, wanted)| !wanted.is_empty()) {
        let told = found.iter().find(|p| p.message.contains(wanted));
        let told = told.unwrap_or_else(|| panic!("{wanted} is not in {found:#?}"));
        // The line lies inside of the object that is wrong.
        let name = row["name"].as_str().unwrap_or_default();
        let near = lines[..(told.line as usize + 12).min(lines.len())].join("\n");
        assert!(
            near.contains(&format!("\"name\": \"{name}\"")) || name.is_empty(),
            "{told}"
        );
        assert!(
            name.is_empty() || told.place.contains(&format!("“{name}”")),
            "{told}"
        );
    }
    let wanted = rows.iter().filter(|(_, wanted)| !wanted.is_empty()).count();
    assert_eq!(found.len(), wanted, "{found:#?}");
    assert!(found.is_sorted_by_key(|p| p.line));
}

/// A piece of an unknown roll has its other problems told as well.
#[test]
fn an_unknown_roll_hides_nothing_else() {
    let unknown = |length, rate| file(&[track(&[clip("a", "x.mov", 1.5, length, rate)])]);
    let told = |text: &str| -> Vec<String> {
        let found = problems(text).into_iter();
        found.map(|p| p.message).collect()
    };
    for (text, wanted) in [
        (
            unknown(0.0, 18.0),
            ["no roll is known", "inside a frame", "0 frames long"],
        ),
        (
            unknown(9.0, 24.0),
            ["no roll is known", "counted at 24", "runs at 18"],
        ),
    ] {
        let told = told(&text);
        for wanted in wanted {
            assert!(
                told.iter().any(|t| t.contains(wanted)),
                "{wanted} in {told:?}"
            );
        }
    }
    let nameless = json!({"OTIO_SCHEMA": "Clip.2", "source_range": range(0.0, 9.0, 18.0)});
    assert!(told(&file(&[track(&[nameless])]))[0].starts_with("it names no film; there are: R1"));
}

#[test]
fn rows_above_one_another_and_sound() {
    let one = track(&[gap(9.0, 18.0)]);
    let sound = with(track(&[gap(9.0, 18.0)]), "kind", json!("Audio"));
    let off = with(one.clone(), "enabled", json!(false));
    let found = well(&file(&[one.clone(), sound.clone(), off, track(&[])]));
    assert_eq!(found.version.cut.pieces().len(), 1);
    let told: Vec<&str> = found.remarks.iter().map(|r| r.message.as_str()).collect();
    assert!(
        told.iter().any(|t| t.contains("sound is left out")),
        "{told:?}"
    );
    assert!(told.iter().any(|t| t.contains("switched off")), "{told:?}");

    let two = problems(&file(&[one.clone(), one]));
    assert_eq!(two.len(), 1);
    assert!(two[0].message.contains("2 rows of pictures"), "{two:?}");
    let none = problems(&file(&[sound]));
    assert!(none[0].message.contains("no row of pictures"), "{none:?}");
}

#[test]
fn dissolves_and_effects_are_kept_as_what_the_bench_cannot_make() {
    let dissolve = json!({
        "OTIO_SCHEMA": "Transition.1", "name": "", "transition_type": "SMPTE_Dissolve",
        "in_offset": time(6.0, 18.0), "out_offset": time(6.0, 18.0),
    });
    let warp = |schema: &str, scalar: f64| json!([{"OTIO_SCHEMA": schema, "name": "", "effect_name": "x", "time_scalar": scalar}]);
    let shot = |name: &str| clip(name, QUAY, 100.0, 20.0, 18.0);
    let text = file(&[track(&[
        dissolve.clone(),
        shot("in"),
        dissolve.clone(),
        with(shot("held"), "effects", warp("FreezeFrame.1", 0.0)),
        with(shot("back"), "effects", warp("LinearTimeWarp.1", -1.0)),
        with(shot("fast"), "effects", warp("LinearTimeWarp.1", 2.0)),
        with(shot("same"), "effects", warp("LinearTimeWarp.1", 1.0)),
        with(
            shot("soft"),
            "effects",
            json!([{"OTIO_SCHEMA": "Effect.1", "effect_name": "Blur"}]),
        ),
        with(shot("off"), "enabled", json!(false)),
    ])]);
    let found = well(&text);
    let pieces = found.version.cut.pieces();
    let effects: Vec<Option<Effect>> = pieces.iter().map(|p| p.effect).collect();
    assert_eq!(
        effects,
        [
            Some(Effect::Fade),
            Some(Effect::Freeze),
            Some(Effect::Reverse),
            Some(Effect::Speed),
            None,
            None,
            None
        ]
    );
    assert!(
        pieces[0]
            .note
            .contains("a dissolve was here: the bench cannot make it")
    );
    assert!(
        pieces[3].note.contains("2 times its speed"),
        "{}",
        pieces[3].note
    );
    assert!(
        pieces[5].note.contains("effect Blur, left out"),
        "{}",
        pieces[5].note
    );
    assert!(matches!(pieces[6].kind, PieceKind::Leader(frames) if frames.count() == 20));
    // Two dissolves, three warps, one effect, one switched off: nothing in silence.
    assert_eq!(found.remarks.len(), 7, "{:#?}", found.remarks);
}

#[test]
fn other_rates_are_reckoned_over_only_where_nothing_is_guessed() {
    // Leader is a time: half a second at 24 is 9 frames at 18.
    let found = well(&file(&[track(&[gap(12.0, 24.0)])]));
    assert_eq!(found.version.cut.frames().count(), 9);
    assert!(
        found
            .remarks
            .iter()
            .any(|r| r.message.contains("12 at 24 frames a second, taken as 9"))
    );
    // 50 at 24 would be 37.5.
    assert!(
        problems(&file(&[track(&[gap(50.0, 24.0)])]))[0]
            .message
            .contains("counted at 24")
    );
    // A roll by its name counts film frames, and says at which speed.
    let roll = |start, length, rate, own: f64| {
        let media = json!({
            "OTIO_SCHEMA": "MissingReference.1", "name": "R2",
            "available_range": range(86_400.0, 3600.0, own),
        });
        with(clip("x", "", start, length, rate), "media_reference", media)
    };
    let found = well(&file(&[track(&[roll(86_436.0, 18.0, 18.0, 18.0)])]));
    let span = found.version.cut.pieces()[0]
        .span()
        .expect("a shot")
        .to_string();
    assert_eq!(span, "R2[36,54)");
    assert!(
        found
            .remarks
            .iter()
            .any(|r| r.message.contains("taken as the head of R2"))
    );
    let found = well(&file(&[track(&[roll(115_248.0, 24.0, 24.0, 18.0)])]));
    let span = found.version.cut.pieces()[0]
        .span()
        .expect("a shot")
        .to_string();
    assert_eq!(span, "R2[36,54)");
}

#[test]
fn a_cut_within_the_cut_is_read_in_its_place() {
    let inner = track(&[gap(9.0, 18.0), clip("in", QUAY, 7.0, 8.0, 18.0)]);
    let stack = json!({"OTIO_SCHEMA": "Stack.1", "name": "scene 2", "children": [inner]});
    let found = well(&file(&[track(&[stack.clone(), gap(1.0, 18.0)])]));
    assert_eq!(found.version.cut.frames().count(), 9 + 8 + 1);
    assert_eq!(found.places[1].1, "no. 1 “scene 2”, no. 2 “in”");
    let deep = (0..40).fold(stack, |inner, _| track(&[inner]));
    assert!(
        problems(&file(&[deep]))
            .iter()
            .any(|p| p.message.contains("too deep"))
    );
}

#[test]
fn marks_of_others_become_notes_on_frames() {
    let mark = |frame: f64, comment: &str| {
        json!({
            "OTIO_SCHEMA": "Marker.2", "name": "", "comment": comment,
            "marked_range": range(frame, 1.0, 18.0),
        })
    };
    let marks = json!([
        mark(410.0, "too long"),
        mark(9999.0, "lost"),
        mark(411.0, " ")
    ]);
    let text = file(&[track(&[with(
        clip("m", QUAY, 402.0, 144.0, 18.0),
        "markers",
        marks,
    )])]);
    let found = well(&text);
    assert_eq!(
        found.version.notes,
        [crate::film::note("R1", 410, "too long", "")]
    );
    assert_eq!(found.remarks.len(), 2, "{:#?}", found.remarks);
}

#[test]
fn files_that_are_no_cut_at_all() {
    for (text, wanted) in [
        ("", "no OpenTimelineIO file"),
        ("\n\n{\"a\": 1,}", "no OpenTimelineIO file"),
        ("[1, 2]", "no OpenTimelineIO file"),
        ("{}", "no single cut"),
        (
            "{\"OTIO_SCHEMA\": \"SerializableCollection.1\"}",
            "no single cut",
        ),
        ("position,roll,in,out", "no OpenTimelineIO file"),
        (&file(&[]), "no row of pictures"),
        (&"[".repeat(100_000), "no OpenTimelineIO file"),
    ] {
        let found = problems(text);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].message.contains(wanted), "{:?}", found[0]);
    }
    assert_eq!(problems("\n\n{\"a\": 1,}")[0].line, 3);
    let code = read("", &boat("18")).expect_err("empty");
    assert_eq!(code.code(), "exchange.problems");
    assert!(!code.hint().is_empty());
}

/// Our own words in a file that somebody wrote into by hand.
#[test]
fn our_own_words_are_checked_too() {
    let head = json!({"onestrand": {
        "form": 9, "usual_join": "glue", "speed": "24", "gauge": "16", "film": "Another",
    }});
    let mut whole: Value = serde_json::from_str(&file(&[track(&[with(
        clip("x", QUAY, 0.0, 9.0, 18.0),
        "metadata",
        json!({"onestrand": {"kind": "shot", "slate": "?", "join": "staple"}}),
    )])]))
    .expect("JSON");
    whole["metadata"] = head;
    let found = problems(&format!("{whole:#}"));
    let all: Vec<String> = found.iter().map(ToString::to_string).collect();
    for wanted in [
        "newer Onestrand",
        "\"glue\" is no join",
        "24 frames a second",
        "16 film",
        "slate",
        "\"staple\" is no join",
    ] {
        assert!(
            all.iter().any(|told| told.contains(wanted)),
            "{wanted} in {all:#?}"
        );
    }
    assert_eq!(found.len(), 6);
}
