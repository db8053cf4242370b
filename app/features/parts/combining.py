"""Parts for the lift and cant that both feet want, in the rider's units and in words."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, isnan, radians
from typing import Final

import numpy as np

from app.features.parts.words import shortfall, what_to_set
from app.rider.inputs import model
from app.rider.parts import model as parts_model
from app.rider.setup import Setup
from app.stance.needs import Mounts, start_shares
from app.words.field import IN_OUT, TOE_HEEL
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_phrase
from app.words.sentences import as_sentence, plain, tilt_words
from geometry import FRONT, REAR
from geometry.fitting.fit import fit_of, fit_reasons
from geometry.fitting.inputs import Setup as PostureInputs
from geometry.fitting.sweep import riding_range
from geometry.hardware.combinations import (
    Combination,
    Wanted,
    ranked_combinations,
    wanted_by,
    wanted_exactly,
)
from geometry.hardware.parts import PartsList
from geometry.hardware.stacks import Built, after_turning

COLUMNS: Final = (
    "",
    msgid("Front", "as a heading"),
    msgid("Rear", "as a heading"),
    msgid("Error", "as a heading"),
    msgid("Off-plane", "as a heading"),
    msgid("Raised", "as a heading"),
)
"""What the table of combinations says of each: the headings."""

COLUMN_HELP: Final = (
    msgid("Place among the combinations."),
    msgid("Lift and cant of the front sole on these parts."),
    msgid("Lift and cant of the rear sole on these parts."),
    msgid(
        "Angle between the sole as it is built and as it is wanted, the larger of the two feet's."
    ),
    msgid("How far the front and the rear knee come out of plane at worst over the whole bend."),
    msgid("By how much the parts raise the middle of the front and of the rear foot."),
)
"""What the columns mean."""

TURNS_DEG: Final = (-10.0, -5.0, 0.0, 5.0, 10.0)
"""Turns of a binding alone whose effect is told."""

_FEET: Final = (("front", FRONT), ("rear", REAR))
_DECIMALS: Final = 2
"""To which a built lift or cant is put on the mounts: finer than any inclinometer."""


@dataclass(frozen=True, eq=False, slots=True)
class Combinations:
    """What can be built.

    Attributes:
        parts: what there is to build from.
        wanted: what the front and the rear foot want.
        ranked: the combinations, best first.
        shortfall: why the best is not what was wanted, in words; "" where it is.
    """

    parts: PartsList
    wanted: tuple[Wanted, Wanted]
    ranked: tuple[Combination, ...]
    shortfall: str


def combinations_of(setup: Setup, by_hand: Mounts | None = None) -> Combinations:
    """The combinations of the set-up's parts that come nearest to what is wanted.

    Args:
        setup: the rider, the stance, and the parts.
        by_hand: the lift and cant wanted; what the feet need where None.

    Raises:
        ValueError: nothing can be wanted, or there are too many ways to build.
    """
    solved = model(setup.inputs)
    wanted = _needed(setup, solved) if by_hand is None else _typed(by_hand)
    parts = parts_model(setup.parts)
    ranked = ranked_combinations(solved, riding_range(*solved), parts, wanted)
    return Combinations(parts, wanted, ranked, shortfall(parts, ranked[0]))


def _needed(setup: Setup, solved: PostureInputs) -> tuple[Wanted, Wanted]:
    fit = fit_of(*solved, start_shares(setup, solved))
    for foot, reason in zip(("front", "rear", "lift"), fit_reasons(fit), strict=True):
        if str(reason):
            raise ValueError(tr(_UNKNOWN[foot], reason=reason_phrase(str(reason))))
    return wanted_by(fit.front), wanted_by(fit.rear)


_UNKNOWN: Final = {
    "front": msgid(
        "what the feet need is not known, since there is no answer for the front cant: {reason}"
    ),
    "rear": msgid(
        "what the feet need is not known, since there is no answer for the rear cant: {reason}"
    ),
    "lift": msgid(
        "what the feet need is not known, since there is no answer for the lift: {reason}"
    ),
}


def _typed(mounts: Mounts) -> tuple[Wanted, Wanted]:
    front_lift, front_cant, rear_lift, rear_cant = (radians(each) for each in mounts)
    return wanted_exactly(front_lift, front_cant), wanted_exactly(rear_lift, rear_cant)


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
    front, rear = (degrees(angle) for angle in combination.off_plane)
    return (
        str(place),
        sole_words(combination.front, between),
        sole_words(combination.rear, between),
        f"{plain(degrees(combination.error))}°",
        pair_words(front, rear, "°"),
        lengths.pair(combination.front.height, " · ", combination.rear.height),
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


def wanted_words(wanted: tuple[Wanted, Wanted]) -> str:
    """The bands wanted: "Front: lift flat, cant 1.0 to 4.0° in. Rear: ..."."""
    toe_heel = tr("toe", "of a lift"), tr("heel", "of a lift")
    in_out = tr("in", "of a cant"), tr("out", "of a cant")
    feet = []
    for said, each in zip(_WANTED, wanted, strict=True):
        lift, cant = band_words(each.lift, toe_heel), band_words(each.cant, in_out)
        feet.append(tr(said, lift=lift, cant=cant))
    return " ".join(feet)


_WANTED: Final = (
    msgid("Front: lift {lift}, cant {cant}."),
    msgid("Rear: lift {lift}, cant {cant}."),
)


def band_words(band: tuple[float, float], ways: tuple[str, str]) -> str:
    """A band of angles (rad) in half degrees, the end nearer to flat first: "0 to 4.5° in"."""
    least, most = sorted((round(2.0 * degrees(end)) / 2.0 for end in band), key=abs)
    if not most:
        return "0°"
    if least == most:
        return _sided(most, ways)
    low = _sided(least, ways) if least * most < 0.0 else plain(abs(least))
    return tr("{low} to {high}", low=low, high=_sided(most, ways))


def _sided(angle_deg: float, ways: tuple[str, str]) -> str:
    return f"{plain(abs(angle_deg))}° {ways[angle_deg < 0.0]}"


def setting_words(built: tuple[Built, Built], parts: PartsList) -> tuple[tuple[str, str], ...]:
    """What to do for each foot: "front" or "rear", and the sentences, first what comes of it."""
    said = []
    for (name, _), each in zip(_FEET, built, strict=True):
        steps = what_to_set(each, turns_with_binding=parts.turns_with_binding)
        said.append((name, " ".join((as_sentence(sole_words(each)), *steps))))
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
