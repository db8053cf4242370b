"""How the foot lies: the slope of the bed inside the boot, on top of that of the mount."""

from __future__ import annotations

from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from app.words.sentences import plain


def bed_slope_deg(inputs: Inputs, end: str) -> float:
    """Slope of the foot's bed at the "front" or "rear" binding, positive with the toes higher."""
    lift = inputs.front_lift_deg if end == "front" else inputs.rear_lift_deg
    return lift - inputs.leg(end).boot_ramp_deg


def bed_words(inputs: Inputs, end: str) -> str:
    """That slope in words: "level", "heel 12° high"."""
    slope = bed_slope_deg(inputs, end)
    shown = plain(abs(slope))
    if shown == plain(0.0):
        return tr("level", "of the bed in a boot")
    return tr(_HIGH[slope > 0.0], angle=f"{shown}°")


def beds_words(inputs: Inputs) -> str:
    """Both slopes: "front level, rear heel 12° high"; once where they are alike."""
    front, rear = (bed_words(inputs, end) for end in ("front", "rear"))
    return front if front == rear else tr("front {front}, rear {rear}", front=front, rear=rear)


_HIGH = {True: msgid("toes {angle} high"), False: msgid("heel {angle} high")}
