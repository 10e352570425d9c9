//! What is said of a safe copy.

use std::fmt::Write as _;

use onestrand_production::{BackupDocument, PartNamed, RestoredDocument};

pub(crate) fn backed_up(made: &BackupDocument) -> String {
    let parts = &made.parts;
    let mut words = format!("safe copy: {}\n", made.file);
    if parts.files == 0 {
        words.push_str("the film has no sounds, artwork or photographs beside it");
    } else {
        let _ = write!(
            words,
            "with it, in {}: {}, {}; {} copied now",
            parts.folder,
            files(parts.files),
            megabytes(parts.bytes),
            match parts.copied {
                0 => "none".to_owned(),
                some => format!("{some} ({})", megabytes(parts.copied_bytes)),
            }
        );
        words.push_str("\nkeep both together; the scans are not in it");
    }
    for name in &parts.changed {
        let _ = write!(
            words,
            "\n{name} no longer holds what it held when it came in: listen to it, or look at it"
        );
    }
    words
}

pub(crate) fn restored(found: &RestoredDocument) -> String {
    let mut words = format!(
        "{} is put back from {}: the production file and {}, {}",
        found.dir,
        found.file,
        files(found.files),
        megabytes(found.bytes)
    );
    for remark in &found.remarks {
        let _ = write!(words, "\n{remark}");
    }
    for (what, all) in [("missing", &found.missing), ("damaged", &found.damaged)] {
        for part in all {
            let _ = write!(words, "\n{what}: {}", named(part));
        }
    }
    if found.ok {
        words.push_str("\nworkprints are made anew from the scans when the film is opened");
    } else {
        words.push_str("\nall the rest is there; bring these in again, or look in an older copy");
    }
    words
}

fn named(part: &PartNamed) -> String {
    match part.called.as_str() {
        "" => part.name.clone(),
        called => format!("{called}, {}", part.name),
    }
}

fn files(count: usize) -> String {
    match count {
        1 => "1 file".to_owned(),
        count => format!("{count} files"),
    }
}

/// Megabytes of a million bytes, as disks are sold.
fn megabytes(bytes: u64) -> String {
    format!("{:.1} MB", bytes as f64 / 1e6)
}
