"""What was tried on snow or on the carpet, in the rider's units."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import radians
from typing import Final

from app.rider.inputs import Inputs
from app.words.language import msgid, tr
from geometry import Mount, Stance
from geometry.fitting.trials import ISO_DATE, Felt, Hold, Pressure, Trial, Verdict

STEPS_DEG: Final = (0.5, 1.0, 1.5, 2.0, 3.0)
"""Steps in which parts commonly set a cant; none finer than what is recommended."""
VERDICTS: Final = tuple(verdict.value for verdict in Verdict)
"""What a leg may have felt: "bow-legged", "even", "knock-kneed"."""
PRESSURES: Final = tuple(pressure.value for pressure in Pressure)
"""Where a foot may have pressed: "inside", "even", "outside".  Older files tell it; it is kept
and listed, and no longer asked for, since nothing follows from it."""
HOLDS: Final = tuple(hold.value for hold in Hold)
"""Where a boot may have pressed on its leg: "calf", "even", "shin"."""
NOT_SAID: Final = ""

_FELT: Final = {
    "bow-legged": msgid("bow-legged", "felt by a leg"),
    "even": msgid("even", "felt by a leg"),
    "knock-kneed": msgid("knock-kneed", "felt by a leg"),
}
_PRESSED: Final = {
    "inside": msgid("inside", "pressed by a foot"),
    "even": msgid("even", "pressed by a foot"),
    "outside": msgid("outside", "pressed by a foot"),
}
_HELD: Final = {
    "calf": msgid("at the calf", "pressed by a boot"),
    "even": msgid("evenly", "pressed by a boot"),
    "shin": msgid("at the shin", "pressed by a boot"),
}


def felt_word(verdict: str) -> str:
    """One of :data:`VERDICTS` in the user's language."""
    return tr(_FELT[verdict], "felt by a leg")


def pressed_word(pressure: str) -> str:
    """One of :data:`PRESSURES` in the user's language."""
    return tr(_PRESSED[pressure], "pressed by a foot")


def held_word(hold: str) -> str:
    """One of :data:`HOLDS` in the user's language."""
    return tr(_HELD[hold], "pressed by a boot")


@dataclass(frozen=True, slots=True)
class Entry:
    """One trial, as it is kept in a set-up.

    Attributes:
        date: as "2026-01-31".
        lead_foot: "left" or "right": the leg that stood in front, which is how a trial
            finds the leg that it speaks of once the other foot leads.
        angles_deg: front and rear binding angle.
        stance_length_mm: between the bindings along the board.
        across_spacing_mm: between the bindings across the board.
        lifts_deg: front and rear lift.
        cants_deg: front and rear cant.
        felt: "bow-legged", "even" or "knock-kneed", front and rear.
        pressure: "inside", "even" or "outside", front and rear.
        boots: where the boots pressed, "calf", "even" or "shin", front and rear; "" where
            that was not said.
        notes: anything else.
        unknown_keys: what else a file holds of the trial that this version does not
            know, as JSON text; written back as it was.
    """

    date: str
    lead_foot: str
    angles_deg: tuple[float, float]
    stance_length_mm: float
    across_spacing_mm: float
    lifts_deg: tuple[float, float]
    cants_deg: tuple[float, float]
    felt: tuple[str, str]
    pressure: tuple[str, str] = ("even", "even")
    boots: tuple[str, str] = (NOT_SAID, NOT_SAID)
    notes: str = ""
    unknown_keys: str = ""


def is_date(text: str) -> bool:
    """Whether a text is a day of the calendar, written as "2026-01-31"."""
    if not ISO_DATE.fullmatch(text):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def entry_of(
    inputs: Inputs,
    day: str,
    felt: tuple[str, str],
    pressure: tuple[str, str] = ("even", "even"),
    notes: str = "",
    *,
    boots: tuple[str, str] = (NOT_SAID, NOT_SAID),
) -> Entry:
    """A trial of the stance with the lifts and cants in hand on a day, as "2026-01-31"."""
    return Entry(
        date=day,
        lead_foot=inputs.lead_foot,
        angles_deg=(inputs.front_angle_deg, inputs.rear_angle_deg),
        stance_length_mm=inputs.stance_length_mm,
        across_spacing_mm=inputs.across_spacing_mm,
        lifts_deg=(inputs.front_lift_deg, inputs.rear_lift_deg),
        cants_deg=(inputs.front_cant_deg, inputs.rear_cant_deg),
        felt=felt,
        pressure=pressure,
        boots=boots,
        notes=notes,
    )


def trial_of(entry: Entry, lead_foot: str) -> Trial:
    """The trial as the geometry understands it, for a rider who leads with a foot now.

    Raises:
        ValueError: a word, the date or a number of the entry cannot be taken.
    """
    front, rear = (
        Mount(radians(angle), radians(lift), radians(cant))
        for angle, lift, cant in zip(
            entry.angles_deg, entry.lifts_deg, entry.cants_deg, strict=True
        )
    )
    front_felt, rear_felt = (
        Felt(Verdict(verdict), Pressure(pressure), Hold(hold) if hold else None)
        for verdict, pressure, hold in zip(entry.felt, entry.pressure, entry.boots, strict=True)
    )
    stance = Stance(front, rear, entry.stance_length_mm, entry.across_spacing_mm)
    other_foot_led = entry.lead_foot != lead_foot
    return Trial(entry.date, stance, front_felt, rear_felt, entry.notes, other_foot_led)
