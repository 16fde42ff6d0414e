//! Sums, products and order of fractions of 128-bit integers in lowest terms, quick where the numbers
//! are small. `None` where something does not fit on the way; the caller then takes wider integers.

use num_integer::Integer;
use std::cmp::Ordering;

/// Numerator and denominator, in lowest terms, the denominator positive.
pub(super) type Parts = (i128, i128);

/// The greatest common divisor; that of zero and a number is the number.
fn gcd(a: u128, b: u128) -> u128 {
    match (u64::try_from(a), u64::try_from(b)) {
        (Ok(a), Ok(b)) => a.gcd(&b).into(),
        _ => a.gcd(&b),
    }
}

fn common(a: i128, b: i128) -> Option<i128> {
    i128::try_from(gcd(a.unsigned_abs(), b.unsigned_abs())).ok()
}

fn divided(a: i128, by: i128) -> i128 {
    if by == 1 { a } else { a / by }
}

/// The sum. The numerator never is the least integer there is.
pub(super) fn add(a: Parts, b: Parts) -> Option<Parts> {
    if a.1 == 1 && b.1 == 1 {
        return kept(a.0.checked_add(b.0)?, 1);
    }
    // Knuth, The Art of Computer Programming, volume 2, 4.5.1: from memory.
    let shared = common(a.1, b.1)?;
    let (left, right) = (divided(a.1, shared), divided(b.1, shared));
    let sum =
        a.0.checked_mul(right)?
            .checked_add(b.0.checked_mul(left)?)?;
    let again = common(sum, shared)?;
    kept(divided(sum, again), left.checked_mul(divided(b.1, again))?)
}

/// The product. `None` says that it does not fit at all.
pub(super) fn mul(a: Parts, b: Parts) -> Option<Parts> {
    let across = common(a.0, b.1)?;
    let down = common(b.0, a.1)?;
    if across == 0 || down == 0 {
        return Some((0, 1));
    }
    kept(
        divided(a.0, across).checked_mul(divided(b.0, down))?,
        divided(a.1, down).checked_mul(divided(b.1, across))?,
    )
}

/// The order, where the products across fit.
pub(super) fn compare(a: Parts, b: Parts) -> Option<Ordering> {
    if a.1 == b.1 {
        return Some(a.0.cmp(&b.0));
    }
    let sign = a.0.signum().cmp(&b.0.signum());
    if sign != Ordering::Equal {
        return Some(sign);
    }
    Some(a.0.checked_mul(b.1)?.cmp(&b.0.checked_mul(a.1)?))
}

fn kept(num: i128, den: i128) -> Option<Parts> {
    if num == 0 {
        return Some((0, 1));
    }
    (num != i128::MIN).then_some((num, den))
}

#[cfg(test)]
mod tests {
    use super::*;
    use num_rational::Ratio;
    use proptest::prelude::*;

    fn parts() -> impl Strategy<Value = Parts> {
        let small = (-1000_i128..1000, 1_i128..1000);
        let large = (any::<i128>(), 1_i128..=i128::MAX);
        let middle = (any::<i64>(), 1_i64..=i64::MAX);
        let middle = middle.prop_map(|(n, d)| (i128::from(n), i128::from(d)));
        prop_oneof![small, middle, large].prop_map(|(n, d)| {
            let r = Ratio::new(n.max(-i128::MAX), d);
            (*r.numer(), *r.denom())
        })
    }

    proptest! {
        #[test]
        fn quick_results_are_those_of_wide_integers(a in parts(), b in parts()) {
            let wide = |p: Parts| num_rational::BigRational::new(p.0.into(), p.1.into());
            if let Some(sum) = add(a, b) {
                prop_assert_eq!(wide(sum), wide(a) + wide(b));
                prop_assert_eq!(common(sum.0, sum.1), Some(1));
            }
            match mul(a, b) {
                Some(product) => {
                    prop_assert_eq!(wide(product), wide(a) * wide(b));
                    prop_assert_eq!(common(product.0, product.1), Some(1));
                }
                None => {
                    let exact = wide(a) * wide(b);
                    let fits = i128::try_from(exact.numer()).is_ok_and(|n| n != i128::MIN)
                        && i128::try_from(exact.denom()).is_ok();
                    prop_assert!(!fits);
                }
            }
            if let Some(order) = compare(a, b) {
                prop_assert_eq!(order, wide(a).cmp(&wide(b)));
            }
        }
    }
}
