"""Vectors as triples of components, each component a Real.

A triple ``(x, y, z)`` holds one vector, or an array of vectors when its
components are arrays.  Results leave the package as arrays whose last axis is
x, y, z: see :func:`stacked`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

from geometry.arrays import np
from geometry.elementary import Real, atan2, ratio, sqrt

if TYPE_CHECKING:
    from numpy.typing import NDArray

Vector: TypeAlias = tuple[Real, Real, Real]

UP: Vector = (0.0, 0.0, 1.0)


def dot(a: Vector, b: Vector) -> Real:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product, right-handed."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def scaled(a: Vector, factor: Real) -> Vector:
    """``factor * a``."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def plus(a: Vector, b: Vector) -> Vector:
    """``a + b``."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def minus(a: Vector, b: Vector) -> Vector:
    """``a - b``."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def combined(
    one: tuple[Vector, Real], two: tuple[Vector, Real], three: tuple[Vector, Real]
) -> Vector:
    """Sum of three vectors, each times its factor."""
    (a, x), (b, y), (c, z) = one, two, three
    return (
        a[0] * x + b[0] * y + c[0] * z,
        a[1] * x + b[1] * y + c[1] * z,
        a[2] * x + b[2] * y + c[2] * z,
    )


def length(a: Vector) -> Real:
    """Euclidean length, never negative."""
    return sqrt(dot(a, a))


def unit(a: Vector) -> Vector:
    """``a`` scaled to length one; nan for the zero vector."""
    return scaled(a, ratio(1.0, length(a)))


def turned(a: Vector, b: Vector, angle_cos: Real, angle_sin: Real) -> Vector:
    """``a`` turned towards the perpendicular ``b``: ``cos * a + sin * b``."""
    return plus(scaled(a, angle_cos), scaled(b, angle_sin))


def angle_between(a: Vector, b: Vector) -> Real:
    """Unsigned angle in [0, pi], accurate at both ends.

    Uses atan2 of the cross and the dot product, since the arc cosine loses
    every digit of an angle below 1e-8.  Zero when either vector is zero.
    """
    return atan2(length(cross(a, b)), dot(a, b))


def stacked(a: Vector) -> NDArray[Any]:
    """The vectors as one float array, shape (..., 3), last axis x, y, z."""
    return np.stack(np.broadcast_arrays(*a), axis=-1)
