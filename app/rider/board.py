"""The board and the boots' soles, as typed: what overhang depends on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.words.field import Field


@dataclass(frozen=True, slots=True)
class BoardInputs:
    """What matters for overhang (mm and degrees).

    Attributes:
        waist_width_mm: of the board, from edge to edge at its waist.
        plate_height_mm: from the top of the board up to the sole at the binding's centre.
        boot_sole_length_mm: of the boot's sole; 0 takes it from the foot's length.
        boot_sole_width_mm: of the boot's sole; 0 takes it from the sole's length.
        board_thickness_mm: from the base to the top of the board at the bindings.
        sidecut_radius_mm: of the board's edges; 0 for straight ones.
        wanted_edge_deg: how far the board should tip before a boot touches snow.
    """

    waist_width_mm: float = 250.0
    plate_height_mm: float = 20.0
    boot_sole_length_mm: float = 0.0
    boot_sole_width_mm: float = 0.0
    board_thickness_mm: float = 10.0
    sidecut_radius_mm: float = 0.0
    wanted_edge_deg: float = 60.0


USUAL_BOARD: Final = BoardInputs()
"""The board until the rider says otherwise (engineering choices, no source)."""

BOARD_FIELDS: Final = (
    Field(
        "waist_width_mm", "board", "Waist width", "mm", 50.0, 600.0, 1.0,
        "Of the board where it is narrowest, from edge to edge.",
    ),
    Field(
        "plate_height_mm", "board", "Plate height", "mm", 0.0, 200.0, 1.0,
        "From the top of the board up to the boot's sole, at the centre of the binding.",
    ),
    Field(
        "boot_sole_length_mm", "board", "Sole length", "mm", 100.0, 500.0, 1.0,
        "Of the boot's sole, from heel to toe.", zero_allowed=True,
    ),
    Field(
        "boot_sole_width_mm", "board", "Sole width", "mm", 40.0, 250.0, 1.0,
        "Of the boot's sole where it is widest.", zero_allowed=True,
    ),
    Field(
        "board_thickness_mm", "board", "Board thickness", "mm", 2.0, 50.0, 0.5,
        "From the base of the board up to its top, at the bindings.",
    ),
    Field(
        "sidecut_radius_mm", "board", "Side-cut radius", "radius", 3000.0, 50000.0, 500.0,
        "Of the board's edges, in metres, as boards are marked. Leave it empty to take them as "
        "straight and parallel.", zero_allowed=True,
    ),
    Field(
        "wanted_edge_deg", "board", "Wanted edge angle", "deg", 10.0, 90.0, 1.0,
        "How far the board should tip on its edge before a boot touches the snow.",
    ),
)  # fmt: skip
"""What can be typed of board and boots."""

ZERO_ALLOWED: Final = frozenset(each.name for each in BOARD_FIELDS if each.zero_allowed)
"""What may be 0 though its range begins higher up: a sole's sizes then follow from the foot's
length, and edges are straight."""
