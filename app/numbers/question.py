"""What is asked beside the set-up: further sections, and what they have to know."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from app.features.growing.ages import AGE, AHEAD, CHILDREN
from app.features.parts.wishes import WISH_FIELDS
from app.rider.inputs import ENDS
from app.rider.parts import PartEntry
from app.rider.setup import Setup
from app.rider.trials import STEPS_DEG
from app.words.field import Field
from geometry.riders.growth import Children

SECTIONS: Final = {
    "reachable": "the best stances within the limits, with the parts at hand; some seconds",
    "curves": "both legs point by point over the bend and over turned hips",
    "map": "full cant over binding angle and stance length",
    "kits": "the fewest parts for this set-up and those of --also, and what to get for them",
}
"""What is told only where it is asked for, since it is slow or long."""

USUAL_GROUPS: Final = (
    "front", "rear", "stance", "pelvis", "answer", "inputs", "body", "bend", "place", "parts",
    "wedges", "trials", "growth",
)  # fmt: skip
"""What is told where nothing else is said."""
GROUPS: Final = (*USUAL_GROUPS, *SECTIONS)
"""All that can be told, in its order."""

CONSENT: Final = ("neither", *ENDS, "both")
WANTED: Final = ("needs", "mounts")
CHOICES: Final[Mapping[str, tuple[str, ...]]] = {
    "wanted": WANTED,
    "children": CHILDREN,
    "beyond_full_cant": CONSENT,
}
"""What is asked in words: the name and its words, the usual one first."""
MEANINGS: Final = {
    "wanted": "what parts are to build: what the bindings need, or the inputs' lifts and cants",
    "children": "whose growth figures the forecast rests on",
    "beyond_full_cant": "legs whose next cant may lie beyond flat or full cant",
}
"""What the words are about, by name."""

STEP: Final = Field(
    "cant_step_deg", "trials", "Step in which the parts at hand set a cant", "deg",
    STEPS_DEG[0], STEPS_DEG[-1], 0.5, "Of the cant to try next; else as the listed parts make it.",
)  # fmt: skip


def limit_name(end: Field) -> str:
    """The name of one end of a limit, with its unit."""
    return f"{end.name}_{end.unit}"


LIMITS: Final = {limit_name(end): end for pair in WISH_FIELDS.values() for end in pair}
NUMBERS: Final[Mapping[str, Field]] = {
    "age_years": AGE,
    "years_ahead": AHEAD,
    STEP.name: STEP,
    **LIMITS,
}
"""What is asked in numbers, by name."""
TEXTS: Final[Mapping[str, str]] = {
    "can_get": "slopes and thicknesses that can be got, as “2° 6 mm; 4° 8 mm”",
}
"""What is asked in a line of its own, and what stands in it, by name."""


@dataclass(frozen=True, slots=True)
class Question:
    """What the numbers are to tell of beside the set-up.

    Attributes:
        sections: those of :data:`SECTIONS` that are wanted.
        only: those of :data:`GROUPS` that are wanted instead of the usual ones.
        wanted: what the parts are to build, one of :data:`WANTED`.
        last_season: the set-up to hold the present one against.
        age_years: of a growing rider; None for no forecast.
        years_ahead: how far the forecast looks.
        children: whose growth figures to take.
        cant_step_deg: step in which the parts at hand set a cant; None for the step
            of the parts list.
        agreed: legs whose cant may leave the range from flat to full cant.
        limits: ends of what the rider is ready to stand in, by the names of
            :class:`app.features.parts.reaching.Wishes`; round the present stance where
            none is said.
        also: names of further set-ups, and the set-ups, that one kit of parts is to serve.
        can_get: parts that can be got for that.
    """

    sections: frozenset[str] = frozenset()
    wanted: str = WANTED[0]
    last_season: Setup | None = None
    age_years: float | None = None
    years_ahead: float = AHEAD.step
    children: Children = CHILDREN[0]
    cant_step_deg: float | None = None
    agreed: frozenset[str] = frozenset()
    limits: tuple[tuple[str, float], ...] = ()
    also: tuple[tuple[str, Setup], ...] = ()
    can_get: tuple[PartEntry, ...] = ()
    only: frozenset[str] = frozenset()

    @property
    def groups(self) -> tuple[str, ...]:
        """What is to be told, in its order."""
        wanted = (self.only or {*USUAL_GROUPS}) | self.sections
        return tuple(name for name in GROUPS if name in wanted)


def question_of(
    sections: frozenset[str],
    asked: Mapping[str, Any],
    last_season: Setup | None,
    also: Sequence[tuple[str, Setup]] = (),
    only: frozenset[str] = frozenset(),
) -> Question:
    """The question that words and numbers stand for.

    Args:
        sections: of :data:`SECTIONS`.
        asked: values by the names of :data:`CHOICES` and :data:`NUMBERS`, in their ranges.
        last_season: the set-up to hold the present one against.
        also: names of further set-ups, and the set-ups, for the kits.
        only: of :data:`GROUPS`, instead of the usual ones.

    Raises:
        ValueError: a line cannot be read.
    """
    rest = {name: value for name, value in asked.items() if name not in LIMITS}
    consent = rest.pop("beyond_full_cant", CONSENT[0])
    return Question(
        sections,
        last_season=last_season,
        agreed=frozenset(ENDS if consent == "both" else {consent} - {CONSENT[0]}),
        limits=tuple((LIMITS[name].name, asked[name]) for name in LIMITS if name in asked),
        also=tuple(also),
        can_get=_to_get(rest.pop("can_get", "")),
        only=only,
        **rest,
    )


def _to_get(typed: str) -> tuple[PartEntry, ...]:
    if not typed:
        return ()
    # With the search for kits, which takes a while to import.
    from app.features.parts.several import to_get_in  # noqa: PLC0415

    return to_get_in(typed)
