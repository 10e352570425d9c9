//! What is reckoned of a title: its words, how long it stands, how it is exposed, what it
//! takes of a roll.

use onestrand_film::{Fps, Gauge};
use onestrand_store::Production;
use onestrand_title::{
    ArtMove, Crawl, DissolveTo, Exposing, ExposureAsked, ExposureTimes, HOLD_RULES, HoldRule,
    LettersBy, count_words, exposure_sheet, hold,
};

use super::field::Field;
use super::stand_kept::{number, time};
use crate::ProductionError;
use crate::documents::{
    ArtMoveWords, ReadingRuleDocument, ShootingWords, StandWords, TitleProblemDocument, TitleWords,
};

/// The gauge and the speed of a film, and the stand it is titled on.
pub(super) struct Shop<'a> {
    pub(super) gauge: Gauge,
    pub(super) speed: Fps,
    pub(super) stand: &'a StandWords,
    /// Film run before each take, as the plan of the film has it. Unit: frames.
    pub(super) run_up: u32,
}

impl<'a> Shop<'a> {
    pub(super) fn of(
        production: &Production,
        stand: &'a StandWords,
    ) -> Result<Self, ProductionError> {
        let meta = production.meta();
        Ok(Self {
            gauge: meta.gauge,
            speed: meta.speed,
            stand,
            run_up: crate::script::stock_of(production)?.run_up,
        })
    }
}

/// What is reckoned of one title. Lengths in frames.
pub(super) struct Reckoned {
    pub(super) words: usize,
    pub(super) by_rule: u32,
    pub(super) hold: u32,
    pub(super) whole: u32,
    pub(super) of_roll: u32,
    pub(super) asked: ExposureAsked,
    pub(super) problems: Vec<TitleProblemDocument>,
}

impl Reckoned {
    /// `crawl_high` is how tall the lettering of a crawl is, in picture heights, where it
    /// has been set; else it is taken to fill one.
    pub(super) fn of(
        title: &TitleWords,
        shop: &Shop<'_>,
        crawl_high: Option<f64>,
    ) -> Result<Self, ProductionError> {
        let mut problems = Vec::new();
        let words = count_words(&title.words);
        let rule = rule(shop.stand)?;
        let by_rule = match words {
            0 => 0,
            _ => match hold(words, &rule, shop.speed) {
                Ok(stands) => {
                    if stands.is_long && title.shooting.crawl == 0 {
                        problems.push(long(words, stands.seconds));
                    }
                    stands.frames.count()
                }
                Err(error) => {
                    problems.push(refused(&error.to_string(), &error.hint()));
                    0
                }
            },
        };
        if words == 0 {
            problems.push(question(
                "the title has no words yet",
                "write what it says: how long it stands follows from that",
            ));
        }
        let (asked, crawl_frames) = asked(title, shop, by_rule, crawl_high)?;
        let stands = asked.hold;
        if let Some(wanted) = short_of(title, by_rule, stands) {
            problems.push(wanted);
        }
        if let Some(frames) = crawl_frames.filter(|frames| *frames != stands) {
            problems.push(question(
                &format!("the crawl takes {frames} frames to go through, and stands for {stands}"),
                "leave the hold to the crawl, or give it another step",
            ));
        }
        let need = match exposure_sheet(&asked) {
            Ok(sheet) => sheet.need.frames,
            Err(error) => {
                problems.push(refused(&error.to_string(), &error.hint()));
                asked.frames().saturating_mul(asked.spares + 1)
            }
        };
        Ok(Self {
            words,
            by_rule,
            hold: stands,
            whole: asked.frames(),
            of_roll: need,
            asked,
            problems,
        })
    }

    /// A title of which nothing can be reckoned, and why.
    pub(super) fn none(title: &TitleWords, why: &ProductionError) -> Self {
        let hold = title.shooting.hold.unwrap_or(0);
        let asked = ExposureAsked {
            before: title.shooting.before,
            after: title.shooting.after,
            ..ExposureAsked::plain(hold)
        };
        Self {
            words: count_words(&title.words),
            by_rule: 0,
            hold,
            whole: asked.frames(),
            of_roll: asked.frames().saturating_mul(title.shooting.takes.max(1)),
            asked,
            problems: vec![refused(&why.to_string(), &why.hint())],
        }
    }
}

fn question(what: &str, next: &str) -> TitleProblemDocument {
    TitleProblemDocument {
        what: what.to_owned(),
        next: next.to_owned(),
        refused: false,
    }
}

pub(super) fn refused(what: &str, next: &str) -> TitleProblemDocument {
    TitleProblemDocument {
        refused: true,
        ..question(what, next)
    }
}

fn long(words: usize, seconds: f64) -> TitleProblemDocument {
    question(
        &format!("{words} words stand for {seconds:.1} seconds: longer than a card is watched"),
        "make two cards of it, use fewer words, or let them crawl",
    )
}

/// A hold of the user's own that is shorter than the rule's.
fn short_of(title: &TitleWords, by_rule: u32, stands: u32) -> Option<TitleProblemDocument> {
    let is_short = title.shooting.crawl == 0 && stands < by_rule;
    is_short.then(|| {
        question(
            &format!("it stands for {stands} frames, and reading it takes {by_rule}"),
            "let the rule decide, or use fewer words",
        )
    })
}

/// The reading rule that is chosen.
pub(super) fn rule(stand: &StandWords) -> Result<HoldRule, ProductionError> {
    let named = HOLD_RULES.iter().find(|named| named.code == stand.rule);
    let named = named.map_or_else(HoldRule::default, |named| named.rule);
    if stand.rule != "own" {
        return Ok(named);
    }
    let own = |what, text: &str, else_s| {
        Ok::<f64, ProductionError>(number(what, text)?.unwrap_or(else_s))
    };
    Ok(HoldRule {
        least_s: own("the least a title stands", &stand.least, named.least_s)?,
        first_s: own(
            "the time before the first word",
            &stand.first,
            named.first_s,
        )?,
        per_word_s: own("the time for a word", &stand.per_word, named.per_word_s)?,
    })
}

/// The reading rules there are.
pub(super) fn rules() -> Vec<ReadingRuleDocument> {
    let all = HOLD_RULES.iter().map(|named| ReadingRuleDocument {
        word: named.code.to_owned(),
        says: named.name.to_owned(),
        source: named.source.to_owned(),
    });
    all.collect()
}

/// What is to be exposed, and how many frames a crawl takes to go through.
fn asked(
    title: &TitleWords,
    shop: &Shop<'_>,
    by_rule: u32,
    crawl_high: Option<f64>,
) -> Result<(ExposureAsked, Option<u32>), ProductionError> {
    let shooting = &title.shooting;
    let field = Field::of(shop)?;
    let crawl = match shooting.crawl {
        0 => None,
        step => {
            let high = field.shown_mm.1;
            let text = crawl_high.unwrap_or(1.0) * high;
            Some(Crawl::upwards(text, high, f64::from(step) / 100.0)?)
        }
    };
    let by_crawl = crawl.map(|(_, frames)| frames);
    let usual = by_crawl.unwrap_or(by_rule).max(1);
    let density = number("the density of the cels", &shop.stand.cel_density)?;
    let usual_density = onestrand_title::CEL_DENSITY;
    let asked = ExposureAsked {
        letters_by: letters_by(shooting),
        before: shooting.before,
        after: shooting.after,
        letters_in: shooting.letters_in,
        letters_out: shooting.letters_out,
        fade_in: shooting.fade_in,
        fade_out: shooting.fade_out,
        dissolve: dissolve(shooting),
        crawl: crawl.map(|(crawl, _)| crawl),
        art_move: shooting.art_move.as_ref().map(art_move),
        blank_cel: shooting.blank_cel,
        cel_density: density.unwrap_or(usual_density),
        exposing: match shooting.single_frame {
            true => Exposing::Single,
            false => Exposing::Running,
        },
        times: times(shop.stand)?,
        spares: shooting.takes.saturating_sub(1),
        run_up: shop.run_up,
        ..ExposureAsked::plain(shooting.hold.unwrap_or(usual).max(1))
    };
    Ok((asked, by_crawl))
}

fn letters_by(shooting: &ShootingWords) -> LettersBy {
    match shooting.exposed_twice {
        true => LettersBy::SecondExposure,
        false => LettersBy::Cel,
    }
}

fn dissolve(shooting: &ShootingWords) -> Option<DissolveTo> {
    let name = shooting.dissolve_to.trim();
    (!name.is_empty() && shooting.dissolve > 0).then(|| DissolveTo {
        name: name.to_owned(),
        frames: shooting.dissolve,
    })
}

fn art_move(words: &ArtMoveWords) -> ArtMove {
    let mm = |tenths: i32| f64::from(tenths) / 10.0;
    ArtMove {
        from_mm: (mm(words.from_east), mm(words.from_south)),
        to_mm: (mm(words.to_east), mm(words.to_south)),
        first: words.first,
        frames: words.frames,
        ease_in: words.ease_in,
        ease_out: words.ease_out,
    }
}

fn times(stand: &StandWords) -> Result<Option<ExposureTimes>, ProductionError> {
    let running = time("the exposure while running", &stand.running_time)?;
    let single = time("the exposure of a single frame", &stand.single_time)?;
    let both = running.zip(single).filter(|(r, s)| *r > 0.0 && *s > 0.0);
    Ok(both.map(|(running_s, single_s)| ExposureTimes {
        running_s,
        single_s,
    }))
}
