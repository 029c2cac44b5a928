//! Polynomials in one variable, coefficients from the constant up, and where they are 0.

/// Halvings of a stretch down to the last bit.
const HALVINGS: usize = 80;

/// The roots between `from` and `to`, in order: between the roots of its derivative a polynomial only rises or only falls, so
/// that each such stretch holds at most one. A root that only touches 0 may be left out.
pub(super) fn roots(polynomial: &[f64], from: f64, to: f64) -> Vec<f64> {
    if polynomial.len() < 2 {
        return Vec::new();
    }
    let mut ends = vec![from];
    ends.extend(roots(&slope(polynomial), from, to));
    ends.push(to);
    let crossing = |pair: &[f64]| {
        let (mut low, mut high) = (pair[0], pair[1]);
        let rising = value(polynomial, high) > 0.0;
        if (value(polynomial, low) > 0.0) == rising {
            return None;
        }
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if (value(polynomial, middle) > 0.0) == rising {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(f64::midpoint(low, high))
    };
    ends.windows(2).filter_map(crossing).collect()
}

/// Its value at `t`.
pub(super) fn value(polynomial: &[f64], t: f64) -> f64 {
    polynomial.iter().rev().fold(0.0, |sum, c| sum * t + c)
}

/// Its derivative.
pub(super) fn slope(polynomial: &[f64]) -> Vec<f64> {
    let terms = polynomial.iter().skip(1).zip(1u32..);
    terms.map(|(c, power)| c * f64::from(power)).collect()
}

/// The product of two.
pub(super) fn times(a: &[f64], b: &[f64]) -> Vec<f64> {
    let mut product = vec![0.0; (a.len() + b.len()).saturating_sub(1)];
    for (i, p) in a.iter().enumerate() {
        for (j, q) in b.iter().enumerate() {
            product[i + j] += p * q;
        }
    }
    product
}

/// `a` and `share` of `b`.
pub(super) fn plus(a: &[f64], share: f64, b: &[f64]) -> Vec<f64> {
    let at = |p: &[f64], i: usize| p.get(i).copied().unwrap_or(0.0);
    (0..a.len().max(b.len()))
        .map(|i| at(a, i) + share * at(b, i))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_product_of_lines_has_their_roots() {
        let wanted = [-0.5, 0.1, 0.4, 0.9, 3.0];
        let product = wanted
            .iter()
            .fold(vec![2.0], |product, &root| times(&product, &[-root, 1.0]));
        let found = roots(&product, 0.0, 1.0);
        assert_eq!(found.len(), 3, "{found:?}");
        for (got, want) in found.iter().zip(&wanted[1..4]) {
            assert!((got - want).abs() < 1e-12, "{found:?}");
        }
        assert!(roots(&[1.0, 0.0, 1.0], -5.0, 5.0).is_empty(), "x² + 1 has none");
    }
}
