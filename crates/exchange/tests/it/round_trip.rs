//! What goes out comes in as it was.

use onestrand_cut::{Effect, JoinKind, Piece, PieceKind, Slate, TrialCut};
use onestrand_exchange::{FrameNote, Version, read, write};
use proptest::prelude::*;

use crate::film::{boat, frames, note, one_of_each, one_of_each_and_pictures, span, with_pictures};

#[test]
fn one_of_each_comes_back_without_a_remark() {
    for speed in ["18", "50/3", "24000/1001", "24"] {
        let film = boat(speed);
        let version = one_of_each();
        let back = read(&write(&film, &version), &film).expect("our own file");
        assert_eq!(back.version, version, "{speed}");
        assert_eq!(back.remarks, [], "{speed}");
        assert!(back.says_join);
    }
}

#[test]
fn a_roll_of_pictures_comes_back_by_its_pictures() {
    let film = with_pictures("18");
    let version = one_of_each_and_pictures();
    let text = write(&film, &version);
    let back = read(&text, &film).expect("our own file");
    assert_eq!((back.version, back.remarks), (version, vec![]));
}

/// The standard's rate is a decimal; the exact speed stands beside it.
#[test]
fn the_exact_speed_stands_in_our_own_words() {
    let film = boat("50/3");
    let text = write(&film, &one_of_each());
    let file: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!(file["metadata"]["onestrand"]["speed"], "50/3");
    let clip = &file["tracks"]["children"][0]["children"][1];
    assert_eq!(clip["source_range"]["start_time"]["rate"], 50.0 / 3.0);
    assert_eq!(clip["source_range"]["start_time"]["value"], 402.0);
    assert_eq!(clip["source_range"]["duration"]["value"], 144.0);
}

/// A scan is named only where its file frames are film frames, at the film's
/// own speed: another program would show other pictures otherwise.
#[test]
fn a_scan_is_named_only_where_it_counts_as_the_roll_does() {
    let film = boat("18");
    let text = write(&film, &one_of_each());
    let file: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let media = |at: usize| {
        let clips = &file["tracks"]["children"][0]["children"];
        let media = &clips[at]["media_references"]["DEFAULT_MEDIA"];
        let words = &media["metadata"]["onestrand"];
        let said = words["scans"][0]["film_frame_is_file_frame"].as_bool();
        let kind = media["OTIO_SCHEMA"].as_str().expect("a kind").to_owned();
        (kind, media["target_url"].clone(), said)
    };
    let missing = || "MissingReference.1".to_owned();
    let none = || serde_json::Value::Null;
    let url = serde_json::json!("R1%20the%20quay.mkv");
    assert_eq!(
        media(1),
        ("ExternalReference.1".to_owned(), url, Some(true))
    );
    assert_eq!(media(4), (missing(), none(), Some(false)), "repeats frames");
    assert_eq!(media(5), (missing(), none(), Some(true)), "another rate");
    assert_eq!(media(6), (missing(), none(), None), "on paper");
}

/// Words with everything in them that a file could stumble over.
fn words() -> impl Strategy<Value = String> {
    proptest::collection::vec(
        prop_oneof![
            any::<char>(),
            prop::sample::select(vec!['"', '\\', '\n', '\u{1}', '⛴', '{', '}']),
        ],
        0..20,
    )
    .prop_map(String::from_iter)
}

fn kind() -> impl Strategy<Value = PieceKind> {
    prop_oneof![
        6 => (prop::sample::select(vec!["R1", "R2", "R3", "R4"]), 0_u32..3600, 1_u32..300)
            .prop_map(|(name, begin, length)| {
                PieceKind::Shot(span(name, begin, (begin + length).min(3600)))
            }),
        1 => (1_u32..500).prop_map(|n| PieceKind::Leader(frames(n))),
        1 => (1_u32..500, words()).prop_map(|(n, title)| PieceKind::Card {
            frames: frames(n),
            title,
        }),
    ]
}

fn piece() -> impl Strategy<Value = Piece> {
    let slate = prop::option::of(("[1-9A-Z]{1,12}", 1_u16..=999));
    let join = prop::option::of(prop::sample::select(JoinKind::ALL.to_vec()));
    let effect = prop::option::weighted(0.2, prop::sample::select(Effect::ALL.to_vec()));
    (kind(), slate, join, effect, words()).prop_map(|(kind, slate, join, effect, note)| Piece {
        kind,
        slate: slate.map(|(setup, take)| Slate::new(&setup, take).expect("a slate")),
        join,
        effect,
        note,
    })
}

/// Notes on frames that the cut shows: only those go out with it.
fn version() -> impl Strategy<Value = Version> {
    let pieces = proptest::collection::vec(piece(), 1..40);
    let usual = prop::sample::select(JoinKind::ALL.to_vec());
    let notes =
        proptest::collection::vec((any::<prop::sample::Index>(), 0_u32..300, 0_usize..3), 0..6);
    (pieces, usual, words(), words(), notes).prop_map(|(pieces, usual, name, words, wanted)| {
        let spans: Vec<_> = pieces.iter().filter_map(Piece::span).cloned().collect();
        let mut notes: Vec<FrameNote> = Vec::new();
        for (which, offset, writer) in wanted {
            let Some(span) = (!spans.is_empty()).then(|| which.get(&spans)) else {
                continue;
            };
            let frame = span.range.begin().index() + offset % span.range.len().count();
            let writer = ["", "Bram", "Ida"][writer];
            let one = note(span.roll.as_str(), frame, "a word", writer);
            if !notes.contains(&one) {
                notes.push(one);
            }
        }
        Version {
            name,
            note: words,
            cut: TrialCut::new(pieces, usual),
            notes,
        }
    })
}

fn sorted(mut version: Version) -> Version {
    let key = |note: &FrameNote| (note.frame.clone(), note.writer.clone(), note.words.clone());
    version.notes.sort_by_key(key);
    version
}

proptest! {
    #[test]
    fn any_version_comes_back_as_it_was(
        version in version(),
        speed in prop::sample::select(vec!["18", "50/3", "24000/1001", "16", "25"]),
    ) {
        let film = boat(speed);
        let back = read(&write(&film, &version), &film).expect("our own file");
        prop_assert_eq!(back.remarks, vec![]);
        prop_assert_eq!(back.places.len(), version.cut.pieces().len());
        prop_assert_eq!(sorted(back.version), sorted(version));
    }

    /// Whatever stands in a file, the reading ends, and a refusal names a line of it.
    #[test]
    fn a_file_cut_short_or_changed_anywhere_is_told_and_never_a_panic(
        version in version(),
        at in any::<prop::sample::Index>(),
        byte in any::<u8>(),
    ) {
        let film = boat("18");
        let text = write(&film, &version);
        let lines = text.lines().count() as u64;
        let at = at.index(text.len());
        let mut changed = text.clone().into_bytes();
        changed[at] = byte;
        let cut_short = String::from_utf8_lossy(&text.as_bytes()[..at]).into_owned();
        for text in [cut_short, String::from_utf8_lossy(&changed).into_owned()] {
            if let Err(refused) = read(&text, &film) {
                let onestrand_exchange::ExchangeError::Problems { problems } = refused else {
                    panic!("another refusal");
                };
                prop_assert!(!problems.is_empty());
                prop_assert!(problems.iter().all(|p| (1..=lines + 1).contains(&p.line)));
            }
        }
    }
}
