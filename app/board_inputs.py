"""The board and the boots' soles, as typed: what overhang depends on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from app.inputs import Field


@dataclass(frozen=True, slots=True)
class BoardInputs:
    """Dimensions that matter for overhang (mm).

    Attributes:
        waist_width_mm: of the board, from edge to edge at its waist.
        plate_height_mm: from the top of the board up to the sole at the binding's centre.
        boot_sole_length_mm: of the boot's sole; 0 takes it from the foot's length.
        boot_sole_width_mm: of the boot's sole; 0 takes it from the foot's length.
    """

    waist_width_mm: float = 250.0
    plate_height_mm: float = 20.0
    boot_sole_length_mm: float = 0.0
    boot_sole_width_mm: float = 0.0


USUAL_BOARD: Final = BoardInputs()
"""The board until the rider says otherwise."""

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
        "Of the boot's sole, from heel to toe.",
    ),
    Field(
        "boot_sole_width_mm", "board", "Sole width", "mm", 40.0, 250.0, 1.0,
        "Of the boot's sole where it is widest.",
    ),
)  # fmt: skip
"""What can be typed of board and boots."""

FROM_THE_FOOT: Final = frozenset({"boot_sole_length_mm", "boot_sole_width_mm"})
"""Of these, the ones that may be 0: then they follow from the foot's length."""
