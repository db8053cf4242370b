"""Every input of a posture by its name, and all of them together.

What belongs to a leg or a boot has three names: ``front_knee_height`` and
``rear_knee_height`` for one side, ``knee_height`` for both at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

from geometry.arrays import np
from geometry.body import Body, LegMeasures
from geometry.boots import Boot, Boots
from geometry.crouch import Crouch
from geometry.elementary import Real, larger
from geometry.posture import PostureInputs
from geometry.stance import Mount, Stance

ENDS = ("front", "rear")
LEG = ("hip_height", "knee_height", "ankle_height", "foot_length", "knee_tracking")
BOOT = ("sole_thickness", "forward_lean", "flex_range", "side_give", "cuff_offset")
MOUNT = ("angle", "lift", "cant")
PELVIS = ("hip_spacing", "neutral_spacing")
STANCE = ("stance_length", "across_spacing")
CROUCH = ("knee_bend", "hips_turned", "hip_shift", "back_lean", "weight_ahead")
ON_BOTH_SIDES = LEG + BOOT
"""Names that without a side stand for both legs, or both boots, moved together."""
ONE_SIDED = tuple(f"{end}_{name}" for end in ENDS for name in (*LEG, *BOOT, *MOUNT))
INPUTS = PELVIS + ON_BOTH_SIDES + STANCE + CROUCH + ONE_SIDED
"""Names under which the inputs' standard errors are given."""
_ANGLES = frozenset(
    {
        *MOUNT,
        *("knee_tracking", "forward_lean", "flex_range", "side_give", "cuff_offset"),
        *("knee_bend", "hips_turned", "back_lean"),
    }
)
_NEVER_NEGATIVE = frozenset(
    {
        *("ankle_height", "hip_spacing", "neutral_spacing", "stance_length", "sole_thickness"),
        *("flex_range", "side_give", "knee_bend"),
    }
)


def is_angle(name: str) -> bool:
    """Whether an input is an angle (rad); the others are lengths (mm)."""
    return _without_end(name) in _ANGLES


def shifted(setup: PostureInputs, shifts: Mapping[str, Real]) -> PostureInputs:
    """The inputs, each with its shift added; lengths and ranges stop at zero.

    Args:
        setup: the inputs.
        shifts: what is added to each by name (mm or rad).  A name without a side
            moves both sides, on top of what is added to one of them.
    """

    def moved(name: str) -> Real:
        shift = shifts.get(name, 0.0)
        if name in ONE_SIDED:
            shift = shift + shifts.get(_without_end(name), 0.0)
        value: Real = input_named(setup, name) + shift
        # A measuring error cannot take these below zero.
        return larger(value, 0.0) if _without_end(name) in _NEVER_NEGATIVE else value

    def sided(names: tuple[str, ...], end: str) -> list[Real]:
        return [moved(f"{end}_{name}") for name in names]

    front, rear = ENDS
    return PostureInputs(
        Body(
            LegMeasures(*sided(LEG, front)),
            LegMeasures(*sided(LEG, rear)),
            *(moved(name) for name in PELVIS),
        ),
        Boots(Boot(*sided(BOOT, front)), Boot(*sided(BOOT, rear))),
        Stance(
            Mount(*sided(MOUNT, front)),
            Mount(*sided(MOUNT, rear)),
            *(moved(name) for name in STANCE),
        ),
        Crouch(*(moved(name) for name in CROUCH)),
    )


def input_named(setup: PostureInputs, name: str) -> Any:
    """The value of an input by its name in :data:`INPUTS` (mm or rad).

    Of a name that stands for both sides, the mean of the two.
    """
    if name in ON_BOTH_SIDES:
        return 0.5 * (input_named(setup, f"front_{name}") + input_named(setup, f"rear_{name}"))
    if name in STANCE:
        return setup.stance.length if name == "stance_length" else setup.stance.across
    if name in PELVIS:
        return getattr(setup.body, name)
    if name in CROUCH:
        return getattr(setup.crouch, name)
    end, field = name.split("_", 1)
    holder = setup.body if field in LEG else setup.boots if field in BOOT else setup.stance
    return getattr(getattr(holder, end), field)


def _without_end(name: str) -> str:
    end, _, field = name.partition("_")
    return field if end in ENDS else name


def how_many(asked: PostureInputs) -> int:
    """How many riders and stances there are: the length of the arrays, 1 for single values."""
    return max(int(np.size(value)) for value in _values(asked))


def on_axis(asked: PostureInputs) -> PostureInputs:
    """The inputs with one more axis at the end of each array, of length 1."""
    return _changed(asked, lambda value: value[..., np.newaxis])


def some_of(asked: PostureInputs, which: Any) -> PostureInputs:
    """Some of an array of riders and stances; what is the same for all stays a single value."""
    return _changed(asked, lambda value: value[which])


def _values(asked: Any) -> Iterator[Any]:
    """All single values and arrays among the inputs."""
    if isinstance(asked, tuple):
        for each in asked:
            yield from _values(each)
    elif is_dataclass(asked):
        for field in fields(asked):
            yield from _values(getattr(asked, field.name))
    else:
        yield asked


def _changed(asked: PostureInputs, change: Callable[[Any], Any]) -> PostureInputs:
    """The inputs with every array changed."""

    def changed(thing: Any) -> Any:
        if not is_dataclass(thing):
            return change(thing) if isinstance(thing, np.ndarray) else thing
        parts: dict[str, Any] = {
            each.name: changed(getattr(thing, each.name)) for each in fields(thing)
        }
        return replace(thing, **parts)  # type: ignore[type-var]

    return PostureInputs(*map(changed, asked))
