//! Good plans without trying every way: by rules first, then by moving one sitting at a
//! time in the order of laying.

use super::lay::{Laid, lay, order_of};
use super::parts::Work;

/// Teams that go through their steps side by side are tried up to this many.
const MOST_ABREAST: usize = 12;

/// The best plan that simple rules of whose turn it is give.
pub(crate) fn by_rules(work: &Work) -> Option<Laid> {
    let rules: [fn(&Work, usize, usize) -> u64; 3] = [most_left, busiest_left, in_turn];
    let ranked = rules.iter().map(|rule| order_by(work, rule));
    let abreast = (1..=work.teams.len().min(MOST_ABREAST)).map(|teams| in_groups(work, teams));
    ranked
        .chain(abreast)
        .filter_map(|order| lay(work, &order))
        .min_by_key(|laid| laid.worth)
}

/// So many teams side by side, sitting by sitting; then as many others. What comes late in
/// one group is laid beside what comes early in the next.
fn in_groups(work: &Work, abreast: usize) -> Vec<usize> {
    let mut order = Vec::new();
    let teams: Vec<usize> = (0..work.teams.len()).collect();
    for group in teams.chunks(abreast) {
        let longest = group.iter().map(|team| work.teams[*team].len()).max();
        for at in 0..longest.unwrap_or(0) {
            order.extend(group.iter().filter(|team| at < work.teams[**team].len()));
        }
    }
    order
}

/// Whoever ranks highest goes next, again and again.
fn order_by(work: &Work, rank: &dyn Fn(&Work, usize, usize) -> u64) -> Vec<usize> {
    let mut next = vec![0; work.teams.len()];
    let mut order = Vec::new();
    for _ in 0..work.parts() {
        let open = (0..next.len()).filter(|team| next[*team] < work.teams[*team].len());
        // Of equals the first.
        let team = open.min_by_key(|team| (u64::MAX - rank(work, *team, next[*team]), *team));
        let Some(team) = team else { break };
        next[team] += 1;
        order.push(team);
    }
    order
}

fn most_left(work: &Work, team: usize, at: usize) -> u64 {
    let left = work.teams[team][at..].iter();
    left.map(|part| u64::from(part.length)).sum()
}

/// What is left, weighed by how long each thing is wanted by all.
fn busiest_left(work: &Work, team: usize, at: usize) -> u64 {
    let wanted = |thing: usize| -> u64 {
        let all = work.teams.iter().flatten();
        let users = all.filter(|part| part.needs.iter().any(|(need, _)| *need == thing));
        users.map(|part| u64::from(part.length)).sum()
    };
    let weight = |part: &super::parts::Part| -> u64 {
        let busiest = part.needs.iter().map(|(thing, _)| wanted(*thing)).max();
        u64::from(part.length) * (1 + busiest.unwrap_or(0))
    };
    work.teams[team][at..].iter().map(weight).sum()
}

/// Everybody's first sitting, then everybody's second.
fn in_turn(_: &Work, _: usize, at: usize) -> u64 {
    u64::MAX - at as u64
}

/// Moves sittings in the order of laying as long as the plan gets better, at most so many
/// tries.
pub(crate) fn better(work: &Work, mut best: Laid, tries: usize) -> Laid {
    let mut left = tries;
    loop {
        let order = order_of(&best);
        let Some(found) = first_better(work, &order, &best, &mut left) else {
            return best;
        };
        best = found;
    }
}

fn first_better(work: &Work, order: &[usize], best: &Laid, left: &mut usize) -> Option<Laid> {
    for from in 0..order.len() {
        for to in 0..order.len() {
            // Past the same team nothing changes.
            if to == from || order[to] == order[from] {
                continue;
            }
            *left = left.checked_sub(1)?;
            let mut moved = order.to_vec();
            let team = moved.remove(from);
            moved.insert(to, team);
            match lay(work, &moved) {
                Some(laid) if laid.worth < best.worth => return Some(laid),
                _ => {}
            }
        }
    }
    None
}
