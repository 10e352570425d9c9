//! What makes each design look made: typeface, spacing, and the hand's own ways.

use crate::Design;
use crate::faces::{self, ShippedFace};

/// How a design is lettered. Measures in capitals, if nothing else is said.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Manner {
    pub(crate) face: ShippedFace,
    /// Whether Greek and Cyrillic are to have serifs too.
    pub(crate) serifs: bool,
    /// Space put between letters.
    pub(crate) tracking: f32,
    /// From baseline to baseline.
    pub(crate) leading: f32,
    /// Size beside the usual one of a card with so many words.
    pub(crate) size: f32,
    pub(crate) hand: Hand,
    pub(crate) finish: Finish,
    pub(crate) outline: bool,
    pub(crate) shadow: bool,
    /// A drawn border round the words.
    pub(crate) border: bool,
}

/// How a hand that lays or draws letters strays from the straight.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hand {
    /// A letter turned by up to this. Unit: degrees.
    pub(crate) turn: f32,
    /// A letter above or below the line by up to this.
    pub(crate) rise: f32,
    /// A letter left or right of its place by up to this.
    pub(crate) sway: f32,
    /// A letter larger or smaller by up to this part.
    pub(crate) grow: f32,
    /// Strokes pushed about, more here and less there.
    pub(crate) waver: f32,
    /// How thick a pen goes over the outline.
    pub(crate) swell: f32,
    /// Curves cut straight: the longest chord of a knife; 0 for none.
    pub(crate) knife: f32,
}

impl Hand {
    const MACHINE: Self = Self {
        turn: 0.0,
        rise: 0.0,
        sway: 0.0,
        grow: 0.0,
        waver: 0.0,
        swell: 0.0,
        knife: 0.0,
    };
}

/// What ink, chalk, paper or paint does to a letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Finish {
    /// Even all over.
    Even,
    /// Streaks where the brush runs dry.
    DryBrush,
    /// Ink that pools a little.
    Ink,
    /// Hairline cracks and small flakes lost.
    Flaked,
    /// The tooth of a board.
    Tooth,
    /// Sheets of paper, each with its own shadow.
    Sheets,
    /// A ribbon that gives more here and less there.
    Ribbon,
    /// Edges a little soft from copying.
    Copied,
    /// A shade of fine lines to the lower right.
    Shaded,
    /// Paint from a can, with spray beyond the edge.
    Sprayed,
    /// Ink that did not take everywhere on the wood.
    Salted,
}

/// The manner of a design.
pub(crate) fn of(design: Design) -> Manner {
    let even = Manner {
        face: faces::JOST,
        serifs: false,
        tracking: 0.03,
        leading: 1.75,
        size: 1.0,
        hand: Hand::MACHINE,
        finish: Finish::Even,
        outline: false,
        shadow: false,
        border: false,
    };
    match design {
        Design::Brush | Design::Pen | Design::Chalk => by_hand(design, even),
        Design::Transfer | Design::CutPaper | Design::Stencil => laid(design, even),
        Design::Typewriter | Design::WoodType => printed(design, even),
        Design::Silent => Manner {
            face: faces::MILONGA,
            serifs: true,
            tracking: 0.035,
            leading: 1.8,
            size: 0.9,
            hand: Hand {
                turn: 0.4,
                rise: 0.008,
                waver: 0.012,
                swell: 0.035,
                ..Hand::MACHINE
            },
            finish: Finish::Copied,
            border: true,
            ..even
        },
        Design::Engraved => Manner {
            face: faces::CINZEL,
            serifs: true,
            tracking: 0.12,
            leading: 1.85,
            size: 0.95,
            finish: Finish::Shaded,
            ..even
        },
        Design::Plain => even,
    }
}

/// Drawn letter by letter.
fn by_hand(design: Design, even: Manner) -> Manner {
    match design {
        Design::Brush => Manner {
            face: faces::MERIENDA,
            tracking: 0.02,
            leading: 1.85,
            hand: Hand {
                turn: 1.0,
                rise: 0.02,
                sway: 0.008,
                grow: 0.018,
                waver: 0.03,
                ..Hand::MACHINE
            },
            finish: Finish::DryBrush,
            ..even
        },
        Design::Pen => Manner {
            face: faces::PATRICK_HAND,
            tracking: 0.05,
            leading: 1.75,
            size: 1.05,
            hand: Hand {
                turn: 0.9,
                rise: 0.022,
                sway: 0.01,
                grow: 0.02,
                waver: 0.03,
                swell: 0.055,
                ..Hand::MACHINE
            },
            finish: Finish::Ink,
            ..even
        },
        _ => Manner {
            face: faces::CAVEAT_BRUSH,
            tracking: 0.05,
            leading: 1.7,
            size: 1.1,
            hand: Hand {
                turn: 1.2,
                rise: 0.025,
                sway: 0.01,
                grow: 0.025,
                waver: 0.035,
                swell: 0.02,
                ..Hand::MACHINE
            },
            finish: Finish::Tooth,
            ..even
        },
    }
}

/// Laid down or sprayed, letter by letter.
fn laid(design: Design, even: Manner) -> Manner {
    match design {
        Design::Transfer => Manner {
            face: faces::ARCHIVO,
            tracking: -0.012,
            leading: 1.55,
            hand: Hand {
                turn: 0.35,
                rise: 0.01,
                sway: 0.008,
                ..Hand::MACHINE
            },
            finish: Finish::Flaked,
            ..even
        },
        Design::CutPaper => Manner {
            face: faces::GRANDSTANDER,
            tracking: 0.045,
            leading: 1.7,
            size: 1.1,
            hand: Hand {
                turn: 4.0,
                rise: 0.045,
                sway: 0.015,
                grow: 0.05,
                waver: 0.02,
                swell: 0.0,
                knife: 0.2,
            },
            finish: Finish::Sheets,
            ..even
        },
        _ => Manner {
            face: faces::SAIRA_STENCIL,
            tracking: 0.07,
            leading: 1.6,
            hand: Hand {
                turn: 0.5,
                rise: 0.012,
                sway: 0.015,
                ..Hand::MACHINE
            },
            finish: Finish::Sprayed,
            ..even
        },
    }
}

/// Struck or printed from metal and wood.
fn printed(design: Design, even: Manner) -> Manner {
    match design {
        Design::Typewriter => Manner {
            face: faces::COURIER_PRIME,
            serifs: true,
            tracking: 0.0,
            leading: 2.0,
            size: 0.72,
            hand: Hand {
                turn: 0.5,
                rise: 0.025,
                sway: 0.012,
                swell: 0.015,
                ..Hand::MACHINE
            },
            finish: Finish::Ribbon,
            ..even
        },
        _ => Manner {
            face: faces::ALFA_SLAB,
            serifs: true,
            tracking: 0.02,
            leading: 1.55,
            size: 1.1,
            hand: Hand {
                turn: 0.25,
                rise: 0.008,
                ..Hand::MACHINE
            },
            finish: Finish::Salted,
            ..even
        },
    }
}
