"""What the rider sets, in the rider's units, and all that is said of it.

:class:`Inputs` holds every number as typed: millimetres and degrees.  With each
stand its default, label, unit, range, steps and explanation, which controls,
command line, files and sheets all read from :data:`FIELDS`.  :func:`model` is the
only way from here into the geometry.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import isfinite, radians
from typing import Any, Final

from app.words.field import (
    CUFF_IN_OUT,
    IN_OUT,
    KNEE_INSIDE_OUTSIDE,
    TO_FRONT_REAR_LEG,
    TO_NOSE_TAIL,
    TO_TOES_HEELS,
    TOE_HEEL,
    Field,
    adjustable,
    fields_of,
)
from app.words.language import msgid
from geometry import Body, Boot, Boots, Crouch, LegMeasures, Mount, PostureInputs, Stance

SIDES: Final = ("left", "right")
"""The two legs; each name is also what stands before the names of a leg's own numbers."""
ENDS: Final = ("front", "rear")
"""The two bindings."""


@dataclass(frozen=True, slots=True)
class LegInputs:
    """One leg and its boot.  The defaults are the demo rider's.

    What the boot allows is an engineering choice without a source, for the user to set.
    """

    # fmt: off
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
    cuff_offset_deg: float = adjustable(
        0.0, "boots", "Cuff offset", "deg", -10.0, 10.0, 0.5,
        "How much further inward the cuff leans than fits the leg: 0 once the cuffs "
        "were adjusted so that both soles lie flat at your natural spacing.",
        CUFF_IN_OUT,
    )
    boot_ramp_deg: float = adjustable(
        0.0, "boots", "Boot ramp", "deg", -5.0, 20.0, 0.5,
        "How much higher the heel stands than the toes inside the boot, as a slope. It alters "
        "no knee here; the slope under the foot is told with it.",
    )
    # fmt: on


USUAL_LEG: Final = LegInputs()


@dataclass(frozen=True, slots=True)
class Inputs:
    """Everything the picture depends on.  The defaults are the demo rider.

    Attributes:
        lead_foot: the foot that stands in front, one of :data:`SIDES`.
        left: the left leg and its boot, wherever it stands.
        right: the right leg and its boot.
    """

    # fmt: off
    lead_foot: str = "left"
    front_angle_deg: float = adjustable(
        43.0, "stance", "Front binding angle", "deg", -60.0, 90.0, 1.0,
        "How far the front foot is turned from straight across the board. "
        "Positive turns the toes towards the nose.",
    )
    rear_angle_deg: float = adjustable(
        38.0, "stance", "Rear binding angle", "deg", -60.0, 90.0, 1.0,
        "How far the rear foot is turned from straight across the board. "
        "Positive turns the toes towards the nose; negative makes a duck stance.",
    )
    stance_length_mm: float = adjustable(
        505.0, "stance", "Stance length", "mm", 0.0, 800.0, 5.0,
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
    knee_bend_deg: float = adjustable(
        45.0, "posture", "Knee bend", "deg", 5.0, 120.0, 1.0,
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
    back_lean_deg: float = adjustable(
        28.0, "posture", "Back lean", "deg", -20.0, 80.0, 1.0,
        "How far back and head lean forward from upright, to where the hips face.",
    )
    weight_ahead_mm: float = adjustable(
        0.0, "posture", "Weight ahead", "mm", -150.0, 150.0, 5.0,
        "How far the weight stands towards the toes from the middle between the bindings: 0 "
        "when it stands over the middle of the feet.",
        TO_TOES_HEELS,
    )
    hip_spacing_mm: float = adjustable(
        170.0, "legs", "Hip spacing", "mm", 80.0, 250.0, 1.0,
        "Between the centres of the two hip joints: about 0.72 of the distance between the "
        "two front points of the hip bones.",
    )
    neutral_spacing_mm: float = adjustable(
        260.0, "legs", "Natural spacing", "mm", 50.0, 450.0, 5.0,
        "Between the long axes of the two soles when you stand in the boots with "
        "straight legs and the soles parallel and flat: as the legs come to stand by "
        "themselves.",
    )
    bend_from_deg: float = adjustable(
        30.0, "answer", "Riding bend from", "deg", 25.0, 109.0, 1.0,
        "Mean bend of the knees when you stand tallest while riding.",
    )
    bend_to_deg: float = adjustable(
        55.0, "answer", "Riding bend to", "deg", 26.0, 110.0, 1.0,
        "Mean bend of the knees when you stand deepest while riding.",
    )
    largest_lift_deg: float = adjustable(
        9.0, "answer", "Largest lift", "deg", 0.0, 15.0, 0.5,
        "The most lift that you, or the maker of the bindings, allow.",
    )
    largest_cant_deg: float = adjustable(
        9.0, "answer", "Largest cant", "deg", 0.0, 15.0, 0.5,
        "The most cant that you, or the maker of the bindings, allow.",
    )
    left: LegInputs = USUAL_LEG
    right: LegInputs = USUAL_LEG
    # fmt: on

    @property
    def front(self) -> LegInputs:
        """The leg that stands in front."""
        return self.left if self.lead_foot == "left" else self.right

    @property
    def rear(self) -> LegInputs:
        """The other leg."""
        return self.right if self.lead_foot == "left" else self.left

    def leg(self, end: str) -> LegInputs:
        """The leg at the "front" or at the "rear" binding."""
        return self.front if end == "front" else self.rear

    def side(self, end: str) -> str:
        """Which leg stands at the "front" or the "rear" binding, one of :data:`SIDES`."""
        left_leads = self.lead_foot == "left"
        return "left" if (end == "front") == left_leads else "right"

    @property
    def highest_hip_mm(self) -> float:
        """How high over the bindings the higher hip stands with the legs straight."""
        return max(leg.hip_height_mm + leg.sole_thickness_mm for leg in (self.left, self.right))

    def in_front(self, name: str) -> str:
        """A name, with the side of the leg that stands in front where it wants one."""
        return f"{self.side('front')}_{name}" if name in OF_LEG else name

    def value(self, name: str) -> float:
        """A number by its name in :data:`FIELD`.

        What belongs to a leg is asked with its side in front; without one it is that of
        the leg that stands in front.
        """
        side, of_leg = side_and_name(self.in_front(name))
        return float(getattr(getattr(self, side) if side else self, of_leg))

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
    "mounts": msgid("Lift and cant"),
    "posture": msgid("Posture"),
    "legs": msgid("Legs"),
    "boots": msgid("Boots"),
}
"""The groups of controls in the panel; the terms of the answer stand on its page."""

SHARED_FIELDS: Final = fields_of(Inputs)
LEG_FIELDS: Final = fields_of(LegInputs)
FIELDS: Final = (*SHARED_FIELDS, *LEG_FIELDS)
"""Every number once; those of a leg by the name that stands for both legs."""
OF_LEG: Final = frozenset(field.name for field in LEG_FIELDS)
"""Names of the numbers that each leg, or its boot, has for itself."""
SIDED_FIELDS: Final = tuple(
    replace(field, name=f"{side}_{field.name}", side=side) for field in LEG_FIELDS for side in SIDES
)
FIELD: Final = {field.name: field for field in (*FIELDS, *SIDED_FIELDS)}
"""Every number by its name, with and without a side."""


def side_and_name(name: str) -> tuple[str, str]:
    """The side that a name begins with, "" without one, and the rest of the name."""
    side, _, rest = name.partition("_")
    return (side, rest) if side in SIDES and rest in OF_LEG else ("", name)


def sided_names(name: str) -> tuple[str, ...]:
    """All that a name stands for: both sides of a leg's number without a side, else itself."""
    return tuple(f"{side}_{name}" for side in SIDES) if name in OF_LEG else (name,)


def fields_told(*stances: Inputs, fields: Iterable[Field] = FIELDS) -> tuple[Field, ...]:
    """The fields under which the numbers of some inputs are told.

    A leg's number stands for both legs where they agree in each of the inputs, and else
    once for either side.
    """
    told: list[Field] = []
    for field in fields:
        names = sided_names(field.name)
        alike = all(len({each.value(name) for name in names}) == 1 for each in stances)
        told += [field] if alike else [FIELD[name] for name in names]
    return tuple(told)


def differing(one: Inputs, other: Inputs) -> tuple[Field, ...]:
    """The numbers in which two inputs differ, told as by :func:`fields_told`."""
    fields = fields_told(one, other)
    return tuple(each for each in fields if one.value(each.name) != other.value(each.name))


def told_together(names: Iterable[str]) -> list[str]:
    """Names in their order, those of both legs or boots as one without a side."""
    given = tuple(names)
    bare = {name: side_and_name(name)[1] for name in given}
    both = {each for each in bare.values() if all(one in given for one in sided_names(each))}
    return list(dict.fromkeys(bare[name] if bare[name] in both else name for name in given))


def default_of(field: Field) -> float:
    """The demo rider's value of an input."""
    return DEFAULTS.value(field.name)


class InputError(ValueError):
    """An input that cannot be taken, said in one sentence to the user."""


def checked(inputs: Inputs) -> Inputs:
    """The inputs themselves, if every one of them lies in its range.

    Raises:
        InputError: names the first input at fault, its value and its range.
    """
    if inputs.lead_foot not in SIDES:
        raise InputError(f"lead_foot is {inputs.lead_foot!r}; it must be left or right")
    for field in SHARED_FIELDS:
        _check(field.name, field, getattr(inputs, field.name))
    for field in SIDED_FIELDS:
        side, name = side_and_name(field.name)
        _check(field.name, field, getattr(getattr(inputs, side), name))
    if not inputs.bend_from_deg < inputs.bend_to_deg:
        raise InputError(
            f"bend_from_deg is {inputs.bend_from_deg:g}; it must be less than bend_to_deg, "
            f"{inputs.bend_to_deg:g}"
        )
    return inputs


def _check(name: str, field: Field, value: Any) -> None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise InputError(f"{name} is {value!r}; it must be a number")
    if not (isfinite(value) and field.low <= value <= field.high):
        low, high = f"{field.low:g}", f"{field.high:g}"
        raise InputError(f"{name} is {value:g}; it must lie between {low} and {high}")


def changed(inputs: Inputs, **changes: Any) -> Inputs:
    """The inputs with some of them replaced, numbers as floats and in their ranges.

    A name of a leg's number sets both legs, or one with its side in front of it; where
    both are given, the side counts.

    Raises:
        InputError: a name is unknown or a value cannot be taken.
    """
    shared: dict[str, Any] = {}
    legs: dict[str, dict[str, Any]] = {side: {} for side in SIDES}
    for name in sorted(changes, key=lambda each: bool(side_and_name(each)[0])):
        value, (side, of_leg) = changes[name], side_and_name(name)
        number = float(value) if isinstance(value, int) and not isinstance(value, bool) else value
        if of_leg in OF_LEG:
            for each in (side,) if side else SIDES:
                legs[each][of_leg] = number
        elif name == "lead_foot" or name in FIELD:
            shared[name] = number
        else:
            names = ", ".join(("lead_foot", *FIELD))
            raise InputError(f"there is no input named {name}; the names are {names}")
    sides = {side: replace(getattr(inputs, side), **new) for side, new in legs.items() if new}
    return checked(replace(inputs, **shared, **sides))


def flex_range(leg: LegInputs) -> tuple[float, float]:
    """Least and largest flex that a boot allows (degrees)."""
    return leg.forward_lean_deg - leg.flex_range_deg, leg.forward_lean_deg + leg.flex_range_deg


def model(inputs: Inputs) -> PostureInputs:
    """The geometry's view of the inputs: mm and radians.

    Raises:
        ValueError: the leg dimensions contradict each other.
    """
    front, rear = inputs.front, inputs.rear
    return PostureInputs(
        body=Body(
            _measures(front), _measures(rear), inputs.hip_spacing_mm, inputs.neutral_spacing_mm
        ),
        boots=Boots(_boot(front), _boot(rear)),
        stance=Stance(
            front=_mount(inputs.front_angle_deg, inputs.front_lift_deg, inputs.front_cant_deg),
            rear=_mount(inputs.rear_angle_deg, inputs.rear_lift_deg, inputs.rear_cant_deg),
            length=inputs.stance_length_mm,
            across=inputs.across_spacing_mm,
        ),
        crouch=Crouch(
            knee_bend=radians(inputs.knee_bend_deg),
            hips_turned=radians(inputs.hips_turned_deg),
            hip_shift=inputs.hip_shift_mm,
            back_lean=radians(inputs.back_lean_deg),
            weight_ahead=inputs.weight_ahead_mm,
        ),
    )


def _measures(leg: LegInputs) -> LegMeasures:
    return LegMeasures(
        hip_height=leg.hip_height_mm,
        knee_height=leg.knee_height_mm,
        ankle_height=leg.ankle_height_mm,
        foot_length=leg.foot_length_mm,
        knee_tracking=radians(leg.knee_tracking_deg),
    )


def _boot(leg: LegInputs) -> Boot:
    return Boot(
        sole_thickness=leg.sole_thickness_mm,
        forward_lean=radians(leg.forward_lean_deg),
        flex_range=radians(leg.flex_range_deg),
        side_give=radians(leg.side_give_deg),
        cuff_offset=radians(leg.cuff_offset_deg),
    )


def _mount(angle_deg: float, lift_deg: float, cant_deg: float) -> Mount:
    return Mount(angle=radians(angle_deg), lift=radians(lift_deg), cant=radians(cant_deg))
