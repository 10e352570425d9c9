//! What goes on which reel: the story of the boat, and films that go on no reel whole.

use onestrand_cut::JoinKind;
use onestrand_film::Gauge;
use onestrand_production::documents::{ReelPlanDocument, ReelWords};
use onestrand_production::{
    FilmChange, Production, PutReel, ReelPlanRequest, ThrowRequest, gather_reel_labels, import_cut,
    reel_plan, throw,
};

use crate::in_the_hand::{change, film};

/// A film with versions of one long strip each, or of strips of R1 with holes between.
fn with_versions(dir: &std::path::Path, versions: &[(&str, &[u32])]) -> Production {
    let mut film = film(dir, Gauge::Super8, &["R1"]);
    for (name, strips) in versions {
        let mut sheet = "position,roll,in,out,slate,join,note\n".to_owned();
        for (place, frames) in strips.iter().enumerate() {
            sheet.push_str(&format!("{},leader,0,{frames},,,\n", place + 1));
        }
        let file = dir.join("sheet.csv");
        std::fs::write(&file, sheet).expect("written");
        import_cut(&mut film, &file, name, JoinKind::Tape).expect("brought in");
    }
    film
}

fn plan(film: &Production, cuts: &[&str], more: ReelPlanRequest) -> ReelPlanDocument {
    let request = ReelPlanRequest {
        cuts: cuts.iter().map(|&cut| cut.to_owned()).collect(),
        ..more
    };
    reel_plan(film, &request).expect("planned")
}

fn said(text: &str) -> Option<String> {
    Some(text.to_owned())
}

/// Story 12: v2 is 2,652 frames; with 10 ft of leader 46 ft 60 fr, on a hub of 32 mm
/// at 0.145 mm 60.5 mm across, and a 50 ft reel takes it.
#[test]
fn the_reel_of_the_story() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(dir.path(), &[("v2", &[2_652])]);
    let more = ReelPlanRequest {
        leader: said("10ft0"),
        hub_mm: Some(32.0),
        thickness_mm: Some(0.145),
        lies: said("heads"),
        sound: said("magnetic"),
        ..ReelPlanRequest::default()
    };
    let found = plan(&film, &["v2"], more);
    assert!(found.fits && found.problem.is_empty());
    assert_eq!(
        (found.whole.footage.feet, found.whole.footage.frames),
        (46, 60)
    );
    assert_eq!(found.whole.across_mm.to_string(), "60.5");
    let [reel] = found.reels.as_slice() else {
        panic!("one reel: {:?}", found.reels)
    };
    assert_eq!(reel.reel.reel, "50ft");
    assert_eq!((reel.frames, reel.across_mm), (3_372, 60.5));
    // 3,600 frames are 50 ft, so 228 more would go on it.
    assert_eq!((reel.room_frames, reel.full_percent), (228, 93.7));
    assert_eq!(reel.films_clock, "2:27.3");
    for lines in [
        &reel.labels.reel,
        &reel.labels.can,
        &reel.labels.head_leader,
    ] {
        let all = lines.join("\n");
        for words in [
            "reel 1 of 1",
            "36 ft 60 fr, 2:27.3",
            "Super 8, 18 f/s, magnetic",
        ] {
            assert!(all.contains(words), "{words} in {all}");
        }
    }
    assert_eq!(reel.labels.head_leader[0], "HEAD");
    assert_eq!(reel.labels.tail_leader[0], "TAIL");
    assert!(reel.labels.can.contains(&"HEADS OUT".to_owned()));
}

/// At the measured speed it takes longer or shorter; how it lies is not made up.
#[test]
fn the_true_speed_gives_the_true_time_and_nothing_unsaid_is_told() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(dir.path(), &[("v2", &[2_652])]);
    let more = ReelPlanRequest {
        speed: said("459/25"),
        ..ReelPlanRequest::default()
    };
    let found = plan(&film, &["v2"], more);
    // 2,652 frames at 18.36 are 144.44 s (story 11).
    assert_eq!(found.films[0].clock, "2:24.4");
    let label = found.reels[0].labels.reel.join("\n");
    assert!(
        !label.contains("HEADS OUT") && !label.contains("TAILS OUT"),
        "{label}"
    );
    assert!(label.contains("sound not said"), "{label}");
    assert!(!found.thickness_known);
    assert!(found.assumptions.iter().any(|a| a.contains("0.145")));
}

#[test]
fn several_films_keep_their_order_on_the_fewest_reels() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(
        dir.path(),
        &[("a", &[10_000]), ("b", &[20_000]), ("c", &[4_000])],
    );
    let more = || ReelPlanRequest {
        leader: said("5ft0"),
        spacing: said("2ft0"),
        reels: vec!["400ft".to_owned(), "200ft".to_owned(), "50ft".to_owned()],
        ..ReelPlanRequest::default()
    };
    // 28,800 frames are 400 ft: a and b together are too long, b and c with 5 + 2 ft
    // of leader and spacing go on one.
    let found = plan(&film, &["a", "b", "c"], more());
    let on: Vec<(String, Vec<String>)> = found
        .reels
        .iter()
        .map(|reel| {
            let films = reel.wound.iter().filter_map(|s| s.cut.clone());
            (reel.reel.reel.clone(), films.collect())
        })
        .collect();
    assert_eq!(
        on,
        [
            ("200ft".to_owned(), vec!["a".to_owned()]),
            ("400ft".to_owned(), vec!["b".to_owned(), "c".to_owned()]),
        ]
    );
    let second = &found.reels[1];
    assert_eq!(second.frames, 360 + 20_000 + 144 + 4_000);
    assert_eq!(second.labels.reel[2], "reel 2 of 2");
    let sums: u32 = second.wound.iter().map(|s| s.frames).sum();
    assert_eq!(sums, second.frames);
}

#[test]
fn a_film_too_long_for_any_reel_is_parted_at_a_join_and_at_no_other_place() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(
        dir.path(),
        &[("long", &[2_000, 1_000, 2_500, 900]), ("one", &[5_000])],
    );
    let more = || ReelPlanRequest {
        leader: said("5ft0"),
        reels: vec!["50ft".to_owned()],
        ..ReelPlanRequest::default()
    };
    // 3,600 less 360 of leader: 3,000 and then 3,400 is too much, so three.
    let found = plan(&film, &["long"], more());
    let parts: Vec<_> = found
        .reels
        .iter()
        .flat_map(|reel| reel.wound.iter().filter_map(|s| s.from.zip(s.to)))
        .collect();
    assert_eq!(parts, [(1, 2), (3, 3), (4, 4)]);
    assert!(found.reels[0].labels.reel[1].contains("long, no. 1 to 2"));

    let found = plan(&film, &["one"], more());
    assert!(!found.fits && found.reels.is_empty());
    assert!(found.problem.contains("69 ft 32 fr"), "{}", found.problem);
}

#[test]
fn ones_own_reels_are_used_once_and_thin_film_gets_more_on() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = with_versions(dir.path(), &[("a", &[3_000]), ("b", &[3_000])]);
    let words = |feet, hub: &str| ReelWords {
        kind: "reel".to_owned(),
        feet: Some(feet),
        across_mm: Some("75".to_owned()),
        hub_mm: said(hub),
        lies: "not-known".to_owned(),
        kept_in: String::new(),
        accession: String::new(),
        note: String::new(),
        wound: Vec::new(),
    };
    let put = |reel: &str, words| {
        FilmChange::PutReel(PutReel {
            reel: reel.to_owned(),
            words,
        })
    };
    change(&mut film, &put("grey", words(50, "30"))).expect("kept");
    let refused = change(&mut film, &put("odd", words(50, "80"))).expect_err("no room");
    assert!(refused.contains("as wide as the reel"), "{refused}");
    let own = |thickness_mm| ReelPlanRequest {
        leader: said("5ft0"),
        spacing: said("0ft0"),
        reels: vec!["grey".to_owned()],
        thickness_mm,
        ..ReelPlanRequest::default()
    };
    assert!(plan(&film, &["a"], own(None)).fits);
    let both = plan(&film, &["a", "b"], own(None));
    assert!(
        !both.fits && both.problem.contains("name more"),
        "{}",
        both.problem
    );
    // 1.45 times as much of 0.10 mm: 72.5 ft, still less than 6,000 frames.
    assert_eq!(
        plan(&film, &["a"], own(Some(0.10))).choice[0].takes_frames,
        5_220
    );
}

#[test]
fn what_makes_no_sense_is_refused_in_words() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(dir.path(), &[("v1", &[100])]);
    let ask = |request: ReelPlanRequest| {
        let problem = reel_plan(&film, &request).expect_err("refused");
        assert!(!problem.hint().is_empty());
        problem.to_string()
    };
    let cuts = |names: &[&str]| names.iter().map(|&n| n.to_owned()).collect::<Vec<_>>();
    let base = || ReelPlanRequest {
        cuts: cuts(&["v1"]),
        ..ReelPlanRequest::default()
    };
    for (request, words) in [
        (ReelPlanRequest::default(), "no version is said"),
        (
            ReelPlanRequest {
                cuts: cuts(&["v1", "v1"]),
                ..base()
            },
            "twice",
        ),
        (
            ReelPlanRequest {
                cuts: cuts(&["v9"]),
                ..base()
            },
            "v9",
        ),
        (
            ReelPlanRequest {
                leader: said("a yard"),
                ..base()
            },
            "a yard",
        ),
        (
            ReelPlanRequest {
                thickness_mm: Some(3.0),
                ..base()
            },
            "3 mm thick",
        ),
        (
            ReelPlanRequest {
                hub_mm: Some(0.0),
                ..base()
            },
            "hub",
        ),
        (
            ReelPlanRequest {
                reels: cuts(&["12ft"]),
                ..base()
            },
            "no reel",
        ),
        (
            ReelPlanRequest {
                speed: said("0"),
                ..base()
            },
            "0",
        ),
        (
            ReelPlanRequest {
                lies: said("sideways"),
                ..base()
            },
            "sideways",
        ),
        (
            ReelPlanRequest {
                sound: said("loud"),
                ..base()
            },
            "loud",
        ),
    ] {
        let told = ask(request);
        assert!(told.contains(words), "{words:?} in {told:?}");
    }
}

/// Story 12: a lens of 20 mm, a screen of 1.2 m: 4.54 m; story 10: the last row at 5 m
/// wants letters of 29.1 mm.
#[test]
fn the_hall_of_the_story() {
    let request = ThrowRequest {
        gauge: "super8".to_owned(),
        lens_mm: Some(20.0),
        width: said("1.2m"),
        distance: None,
        last_row: said("5m"),
    };
    let hall = throw(&request).expect("worked out");
    assert_eq!((hall.throw_m.as_str(), hall.throw_mm), ("4.54", 4_539.8));
    assert_eq!(hall.picture_mm.map(|mm| mm.to_string()), ["1200", "906.2"]);
    let row = hall.last_row.expect("said");
    assert_eq!((row.letter_mm, row.smallest_mm), (29.1, 12.5));
    let back = ThrowRequest {
        lens_mm: None,
        distance: said("4539.8mm"),
        ..request.clone()
    };
    let lens = throw(&back).expect("worked out").lens_mm;
    assert_eq!(lens.to_string(), "20");
    for wrong in [
        ThrowRequest {
            distance: said("4m"),
            ..request.clone()
        },
        ThrowRequest {
            width: None,
            ..request.clone()
        },
        ThrowRequest {
            lens_mm: Some(0.0),
            ..request.clone()
        },
        ThrowRequest {
            width: said("12 paces"),
            ..request.clone()
        },
        ThrowRequest {
            gauge: "70".to_owned(),
            ..request.clone()
        },
    ] {
        assert!(throw(&wrong).is_err(), "{wrong:?}");
    }
}

/// What the make-up says stands on paper: on reel, can and both leaders of every reel.
#[test]
fn the_labels_are_printed_out_of_the_make_up() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = with_versions(dir.path(), &[("a", &[10_000]), ("b", &[25_000])]);
    let request = ReelPlanRequest {
        cuts: vec!["a".to_owned(), "b".to_owned()],
        lies: said("tails"),
        sound: said("silent"),
        owner: said("Ida Voss"),
        reels: vec!["200ft".to_owned(), "400ft".to_owned()],
        ..ReelPlanRequest::default()
    };
    let plan = reel_plan(&film, &request).expect("a plan");
    assert_eq!(plan.reels.len(), 2);
    let labels = gather_reel_labels(&film, &request, false).expect("gathered");
    let file = dir.path().join("labels.pdf");
    labels.write(&file).expect("written");
    labels.write(&file).expect_err("never over a file");
    let text = crate::work_order_printed::text_of(&std::fs::read(&file).expect("it"));
    let times = |words: &str| text.matches(words).count();
    for (reel, film) in plan.reels.iter().zip(["a", "b"]) {
        assert_eq!(reel.labels.reel[1], film);
        assert_eq!(times(&format!("reel {} of 2", reel.number)), 4, "{text}");
        assert_eq!(times(&reel.films_clock), 4, "{text}");
    }
    assert_eq!(
        (times("TAILS OUT"), times("Ida Voss"), times("HEAD ")),
        (4, 4, 2),
        "{text}"
    );
    let small = ReelPlanRequest {
        reels: vec!["50ft".to_owned()],
        ..request
    };
    let refused = gather_reel_labels(&film, &small, false).expect_err("they do not fit");
    assert!(refused.to_string().contains("longer reel"), "{refused}");
}
