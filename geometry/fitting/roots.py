"""Where a function of one unknown is zero, element by element, without derivatives."""

from __future__ import annotations

from collections.abc import Callable

from geometry.elementary import Real, Truth, choose, clipped, every, ratio, unknown, within

CLOSE = 1e-10
"""Largest value of the function at a root that is given out."""
MOST_SECANTS = 12
"""Secant steps before an element goes to bisection; four or five usually do."""
NAN = float("nan")
BISECTIONS = 34
"""Halvings that bring the widest range, 60 degrees, to a ten-billionth of itself."""


def root_from_zero(
    function: Callable[[Real], Real], at_zero: Real, slope: float, limit: float
) -> Real:
    """The root of a rising function on the side of zero where it lies.

    Secant steps from zero; what they miss, out of reach or over a bend, is
    bisected between zero and the limit.  nan from the function means "too far".

    Args:
        function: takes a float or an array that broadcasts with its own
            elements; never called outside [-limit, limit] or with nan.
        at_zero: the function at zero; where nan there is no answer.
        slope: roughly how fast the function rises, for the first step.
        limit: greatest root looked for, either way.

    Returns:
        The roots, nan where there is none.
    """
    x, done = _by_secants(function, at_zero, slope, limit)
    if every(done | unknown(at_zero)):
        return choose(done, x, NAN)
    halved, close = _by_halves(function, at_zero, limit)
    return choose(done, x, choose(close, halved, NAN))


def _by_secants(
    function: Callable[[Real], Real], at_zero: Real, slope: float, limit: float
) -> tuple[Real, Truth]:
    """Secant steps from zero, and where they came close."""
    value = at_zero
    last_value, last = _number(value), 0.0 * _number(value)
    # Adding zero keeps a root at zero from being a negative one.
    x = clipped(0.0 - last_value / slope, -limit, limit)
    done = within(value, CLOSE)
    for _ in range(MOST_SECANTS):
        if every(done | unknown(at_zero)):
            break
        value = function(x)
        lost = unknown(value)
        done = within(value, CLOSE)
        step = ratio(value * (x - last), value - last_value)
        # Out of reach, or stuck at the limit: half-way back and try again.
        ahead = choose(unknown(step), 0.5 * (x + last), x - step)
        last, last_value = choose(lost, last, x), choose(lost, last_value, value)
        x = choose(done, x, clipped(ahead, -limit, limit))
    return x, done


def _by_halves(function: Callable[[Real], Real], at_zero: Real, limit: float) -> tuple[Real, Truth]:
    """Bisection between zero and the limit, and where it came close."""
    towards = choose(at_zero > 0.0, -1.0, 1.0)
    near, far = 0.0 * _number(at_zero), limit + 0.0 * _number(at_zero)
    for _ in range(BISECTIONS):
        middle = 0.5 * (near + far)
        short = towards * function(towards * middle) < 0.0
        near, far = choose(short, middle, near), choose(short, far, middle)
    x = towards * far
    value = function(x)
    return x, within(value, 1e3 * CLOSE)


def _number(x: Real) -> Real:
    """The value, and zero for nan."""
    return choose(unknown(x), 0.0, x)
