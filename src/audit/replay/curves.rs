//! Ranges over time as lines that can be drawn, on a screen or on paper.

/// The least and the most at each moment; nothing where nothing was recorded.
pub type Ranged = (Vec<f64>, Vec<Option<[f64; 2]>>);

/// Ranges as the line from the least to the most of each, one after the other; a gap ends a line.
pub fn runs(times: &[f64], ranges: &[Option<[f64; 2]>]) -> Vec<Vec<[f64; 2]>> {
    let mut runs: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
    for (time_s, range) in times.iter().zip(ranges) {
        let Some([least, most]) = *range else {
            runs.push(Vec::new());
            continue;
        };
        if let Some(run) = runs.last_mut() {
            run.push([*time_s, least]);
            if most > least {
                run.push([*time_s, most]);
            }
        }
    }
    runs.retain(|run| !run.is_empty());
    runs
}

/// The least margin of every few points, in percent and drawn no lower than `low`: what counts. No more than `most`
/// points are left.
pub fn least_of(
    times: &[f64],
    ranges: &[Option<[f64; 2]>],
    most: usize,
    low_percent: f64,
) -> Ranged {
    let each = times.len().div_ceil(most.max(1)).max(1);
    let middles = times.chunks(each).map(|run| run[run.len() / 2]).collect();
    let least = |run: &[Option<[f64; 2]>]| {
        let least = run.iter().flatten().map(|range| range[0]);
        let percent = |left: f64| (100.0 * left).clamp(low_percent, 100.0);
        least.reduce(f64::min).map(|left| [percent(left); 2])
    };
    (middles, ranges.chunks(each).map(least).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_ends_a_line() {
        let ranges = [Some([1.0, 2.0]), None, None, Some([3.0, 3.0])];
        let runs = runs(&[0.0, 1.0, 2.0, 3.0], &ranges);
        assert_eq!(runs, [vec![[0.0, 1.0], [0.0, 2.0]], vec![[3.0, 3.0]]]);
    }

    /// Closer, each drawn point stands for fewer, and a dip between is not lost.
    #[test]
    fn the_least_is_drawn_and_no_lower_than_asked() {
        let times: Vec<f64> = (0..1600).map(f64::from).collect();
        let margin = |i: usize| Some([if i == 803 { 0.1 } else { 0.5 }, 0.9]);
        let ranges: Vec<_> = (0..1600).map(margin).collect();
        for range in [0..1600, 700..900, 803..804] {
            let times = &times[range.clone()];
            for (low, expected) in [(-40.0, 10.0), (20.0, 20.0)] {
                let (middles, least) = least_of(times, &ranges[range.clone()], 160, low);
                assert!(middles.len() <= 160 && middles.len() == least.len());
                let lowest = least.iter().flatten().map(|it| it[0]).fold(100.0, f64::min);
                assert!((lowest - expected).abs() < 1e-9, "{lowest}");
            }
        }
    }
}
