use super::*;

/// A lattice at speed 1 whose evidence is asked by row and quarter column.
fn quarters(rows: usize, columns: usize, evidence: impl Fn(usize, usize) -> f32) -> Lattice {
    let at = |row, column: f32| evidence(row, (4.0 * column).round() as usize);
    Lattice::new((rows, columns), (1.0, 1), at)
}

/// Numbers that any program can work out.
fn cost(case: u64, row: usize, quarter: usize) -> f32 {
    let x = (row as u64 + 1) * 40_503 + (quarter as u64 + 1) * 30_011 + (case + 1) * 65_537;
    (x * x % 100_003 % 100) as f32
}

/// Every way through a lattice, with its evidence and its steps aside.
fn every_way(lattice: &Lattice) -> Vec<(Way, i32)> {
    let mut all = Vec::new();
    for (first, row) in lattice.rows.iter().enumerate() {
        for n in 0..row.evidence.len() {
            go_on(lattice, first, vec![row.first + n as i32], &mut all);
        }
    }
    all
}

fn go_on(lattice: &Lattice, first: usize, places: Vec<i32>, all: &mut Vec<(Way, i32)>) {
    let evidence = |(n, &place): (usize, &i32)| {
        let row = &lattice.rows[first + n];
        row.evidence[row.get(place).expect("inside")]
    };
    let asides = places.windows(2).map(|p| (p[1] - p[0]).abs()).sum();
    let way = Way {
        first,
        columns: places
            .iter()
            .enumerate()
            .map(|(n, &place)| lattice.column(first + n, place))
            .collect(),
        evidence: places.iter().enumerate().map(evidence).sum(),
    };
    all.push((way, asides));
    let (next, last) = (first + places.len(), places[places.len() - 1]);
    for place in last - 1..=last + 1 {
        if lattice
            .rows
            .get(next)
            .is_some_and(|row| row.get(place).is_some())
        {
            let mut longer = places.clone();
            longer.push(place);
            go_on(lattice, first, longer, all);
        }
    }
}

#[test]
fn least_costs_are_those_of_another_program() {
    let table = include_str!("../../tests/tables/ways.csv");
    let mut cases = 0;
    for line in table.lines().skip(3) {
        let numbers: Vec<u64> = line
            .split(',')
            .map(|n| n.parse().expect("a number"))
            .collect();
        let [case, rows, columns, least] = numbers[..] else {
            panic!("{line}");
        };
        // So much that every row is worth taking.
        let evidence = |row, quarter| 1000.0 - cost(case, row, quarter);
        let lattice = quarters(rows as usize, columns as usize, evidence);
        let way = lattice.best_way(0.0).expect("there is a way");
        // Costs are whole numbers.
        let whole = |sum: f32| sum.round() as u64;
        assert_eq!(1000 * rows - whole(way.evidence), least, "{line}");
        assert_eq!(way.columns.len() as u64, rows, "{line}");
        let paid = way.rows().zip(&way.columns);
        let paid: f32 = paid
            .map(|(row, column)| cost(case, row, (4.0 * column).round() as usize))
            .sum();
        assert_eq!(whole(paid), least, "{line}");
        let alone = lattice.best_evidence(0.0);
        assert_eq!(whole(alone), whole(way.evidence), "{line}");
        cases += 1;
    }
    assert_eq!(cases, 40);
}

#[test]
fn the_best_way_is_the_best_of_all_ways() {
    for case in 0..60 {
        // Mostly against, so that ways begin and end anywhere.
        let evidence = |row, quarter| 30.0 - cost(case, row, quarter);
        let speed = [0.8, 1.0, 1.25][case as usize % 3];
        let at = |row, column: f32| evidence(row, (8.0 * column).round() as usize);
        let lattice = Lattice::new((6, 4), (speed, 1), at);
        let bend = 7.0;
        let worth = |(way, asides): &(Way, i32)| way.evidence - bend * *asides as f32;
        let most = every_way(&lattice).iter().map(worth).fold(0.0, f32::max);
        let found = lattice.best_way(bend).map_or(0.0, |way| way.evidence);
        assert!((found - most).abs() < 1e-3, "{case}: {found} for {most}");
        assert!((lattice.best_evidence(bend) - most).abs() < 1e-3, "{case}");
    }
}

#[test]
fn the_spread_is_that_of_all_ways_by_their_chance() {
    let aside = 0.2_f64;
    for case in 0..20 {
        let lattice = quarters(5, 4, |row, quarter| 1.2 - 0.03 * cost(case, row, quarter));
        let Some(way) = lattice.best_way(1.1) else {
            continue;
        };
        let found = lattice.spread(&way, aside as f32);
        let ways = every_way(&lattice);
        for (n, row) in way.rows().enumerate() {
            let (mut weight, mut square) = (0.0_f64, 0.0_f64);
            for (other, asides) in &ways {
                if !other.rows().contains(&row) {
                    continue;
                }
                let straight = other.columns.len() as i32 - 1 - asides;
                let chance = f64::from(other.evidence).exp()
                    * aside.powi(*asides)
                    * (1.0 - 2.0 * aside).powi(straight);
                let off = f64::from(other.columns[row - other.first] - way.columns[n]);
                weight += chance;
                square += chance * off * off;
            }
            let spread = (square / weight).sqrt();
            let off = (f64::from(found[n]) - spread).abs();
            assert!(
                off < 1e-3 * (1.0 + spread),
                "{case}, {row}: {found:?} for {spread}"
            );
        }
    }
}

#[test]
fn of_ways_alike_the_straight_one_is_taken() {
    let lattice = quarters(9, 9, |_, _| 1.0);
    let way = lattice.best_way(0.1).expect("there is a way");
    let steps: Vec<f32> = way.columns.windows(2).map(|c| c[1] - c[0]).collect();
    assert!(
        steps.iter().all(|&step| (step - 1.0).abs() < f32::EPSILON),
        "{steps:?}"
    );
}
