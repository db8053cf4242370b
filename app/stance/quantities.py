"""What a text or a condition can name of a stance: each quantity as a number and in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cached_property, lru_cache, partial
from math import cos, degrees, isfinite, radians, sin
from typing import Final, NamedTuple

from app.rider.inputs import ENDS, FIELD, Inputs, flex_range
from app.stance.findings import USUAL_LIMITS, LegFinding, Limits, StanceFinding, findings_of
from app.stance.settled import Settled, settled
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import spoken
from app.words.units import degrees_or_dash
from geometry import no_cant_length

_PLACE: Final = re.compile(r"\{(?:(\w+)\.)?(\w+)\}")
"""A quantity in a text: "{rear_off_plane}", or with its state "{before.rear_off_plane}"."""

_settled: Final = lru_cache(maxsize=256)(settled)


class State:
    """The legs of some inputs and what is known of them, worked out when first asked for.

    Args:
        inputs: of the state.
        limits: where a knee counts as drifting and as out of plane.
        lengths: writes lengths in the unit chosen.
    """

    def __init__(
        self, inputs: Inputs, limits: Limits = USUAL_LIMITS, lengths: Lengths = IN_MM
    ) -> None:
        self.inputs, self.limits, self.lengths = inputs, limits, lengths

    @cached_property
    def stood(self) -> Settled:
        """The solved legs."""
        return _settled(self.inputs)

    @cached_property
    def legs(self) -> dict[str, LegFinding]:
        """What they mean."""
        return findings_of(self.stood, self.limits, self.lengths).legs

    @cached_property
    def stance(self) -> StanceFinding:
        """What the stance says before any leg bends."""
        return findings_of(self.stood, self.limits, self.lengths).stance

    @cached_property
    def full(self) -> dict[str, float]:
        """The full cants and lifts under the names of the inputs that they are put on by."""
        # Not before a lesson asks: it brings numpy.
        from geometry.fitting.fit import fit_of  # noqa: PLC0415

        fit = fit_of(*self.stood.model)
        return {
            f"{end}_{what}_deg": degrees(float(getattr(getattr(fit, end), f"full_{what}")))
            for end in ENDS
            for what in ("cant", "lift")
        }

    def knee_across(self, end: str) -> float:
        """How far outward a knee stands from the middle, as seen from the front (mm)."""
        facing = radians(self.inputs.facing_deg)
        posture = self.stood.posture
        x, y, _ = getattr(posture, end).knee_centre
        across = float(x) * cos(facing) - float(y) * sin(facing)
        return across if end == "front" else -across


class Quantity(NamedTuple):
    """One quantity: its number in stored units, and how it is written in a sentence."""

    number: Callable[[State], float]
    words: Callable[[State], str]


def _angle(of: Callable[[State], float]) -> Quantity:
    """An angle whose way the sentence around it tells."""
    return Quantity(of, lambda state: degrees_or_dash(abs(of(state))))


def _signed(of: Callable[[State], float]) -> Quantity:
    """An angle whose sign is written."""
    return Quantity(of, lambda state: degrees_or_dash(of(state)))


def _of_leg(end: str, name: str) -> Callable[[State], float]:
    return lambda state: float(getattr(state.legs[end], name))


def _stop(end: str, which: int) -> Callable[[State], float]:
    return lambda state: flex_range(state.inputs.leg(end))[which]


def _length(of: Callable[[State], float]) -> Quantity:
    return Quantity(of, lambda state: _length_or_dash(of(state), state.lengths))


def _length_or_dash(length: float, lengths: Lengths) -> str:
    return lengths.text(length, 0) if isfinite(length) else "–"


def _no_cant_length(state: State) -> float:
    given = state.stood.model
    return float(no_cant_length(given.stance, given.body.neutral_spacing))


def _typed(name: str) -> Quantity:
    """An input as it is said."""
    field = FIELD[name]
    return Quantity(
        lambda state: state.inputs.value(name),
        lambda state: spoken(field, state.inputs.value(name), state.lengths),
    )


def _full(name: str) -> Quantity:
    """A cant or a lift that is asked for, said as if it were typed."""

    def words(state: State) -> str:
        value = state.full[name]
        return spoken(FIELD[name], round(value, 1), state.lengths) if isfinite(value) else "–"

    return Quantity(lambda state: state.full[name], words)


def _of(end: str) -> dict[str, Quantity]:
    """The quantities of one leg, by their names without it."""
    return {
        "knee": Quantity(
            lambda state: abs(state.legs[end].off_plane_deg), lambda state: state.legs[end].spoken
        ),
        "off_plane": _angle(_of_leg(end, "off_plane_deg")),
        "bend": _angle(_of_leg(end, "knee_flexion_deg")),
        "boot_flex": _signed(_of_leg(end, "boot_flex_deg")),
        "boot_low": _signed(_stop(end, 0)),
        "boot_high": _signed(_stop(end, 1)),
        "boot_left": _angle(_of_leg(end, "boot_left_deg")),
        "give_wanted": _angle(_of_leg(end, "wanted_give_deg")),
        "cant_asked": _signed(lambda state: state.full[f"{end}_cant_deg"]),
        "full_cant": _full(f"{end}_cant_deg"),
        "full_lift": _full(f"{end}_lift_deg"),
        "straight_leg_cant": _angle(
            lambda state: float(getattr(state.stance, f"{end}_straight_leg_cant_deg"))
        ),
        "knee_across": _length(lambda state: state.knee_across(end)),
    }


QUANTITIES: Final[Mapping[str, Quantity]] = {
    **{name: _typed(name) for name in FIELD},
    **{f"{end}_{name}": made for end in ENDS for name, made in _of(end).items()},
    "no_cant_length": _length(_no_cant_length),
    "long_axes_apart": _length(lambda state: state.stance.long_axes_apart_mm),
}
"""All quantities by their names."""


def parted(named: str) -> tuple[str, str]:
    """The state and the quantity of "before.rear_knee"; "" for the state shown."""
    state, _, name = named.rpartition(".")
    return state, name


def filled(template: str, states: Mapping[str, State]) -> str:
    """A text with its quantities filled in; what names none stays letter for letter.

    Args:
        template: from a lesson.
        states: by the names that stand before a quantity; "" for the one shown.
    """
    return _PLACE.sub(partial(_filled, states), template)


def _filled(states: Mapping[str, State], place: re.Match[str]) -> str:
    state, name = states.get(place[1] or ""), place[2]
    return QUANTITIES[name].words(state) if state and name in QUANTITIES else place[0]


def named_in(template: str) -> list[tuple[str, str]]:
    """The states and names in braces of a text."""
    return [(place[1] or "", place[2]) for place in _PLACE.finditer(template)]
