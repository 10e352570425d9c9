//! Story 6: the strand check of the first cut. The figures were computed and
//! cross-checked by a separate script before this program existed.

use onestrand_cut::{
    Certificate, CheckRules, ConflictKind, JoinKind, JoinTable, Pace, Piece, PieceKind, RemedyKind,
    TrialCut, check, questions, remedies,
};
use onestrand_film::{Fps, FrameRange, Gauge};

use crate::boat::{first_cut, slated, strand};

fn rules() -> CheckRules {
    CheckRules {
        table: JoinTable::usual(Gauge::Super8),
    }
}

fn sums(certificate: &Certificate) -> Vec<(u32, u32, u32)> {
    let sum = |r: &onestrand_cut::RollCount| (r.used.count(), r.eaten.count(), r.left.count());
    certificate.rolls.iter().map(sum).collect()
}

fn shot_eight_from(cut: &TrialCut, begin: u32) -> TrialCut {
    let mut pieces = cut.pieces().to_vec();
    if let PieceKind::Shot(span) = &mut pieces[7].kind {
        span.range = FrameRange::of(begin, 3122).expect("a range");
    }
    TrialCut::new(pieces, cut.usual_join())
}

#[test]
fn the_first_cut_in_cement_eats_twenty_three_frames() {
    let strand = strand();
    let answer = check(&first_cut(&strand, JoinKind::Cement), &strand, &rules());
    assert!(answer.is_ok(), "{:?}", answer.conflicts);
    assert_eq!(answer.conflicts, []);
    assert_eq!(
        (answer.frames.count(), answer.pieces, answer.joins),
        (2724, 23, 24)
    );
    assert_eq!(answer.eaten().count(), 23);
    assert_eq!(
        sums(&answer),
        [(747, 7, 2846), (834, 8, 2758), (1143, 8, 2449)]
    );
}

#[test]
fn tape_eats_nothing() {
    let strand = strand();
    let answer = check(&first_cut(&strand, JoinKind::Tape), &strand, &rules());
    assert!(answer.is_ok());
    assert_eq!(answer.eaten().count(), 0);
}

#[test]
fn shot_eight_at_2939_fails_by_one_frame_in_cement_only() {
    let strand = strand();
    let cement = shot_eight_from(&first_cut(&strand, JoinKind::Cement), 2939);
    let answer = check(&cement, &strand, &rules());
    let refused: Vec<_> = answer.refused().collect();
    assert_eq!(refused.len(), 1, "{refused:?}");
    assert_eq!(refused[0].kind, ConflictKind::Bite);
    assert_eq!(refused[0].span, Some((2939, 2940)));
    assert_eq!(refused[0].frames, 1);
    assert_eq!(refused[0].positions, [6, 7, 8]);

    let ways = remedies(refused[0], &cement, &strand, &rules());
    assert!(
        ways.iter()
            .any(|w| w.kind == RemedyKind::OtherJoin && w.text.contains("6 | 7 with tape"))
    );
    assert!(
        ways.iter()
            .any(|w| w.text == "start 8 at R1·2940, 1 frame later"),
        "{ways:?}"
    );
    for way in &ways {
        let same = ways.iter().filter(|w| w.text == way.text);
        assert_eq!(same.count(), 1, "offered twice: {ways:?}");
    }
    // One way for each end that can give, not the same one by 1, 2 and 3.
    let later = ways.iter().filter(|w| w.text.starts_with("start 8"));
    assert_eq!(later.count(), 1, "{ways:?}");
    for way in &ways {
        let (mended, _) = cement.apply(&way.change).expect("a position of this cut");
        assert!(check(&mended, &strand, &rules()).is_ok(), "{way:?}");
    }

    let tape = shot_eight_from(&first_cut(&strand, JoinKind::Tape), 2939);
    assert!(check(&tape, &strand, &rules()).is_ok());
}

#[test]
fn a_look_back_doubles_thirty_frames() {
    let strand = strand();
    let cut = first_cut(&strand, JoinKind::Tape);
    let mut pieces = cut.pieces().to_vec();
    pieces.insert(9, slated(&strand, "R1", 2900, 2930));
    let cut = TrialCut::new(pieces, JoinKind::Tape);
    let answer = check(&cut, &strand, &rules());
    let refused: Vec<_> = answer.refused().collect();
    assert_eq!(refused.len(), 1);
    assert_eq!(refused[0].kind, ConflictKind::Doubled);
    assert_eq!(
        (refused[0].span, refused[0].frames),
        (Some((2900, 2930)), 30)
    );
    assert_eq!(refused[0].positions, [6, 10]);
}

#[test]
fn lifting_shot_eleven_asks_about_the_jump() {
    let strand = strand();
    let cut = first_cut(&strand, JoinKind::Cement);
    assert_eq!(questions(&cut, Fps::EIGHTEEN), []);
    let mut pieces: Vec<Piece> = cut.pieces().to_vec();
    pieces.remove(10);
    let asked = questions(&TrialCut::new(pieces, JoinKind::Cement), Fps::EIGHTEEN);
    assert_eq!(asked.len(), 1);
    assert_eq!(asked[0].positions, [10, 11]);
    assert!(
        asked[0].text.contains("36 frames (2.0 s)"),
        "{}",
        asked[0].text
    );
}

#[test]
fn the_pace_counts_pictures_only() {
    let strand = strand();
    let cut = first_cut(&strand, JoinKind::Tape);
    let pace = Pace::of(&cut, Fps::EIGHTEEN).expect("there are pictures");
    assert_eq!(pace.pictures, 21);
    assert_eq!(format!("{:.2}", pace.mean_seconds), "6.52");
    assert_eq!(format!("{:.1}", pace.median_seconds), "6.0");
}
