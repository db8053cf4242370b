"""The boots on their board: from above, over its edges, and edge on, as the board tips."""

from __future__ import annotations

from math import cos, degrees, sin

from app.drawing.marks import Area, Dot, Label, Line, Mark, Point, Scene, outward, window_around
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

BEYOND = 190.0
"""How much of the board is drawn beyond the bindings (mm)."""
CLOSE = 130.0
"""Along the board between two boots that leaves their words no room side by side (mm)."""
RAY = 1.1
"""Length of a snow line, in half widths of the board."""
PLATE = 46.0
"""Half the width of the plate as drawn (mm)."""


def scene_overhang(overhang: Overhang) -> Scene:
    """The boots on the board from above, with what lies beyond its edges."""
    view = View(right=(0.0, overhang.inputs.hand, 0.0), up=(1.0, 0.0, 0.0), toward=(0.0, 0.0, 1.0))
    stage, boots = Stage(overhang, view), overhang.boots
    ground, edges = _board(stage, outward(0.5 * float(overhang.stance.length) + BEYOND, 50.0))
    outlines = [mark for placed in boots.values() for mark in outline_marks(placed, view)]
    # The edges lie under the boots, and are what these are measured from: over all of it.
    marks = [*ground, *outlines, *edges]
    for placed in boots.values():
        marks.append(_name(placed, view))
        for words, side in SIDES.items():
            marks += _overhang(placed, words, side, stage, push=_push(placed, boots, side))
    said_of = in_words(boots, stage)
    return _scene("overhang", tr("Overhang, from above"), marks, said_of, air=16.0, room=90.0)


def _scene(
    key: str, title: str, marks: list[Mark], said_of: str, *, air: float, room: float
) -> Scene:
    """A drawing with air around it, and room for words at its left and right (mm)."""
    window = window_around(marks, air, 25.0)
    wide = window._replace(left=window.left - room, right=window.right + room)
    return Scene(key, title, wide, tuple(marks), f"{title}: {said_of}")


def _board(stage: Stage, half: float) -> tuple[list[Mark], list[Mark]]:
    """The board between two cuts with its names, and its two edges."""
    board = stage.overhang.board
    stations = [half * i / 12.0 - float(board.waist_at) for i in range(-12, 13)]
    toe, heel = (
        tuple(stage.view.seen(space(board.edge(x, side).point)) for x in stations)
        for side in (TOE_SIDE, HEEL_SIDE)
    )
    ground: list[Mark] = [
        Area("board", "board.face", (*toe, *heel[::-1])),
        Line("board.centre", "centre", ((0.0, -half - 14.0), (0.0, half + 14.0))),
        Label("board.nose", "word", (0.0, half), tr("nose"), 1, (8.0, 10.0)),
        Label("board.tail", "word", (0.0, -half), tr("tail"), 1, (8.0, -10.0)),
        *_side_names(toe[-1], heel[-1]),
    ]
    edges: list[Mark] = [
        Line("board.toe_edge", "board.edge", toe),
        Line("board.heel_edge", "board.edge", heel),
    ]
    return ground, edges


def _side_names(toe: Point, heel: Point) -> list[Mark]:
    """The names of both edges over their ends, each away from the other: words may be large."""
    way = 1 if toe[0] > heel[0] else -1
    return [
        Label("board.toe", "word", toe, tr("toe side"), way, (0.0, -10.0)),
        Label("board.heel", "word", heel, tr("heel side"), -way, (0.0, -10.0)),
    ]


def _name(placed: BootOnBoard, view: View) -> Mark:
    """Which boot it is, and its binding angle."""
    text = f"{tr(NAMES[placed.name])} {plain(degrees(float(placed.mount.angle)))}°"
    at = view.seen(placed.centre)
    return Label(f"{placed.name}.name", f"{placed.name}.number", at, text, 0, (0.0, -14.0))


def _push(placed: BootOnBoard, boots: dict[str, BootOnBoard], side: float) -> int:
    """+1 or -1 where the words of two boots beside an edge must make room for each other.

    +1 moves the words of this boot down.
    """
    along = {name: float(each.at(side).farthest[0]) for name, each in boots.items()}
    if abs(along["front"] - along["rear"]) > CLOSE:
        return 0
    return -1 if placed.name == "front" else 1


def _overhang(
    placed: BootOnBoard, words: str, side: float, stage: Stage, *, push: int
) -> list[Mark]:
    """The distance beyond one edge, and the edge angle at which the boot touches snow."""
    reach = placed.at(side)
    key = f"{placed.name}.{words.replace(' ', '_')}"
    role = "reach.early" if float(reach.edge_angle) < stage.overhang.wanted else "reach"
    edge, tip = stage.edge_beside(reach.farthest, side), stage.view.seen(space(reach.farthest))
    right = stage.right(side)
    outer = max(edge, tip, key=lambda p: right * p[0])
    told = said(reach, stage.overhang.lengths)
    lines = (tr(NAMES[placed.name]), *told) if push else told
    middle = 8.0 * (len(lines) - 1) - 26.0 * push
    return [
        Line(f"{key}.line", role, (edge, tip)),
        Dot(f"{key}.tip", f"{placed.name}.joint.near", tip, 3.0),
        *(
            Label(f"{key}.{i}", role, outer, line, right, (right * 12.0, 16.0 * i - middle))
            for i, line in enumerate(lines)
        ),
    ]


def scene_edge_angle(name: str, overhang: Overhang) -> Scene:
    """One boot on the board, seen along it from the tail, with the snow as the board tips.

    Args:
        name: "front" or "rear".
        overhang: the boots on their board.
    """
    view = View(right=(0.0, overhang.inputs.hand, 0.0), up=(0.0, 0.0, 1.0), toward=(-1.0, 0.0, 0.0))
    stage, placed = Stage(overhang, view), overhang.boots[name]
    marks = [*_section(placed, stage), *outline_marks(placed, view)]
    for words, side in SIDES.items():
        marks += _snow(placed, words, side, stage)
    marks += _words(placed, stage)
    said_of = in_words({name: placed}, stage)
    return _scene(f"{name}_edge", tr(_TITLES[name]), marks, said_of, air=20.0, room=85.0)


_TITLES = {
    "front": msgid("Front boot along the board, from the tail"),
    "rear": msgid("Rear boot along the board, from the tail"),
}


def _section(placed: BootOnBoard, stage: Stage) -> list[Mark]:
    """The board's section between the edges beside the points that touch, and the plate."""
    low = [stage.edge_beside(placed.at(side).touching, side) for side in (HEEL_SIDE, TOE_SIDE)]
    rise = float(stage.overhang.board.thickness)
    high = [(x, y + rise) for x, y in low]
    normal = space(sole_of(placed.mount, placed.side).normal)
    across = [placed.centre[1] + way * PLATE for way in (-1.0, 1.0)]
    under = [(y, -float(stage.overhang.board.plate_height)) for y in across]
    # The sole's height over a place beside its centre, square to the board's length.
    over = [(y, -normal[1] / normal[2] * (y - placed.centre[1])) for y in across]
    plate = [stage.view.seen((0.0, y, z)) for y, z in (*under, *over[::-1])]
    return [
        Area("board", "board", (*low, *high[::-1])),
        Area(f"{placed.name}.plate", "plate", tuple(plate)),
    ]


def _words(placed: BootOnBoard, stage: Stage) -> list[Mark]:
    """Which boot it is, under the board, and why it cannot stand so, under all other words."""
    board = stage.overhang.board
    at = (0.0, -float(board.plate_height + board.thickness))
    why, name = fault(placed, stage.overhang.lengths), placed.name
    marks = [Label(f"{name}.name", f"{name}.word", at, tr(NAMES[name]), 0, (0.0, 16.0))]
    return [*marks, *([Label("fault", "reach.early", at, why, 0, (0.0, 68.0))] if why else [])]


def _snow(placed: BootOnBoard, words: str, side: float, stage: Stage) -> list[Mark]:
    """The snow at one edge when the boot touches it, and at the wanted angle."""
    reach, right = placed.at(side), stage.right(side)
    key, angle = words.replace(" ", "_"), float(reach.edge_angle)
    edge = stage.edge_beside(reach.touching, side)
    length = RAY * 0.5 * float(stage.overhang.board.waist_width)
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
