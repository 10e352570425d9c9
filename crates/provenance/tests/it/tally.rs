//! How often something said with a probability is right.

/// Answers by how sure they were said to be.
#[derive(Default)]
pub(crate) struct Tally {
    said: Vec<(f64, bool)>,
}

impl Tally {
    pub(crate) fn add(&mut self, probability: f64, is_right: bool) {
        self.said.push((probability, is_right));
    }

    pub(crate) fn count(&self) -> usize {
        self.said.len()
    }

    /// Of those said with at least so much: all, and wrong ones.
    pub(crate) fn from(&self, least: f64) -> (usize, usize) {
        let of = self.said.iter().filter(|s| s.0 >= least);
        (of.clone().count(), of.filter(|s| !s.1).count())
    }

    /// A line for each span of probabilities: said on the mean, right, count.
    pub(crate) fn table(&self) -> String {
        let spans = [
            (0.0, 0.5),
            (0.5, 0.7),
            (0.7, 0.9),
            (0.9, 0.97),
            (0.97, 0.995),
            (0.995, 1.1),
        ];
        let line = |&(low, high): &(f64, f64)| {
            let of = self.said.iter().filter(|s| (low..high).contains(&s.0));
            let count = of.clone().count();
            if count == 0 {
                return String::new();
            }
            let said = of.clone().map(|s| s.0).sum::<f64>() / count as f64;
            let right = of.filter(|s| s.1).count();
            format!("  said {said:.3}: right {right} of {count}\n")
        };
        spans.iter().map(line).collect()
    }
}

/// The seeds of a wide run, out of `PROVENANCE_SEEDS`, such as `1000-1040`.
pub(crate) fn seeds() -> std::ops::Range<u64> {
    let said = std::env::var("PROVENANCE_SEEDS").unwrap_or_else(|_| "0-20".to_owned());
    let (from, to) = said.split_once('-').expect("two numbers with a dash");
    from.parse().expect("a number")..to.parse().expect("a number")
}
