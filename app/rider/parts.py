"""A rider's parts list in the rider's units: what stands in its file and in its table.

The geometry's view of it comes from :func:`model`, and only from there.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians
from typing import Final

from app.words.field import REQUIRED, adjustable, fields_of
from app.words.language import msgid, tr, with_decimal_mark
from geometry.hardware.parts import Inserts, Kind, Part, PartsList

KINDS: Final = tuple(kind.value for kind in Kind)
"""What a part can be: "turnable", or a fixed slope "along" or "across" the foot."""

GRIDS_MM: Final = (20.0, 40.0)
"""Insert grids to start from (from memory, of ISO 10958-2); riders type what theirs is."""


@dataclass(frozen=True, slots=True)
class PartEntry:
    """One sort of part as its owner describes it.

    Attributes:
        name: what the owner calls it, without its slope; no other part on the
            list has both in common with it.
        kind: one of :data:`KINDS`.
        bearing_step_deg: of no meaning for a fixed slope.
    """

    # fmt: off
    name: str
    kind: str
    slope_deg: float = adjustable(
        REQUIRED, "parts", "Slope", "deg", 0.1, 20.0, 0.5,
        "The steepest slope of the part, from its low side to its high side.",
    )
    thickness_mm: float = adjustable(
        REQUIRED, "parts", "Thickness", "size", 0.0, 60.0, 1.0,
        "In the middle of the part, where the centre of the binding comes to stand. Parts are "
        "sold in millimetres, so a number alone counts in them; type 0.5 in for inches.",
    )
    count: int = adjustable(
        2, "parts", "How many", "", 0, 20, 1,
        "How many of this part there are, for both feet together.",
    )
    bearing_step_deg: float = adjustable(
        10.0, "parts", "Step of turning", "deg", 1.0, 180.0, 1.0,
        "From one way in which the part can be turned to the next. A full turn is a whole "
        "number of steps.",
    )
    # fmt: on

    @property
    def title(self) -> str:
        """Slope and name, as "6° round wedge"."""
        return f"{with_decimal_mark(f'{self.slope_deg:g}')}° {self.name}"


@dataclass(frozen=True, slots=True)
class Parts:
    """A parts list.  The defaults are a board's own inserts and no part at all.

    Attributes:
        name: what the user calls the list.
        parts: the parts.
        turns_with_binding: whether turnable parts turn along with the binding,
            or keep their bearing on the board.
    """

    # fmt: off
    name: str = msgid("No parts")
    parts: tuple[PartEntry, ...] = ()
    largest_stack: int = adjustable(
        2, "parts", "Largest stack", "", 0, 4, 1,
        "How many parts may stand on each other under one foot. Ask the makers of binding and "
        "board, and see that the screws reach.",
    )
    turns_with_binding: bool = True
    angle_step_deg: float = adjustable(
        3.0, "parts", "Step of the binding angle", "deg", 0.5, 30.0, 0.5,
        "From one angle to which the binding can be turned to the next, counted from straight "
        "across.",
    )
    insert_grid_mm: float = adjustable(
        GRIDS_MM[0], "parts", "Insert grid", "size", 1.0, 100.0, 1.0,
        "By how much the stance length changes from one choice of inserts to the next. Inserts "
        "are named in millimetres, so a number alone counts in them.",
    )
    shortest_stance_mm: float = adjustable(
        400.0, "parts", "Shortest stance", "mm", 0.0, 1000.0, 5.0,
        "The shortest stance length that the inserts allow.",
    )
    longest_stance_mm: float = adjustable(
        600.0, "parts", "Longest stance", "mm", 0.0, 1000.0, 5.0,
        "The longest stance length that the inserts allow.",
    )
    highest_mm: float = adjustable(
        0.0, "parts", "Most height", "mm", 0.0, 100.0, 1.0,
        "Up to which height parts may raise one foot, as the makers of board and bindings say; "
        "0 as long as you do not know. What stands higher is shown with a caution.",
    )
    slope_within_deg: float = adjustable(
        0.2, "parts", "Slopes true to ±", "deg", 0.0, 3.0, 0.1,
        "How far the slope of a part may be off from what is written on it. Lay an inclinometer "
        "on one to see.",
    )
    bearing_within_deg: float = adjustable(
        1.0, "parts", "Bearings true to ±", "deg", 0.0, 15.0, 0.5,
        "How far a part may stand turned from where you mean to set it.",
    )
    # fmt: on


NO_PARTS: Final = Parts()
"""What a set-up begins with."""


PART_FIELDS: Final = fields_of(PartEntry)
"""The numbers of a part."""

LIST_FIELDS: Final = fields_of(Parts)
"""The numbers of a list."""


def model(parts: Parts) -> PartsList:
    """The geometry's view of a parts list: mm and radians.

    Raises:
        ValueError: a value cannot be, a part has no name, or two cannot be told apart.
    """
    return PartsList(
        parts=tuple(_part(entry) for entry in parts.parts),
        largest_stack=parts.largest_stack,
        angle_step=radians(parts.angle_step_deg),
        inserts=Inserts(parts.insert_grid_mm, parts.shortest_stance_mm, parts.longest_stance_mm),
        turns_with_binding=parts.turns_with_binding,
    )


def _part(entry: PartEntry) -> Part:
    if not entry.name.strip():
        raise ValueError(tr("a part has no name; give it one"))
    return Part(
        name=entry.name,
        kind=Kind(entry.kind),
        slope=radians(entry.slope_deg),
        step=radians(entry.bearing_step_deg),
        thickness=entry.thickness_mm,
        count=entry.count,
    )
