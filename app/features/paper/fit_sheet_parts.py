"""The parts under the feet as they stand: for a page that says how to set them."""

from __future__ import annotations

from math import degrees, radians
from typing import Final

from app.features.paper.fit_sheet_text import NO_PARTS_UNDER, PartsOfFoot, PartsUnder, mount_words
from app.features.parts.bench import is_left, what_to_set
from app.features.parts.editing import shown_name
from app.rider.inputs import Inputs
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.stance.findings import USUAL_LIMITS
from app.stance.through import straight, terms_of
from app.words.language import tr
from app.words.reasons import reason_phrase
from geometry.hardware.combinations import Wanted, nearest_combinations

KNOWN_WITHIN_DEG: Final = 0.05
"""Parts that make the mounts in hand to within this are taken to be the ones under them."""


def parts_under(setup: Setup) -> PartsUnder:
    """How the set-up's own parts make the lift and cant in hand, foot by foot.

    Nothing where there are no parts.  Where none of their combinations makes these
    mounts they came about in another way: that is said instead.
    """
    if not any(part.count for part in setup.parts.parts):
        return NO_PARTS_UNDER
    try:
        parts = parts_model(setup.parts)
        asked, terms = straight(setup.inputs), terms_of(setup.inputs, USUAL_LIMITS)
        wanted = (_mount(setup.inputs, "front"), _mount(setup.inputs, "rear"))
        ranked = nearest_combinations(asked, terms, parts, wanted)
    except ValueError as error:
        reason = reason_phrase(error)
        return PartsUnder(
            instead=tr(
                "Which parts make these lifts and cants is not known: {reason}.", reason=reason
            )
        )
    nearest = min(ranked, key=lambda each: each.error)
    if degrees(nearest.error) > KNOWN_WITHIN_DEG:
        return PartsUnder(instead=_made_otherwise(setup))
    turning = parts.turns_with_binding
    return PartsUnder(
        tuple(
            PartsOfFoot(
                name,
                what_to_set(built, turns_with_binding=turning, left=is_left(setup.inputs, name)),
            )
            for name, built in (("front", nearest.front), ("rear", nearest.rear))
        )
    )


def _made_otherwise(setup: Setup) -> str:
    """That the parts do not make the mounts in hand, and where those stand that come near."""
    front, rear = (mount_words(*_angles(setup.inputs, foot)) for foot in ("front", "rear"))
    return tr(
        "The mounts are: front {front}; rear {rear}. No combination of the parts list “{name}” "
        "makes them; those that come nearest stand on the page Parts, under Combinations.",
        front=front,
        rear=rear,
        name=shown_name(setup.parts),
    )


def _mount(inputs: Inputs, foot: str) -> Wanted:
    """The lift and cant that a foot has."""
    lift, cant = _angles(inputs, foot)
    return Wanted(radians(lift), radians(cant))


def _angles(inputs: Inputs, foot: str) -> tuple[float, float]:
    """The lift and the cant of a foot (degrees)."""
    lift, cant = (float(getattr(inputs, f"{foot}_{what}_deg")) for what in ("lift", "cant"))
    return lift, cant
