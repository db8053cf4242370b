"""The board and the boots' soles, as typed: what overhang depends on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


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
