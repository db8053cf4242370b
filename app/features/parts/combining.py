"""Parts for the lift and cant that both feet want, in the rider's units and in words."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, degrees, floor, isnan, radians
from typing import Final

import numpy as np

from app.features.parts.asked import held_words, parts_terms, tried_cants
from app.features.parts.bench import is_left, true_to, what_to_set
from app.features.parts.ranking import RANKED_BY, Column, rank_texts
from app.features.parts.words import shortfall
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.stance.answer import Answer, answer_of
from app.stance.answer_words import both_words, mount_words
from app.stance.findings import USUAL_LIMITS, Limits
from app.stance.needs import Mounts
from app.stance.through import straight
from app.words.field import IN_OUT, TOE_HEEL
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, plain, tilt_words
from geometry import FRONT, REAR
from geometry.hardware.combinations import (
    Combination,
    Wanted,
    combinations_for,
    left_by_answer,
    nearest_combinations,
)
from geometry.hardware.parts import PartsList
from geometry.hardware.stacks import Built, after_turning

SOLES: Final = (
    Column("", msgid("Place among the combinations.")),
    Column(
        msgid("Front", "as a heading"), msgid("Lift and cant of the front sole on these parts.")
    ),
    Column(msgid("Rear", "as a heading"), msgid("Lift and cant of the rear sole on these parts.")),
)
"""What the table of combinations says of each before its order."""

NEAREST: Final = (
    Column(
        msgid("Error", "as a heading"),
        msgid(
            "Angle between the sole as it is built and as it is typed, the larger of the two "
            "feet's. The table stands in this order, to a quarter of a degree; then the lower "
            "parts come first, then the fewer."
        ),
    ),
    Column(
        msgid("Raised", "as a heading"),
        msgid("By how much the parts raise the middle of the front and of the rear foot."),
    ),
    Column(msgid("Parts", "as a heading"), msgid("How many parts stand under both feet.")),
    Column(
        msgid("Knees out", "as a heading"),
        msgid(
            "How far the front and the rear knee come out of plane at worst over the riding "
            "bend, hips straight."
        ),
    ),
)
"""What it says of one for lifts and cants that are typed."""

TURNS_DEG: Final = (-10.0, -5.0, 0.0, 5.0, 10.0)
"""Turns of a binding alone whose effect is told."""

_FEET: Final = (("front", FRONT), ("rear", REAR))
_DECIMALS: Final = 2
"""To which a built lift or cant is put on the mounts: finer than any inclinometer."""


@dataclass(frozen=True, eq=False, slots=True)
class Combinations:
    """What can be built.

    Attributes:
        setup: for which; it holds the parts there are to build from.
        parts: the same parts, as the geometry has them.
        wanted: what both feet are to have: the answer, or the lifts and cants typed.
        ranked: the combinations, best first.
        shortfall: what the best one does not do, in words; "" where it does all.
    """

    setup: Setup
    parts: PartsList
    wanted: Answer | Mounts
    ranked: tuple[Combination, ...]
    shortfall: str

    @property
    def held_back(self) -> str:
        """What of all that is needed one does not begin with; "" for nothing."""
        return "" if isinstance(self.wanted, Mounts) else held_words(self.wanted)

    @property
    def columns(self) -> tuple[Column, ...]:
        """What the table says of each combination."""
        return (*SOLES, *(NEAREST if isinstance(self.wanted, Mounts) else RANKED_BY))


def combinations_of(
    setup: Setup, by_hand: Mounts | None = None, limits: Limits = USUAL_LIMITS
) -> Combinations:
    """The combinations of the set-up's parts that do best what is wanted.

    Args:
        setup: the rider, the stance, and the parts.
        by_hand: the lifts and cants wanted; what the feet need where None.
        limits: up to where a knee counts as in its plane.

    Raises:
        ValueError: nothing can be wanted, or there are too many ways to build.
    """
    parts = parts_model(setup.parts)
    asked, terms = straight(setup.inputs), parts_terms(setup, limits)
    if by_hand is not None:
        ranked = nearest_combinations(asked, terms, parts, _typed(by_hand))
        return Combinations(setup, parts, by_hand, ranked, shortfall(parts, ranked[0]))
    answer = answer_of(setup, limits)
    for foot in answer.feet:
        if foot.why_not:
            raise ValueError(tr(_UNKNOWN[foot.name], reason=reason_phrase(foot.why_not)))
    held = tried_cants(answer)
    ranked = combinations_for(asked, terms, parts, held)
    if not ranked:
        raise ValueError(tr("no posture settles at the middle of the riding bend on any parts"))
    missing = shortfall(parts, ranked[0], left_by_answer(asked, terms, held))
    return Combinations(setup, parts, answer, ranked, missing)


_UNKNOWN: Final = {
    "front": msgid(
        "what the feet need is not known, since there is no answer for the front foot: {reason}"
    ),
    "rear": msgid(
        "what the feet need is not known, since there is no answer for the rear foot: {reason}"
    ),
}


def _typed(mounts: Mounts) -> tuple[Wanted, Wanted]:
    front_lift, front_cant, rear_lift, rear_cant = (radians(each) for each in mounts)
    return Wanted(front_lift, front_cant), Wanted(rear_lift, rear_cant)


def mounts_of(front: Built, rear: Built) -> Mounts:
    """The mounts on what is built, as inclinometers would read them."""
    angles = (front.lift, front.cant, rear.lift, rear.cant)
    return Mounts(*(round(degrees(angle), _DECIMALS) + 0.0 for angle in angles))


def row_texts(
    place: int, combination: Combination, between: str = ", ", lengths: Lengths = IN_MM
) -> tuple[str, ...]:
    """What the table says of a combination.

    Args:
        place: its place, counted from 1.
        combination: the combination.
        between: what stands between lift and cant.
        lengths: writes lengths.
    """
    front, rear = combination.front, combination.rear
    soles = str(place), sole_words(front, between), sole_words(rear, between)
    if combination.rank is not None:
        return (*soles, *rank_texts(combination.rank, (front.height, rear.height), lengths))
    front_knee, rear_knee = (degrees(angle) for angle in combination.off_plane)
    return (
        *soles,
        f"{plain(degrees(combination.error))}°",
        lengths.pair(front.height, " · ", rear.height),
        str(len(front.settings) + len(rear.settings)),
        pair_words(front_knee, rear_knee, "°"),
    )


def sole_words(built: Built, between: str = ", ") -> str:
    """Lift and cant of a sole: "3.0° toe, 5.2° in", "flat"."""
    said = [
        tilt_words(signs, shown)
        for angle, signs in ((built.lift, TOE_HEEL), (built.cant, IN_OUT))
        if (shown := round(degrees(angle), 1))
    ]
    return between.join(said) or tr("flat")


def pair_words(front: float, rear: float, unit: str) -> str:
    """Two values for the front and the rear foot: "1.2 · 0.8°"."""
    if isnan(front) or isnan(rear):
        return "–"
    return f"{plain(front)} · {plain(rear)}{unit}"


def wanted_words(answer: Answer) -> str:
    """What both feet are to have: "Front: 1.5° toe lift, no cant; in plane from ..."."""
    return " ".join(
        tr(_WANTED[foot.name], begin=both_words(foot.begin), span=span_words(foot.in_plane))
        for foot in answer.feet
    )


_WANTED: Final = {
    "front": msgid("Front: {begin}; in plane {span}."),
    "rear": msgid("Rear: {begin}; in plane {span}."),
}


def span_words(in_plane: tuple[float, float]) -> str:
    """The cants with which a knee stays in its plane: "from 0.5° outward to 7° inward"."""
    low, high = in_plane
    if low > high:
        return tr("with no cant at every depth")
    least, most = _inside(low, high)
    if least > most:
        return tr("with {cant} only", cant=mount_words("cant", round(low, 1)))
    return tr(
        "from {low} to {high}", low=mount_words("cant", least), high=mount_words("cant", most)
    )


def _inside(low: float, high: float) -> tuple[float, float]:
    """The outermost half degrees that still do."""
    return ceil(2.0 * low - 0.08) / 2.0 + 0.0, floor(2.0 * high + 0.08) / 2.0 + 0.0


def setting_words(built: tuple[Built, Built], setup: Setup) -> tuple[tuple[str, str], ...]:
    """What to do for each foot: "front" or "rear", and the sentences, first what comes of it.

    Args:
        built: what stands under the front and the rear foot.
        setup: whose parts they are; it says which foot stands in front.
    """
    said = []
    for (name, _), each in zip(_FEET, built, strict=True):
        steps = what_to_set(
            each,
            turns_with_binding=setup.parts.turns_with_binding,
            left=is_left(setup.inputs, name),
        )
        told = (as_sentence(sole_words(each)), *steps, true_to(each, setup.parts))
        said.append((name, " ".join(filter(None, told))))
    return tuple(said)


@dataclass(frozen=True, slots=True)
class Turned:
    """What turning one binding alone does.

    Attributes:
        foot: "front" or "rear".
        angles_deg: binding angles.
        lifts_deg: lift at each of them.
        cants_deg: cant at each of them.
    """

    foot: str
    angles_deg: tuple[float, ...]
    lifts_deg: tuple[float, ...]
    cants_deg: tuple[float, ...]

    @property
    def nothing_changes(self) -> bool:
        """Whether lift and cant stay as they are, to a twentieth of a degree."""
        return all(max(each) - min(each) < 0.05 for each in (self.lifts_deg, self.cants_deg))


def turned(combination: Combination, parts: PartsList) -> tuple[Turned, Turned]:
    """What turning each binding alone by :data:`TURNS_DEG` does to its lift and cant."""
    built = (combination.front, combination.rear)
    mounts = (combination.stance.front, combination.stance.rear)
    front, rear = (
        _turned(foot, side, each, float(mount.angle), parts)
        for (foot, side), each, mount in zip(_FEET, built, mounts, strict=True)
    )
    return front, rear


def _turned(foot: str, side: float, built: Built, angle: float, parts: PartsList) -> Turned:
    angles = angle + np.radians(TURNS_DEG)
    lifts, cants = after_turning(built, angles, side, turns_with_binding=parts.turns_with_binding)
    every = (np.degrees(each).tolist() for each in (angles, lifts, cants))
    return Turned(foot, *(tuple(each) for each in every))


def turned_words(each: Turned) -> str:
    """What turning does, in a sentence, for those who cannot see the table."""
    if each.nothing_changes:
        return tr(_NOTHING_TURNED[each.foot])
    said = [
        tr("to {angle}: {mount}", angle=signed(angle), mount=pair_of_angles(lift, cant))
        for angle, lift, cant in zip(each.angles_deg, each.lifts_deg, each.cants_deg, strict=True)
    ]
    return tr(_TURNED[each.foot], soles="; ".join(said))


_NOTHING_TURNED: Final = {
    "front": msgid("Turning the front binding alone changes neither its lift nor its cant."),
    "rear": msgid("Turning the rear binding alone changes neither its lift nor its cant."),
}
_TURNED: Final = {
    "front": msgid("Turning the front binding alone, {soles}."),
    "rear": msgid("Turning the rear binding alone, {soles}."),
}


def pair_of_angles(lift_deg: float, cant_deg: float) -> str:
    """Lift and cant in words: "3.0° toe, 5.2° in"."""
    return sole_words(Built((), radians(lift_deg), radians(cant_deg), 0.0))


def signed(angle_deg: float) -> str:
    """A binding angle as a figure: "45°", "−15°"."""
    return f"{plain(angle_deg)}°"
