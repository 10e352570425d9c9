//! I4: what the camera puts on film from the lines of a sheet is what was asked.

use onestrand_title::{
    ArtMove, Crawl, DissolveTo, Exposed, Exposing, ExposureAsked, ExposureTimes, LettersBy,
    card_frame, exposure_sheet, replay,
};
use proptest::prelude::*;

fn asked() -> impl Strategy<Value = ExposureAsked> {
    let by = prop_oneof![
        Just(LettersBy::Cel),
        Just(LettersBy::Card),
        Just(LettersBy::SecondExposure)
    ];
    let counts = (0_u32..40, 1_u32..60, 0_u32..40, 0_u32..12, 0_u32..12);
    let ends = (0_u32..30, 0_u32..30, prop::option::of(2_u32..30));
    let place = || (-40.0..40.0_f64, -40.0..40.0_f64);
    let crawl = prop::option::of((place(), (-2.0..2.0_f64, -2.0..2.0_f64)));
    let art = prop::option::of((place(), place(), 0_u32..60, 1_u32..60, 0_u32..20, 0_u32..20));
    let cels = (any::<bool>(), any::<bool>(), 0.0..0.3_f64);
    let times = prop::option::of((0.005..0.1_f64, 0.005..2.0_f64));
    (by, counts, ends, crawl, art, cels, times, any::<bool>()).prop_map(
        |(letters_by, counts, ends, crawl, art, cels, times, running)| ExposureAsked {
            letters_by,
            before: counts.0,
            hold: counts.1,
            after: counts.2,
            letters_in: counts.3,
            letters_out: counts.4,
            fade_in: ends.0,
            fade_out: ends.1,
            dissolve: ends.2.map(|frames| DissolveTo {
                name: "T2".to_owned(),
                frames,
            }),
            crawl: crawl.map(|(from_mm, step_mm)| Crawl { from_mm, step_mm }),
            art_move: art.map(
                |(from_mm, to_mm, first, frames, ease_in, ease_out)| ArtMove {
                    from_mm,
                    to_mm,
                    first,
                    frames,
                    ease_in,
                    ease_out,
                },
            ),
            blank_cel: cels.0,
            second_cel: cels.1.then(|| "plate".to_owned()),
            cel_density: cels.2,
            exposing: if running {
                Exposing::Running
            } else {
                Exposing::Single
            },
            times: times.map(|(running_s, single_s)| ExposureTimes {
                running_s,
                single_s,
            }),
            ..ExposureAsked::plain(1)
        },
    )
}

fn is_same(one: &Exposed, other: &Exposed) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let places = |a: (f64, f64), b: (f64, f64)| near(a.0, b.0) && near(a.1, b.1);
    near(one.ground_light, other.ground_light)
        && near(one.letter_light, other.letter_light)
        && near(one.next_light, other.next_light)
        && places(one.letters_mm, other.letters_mm)
        && places(one.art_mm, other.art_mm)
        && one.lettered == other.lettered
        && one.letters_cover == other.letters_cover
        && one.cels == other.cels
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4_000, max_global_rejects: 400_000, ..ProptestConfig::default() })]
    #[test]
    fn a_sheet_played_back_shows_what_was_asked(asked in asked()) {
        let sheet = exposure_sheet(&asked);
        prop_assume!(sheet.is_ok());
        let sheet = sheet.expect("a sheet");
        let film = replay(&sheet);
        prop_assert_eq!(film.len(), asked.frames() as usize);
        for (frame, on_film) in (0_u32..).zip(&film) {
            let wanted = card_frame(&asked, frame).expect("a frame");
            prop_assert!(is_same(on_film, &wanted), "frame {}: {:?} for {:?}\n{:?}", frame, on_film, wanted, sheet.lines);
        }
        prop_assert!(card_frame(&asked, asked.frames()).is_none());
    }

    /// The lines of a pass follow each other without a hole, and none is empty.
    #[test]
    fn lines_follow_each_other(asked in asked()) {
        let sheet = exposure_sheet(&asked);
        prop_assume!(sheet.is_ok());
        let sheet = sheet.expect("a sheet");
        for pass in 1..=sheet.passes {
            let lines: Vec<_> = sheet.lines.iter().filter(|line| line.pass == pass).collect();
            prop_assert!(lines.iter().all(|line| line.from < line.to && line.to <= sheet.frames));
            prop_assert!(lines.windows(2).all(|two| two[0].to == two[1].from));
        }
    }
}
