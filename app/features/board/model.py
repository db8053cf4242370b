"""How far the boots of a set-up reach beyond its board, in numbers and words."""

from __future__ import annotations

from math import degrees, radians
from typing import Final

from app.drawing.marks import Scene
from app.drawing.solids import SOLE_LENGTH
from app.features.board.boots_on_board import SIDES, BootOnBoard, Overhang, fault
from app.features.board.scene import scene_edge_angle, scene_overhang
from app.rider.inputs import ENDS, model
from app.rider.setup import Setup
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry.hardware.board import Board, BootSole

SOLE_WIDTH: Final = 0.342
"""Width of a boot's sole over its length, as the soles are drawn."""
FIRST_RADIUS: Final = 10000.0
"""From where steps change the side-cut while the edges are straight (mm)."""
REMEDY: Final = msgid(
    "More binding angle, a higher plate, a wider board or a shorter sole lets the board tip "
    "further."
)
"""What a rider can do about a boot that touches early."""


def overhang_of(setup: Setup, lengths: Lengths = IN_MM) -> Overhang:
    """The boots of a set-up on its board, with lengths to be told in a unit.

    Raises:
        ValueError: the sole is wider than it is long.
    """
    typed = setup.board
    board = Board(
        waist_width=typed.waist_width_mm,
        plate_height=typed.plate_height_mm,
        thickness=typed.board_thickness_mm,
        sidecut_radius=typed.sidecut_radius_mm or None,
    )
    front, rear = (BootSole(sole_length(setup, end), sole_width(setup, end)) for end in ENDS)
    wanted, stance = radians(typed.wanted_edge_deg), model(setup.inputs).stance
    return Overhang(board, (front, rear), wanted, setup.inputs, stance, lengths)


def sole_length(setup: Setup, end: str) -> float:
    """Length of the front or rear boot's sole (mm): as typed, or from the foot's length."""
    foot = setup.inputs.leg(end).foot_length_mm
    return setup.board.boot_sole_length_mm or round(SOLE_LENGTH * foot)


def sole_width(setup: Setup, end: str) -> float:
    """Width of the front or rear boot's sole (mm): as typed, or from the sole's length."""
    return setup.board.boot_sole_width_mm or round(SOLE_WIDTH * sole_length(setup, end))


def stand_in(setup: Setup, name: str, lengths: Lengths = IN_MM) -> tuple[float, str]:
    """What holds where a size of the board is left empty: its value, and what to write there.

    Of boots that differ the value is the front one's, and both are written.

    Raises:
        KeyError: that size cannot be left empty.
    """
    long, wide = ([each(setup, end) for end in ENDS] for each in (sole_length, sole_width))
    values = {
        "boot_sole_length_mm": (long[0], _of_both(long, lengths)),
        "boot_sole_width_mm": (wide[0], _of_both(wide, lengths)),
        "sidecut_radius_mm": (FIRST_RADIUS, tr("straight", "of edges")),
    }
    return values[name]


def _of_both(sizes: list[float], lengths: Lengths) -> str:
    """A size of the front and of the rear boot; once where they are the same."""
    return " / ".join(dict.fromkeys(lengths.text(size) for size in sizes))


def flags(overhang: Overhang) -> tuple[str, ...]:
    """What is wrong, a sentence for each thing; empty where nothing is."""
    early = [each for placed in overhang.boots.values() for each in _early(placed, overhang.wanted)]
    limit = plain(degrees(overhang.wanted))
    words = msgid("Below the wanted {limit}°: {boots}.")
    found = [tr(words, limit=limit, boots="; ".join(early))] if early else []
    faults = [(name, fault(each, overhang.lengths)) for name, each in overhang.boots.items()]
    return (*found, *(tr(_FAULTS[name], reason=why) for name, why in faults if why))


_FAULTS: Final = {
    "front": msgid("Front boot: {reason}."),
    "rear": msgid("Rear boot: {reason}."),
}
_EARLY: Final = {"front": msgid("front boot {angles}"), "rear": msgid("rear boot {angles}")}


def verdict(overhang: Overhang) -> str:
    """What helps a boot that touches early, or that none does; and within what that is true."""
    if any(_early(placed, overhang.wanted) for placed in overhang.boots.values()):
        said = tr(REMEDY)
    else:
        angle = plain(degrees(overhang.wanted))
        said = tr("Both boots stay clear of the snow up to {angle}°.", angle=angle)
    return f"{said} {tr(_AS_DRAWN)}"


_AS_DRAWN: Final = msgid(
    "Told of the soles as drawn, on a flat board and hard snow: shells and buckles that stand "
    "out beyond them, and an edge that cuts in, touch sooner."
)


def overhang_scenes(overhang: Overhang) -> dict[str, Scene]:
    """The drawings: from above, and of each boot along the board, by "above", "front", "rear"."""
    along = {name: scene_edge_angle(name, overhang) for name in ("front", "rear")}
    return {"above": scene_overhang(overhang), **along}


def _early(placed: BootOnBoard, wanted: float) -> list[str]:
    """Where a boot touches snow before the wanted angle."""
    angles = {words: float(placed.at(side).edge_angle) for words, side in SIDES.items()}
    # Rounded down: an angle said is one that can be ridden.
    early = [f"{int(degrees(a) + 1e-6)}° {tr(words)}" for words, a in angles.items() if a < wanted]
    return [tr(_EARLY[placed.name], angles=", ".join(early))] if early else []
