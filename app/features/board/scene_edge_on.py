"""Edge on: the angle at which a boot touches snow as the board tips about its edges."""

from __future__ import annotations

from math import cos, degrees, sin

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, window_around
from app.drawing.projection import View
from app.features.board.boots_on_board import (
    NAMES,
    NEVER,
    SIDES,
    BootOnBoard,
    Overhang,
    Stage,
    fault,
    in_words,
    outline_marks,
    said,
    space,
)
from app.words.language import msgid, tr
from app.words.sentences import plain
from geometry.hardware.board import HEEL_SIDE, TOE_SIDE
from geometry.sole import sole_of

RAY = 1.1
"""Length of a snow line, in half widths of the board."""
ROOM = 85.0
"""For the words beside the board (mm)."""
PLATE = 46.0
"""Half the width of the plate as drawn (mm)."""


def scene_edge_angle(name: str, overhang: Overhang) -> Scene:
    """One boot on the board, seen along it from the tail, with the snow as the board tips.

    Args:
        name: "front" or "rear".
        overhang: the boots on their board.
    """
    view = View(right=(0.0, overhang.inputs.hand, 0.0), up=(0.0, 0.0, 1.0), toward=(-1.0, 0.0, 0.0))
    stage, placed = Stage(overhang, view), overhang.boots[name]
    marks = [*_board(placed, stage), *outline_marks(placed, view)]
    for words, side in SIDES.items():
        marks += _snow(placed, words, side, stage)
    marks += _words(placed, stage)
    title = tr(_TITLES[name])
    window = window_around(marks, 20.0, 25.0)
    wide = window._replace(left=window.left - ROOM, right=window.right + ROOM)
    text = f"{title}: {in_words({name: placed}, stage)}"
    return Scene(f"{name}_edge", title, wide, tuple(marks), text)


_TITLES = {
    "front": msgid("Front boot along the board, from the tail"),
    "rear": msgid("Rear boot along the board, from the tail"),
}


def _board(placed: BootOnBoard, stage: Stage) -> list[Mark]:
    """The board's section between the edges beside the points that touch, and the plate."""
    low = [stage.edge_beside(placed.at(side).touching, side) for side in (HEEL_SIDE, TOE_SIDE)]
    rise = float(stage.board.thickness)
    high = [(x, y + rise) for x, y in low]
    normal = space(sole_of(placed.mount, placed.side).normal)
    across = [placed.centre[1] + way * PLATE for way in (-1.0, 1.0)]
    under = [(y, -float(stage.board.plate_height)) for y in across]
    # The sole's height over a place beside its centre, square to the board's length.
    over = [(y, -normal[1] / normal[2] * (y - placed.centre[1])) for y in across]
    plate = [stage.view.seen((0.0, y, z)) for y, z in (*under, *over[::-1])]
    return [
        Area("board", "board", (*low, *high[::-1])),
        Area(f"{placed.name}.plate", "plate", tuple(plate)),
    ]


def _words(placed: BootOnBoard, stage: Stage) -> list[Mark]:
    """Which boot it is, under the board, and why it cannot stand so, under all other words."""
    board = stage.board
    at = (0.0, -float(board.plate_height + board.thickness))
    why, name = fault(placed, stage.overhang.lengths), placed.name
    fault_mark = Label("fault", "reach.early", at, why, 0, (0.0, 68.0))
    return [
        Label(f"{name}.name", f"{name}.word", at, tr(NAMES[name]), 0, (0.0, 16.0)),
        *([fault_mark] if why else []),
    ]


def _snow(placed: BootOnBoard, words: str, side: float, stage: Stage) -> list[Mark]:
    """The snow at one edge when the boot touches it, and at the wanted angle."""
    reach, right = placed.at(side), stage.right(side)
    key, angle = words.replace(" ", "_"), float(reach.edge_angle)
    edge = stage.edge_beside(reach.touching, side)
    length = RAY * 0.5 * float(stage.board.waist_width)
    shown, early = min(angle, NEVER), angle < stage.overhang.wanted
    wanted_end = _turned(edge, right, stage.overhang.wanted, length)
    wanted = tr("wanted {angle}°", angle=plain(degrees(stage.overhang.wanted)))
    marks: list[Mark] = [
        Line(f"{key}.wanted", "snow.wanted", (edge, wanted_end)),
        Label(f"{key}.wanted_word", "word", wanted_end, wanted, right, (6.0 * right, -4.0)),
        Line(f"{key}.arc", "projection", _arc(edge, right, shown, 0.45 * length)),
    ]
    if angle <= NEVER:
        ray = (edge, _turned(edge, right, shown, length))
        touching = stage.view.seen(space(reach.touching))
        marks.append(Line(f"{key}.snow", "snow.early" if early else "snow", ray))
        marks.append(Dot(f"{key}.touch", f"{placed.name}.joint.near", touching, 4.0))
    role = "reach.early" if early else "reach"
    # Under the edge, where no snow comes however far the board tips.
    marks += [
        Label(f"{key}.{i}", role, edge, line, 0, (20.0 * right, 16.0 * (i + 1)))
        for i, line in enumerate((tr(words), *said(reach, stage.overhang.lengths)))
    ]
    return marks


def _turned(edge: Point, right: int, angle: float, distance: float) -> Point:
    """A point beside an edge, up from the board's base by an angle."""
    return edge[0] + right * distance * cos(angle), edge[1] + distance * sin(angle)


def _arc(edge: Point, right: int, angle: float, radius: float) -> tuple[Point, ...]:
    return tuple(_turned(edge, right, angle * i / 16.0, radius) for i in range(17))
