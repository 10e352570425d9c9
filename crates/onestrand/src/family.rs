//! The commands about family reels: cameras, order, copies.

use onestrand_production::documents::{CopiesDocument, FamilyDocument, FamilyShot};
use onestrand_production::{self as acts, Cancel, CopiesAsked, FamilyMemory, FamilyReels};

use crate::answer::Answer;
use crate::arguments::Family;
use crate::bar::Bar;
use crate::commands::Outcome;

pub(crate) fn family(given: &Family, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match given {
        Family::Cameras { dir, reels } => {
            let reels = FamilyReels::in_folder(dir)?.only(reels)?;
            let found = look(&reels, cancel, bar)?;
            Ok(Answer {
                is_yes: !found.cameras.is_empty(),
                ..Answer::yes(&found, cameras(&found))
            })
        }
        Family::Order { dir, reels } => {
            let reels = FamilyReels::in_folder(dir)?.only(reels)?;
            let found = look(&reels, cancel, bar)?;
            Ok(Answer {
                is_yes: found.cameras.iter().any(|camera| camera.order.told),
                ..Answer::yes(&found, orders(&found))
            })
        }
        Family::Copies { dir, first, second } => {
            let reels = FamilyReels::in_folder(dir)?;
            let asked = CopiesAsked::of(&reels, first, second)?;
            let found = acts::compare_copies_of(&asked, cancel, bar)?;
            Ok(Answer {
                is_yes: found.sure,
                ..Answer::yes(&found, copies(&found))
            })
        }
    }
}

fn look(
    reels: &FamilyReels,
    cancel: &Cancel,
    bar: &mut Bar,
) -> Result<FamilyDocument, acts::ProductionError> {
    acts::look_at_family(reels, &mut FamilyMemory::default(), cancel, bar)
}

/// A shot by its frames: `R1·402–545`.
fn named(shot: &FamilyShot) -> String {
    let film = if shot.film.is_empty() {
        String::new()
    } else {
        format!("{}/", shot.film)
    };
    format!(
        "{film}{}·{}–{}",
        shot.roll,
        shot.first,
        shot.thrown.saturating_sub(1)
    )
}

/// Letters for cameras, as people name what has no name yet.
fn letter(number: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(number % 26).unwrap_or_default());
    if number < 26 {
        letter.to_string()
    } else {
        format!("{letter}{}", number / 26)
    }
}

fn cameras(found: &FamilyDocument) -> String {
    let mut text = format!("{}\n", found.words);
    for (number, camera) in found.cameras.iter().enumerate() {
        text += &format!("camera {}: {}\n", letter(number), camera.words);
        for &shot in &camera.shots {
            let shot = &found.shots[shot as usize];
            let sure = if shot.sure { "" } else { "perhaps " };
            let stock = shot.stock.map(|stock| format!(", stock {}", stock + 1));
            let share = shot.probability * 100.0;
            text += &format!(
                "  {sure}{} (sure to {share:.0} of 100{})\n",
                named(shot),
                stock.unwrap_or_default()
            );
        }
    }
    for shot in found.shots.iter().filter(|shot| shot.camera.is_none()) {
        text += &format!("not known: {}: {}\n", named(shot), shot.unseen);
    }
    text + &found.hint
}

fn orders(found: &FamilyDocument) -> String {
    let mut text = format!("{}\n", found.words);
    for (number, camera) in found.cameras.iter().enumerate() {
        text += &format!("camera {}: {}\n", letter(number), camera.order.words);
        for (place, strip) in camera.order.strips.iter().enumerate() {
            let shots: Vec<String> = strip
                .iter()
                .map(|&s| named(&found.shots[s as usize]))
                .collect();
            text += &format!("  {}\n", shots.join(", "));
            if let Some(pair) = camera.order.pairs.get(place) {
                text += &format!("    {}\n", pair.words);
            }
        }
    }
    text + &found.hint
}

fn copies(found: &CopiesDocument) -> String {
    let mut text = format!("{}\n", found.words);
    for kinship in &found.kinships {
        text += &format!(
            "  {:3.0} of 100: {}\n",
            kinship.probability * 100.0,
            kinship.words
        );
    }
    for finding in &found.evidence {
        text += &format!("  {}\n", finding.words);
    }
    for unseen in &found.unseen {
        text += &format!("  not looked at: {unseen}\n");
    }
    text
}
