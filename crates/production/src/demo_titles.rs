//! The titles of the example film.

use onestrand_store::Production;

use crate::documents::{
    LetteringWords, LettersDownWord, ShootingWords, TitleGroundWord, TitleGroundWords,
    TitleKindWord, TitleWords,
};
use crate::{ProductionError, TitleChange, TitleChangeKind};

/// Writes the titles of the example, unless there are titles. Gives whether it did.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn write_example_titles(production: &mut Production) -> Result<bool, ProductionError> {
    if !production.titles()?.is_empty() {
        return Ok(false);
    }
    for title in [main_title(), end_title()] {
        let change = TitleChange {
            id: None,
            after: None,
            to: TitleChangeKind::Title {
                title: Box::new(title),
            },
        };
        let (words, act) = change.act(production)?;
        production.act(&words, &act)?;
    }
    Ok(true)
}

/// Twelve words on a cel over a picture of the film: a second of the picture alone, the
/// lettering, and half a second of the picture again.
fn main_title() -> TitleWords {
    TitleWords {
        name: "M".to_owned(),
        kind: TitleKindWord::Main,
        words: "The Ten-Past Boat\na film in Super 8\nfrom the landing".to_owned(),
        lettering: LetteringWords {
            design: "brush".to_owned(),
            down: LettersDownWord::Middle,
            shadow: Some(true),
            ..LetteringWords::default()
        },
        ground: TitleGroundWords {
            kind: TitleGroundWord::Frame,
            frame: "R1·60".to_owned(),
            darker: 20,
            ..TitleGroundWords::default()
        },
        shooting: ShootingWords {
            before: 36,
            after: 18,
            single_frame: true,
            ..ShootingWords::default()
        },
        note: String::new(),
    }
}

/// Two words on black, with time for the last picture to die away.
fn end_title() -> TitleWords {
    TitleWords {
        name: "E".to_owned(),
        kind: TitleKindWord::End,
        words: "The end".to_owned(),
        lettering: LetteringWords {
            design: "brush".to_owned(),
            ..LetteringWords::default()
        },
        ground: TitleGroundWords::default(),
        shooting: ShootingWords {
            before: 18,
            after: 18,
            single_frame: true,
            ..ShootingWords::default()
        },
        note: String::new(),
    }
}
