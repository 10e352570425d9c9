//! The title list.

use onestrand_sheets::{TitleList, TitleListRow};

use super::{TitleSheetsToPrint, TitleToPrint};
use crate::documents::{ShootingWords, TitleGroundWord, TitleWords};

pub(super) fn sheet(all: &TitleSheetsToPrint) -> TitleList {
    TitleList {
        head: all.head.clone(),
        rows: all.titles.iter().map(|one| row(all, one)).collect(),
        rule: all.rule.clone(),
        set_up: all.set_up(),
    }
}

fn row(all: &TitleSheetsToPrint, one: &TitleToPrint) -> TitleListRow {
    let title = &one.title.title;
    let field = all.stand.field.as_ref();
    let mm = |mm: f64| format!("{mm:.1} mm off");
    TitleListRow {
        name: title.name.clone(),
        words: one_line(&title.words),
        count: u32::try_from(one.title.words).unwrap_or(u32::MAX),
        hold: one.title.hold,
        whole: one.title.whole,
        ground: ground(title),
        cel: match title.shooting.exposed_twice {
            true => "second exposure".to_owned(),
            false => "cel".to_owned(),
        },
        comes: comes(&title.shooting),
        goes: goes(&title.shooting),
        field: field
            .map(|f| format!("{:.0} mm wide", f.field_mm[0]))
            .unwrap_or_default(),
        lens: field
            .map(|f| format!("{} mm lens", f.lens_mm))
            .unwrap_or_default(),
        distance: field.map(|f| mm(f.subject_mm)).unwrap_or_default(),
        stop: match all.stand.stand.stop.trim() {
            "" => String::new(),
            stop => format!("f/{stop}"),
        },
        of_roll: one.title.of_roll,
    }
}

/// The words of a title on one line.
pub(super) fn one_line(words: &str) -> String {
    let lines = words.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join(" / ")
}

fn ground(title: &TitleWords) -> String {
    let ground = &title.ground;
    let under = match ground.kind {
        TitleGroundWord::Plain if ground.light == 0 => "black".to_owned(),
        TitleGroundWord::Plain => format!("plain, {} % light", ground.light),
        TitleGroundWord::Picture => "picture".to_owned(),
        TitleGroundWord::Frame => format!("frame {}", ground.frame),
    };
    match ground.darker {
        0 => under,
        tenths => format!("{under}, darker by {}.{} stop", tenths / 10, tenths % 10),
    }
}

fn comes(shooting: &ShootingWords) -> String {
    let mut parts = Vec::new();
    if shooting.fade_in > 0 {
        parts.push(format!("fade {}", shooting.fade_in));
    }
    if shooting.before > 0 {
        parts.push(format!("art {}", shooting.before));
    }
    parts.push(match (shooting.crawl, shooting.letters_in) {
        (0, 0) => "drop".to_owned(),
        (0, frames) => format!("over {frames}"),
        _ => "crawl".to_owned(),
    });
    parts.join(", ")
}

fn goes(shooting: &ShootingWords) -> String {
    let mut parts = Vec::new();
    if shooting.crawl == 0 {
        parts.push(match shooting.letters_out {
            0 => "lift".to_owned(),
            frames => format!("over {frames}"),
        });
    }
    if shooting.after > 0 {
        parts.push(format!("art {}", shooting.after));
    }
    if shooting.fade_out > 0 {
        parts.push(format!("fade {}", shooting.fade_out));
    }
    if shooting.dissolve > 0 && !shooting.dissolve_to.is_empty() {
        parts.push(format!("into {}", shooting.dissolve_to));
    }
    parts.join(", ")
}
