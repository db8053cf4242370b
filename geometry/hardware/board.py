"""How far the boots reach beyond the board, and the edge angle at which they touch snow.

The board is tipped about its edge, at the height of its base; lift and cant of
the mount are part of the answer.  It is exact on straight edges.  On a board
with a side-cut each point is compared with the edge beside it, as when the
whole edge lies on the snow; the answer is then good to 0.1 mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.elementary import Real, every, ratio, smaller, some, sqrt
from geometry.hardware.edge_contact import Disc, Edge, Extreme, farthest, first_touch, picked
from geometry.reasons import impossible
from geometry.sole import Sole, sole_of
from geometry.stance import Mount, Stance
from geometry.vectors import Vector, plus, scaled

BOARD_THICKNESS = 10.0
"""From the base to the top of a board at the bindings (mm; engineering choice, no source)."""
TOE_SIDE, HEEL_SIDE = 1.0, -1.0
"""The sides of a board: where y is positive, and where it is negative."""
_ROUNDS = 3
"""Rounds in which the edge beside a point of a disc is found; each gains two digits."""
_BETWEEN = (8, 2)
"""Parts of a sole's length and width that each get discs of their own beside a curved
edge, which can be nearest to the middle of a straight side."""


@dataclass(frozen=True, eq=False, slots=True)
class Board:
    """A board between its two bindings.

    Attributes:
        waist_width: from edge to edge at the narrowest place (mm).
        plate_height: from the top of the board up to the sole at the binding's
            centre, with every plate and sloped part between them (mm).
        thickness: of the board, from its base to its top (mm).
        sidecut_radius: of the edges (mm); None for straight and parallel ones.
        waist_at: where along the board the narrowest place is (mm), from the
            middle between the bindings towards the nose.

    Raises:
        ValueError: a dimension is outside its possible range.
    """

    waist_width: Real
    plate_height: Real
    thickness: Real = BOARD_THICKNESS
    sidecut_radius: Real | None = None
    waist_at: Real = 0.0

    def __post_init__(self) -> None:
        require_between("waist width", self.waist_width, 20.0, 1000.0, "mm")
        require_between("plate height", self.plate_height, 0.0, 300.0, "mm")
        require_between("board thickness", self.thickness, 1.0, 100.0, "mm")
        require_between("place of the waist", self.waist_at, -1000.0, 1000.0, "mm")
        if self.sidecut_radius is not None:
            require_between("side-cut radius", self.sidecut_radius, 3000.0, 1e6, "mm")

    def edge(self, station: Real, side: float) -> Edge:
        """The edge at a place along the board, as the straight line that touches it there.

        Args:
            station: distance from the waist towards the nose (mm).
            side: :data:`TOE_SIDE` or :data:`HEEL_SIDE`.
        """
        slope = 0.0 if self.sidecut_radius is None else ratio(station, self.sidecut_radius)
        level = sqrt(1.0 - slope * slope)
        half = 0.5 * self.waist_width + station * slope / (1.0 + level)
        base = -(self.plate_height + self.thickness)
        return Edge((self.waist_at + station, side * half, base), (-slope, side * level, 0.0))

    def station_beside(self, point: Vector, side: float) -> Real:
        """The place along the board whose edge is the nearest to a point (mm from the waist)."""
        along = point[0] - self.waist_at
        if self.sidecut_radius is None:
            return along
        # The edge is an arc about a point beside the board; the nearest point of
        # it lies on the line from there.
        inward = self.sidecut_radius + 0.5 * self.waist_width - side * point[1]
        return ratio(self.sidecut_radius * along, sqrt(along * along + inward * inward))


@dataclass(frozen=True, eq=False, slots=True)
class BootSole:
    """The outline of a boot on its sole.

    The sole is a rectangle with rounded corners.  A toe cap that reaches beyond
    the sole is a second outline above it.

    Attributes:
        length: of the sole (mm).
        width: of the sole where it is widest (mm).
        roundness: radius of its corners as a share of half its width: 0 for a
            rectangle, 1 for two half circles.
        offset: from the binding's centre to the middle of the sole, along the
            foot (mm), positive towards the toes.
        toe_reach: how far the boot reaches beyond the sole at the toes (mm).
        heel_reach: how far it does at the heel (mm).
        reach_height: how high above the sole it does so (mm).

    Raises:
        ValueError: a dimension is outside its possible range, or the sole is
            wider than it is long.
    """

    length: Real
    width: Real
    roundness: Real = 1.0
    offset: Real = 0.0
    toe_reach: Real = 0.0
    heel_reach: Real = 0.0
    reach_height: Real = 0.0

    def __post_init__(self) -> None:
        require_between("sole length", self.length, 50.0, 500.0, "mm")
        require_between("sole width", self.width, 20.0, 250.0, "mm")
        require_between("offset of the boot", self.offset, -200.0, 200.0, "mm")
        require_between("reach of the toe", self.toe_reach, 0.0, 100.0, "mm")
        require_between("reach of the heel", self.heel_reach, 0.0, 100.0, "mm")
        require_between("height of the reach", self.reach_height, 0.0, 200.0, "mm")
        if not every((self.roundness >= 0.0) & (self.roundness <= 1.0)):
            raise ValueError("the roundness of the sole must lie between 0 and 1")
        if some(self.width > self.length):
            raise impossible("sole wider than long")


@dataclass(frozen=True, eq=False, slots=True)
class EdgeReach:
    """One boot at one edge of the board.

    Attributes:
        overhang: how far it reaches beyond the edge (mm); negative inside it.
        farthest: the point that does so (mm).
        edge_angle: how far the board stands on this edge when the boot touches
            snow (rad); more than a right angle where it never does.
        touching: the point that touches (mm).
    """

    overhang: Real
    farthest: Vector
    edge_angle: Real
    touching: Vector


@dataclass(frozen=True, eq=False, slots=True)
class FootReach:
    """One boot on the board.

    Attributes:
        toe_side: what it does at the board's toe-side edge.
        heel_side: what it does at the other edge.
        clearance: from the top of the board up to the lowest point of the boot
            (mm).  Negative where a sloped sole would need a higher plate.
    """

    toe_side: EdgeReach
    heel_side: EdgeReach
    clearance: Real


def reaches(board: Board, boot: BootSole, stance: Stance) -> tuple[FootReach, FootReach]:
    """Both boots on the board, front and rear; the same boot on both feet."""
    half = (0.5 * stance.length, -0.5 * stance.across, 0.0)
    front = foot_reach(board, boot, stance.front, 1.0, half)
    return front, foot_reach(board, boot, stance.rear, -1.0, scaled(half, -1.0))


def foot_reach(
    board: Board, boot: BootSole, mount: Mount, side: float, centre: Vector
) -> FootReach:
    """One boot on the board, exact for the rounded outline of its sole.

    Args:
        board: the board.
        boot: the boot.
        mount: binding angle, lift and cant.
        side: +1 for the front foot, -1 for the rear one.
        centre: of the binding (mm).
    """
    sole = sole_of(mount, side)
    parts = (1, 1) if board.sidecut_radius is None else _BETWEEN
    discs = boot_discs(boot, sole, centre, parts)
    # Farthest down is farthest out beyond an edge that looks down.
    ground = Edge((0.0, 0.0, -board.plate_height), (0.0, 0.0, -1.0))
    return FootReach(
        toe_side=_edge_reach(discs, board, TOE_SIDE),
        heel_side=_edge_reach(discs, board, HEEL_SIDE),
        clearance=-_outermost([farthest(disc, ground) for disc in discs]).value,
    )


def reach_reasons(reach: FootReach) -> NDArray[Any]:
    """Why a boot cannot stand so; empty where it can.

    Returns:
        Keys of reasons in the shape of the reach.
    """
    low = np.asarray(reach.clearance) < 0.0
    return np.where(low, "sole below the board", "")


def edge_angle_is_short(reach: FootReach, wanted: Real) -> NDArray[Any]:
    """Whether a boot touches snow before the board stands at a wanted edge angle (rad)."""
    lowest = smaller(reach.toe_side.edge_angle, reach.heel_side.edge_angle)
    return np.asarray(lowest < wanted)


def boot_discs(
    boot: BootSole, sole: Sole, centre: Vector, parts: tuple[int, int] = (1, 1)
) -> list[Disc]:
    """Discs whose hull is a boot's outline, on the sole and above it.

    Args:
        boot: the boot.
        sole: axes of its sole.
        centre: of the binding (mm).
        parts: into how many parts discs divide its length and its width.
    """
    ends = (boot.offset - 0.5 * boot.length, boot.offset + 0.5 * boot.length)
    discs = _outline_discs(boot, sole, centre, ends, parts)
    if some(boot.toe_reach + boot.heel_reach + boot.reach_height > 0.0):
        upper = plus(centre, scaled(sole.normal, boot.reach_height))
        reached = (ends[0] - boot.heel_reach, ends[1] + boot.toe_reach)
        discs += _outline_discs(boot, sole, upper, reached, parts)
    return discs


def _outline_discs(
    boot: BootSole, sole: Sole, centre: Vector, ends: tuple[Real, Real], parts: tuple[int, int]
) -> list[Disc]:
    """The discs of one outline that runs from one place along the foot to another."""
    radius = 0.5 * boot.width * boot.roundness
    ahead, outer = scaled(sole.foot_axis, radius), scaled(sole.outer, radius)
    back, inner = ends[0] + radius, 0.5 * boot.width - radius
    length = ends[1] - ends[0] - 2.0 * radius
    middles = [
        plus(scaled(sole.foot_axis, back + u * length), scaled(sole.outer, v * inner))
        for u, v in _around(*parts)
    ]
    return [Disc(plus(centre, middle), ahead, outer) for middle in middles]


def _around(long_parts: int, short_parts: int) -> list[tuple[float, float]]:
    """Places around a rectangle: shares of its length, and of half its width to either side."""
    along = [i / long_parts for i in range(long_parts + 1)]
    across = [2.0 * i / short_parts - 1.0 for i in range(short_parts + 1)]
    return [(u, v) for u in along for v in across if u in {0.0, 1.0} or v in {-1.0, 1.0}]


def _edge_reach(discs: Sequence[Disc], board: Board, side: float) -> EdgeReach:
    out = _outermost([_beside(farthest, disc, board, side) for disc in discs])
    touches = [_beside(first_touch, disc, board, side) for disc in discs]
    first = _outermost([touch._replace(value=-touch.value) for touch in touches])
    return EdgeReach(out.value, out.point, -first.value, first.point)


def _outermost(extremes: Sequence[Extreme]) -> Extreme:
    """The one with the largest value."""
    best = extremes[0]
    for other in extremes[1:]:
        best = picked(other.value > best.value, other, best)
    return best


def _beside(
    extreme: Callable[[Disc, Edge], Extreme], disc: Disc, board: Board, side: float
) -> Extreme:
    """The extreme of a disc against the edge that lies beside the very point that has it."""
    if board.sidecut_radius is None:
        return extreme(disc, board.edge(0.0, side))
    point = disc.centre
    for _ in range(_ROUNDS):
        found = extreme(disc, board.edge(board.station_beside(point, side), side))
        point = found.point
    return found
