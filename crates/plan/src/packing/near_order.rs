//! A good plan near the script, for films too long to be proved: swaps and single moves
//! for as long as they lessen what is moved.

use super::fewest_moved::moved;

/// Operations of all looks together.
const LOOKS: u64 = 200_000_000;

/// Goes downhill from `rolls` by moving one block or swapping two, while all rolls
/// still hold what lies on them, for a number of looks.
pub(super) fn go_downhill(sizes: &[u32], room: &[u32], rolls: &mut [usize]) {
    let mut left: Vec<i64> = room.iter().map(|r| i64::from(*r)).collect();
    for (size, roll) in sizes.iter().zip(rolls.iter()) {
        left[*roll] -= i64::from(*size);
    }
    // A look at n blocks takes some n · n operations.
    let mut tries = LOOKS / (sizes.len() * sizes.len()).max(1) as u64;
    let mut now = moved(rolls);
    while now > 0 && tries > 0 {
        let Some(better) = step(sizes, &mut left, rolls, now, &mut tries) else {
            return;
        };
        now = better;
    }
}

fn step(
    sizes: &[u32],
    left: &mut [i64],
    rolls: &mut [usize],
    now: usize,
    tries: &mut u64,
) -> Option<usize> {
    for one in 0..sizes.len() {
        let (home, size) = (rolls[one], i64::from(sizes[one]));
        for to in (0..left.len()).filter(|to| *to != home) {
            if left[to] < size {
                continue;
            }
            *tries = tries.checked_sub(1)?;
            rolls[one] = to;
            let then = moved(rolls);
            if then < now {
                left[to] -= size;
                left[home] += size;
                return Some(then);
            }
            rolls[one] = home;
        }
        for other in one + 1..sizes.len() {
            let (there, less) = (rolls[other], size - i64::from(sizes[other]));
            if there == home || left[there] < less || left[home] < -less {
                continue;
            }
            *tries = tries.checked_sub(1)?;
            rolls.swap(one, other);
            let then = moved(rolls);
            if then < now {
                left[there] -= less;
                left[home] += less;
                return Some(then);
            }
            rolls.swap(one, other);
        }
    }
    None
}
