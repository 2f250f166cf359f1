/// How far a longer piece of work is, told to whoever waits for it, who may give it up.
pub struct Progress<'a> {
    told: &'a mut dyn FnMut(f64) -> bool,
    from: f64,
    to: f64,
}

impl std::fmt::Debug for Progress<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Progress({}..{})", self.from, self.to)
    }
}

impl<'a> Progress<'a> {
    /// Of all of it: `told` is asked with the share that is done, from 0 to 1, whether it is to go on.
    pub fn new(told: &'a mut dyn FnMut(f64) -> bool) -> Self {
        Self {
            told,
            from: 0.0,
            to: 1.0,
        }
    }

    /// So much of it is done, from 0 to 1; `None` where it is given up.
    pub(super) fn at(&mut self, share: f64) -> Option<()> {
        let share = self.from + share.clamp(0.0, 1.0) * (self.to - self.from);
        (self.told)(share).then_some(())
    }

    /// The part of it from one share to another.
    pub(super) fn part(&mut self, from: f64, to: f64) -> Progress<'_> {
        let at = |share: f64| self.from + share * (self.to - self.from);
        Progress {
            from: at(from),
            to: at(to),
            told: &mut *self.told,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_of_parts_are_shares_of_the_whole() {
        let mut last = 0.0;
        let mut told = |share: f64| {
            last = share;
            share < 0.7
        };
        let mut all = Progress::new(&mut told);
        assert_eq!(all.part(0.5, 1.0).part(0.0, 0.5).at(0.5), Some(()));
        assert_eq!(all.part(0.5, 1.0).at(0.5), None, "given up");
        assert!((last - 0.75).abs() < 1e-12);
    }
}
