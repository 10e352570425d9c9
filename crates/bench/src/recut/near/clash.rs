//! Strips that want the same film, and all ways to keep them apart.

use onestrand_cut::Bite;

use super::course::{Joined, Laying};
use super::film::{Cutting, Tied};
use super::windows::Windows;

/// Strips grown together, with all they take.
#[derive(Debug, Clone, Copy)]
struct Whole {
    first: usize,
    last: usize,
    film: usize,
    begin: i64,
    end: i64,
}

/// All ways in which the first clash cannot come about; nothing when there is none.
///
/// Every laying without that clash is in one of them: with the same joins, one of
/// four ends must lie elsewhere; or one of the joins is another.
pub(super) fn without_clash(
    cutting: &Cutting<'_>,
    windows: &Windows,
    laying: &Laying,
) -> Option<Vec<Windows>> {
    let mut wholes = wholes(cutting, laying);
    wholes.sort_by_key(|w| (w.film, w.begin));
    let clash = wholes
        .windows(2)
        .find(|w| w[0].film == w[1].film && w[1].begin < w[0].end)?;
    let (one, other) = (clash[0], clash[1]);
    let mut ways = Vec::new();
    let mut way = |change: &dyn Fn(&mut Windows)| {
        let mut next = windows.clone();
        change(&mut next);
        ways.push(next);
    };
    let (end, begin) = (laying.ends[one.last].1, laying.ends[other.first].0);
    way(&|w| w.ends[one.last].1 = end - 1);
    way(&|w| w.begins[other.first].0 = begin + 1);
    // The other way round on the film, where strips are that short.
    if windows.ends[other.last].0 <= windows.begins[one.first].1 {
        let (begin, end) = (laying.ends[one.first].0, laying.ends[other.last].1);
        way(&|w| w.begins[one.first].0 = begin + 1);
        way(&|w| w.ends[other.last].1 = end - 1);
    }
    let mut joints: Vec<usize> = [one, other]
        .iter()
        .flat_map(|w| w.first..=w.last + 1)
        .collect();
    joints.sort_unstable();
    joints.dedup();
    for joint in joints {
        match laying.joints[joint] {
            Joined::Grown => way(&|w| w.joints[joint].grown = false),
            Joined::Made if may_be_other(cutting, windows, joint, false) => {
                way(&|w| w.joints[joint].made = false);
            }
            Joined::Kept(_) if may_be_other(cutting, windows, joint, true) => {
                way(&|w| w.joints[joint].kept = false);
            }
            _ => {}
        }
    }
    Some(ways)
}

/// Whether another join there could take less, or none could be there.
fn may_be_other(cutting: &Cutting<'_>, windows: &Windows, joint: usize, kept: bool) -> bool {
    let may = windows.joints[joint];
    if may.grown {
        return true;
    }
    let other = if kept { may.made } else { may.kept };
    let made = cutting.news.joints[joint].bite;
    let mixed = cutting.olds.joints.iter().any(|j| j.bite != made);
    other && mixed
}

fn wholes(cutting: &Cutting<'_>, laying: &Laying) -> Vec<Whole> {
    let strips = &cutting.news.strips;
    let mut wholes: Vec<Whole> = Vec::new();
    for (strip, laid) in strips.iter().enumerate() {
        let Some(film) = laid.roll() else { continue };
        let tail = bite(cutting, laying, strip + 1).out_tail;
        let end = laying.ends[strip].1 + i64::from(tail);
        match wholes.last_mut() {
            Some(whole) if laying.joints[strip] == Joined::Grown => {
                (whole.last, whole.end) = (strip, end);
            }
            _ => wholes.push(Whole {
                first: strip,
                last: strip,
                film,
                begin: laying.ends[strip].0 - i64::from(bite(cutting, laying, strip).in_head),
                end,
            }),
        }
    }
    wholes
}

fn bite(cutting: &Cutting<'_>, laying: &Laying, joint: usize) -> Bite {
    let made = cutting.news.joints[joint].bite;
    match laying.joints[joint] {
        Joined::Kept(old) => cutting.bite(Tied::Kept(old), made),
        Joined::Made => made,
        Joined::Grown => Bite::default(),
    }
}
