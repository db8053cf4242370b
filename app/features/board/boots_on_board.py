"""The boots where their bindings hold them: outlines, and their reach in words."""

from __future__ import annotations

from functools import lru_cache
from math import cos, degrees, pi, sin
from typing import NamedTuple

from app.drawing.marks import Area, Dot, Mark, Point
from app.drawing.projection import Space, View
from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import plain
from geometry import Mount, Stance
from geometry.hardware.board import (
    HEEL_SIDE,
    TOE_SIDE,
    Board,
    BootSole,
    EdgeReach,
    FootReach,
    boot_discs,
    foot_reach,
    reach_reasons,
)
from geometry.hardware.edge_contact import Disc
from geometry.sole import sole_of
from geometry.vectors import Vector, plus, scaled

SIDES = {msgid("toe side"): TOE_SIDE, msgid("heel side"): HEEL_SIDE}
"""The sides of the board by their names in English."""
NEVER = 0.5 * pi
"""From this edge angle on, the boot stays inside the edge for good (rad)."""
_RIM = tuple((cos(i * pi / 18.0), sin(i * pi / 18.0)) for i in range(36))


class BootOnBoard(NamedTuple):
    """One boot where its binding holds it.

    Attributes:
        name: "front" or "rear".
        mount: how the binding holds it.
        side: +1 front, -1 rear.
        centre: of the binding (mm).
        sole: discs whose hull is the sole.
        upper: discs whose hull is the boot's reach above it.
        reach: how far it reaches.
    """

    name: str
    mount: Mount
    side: float
    centre: Space
    sole: list[Disc]
    upper: list[Disc]
    reach: FootReach

    def at(self, side: float) -> EdgeReach:
        """What it does at one side of the board."""
        return self.reach.toe_side if side == TOE_SIDE else self.reach.heel_side


@lru_cache(maxsize=2)
def boots_on(
    board: Board, soles: tuple[BootSole, BootSole], stance: Stance
) -> dict[str, BootOnBoard]:
    """Both boots, by "front" and "rear"; not to be changed.

    The drawings of one moment share them: they take longer than the drawing.
    """
    placed = {}
    feet = (("front", stance.front, 1.0), ("rear", stance.rear, -1.0))
    for (name, mount, side), boot in zip(feet, soles, strict=True):
        half = 0.5 * side
        centre = (half * float(stance.length), -half * float(stance.across), 0.0)
        discs = boot_discs(boot, sole_of(mount, side), centre)
        reach = foot_reach(board, boot, mount, side, centre)
        placed[name] = BootOnBoard(name, mount, side, centre, discs[:4], discs[4:], reach)
    return placed


class Overhang(NamedTuple):
    """The boots of a set-up on its board.

    Attributes:
        board: the board.
        soles: of the front and of the rear boot.
        wanted: edge angle up to which no boot should touch snow (rad).
        inputs: of the set-up.
        stance: where the bindings hold the boots.
        lengths: writes lengths.
    """

    board: Board
    soles: tuple[BootSole, BootSole]
    wanted: float
    inputs: Inputs
    stance: Stance
    lengths: Lengths = IN_MM

    @property
    def boots(self) -> dict[str, BootOnBoard]:
        """Both boots, by "front" and "rear"."""
        return boots_on(self.board, self.soles, self.stance)


class Stage(NamedTuple):
    """What every mark needs to know.

    Attributes:
        overhang: the boots on their board.
        view: how the paper lies in space.
    """

    overhang: Overhang
    view: View

    def right(self, side: float) -> int:
        """+1 where a side of the board is on the right of the paper, -1 on its left."""
        return 1 if self.view.right[1] * side > 0.0 else -1

    def edge_beside(self, point: Vector, side: float) -> Point:
        """The place of the edge beside a point, on the paper."""
        board = self.overhang.board
        return self.view.seen(space(board.edge(board.station_beside(point, side), side).point))


def outline_marks(placed: BootOnBoard, view: View) -> list[Mark]:
    """Sole and boot, and the binding's centre."""
    discs = {"sole": placed.sole}
    if placed.upper:
        discs = {"boot": placed.sole + placed.upper, **discs}
    keys = {part: f"{placed.name}.{part}" for part in (*discs, "centre")}
    areas = [Area(keys[part], keys[part], view.outline(_rim(each))) for part, each in discs.items()]
    return [*areas, Dot(keys["centre"], keys["centre"], view.seen(placed.centre), 2.5)]


def _rim(discs: list[Disc]) -> list[Space]:
    """Points around some discs."""
    return [
        space(plus(disc.centre, plus(scaled(disc.ahead, u), scaled(disc.outer, v))))
        for disc in discs
        for u, v in _RIM
    ]


def space(point: Vector) -> Space:
    """A single point in plain numbers."""
    x, y, z = point
    return float(x), float(y), float(z)


def said(reach: EdgeReach, lengths: Lengths) -> tuple[str, str]:
    """Overhang and edge angle in words, as "24 mm over" and "touches at 61°"."""
    over = round(float(reach.overhang))
    way = msgid("{length} over") if over > 0 else msgid("{length} inside")
    length = lengths.text(abs(over))
    beyond = tr(way, length=length) if over else tr("at the edge")
    if float(reach.edge_angle) > NEVER:
        return beyond, tr("never touches")
    # Rounded down: an angle said is one that can be ridden.
    angle = int(degrees(float(reach.edge_angle)) + 1e-6)
    return beyond, tr("touches at {angle}°", angle=angle)


def in_words(boots: dict[str, BootOnBoard], stage: Stage) -> str:
    """The reach of some boots in one sentence."""
    parts = [
        tr(
            _AT_SIDE[placed.name, words],
            reach=", ".join(said(placed.at(side), stage.overhang.lengths)),
        )
        for placed in boots.values()
        for words, side in SIDES.items()
    ]
    faults = [
        f"{tr(NAMES[name])}: {why}"
        for name, placed in boots.items()
        if (why := fault(placed, stage.overhang.lengths))
    ]
    wish = tr("wanted: clear up to {angle}°", angle=plain(degrees(stage.overhang.wanted)))
    return "; ".join((*parts, *faults, wish)) + "."


NAMES = {"front": msgid("front"), "rear": msgid("rear")}
_AT_SIDE = {
    ("front", "toe side"): msgid("front boot on the toe side {reach}"),
    ("front", "heel side"): msgid("front boot on the heel side {reach}"),
    ("rear", "toe side"): msgid("rear boot on the toe side {reach}"),
    ("rear", "heel side"): msgid("rear boot on the heel side {reach}"),
}


def fault(placed: BootOnBoard, lengths: Lengths) -> str:
    """Why a boot cannot stand so; "" where it can."""
    why = str(reach_reasons(placed.reach))
    if not why:
        return ""
    by = lengths.at_least(-float(placed.reach.clearance))
    return tr("{reason}: raise the plate by {by}", reason=reason_phrase(why), by=by)
