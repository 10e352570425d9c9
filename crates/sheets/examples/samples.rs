//! Prints sample sheets of "The Ten-Past Boat" into a folder, to be looked at:
//!
//! `cargo run -p onestrand-sheets --example samples -- FOLDER`

#[path = "../tests/it/boat.rs"]
mod boat;

use std::error::Error;
use std::fs;
use std::path::PathBuf;

use onestrand_film::{FrameDelta, Shrinkage};
use onestrand_sheets::{
    After, CuttingRow, CuttingSheet, JoinKind, Paper, Pin, Proof, PullList, Standing,
    cutting_sheet, pull_list,
};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = PathBuf::from(
        std::env::args()
            .nth(1)
            .ok_or("which folder shall they go to?")?,
    );
    fs::create_dir_all(&folder)?;
    let sheets = [
        ("pull-a4.pdf", pull_list(&boat::pull(Paper::A4, true))?),
        (
            "cutting-a4.pdf",
            cutting_sheet(&boat::cutting(Paper::A4, true))?,
        ),
        (
            "pull-letter-paper-only.pdf",
            pull_list(&boat::pull(Paper::Letter, false))?,
        ),
        (
            "cutting-letter.pdf",
            cutting_sheet(&boat::cutting(Paper::Letter, true))?,
        ),
        ("pull-not-proved.pdf", pull_list(&not_proved()?)?),
        ("cutting-mixed.pdf", cutting_sheet(&mixed())?),
        ("pull-300.pdf", pull_list(&long())?),
    ];
    for (name, pdf) in sheets {
        fs::write(folder.join(name), pdf)?;
    }
    Ok(())
}

/// A list in cement with a doubtful roll, pins and a landmark that lies behind.
fn not_proved() -> Result<PullList, Box<dyn Error>> {
    let mut list = boat::pull(Paper::A4, true);
    list.head.joins = vec![boat::bite(JoinKind::Cement, 1, 0)];
    list.head.rolls[1].proof = Proof::NotProved {
        found: boat::frames(3_598),
        expected: Some(boat::frames(3_600)),
        why: "The scanner slipped near R2·1,200.".to_owned(),
    };
    list.head.rolls[2].proof = Proof::PaperOnly;
    list.head.rolls[0].shrinkage = Some("0.31".parse::<Shrinkage>()?);
    for strip in list.mounts.iter_mut().flat_map(|mount| &mut mount.strips) {
        strip.cut = boat::range(strip.kept.begin().index(), strip.kept.end().index() + 1);
    }
    let strip = &mut list.mounts[1].strips[1];
    strip.pin = Pin::Number(3);
    strip.landmark.at = boat::pos(1_190);
    strip.landmark.words = "loaf leaves the picture at the left edge".to_owned();
    strip.wind = FrameDelta::new(-12_000)?;
    strip.last_position = 5;
    Ok(list)
}

/// Every kind of row and join on one sheet, with notes.
fn mixed() -> CuttingSheet {
    let mut sheet = boat::cutting(Paper::A4, true);
    sheet.rows.truncate(9);
    sheet.head.joins = vec![
        boat::bite(JoinKind::Cement, 1, 0),
        boat::bite(JoinKind::Tape, 0, 0),
        boat::bite(JoinKind::Weld, 1, 1),
    ];
    sheet.head_join = Some(JoinKind::Cement);
    let kinds = [JoinKind::Cement, JoinKind::Weld, JoinKind::Tape];
    for (row, kind) in sheet.rows.iter_mut().zip(kinds.into_iter().cycle()) {
        row.after = After::Join(kind);
    }
    sheet.rows[2].after = After::RunsOn;
    sheet.rows[3].note = "Ida says one frame later; look at it again with the sound.".to_owned();
    sheet.rows.insert(
        0,
        row(
            Standing::Leader {
                frames: boat::frames(36),
            },
            JoinKind::Tape,
        ),
    );
    let card = Standing::Card {
        frames: boat::frames(126),
        title: "Where the river bends".to_owned(),
    };
    sheet.rows.insert(4, row(card, JoinKind::Cement));
    if let Standing::Piece(piece) = &mut sheet.rows[6].what {
        (piece.first, piece.last) = (None, None);
    }
    sheet
}

fn row(what: Standing, join: JoinKind) -> CuttingRow {
    CuttingRow {
        what,
        after: After::Join(join),
        note: String::new(),
    }
}

/// Three hundred rows: the first cut again and again.
fn long() -> PullList {
    let mut list = boat::pull(Paper::A4, true);
    let mounts = list.mounts.clone();
    let mut left = 300;
    list.mounts.clear();
    for mut mount in mounts.into_iter().cycle() {
        mount.strips.truncate(left);
        left -= mount.strips.len();
        list.mounts.push(mount);
        if left == 0 {
            break;
        }
    }
    list
}
