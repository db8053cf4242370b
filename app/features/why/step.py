"""One step of a reasoning, and how angles are written in it."""

from __future__ import annotations

from typing import NamedTuple

from app.words.language import tr
from app.words.units import degrees_or_dash


class Step(NamedTuple):
    """One step of a reasoning.

    Attributes:
        said: in a rider's words.
        joints: in terms of anatomy and joints; as said where it is empty.
        formula: in words; none where it is empty.
        symbols: the same formula in symbols.
        filled: with this rider's values, and what comes of it.
        source: where it comes from.
    """

    said: str
    joints: str = ""
    formula: str = ""
    symbols: str = ""
    filled: str = ""
    source: str = ""


def angle(deg: float) -> str:
    """An angle to a tenth, never "−0.0°"."""
    return degrees_or_dash(round(deg, 1) + 0.0)


def way(deg: float) -> str:
    """A lean of a leg with its side: "2.9° inward"."""
    said = angle(abs(deg))
    if said == angle(0.0):
        return said
    return tr("{angle} inward", angle=said) if deg > 0.0 else tr("{angle} outward", angle=said)


def half_degrees(deg: float) -> float:
    """An angle to the next half degree, as all that is proposed."""
    return round(2.0 * deg) / 2.0 + 0.0
