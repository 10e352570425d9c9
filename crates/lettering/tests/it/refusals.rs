//! What cannot be lettered is refused, with the next step.

use onestrand_lettering::{CardAsked, Design, LetteringError, set};

use crate::SUPER_8;

fn refused(asked: &CardAsked) -> LetteringError {
    set(asked).expect_err("it cannot be set")
}

fn asked(words: &str) -> CardAsked {
    CardAsked::new(words, Design::Plain, SUPER_8)
}

#[test]
fn no_words() {
    for words in ["", "  \n\t\n ", "\u{feff}\r\n"] {
        assert_eq!(refused(&asked(words)), LetteringError::NoWords);
    }
}

#[test]
fn a_word_wider_than_the_field_says_what_size_fits_and_it_does() {
    let words = "the Donaudampfschifffahrtsgesellschaftskapitänswitwe sails";
    for design in Design::ALL {
        let asked = CardAsked {
            letter_height: Some(0.2),
            ..CardAsked::new(words, design, SUPER_8)
        };
        let LetteringError::WordTooWide { word, fits, .. } = refused(&asked) else {
            panic!("the word is too wide");
        };
        assert!(word.starts_with("Donau"));
        let smaller = CardAsked {
            letter_height: Some(fits),
            ..asked
        };
        set(&smaller).unwrap_or_else(|error| panic!("{design} at {fits}: {error}"));
    }
}

#[test]
fn four_hundred_words_are_offered_cards_and_a_crawl_and_both_do() {
    let words: Vec<String> = (0..400).map(|n| format!("word{}", n % 17)).collect();
    for design in Design::ALL {
        let asked = CardAsked::new(words.join(" "), design, SUPER_8);
        let error = refused(&asked);
        let LetteringError::TooManyWords {
            words: count,
            cards,
            ..
        } = error
        else {
            panic!("too many words: {error}");
        };
        assert_eq!(count, 400);
        assert!(error.hint().contains("crawl") && error.hint().contains(&cards.to_string()));
        for part in words.chunks(400_usize.div_ceil(cards + 1)) {
            let part = CardAsked::new(part.join(" "), design, SUPER_8);
            set(&part).unwrap_or_else(|error| panic!("{design}, {cards} cards: {error}"));
        }
        let crawl = CardAsked {
            crawl: true,
            ..asked
        };
        assert!(set(&crawl).expect("a crawl").full_height() > 1.5);
    }
}

#[test]
fn characters_that_no_typeface_has_are_named_never_drawn_as_boxes() {
    for (words, shown, script) in [
        ("नाव", "ना व", "Devanagari"),
        ("十時過ぎの船", "十 時 過 ぎ の 船", "Han"),
        ("a boat \u{1f6a2}", "\u{1f6a2}", "signs and pictures"),
    ] {
        for design in Design::ALL {
            let error = refused(&CardAsked::new(words, design, SUPER_8));
            let LetteringError::MissingCharacters {
                characters,
                scripts,
                ..
            } = &error
            else {
                panic!("{design}: {error}");
            };
            assert_eq!(characters, shown);
            assert!(scripts.contains(script), "{scripts}");
            assert!(error.hint().contains("bring a font file"));
        }
    }
}

#[test]
fn every_design_has_the_letters_of_latin_europe_greek_cyrillic_hebrew_and_arabic() {
    let words = "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞß àáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿ ĀĂĄĆČĎĐĒĖĘĚĞĢĪĮİıĶĹĻĽŁŃŅŇŌŐŒŔŘŚŞŠŤŪŮŰŲŴŶŸŹŻŽȘȚ āăąćčďđēėęěğģīįķĺļľłńņňōőœŕřśşšťūůűųŵŷźżžșț –—‘’“”„…«»\nαβγδέήίόύώΑΒΓΔΏ абвгдежзийАБВЖЩЭЮЯ אבגדהוזחטיכלמנסעפצקרשת ابتثجحخدذرزسشصضطظعغفقكلمنهوي";
    for design in Design::ALL {
        let asked = CardAsked {
            crawl: true,
            letter_height: Some(0.02),
            ..CardAsked::new(words, design, SUPER_8)
        };
        set(&asked).unwrap_or_else(|error| panic!("{design}: {error}"));
    }
}

#[test]
fn a_font_file_that_is_none() {
    for bytes in [
        &b""[..],
        b"OTTO",
        b"this is text",
        &[0, 1, 0, 0, 0, 200, 0, 0],
    ] {
        let own = CardAsked {
            face: Some(bytes.to_vec()),
            ..asked("Boat")
        };
        let error = refused(&own);
        assert_eq!(error, LetteringError::NoFont);
        assert!(error.hint().contains(".ttf"));
    }
}

#[test]
fn a_font_of_the_user_s_own_is_used() {
    let bitter = include_bytes!("../../../../fonts/Bitter-Bold.ttf");
    let own = CardAsked {
        face: Some(bitter.to_vec()),
        ..asked("Boat")
    };
    let ours = set(&asked("Boat")).expect("set").draw(160, 120, 0.0);
    let theirs = set(&own).expect("set").draw(160, 120, 0.0);
    assert_ne!(ours.letters(), theirs.letters());
}

#[test]
fn absurd_measures() {
    let plain = asked("Boat");
    for absurd in [
        CardAsked {
            aspect_mm: (0.0, 4.0),
            ..plain.clone()
        },
        CardAsked {
            aspect_mm: (f64::NAN, 4.0),
            ..plain.clone()
        },
        CardAsked {
            aspect_mm: (100.0, 1.0),
            ..plain.clone()
        },
        CardAsked {
            safe: 1.4,
            ..plain.clone()
        },
        CardAsked {
            letter_height: Some(7.0),
            ..plain.clone()
        },
        CardAsked {
            letter_height: Some(f64::INFINITY),
            ..plain.clone()
        },
    ] {
        assert!(matches!(
            refused(&absurd),
            LetteringError::OutOfRange { .. }
        ));
    }
    let endless = CardAsked {
        crawl: true,
        ..asked(&"boat ".repeat(20_000))
    };
    assert!(matches!(
        refused(&endless),
        LetteringError::TextTooLong { .. }
    ));
}

#[test]
fn no_design_of_that_name() {
    let error = "brusque".parse::<Design>().expect_err("there is none");
    assert!(error.hint().contains("cut-paper"));
    for design in Design::ALL {
        assert_eq!(design.word().parse::<Design>(), Ok(design));
    }
}
