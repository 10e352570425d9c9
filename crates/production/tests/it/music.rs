//! Music fitted to the picture: the eighth story's numbers, and what becomes of the cut and of
//! the cue.

use std::path::Path;

use onestrand_film::Gauge;
use onestrand_production::documents::{
    AnchorWords, BeatsWords, ColumnWords, CueWords, CutChange, HoldsToWord, MixWords, MusicAsked,
    MusicDocument, PieceForm, PieceWord, SoundFactsWords, SoundWords,
};
use onestrand_production::{
    DubChange, DubChangeKind, FilmChange, NewCut, Production, ProductionError, check_cut,
    column_named, dub_document, music_beside, sound_named,
};

use crate::in_the_hand::{change, film};

const RATE: u32 = 48_000;

/// Shots 17 to 22 of the second version of the story, 19 and 20 swapped, behind 1,734 frames
/// of something else; each out of a take of its own with handles.
const SHOTS: [(u32, u32); 6] = [
    (57, 219),
    (400, 580),
    (800, 872),
    (1100, 1154),
    (1500, 1644),
    (2505, 2775),
];

fn boat(dir: &Path, beats: usize) -> (Production, i64) {
    let mut production = film(dir, Gauge::Super8, &["R1", "R2"]);
    for frame in [300, 700, 1040, 1400, 1800, 2469] {
        let roll = "R2".to_owned();
        change(&mut production, &FilmChange::BreakAt { roll, frame }).expect("a break");
    }
    let new = NewCut {
        cut: "v2".to_owned(),
        ..NewCut::default()
    };
    change(&mut production, &FilmChange::NewCut(new)).expect("a version");
    let before = std::iter::once(shot("R1", (100, 1834)));
    let pieces = before.chain(SHOTS.map(|span| shot("R2", span)));
    for (at, piece) in pieces.enumerate() {
        cut(&mut production, CutChange::Insert { at, piece });
    }
    let mix = Box::new(MixWords {
        speed: "18.36".to_owned(),
        ..MixWords::default()
    });
    dub(&mut production, DubChangeKind::Mix { mix });
    let column = Box::new(ColumnWords {
        name: "music".to_owned(),
        ..ColumnWords::default()
    });
    dub(&mut production, DubChangeKind::Column { column });
    let cue = march(&mut production, beats);
    (production, cue)
}

fn shot(roll: &str, (first, thrown): (u32, u32)) -> PieceForm {
    PieceForm {
        kind: PieceWord::Shot,
        roll: Some(roll.to_owned()),
        first: Some(first),
        thrown: Some(thrown),
        frames: None,
        title: None,
        slate: None,
        join: None,
        effect: None,
        note: String::new(),
    }
}

fn cut(production: &mut Production, cut_change: CutChange) {
    let cut = "v2".to_owned();
    change(production, &FilmChange::ChangeCut { cut, cut_change }).expect("cut");
}

fn dub(production: &mut Production, to: DubChangeKind) {
    let asked = DubChange {
        id: None,
        after: None,
        to,
    };
    change(production, &FilmChange::Dub(Box::new(asked))).expect("kept");
}

/// A march at 100 beats a minute, from the join before the first shot on.
fn march(production: &mut Production, beats: usize) -> i64 {
    let folder = production.dir().join("sounds");
    std::fs::create_dir_all(&folder).expect("a folder");
    // Nobody listens here: what was heard is kept already.
    std::fs::write(folder.join("march.wav"), b"").expect("a file");
    let beat = u64::from(RATE) * 60 / 100;
    let sound = Box::new(SoundWords {
        name: "march".to_owned(),
        number: String::new(),
        kept: "march.wav".to_owned(),
        facts: SoundFactsWords {
            rate: RATE,
            channels_found: 1,
            channels: 1,
            samples: beat * beats.max(4) as u64,
            ..SoundFactsWords::default()
        },
        play: 1_000_000,
        first_sound: 0,
        round: None,
        beats: Some(BeatsWords {
            at: (0..beats as u64).map(|nth| nth * beat).collect(),
            in_a_bar: 4,
            first_bar: 0,
            tempo: 100_000,
        }),
        rights: onestrand_production::documents::RightsWords::default(),
        note: String::new(),
    });
    dub(production, DubChangeKind::Sound { sound });
    let cue = Box::new(CueWords {
        name: "march".to_owned(),
        column: column_named(production, None).expect("there"),
        sound: Some(sound_named(production, "march").expect("there")),
        start: AnchorWords {
            to: HoldsToWord::Join,
            roll: "R2".to_owned(),
            frame: 57,
            offset: 0,
        },
        ..CueWords::default()
    });
    dub(production, DubChangeKind::Cue { cue });
    dub_document(production, "v2").expect("a dub").cues[0].id
}

fn beside(
    production: &Production,
    cue: i64,
    wanted: Option<u32>,
) -> Result<MusicDocument, ProductionError> {
    let asked = MusicAsked {
        cue,
        wanted,
        ..MusicAsked::default()
    };
    music_beside(production, "v2", &asked)
}

fn two<T: std::fmt::Display + Copy>(value: T) -> String
where
    f64: From<T>,
{
    format!("{:.2}", f64::from(value))
}

#[test]
fn the_march_of_the_story_ends_with_its_bar_by_one_step_that_can_be_taken_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let (mut production, cue) = boat(dir.path(), 84);
    // The maker wants 54 frames off the last shot.
    let found = beside(&production, cue, Some(828)).expect("beside");
    assert_eq!((found.from, found.to, found.at), (2, 7, 1734));
    assert_eq!(format!("{:.3}", found.frames_a_beat), "11.016");
    assert_eq!(format!("{:.1}", found.frames_a_beat_nominal), "10.8");
    assert_eq!((found.frames, two(found.beats)), (882, "80.07".to_owned()));
    assert_eq!(two(found.wanted_beats), "75.16");
    let end = found.end.as_ref().expect("a bar closes there");
    assert_eq!((end.frames, end.moved, end.bar), (837, -45, 19));
    assert_eq!(two(end.beats), "75.98");
    assert_eq!(format!("{:.1}", end.off), "-0.2");
    assert_eq!(two(end.off_seconds), "-0.01");
    let proposal = end.proposal.as_ref().expect("a change");
    assert!(proposal.refused.is_empty());
    assert!(matches!(proposal.change, CutChange::Replace { at: 6, .. }));
    // Nothing was done by asking.
    assert_eq!(beside(&production, cue, Some(828)).expect("beside"), found);

    cut(&mut production, proposal.change.clone());
    let then = beside(&production, cue, None).expect("beside");
    assert_eq!(then.frames, 837);
    let end = then.end.as_ref().expect("it ends there");
    assert_eq!((end.moved, end.proposal.as_ref()), (0, None));
    let inner: Vec<String> = then.joins.iter().map(|join| two(join.beats)).collect();
    assert_eq!(inner, ["14.71", "31.05", "37.58", "42.48", "55.56"]);
    let plan = then.inner.as_ref().expect("joins off their beats");
    let by: Vec<i64> = plan.joins.iter().map(|join| join.by).collect();
    assert_eq!(by, [3, 0, 5, -5, 5]);
    assert_eq!((plan.moved, plan.off_beat), (18, 0));
    assert!(plan.proposal.refused.is_empty());

    cut(&mut production, plan.proposal.change.clone());
    let last = beside(&production, cue, None).expect("beside");
    assert_eq!((last.frames, last.inner.as_ref()), (837, None));
    assert!(last.joins.iter().all(|join| join.off.abs() <= 0.55));
    assert!(check_cut(&production, "v2", None).expect("checked").ok);
    // One step back for the joins, one for the end.
    production.undo().expect("undone");
    assert_eq!(beside(&production, cue, None).expect("beside"), then);
    production.undo().expect("undone");
    assert_eq!(beside(&production, cue, Some(828)).expect("beside"), found);
}

#[test]
fn an_end_goes_no_further_than_its_take_and_what_else_is_made_of_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let (mut production, cue) = boat(dir.path(), 84);
    let found = beside(&production, cue, None).expect("beside");
    // The roll's own break at 3,000 ends the take: 225 frames are behind the last shot.
    assert_eq!((found.shortest, found.longest), (612 + 6, 882 + 225));
    // Another shot of the same take takes most of that away, and cement one frame more.
    let piece = PieceForm {
        join: Some("cement".to_owned()),
        ..shot("R2", (2505, 2775))
    };
    cut(&mut production, CutChange::Replace { at: 6, piece });
    let piece = shot("R2", (2790, 2900));
    cut(&mut production, CutChange::Insert { at: 7, piece });
    let asked = MusicAsked {
        cue,
        to: Some(7),
        ..MusicAsked::default()
    };
    let found = music_beside(&production, "v2", &asked).expect("beside");
    assert_eq!((found.shortest, found.longest), (612 + 8, 882 + 14));
    // 80 beats are 881.28 frames: the nearest bar is the twentieth, a frame away.
    let end = found.end.expect("a bar");
    assert_eq!((end.bar, end.frames, end.moved), (20, 881, -1));
    // One piece that may hardly change holds no bar, and says between which lengths.
    let asked = MusicAsked {
        cue,
        from: Some(8),
        to: Some(8),
        wanted: Some(100),
    };
    let found = music_beside(&production, "v2", &asked).expect("beside");
    let places = found.beat_places.iter().filter(|one| one.bar.is_some());
    assert!(places.count() >= 2, "{found:?}");
    assert!((found.frames, found.inner) == (110, None));
}

#[test]
fn bars_are_lifted_and_the_beat_goes_on() {
    let dir = tempfile::tempdir().expect("a folder");
    let (mut production, cue) = boat(dir.path(), 84);
    // Twenty-one bars are 925.3 frames, the picture has 882: a bar is too much.
    let found = beside(&production, cue, None).expect("beside");
    let lift = found.lift.expect("a bar too much");
    assert_eq!((lift.from, lift.bars, lift.of), (13, 1, 21));
    // 80 beats are 881.28 frames.
    assert_eq!(two(lift.off), "-0.72");
    let cues = lift.cues.clone();
    dub(&mut production, DubChangeKind::Cues { cues });
    let laid = dub_document(&production, "v2").expect("a dub");
    let [opening, ending] = &laid.cues[..] else {
        panic!("{:?}", laid.cues);
    };
    // Bar 13 begins with beat 48, which is frame 528.77 behind the join at 1,734.
    assert_eq!((opening.at, opening.frames), (1734, 528));
    assert_eq!((ending.at, ending.frames), (1734 + 527, 355));
    assert_eq!(opening.at + i64::from(opening.frames), ending.at + 1);
    assert!(ending.cue.name.ends_with("from bar 14"), "{ending:?}");
    // Beat 52 of the music comes where beat 48 would have come.
    let samples_a_frame = f64::from(RATE) / 18.36;
    let beat = f64::from(RATE) * 0.6;
    let comes = ending.at as f64 + (52.0 * beat - ending.cue.from as f64) / samples_a_frame;
    assert!((comes - (1734.0 + 48.0 * 11.016)).abs() < 1e-3, "{comes}");
    // And the music ends with the picture, to a frame.
    let end = ending.at + i64::from(ending.frames);
    assert!((end - (1734 + 882)).abs() <= 1, "{end}");
    production.undo().expect("undone");
    assert_eq!(
        dub_document(&production, "v2").expect("a dub").cues.len(),
        1
    );
}

#[test]
fn what_has_no_beat_is_told_what_to_do() {
    let dir = tempfile::tempdir().expect("a folder");
    let (production, cue) = boat(dir.path(), 0);
    let refused = beside(&production, cue, None).expect_err("no beat");
    assert!(refused.hint().contains("listen for its beat"), "{refused}");
    assert!(beside(&production, cue + 9, None).is_err());
    let asked = MusicAsked {
        cue,
        from: Some(4),
        to: Some(99),
        wanted: None,
    };
    let refused = music_beside(&production, "v2", &asked).expect_err("no such pieces");
    assert!(!refused.hint().is_empty());
}
