//! Patches out of a CSV form.

use std::path::Path;

use onestrand_film::FrameName;

use crate::documents::PatchWords;
use crate::table::{Line, Table};
use crate::{ImportProblem, ProductionError};

/// Reads patches: `thing,frame,left,top,width,height`, the frame by its name, the rest in
/// per cent of the picture's sides.
///
/// # Errors
/// [`ProductionError::Import`] with every problem of the form.
pub fn read_patches(path: &Path) -> Result<Vec<PatchWords>, ProductionError> {
    let wanted = ["thing", "frame", "left", "top", "width", "height"];
    let mut table = Table::read(path, &wanted)?;
    let mut problems = Vec::new();
    let patches: Vec<PatchWords> = table
        .lines()
        .filter_map(|line| patch(line, &mut problems))
        .collect();
    table.add_problems(problems);
    table.sound()?;
    Ok(patches)
}

fn patch(line: Line<'_>, problems: &mut Vec<ImportProblem>) -> Option<PatchWords> {
    let thing = line.parse("thing", problems, |text| match text.trim() {
        "" => Err("name the thing, such as cap"),
        some => Ok(some.to_owned()),
    });
    let name = line.parse("frame", problems, str::parse::<FrameName>);
    let mut side = |side: &str| {
        line.parse(side, problems, |text| {
            parts(text).ok_or_else(|| format!("{text:?} is no per cent from 0 to 100"))
        })
    };
    let sides = ["left", "top", "width", "height"].map(&mut side);
    let [Some(left), Some(top), Some(width), Some(height)] = sides else {
        return None;
    };
    let name = name?;
    Some(PatchWords {
        thing: thing?,
        roll: name.roll.to_string(),
        frame: name.frame.index(),
        left,
        top,
        width,
        height,
    })
}

/// Per cent as they are typed, in ten-thousandths.
pub(super) fn parts(typed: &str) -> Option<u32> {
    let number: f64 = typed
        .trim()
        .trim_end_matches('%')
        .trim_end()
        .replace(',', ".")
        .parse()
        .ok()?;
    let fits = (0.0..=100.0).contains(&number);
    fits.then(|| (number * 100.0).round() as u32)
}

/// A rectangle as it is typed on the command line: left, top, width, height in per cent.
///
/// # Errors
/// [`ProductionError::Unfit`].
pub fn patch_typed(
    thing: &str,
    name: &FrameName,
    typed: &str,
) -> Result<PatchWords, ProductionError> {
    let sides: Option<Vec<u32>> = typed
        .split([',', ' '])
        .filter(|t| !t.is_empty())
        .map(parts)
        .collect();
    match sides.as_deref() {
        Some([left, top, width, height]) => Ok(PatchWords {
            thing: thing.to_owned(),
            roll: name.roll.to_string(),
            frame: name.frame.index(),
            left: *left,
            top: *top,
            width: *width,
            height: *height,
        }),
        _ => Err(crate::error::unfit(
            format!("{typed:?} is no rectangle"),
            "give left, top, width and height in per cent of the picture, such as 40,30,10,10",
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn per_cent_are_read_as_they_are_typed() {
        assert_eq!(parts("12.5"), Some(1250));
        assert_eq!(parts("12,5 %"), Some(1250));
        assert_eq!(parts("101"), None);
        assert_eq!(parts(""), None);
    }
}
