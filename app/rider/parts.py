"""A rider's parts list in the rider's units: what stands in its file and in its table.

The geometry's view of it comes from :func:`model`, and only from there.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians
from typing import Final

from app.words.field import Field
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
        slope_deg: its steepest slope.
        thickness_mm: in its middle, under the centre of the binding.
        count: how many there are, for both feet together.
        bearing_step_deg: step between the bearings to which a turnable part can
            be set; of no meaning for a fixed slope.
    """

    name: str
    kind: str
    slope_deg: float
    thickness_mm: float
    count: int = 2
    bearing_step_deg: float = 10.0

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
        largest_stack: how many parts may stand on each other.
        turns_with_binding: whether turnable parts turn along with the binding,
            or keep their bearing on the board.
        angle_step_deg: step of the binding angles.
        insert_grid_mm: step of the stance length that the inserts allow.
        shortest_stance_mm: shortest stance length.
        longest_stance_mm: longest stance length.
    """

    name: str = msgid("No parts")
    parts: tuple[PartEntry, ...] = ()
    largest_stack: int = 2
    turns_with_binding: bool = True
    angle_step_deg: float = 3.0
    insert_grid_mm: float = GRIDS_MM[0]
    shortest_stance_mm: float = 400.0
    longest_stance_mm: float = 600.0


NO_PARTS: Final = Parts()
"""What a set-up begins with."""


PART_FIELDS: Final = (
    Field(
        "slope_deg", "parts", "Slope", "deg", 0.1, 20.0, 0.5,
        "The steepest slope of the part, from its low side to its high side.",
    ),
    Field(
        "thickness_mm", "parts", "Thickness", "size", 0.0, 60.0, 1.0,
        "In the middle of the part, where the centre of the binding comes to stand. Parts are "
        "sold in millimetres, so a number alone counts in them; type 0.5 in for inches.",
    ),
    Field(
        "count", "parts", "How many", "", 0, 20, 1,
        "How many of this part there are, for both feet together.",
    ),
    Field(
        "bearing_step_deg", "parts", "Step of turning", "deg", 1.0, 180.0, 1.0,
        "From one way in which the part can be turned to the next. A full turn is a whole "
        "number of steps.",
    ),
)  # fmt: skip
"""The numbers of a part."""

LIST_FIELDS: Final = (
    Field(
        "largest_stack", "parts", "Largest stack", "", 0, 4, 1,
        "How many parts may stand on each other under one foot. Ask the makers of binding and "
        "board, and see that the screws reach.",
    ),
    Field(
        "angle_step_deg", "parts", "Step of the binding angle", "deg", 0.5, 30.0, 0.5,
        "From one angle to which the binding can be turned to the next, counted from straight "
        "across.",
    ),
    Field(
        "insert_grid_mm", "parts", "Insert grid", "size", 1.0, 100.0, 1.0,
        "By how much the stance length changes from one choice of inserts to the next. Inserts "
        "are named in millimetres, so a number alone counts in them.",
    ),
    Field(
        "shortest_stance_mm", "parts", "Shortest stance", "mm", 0.0, 1000.0, 5.0,
        "The shortest stance length that the inserts allow.",
    ),
    Field(
        "longest_stance_mm", "parts", "Longest stance", "mm", 0.0, 1000.0, 5.0,
        "The longest stance length that the inserts allow.",
    ),
)  # fmt: skip
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
