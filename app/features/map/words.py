"""What the stance map says: of its lines, and of the stance on it."""

from __future__ import annotations

from math import isfinite
from typing import Final

from app.features.map.place import FullCants, MapPlace
from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from app.words.units import DEGREES, amount, fixed

MARGIN_ERRORS: Final = 2.0
"""Half an axis of the ellipse of margin, in standard errors."""

NO_CANT: Final = msgid("no cant")
STRAIGHT_LEGS: Final = msgid("no cant by straight legs")
INSERTS: Final = msgid("your inserts")


def line_word(cant_deg: float) -> str:
    """What is written on a line of equal cant: "4° inward", "no cant"."""
    if not plain(cant_deg).strip("−0"):
        return tr(NO_CANT)
    way = msgid("{angle}° inward") if cant_deg > 0.0 else msgid("{angle}° outward")
    return tr(way, angle=plain(abs(cant_deg)))


def cant_words(cant_deg: float) -> str:
    """A full cant no finer than half a degree: "4.5° inward", "no cant"."""
    if not isfinite(cant_deg):
        return tr("no posture")
    return line_word(0.5 * round(2.0 * cant_deg))


def place_words(place: MapPlace, inputs: Inputs, lengths: Lengths = IN_MM) -> str:
    """Where the stance stands; of two angles that differ it says that their mean is used."""
    angle = amount(place.angle_deg, DEGREES)
    if place.is_mean:
        front, rear = inputs.front_angle_deg, inputs.rear_angle_deg
        angle = tr(
            "{angle}, the mean of {front} and {rear}",
            angle=angle,
            front=amount(front, DEGREES),
            rear=amount(rear, DEGREES),
        )
    return tr(
        "{angle}; {length}, {ratio} × natural spacing",
        angle=angle,
        length=lengths.text(inputs.stance_length_mm),
        ratio=fixed(place.ratio, 2),
    )


def step_words(inputs: Inputs, lengths: Lengths = IN_MM) -> str:
    """What moving the dot is called in the history."""
    angle = amount(inputs.mean_angle_deg, DEGREES)
    length = lengths.text(inputs.stance_length_mm)
    return tr("Stance on the map: {angle}, {length}", angle=angle, length=length)


def needs_words(cants: FullCants, place: MapPlace) -> str:
    """What the stance needs, and what the map has there where that is something else."""
    front, rear, even = (cant_words(cant) for cant in cants)
    if not any(isfinite(cant) for cant in cants[:2]):
        said = tr("No posture settles there: a leg cannot reach.")
    elif front == rear:
        said = tr("Whole cant, to half a degree: {cant}, both feet.", cant=front)
    else:
        words = msgid("Whole cant, to half a degree: {front} in front, {rear} behind.")
        said = tr(words, front=front, rear=rear)
    if place.is_mean and not even == front == rear:
        angle = amount(place.angle_deg, DEGREES)
        said = f"{said} {tr('With both feet at {angle}: {cant}.', angle=angle, cant=even)}"
    if {front, rear} <= {tr(NO_CANT), tr("no posture")}:
        return said
    return f"{said} {tr('What to begin with is told in the tab Begin with.')}"


def length_without_cant_words(ratio: float, inputs: Inputs, lengths: Lengths = IN_MM) -> str:
    """At which length this mean angle needs no cant; empty where the map holds none."""
    if not isfinite(ratio):
        return ""
    there = lengths.text(ratio * inputs.neutral_spacing_mm, 0)
    words = msgid("No cant at this angle with {length}, {ratio} × natural spacing.")
    return tr(words, length=there, ratio=fixed(ratio, 2))


def no_cant_words(angle_deg: float, ratio: float, inputs: Inputs, lengths: Lengths = IN_MM) -> str:
    """With which length a binding angle needs no cant; empty where the map holds none."""
    if not isfinite(ratio):
        return ""
    there = lengths.text(ratio * inputs.neutral_spacing_mm, 0)
    return tr("No cant at {angle}° with {length}.", angle=plain(angle_deg, 0), length=there)


def margin_words(place: MapPlace) -> str:
    """How surely the stance's place is known: half the axes of its ellipse."""
    angle, ratio = (MARGIN_ERRORS * error for error in (place.angle_error_deg, place.ratio_error))
    words = msgid("margin: ±{angle}°, ±{ratio} (two standard errors)")
    return tr(words, angle=fixed(angle, 1), ratio=fixed(ratio, 2))


UNEVEN: Final = msgid("The two feet need different cants; the lines show their mean.")
"""Said where one line has to stand for two feet."""

HANDLING: Final = msgid(
    "The arrow keys move it, with Shift in finer steps, with Ctrl in coarser ones."
)
"""How the dot is moved without a mouse."""
