//! What the titles take of a roll, for the plan of the film.

use onestrand_film::Fps;
use onestrand_plan::{Script, Seconds, Setup};
use onestrand_store::Production;

use super::kept::KeptTitle;
use super::lettered::crawl_high;
use super::reckoned::{Reckoned, Shop};
use super::stand_kept::stand_of;
use crate::ProductionError;

/// Puts what the titles take into the script: a setup named after a title is as long as
/// its sheet with the run-up and shot as often, and a title that no setup is named after
/// is planned for at the end.
pub(crate) fn plan_titles(
    production: &Production,
    script: &mut Script,
) -> Result<(), ProductionError> {
    let stand = stand_of(production)?;
    let shop = Shop::of(production, &stand)?;
    for kept in KeptTitle::all(production)? {
        let title = kept.title;
        let crawled = crawl_high(production, &title, &shop);
        // A stand that cannot be is told among the titles: until it is mended the script
        // is planned as it stands.
        let Ok(reckoned) = Reckoned::of(&title, &shop, crawled) else {
            continue;
        };
        let takes = u16::try_from(title.shooting.takes).unwrap_or(99).max(1);
        let each = reckoned.of_roll.div_ceil(u32::from(takes));
        let known = script
            .setups
            .iter_mut()
            .find(|setup| setup.is_title() && setup.name.eq_ignore_ascii_case(&title.name));
        if let Some(setup) = known {
            setup.seconds = seconds(each, shop.speed);
            setup.takes = takes;
            continue;
        }
        script.setups.push(Setup {
            name: title.name.clone(),
            action: title.words.lines().next().unwrap_or_default().to_owned(),
            size: "title".to_owned(),
            seconds: seconds(each, shop.speed),
            takes,
            ..Setup::default()
        });
    }
    Ok(())
}

/// So many frames as seconds, rounded down to thousandths: rounded up to frames again they
/// are as many.
fn seconds(frames: u32, speed: Fps) -> Seconds {
    let thousandths = u64::from(frames) * 1000 * u64::from(speed.den()) / u64::from(speed.num());
    let text = format!("{}.{:03}", thousandths / 1000, thousandths % 1000);
    text.parse().unwrap_or(Seconds::ZERO)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn frames_come_back_at_every_usual_speed() {
        for speed in ["16", "18", "24", "25", "30000/1001", "50/3"] {
            let speed: Fps = speed.parse().expect("a speed");
            for frames in (0..4000).step_by(7) {
                assert_eq!(seconds(frames, speed).frames_up(speed).count(), frames);
            }
        }
    }
}
