//! The list of takes.

use super::Direction::{LeftToRight, Still, Towards};
use super::ShotSize::{Close, Detail, Medium, Title, VeryWide, Wide};
use super::{Direction, ExampleTake, ShotSize, TakeUse};

/// What every take of one setup has in common.
#[derive(Clone, Copy)]
struct Setup(
    &'static str,
    ShotSize,
    &'static str,
    &'static str,
    Direction,
    &'static str,
    &'static str,
);

const fn take(setup: Setup, roll: u8, take: u8, span: (u32, u32)) -> ExampleTake {
    ExampleTake {
        roll,
        slate: setup.0,
        take,
        span_in: span.0,
        span_out: span.1,
        size: setup.1,
        camera: setup.2,
        mover: setup.3,
        direction: setup.4,
        action: setup.5,
        covers: setup.6,
        chosen: TakeUse::Hold,
        note: "",
    }
}

const fn circled(mut of: ExampleTake) -> ExampleTake {
    of.chosen = TakeUse::Circled;
    of
}

const fn note(mut of: ExampleTake, words: &'static str) -> ExampleTake {
    of.note = words;
    of
}

const fn runs_back(mut of: ExampleTake) -> ExampleTake {
    of.direction = Direction::RightToLeft;
    of
}

const S1: Setup = Setup("1", Wide, "still", "", Still, "the landing, early", "1a");
const S2: Setup = Setup(
    "2",
    VeryWide,
    "still",
    "Ida",
    LeftToRight,
    "Ida runs with a loaf",
    "2a",
);
const S2A: Setup = Setup(
    "2A",
    Medium,
    "follows",
    "Ida",
    LeftToRight,
    "Ida runs, nearer",
    "2a",
);
const S2B: Setup = Setup(
    "2B",
    Detail,
    "follows",
    "Ida",
    LeftToRight,
    "her feet",
    "2a",
);
const S3: Setup = Setup(
    "3",
    Wide,
    "still",
    "ferry",
    LeftToRight,
    "Bram waits, lifts the rope, the ferry leaves",
    "3a;3b;3c",
);
const S3A: Setup = Setup(
    "3A",
    Medium,
    "still",
    "",
    Still,
    "Bram waits and lifts the rope",
    "3a;3b",
);
const S3B: Setup = Setup(
    "3B",
    Close,
    "still",
    "",
    Still,
    "the rope comes off the bollard",
    "3b",
);
const S4: Setup = Setup(
    "4",
    VeryWide,
    "still",
    "Ida",
    LeftToRight,
    "Ida comes too late, sees it go, rings the bell",
    "4a;4b;4c",
);
const S4A: Setup = Setup("4A", Close, "still", "", Still, "she sees it go", "4b");
const S4B: Setup = Setup(
    "4B",
    Detail,
    "still",
    "",
    Still,
    "she rings the landing bell",
    "4c",
);
const S5: Setup = Setup(
    "5",
    Medium,
    "still",
    "",
    Still,
    "Bram turns; he pulls the lever",
    "5a;5c",
);
const S5A: Setup = Setup(
    "5A",
    VeryWide,
    "still",
    "",
    Still,
    "what he sees: Ida by the bell",
    "5b",
);
const S5B: Setup = Setup(
    "5B",
    Wide,
    "still",
    "ferry",
    Towards,
    "the ferry backs",
    "5d",
);
const S6: Setup = Setup(
    "6",
    Medium,
    "still",
    "Ida",
    LeftToRight,
    "the loaf offered; she steps aboard",
    "6a;6b",
);
const S6A: Setup = Setup("6A", Close, "still", "", Still, "Bram's face", "6a");
const S6B: Setup = Setup("6B", Detail, "still", "", Still, "hands and loaf", "6a");
const S7: Setup = Setup(
    "7",
    VeryWide,
    "still",
    "ferry",
    LeftToRight,
    "the crossing",
    "7a",
);
const SM: Setup = Setup("M", Title, "still", "", Still, "main title", "");
const SE: Setup = Setup("E", Title, "still", "", Still, "end title", "");

// Start frames: the log of the example film. Each take ends where the next begins.
pub(super) static TAKES: [ExampleTake; 33] = [
    take(S1, 1, 1, (24, 390)),
    note(circled(take(S1, 1, 2, (390, 762))), "first frame over"),
    take(S2, 1, 1, (762, 1050)),
    circled(take(S2, 1, 2, (1050, 1352))),
    note(
        runs_back(take(S2A, 1, 1, (1352, 1568))),
        "she runs the other way",
    ),
    circled(take(S2A, 1, 2, (1568, 1801))),
    circled(take(S2B, 1, 1, (1801, 1945))),
    take(S3, 1, 1, (1945, 2611)),
    note(
        circled(take(S3, 1, 2, (2611, 3313))),
        "rope and splash both good",
    ),
    take(S3A, 1, 1, (3313, 3572)),
    take(S3A, 2, 2, (18, 290)),
    note(take(S3B, 2, 1, (290, 470)), "rope slow"),
    circled(take(S3B, 2, 2, (470, 668))),
    take(S4, 2, 1, (668, 1244)),
    circled(take(S4, 2, 2, (1244, 1856))),
    take(S4A, 2, 1, (1856, 2054)),
    circled(take(S4A, 2, 2, (2054, 2270))),
    take(S4B, 2, 1, (2270, 2405)),
    circled(take(S4B, 2, 2, (2405, 2558))),
    note(circled(take(S5, 2, 1, (2558, 2990))), "one take only"),
    take(S5A, 2, 1, (2990, 3152)),
    circled(take(S5A, 2, 2, (3152, 3332))),
    take(S5B, 2, 1, (3332, 3577)),
    circled(take(S5B, 3, 2, (21, 327))),
    take(S6, 3, 1, (327, 885)),
    circled(take(S6, 3, 2, (885, 1479))),
    circled(take(S6A, 3, 1, (1479, 1677))),
    take(S6B, 3, 1, (1677, 1803)),
    circled(take(S6B, 3, 2, (1803, 1947))),
    take(S7, 3, 1, (1947, 2469)),
    circled(take(S7, 3, 2, (2469, 3063))),
    circled(take(SM, 3, 1, (3063, 3267))),
    circled(take(SE, 3, 1, (3267, 3375))),
];
