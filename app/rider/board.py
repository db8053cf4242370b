"""The board and the boots' soles, as typed: what overhang depends on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.words.field import adjustable, fields_of


@dataclass(frozen=True, slots=True)
class BoardInputs:
    """What matters for overhang (mm and degrees).

    A sole's length of 0 is taken from the foot's, its width of 0 from its length; edges
    with a radius of 0 are straight.
    """

    # fmt: off
    waist_width_mm: float = adjustable(
        250.0, "board", "Waist width", "mm", 50.0, 600.0, 1.0,
        "Of the board where it is narrowest, from edge to edge.",
    )
    plate_height_mm: float = adjustable(
        20.0, "board", "Plate height", "mm", 0.0, 200.0, 1.0,
        "From the top of the board up to the boot's sole, at the centre of the binding.",
    )
    boot_sole_length_mm: float = adjustable(
        0.0, "board", "Sole length", "mm", 100.0, 500.0, 1.0,
        "Of the boot's sole, from heel to toe.", zero_allowed=True,
    )
    boot_sole_width_mm: float = adjustable(
        0.0, "board", "Sole width", "mm", 40.0, 250.0, 1.0,
        "Of the boot's sole where it is widest.", zero_allowed=True,
    )
    board_thickness_mm: float = adjustable(
        10.0, "board", "Board thickness", "mm", 2.0, 50.0, 0.5,
        "From the base of the board up to its top, at the bindings.",
    )
    sidecut_radius_mm: float = adjustable(
        0.0, "board", "Side-cut radius", "radius", 3000.0, 50000.0, 500.0,
        "Of the board's edges, in metres, as boards are marked. Leave it empty to take them as "
        "straight and parallel.", zero_allowed=True,
    )
    wanted_edge_deg: float = adjustable(
        60.0, "board", "Wanted edge angle", "deg", 10.0, 90.0, 1.0,
        "How far the board should tip on its edge before a boot touches the snow.",
    )
    # fmt: on


USUAL_BOARD: Final = BoardInputs()
"""The board until the rider says otherwise (engineering choices, no source)."""

BOARD_FIELDS: Final = fields_of(BoardInputs)
"""What can be typed of board and boots."""

ZERO_ALLOWED: Final = frozenset(each.name for each in BOARD_FIELDS if each.zero_allowed)
"""Names of what may be 0 though its range begins higher up."""
