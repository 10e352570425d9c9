//! The script as the table that it can be brought in from.

use onestrand_store::{Production, ShownRecord};

use super::kept::KeptScript;
use crate::ProductionError;

/// All setups in the columns of the script sheet.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn export_script(production: &Production) -> Result<String, ProductionError> {
    let header = [
        "scene",
        "setup",
        "actions",
        "size",
        "move",
        "action",
        "sound",
        "mover",
        "direction",
        "cast",
        "props",
        "seconds",
        "takes",
        "dissolve",
        "note",
    ];
    let shown = |shown: &ShownRecord| match shown.off_camera {
        true => format!("({})", shown.action),
        false => shown.action.clone(),
    };
    let dissolve = |frames: u32| match frames {
        0 => String::new(),
        frames => frames.to_string(),
    };
    let rows = KeptScript::read(production)?
        .setups
        .into_iter()
        .map(|kept| {
            let it = kept.it;
            let actions: Vec<String> = it.shown.iter().map(shown).collect();
            [
                it.scene,
                it.name,
                actions.join(";"),
                it.size,
                it.movement,
                it.action,
                it.sound,
                it.mover,
                it.direction,
                it.cast.join(";"),
                it.props.join(";"),
                it.seconds,
                it.takes.to_string(),
                dissolve(it.dissolve),
                it.note,
            ]
        });
    Ok(write_table(&header, rows))
}

/// The wild sounds in the columns of their list.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn export_wild_sounds(production: &Production) -> Result<String, ProductionError> {
    let header = ["sound", "place", "seconds", "distance", "note"];
    let rows = KeptScript::read(production)?.wild_sounds.into_iter();
    let rows = rows.map(|kept| {
        let it = kept.it;
        [it.sound, it.place, it.seconds, it.distance, it.note]
    });
    Ok(write_table(&header, rows))
}

fn write_table<const N: usize>(
    header: &[&str; N],
    rows: impl Iterator<Item = [String; N]>,
) -> String {
    let mut out = csv::Writer::from_writer(Vec::new());
    let written = "a form in memory can be written";
    out.write_record(header).expect(written);
    for row in rows {
        out.write_record(row).expect(written);
    }
    let bytes = out.into_inner().expect(written);
    String::from_utf8(bytes).expect("rows are text")
}
