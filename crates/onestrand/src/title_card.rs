//! `title card` and `title cel`, on the command line.

use std::io::Read;
use std::path::Path;

use onestrand_production::documents::TitleCardMadeDocument;
use onestrand_production::{
    ProductionError, TitleCelMade, TitleCelRequest, TitleLetteredRequest, letter_title, title_cel,
};

use crate::answer::Answer;
use crate::arguments::{Paper, TitleCardAsked, TitleCelAsked};
use crate::commands::Outcome;

/// More words than this come from no title. Unit: bytes.
const MOST_BYTES: u64 = 1 << 20;

pub(crate) fn card(given: TitleCardAsked) -> Outcome {
    let made = letter_title(&TitleLetteredRequest {
        words: words_in(&given.words)?,
        words_file: Some(given.words),
        design: given.design,
        gauge: given.gauge,
        out: given.out,
        size: given.size,
        picture: given.picture,
        ground: given.ground,
        font: given.font,
        across: given.across,
        down: given.down,
        letter_height: given.letter_height,
        safe_percent: Some(given.safe),
        black: given.black,
        outline: given.outline,
        shadow: given.shadow,
        plate: given.plate,
    })?;
    Ok(Answer::yes(&made, words(&made)))
}

pub(crate) fn cel(given: TitleCelAsked) -> Outcome {
    let made = title_cel(&TitleCelRequest {
        letters: TitleLetteredRequest {
            words: words_in(&given.words)?,
            words_file: Some(given.words),
            design: given.design,
            gauge: given.gauge,
            out: given.out,
            font: given.font,
            across: given.across,
            down: given.down,
            letter_height: given.letter_height,
            safe_percent: Some(given.safe),
            ..TitleLetteredRequest::default()
        },
        width_mm: given.width,
        gate: given.gate,
        reversed: given.reversed,
        mirrored: given.mirrored,
        letter: given.paper == Paper::Letter,
    })?;
    Ok(Answer::yes(&made, cel_words(&made)))
}

fn cel_words(made: &TitleCelMade) -> String {
    let ([wide, high], [shown_wide, shown_high]) = (made.field_mm, made.shown_mm);
    let pages = match (made.kind, made.pages) {
        ("svg", _) => "a drawing of what is shown".to_owned(),
        (_, 1) => "1 page".to_owned(),
        (_, pages) => format!("{pages} pages"),
    };
    format!(
        "{}: {pages}, true to size\n  field {wide:.1} × {high:.1} mm, shown {shown_wide:.1} × {shown_high:.1} mm\n  capitals {:.1} mm\n  print at 100 %, then measure the square of 100 mm: if it is not, the printer made it fit",
        made.path.display(),
        made.capital_mm
    )
}

/// The words of a text file, or of standard input for `-`.
fn words_in(path: &Path) -> Result<String, ProductionError> {
    let file = |source| ProductionError::File {
        what: "read the words",
        source,
        path: path.to_owned(),
    };
    let mut bytes = Vec::new();
    if path.as_os_str() == "-" {
        let input = std::io::stdin().lock();
        input.take(MOST_BYTES).read_to_end(&mut bytes)
    } else {
        let input = std::fs::File::open(path).map_err(file)?;
        input.take(MOST_BYTES).read_to_end(&mut bytes)
    }
    .map_err(file)?;
    String::from_utf8(bytes).map_err(|_| ProductionError::Unfit {
        message: format!("the words are not text in UTF-8: {}", path.display()),
        hint: "save them as plain text, UTF-8".to_owned(),
    })
}

fn words(made: &TitleCardMadeDocument) -> String {
    let [width, height] = made.size;
    let [wide, high] = made.aperture_mm;
    let percent = |part: f64| format!("{:.1}", part * 100.0);
    let tenths = |tenths: u32| f64::from(tenths) / 10.0;
    let mut text = format!(
        "{}: {width} × {height}, {}, {} words\n",
        made.out, made.design, made.words
    );
    for line in &made.lines {
        text.push_str(&format!("    {line}\n"));
    }
    text.push_str(&format!(
        "  capitals {} %, small letters {} % of the picture's height\n",
        percent(made.capital_height),
        percent(made.x_height),
    ));
    text.push_str(&format!(
        "  for the {wide:.2} × {high:.2} mm that a projector shows of {}\n",
        made.gauge
    ));
    text.push_str(&format!(
        "  letters stand out by {:.1} to 1 at the worst place, {:.1} usually; {:.1} is wanted\n",
        tenths(made.contrast.least_tenths),
        tenths(made.contrast.usual_tenths),
        tenths(made.contrast.asked_tenths),
    ));
    for warning in &made.warnings {
        text.push_str(&format!("  look: {warning}\n"));
    }
    text
}
