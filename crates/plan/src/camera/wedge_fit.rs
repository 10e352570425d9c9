//! A straight line through the middle of an exposure wedge.

/// One take: how it was set, what was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Point {
    /// Unit: stops, + for more light than the meter asked for.
    pub(crate) set: f64,
    /// Light of the picture. Unit: stops.
    pub(crate) light: f64,
}

/// The straight line of least squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Line {
    pub(crate) points: usize,
    pub(crate) mean_set: f64,
    pub(crate) mean_light: f64,
    /// Stops of the picture for a stop set.
    pub(crate) slope: f64,
    /// Sum of the squares of the settings about their mean.
    spread: f64,
    /// Estimate of the scatter about the line. Unit: stops of the picture.
    pub(crate) scatter: f64,
}

/// Student's t, 95 per cent both sides, for 1 to 10 degrees of freedom. Source: any table
/// of statistics, from memory.
const STUDENT: [f64; 10] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
];

/// A step that makes the picture lighter by less than this of what the steps in the
/// middle do lies where the film is full or empty.
const LEAST_OF_SLOPE: f64 = 0.65;

/// How far about the middle of two takes others tell of the slope between them.
/// Unit: stops set.
const ABOUT: f64 = 0.6;

impl Line {
    /// Through two points or more whose settings differ.
    pub(crate) fn through(points: &[Point]) -> Option<Self> {
        let count = points.len() as f64;
        let mean = |of: fn(&Point) -> f64| points.iter().map(of).sum::<f64>() / count;
        let (mean_set, mean_light) = (mean(|p| p.set), mean(|p| p.light));
        let spread: f64 = points.iter().map(|p| (p.set - mean_set).powi(2)).sum();
        if points.len() < 2 || spread < 1e-9 {
            return None;
        }
        let both = |p: &Point| (p.set - mean_set) * (p.light - mean_light);
        let slope = points.iter().map(both).sum::<f64>() / spread;
        let off = |p: &Point| (p.light - mean_light - slope * (p.set - mean_set)).powi(2);
        let squares: f64 = points.iter().map(off).sum();
        let free = points.len().saturating_sub(2).max(1) as f64;
        Some(Self {
            points: points.len(),
            mean_set,
            mean_light,
            slope,
            spread,
            scatter: (squares / free).sqrt(),
        })
    }

    pub(crate) fn light_at(&self, set: f64) -> f64 {
        self.mean_light + self.slope * (set - self.mean_set)
    }

    /// The setting at which the picture has a light.
    pub(crate) fn set_for(&self, light: f64) -> f64 {
        self.mean_set + (light - self.mean_light) / self.slope
    }

    /// How far that setting may be off, 95 per cent. Unit: stops.
    pub(crate) fn error_of(&self, set: f64) -> f64 {
        let free = self.points.saturating_sub(2).clamp(1, STUDENT.len());
        let away = (set - self.mean_set).powi(2) / self.spread;
        STUDENT[free - 1] * self.scatter / self.slope.abs()
            * (1.0 / self.points as f64 + away).sqrt()
    }
}

/// Which takes lie on the straight part, from and to. The points stand by their setting;
/// takes set alike are one.
pub(crate) fn straight_part(points: &[Point]) -> Option<(f64, f64)> {
    let groups = by_setting(points);
    let slopes: Vec<f64> = groups
        .windows(2)
        .map(|two| slope_about(&groups, &two[0], &two[1]))
        .collect();
    let mut sorted = slopes.clone();
    sorted.sort_by(f64::total_cmp);
    // The middle of the steeper half: one step made too steep by chance does not rule.
    let usual = *sorted.get(sorted.len() * 3 / 4)?;
    if usual <= 0.0 {
        return None;
    }
    let mut best: Option<(usize, usize)> = None;
    let mut begin = 0;
    for end in 0..=slopes.len() {
        let goes_on = slopes
            .get(end)
            .is_some_and(|s| *s >= LEAST_OF_SLOPE * usual);
        if goes_on {
            continue;
        }
        if end > begin && best.is_none_or(|(from, to)| end - begin > to - from) {
            best = Some((begin, end));
        }
        begin = end + 1;
    }
    best.map(|(from, to)| (groups[from].set, groups[to].set))
}

/// How steep it is between two takes, with those near them: thirds of a stop by
/// themselves are less than what the measure may be off.
fn slope_about(groups: &[Point], low: &Point, high: &Point) -> f64 {
    let middle = f64::midpoint(low.set, high.set);
    let reach = ABOUT.max(high.set - middle + 1e-6);
    let near = |p: &&Point| (p.set - middle).abs() <= reach;
    let points: Vec<Point> = groups.iter().filter(near).copied().collect();
    Line::through(&points).map_or(0.0, |line| line.slope)
}

/// Takes of one setting as one, by their setting.
fn by_setting(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.set.total_cmp(&b.set));
    let alike = sorted.chunk_by(|a, b| b.set - a.set < 1e-6);
    let one = |group: &[Point]| Point {
        set: group[0].set,
        light: group.iter().map(|p| p.light).sum::<f64>() / group.len() as f64,
    };
    alike.map(one).collect()
}
