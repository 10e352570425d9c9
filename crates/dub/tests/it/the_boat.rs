//! The first two versions of the example, as its story tells them, in the tape version.

use std::collections::BTreeMap;

use onestrand_dub::{Mark, Placed, Shows};

/// Roll, in, out.
const V1: &[(&str, u32, u32)] = &[
    ("R3", 3075, 3255),
    ("R1", 402, 546),
    ("R1", 1068, 1176),
    ("R1", 2623, 2749),
    ("R1", 1590, 1662),
    ("R1", 2813, 2939),
    ("R2", 547, 607),
    ("R1", 2996, 3122),
    ("R1", 1822, 1867),
    ("R2", 1280, 1496),
    ("R2", 2075, 2147),
    ("R2", 1532, 1640),
    ("R2", 2432, 2486),
    ("R2", 2621, 2765),
    ("R2", 3170, 3242),
    ("R2", 2801, 2909),
    ("R3", 57, 219),
    ("R3", 930, 1110),
    ("R3", 1830, 1884),
    ("R3", 1503, 1575),
    ("R3", 1218, 1362),
    ("R3", 2505, 2775),
    ("R3", 3279, 3360),
];

/// Where takes begin.
const TAKES: &[(&str, &[u32])] = &[
    (
        "R1",
        &[24, 390, 762, 1050, 1352, 1568, 1801, 1945, 2611, 3313],
    ),
    (
        "R2",
        &[
            18, 290, 470, 668, 1244, 1856, 2054, 2270, 2405, 2558, 2990, 3152, 3332,
        ],
    ),
    (
        "R3",
        &[21, 327, 885, 1479, 1677, 1803, 1947, 2469, 3063, 3267],
    ),
];

/// Marks on rolls.
const MARKS: &[(&str, u32, &str)] = &[
    ("R2", 2441, "bell stroke"),
    ("R2", 2459, "bell stroke"),
    ("R2", 2478, "bell stroke"),
    ("R2", 2311, "bell stroke"),
    ("R2", 2330, "bell stroke"),
    ("R2", 2349, "bell stroke"),
    ("R2", 2833, "lever"),
    ("R3", 1846, "loaf rustle"),
];

pub(crate) fn version(spans: &[(&str, u32, u32)]) -> Placed {
    let pieces = spans.iter().map(|(roll, first, out)| {
        let roll = (*roll).to_owned();
        let first = *first;
        (out - first, Some(Shows { roll, first }))
    });
    let takes: BTreeMap<String, Vec<u32>> = TAKES
        .iter()
        .map(|(roll, starts)| ((*roll).to_owned(), starts.to_vec()))
        .collect();
    Placed::new(pieces, takes)
}

pub(crate) fn v1() -> Placed {
    version(V1)
}

/// Lift 9; the bell from the other take; 19 and 20 change places; 22 is shorter.
pub(crate) fn v2() -> Placed {
    let mut spans = V1.to_vec();
    spans[12] = ("R2", 2300, 2372);
    spans.swap(18, 19);
    spans[21].2 = 2730;
    spans.remove(8);
    version(&spans)
}

pub(crate) fn marks() -> Vec<Mark> {
    MARKS
        .iter()
        .map(|(roll, frame, words)| Mark {
            roll: (*roll).to_owned(),
            frame: *frame,
            words: (*words).to_owned(),
        })
        .collect()
}

#[test]
fn the_versions_are_those_of_the_story() {
    assert_eq!(v1().frames(), 2724);
    let starts: Vec<i64> = v2().pieces().iter().map(|piece| piece.at).collect();
    let told = [
        0, 180, 324, 432, 558, 630, 756, 816, 942, 1158, 1230, 1338, 1410, 1554, 1626, 1734, 1896,
        2076, 2148, 2202, 2346, 2571,
    ];
    assert_eq!(starts, told);
    assert_eq!(v2().frames(), 2652);
}
