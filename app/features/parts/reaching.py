"""The best stance that can be reached: what the rider allows, how it is sought, and its words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from math import degrees, radians
from typing import Any, Final

from app.features.parts.asked import parts_terms
from app.features.parts.combining import mounts_of, pair_words
from app.features.parts.ranking import RANKED_BY, Column, rank_texts
from app.features.parts.wishes import ANGLES, LENGTHS, SPANS, WISH_FIELDS, Wishes
from app.rider.inputs import DEFAULTS, Inputs
from app.rider.parts import Parts
from app.rider.parts import model as parts_model
from app.rider.setup import Setup, edited
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.needs import Mounts, obstacle
from app.stance.through import straight
from app.words.language import msgid, tr, within
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, plain
from app.words.units import counted
from geometry.hardware.candidates import StanceLimits, candidates_within
from geometry.hardware.reachable import Progress, Reachable, Reached, reachable_stances
from geometry.hardware.stacks import Built

ROUND_PRESENT_DEG: Final = 9.0
"""How far from the present angles is searched at first (engineering choice, no source)."""
ROUND_PRESENT_MM: Final = 40.0
"""How far from the present length is searched at first (engineering choice, no source)."""


PLACES: Final = (
    Column("", msgid("Place among the stances.")),
    Column(
        msgid("Angles", "as a heading"), msgid("Binding angles of the front and the rear foot.")
    ),
    Column(msgid("Length", "as a heading"), msgid("Stance length.")),
)
COLUMNS: Final = (*PLACES, *RANKED_BY)
"""What the table of stances says of each."""
KEEP: Final = msgid("keep", "as a place")
"""Stands for a place where angles and length stay as they are."""


def usual_wishes(inputs: Inputs) -> Wishes:
    """Limits round the present stance; feet that do not point at each other stay so."""
    front, rear, length = inputs.front_angle_deg, inputs.rear_angle_deg, inputs.stance_length_mm
    splay = front - rear
    least_splay = splay - ROUND_PRESENT_DEG
    return Wishes(
        *_clipped(front, ROUND_PRESENT_DEG, ANGLES),
        *_clipped(rear, ROUND_PRESENT_DEG, ANGLES),
        *_clipped(length, ROUND_PRESENT_MM, LENGTHS),
        max(least_splay, 0.0) if splay >= 0.0 else least_splay,
        splay + ROUND_PRESENT_DEG,
    )


def _clipped(middle: float, by: float, ends: tuple[float, float]) -> tuple[float, float]:
    return max(middle - by, ends[0]), min(middle + by, ends[1])


def wish_words(wishes: Wishes, lengths: Lengths = IN_MM) -> str:
    """All limits in a sentence, for those who cannot see them."""
    said = []
    for name, label in SPANS.items():
        least, most = (
            lengths.shown(getattr(wishes, end.name), end.unit) for end in WISH_FIELDS[name]
        )
        span = tr("{low} to {high}", low=least, high=most)
        said.append(f"{within(tr(label, 'as a limit'))} {span}")
    return tr("Limits: {limits}.", limits=", ".join(said))


def limits_of(wishes: Wishes) -> StanceLimits:
    """The geometry's view of the limits.

    Raises:
        ValueError: a most lies below its least.
    """
    angles = ((wishes.front_angle_least, wishes.front_angle_most),
              (wishes.rear_angle_least, wishes.rear_angle_most),
              (wishes.splay_least, wishes.splay_most))  # fmt: skip
    front, rear, splay = ((radians(least), radians(most)) for least, most in angles)
    lengths = wishes.stance_length_least, wishes.stance_length_most
    return StanceLimits(front, rear, lengths, splay)


@dataclass(frozen=True, slots=True)
class Count:
    """How many candidates there are.

    Attributes:
        many: stances, each with every pair of stacks.
        apart_deg: how far apart soles are thinned; 0 where all are tried.
    """

    many: int
    apart_deg: float


def count_of(setup: Setup, wishes: Wishes) -> Count:
    """How many candidates a search would go through.

    Raises:
        ValueError: none lie within the limits, or too many do.
    """
    parts, limits = parts_model(setup.parts), limits_of(wishes)
    found = candidates_within(limits, parts, setup.inputs.across_spacing_mm)
    return Count(len(found), degrees(found.apart))


def count_words(count: Count) -> str:
    """How many candidates there are, in a sentence."""
    many = counted(count.many)
    if not count.apart_deg:
        return tr("{many} stances on parts to try.", many=many)
    words = msgid(
        "{many} stances on parts to try, their soles in steps of {apart}°; near the best of them "
        "in all steps that there are."
    )
    return tr(words, many=many, apart=plain(count.apart_deg, 2))


def search(setup: Setup, wishes: Wishes, limits: Limits = USUAL_LIMITS) -> Iterator[Progress]:
    """The search itself, in short steps.

    Raises:
        ValueError: the limits or the parts allow nothing, in words.
    """
    asked, terms = straight(setup.inputs), parts_terms(setup, limits)
    yield from reachable_stances(asked, terms, parts_model(setup.parts), limits_of(wishes))


def depends_on(
    setup: Setup, wishes: Wishes, limits: Limits = USUAL_LIMITS
) -> tuple[Inputs, Parts, bool, Wishes, Limits]:
    """What the answer of a search is for: all but the stance that it was begun in.

    So the stances found can be put on one after the other.
    """
    same = {
        each.name: getattr(DEFAULTS, each.name)
        for each in fields(Inputs)
        if each.name.startswith(("front_", "rear_", "stance_"))
    }
    return replace(setup.inputs, **same), setup.parts, setup.growing, wishes, limits


@dataclass(frozen=True, eq=False, slots=True)
class RankedStance:
    """One line of the table: a stance with its parts.

    Attributes:
        title: its place, or :data:`KEEP`.
        reached: the stance.
    """

    title: str
    reached: Reached


def ranked_stances(found: Reachable) -> tuple[RankedStance, ...]:
    """The best stances, and last the present angles and length with the best parts."""
    best = [RankedStance(str(i), reached) for i, reached in enumerate(found.best, 1)]
    return (*best, *([RankedStance(KEEP, found.kept)] if found.kept else []))


def row_texts(place: RankedStance, lengths: Lengths = IN_MM) -> tuple[str, ...]:
    """What the table says of a stance."""
    reached, stance = place.reached, place.reached.stance
    raised = tuple(built.height for built in _built(reached))
    ranked = rank_texts(reached.rank, (raised[0], raised[1]), lengths) if reached.rank else ()
    return (
        tr(KEEP, "as a place") if place.title == KEEP else place.title,
        pair_words(degrees(stance.front.angle), degrees(stance.rear.angle), "°"),
        lengths.text(float(stance.length)),
        *ranked,
    )


def none_words(found: Reachable) -> str:
    """That there is no best stance, and why; "" where there is one."""
    if not found.reason:
        return ""
    words = msgid("None of the {many} stances on parts will do: {reason}.")
    return tr(words, many=counted(found.searched), reason=reason_phrase(found.reason))


def with_stance(setup: Setup, reached: Reached) -> Setup:
    """The set-up with a stance and its mounts.

    Raises:
        InputError: one of its values cannot be set.
    """
    return edited(setup, **_values(reached))


def why_not(setup: Setup, reached: Reached) -> str:
    """Why a stance cannot be put on; "" where it can."""
    if all(getattr(setup.inputs, name) == value for name, value in _values(reached).items()):
        return tr("It is on.")
    return as_sentence(obstacle(mounts_on(reached)))


def mounts_on(reached: Reached) -> Mounts:
    """The lifts and cants of a stance."""
    return mounts_of(*_built(reached))


def _values(reached: Reached) -> dict[str, Any]:
    """A stance and its mounts under their names among the inputs."""
    stance = reached.stance
    front, rear = (round(degrees(each.angle), 6) for each in (stance.front, stance.rear))
    return {
        "front_angle_deg": front + 0.0,
        "rear_angle_deg": rear + 0.0,
        "stance_length_mm": float(stance.length),
        **mounts_on(reached)._asdict(),
    }


def _built(reached: Reached) -> tuple[Built, Built]:
    """What stands under both feet; two flat soles for a stance without parts."""
    flat = Built((), 0.0, 0.0, 0.0)
    return reached.built or (flat, flat)


def stance_words(reached: Reached, lengths: Lengths = IN_MM) -> str:
    """A stance for the history: "45° / 40°, 500 mm"."""
    front, rear = (plain(degrees(each.angle)) for each in (reached.stance.front,
                                                           reached.stance.rear))  # fmt: skip
    return f"{front}° / {rear}°, {lengths.text(float(reached.stance.length))}"
