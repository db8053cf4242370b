"""Elementary functions of one number or of an array of numbers.

Every formula of the package is written once, on :data:`Real`.  A single stance
travels through it as Python floats, which cost tens of nanoseconds an
operation; a million stances travel through the same lines as arrays.  Only the
functions below know the difference.

Angles are in radians.  Each function broadcasts like numpy, and none of them
warns or raises on finite input: square roots of rounding errors below zero are
zero, and a division by zero gives nan.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, TypeAlias

from geometry.arrays import np

if TYPE_CHECKING:
    from numpy.typing import NDArray

Real: TypeAlias = "float | NDArray[Any]"
"""A Python float, or a float64 array that broadcasts with the others."""

Truth: TypeAlias = "bool | NDArray[Any]"
"""The answer to a comparison of two Reals."""

_EXACT = 2**53
"""Whole numbers below this are floats without loss."""


def real(value: Any) -> Real:
    """Return a number as a float and anything longer as a float64 array.

    Raises:
        TypeError: the value is a truth value or not a number at all.
    """
    if type(value) is float:
        return value
    if type(value) is int and abs(value) < _EXACT:
        return float(value)
    array = np.asarray(value)
    if array.dtype.kind not in "fiu":
        raise TypeError(f"expected a number or an array of numbers, got {value!r}")
    return float(array) if array.ndim == 0 else array.astype(np.float64)


def sqrt(x: Real) -> Real:
    """Square root; zero where rounding has pushed ``x`` below zero."""
    if isinstance(x, float):
        return math.sqrt(x) if x > 0.0 else x * 0.0
    return np.sqrt(np.maximum(x, 0.0))


def sin(x: Real) -> Real:
    """Sine."""
    return math.sin(x) if isinstance(x, float) else np.sin(x)


def cos(x: Real) -> Real:
    """Cosine."""
    return math.cos(x) if isinstance(x, float) else np.cos(x)


def tan(x: Real) -> Real:
    """Tangent."""
    return math.tan(x) if isinstance(x, float) else np.tan(x)


def atan(x: Real) -> Real:
    """Arc tangent in (-pi/2, pi/2)."""
    return math.atan(x) if isinstance(x, float) else np.arctan(x)


def atan2(y: Real, x: Real) -> Real:
    """Angle of the point (x, y) from the x axis, in [-pi, pi]."""
    if isinstance(y, float) and isinstance(x, float):
        return math.atan2(y, x)
    return np.arctan2(y, x)


def exp(x: Real) -> Real:
    """Exponential function."""
    return math.exp(x) if isinstance(x, float) else np.exp(x)


def unknown(x: Real) -> Truth:
    """Whether ``x`` is nan: there is no answer."""
    return math.isnan(x) if isinstance(x, float) else np.isnan(x)


def magnitude(x: Real) -> Real:
    """``x`` without its sign."""
    return abs(x) if isinstance(x, float) else np.abs(x)


def within(x: Real, limit: Real) -> Truth:
    """Whether ``x`` is closer to zero than a limit."""
    if isinstance(x, float) and isinstance(limit, float):
        return -limit < x < limit
    return np.abs(x) < limit


def larger(x: Real, y: Real) -> Real:
    """Elementwise larger of the two."""
    if type(x) is type(y) is float:
        return x if x > y else y
    return np.maximum(x, y)


def smaller(x: Real, y: Real) -> Real:
    """Elementwise smaller of the two."""
    if isinstance(x, float) and isinstance(y, float):
        return x if x < y else y
    return np.minimum(x, y)


def clipped(x: Real, low: Real, high: Real) -> Real:
    """``x`` held within [low, high]."""
    return smaller(larger(x, low), high)


def where(condition: Truth, yes: Real, no: Real) -> Real:
    """``yes`` where the condition holds, ``no`` elsewhere."""
    if isinstance(condition, bool) or not isinstance(condition, np.ndarray):
        return yes if condition else no
    return np.where(condition, yes, no)


def where_in_tuples(condition: Truth, yes: Any, no: Any) -> Any:
    """:func:`where` for tuples, named or not and however deep, part by part."""
    if isinstance(condition, bool) or not isinstance(condition, np.ndarray):
        return yes if condition else no
    if condition.all():
        return yes
    if not isinstance(yes, tuple):
        return np.where(condition, yes, no)
    parts = (where_in_tuples(condition, one, other) for one, other in zip(yes, no, strict=True))
    return type(yes)(*parts) if hasattr(yes, "_fields") else tuple(parts)


def where_true(condition: Truth, yes: Truth, no: Truth) -> Truth:
    """:func:`where` for truth values."""
    if isinstance(condition, bool) or not isinstance(condition, np.ndarray):
        return yes if condition else no
    return np.where(condition, yes, no)


def ratio(x: Real, y: Real) -> Real:
    """``x / y``, and nan where ``y`` is zero."""
    if isinstance(x, float) and isinstance(y, float):
        return x / y if y != 0.0 else math.nan
    return x / np.where(np.equal(y, 0.0), np.nan, y)


def every(condition: Truth) -> bool:
    """True when the condition holds everywhere."""
    return condition if isinstance(condition, bool) else bool(np.all(condition))


def some(condition: Truth) -> bool:
    """True when the condition holds anywhere."""
    return condition if isinstance(condition, bool) else bool(np.any(condition))


def masked(value: Any, mask: NDArray[Any]) -> Any:
    """The elements of an array that a mask marks; single values, which serve all, as they are.

    Tuples, named or not and however deep, are masked part by part.
    """
    if isinstance(value, np.ndarray):
        whole = value if value.shape == mask.shape else np.broadcast_to(value, mask.shape)
        return whole[mask]
    if isinstance(value, tuple):
        parts = (masked(part, mask) for part in value)
        return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    return value


def with_masked(whole: Real, mask: NDArray[Any], part: Real) -> NDArray[Any]:
    """A copy of the array with the elements that a mask marks replaced."""
    filled = np.broadcast_to(whole, mask.shape).copy()
    filled[mask] = part
    return filled
