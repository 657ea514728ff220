//! Small arithmetic of points in the picture.

/// A point or a step, px, y down; or in metres in a view's plane, y up.
pub(crate) type P = (f64, f64);

pub(crate) fn add(a: P, b: P) -> P {
    (a.0 + b.0, a.1 + b.1)
}

pub(crate) fn sub(a: P, b: P) -> P {
    (a.0 - b.0, a.1 - b.1)
}

pub(crate) fn times(a: P, by: f64) -> P {
    (a.0 * by, a.1 * by)
}

/// The point `by` steps of `step` from `a`.
#[inline(never)]
pub(crate) fn along(a: P, step: P, by: f64) -> P {
    add(a, times(step, by))
}

pub(crate) fn length(a: P) -> f64 {
    libm::hypot(a.0, a.1)
}

/// The unit step along `a`, or `otherwise` where it has no length.
#[inline(never)]
pub(crate) fn unit(a: P, otherwise: P) -> P {
    let l = length(a);
    if l > 1e-9 && l.is_finite() { (a.0 / l, a.1 / l) } else { otherwise }
}

/// A quarter turn to the left as seen in the picture (y down).
pub(crate) fn left_of(a: P) -> P {
    (a.1, -a.0)
}

#[inline(never)]
pub(crate) fn between(a: P, b: P, share: f64) -> P {
    (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
}
