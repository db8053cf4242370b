"""Measuring errors: how large each is, and how far they go together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from geometry.checks import require_between
from geometry.fitting.inputs import INPUTS, is_angle

Correlations: TypeAlias = "Mapping[tuple[str, str], float]"
"""How far the errors of two inputs go together, -1 to 1, by their names in either order;
pairs that are not named do not."""


def checked_spreads(spreads: Mapping[str, float]) -> dict[str, float]:
    """The spreads that are not zero."""
    for name, spread in spreads.items():
        if name not in INPUTS:
            raise ValueError(f"there is no input {name!r}; the inputs are {', '.join(INPUTS)}")
        most, unit = (30.0, "deg") if is_angle(name) else (150.0, "mm")
        require_between(f"standard error of {name}", float(spread), 0.0, most, unit)
    return {name: float(spread) for name, spread in spreads.items() if spread > 0.0}


def shifts_each_way(steps: Mapping[str, float]) -> dict[str, NDArray[Any]]:
    """For each input its shift in every element of a batch.

    Element ``i`` adds the ``i``-th step, element ``n + i`` takes it off, and the
    last one leaves all as it is.
    """
    n = len(steps)
    shifts = {name: np.zeros(2 * n + 1) for name in steps}
    for i, (name, step) in enumerate(steps.items()):
        shifts[name][i], shifts[name][n + i] = step, -step
    return shifts


def correlation_matrix(names: list[str], correlations: Correlations) -> NDArray[Any]:
    """Correlation matrix of the errors of some inputs."""
    matrix = np.eye(len(names))
    for (one, other), correlation in correlations.items():
        for name in (one, other):
            if name not in INPUTS:
                raise ValueError(f"there is no input {name!r}; the inputs are {', '.join(INPUTS)}")
        require_between(f"correlation of {one} and {other}", float(correlation), -1.0, 1.0, "")
        if one in names and other in names:
            i, j = names.index(one), names.index(other)
            matrix[i, j] = matrix[j, i] = correlation
    return matrix
