"""Sloped parts under a binding: how they stand, how they stack, what turning does.

A part slopes steepest towards its high side, whose bearing is counted from the
toe, positive to the little-toe side.  Parts lie on each other: each one tilts
what stands on it, and the slope and bearing of an upper part are measured on the
surface of the lower one.  So a stack is a product of rotations, bottom first,
each about a level line of the surface it lies on; only a single part, or parts
whose high sides share one line, add up as plain angles.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any

from geometry.checks import require_between
from geometry.elementary import Real, atan, atan2, cos, ratio, sin, tan, where
from geometry.reasons import Amount, Name, Span, impossible
from geometry.vectors import UP, Vector, angle_between, unit

MOST_PARTS = 6
"""Parts that may stand on each other."""
MOST_PLACES = 1000
"""Insert positions, or steps of a binding angle, that a list may allow."""


class Kind(Enum):
    """Which ways a part can be put under a foot."""

    TURNABLE = "turnable"
    ALONG = "along"
    ACROSS = "across"


FIXED_BEARINGS = {
    Kind.ALONG: (0.0, math.pi),
    Kind.ACROSS: (0.5 * math.pi, -0.5 * math.pi),
}
"""Where the high side of a fixed slope can stand: it may be put in either way round."""


@dataclass(frozen=True, slots=True)
class Part:
    """One sort of sloped part.

    Attributes:
        name: what its owner calls it, without its slope.
        kind: whether it can be turned, or slopes along or across the foot.
        slope: its steepest slope (rad).
        step: step between the bearings to which a turnable part can be set
            (rad); a full turn is a whole number of steps.  Of no meaning for a
            fixed slope.
        thickness: in its middle, under the centre of the binding (mm).
        count: how many of them there are, for both feet together.

    Raises:
        ValueError: a value is outside its possible range.
    """

    name: str
    kind: Kind
    slope: float
    step: float = math.radians(10.0)
    thickness: float = 0.0
    count: int = 2

    def __post_init__(self) -> None:
        require_between(Name("slope of {part}", self.name), self.slope, 0.1, 45.0, "deg")
        thickness = Name("thickness of {part}", self.name)
        require_between(thickness, self.thickness, 0.0, 100.0, "size")
        require_whole(Name("count of {part}", self.name), self.count, 0, 100)
        if self.kind is Kind.TURNABLE:
            step = Name("step of bearing of {part}", self.name)
            require_between(step, self.step, 1.0, 180.0, "deg")
            _require_whole_turn(step, self.step)

    @property
    def bearings(self) -> tuple[float, ...]:
        """Where its high side can stand (rad): bearings from the toe, from 0 on."""
        if self.kind is not Kind.TURNABLE:
            return FIXED_BEARINGS[self.kind]
        steps = round(2.0 * math.pi / self.step)
        turns = ((i if 2 * i <= steps else i - steps) / steps for i in range(steps))
        return tuple(2.0 * math.pi * turn for turn in turns)


@dataclass(frozen=True, slots=True)
class Inserts:
    """The stance lengths that a board's inserts allow.

    Attributes:
        grid: step between neighbouring lengths (mm).
        shortest: shortest stance length (mm).
        longest: longest stance length (mm); the last step may end short of it.

    Raises:
        ValueError: a value is outside its possible range.
    """

    grid: float
    shortest: float
    longest: float

    def __post_init__(self) -> None:
        require_between("insert grid", self.grid, 1.0, 500.0, "size")
        require_between("shortest stance length", self.shortest, 0.0, 2000.0, "mm")
        require_between("longest stance length", self.longest, self.shortest, 2000.0, "mm")
        require_whole(Name("number of insert positions"), len(self.lengths), 1, MOST_PLACES)

    @property
    def lengths(self) -> tuple[float, ...]:
        """The stance lengths, shortest first (mm)."""
        steps = math.floor((self.longest - self.shortest) / self.grid + 1e-9)
        return tuple(self.shortest + self.grid * i for i in range(steps + 1))


@dataclass(frozen=True, slots=True)
class PartsList:
    """What a rider has to build a stance from.

    Attributes:
        parts: the parts; no two have both name and slope in common.
        largest_stack: how many parts may stand on each other under one foot.
        angle_step: step of the binding angles (rad), counted from 0.
        inserts: the stance lengths.
        turns_with_binding: whether a turnable part turns with the binding that
            stands on it.  Else it keeps its bearing on the board, and its steps
            are counted from straight across the board.

    Raises:
        ValueError: a value is outside its possible range, or two parts cannot be
            told apart.
    """

    parts: tuple[Part, ...]
    largest_stack: int
    angle_step: float
    inserts: Inserts
    turns_with_binding: bool = True

    def __post_init__(self) -> None:
        require_whole(Name("largest stack"), self.largest_stack, 0, MOST_PARTS)
        require_between("step of the binding angles", self.angle_step, 0.5, 90.0, "deg")
        titles = [(part.name, round(math.degrees(part.slope), 6)) for part in self.parts]
        for name, slope in titles:
            if titles.count((name, slope)) > 1:
                both = Amount(math.radians(slope), "°")
                raise impossible("parts named alike", part=name, slope=both)


def tilted(v: Vector, slope: Real, bearing: Real) -> Vector:
    """A vector carried along as the surface it stands on is tilted by a part.

    Args:
        v: along the toe, to the little-toe side and up.
        slope: of the part (rad).
        bearing: of its high side (rad).
    """
    c, s = cos(bearing), sin(bearing)
    rise = sin(slope)
    # Towards the high side e and up z: e becomes cos e + sin z, z becomes cos z - sin e.
    towards = c * v[0] + s * v[1]
    moved = (cos(slope) - 1.0) * towards - rise * v[2]
    return (v[0] + moved * c, v[1] + moved * s, rise * towards + cos(slope) * v[2])


def stack_normal(slopes: Sequence[Real], bearings: Sequence[Real]) -> Vector:
    """Unit normal of the sole on a stack: along the toe, to the little-toe side, up.

    Args:
        slopes: of the parts, the lowest first (rad).
        bearings: of their high sides, each on the surface it lies on (rad).  The
            toe's direction on a surface is that of the surface below, tilted with it.
    """
    normal = UP
    for slope, bearing in reversed(list(zip(slopes, bearings, strict=True))):
        normal = tilted(normal, slope, bearing)
    return normal


def stack_lift_and_cant(slopes: Sequence[Real], bearings: Sequence[Real]) -> tuple[Real, Real]:
    """Lift and cant of the sole on a stack, as inclinometers read them (rad, rad).

    Arguments as in :func:`stack_normal`.  One part gives what
    :func:`geometry.sole.lift_and_cant` says.  nan where the stack lies on its side.
    """
    toe, outer, up = stack_normal(slopes, bearings)
    standing = where(up > 0.0, up, math.nan)
    return atan(ratio(-toe, standing)), atan(ratio(-outer, standing))


def normal_of(lift: Real, cant: Real) -> Vector:
    """Unit normal of a sole: along the toe, to the little-toe side, up."""
    return unit((-tan(lift), -tan(cant), 1.0))


def angle_between_soles(one: tuple[Real, Real], other: tuple[Real, Real]) -> Real:
    """Angle between the normals of two soles, each given by lift and cant (rad)."""
    return angle_between(normal_of(*one), normal_of(*other))


def bearing_on_board(bearing: Any, angle: Any, side: float) -> Any:
    """Where a bearing from the toe points on the board (rad), in (-pi, pi].

    From straight across to the toe side, positive to the nose, like a binding angle.

    Args:
        bearing: from the toe, positive to the little-toe side (rad).
        angle: the binding angle (rad).
        side: +1 for the front foot, -1 for the rear one.
    """
    return within_half_turn(angle + side * bearing)


def bearing_from_toe(on_board: Any, angle: Any, side: float) -> Any:
    """Bearing from the toe of a direction on the board (rad), in (-pi, pi].

    Inverse of :func:`bearing_on_board`.
    """
    return within_half_turn(side * (on_board - angle))


def within_half_turn(angle: Any) -> Any:
    """The same direction as an angle in (-pi, pi]; those of -pi and rounding below are pi."""
    turned = atan2(sin(angle), cos(angle))
    return where(turned <= -math.pi + 1e-12, math.pi, turned)


def require_whole(name: Name, value: int, low: int, high: int) -> None:
    """Refuse a count outside [low, high].

    Raises:
        ImpossibleError: names the quantity, the value and the range.
    """
    if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
        reach = Span(low, high)
        raise impossible("no whole number", name=name, value=Amount(value), range=reach)


def _require_whole_turn(name: Name, step: float) -> None:
    steps = 2.0 * math.pi / step
    if abs(steps - round(steps)) > 1e-9 * steps:
        raise impossible("no whole turn", name=name, value=Amount(step, "deg"))
