//! Sums of mass, first and second moments.

/// Sums of mass, first and second moments about the origin of the item frame.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sum {
    /// Σ m.
    pub(super) mass: f64,
    /// Σ m x, Σ m y, Σ m z.
    pub(super) first: [f64; 3],
    /// Σ m x², Σ m y², Σ m z², the pieces' own extent included.
    pub(super) second: [f64; 3],
    /// Σ m x y.
    pub(super) xy: f64,
}

impl Sum {
    /// Adds a piece at `at` whose own second moments (Σ m x² etc. about its centre) are `own`.
    pub(super) fn add(&mut self, mass: f64, at: [f64; 3], own: [f64; 3]) {
        self.mass += mass;
        for axis in 0..3 {
            self.first[axis] += mass * at[axis];
            self.second[axis] += own[axis] + mass * at[axis] * at[axis];
        }
        self.xy += mass * at[0] * at[1];
    }

    pub(super) fn add_point(&mut self, mass: f64, at: [f64; 3]) {
        self.add(mass, at, [0.0; 3]);
    }

    /// Adds a body of revolution about an upright axis, from its two moments of inertia.
    pub(super) fn add_round(&mut self, mass: f64, at: [f64; 3], tip: f64, spin: f64) {
        // spin = 2 Σ m x², tip = Σ m x² + Σ m z².
        let across = spin / 2.0;
        self.add(mass, at, [across, across, tip - across]);
    }

    pub(super) fn centre(&self) -> [f64; 3] {
        self.first.map(|moment| moment / self.mass)
    }
}

/// Inertia of a thin tube about a diameter through its middle and about its axis.
pub(super) fn thin_tube(mass: f64, r: f64, height: f64) -> (f64, f64) {
    (mass * (r * r / 2.0 + height * height / 12.0), mass * r * r)
}
