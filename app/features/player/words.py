"""What is said of what is played."""

from __future__ import annotations

from math import isfinite
from typing import Final, NamedTuple

import numpy as np

from app.features.player.model import BOOT, NO_POSTURE, Sweep, Track, Worst
from app.frame import Frame
from app.rider.inputs import FIELD, Inputs
from app.stance.findings import BOOT_IN, BOOT_OUT, IN_PLANE, LegFinding
from app.words.language import msgid, tr
from app.words.lengths import Lengths
from app.words.reasons import reason_sentence
from app.words.sentences import plain, spoken
from app.words.units import SECONDS, amount, fixed

NOT_MEASURED: Final = msgid("Example movement, not measured.")
"""Of every movement, also of one's own."""
ABOUT_EXAMPLES: Final = msgid(
    "Example movement, not measured: no series of snowboarders' knee bends was found. "
    "The two turns take their times and bends from giant slalom on skis (Med Sci Sports "
    "Exerc 1995, 27:1666-1670); all else is our choice."
)


def when_words(track: Track, phase: float, inputs: Inputs, lengths: Lengths) -> str:
    """When something is: at the lowest point, so many seconds in, or at which value."""
    played = track.played
    if isinstance(played, Sweep):
        value = spoken(FIELD[played.name], inputs.value(played.name), lengths)
        return tr("at {value}", value=value)
    bends = [each.inputs.knee_bend_deg for each in track.moments]
    low, high = min(bends), max(bends)
    if high - low > _SAME_DEG:
        if inputs.knee_bend_deg >= high - _SAME_DEG:
            return tr("at the lowest point")
        if inputs.knee_bend_deg <= low + _SAME_DEG:
            return tr("at the highest point")
    return tr("after {time}", time=amount(round(phase * played.seconds, 1), SECONDS))


_SAME_DEG: Final = 0.5
"""Knees bent within this of the most count as at the lowest point."""

_PAST: Final = {
    ("front", True): msgid("The front boot goes {left}° past its front stop {when}."),
    ("front", False): msgid("The front boot goes {left}° past its rear stop {when}."),
    ("rear", True): msgid("The rear boot goes {left}° past its front stop {when}."),
    ("rear", False): msgid("The rear boot goes {left}° past its rear stop {when}."),
}
_AT: Final = {
    ("front", True): msgid("The front boot reaches its front stop {when}."),
    ("front", False): msgid("The front boot reaches its rear stop {when}."),
    ("rear", True): msgid("The rear boot reaches its front stop {when}."),
    ("rear", False): msgid("The rear boot reaches its rear stop {when}."),
}
_NEAR: Final = {
    ("front", True): msgid("The front boot comes within {left}° of its front stop {when}."),
    ("front", False): msgid("The front boot comes within {left}° of its rear stop {when}."),
    ("rear", True): msgid("The rear boot comes within {left}° of its front stop {when}."),
    ("rear", False): msgid("The rear boot comes within {left}° of its rear stop {when}."),
}
_WITHIN: Final = {
    "front": msgid("Both boots keep {left}° or more to their stops, the front one least {when}."),
    "rear": msgid("Both boots keep {left}° or more to their stops, the rear one least {when}."),
}
_KNEE: Final = {
    "front": msgid("The front knee is furthest out {when}: {finding}."),
    "rear": msgid("The rear knee is furthest out {when}: {finding}."),
}


def worst_words(track: Track, found: list[tuple[Worst, Frame]]) -> str:
    """The worst moments in a sentence each, the gravest first; what is no fault, shortly.

    Args:
        track: what is played.
        found: its worst moments with the frames there.
    """
    said, before = [], None
    for worst, frame in found:
        when = tr("there")
        if worst.phase != before:
            when = when_words(track, worst.phase, frame.setup.inputs, frame.lengths)
        said.append(_sentence(worst, frame, when))
        before = worst.phase
    return " ".join(said)


def _sentence(worst: Worst, frame: Frame, when: str) -> str:
    if worst.what == NO_POSTURE:
        reason = next((leg.reason for leg in frame.findings.legs.values() if leg.reason), "")
        why = reason_sentence(reason) if reason else ""
        return " ".join(filter(None, (tr("No posture settles {when}.", when=when), why)))
    leg = frame.findings.legs[worst.end]
    if worst.what == BOOT:
        return _boot_sentence(leg, frame, when)
    if leg.state == IN_PLANE:
        return tr("Both knees stay in their planes.")
    return tr(_KNEE[worst.end], when=when, finding=leg.spoken)


def _boot_sentence(leg: LegFinding, frame: Frame, when: str) -> str:
    left = fixed(abs(leg.boot_left_deg), 1)
    if leg.boot == BOOT_IN:
        return tr(_WITHIN[leg.name], left=left, when=when)
    own = frame.setup.inputs.leg(leg.name)
    forward = leg.boot_flex_deg > own.forward_lean_deg
    said = _PAST if leg.boot == BOOT_OUT else _NEAR
    if not round(leg.boot_left_deg, 1):
        said = _AT
    return tr(said[leg.name, forward], left=left, when=when)


class Axis(NamedTuple):
    """What runs along the plots.

    Attributes:
        label: what it is.
        size: one of its unit, in the unit of :meth:`Track.along`.
        suffix: what follows a figure.
    """

    label: str
    size: float
    suffix: str

    def figure(self, x: float) -> str:
        """A figure at the axis, from its place there."""
        return plain(x, 1) + self.suffix


def axis_of(track: Track, lengths: Lengths) -> Axis:
    """What runs along the plots of what is played."""
    if not isinstance(track.played, Sweep):
        return Axis(tr("Time (s)"), 1.0, "")
    field = FIELD[track.played.name]
    unit = lengths.unit_of(field.unit)
    return Axis(field.label, unit.size, unit.suffix)


READINGS: Final = 11
"""How many places of a plot are told to those who cannot see it."""


def readings(track: Track, what: str, lengths: Lengths) -> list[str]:
    """Both legs at even places along what is played.

    Args:
        track: what is played, looked through.
        what: "off_plane" or "boot_flex".
        lengths: writes lengths in the unit chosen.
    """
    axis, said = axis_of(track, lengths), []
    for phase in (i / (READINGS - 1) for i in range(READINGS)):
        x = float(np.interp(phase, [each.phase for each in track.moments], track.curves.x))
        front, rear = (plain(each) if isfinite(each) else "–" for each in track.at(phase, what))
        place = f"{axis.label} {axis.figure(x / axis.size)}"
        said.append(tr("{at}: front {front}°, rear {rear}°.", at=place, front=front, rear=rear))
    return said


def readout(track: Track, phase: float, inputs: Inputs, lengths: Lengths) -> str:
    """Where it stands now: the time, or the value swept."""
    played = track.played
    if isinstance(played, Sweep):
        return lengths.shown(inputs.value(played.name), FIELD[played.name].unit)
    return f"{fixed(phase * played.seconds, 2)} s"
