//! Where an atmosphere can go round.

use onestrand_hearing::{HearingError, LoopWish, Seam, best_seam};

use super::ear::InTheEar;
use super::{Told, rounded, unheard};
use crate::ProductionError;
use crate::documents::{LoopWords, SeamDocument, SoundWords};

/// How long both ends are heard together when nothing is said. Unit: seconds.
const CROSSED: f64 = 0.5;
/// The most seams that are offered.
const OFFERED: usize = 4;

/// Loops that may be made, the least audible first: the best of each of several lengths, for
/// a longer loop comes again less often and a shorter one may be smoother.
pub(super) fn seams(
    heard: &InTheEar,
    sound: &SoundWords,
    (least, crossed): (Option<f64>, Option<f64>),
    told: &mut Told<'_>,
) -> Result<Vec<SeamDocument>, ProductionError> {
    let ear = heard.heard()?;
    let all = ear.seconds();
    let least = least.unwrap_or_else(|| (all / 4.0).max(1.0));
    let fade = crossed.unwrap_or_else(|| CROSSED.min(least / 2.0));
    // The least that was asked, and what is longer by halves of what is left.
    let room = (all - fade - 0.3 - least).max(0.0);
    let wishes = [0.0, 0.3, 0.6, 0.85].map(|share| least + share * room);
    told.progress
        .begin_in("tries", "looking for the seam", Some(wishes.len() as u64));
    let mut found: Vec<Seam> = Vec::new();
    let mut wrong: Option<HearingError> = None;
    for (done, least) in wishes.into_iter().enumerate() {
        told.at(done as u64)?;
        match best_seam(ear, LoopWish { least, fade }) {
            Ok(seam) if !found.iter().any(|known| near(known, &seam, heard.rate)) => {
                found.push(seam);
            }
            Ok(_) => {}
            Err(why) => wrong = wrong.or(Some(why)),
        }
    }
    if let (true, Some(why)) = (found.is_empty(), wrong) {
        return Err(unheard(&why));
    }
    found.sort_by(|a, b| {
        let heard = a.has_a_beat().cmp(&b.has_a_beat());
        heard.then(worth(a).total_cmp(&worth(b)))
    });
    found.truncate(OFFERED);
    Ok(found
        .iter()
        .map(|seam| document(seam, heard, sound))
        .collect())
}

/// How audible it is: each measure over the limit from which it is heard.
fn worth(seam: &Seam) -> f64 {
    (seam.times_usual / 2.0).max(seam.stands_out_db / 7.0)
}

/// Both ends within a fifth of a second: one and the same to the ear.
fn near(a: &Seam, b: &Seam, rate: u32) -> bool {
    let apart = u64::from(rate / 5);
    a.from.abs_diff(b.from) as u64 <= apart && a.to.abs_diff(b.to) as u64 <= apart
}

fn document(seam: &Seam, heard: &InTheEar, sound: &SoundWords) -> SeamDocument {
    let at = |sample: usize| heard.from + sample as u64;
    let round = LoopWords {
        from: at(seam.from),
        to: at(seam.to),
        crossed: (seam.fade.min(seam.from)) as u64,
    };
    let kept = (round.to - round.from) as f64 / f64::from(heard.rate);
    SeamDocument {
        round,
        seconds: rounded(kept / (f64::from(sound.play) / 1e6), 2),
        times_usual: rounded(seam.times_usual, 2),
        stands_out_db: rounded(seam.stands_out_db, 1),
        off_db: rounded(seam.off_db, 1),
        heard: seam.has_a_beat(),
    }
}
