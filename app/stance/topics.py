"""What can be asked about a stance: by these keys each view and page leads to the reasons."""

from __future__ import annotations

from typing import Final, NamedTuple

SPACING, RULE, KNEE, BEND, BOOT, HIP, WEIGHT, CANT, LIFT = (
    "spacing", "rule", "knee", "bend", "boot", "hip", "weight", "cant", "lift",
)  # fmt: skip
TOPICS: Final = (SPACING, RULE, KNEE, BEND, BOOT, HIP, WEIGHT, CANT, LIFT)
"""In the order in which one leads to the next."""
OF_BOTH: Final = frozenset({SPACING, WEIGHT})
"""What is asked of the stance rather than of one leg."""
OF_ANSWER: Final = frozenset({CANT, LIFT})
"""What is a part of the answer, and so takes a moment."""


class Asked(NamedTuple):
    """What somebody wants to know the reasons of.

    Attributes:
        leg: "front" or "rear".
        topic: one of :data:`TOPICS`.
    """

    leg: str
    topic: str
