//! Titles and the copy stand, on the command line.

use onestrand_production::documents::CameraOpenedDocument;
use onestrand_production::{self as acts, Cancel, ProductionError};
use serde::Serialize;

use crate::answer::Answer;
use crate::arguments::{Paper, Title, TitleField, TitleHold, TitleLight, TitleSheet, TitleSheets};
use crate::bar::Bar;
use crate::commands::{Outcome, open};
use crate::words;

pub(crate) fn title(command: Title, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    match command {
        Title::Hold(given) => told(hold(given), |found| &found.opened),
        Title::Field(given) => told(field(*given), |found| &found.opened),
        Title::Light(given) => light(given),
        Title::Card(given) => crate::title_card::card(*given),
        Title::Sheet(given) => sheet(*given),
        Title::Cel(given) => crate::title_card::cel(*given),
        Title::List { dir } => {
            let production = open(&dir, cancel, bar)?;
            let titles = acts::titles_document(&production)?;
            let words = words::titles(&titles, production.meta());
            Ok(Answer::yes(&titles, words))
        }
        Title::Sheets(given) => sheets(given, cancel, bar),
    }
}

fn told<T: Serialize>(
    found: Result<T, ProductionError>,
    opened: impl FnOnce(&T) -> &CameraOpenedDocument,
) -> Outcome {
    let found = found?;
    let words = words::camera(opened(&found));
    Ok(Answer::yes(&found, words))
}

fn hold(given: TitleHold) -> Result<acts::documents::TitleHoldDocument, ProductionError> {
    acts::title_hold(&acts::TitleHoldRequest {
        words: given.words,
        text: given.text,
        speed: Some(given.speed),
        rule: Some(given.rule),
        least: given.least,
        first: given.first,
        per_word: given.per_word,
        gauge: given.gauge,
    })
}

fn field(given: TitleField) -> Result<acts::documents::TitleFieldDocument, ProductionError> {
    acts::title_field(&acts::TitleFieldRequest {
        gauge: given.gauge,
        lens_mm: given.lens,
        width_mm: given.width,
        distance: given.distance,
        gate: given.gate,
        circle_mm: given.coc,
        dioptres: given.diopter,
        focus: given.focus,
        stop: given.stop,
        closest: given.closest,
        safe_percent: Some(given.safe),
        last_row: given.last_row,
        screen: given.screen,
    })
}

fn light(given: TitleLight) -> Outcome {
    let found = acts::title_light(&acts::TitleLightRequest {
        angle: given.angle,
        distance_mm: given.distance,
        field: given.field,
        pairs: Some(given.pairs),
        apart_mm: given.apart,
        glass_under: given.glass,
        lamp_mm: Some(given.lamp),
    })?;
    let mut words = words::camera(&found.opened);
    for caution in &found.cautions {
        words.push_str(&format!("\n  mind: {caution}"));
    }
    Ok(Answer::yes(&found, words))
}

fn sheet(given: TitleSheet) -> Outcome {
    let found = acts::title_sheet_said(&acts::TitleSheetRequest {
        words: given.words,
        hold: given.hold,
        before: given.before,
        after: given.after,
        letters_in: given.letters_in,
        letters_out: given.letters_out,
        fade_in: given.fade_in,
        fade_out: given.fade_out,
        dissolve: given.dissolve,
        dissolve_to: given.dissolve_to,
        letters_by: Some(given.letters_by),
        no_blank_cel: Some(given.no_blank_cel),
        second_cel: given.second_cel,
        density: given.density,
        crawl: given.crawl,
        text_high: given.text_high,
        shown: given.shown,
        stroke: given.stroke,
        line_words: given.line_words,
        art_move: given.art_move,
        move_from: given.move_from,
        move_frames: given.move_frames,
        ease: given.ease,
        running: Some(given.running),
        running_time: given.running_time,
        single_time: given.single_time,
        takes: Some(given.takes),
        run_up: given.run_up,
        wind_back: given.wind_back,
        gauge: given.gauge,
        speed: Some(given.speed),
    })?;
    let words = words::title_sheet(&found);
    Ok(Answer::yes(&found, words))
}

fn sheets(given: TitleSheets, cancel: &Cancel, bar: &mut Bar) -> Outcome {
    let production = open(&given.dir, cancel, bar)?;
    let asked = acts::TitleSheetsAsked {
        letter: given.paper == Paper::Letter,
        title: given.title,
        reversed: given.reversed.then_some(true),
        mirrored: given.mirrored,
    };
    let only = given.only.as_deref();
    let printed = acts::title_sheets(&production, &given.out, only, &asked, cancel, bar)?;
    let words = words::sheets(&printed);
    Ok(Answer::yes(&printed, words))
}
