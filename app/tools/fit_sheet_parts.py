"""The parts under the feet as they stand: for a page that says how to set them."""

from __future__ import annotations

from math import degrees, radians
from typing import Final

import numpy as np

from app.inputs import Inputs, model
from app.setup import Setup
from app.tools.fit_sheet_text import PartsOfFoot
from app.tools.parts_list import model as parts_model
from app.tools.parts_words import what_to_set
from geometry.fitting.inputs import Setup as Solved
from geometry.fitting.sweep import RidingRange
from geometry.hardware.combinations import Wanted, ranked_combinations, wanted_exactly

KNOWN_WITHIN_DEG: Final = 0.05
"""Parts that make the mounts in hand to within this are taken to be the ones under them."""


def parts_under(setup: Setup) -> tuple[PartsOfFoot, ...]:
    """How the set-up's own parts make the lift and cant in hand, foot by foot.

    Empty where there are no parts, or where none of their combinations makes
    these mounts: then they came about in another way, and nothing is known.
    """
    if not any(part.count for part in setup.parts.parts):
        return ()
    try:
        parts = parts_model(setup.parts)
        solved = Solved(*model(setup.inputs))
        wanted = (_mount(setup.inputs, "front"), _mount(setup.inputs, "rear"))
        ranked = ranked_combinations(solved, _posture_in_hand(solved), parts, wanted)
    except ValueError:
        return ()
    nearest = min(ranked, key=lambda each: each.error)
    if degrees(nearest.error) > KNOWN_WITHIN_DEG:
        return ()
    turning = parts.turns_with_binding
    return tuple(
        PartsOfFoot(name, what_to_set(built, turns_with_binding=turning))
        for name, built in (("front", nearest.front), ("rear", nearest.rear))
    )


def _posture_in_hand(solved: Solved) -> RidingRange:
    """A riding range of one posture: what the knees do elsewhere does not matter here."""
    crouch = solved.crouch
    return RidingRange(np.array([crouch.knee_bend]), np.array([crouch.hips_turned]))


def _mount(inputs: Inputs, foot: str) -> Wanted:
    """The lift and cant that a foot has."""
    lift, cant = (float(getattr(inputs, f"{foot}_{what}_deg")) for what in ("lift", "cant"))
    return wanted_exactly(radians(lift), radians(cant))
