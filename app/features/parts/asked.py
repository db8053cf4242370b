"""What is asked of parts: the answer, within what rider, maker and patience allow."""

from __future__ import annotations

from math import degrees, nan, radians
from typing import Final

import numpy as np

from app.rider.setup import Setup
from app.stance.answer import Answer
from app.stance.answer_words import next_words
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.through import terms_of
from app.words.language import msgid, tr
from app.words.sentences import plain
from geometry.fitting.answer import Mounts as Held
from geometry.fitting.answer import Terms
from geometry.fitting.proposal import begun_with


def parts_terms(setup: Setup, limits: Limits = USUAL_LIMITS) -> Terms:
    """What is asked of parts: just what is asked of the answer that one begins with."""
    return begun_with(terms_of(setup.inputs, limits), growing=setup.growing)


def tried_cants(answer: Answer) -> Held | None:
    """The cants that trials tell; None where there are no trials."""
    if not any(foot.trials for foot in answer.feet):
        return None
    cants = [[radians(foot.begin.cant_deg) if foot.trials else nan] for foot in answer.feet]
    return Held(np.full((2, 1), nan), np.array(cants))


def limits_words(setup: Setup) -> str:
    """Within which limits parts are proposed, in a sentence."""
    terms = parts_terms(setup)
    return tr(
        "Asked for: knees in plane and boots in range as the knees bend from {low}° to {high}°, "
        "with at most {lift}° of lift and {cant}° of cant to begin with.",
        low=plain(degrees(terms.bend_from)),
        high=plain(degrees(terms.bend_to)),
        lift=plain(degrees(terms.largest_lift)),
        cant=plain(degrees(terms.largest_cant)),
    )


def limits_numbers(setup: Setup) -> dict[str, float]:
    """The same as numbers, by the names of the inputs."""
    terms = parts_terms(setup)
    return {
        f"{name}_deg": round(degrees(getattr(terms, name)), 9)
        for name in ("bend_from", "bend_to", "largest_lift", "largest_cant")
    }


def held_words(answer: Answer) -> str:
    """What the answer itself holds back, foot by foot; "" where it is all of it."""
    said = [(foot.name, next_words(foot)) for foot in answer.feet]
    return " ".join(tr(_HELD[name], words=words) for name, words in said if words)


_HELD: Final = {"front": msgid("Front foot: {words}"), "rear": msgid("Rear foot: {words}")}
