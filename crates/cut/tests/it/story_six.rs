//! Story 6: the strand check of the first cut. The figures were computed and
//! cross-checked by a separate script before this program existed.

use onestrand_cut::{
    Certificate, CheckRules, Conflict, ConflictKind, Effect, JoinKind, JoinTable, NoTwins, Pace,
    PieceKind, RemedyKind, Strand, TakeTwins, TrialCut, Twin, TwinBy, Twins, WaysOut, check,
};
use onestrand_film::{Fps, FramePos, FrameRange, Gauge, Span};
use onestrand_twins::{SameMoment, TimeMap};

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

    let by = rules();
    let ways = WaysOut::new(&cement, &strand, &by, &NoTwins).of(refused[0]);
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
    the_twin_of_the_look_back(&strand, &cut, refused[0]);
}

/// The rope and the splash, marked in both takes of setup 3, lead to the twin.
/// Somebody has set two marks in 3-T2 and in its twin.
#[derive(Debug)]
struct Marked {
    to: Span,
    map: TimeMap,
}

impl Twins for Marked {
    fn twins_of(&self, span: &Span) -> Vec<Twin> {
        let there = |frame| self.map.there(frame).and_then(|moment| moment.nearest());
        let ends = there(span.range.begin()).zip(there(span.range.end()));
        let range = ends.and_then(|(begin, end)| FrameRange::new(begin, end).ok());
        let twin = |range| Twin {
            span: Span::new(self.to.roll.clone(), range),
            slate: Some("3-T1".parse().expect("a slate")),
            by: TwinBy::Map,
        };
        range.map(twin).into_iter().collect()
    }
}

fn the_twin_of_the_look_back(strand: &Strand, cut: &TrialCut, conflict: &Conflict) {
    let take = |text: &str| text.parse().expect("a span");
    let frame = |frame| FramePos::new(frame).expect("a frame");
    let mark = |here, there| SameMoment {
        here: frame(here),
        there: frame(there),
    };
    let known = Marked {
        to: take("R1[1945,2611)"),
        map: TimeMap::from_marks(mark(2923, 2251), mark(2971, 2297)).expect("two moments"),
    };
    let twins = TakeTwins::new(strand, &known);
    let by = rules();
    let ways = WaysOut::new(cut, strand, &by, &twins).of(conflict);
    let of_ten = ways.iter().find(|w| w.kind == RemedyKind::Twin);
    let way = of_ten.expect("a twin is offered");
    assert_eq!(
        way.text,
        "put the twin 3-T1 in for 10: R1·2229 to 2257, 29 frames"
    );
    assert_eq!((way.frames, way.mends), (29, true));
    let (mended, _) = cut.apply(&way.change).expect("a position of this cut");
    assert_eq!(mended.pieces()[9].span(), Some(&take("R1[2229,2258)")));
    assert!(check(&mended, strand, &by).is_ok());

    // Shifts come before it, and the note for a laboratory after all.
    let said: Vec<(RemedyKind, &str)> = ways.iter().map(|w| (w.kind, w.text.as_str())).collect();
    assert_eq!(
        said[0],
        (RemedyKind::Shift, "end 6 at R1·2899, 39 frames earlier")
    );
    let lab = "note on 10: laboratory print of R1·2900 to 2929; refused until the print has come";
    assert_eq!(said[said.len() - 1], (RemedyKind::Lab, lab));
    let note = ways.last().expect("the note");
    assert!(!note.mends);
    let (noted, _) = cut.apply(&note.change).expect("a position of this cut");
    assert!(!check(&noted, strand, &by).is_ok());
    // What is noted is not offered once more.
    let again = WaysOut::new(&noted, strand, &by, &twins).of(conflict);
    assert!(again.iter().all(|w| w.kind != RemedyKind::Lab));
}

#[test]
fn an_effect_is_taken_off_or_replaced_or_left_to_a_laboratory() {
    let strand = strand();
    let mut pieces = first_cut(&strand, JoinKind::Cement).pieces().to_vec();
    pieces[7].effect = Some(Effect::Freeze);
    let cut = TrialCut::new(pieces, JoinKind::Cement);
    let by = rules();
    let answer = check(&cut, &strand, &by);
    let twins = TakeTwins::new(&strand, &NoTwins);
    let ways = WaysOut::new(&cut, &strand, &by, &twins).of(&answer.conflicts[0]);
    let said: Vec<&str> = ways.iter().map(|w| w.text.as_str()).collect();
    assert_eq!(
        said,
        [
            "show 8 as it was shot, without the freeze",
            "put the twin 3-T1 in for 8: R1·2330 to 2455, by its setup; \
             look where the action lies; 126 frames",
            "note on 8: laboratory print with freeze of R1·2996 to 3121; \
             refused until the print has come",
        ]
    );
}

#[test]
fn several_conflicts_are_mended_in_one_step() {
    let strand = strand();
    let one = shot_eight_from(&first_cut(&strand, JoinKind::Cement), 2939);
    let by = rules();
    assert_eq!(WaysOut::new(&one, &strand, &by, &NoTwins).all_at_once(), []);
    let mut pieces = one.pieces().to_vec();
    pieces.insert(9, slated(&strand, "R1", 2900, 2930));
    let cut = TrialCut::new(pieces, JoinKind::Cement);
    let before = check(&cut, &strand, &by);
    assert!(before.refused().count() >= 2, "{:?}", before.conflicts);
    let ways = WaysOut::new(&cut, &strand, &by, &NoTwins).all_at_once();
    assert_eq!(ways.len(), 1, "{ways:?}");
    let (mended, _) = cut.apply(&ways[0].change).expect("positions of this cut");
    assert!(check(&mended, &strand, &by).is_ok(), "{}", ways[0].text);
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
