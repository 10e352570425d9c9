//! Things put together by how like they are, with how sure each belongs where it lies.

/// For two groups of things, how much rather they are of one kind than of two, as a natural
/// logarithm; nothing where it cannot be told.
pub(crate) type Likeness<'a> = &'a dyn Fn(&[usize], &[usize]) -> Option<f64>;

/// So often a thing is not what it was measured as at all: nothing is surer than the rest.
const MISTAKEN: f64 = 0.02;

/// Where a thing lies and how sure that is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Belongs {
    /// Number of the group.
    pub(crate) group: usize,
    /// How probable it is that it belongs there, or, alone, that it belongs to no other.
    pub(crate) probability: f64,
    /// The group it belongs to otherwise, with how probable that is.
    pub(crate) otherwise: Option<(usize, f64)>,
}

/// Puts things together: always the two groups that are most like each other, while they
/// are rather of one kind than of two; then each thing once more where it fits best.
pub(crate) fn grouped(things: &[usize], likeness: Likeness<'_>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = things.iter().map(|&thing| vec![thing]).collect();
    let mut like: Vec<Vec<f64>> = groups
        .iter()
        .map(|a| groups.iter().map(|b| score(a, b, likeness)).collect())
        .collect();
    while let Some((a, b)) = most_like(&like) {
        let moved = std::mem::take(&mut groups[b]);
        groups[a].extend(moved);
        for other in 0..groups.len() {
            let new = score(&groups[a], &groups[other], likeness);
            like[a][other] = new;
            like[other][a] = new;
            like[b][other] = f64::MIN;
            like[other][b] = f64::MIN;
        }
    }
    groups.retain(|group| !group.is_empty());
    settle(&mut groups, likeness);
    groups.iter_mut().for_each(|group| group.sort_unstable());
    groups.sort_by_key(|group| group[0]);
    groups
}

fn score(a: &[usize], b: &[usize], likeness: Likeness<'_>) -> f64 {
    if a.is_empty() || b.is_empty() || a == b {
        return f64::MIN;
    }
    likeness(a, b).unwrap_or(f64::MIN)
}

fn most_like(like: &[Vec<f64>]) -> Option<(usize, usize)> {
    let pairs = (0..like.len()).flat_map(|a| (0..a).map(move |b| (b, a)));
    let best = pairs.max_by(|&(a, b), &(c, d)| like[a][b].total_cmp(&like[c][d]))?;
    (like[best.0][best.1] > 0.0).then_some(best)
}

/// Each thing that fits another group better goes there, until none does.
fn settle(groups: &mut Vec<Vec<usize>>, likeness: Likeness<'_>) {
    for _round in 0..4 {
        let mut is_moved = false;
        let things: Vec<usize> = groups.iter().flatten().copied().collect();
        for thing in things {
            let fits = fits(thing, groups, likeness);
            let Some(&(best, score)) = fits.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
                continue;
            };
            let at = groups.iter().position(|group| group.contains(&thing));
            if score > 0.0 && at.is_some_and(|at| at != best) {
                groups
                    .iter_mut()
                    .for_each(|group| group.retain(|&t| t != thing));
                groups[best].push(thing);
                is_moved = true;
            }
        }
        groups.retain(|group| !group.is_empty());
        if !is_moved {
            return;
        }
    }
}

/// How much rather a thing is of each group than of its own; itself left out of them.
fn fits(thing: usize, groups: &[Vec<usize>], likeness: Likeness<'_>) -> Vec<(usize, f64)> {
    let mut fits = Vec::new();
    for (number, group) in groups.iter().enumerate() {
        let others: Vec<usize> = group.iter().copied().filter(|&t| t != thing).collect();
        if !others.is_empty() {
            fits.extend(likeness(&[thing], &others).map(|score| (number, score)));
        }
    }
    fits
}

/// How sure it is where a thing lies.
pub(crate) fn belongs(thing: usize, groups: &[Vec<usize>], likeness: Likeness<'_>) -> Belongs {
    let own = groups.iter().position(|g| g.contains(&thing)).unwrap_or(0);
    let fits = fits(thing, groups, likeness);
    // To be of none of them is as probable as to be of any, before anything is seen.
    let most = fits.iter().map(|f| f.1).fold(0.0, f64::max);
    let alone = (-most).exp();
    let sum: f64 = alone + fits.iter().map(|f| (f.1 - most).exp()).sum::<f64>();
    let of = |number: usize| {
        let fit = fits.iter().find(|f| f.0 == number);
        fit.map_or(0.0, |f| (f.1 - most).exp() / sum)
    };
    let is_alone = groups.get(own).is_none_or(|group| group.len() == 1);
    let probability = if is_alone { alone / sum } else { of(own) };
    let others = (0..groups.len()).filter(|&g| g != own).map(|g| (g, of(g)));
    Belongs {
        group: own,
        probability: probability * (1.0 - MISTAKEN),
        otherwise: others
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .filter(|o| o.1 > 0.02),
    }
}
