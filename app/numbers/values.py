"""Values as JSON has words for them."""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees, isfinite
from typing import Any, SupportsFloat


def number(value: SupportsFloat) -> float | None:
    """A finite number, or None for what JSON has no word for."""
    plain = float(value)
    return plain if isfinite(plain) else None


def in_degrees(radians: SupportsFloat) -> float | None:
    """An angle in degrees to its last digit, or None where there is none."""
    return number(degrees(float(radians)) + 0.0)


def angle(radians: SupportsFloat) -> float | None:
    """What parts are set to, in degrees without the dust of a conversion; None where nothing is.

    So a slope of 3 degrees that somebody typed reads 3.0 again, and not 3.0000000000000004.
    """
    told = number(degrees(float(radians)))
    return None if told is None else round(told, 9) + 0.0


def point(xyz: Any) -> list[float] | None:
    """Three finite coordinates, or None."""
    return [float(each) for each in xyz] if all(map(isfinite, xyz)) else None


def numbers_in(values: Iterable[SupportsFloat]) -> list[float | None]:
    """Numbers in their order, None for each that is not finite."""
    return [number(value) for value in values]


def nothing(names: Iterable[str], reason: str) -> dict[str, Any]:
    """A section that has no answer: every one of its names is null, and why."""
    return {**dict.fromkeys(names), "reason": reason}
