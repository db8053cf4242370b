"""What the rider sets, in the rider's units, and all that is said of it.

:class:`Inputs` holds every number as typed: millimetres and degrees.  With each
stand its default, label, unit, range, steps and explanation, which controls,
command line, files and sheets all read from :data:`FIELDS`.  :func:`model` is the
only way from here into the geometry.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from math import isfinite, radians
from typing import Any, Final

from app.words.field import (
    IN_OUT,
    KNEE_INSIDE_OUTSIDE,
    TO_FRONT_REAR_LEG,
    TO_NOSE_TAIL,
    TOE_HEEL,
    Field,
    adjustable,
    fields_of,
)
from app.words.language import msgid
from geometry import Body, Boots, Crouch, Mount, Stance
from geometry.fitting.inputs import Setup as PostureInputs

LEAD_FEET: Final = ("left", "right")


@dataclass(frozen=True, slots=True)
class Inputs:
    """Everything the picture depends on.  The defaults are the demo rider.

    What the boots allow is an engineering choice without a source, for the user to set.
    The flex range is 15 degrees because practice then comes out right (common practice,
    no source): at 60/60, stance length 540, neutral spacing 270, hip height 950 and bend
    45, a toe lift of 6 degrees in front and as much heel lift behind is within a degree
    of the least that keeps the boots in range.
    """

    # fmt: off
    lead_foot: str = "left"
    front_angle_deg: float = adjustable(
        45.0, "stance", "Front binding angle", "deg", -60.0, 90.0, 1.0,
        "How far the front foot is turned from straight across the board. "
        "Positive turns the toes towards the nose.",
    )
    rear_angle_deg: float = adjustable(
        40.0, "stance", "Rear binding angle", "deg", -60.0, 90.0, 1.0,
        "How far the rear foot is turned from straight across the board. "
        "Positive turns the toes towards the nose; negative makes a duck stance.",
    )
    stance_length_mm: float = adjustable(
        500.0, "stance", "Stance length", "mm", 0.0, 800.0, 5.0,
        "Between the centres of the two bindings, measured along the board.",
    )
    across_spacing_mm: float = adjustable(
        0.0, "stance", "Across spacing", "mm", -100.0, 600.0, 5.0,
        "Between the centres of the two bindings, measured across the board: 0 on a "
        "snowboard, the whole spacing on a monoski or a pair of skis.",
    )
    front_lift_deg: float = adjustable(
        0.0, "mounts", "Front lift", "deg", -15.0, 15.0, 0.5,
        "Slope of the front sole along the foot, as an inclinometer laid along the boot "
        "reads it. Positive raises the toe end, negative the heel.",
        TOE_HEEL,
    )
    front_cant_deg: float = adjustable(
        0.0, "mounts", "Front cant", "deg", -15.0, 15.0, 0.5,
        "Slope of the front sole across the foot, as an inclinometer laid square across the "
        "boot reads it. Positive raises the little-toe side (inward), negative the big-toe "
        "side (outward).",
        IN_OUT,
    )
    rear_lift_deg: float = adjustable(
        0.0, "mounts", "Rear lift", "deg", -15.0, 15.0, 0.5,
        "Slope of the rear sole along the foot, as an inclinometer laid along the boot "
        "reads it. Positive raises the toe end, negative the heel.",
        TOE_HEEL,
    )
    rear_cant_deg: float = adjustable(
        0.0, "mounts", "Rear cant", "deg", -15.0, 15.0, 0.5,
        "Slope of the rear sole across the foot, as an inclinometer laid square across the "
        "boot reads it. Positive raises the little-toe side (inward), negative the big-toe "
        "side (outward).",
        IN_OUT,
    )
    hip_height_mm: float = adjustable(
        880.0, "legs", "Hip height", "mm", 400.0, 1150.0, 5.0,
        "Barefoot, from the floor to the hip joint: the bony knob at the side of the hip "
        "that rolls under your hand as the leg turns in and out.",
    )
    knee_height_mm: float = adjustable(
        490.0, "legs", "Knee height", "mm", 200.0, 650.0, 5.0,
        "Barefoot, from the floor to the knee joint line: the gap you feel on the outer "
        "side of the knee, just below the round end of the thigh bone.",
    )
    ankle_height_mm: float = adjustable(
        70.0, "legs", "Ankle height", "mm", 30.0, 120.0, 1.0,
        "Barefoot, from the floor to the middle of the bony knob on the outer side of the ankle.",
    )
    hip_spacing_mm: float = adjustable(
        170.0, "legs", "Hip spacing", "mm", 80.0, 250.0, 1.0,
        "Between the centres of the two hip joints: about 0.72 of the distance between the "
        "two front points of the hip bones.",
    )
    neutral_spacing_mm: float = adjustable(
        250.0, "legs", "Neutral spacing", "mm", 50.0, 450.0, 5.0,
        "Between the long axes of the two soles when you stand in the boots with straight "
        "legs and the soles parallel and flat: where the legs hang by themselves.",
    )
    foot_length_mm: float = adjustable(
        255.0, "legs", "Foot length", "mm", 140.0, 340.0, 1.0,
        "Barefoot, from the heel to the longest toe.",
    )
    knee_tracking_deg: float = adjustable(
        0.0, "legs", "Knee tracking", "deg", -25.0, 25.0, 1.0,
        "Where the knee goes over the foot as it bends. Positive when it tracks inside the "
        "toes, negative outside.",
        KNEE_INSIDE_OUTSIDE,
    )
    forward_lean_deg: float = adjustable(
        18.0, "boots", "Forward lean", "deg", 0.0, 45.0, 1.0,
        "How far forward the boot holds the shank at rest, from square to the sole.",
    )
    flex_range_deg: float = adjustable(
        15.0, "boots", "Flex range", "deg", 0.0, 45.0, 1.0,
        "How far from rest the boot lets the shank go, forward and back alike.",
    )
    side_give_deg: float = adjustable(
        4.0, "boots", "Side give", "deg", 0.0, 20.0, 0.5,
        "How far boot and ankle together let the shank tilt sideways from where the boot "
        "holds it.",
    )
    sole_thickness_mm: float = adjustable(
        25.0, "boots", "Sole thickness", "mm", 0.0, 80.0, 1.0,
        "Of the boot, from the binding to the underside of the foot.",
    )
    knee_bend_deg: float = adjustable(
        45.0, "posture", "Knee bend", "deg", 5.0, 110.0, 1.0,
        "How deep the rider crouches: the mean bend of the two knees, 0 when straight.",
    )
    hips_turned_deg: float = adjustable(
        0.0, "posture", "Hips turned", "deg", -60.0, 60.0, 1.0,
        "How far the pelvis is turned from the mean of the two feet. Positive turns it "
        "towards the nose.",
        TO_NOSE_TAIL,
    )
    hip_shift_mm: float = adjustable(
        0.0, "posture", "Hip shift", "mm", -150.0, 150.0, 5.0,
        "How far the pelvis is moved sideways from the middle. Positive moves it to the "
        "front leg.",
        TO_FRONT_REAR_LEG,
    )
    # fmt: on

    @property
    def hand(self) -> float:
        """+1 where the toe side is on the right of one who looks to the nose, -1 on the left."""
        return 1.0 if self.lead_foot == "left" else -1.0

    @property
    def mean_angle_deg(self) -> float:
        """Midway between the two binding angles."""
        return 0.5 * (self.front_angle_deg + self.rear_angle_deg)

    @property
    def facing_deg(self) -> float:
        """Where the hips face, turned from straight across the board."""
        return self.mean_angle_deg + self.hips_turned_deg


DEFAULTS: Final = Inputs()


GROUPS: Final = {
    "stance": msgid("Stance"),
    "mounts": msgid("Mounts"),
    "posture": msgid("Posture"),
    "legs": msgid("Legs"),
    "boots": msgid("Boots"),
}

FIELDS: Final = fields_of(Inputs)

FIELD: Final = {field.name: field for field in FIELDS}


def default_of(field: Field) -> float:
    """The demo rider's value of an input."""
    return float(getattr(DEFAULTS, field.name))


class InputError(ValueError):
    """An input that cannot be taken, said in one sentence to the user."""


def checked(inputs: Inputs) -> Inputs:
    """The inputs themselves, if every one of them lies in its range.

    Raises:
        InputError: names the first input at fault, its value and its range.
    """
    if inputs.lead_foot not in LEAD_FEET:
        raise InputError(f"lead_foot is {inputs.lead_foot!r}; it must be left or right")
    for field in FIELDS:
        value = getattr(inputs, field.name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise InputError(f"{field.name} is {value!r}; it must be a number")
        if not (isfinite(value) and field.low <= value <= field.high):
            raise InputError(
                f"{field.name} is {value:g}; it must lie between {field.low:g} and {field.high:g}"
            )
    return inputs


def changed(inputs: Inputs, **changes: Any) -> Inputs:
    """The inputs with some of them replaced, numbers as floats and in their ranges.

    Raises:
        InputError: a name is unknown or a value cannot be taken.
    """
    known = {field.name for field in fields(Inputs)}
    for name in changes:
        if name not in known:
            raise InputError(f"there is no input named {name}; the names are {', '.join(known)}")
    numbers: dict[str, Any] = {
        name: float(value) if isinstance(value, int) and not isinstance(value, bool) else value
        for name, value in changes.items()
    }
    return checked(replace(inputs, **numbers))


def flex_range(inputs: Inputs) -> tuple[float, float]:
    """Least and largest flex that the boots allow (degrees)."""
    lean, reach = inputs.forward_lean_deg, inputs.flex_range_deg
    return lean - reach, lean + reach


def model(inputs: Inputs) -> PostureInputs:
    """The geometry's view of the inputs: mm and radians.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    body = Body(
        hip_height=inputs.hip_height_mm,
        knee_height=inputs.knee_height_mm,
        ankle_height=inputs.ankle_height_mm,
        hip_spacing=inputs.hip_spacing_mm,
        neutral_spacing=inputs.neutral_spacing_mm,
        foot_length=inputs.foot_length_mm,
        knee_tracking=radians(inputs.knee_tracking_deg),
    )
    boots = Boots(
        sole_thickness=inputs.sole_thickness_mm,
        forward_lean=radians(inputs.forward_lean_deg),
        flex_range=radians(inputs.flex_range_deg),
        side_give=radians(inputs.side_give_deg),
    )
    stance = Stance(
        front=_mount(inputs.front_angle_deg, inputs.front_lift_deg, inputs.front_cant_deg),
        rear=_mount(inputs.rear_angle_deg, inputs.rear_lift_deg, inputs.rear_cant_deg),
        length=inputs.stance_length_mm,
        across=inputs.across_spacing_mm,
    )
    crouch = Crouch(
        knee_bend=radians(inputs.knee_bend_deg),
        hips_turned=radians(inputs.hips_turned_deg),
        hip_shift=inputs.hip_shift_mm,
    )
    return PostureInputs(body, boots, stance, crouch)


def _mount(angle_deg: float, lift_deg: float, cant_deg: float) -> Mount:
    return Mount(angle=radians(angle_deg), lift=radians(lift_deg), cant=radians(cant_deg))
