//! The cues themselves.

use super::{ExampleColumn, ExampleCue, Hold, Place};

pub(super) static COLUMNS: [ExampleColumn; 5] = [
    column("river", None),
    // A bell far off must get through an engine.
    column("engine", Some(("bell", 40))),
    column("effects", None),
    column("bell", None),
    // Paper rustles softly: the march makes way for it.
    column("music", Some(("effects", 30))),
];

/// What begins at the joins of the first cut: where each piece comes from.
mod piece {
    use super::{Place, join};

    pub(super) const TITLE: Place = join(3, 3075);
    pub(super) const LANDING: Place = join(1, 402);
    pub(super) const IDA_RUNS: Place = join(1, 1068);
    pub(super) const BRAM_WAITS: Place = join(1, 2623);
    pub(super) const IDA_NEARER: Place = join(1, 1590);
    pub(super) const LIFTS_ROPE: Place = join(1, 2813);
    pub(super) const FERRY_LEAVES: Place = join(1, 2996);
    pub(super) const HER_FEET: Place = join(1, 1822);
    pub(super) const TOO_LATE: Place = join(2, 1280);
    pub(super) const TO_THE_BELL: Place = join(2, 1532);
    pub(super) const BRAM_TURNS: Place = join(2, 2621);
    pub(super) const FERRY_BACKS: Place = join(3, 57);
    pub(super) const LOAF_OFFERED: Place = join(3, 930);
    pub(super) const CROSSING: Place = join(3, 2505);
    pub(super) const THE_END: Place = join(3, 3279);
}

/// Where the lever comes home.
const LEVER: Place = frame(2, 2833);

const RIVER: ExampleCue = ExampleCue {
    is_round: true,
    ..of("river", "river")
};
const ENGINE: ExampleCue = ExampleCue {
    is_round: true,
    ..of("engine", "engine")
};
const STEPS: ExampleCue = ExampleCue {
    is_round: true,
    ..of("effects", "steps")
};
const BELL: ExampleCue = ExampleCue {
    is_stroke: true,
    ..of("bell", "bell")
};

pub(super) static CUES: [ExampleCue; 24] = [
    ExampleCue {
        name: "march, first bars",
        start: piece::TITLE,
        // Four bars of 2.4 s.
        to: Some(460_800),
        level: -60,
        fades: (0, 27),
        caption: "[The Ten-Past March begins]",
        note: "under the title",
        ..of("music", "march")
    },
    ExampleCue {
        name: "water, early",
        start: piece::LANDING.later(-36),
        end: Some(piece::TOO_LATE.later(6)),
        level: -90,
        fades: (36, 12),
        note: "comes under the title already",
        ..RIVER
    },
    ExampleCue {
        name: "steps, far",
        start: piece::IDA_RUNS,
        end: Some(piece::BRAM_WAITS),
        level: -110,
        fades: (12, 9),
        caption: "[Running steps]",
        ..STEPS
    },
    ExampleCue {
        name: "steps, nearer",
        start: piece::IDA_NEARER,
        end: Some(piece::LIFTS_ROPE),
        level: -60,
        fades: (4, 9),
        ..STEPS
    },
    ExampleCue {
        name: "splash",
        start: frame(2, 580),
        is_stroke: true,
        caption: "[The rope splashes]",
        ..of("effects", "splash")
    },
    ExampleCue {
        name: "engine, casts off",
        start: piece::FERRY_LEAVES.later(-18),
        end: Some(piece::TO_THE_BELL),
        level: -20,
        line: &[(0, 0), (110, 0), (190, -90), (380, -160)],
        fades: (18, 72),
        caption: "[The ferry's engine]",
        note: "going away",
        ..ENGINE
    },
    ExampleCue {
        name: "steps, her feet",
        start: piece::HER_FEET,
        end: Some(piece::TOO_LATE),
        level: -20,
        fades: (2, 2),
        ..STEPS
    },
    ExampleCue {
        name: "water, the landing",
        start: piece::TOO_LATE.later(-6),
        end: Some(piece::BRAM_TURNS.later(6)),
        level: -60,
        fades: (12, 12),
        ..RIVER
    },
    ExampleCue {
        name: "steps, she pulls up",
        start: piece::TOO_LATE,
        level: -80,
        fades: (2, 18),
        ..of("effects", "steps")
    },
    ExampleCue {
        name: "bell 1",
        start: frame(2, 2441),
        caption: "[The bell: once, twice, three times]",
        ..BELL
    },
    ExampleCue {
        name: "bell 2",
        start: frame(2, 2459),
        level: -10,
        ..BELL
    },
    ExampleCue {
        name: "bell 3",
        start: frame(2, 2478),
        ..BELL
    },
    ExampleCue {
        name: "water, midstream",
        start: piece::BRAM_TURNS.later(-6),
        end: Some(piece::FERRY_BACKS.later(24)),
        level: -90,
        fades: (12, 36),
        ..RIVER
    },
    ExampleCue {
        name: "engine, on board",
        start: piece::BRAM_TURNS,
        end: Some(LEVER.later(6)),
        level: -90,
        fades: (6, 12),
        ..ENGINE
    },
    ExampleCue {
        name: "bell, far off",
        start: piece::BRAM_TURNS.later(12),
        level: -160,
        caption: "[The bell, far off]",
        note: "as he hears it",
        ..of("bell", "bell-three")
    },
    ExampleCue {
        name: "lever",
        start: LEVER,
        level: 20,
        is_stroke: true,
        ..of("effects", "lever")
    },
    ExampleCue {
        name: "engine, backs",
        start: LEVER.later(9),
        end: Some(piece::FERRY_BACKS.later(18)),
        level: -30,
        fades: (12, 36),
        note: "harder than before",
        ..ENGINE
    },
    ExampleCue {
        name: "march",
        start: piece::FERRY_BACKS,
        level: -45,
        fades: (18, 0),
        note: "rings into the end",
        ..of("music", "march")
    },
    ExampleCue {
        name: "water, under the march",
        start: piece::FERRY_BACKS,
        end: Some(piece::CROSSING.later(18)),
        level: -140,
        fades: (24, 36),
        ..RIVER
    },
    ExampleCue {
        name: "engine, comes in",
        start: piece::FERRY_BACKS,
        end: Some(piece::LOAF_OFFERED.later(18)),
        level: -140,
        fades: (18, 54),
        ..ENGINE
    },
    ExampleCue {
        name: "rustle",
        start: frame(3, 1846),
        level: -30,
        caption: "[Paper rustles]",
        ..of("effects", "rustle")
    },
    ExampleCue {
        name: "foot",
        start: frame(3, 1300),
        level: -30,
        is_stroke: true,
        ..of("effects", "foot")
    },
    ExampleCue {
        name: "water, the crossing",
        start: piece::CROSSING.later(-18),
        end: Some(piece::THE_END.later(45)),
        level: -100,
        fades: (36, 63),
        ..RIVER
    },
    ExampleCue {
        name: "engine, the crossing",
        start: piece::CROSSING.later(-9),
        end: Some(piece::THE_END.later(18)),
        level: -140,
        fades: (36, 54),
        ..ENGINE
    },
];

impl Place {
    const fn later(self, frames: i32) -> Self {
        Self {
            later: self.later + frames,
            ..self
        }
    }
}

const fn column(name: &'static str, ducked: Option<(&'static str, u32)>) -> ExampleColumn {
    ExampleColumn { name, ducked }
}

const fn frame(roll: u8, frame: u32) -> Place {
    let hold = Hold::Frame { roll, frame };
    Place { hold, later: 0 }
}

const fn join(roll: u8, frame: u32) -> Place {
    let hold = Hold::Join { roll, frame };
    Place { hold, later: 0 }
}

/// A cue with nothing said but what it plays and where it stands.
const fn of(column: &'static str, sound: &'static str) -> ExampleCue {
    ExampleCue {
        column,
        sound,
        name: sound,
        start: frame(1, 0),
        end: None,
        to: None,
        level: 0,
        line: &[],
        fades: (0, 0),
        is_round: false,
        is_stroke: false,
        caption: "",
        note: "",
    }
}
