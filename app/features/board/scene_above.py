"""From above: how far the boots reach beyond the edges of the board."""

from __future__ import annotations

from math import degrees

from app.drawing.marks import Area, Dot, Label, Line, Mark, Scene, outward, window_around
from app.drawing.projection import View
from app.features.board.boots_on_board import (
    NAMES,
    SIDES,
    BootOnBoard,
    Overhang,
    Stage,
    in_words,
    outline_marks,
    said,
    space,
)
from app.words.language import tr
from app.words.sentences import plain
from geometry.hardware.board import HEEL_SIDE, TOE_SIDE

BEYOND = 190.0
"""How much of the board is drawn beyond the bindings (mm)."""
CLOSE = 130.0
"""Along the board between two boots that leaves their words no room side by side (mm)."""
ROOM = 90.0
"""For the words beside the board (mm)."""


def scene_overhang(overhang: Overhang) -> Scene:
    """The boots on the board from above, with what lies beyond its edges."""
    view = View(right=(0.0, overhang.inputs.hand, 0.0), up=(1.0, 0.0, 0.0), toward=(0.0, 0.0, 1.0))
    stage, boots = Stage(overhang, view), overhang.boots
    ground, edges = _board(stage, outward(0.5 * float(overhang.stance.length) + BEYOND, 50.0))
    marks = list(ground)
    for placed in boots.values():
        marks += outline_marks(placed, view)
    # The edges lie under the boots, and are what these are measured from: over all of it.
    marks += edges
    for placed in boots.values():
        marks += _name(placed, view)
        for words, side in SIDES.items():
            marks += _overhang(placed, words, side, stage, push=_push(placed, boots, side))
    window = window_around(marks, 16.0, 25.0)
    wide = window._replace(left=window.left - ROOM, right=window.right + ROOM)
    title = tr("Overhang, from above")
    text = f"{title}: {in_words(boots, stage)}"
    return Scene("overhang", title, wide, tuple(marks), text)


def _board(stage: Stage, half: float) -> tuple[list[Mark], list[Mark]]:
    """The board between two cuts with its names, and its two edges."""
    board = stage.board
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
        Label("board.toe", "word", toe[-1], tr("toe side"), 0, (0.0, -10.0)),
        Label("board.heel", "word", heel[-1], tr("heel side"), 0, (0.0, -10.0)),
    ]
    edges: list[Mark] = [
        Line("board.toe_edge", "board.edge", toe),
        Line("board.heel_edge", "board.edge", heel),
    ]
    return ground, edges


def _name(placed: BootOnBoard, view: View) -> list[Mark]:
    """Which boot it is, and its binding angle."""
    text = f"{tr(NAMES[placed.name])} {plain(degrees(float(placed.mount.angle)))}°"
    at = view.seen(placed.centre)
    return [Label(f"{placed.name}.name", f"{placed.name}.number", at, text, 0, (0.0, -14.0))]


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
