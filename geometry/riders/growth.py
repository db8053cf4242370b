"""Growing riders: stature and leg length by age.

Dutch growth study of 1997: Fredriks et al. 2000, Pediatr Res 47:316-323
(stature), and 2005, Arch Dis Child 90:807-812 (leg length over stature; leg
length is stature less sitting height).
"""

from __future__ import annotations

from typing import Literal, NamedTuple, TypeAlias

from geometry.arrays import np
from geometry.checks import require_between
from geometry.elementary import Real, real
from geometry.riders.estimates import Estimate, either_of

Children: TypeAlias = Literal["either", "boys", "girls"]
"""Whose figures a growth estimate rests on; "either" as in :mod:`geometry.riders.estimates`."""

AGES = (6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0)
"""Ages of the table (years)."""


class _Table(NamedTuple):
    """One row of each for every age: mean stature and its standard deviation (mm), share."""

    stature: tuple[float, ...]
    deviation: tuple[float, ...]
    leg_share: tuple[float, ...]


_TABLES = {
    "boys": _Table(
        stature=(1201.0, 1328.0, 1432.0, 1540.0, 1682.0, 1787.0, 1826.0),
        deviation=(49.0, 58.0, 66.0, 75.0, 81.0, 76.0, 72.0),
        leg_share=(0.459, 0.470, 0.481, 0.489, 0.493, 0.489, 0.487),
    ),
    "girls": _Table(
        stature=(1187.0, 1315.0, 1433.0, 1553.0, 1647.0, 1686.0, 1698.0),
        deviation=(50.0, 57.0, 64.0, 68.0, 67.0, 66.0, 65.0),
        leg_share=(0.459, 0.472, 0.479, 0.485, 0.482, 0.478, 0.476),
    ),
}


class Growth(NamedTuple):
    """A child of some age.

    Attributes:
        stature: standing height (mm) and its spread among children of that age.
        leg_length: stature less sitting height (mm); its spread is the
            stature's share only, as the study gives none for the ratio.
    """

    stature: Estimate
    leg_length: Estimate


def growth(age: Real, children: Children = "either") -> Growth:
    """Stature and leg length at an age (years), straight between the table's ages.

    Raises:
        ValueError: the age is outside the table.
    """
    require_between("age", age, AGES[0], AGES[-1], "years")
    if children == "either":
        boys, girls = growth(age, "boys"), growth(age, "girls")
        return Growth(
            either_of(boys.stature, girls.stature), either_of(boys.leg_length, girls.leg_length)
        )
    table = _TABLES[children]
    stature = Estimate(_between(age, table.stature), _between(age, table.deviation))
    share = _between(age, table.leg_share)
    return Growth(stature, Estimate(share * stature.value, share * stature.standard_error))


def _between(age: Real, values: tuple[float, ...]) -> Real:
    return real(np.interp(age, AGES, values))
