"""What the curves of the bend stand before: bands of angles, and the words for them."""

from __future__ import annotations

from typing import Final, NamedTuple

from app.rider.inputs import Inputs, LegInputs, flex_range
from app.stance.findings import Limits
from app.words.language import msgid, tr
from app.words.units import MINUS

NOTES: Final = {
    "in plane": msgid("in its plane"),
    "a little out": msgid("a little out"),
    "rest": msgid("at rest"),
    "most": msgid("boot's front stop"),
    "least": msgid("boot's rear stop"),
    "front rest": msgid("front at rest"),
    "front most": msgid("front boot's front stop"),
    "front least": msgid("front boot's rear stop"),
    "rear rest": msgid("rear at rest"),
    "rear most": msgid("rear boot's front stop"),
    "rear least": msgid("rear boot's rear stop"),
}
"""Everything that may stand beside a plot."""
MOST_BANDS: Final = 4
"""A plot of two unlike boots has a range and a rest of each."""
LEAST_GAP: Final = 0.085
"""Between two notes, as a share of the plot's height: a line of words."""


class Band(NamedTuple):
    """A stretch of angles with a meaning (degrees).

    Attributes:
        low: where it begins.
        high: where it ends.
        strong: whether it is filled more strongly than the other.
    """

    low: float
    high: float
    strong: bool


class Note(NamedTuple):
    """A word beside the plot, at an angle (degrees)."""

    at: float
    word: str


class Ground(NamedTuple):
    """What the curves stand before.

    Attributes:
        low: lowest angle shown (degrees).
        high: highest angle shown.
        up: what a high angle means.
        down: what a low angle means.
        bands: stretches with a meaning, those behind first; :data:`MOST_BANDS` at most.
        notes: what they mean, the most important first.
        signed: whether the axis writes angles with their sign.
    """

    low: float
    high: float
    up: str
    down: str
    bands: tuple[Band, ...]
    notes: tuple[Note, ...]
    signed: bool


def apart(ground: Ground) -> list[Note]:
    """The notes that have room, the most important first."""
    least = LEAST_GAP * (ground.high - ground.low)
    kept: list[Note] = []
    for note in ground.notes:
        inside = ground.low < note.at < ground.high
        if inside and all(abs(note.at - other.at) >= least for other in kept):
            kept.append(note)
    return kept


def figure(angle: float, ground: Ground) -> str:
    """An angle at the axis."""
    sign = MINUS if ground.signed and angle < 0.0 else ""
    return f"{sign}{abs(angle):.0f}°"


def off_plane_ground(low: float, high: float, limits: Limits) -> Ground:
    """What off-plane angles stand before: where a knee is in its plane, and where it drifts."""
    inner, outer = limits.in_plane_deg, limits.drifting_deg
    bands = Band(-outer, outer, False), Band(-inner, inner, True)
    notes = (
        Note(0.0, tr(NOTES["in plane"])),
        Note(0.5 * (inner + outer), tr(NOTES["a little out"])),
        Note(-0.5 * (inner + outer), tr(NOTES["a little out"])),
    )
    return Ground(low, high, tr("knock-kneed"), tr("bow-legged"), bands, notes, signed=False)


def flex_ground(low: float, high: float, inputs: Inputs) -> Ground:
    """What boot flex stands before: the ranges of the boots, and where they rest."""
    boots = _unlike_boots(inputs)
    ranges = [Band(*flex_range(boot), False) for boot in boots.values()]
    rests = [boot.forward_lean_deg for boot in boots.values()]
    places = {
        **{f"{end}rest": rest for end, rest in zip(boots, rests, strict=True)},
        **{f"{end}most": band.high for end, band in zip(boots, ranges, strict=True)},
        **{f"{end}least": band.low for end, band in zip(boots, ranges, strict=True)},
    }
    notes = tuple(Note(at, tr(NOTES[key])) for key, at in places.items())
    bands = (*ranges, *(Band(rest - 0.15, rest + 0.15, True) for rest in rests))
    return Ground(low, high, tr("forward"), tr("back"), bands, notes, signed=True)


def _unlike_boots(inputs: Inputs) -> dict[str, LegInputs]:
    """Both boots by what stands before their notes, or one for both where they flex alike."""
    boots = {"front ": inputs.front, "rear ": inputs.rear}
    ranges = {flex_range(boot) for boot in boots.values()}
    return boots if len(ranges) > 1 else {"": inputs.front}
