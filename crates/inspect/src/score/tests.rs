use super::*;

const TABLE: &str = "file,type,start,end,scored,group,note
a.mov,cut,50,50,1,main,\"one, with a comma\"
a.mov,flash,51,52,0,main,
a.mov,dissolve,100,120,1,main,
b.mov,none,0,520,0,stops,one shot
";

fn clips() -> Vec<KnownClip> {
    known_clips(TABLE).expect("the table is sound")
}

#[test]
fn clips_are_read_with_their_groups_and_kinds() {
    let clips = clips();
    assert_eq!(clips.len(), 2);
    assert_eq!(clips[0].changes.len(), 3);
    assert_eq!(clips[0].changes[2].kind, KnownKind::Gradual);
    assert_eq!(clips[1].group, "stops");
    assert!(
        clips[1].changes.is_empty(),
        "a clip of one shot has no changes"
    );
}

#[test]
fn detections_are_counted_by_the_rule() {
    let known = &clips()[0].changes;
    let cases: [(&[u32], [u32; 3]); 8] = [
        (&[50], [1, 0, 0]),
        (&[51], [1, 0, 0]),
        // Two frames off: left out, for a flash is listed there.
        (&[52], [0, 0, 0]),
        // One serves the cut, the other lies by the flash.
        (&[50, 51], [1, 0, 0]),
        // Two before: a miss and a false alarm.
        (&[48], [0, 0, 1]),
        // Several inside a gradual change are one hit.
        (&[99, 110, 121], [0, 1, 0]),
        (&[98, 122], [0, 0, 2]),
        (&[], [0, 0, 0]),
    ];
    for (detections, [cuts, gradual, wrong]) in cases {
        let got = tally(detections, known);
        assert_eq!(
            (got.cuts_hit, got.gradual_hit, got.false_alarms),
            (cuts, gradual, wrong),
            "{detections:?}"
        );
        assert_eq!((got.cuts, got.gradual), (1, 1));
    }
}

#[test]
fn each_detection_serves_one_cut() {
    let cut = |start| KnownChange {
        file: "a".into(),
        group: "main".into(),
        kind: KnownKind::Cut,
        start,
        end: start,
    };
    let known = [cut(12), cut(10), cut(11)];
    assert_eq!(tally(&[11], &known).cuts_hit, 1);
    assert_eq!(tally(&[11, 12], &known).cuts_hit, 2);
    assert_eq!(tally(&[9, 10, 11], &known).cuts_hit, 3);
}

#[test]
fn rates_are_the_usual_ones() {
    let tally = Tally {
        cuts_hit: 54,
        cuts: 61,
        gradual_hit: 3,
        gradual: 10,
        false_alarms: 0,
    };
    // The measured baseline of the development clips: 1.000 / 0.885 / 0.939.
    assert!((tally.cut_rates().f1 - 0.939).abs() < 0.0005);
    assert!((tally.rates().f1 - 0.891).abs() < 0.0005);
    let none = Tally::default();
    assert!(
        (none.cut_rates().f1 - 1.0).abs() < f64::EPSILON,
        "nothing to find, nothing found"
    );
}

#[test]
fn a_wrong_row_is_refused_with_its_line() {
    for (row, problem) in [
        ("a.mov,cut,50", "fewer than six columns"),
        (
            "a.mov,cut,fifty,50,1,main,",
            "start and end must be whole frame numbers",
        ),
        ("a.mov,cut,50,49,1,main,", "the end lies before the start"),
        ("a.mov,cut,50,50,yes,main,", "scored must be 0 or 1"),
    ] {
        let table =
            format!("file,type,start,end,scored,group,note\na.mov,cut,1,1,1,main,\n{row}\n");
        let error = known_clips(&table).expect_err(row);
        assert_eq!(error, InspectError::TruthRow { line: 3, problem });
    }
}
