//! Rates of breaks found, ours and FFmpeg's.

use std::collections::BTreeMap;

use onestrand_inspect::score::{KnownClip, Rates, Tally, tally};

use super::scene::above;
use crate::table::Table;

/// A clip with its known changes, and what was found in it.
#[derive(Debug)]
pub(crate) struct Scored {
    /// Its known changes.
    pub(crate) clip: KnownClip,
    /// Where we say that takes begin.
    pub(crate) ours: Vec<u32>,
    /// FFmpeg's score of each frame.
    pub(crate) scores: Vec<f64>,
}

impl Scored {
    fn ours(&self) -> Tally {
        tally(&self.ours, &self.clip.changes)
    }

    fn theirs(&self, threshold: f64) -> Tally {
        tally(&above(&self.scores, threshold), &self.clip.changes)
    }
}

/// What FFmpeg's documentation calls a sane lower choice of the threshold.
const USUAL: f64 = 0.3;

/// The threshold, of all thousandths, that gives the best rate over the whole
/// set; of equal ones the lowest.
fn best_threshold(all: &[Scored], rate: fn(&Tally) -> f64) -> f64 {
    let mut best = (0.0, f64::NEG_INFINITY);
    for thousandth in 0..1_000 {
        let threshold = f64::from(thousandth) / 1e3;
        let mut sum = Tally::default();
        all.iter().for_each(|one| sum += one.theirs(threshold));
        if rate(&sum) > best.1 {
            best = (threshold, rate(&sum));
        }
    }
    best.0
}

/// Prints the table of clips and that of groups.
pub(crate) fn print(all: &[Scored]) {
    let for_cuts = best_threshold(all, |sum| sum.cut_rates().f1);
    let for_all = best_threshold(all, |sum| sum.rates().f1);
    println!("Breaks, ours and those of FFmpeg's scene filter at its best single threshold");
    println!("for cuts over the whole set ({for_cuts:.3}). P, R and F1 are of cuts.\n");
    println!("{}", clips(all, for_cuts));
    println!("By group.\n");
    println!("{}", groups(all, for_cuts, for_all));
}

fn clips(all: &[Scored], threshold: f64) -> Table {
    let mut table = Table::new(&[
        "clip",
        "cuts",
        "gradual",
        "false",
        "P",
        "R",
        "F1",
        "FFmpeg: cuts",
        "gradual",
        "false",
        "P",
        "R",
        "F1",
        "",
    ]);
    for one in all {
        let mut row = vec![one.clip.file.clone()];
        for found in [one.ours(), one.theirs(threshold)] {
            row.extend(counts(&found));
            row.extend(rates(found.cut_rates()));
        }
        row.push(String::new());
        table.row(row);
    }
    table
}

fn groups(all: &[Scored], for_cuts: f64, for_all: f64) -> Table {
    let mut table = Table::new(&[
        "group", "cuts", "gradual", "false", "cuts: P", "R", "F1", "all: P", "R", "F1", "by",
    ]);
    let mut named: BTreeMap<&str, Vec<&Scored>> = BTreeMap::new();
    for one in all {
        named.entry(&one.clip.group).or_default().push(one);
    }
    if named.len() > 1 {
        named.insert("(all)", all.iter().collect());
    }
    for (group, members) in named {
        let sum = |found: &dyn Fn(&Scored) -> Tally| {
            let mut sum = Tally::default();
            members.iter().for_each(|&one| sum += found(one));
            sum
        };
        let mut add = |by: String, found: Tally| {
            let mut row = vec![group.to_owned()];
            row.extend(counts(&found));
            row.extend(rates(found.cut_rates()));
            row.extend(rates(found.rates()));
            row.push(by);
            table.row(row);
        };
        add("onestrand".to_owned(), sum(&Scored::ours));
        let theirs = [
            (for_cuts, "best for cuts"),
            (for_all, "best for all changes"),
            (USUAL, "usual"),
        ];
        for (threshold, why) in theirs {
            let found = sum(&|one| one.theirs(threshold));
            add(format!("FFmpeg above {threshold:.3}, {why}"), found);
        }
    }
    table
}

fn counts(found: &Tally) -> [String; 3] {
    [
        format!("{}/{}", found.cuts_hit, found.cuts),
        format!("{}/{}", found.gradual_hit, found.gradual),
        found.false_alarms.to_string(),
    ]
}

fn rates(found: Rates) -> [String; 3] {
    [found.precision, found.recall, found.f1].map(|rate| format!("{rate:.3}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use onestrand_inspect::score::known_clips;

    fn scored(changes: &str, scores: &[(usize, f64)]) -> Scored {
        let table = format!("file,type,start,end,scored,group,note\n{changes}");
        let mut all = vec![0.01; 100];
        for &(frame, score) in scores {
            all[frame] = score;
        }
        Scored {
            clip: known_clips(&table).expect("rows are whole").remove(0),
            ours: vec![10],
            scores: all,
        }
    }

    #[test]
    fn the_best_threshold_weighs_the_whole_set() {
        // The first clip alone, then both, then a third that is one shot.
        let all = [
            scored("a,cut,10,10,1,g,\n", &[(10, 0.25), (50, 0.2)]),
            scored(
                "b,cut,10,10,1,g,\nb,cut,60,60,1,g,\n",
                &[(10, 0.9), (60, 0.8), (30, 0.5)],
            ),
        ];
        let f1 = |sum: &Tally| sum.cut_rates().f1;
        assert!((best_threshold(&all[..1], f1) - 0.2).abs() < 1e-9);
        // Above 0.2: three found, one false, F1 6/7. Above 0.5: two of three
        // found, none false, F1 4/5.
        assert!((best_threshold(&all, f1) - 0.2).abs() < 1e-9);
        let third = scored("c,none,0,99,0,g,\n", &[(5, 0.4), (40, 0.6), (70, 0.3)]);
        let all: Vec<Scored> = all.into_iter().chain([third]).collect();
        // Above 0.2 three of seven are right, F1 6/10; above 0.6 again F1 4/5.
        assert!((best_threshold(&all, f1) - 0.6).abs() < 1e-9);
    }

    #[test]
    fn groups_are_summed_and_all_of_them_too() {
        let all = [
            scored("a,cut,10,10,1,main,\n", &[(10, 0.9)]),
            scored("b,cut,20,20,1,stops,\n", &[(20, 0.9)]),
        ];
        let printed = groups(&all, 0.5, 0.5).to_string();
        let ours: Vec<&str> = printed
            .lines()
            .filter(|line| line.ends_with("onestrand"))
            .collect();
        assert_eq!(ours.len(), 3);
        assert!(
            ours[0].starts_with("(all)") && ours[0].contains("1/2"),
            "{printed}"
        );
        assert!(printed.contains("2/2"), "FFmpeg finds both:\n{printed}");
    }
}
