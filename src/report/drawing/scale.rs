//! From metres behind the coupler to pixels.

/// A scale along the rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Where the coupler's centre stands, in pixels from the left.
    pub coupler: f64,
    /// How many pixels a metre has.
    pub per_metre: f64,
}

impl Scale {
    /// The scale that shows everything from `front` to `rear` (metres behind the coupler, ahead of it
    /// below zero) between two edges.
    #[must_use]
    pub fn fit(front: f64, rear: f64, left: f64, right: f64) -> Scale {
        let per_metre = (right - left) / (rear - front).max(0.5);
        Scale {
            coupler: left - front * per_metre,
            per_metre,
        }
    }

    /// The pixel of a place.
    #[must_use]
    pub fn x(&self, metres: f64) -> f64 {
        self.coupler + metres * self.per_metre
    }
}
