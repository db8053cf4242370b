"""What is said of a growing rider: the age, how far to look ahead, and whose figures."""

from __future__ import annotations

from typing import Final

from app.words.field import Field
from geometry.riders.growth import AGES, Children

AGE: Final = Field(
    "age", "growth", "Age in years", "years", AGES[0], AGES[-1], 1.0,
    "Of the rider today. The growth figures reach from 6 to 18 years.",
)  # fmt: skip
AHEAD: Final = Field(
    "ahead", "growth", "Years ahead", "years", 0.0, 12.0, 1.0,
    "How far the forecast looks. Growing ends at 18.",
)  # fmt: skip
CHILDREN: Final[tuple[Children, ...]] = ("either", "boys", "girls")
