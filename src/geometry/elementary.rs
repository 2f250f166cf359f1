//! Sines, logarithms and powers that have the same bits on every platform.
//!
//! The standard library leaves these functions to the mathematics library of the machine, and those differ in the
//! last digit: from one system to the next, and on one system with the instructions that its processor knows. A
//! number that is rounded when it is printed, or a cylinder that only just stands, could then come out differently
//! on another machine, and an audit must not. So whatever ends in a number is computed with the crate `libm`,
//! whose functions are sums, products and square roots of their own, which IEEE 754-2019 (clause 5.4.1) settles to the bit.
//!
//! The names are other ones than those of the standard library, as a method of a type hides that of a trait; a
//! test sees to it that the standard ones are not used.

/// Elementary functions of a number, in radians where angles are meant.
pub trait Elementary: Sized {
    /// The sine.
    #[must_use]
    fn sine(self) -> Self;
    /// The cosine.
    #[must_use]
    fn cosine(self) -> Self;
    /// Sine and cosine at once.
    #[must_use]
    fn sine_cosine(self) -> (Self, Self);
    /// The tangent.
    #[must_use]
    fn tangent(self) -> Self;
    /// The angle from -π/2 to π/2 with this sine; not a number beyond -1 and 1.
    #[must_use]
    fn arc_sine(self) -> Self;
    /// The angle from 0 to π with this cosine; not a number beyond -1 and 1.
    #[must_use]
    fn arc_cosine(self) -> Self;
    /// The angle from -π/2 to π/2 with this tangent.
    #[must_use]
    fn arc_tangent(self) -> Self;
    /// The angle from -π to π of the point `(along, self)`, from the first axis.
    #[must_use]
    fn arc_tangent_over(self, along: Self) -> Self;
    /// e to this power.
    #[must_use]
    fn exponential(self) -> Self;
    /// The logarithm to the base e.
    #[must_use]
    fn natural_logarithm(self) -> Self;
    /// The logarithm to the base 2.
    #[must_use]
    fn binary_logarithm(self) -> Self;
    /// This to a power.
    #[must_use]
    fn power(self, exponent: Self) -> Self;
    /// This to a whole power, by products in one order.
    #[must_use]
    fn whole_power(self, exponent: i32) -> Self;
    /// The long side of a right-angled triangle with these short ones: the root of the sum of the squares, as it stands.
    /// What is computed here is neither so large that a square overflows (above 1e150) nor so small that it vanishes
    /// (below 1e-150), against which the functions of libraries take care at a price.
    #[must_use]
    fn hypotenuse(self, other: Self) -> Self;
}

impl Elementary for f64 {
    fn sine(self) -> Self {
        libm::sin(self)
    }

    fn cosine(self) -> Self {
        libm::cos(self)
    }

    fn sine_cosine(self) -> (Self, Self) {
        libm::sincos(self)
    }

    fn tangent(self) -> Self {
        libm::tan(self)
    }

    fn arc_sine(self) -> Self {
        libm::asin(self)
    }

    fn arc_cosine(self) -> Self {
        libm::acos(self)
    }

    fn arc_tangent(self) -> Self {
        libm::atan(self)
    }

    fn arc_tangent_over(self, along: Self) -> Self {
        libm::atan2(self, along)
    }

    fn exponential(self) -> Self {
        libm::exp(self)
    }

    fn natural_logarithm(self) -> Self {
        libm::log(self)
    }

    fn binary_logarithm(self) -> Self {
        libm::log2(self)
    }

    fn power(self, exponent: Self) -> Self {
        libm::pow(self, exponent)
    }

    #[inline]
    fn whole_power(self, exponent: i32) -> Self {
        if exponent == 2 {
            return self * self;
        }
        let (mut left, mut factor, mut product) = (exponent.unsigned_abs(), self, 1.0);
        while left > 0 {
            if left % 2 == 1 {
                product *= factor;
            }
            factor *= factor;
            left /= 2;
        }
        if exponent < 0 { 1.0 / product } else { product }
    }

    #[inline]
    fn hypotenuse(self, other: Self) -> Self {
        (self * self + other * other).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bits, so that another platform's run of this test compares with this one's. Each is the double nearest to the
    /// value of the digits beside it (Abramowitz and Stegun, Handbook of Mathematical Functions, tables 4.2, 4.6,
    /// 4.14), or within one unit of its last place.
    #[test]
    fn the_bits_are_those_of_the_tables() {
        let near = |found: f64, table: f64| {
            let apart = found.to_bits().abs_diff(table.to_bits());
            assert!(apart <= 1, "{found:?} and {table:?} are {apart} apart");
        };
        near(1.0_f64.sine(), 0.841_470_984_807_896_5);
        near(1.0_f64.cosine(), 0.540_302_305_868_139_7);
        near(1.0_f64.tangent(), 1.557_407_724_654_902_3);
        near(1.0_f64.arc_tangent(), std::f64::consts::FRAC_PI_4);
        near(1.0_f64.arc_sine(), std::f64::consts::FRAC_PI_2);
        near(0.5_f64.arc_cosine(), std::f64::consts::FRAC_PI_3);
        near(1.0_f64.exponential(), std::f64::consts::E);
        near(2.0_f64.natural_logarithm(), std::f64::consts::LN_2);
        near(10.0_f64.binary_logarithm(), std::f64::consts::LOG2_10);
        near(2.0_f64.power(0.5), std::f64::consts::SQRT_2);
        near(3.0_f64.hypotenuse(4.0), 5.0);
        near(
            1.0_f64.arc_tangent_over(-1.0),
            3.0 * std::f64::consts::FRAC_PI_4,
        );
        let (sine, cosine) = 2.0_f64.sine_cosine();
        near(sine, 2.0_f64.sine());
        near(cosine, 2.0_f64.cosine());
    }

    #[test]
    fn whole_powers_are_products() {
        assert_eq!(3.0_f64.whole_power(0).to_bits(), 1.0_f64.to_bits());
        assert_eq!(3.0_f64.whole_power(5).to_bits(), 243.0_f64.to_bits());
        assert_eq!(2.0_f64.whole_power(-3).to_bits(), 0.125_f64.to_bits());
        assert!((-2.0_f64).whole_power(i32::MAX).is_infinite());
        assert_eq!(2.0_f64.whole_power(i32::MIN).to_bits(), 0.0_f64.to_bits());
    }
}
