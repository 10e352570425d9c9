//! Draws every design: `every_design OUT_FOLDER WIDTHxHEIGHT [PICTURE] [WORDS]`.
#![expect(clippy::print_stdout, reason = "an example speaks to whoever calls it")]

use std::error::Error;
use std::path::PathBuf;
use std::time::Instant;

use onestrand_lettering::{CardAsked, Design, contrast, ground_of, laid_over, set};

fn main() -> Result<(), Box<dyn Error>> {
    let mut given = std::env::args().skip(1);
    let folder = PathBuf::from(given.next().ok_or("name a folder")?);
    let size = given.next().unwrap_or_else(|| "1440x1080".into());
    let (width, height) = size.split_once('x').ok_or("a size is 1440x1080")?;
    let size: (u32, u32) = (width.parse()?, height.parse()?);
    let picture = given.next().filter(|name| !name.is_empty());
    let words = given
        .next()
        .filter(|words| !words.is_empty())
        .unwrap_or_else(|| "The Ten-Past Boat\n\na film by Rosa Blómgård".into())
        .replace("\\n", "\n");
    let extra: Vec<String> = given.collect();
    let has = |word: &str| extra.iter().any(|given| given == word);
    let ground = match &picture {
        Some(name) => ground_of(&std::fs::read(name)?, size)?.0,
        None => [28_u8, 30, 34].repeat(size.0 as usize * size.1 as usize),
    };
    for design in Design::ALL {
        let mut asked = CardAsked::new(&words, design, (5.31, 4.01));
        asked.plate = has("plate");
        asked.shadow = has("shadow").then_some(true);
        asked.outline = has("outline").then_some(true);
        asked.dark_on_light = has("black");
        let began = Instant::now();
        let card = set(&asked)?;
        let was_set = began.elapsed();
        let layer = card.draw(size.0, size.1, 0.0);
        let drawn = began.elapsed();
        let shown = laid_over(&ground, &layer, 1.0, 1.0);
        let laid = began.elapsed();
        let contrast = contrast(&ground, &layer, size);
        println!(
            "{:12} set {:5.1} ms, drawn {:6.1} ms, laid {:6.1} ms, measured {:6.1} ms, capital {:.3}, contrast {:.1} {:?}",
            design.word(),
            was_set.as_secs_f64() * 1e3,
            (drawn - was_set).as_secs_f64() * 1e3,
            (laid - drawn).as_secs_f64() * 1e3,
            (began.elapsed() - laid).as_secs_f64() * 1e3,
            card.capital_height(),
            contrast.ratio,
            contrast.remedies,
        );
        let out = folder.join(format!("{}.png", design.word()));
        image::save_buffer(out, &shown, size.0, size.1, image::ColorType::Rgb8)?;
    }
    Ok(())
}
