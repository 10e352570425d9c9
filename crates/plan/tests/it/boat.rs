//! "The Ten-Past Boat": its script as a table, and its camera report.

/// The script. The film of a title is all in its seconds: 180 and 81 frames, and 24 of
/// run-up each.
pub(crate) const SCRIPT: &str = "\
scene,setup,actions,size,move,action,sound,mover,direction,cast,seconds,takes
1,1,1a,long,,the landing,water,,,,19,2
2,2,2a,full,pan,Ida runs,steps,Ida,left to right,Ida,15,2
2,2A,2a,medium,,Ida runs,steps,Ida,left to right,Ida,11,2
2,2B,2a,insert,,the loaf,,Ida,left to right,Ida,7,1
3,3,3a;3b;3c,long,,Bram casts off,chain,Bram,,Bram,36,2
3,3A,3a;3b,medium,,Bram waits,,,,Bram,13,2
3,3B,3b,close,,the rope,splash,,,Bram,10,2
4,4,4a;4b;4c,full,,Ida too late,bell,Ida,,Ida,32,2
4,4A,4b,medium close,,Ida sees,,,,Ida,10,2
4,4B,4c,insert,,the bell,bell,,,Ida,7,2
5,5,5a;5c,medium,,Bram turns,lever,Bram,,Bram,23,1
5,5A,5b,point of view,,what he sees,,,,Ida,9,2
5,5B,5d,long,,the ferry backs,chain,ferry,right to left,,15,2
6,6,6a;6b,full,,loaf and step,steps,Ida,,Ida;Bram,31,2
6,6A,6a,close,,Ida offers,,,,Ida,10,1
6,6B,6a,insert,,the loaf,rustle,,,Ida;Bram,7,2
7,7,7a,long,,the crossing,water,ferry,,,30,2
,M,,,,main title,,,,,11.33,1
,E,,,,end title,,,,,5.83,1
";

/// A roll, its takes by their first frame, and where the last one ends.
type RollTakes = (&'static str, &'static [(&'static str, u32)], u32);

/// Each take ends where the next begins.
const ROLLS: &[RollTakes] = &[
    (
        "R1",
        &[
            ("1-1", 24),
            ("1-2", 390),
            ("2-1", 762),
            ("2-2", 1050),
            ("2A-1", 1352),
            ("2A-2", 1568),
            ("2B-1", 1801),
            ("3-1", 1945),
            ("3-2", 2611),
            ("3A-1", 3313),
        ],
        3572,
    ),
    (
        "R2",
        &[
            ("3A-2", 18),
            ("3B-1", 290),
            ("3B-2", 470),
            ("4-1", 668),
            ("4-2", 1244),
            ("4A-1", 1856),
            ("4A-2", 2054),
            ("4B-1", 2270),
            ("4B-2", 2405),
            ("5-1", 2558),
            ("5A-1", 2990),
            ("5A-2", 3152),
            ("5B-1", 3332),
        ],
        3577,
    ),
    (
        "R3",
        &[
            ("5B-2", 21),
            ("6-1", 327),
            ("6-2", 885),
            ("6A-1", 1479),
            ("6B-1", 1677),
            ("6B-2", 1803),
            ("7-1", 1947),
            ("7-2", 2469),
        ],
        3063,
    ),
];

/// The camera report of the picture takes; the titles are not shot yet.
pub(crate) fn camera_report() -> String {
    let mut text = "roll,slate,take,start,end,mark\n".to_owned();
    for (roll, takes, last) in ROLLS {
        for (at, (slate, start)) in takes.iter().enumerate() {
            let end = takes.get(at + 1).map_or(*last, |next| next.1);
            let (setup, take) = slate.split_once('-').expect("setup and take");
            text.push_str(&format!("{roll},{setup},{take},{start},{end},\n"));
        }
    }
    text
}
