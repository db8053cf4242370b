"""The legs of some inputs where they settle: solved once, for all that is told of them."""

from __future__ import annotations

from typing import NamedTuple

from app.rider.inputs import Inputs, model
from geometry import Posture, PostureInputs, solve


class Settled(NamedTuple):
    """Inputs and the posture that they lead to.

    Attributes:
        inputs: as the rider set them.
        model: the same as the geometry takes them.
        posture: the solved legs; nan where no posture settles.
    """

    inputs: Inputs
    model: PostureInputs
    posture: Posture


def settled(inputs: Inputs) -> Settled:
    """The legs of some inputs where they settle.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    given = model(inputs)
    return Settled(inputs, given, solve(*given))
