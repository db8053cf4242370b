"""Two set-ups side by side: what differs between them, and what it does at the knees."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import Final, NamedTuple

from app.features.compare.scene import with_ghost
from app.frame import Frame, frame
from app.rider.inputs import Inputs, differing
from app.rider.instead import Instead
from app.stance.findings import LegFinding, Limits, state_words
from app.words.language import msgid, ntr, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain, spoken
from app.words.units import MINUS, degrees_or_dash, fixed

_NOTHING_DEG: Final = 0.05
"""Changes of an angle below this round to nothing."""


class Row(NamedTuple):
    """One line of a table: what it is, here and there, and the change from there to here."""

    what: str
    live: str
    other: str
    change: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """What is said of two set-ups.

    Attributes:
        live: name of the set-up in hand.
        other: name of the one that it is compared with.
        inputs: inputs that differ.
        knees: off-plane angle, bend and boot flex of both legs.
        sentence: the whole in one sentence.
    """

    live: str
    other: str
    inputs: tuple[Row, ...]
    knees: tuple[Row, ...]
    sentence: str


def comparison_of(live: Frame, other: Frame) -> Comparison:
    """What differs between two stances, and what it changed at the knees."""
    inputs = input_rows(live.setup.inputs, other.setup.inputs, live.lengths)
    knees = [
        row
        for name in ("front", "rear")
        for row in knee_rows(live.findings.legs[name], other.findings.legs[name])
    ]
    return Comparison(*names_of(live, other), inputs, tuple(knees), sentence_of(live, other))


def names_of(live: Frame, other: Frame) -> tuple[str, str]:
    """What the two are called; the other one is told apart where both have one name."""
    here, there = (each.setup.called or tr("unnamed") for each in (live, other))
    return (here, there) if here != there else (here, tr("{name}, kept", name=there))


def ghosted(live: Frame, other: Frame) -> Frame:
    """A frame whose views have the outline of another behind the live stance."""
    _, name = names_of(live, other)
    scenes = {key: with_ghost(scene, other.scenes[key], name) for key, scene in live.scenes.items()}
    return live._replace(scenes=scenes)


def shown_instead(
    shown: Instead, look: str, limits: Limits, lengths: Lengths
) -> tuple[Frame, Frame]:
    """The frame of what is shown, as it is told and as it is drawn: with its outline behind it.

    Args:
        shown: what is shown in place of a set-up in hand.
        look: how the front view looks where nothing else is said.
        limits: by which knees are judged.
        lengths: writes lengths.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    asked = shown.look or look, limits, lengths
    told = frame(shown.setup, *asked)
    if shown.behind is None:
        return told, told
    return told, ghosted(told, frame(shown.behind, *asked))


def input_rows(live: Inputs, other: Inputs, lengths: Lengths = IN_MM) -> tuple[Row, ...]:
    """The inputs that differ, in the order of the controls."""
    feet = tr(live.lead_foot), tr(other.lead_foot)
    lead = Row(tr("Foot in front"), *feet, tr("other foot"))
    rows = [lead] if live.lead_foot != other.lead_foot else []
    for field in differing(live, other):
        here, there = live.value(field.name), other.value(field.name)
        said = spoken(field, here, lengths), spoken(field, there, lengths)
        change = lengths.shown(abs(here - there), field.unit)
        rows.append(Row(field.label, *said, f"{MINUS if here < there else '+'}{change}"))
    return tuple(rows)


def knee_rows(live: LegFinding, other: LegFinding) -> tuple[Row, ...]:
    """Off-plane angle, knee bend and boot flex of one leg."""
    knee, bend, flex = (tr(name) for name in _NAMES[live.name])
    return (
        Row(knee, _off_plane(live), _off_plane(other), nearer(live, other)),
        _angle_row(bend, live.knee_flexion_deg, other.knee_flexion_deg),
        _angle_row(flex, live.boot_flex_deg, other.boot_flex_deg),
    )


_NAMES: Final = {
    "front": (msgid("Front knee"), msgid("Front knee bend"), msgid("Front boot flex")),
    "rear": (msgid("Rear knee"), msgid("Rear knee bend"), msgid("Rear boot flex")),
}


def _off_plane(leg: LegFinding) -> str:
    """The off-plane angle and its way, short enough for a column."""
    state = state_words(leg.state)
    return f"{leg.number} {leg.way or state}" if isfinite(leg.off_plane_deg) else state


def nearer(live: LegFinding, other: LegFinding) -> str:
    """How much nearer its plane a knee is, in words; "" where one has no posture."""
    by = abs(other.off_plane_deg) - abs(live.off_plane_deg)
    if not isfinite(by):
        return ""
    if abs(by) < _NOTHING_DEG:
        return tr("as near its plane")
    angle = fixed(abs(by), 1)
    if by > 0.0:
        return tr("{angle}° nearer its plane", angle=angle)
    return tr("{angle}° further out", angle=angle)


def _angle_row(what: str, here: float, there: float) -> Row:
    return Row(what, degrees_or_dash(here), degrees_or_dash(there), _change(here - there))


def _change(by: float) -> str:
    if not isfinite(by):
        return ""
    if abs(by) < _NOTHING_DEG:
        return tr("same")
    return f"{'+' if by > 0.0 else MINUS}{fixed(abs(by), 1)}°"


def sentence_of(live: Frame, other: Frame) -> str:
    """How both knees fare against the other set-up, and how many inputs make it.

    Quick enough to be said anew with every step of a drag.
    """
    here, there = live.setup.inputs, other.setup.inputs
    count = len(differing(here, there)) + (here.lead_foot != there.lead_foot)
    front, rear = (
        nearer(live.findings.legs[leg], other.findings.legs[leg]) or tr("without comparison")
        for leg in ("front", "rear")
    )
    inputs = ntr("{count} input differs", "{count} inputs differ", count)
    said = msgid("Against {name}: front knee {front}, rear knee {rear}; {count}.")
    if here.knee_bend_deg == there.knee_bend_deg:
        said = msgid(
            "Against {name}, at {bend}° of bend: front knee {front}, rear knee {rear}; {count}."
        )
    return tr(
        said,
        name=names_of(live, other)[1],
        bend=plain(here.knee_bend_deg),
        front=front,
        rear=rear,
        count=inputs if count else tr("no input differs"),
    )
