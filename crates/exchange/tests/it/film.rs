//! Films and versions that the tests send out and bring in.

use onestrand_cut::{Effect, JoinKind, Piece, PieceKind, TrialCut};
use onestrand_exchange::{Film, FrameNote, PictureRun, RollOnFile, ScanFile, Version};
use onestrand_film::{Fps, FrameName, FramePos, FrameRange, Frames, Gauge, RollId, Span};

pub(crate) fn roll(name: &str) -> RollId {
    RollId::new(name).expect("a good name")
}

pub(crate) fn frames(count: u32) -> Frames {
    Frames::new(count).expect("in range")
}

pub(crate) fn span(name: &str, begin: u32, end: u32) -> Span {
    let range = FrameRange::of(begin, end).expect("not reversed");
    Span::new(roll(name), range)
}

pub(crate) fn scan(name: &str, rate: &str, frame_for_frame: bool) -> ScanFile {
    ScanFile {
        name: name.to_owned(),
        pictures: 1,
        run: None,
        rate: Some(rate.parse().expect("a rate")),
        frame_for_frame,
    }
}

/// Four rolls: one scanned frame for frame, one whose file repeats frames, one
/// whose file has its own rate, one on paper only.
pub(crate) fn boat(speed: &str) -> Film {
    let one = |name: &str, scans| RollOnFile {
        roll: roll(name),
        frames: frames(3600),
        scans,
    };
    Film {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: speed.parse::<Fps>().expect("a speed"),
        rolls: vec![
            one("R1", vec![scan("R1 the quay.mkv", speed, true)]),
            one("R2", vec![scan("R2.mov", "25", false)]),
            one("R3", vec![scan("R3.mkv", "25", true)]),
            one("R4", Vec::new()),
        ],
    }
}

/// The same with a fifth roll, scanned picture by picture.
pub(crate) fn with_pictures(speed: &str) -> Film {
    let mut film = boat(speed);
    let mut scan = scan("R5 0101.dpx", "25", true);
    scan.pictures = 3600;
    scan.run = Some(PictureRun {
        folder: "fifth roll".to_owned(),
        prefix: "R5 ".to_owned(),
        suffix: ".dpx".to_owned(),
        first: 101,
        digits: 4,
    });
    film.rolls.push(RollOnFile {
        roll: roll("R5"),
        frames: frames(3600),
        scans: vec![scan],
    });
    film
}

/// One of everything, and frames of the roll of pictures behind it.
pub(crate) fn one_of_each_and_pictures() -> Version {
    let mut version = one_of_each();
    let mut pieces = version.cut.pieces().to_vec();
    pieces.push(Piece::shot(span("R5", 40, 76)));
    version.cut = TrialCut::new(pieces, JoinKind::Cement);
    version
}

pub(crate) fn note(name: &str, frame: u32, words: &str, writer: &str) -> FrameNote {
    FrameNote {
        frame: FrameName {
            roll: roll(name),
            frame: FramePos::new(frame).expect("in range"),
        },
        words: words.to_owned(),
        writer: writer.to_owned(),
    }
}

/// A version with one of everything.
pub(crate) fn one_of_each() -> Version {
    let shot = |name, begin, end| Piece::shot(span(name, begin, end));
    let leader = Piece {
        note: "count in".to_owned(),
        join: Some(JoinKind::Weld),
        ..Piece::leader(frames(36))
    };
    let landing = Piece {
        slate: Some("1-T2".parse().expect("a slate")),
        note: "Ida: “wait!”\nthen the bell; 5 % darker ⛴".to_owned(),
        ..shot("R1", 402, 546)
    };
    let card = Piece {
        kind: PieceKind::Card {
            frames: frames(126),
            title: "Where the \"river\" bends".to_owned(),
        },
        ..Piece::leader(frames(1))
    };
    let with = |effect, piece: Piece| Piece {
        effect: Some(effect),
        ..piece
    };
    let cut = TrialCut::new(
        vec![
            leader,
            landing,
            card,
            with(Effect::Freeze, shot("R1", 1068, 1069)),
            with(Effect::Reverse, shot("R2", 0, 60)),
            with(Effect::Speed, shot("R3", 3540, 3600)),
            with(Effect::Fade, shot("R4", 7, 90)),
            shot("R1", 420, 430),
        ],
        JoinKind::Cement,
    );
    Version {
        name: "v2 “after the school”".to_owned(),
        note: "shown on Friday;\nthe end is too slow".to_owned(),
        cut,
        notes: vec![
            note("R1", 402, "starts late", "Bram"),
            note("R1", 425, "here she looks into the lens", ""),
            note("R2", 59, "keep", "Ida"),
        ],
    }
}
