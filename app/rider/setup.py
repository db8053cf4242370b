"""One rider's set-up: the inputs, and where each leg dimension comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Final, cast

from app.rider.board import USUAL_BOARD, BoardInputs
from app.rider.inputs import (
    DEFAULTS,
    FIELD,
    FIELDS,
    SIDES,
    Inputs,
    changed,
    side_and_name,
    sided_names,
    told_together,
)
from app.rider.lessons import NO_LESSON, Lesson
from app.rider.movement import NO_MOVEMENT, Movement
from app.rider.parts import NO_PARTS, Parts
from app.rider.trials import Entry
from app.rider.wedge import USUAL_WEDGE, WedgeInputs
from app.words.bounds import in_one_line
from app.words.field import Field, adjustable, fields_of
from geometry.riders.bodies import EstimatedBody, estimated_body
from geometry.riders.estimates import Figures, KnownLengths

LEGS, BOOTS = "legs", "boots"
"""Groups of numbers that each side has for itself; the legs' also hold the two spacings."""


def names_in(group: str) -> tuple[str, ...]:
    """Every number of a group by its name, those of a leg for either side."""
    fields = (field for field in FIELDS if field.group == group)
    return tuple(name for field in fields for name in sided_names(field.name))


LEG_NAMES: Final = names_in(LEGS)
BOOT_NAMES: Final = names_in(BOOTS)

FIGURES: Final = ("either", "men", "women")
"""Whose published body figures an estimate rests on."""

CUFFS: Final = ("", "adjusted", "as_they_are")
"""What was done about the boots' cuffs: nothing yet, adjusted to the rider, or left."""

LONGEST_NAME: Final = 80
LONGEST_NOTES: Final = 2000
"""Letters that can be typed; a file with more is taken whole."""

LEAST_THIGH_MM: Final = 50.0
"""How far an estimated knee stays below the hip (engineering choice, no source)."""


@dataclass(frozen=True, slots=True)
class Known:
    """What a newcomer can say of the body without measuring a leg.

    Attributes:
        figures: whose figures the estimates rest on, one of :data:`FIGURES`.
    """

    # fmt: off
    figures: str = "either"
    stature_mm: float | None = adjustable(
        None, "known", "Height", "mm", 1000.0, 2200.0, 5.0,
        "Your standing height, barefoot, from the floor to the top of the head.",
    )
    inseam_mm: float | None = adjustable(
        None, "known", "Inseam", "mm", 400.0, 1100.0, 5.0,
        "Barefoot, from the floor to the crotch: where a book, held level and pulled up "
        "firmly between the legs, marks the wall.",
    )
    sitting_knee_mm: float | None = adjustable(
        None, "known", "Knee height, seated", "mm", 250.0, 750.0, 5.0,
        "Barefoot and seated with the knee bent square, from the floor to the top of the knee.",
    )
    # fmt: on


KNOWN_FIELDS: Final = fields_of(Known)
"""What can be said of a body without feeling for its joints."""


@dataclass(frozen=True, slots=True)
class Setup:
    """Inputs with their origin.

    Attributes:
        inputs: the values in force.
        known: what the estimates rest on.
        measured: names of the leg dimensions that were measured by hand.
        spreads: standard error of each estimated dimension (name, value).
        examples: names of the leg dimensions that are an example rider's.
        apart: which of :data:`LEGS` and :data:`BOOTS` are set for either side by
            itself; else what is typed counts for both.
        cuffs: one of :data:`CUFFS`, "" while nobody has looked at them.
        growing: whether the rider still grows.
        name: what the user calls the set-up.
        notes: whatever the user wrote about it, in lines.
        repeats: what was measured several times, by name (mm or degrees); the mean is
            in force unless another value was set by hand since.
        trials: what was tried, oldest first.
        board: what overhang depends on.
        wedge: what a printed wedge is made to.
        parts: what there is to build mounts from.
        movement: the rider's or the coach's own, to be played.
        lesson: that a coach is making of it.
    """

    inputs: Inputs = DEFAULTS
    known: Known = Known()
    measured: frozenset[str] = frozenset()
    spreads: tuple[tuple[str, float], ...] = ()
    examples: frozenset[str] = frozenset()
    apart: frozenset[str] = frozenset()
    cuffs: str = "adjusted"
    growing: bool = False
    name: str = "Demo rider"
    notes: str = ""
    repeats: tuple[tuple[str, tuple[float, ...]], ...] = ()
    trials: tuple[Entry, ...] = ()
    board: BoardInputs = USUAL_BOARD
    wedge: WedgeInputs = USUAL_WEDGE
    parts: Parts = NO_PARTS
    movement: Movement = NO_MOVEMENT
    lesson: Lesson = NO_LESSON

    @property
    def called(self) -> str:
        """The name as it is shown: in one line, and of a very long one the beginning."""
        return in_one_line(self.name, LONGEST_NAME)

    def origin(self, name: str) -> str:
        """Where a leg dimension comes from: "measured", "estimated", "example" or "default".

        Without a side it is that of the leg that stands in front.
        """
        name = self.inputs.in_front(name)
        if name in self.measured:
            return "measured"
        if name in dict(self.spreads):
            return "estimated"
        return "example" if name in self.examples else "default"

    def names_told(self, group: str) -> tuple[str, ...]:
        """Every number of a group, one for both sides where the group is not apart."""
        if self.is_apart(group):
            return names_in(group)
        return tuple(field.name for field in FIELDS if field.group == group)

    def is_apart(self, group: str) -> bool:
        """Whether a group is set for either side by itself; it is where the sides differ."""
        return group in self.apart or any(
            self.inputs.value(left) != self.inputs.value(right)
            for field in FIELDS
            if field.group == group and len(sided_names(field.name)) > 1
            for left, right in [sided_names(field.name)]
        )


DEMO: Final = Setup()
"""What one starts from, until a starting point is chosen."""


def somebody(setup: Setup) -> bool:
    """Whether the legs are a real rider's, at least one of them: not the demo rider's."""
    return bool(setup.measured or setup.spreads)


def edited(setup: Setup, **changes: float | str) -> Setup:
    """The set-up with some inputs changed by hand: leg dimensions become measured.

    Where one side was changed by itself, its group stays apart, even if both sides
    meet on the way.

    Raises:
        InputError: a name is unknown or a value cannot be taken.
    """
    inputs = changed(setup.inputs, **changes)
    touched = {each for name in changes for each in sided_names(name)} & {*LEG_NAMES}
    by_hand = {name for name in touched if inputs.value(name) != setup.inputs.value(name)}
    return replace(
        setup,
        inputs=inputs,
        measured=setup.measured | by_hand,
        examples=setup.examples - by_hand,
        apart=setup.apart | {FIELD[name].group for name in changes if side_and_name(name)[0]},
    )


def with_sides(setup: Setup, group: str, *, apart: bool) -> Setup:
    """The set-up with a group set for either side by itself, or for both at once.

    Put together again, both sides are as the one that stands in front.
    """
    if apart:
        return replace(setup, apart=setup.apart | {group})
    ahead, behind = setup.inputs.side("front"), setup.inputs.side("rear")
    names = [name for name in names_in(group) if name.startswith(f"{behind}_")]
    pairs = {name: f"{ahead}_{side_and_name(name)[1]}" for name in names}

    def like_ahead(marked: frozenset[str]) -> frozenset[str]:
        return (marked - {*pairs}) | {name for name, other in pairs.items() if other in marked}

    def taken(told: tuple[tuple[str, Any], ...]) -> tuple[tuple[str, Any], ...]:
        kept = {name: value for name, value in told if name not in pairs}
        return tuple({**kept, **{n: kept[o] for n, o in pairs.items() if o in kept}}.items())

    return replace(
        setup,
        inputs=changed(setup.inputs, **{n: setup.inputs.value(o) for n, o in pairs.items()}),
        measured=like_ahead(setup.measured),
        examples=like_ahead(setup.examples),
        spreads=tuple(sorted(taken(setup.spreads))),
        repeats=taken(setup.repeats),
        apart=setup.apart - {group},
    )


@cache
def estimates(known: Known) -> dict[str, tuple[float, float]]:
    """What can be estimated of both legs: by name, the value and its standard error (mm).

    Values are whole millimetres within the range of their input.  Without any
    length known, or from lengths that contradict each other, there are none.
    """
    return {
        f"{name}_mm": (
            _on_scale(FIELD[f"{name}_mm"], float(estimate.value)),
            float(estimate.standard_error),
        )
        for name, estimate in _estimated(known).lengths.items()
    }


def known_correlations(known: Known) -> dict[tuple[str, str], float]:
    """How far the errors of the estimates go together, by pairs of names without a side."""
    found = _estimated(known).correlations.items()
    return {(f"{one}_mm", f"{other}_mm"): float(value) for (one, other), value in found}


def _estimated(known: Known) -> EstimatedBody:
    """The estimates; none from lengths that contradict each other."""
    try:
        return _published(known)
    except ValueError:
        return EstimatedBody({}, {})


def _published(known: Known) -> EstimatedBody:
    """The estimates as they come; none without any length known."""
    lengths = KnownLengths(known.stature_mm, known.inseam_mm, known.sitting_knee_mm)
    if all(length is None for length in lengths):
        return EstimatedBody({}, {})
    return estimated_body(lengths, cast(Figures, known.figures))


def _on_scale(field: Field, value: float) -> float:
    return min(max(float(round(value)), field.low), field.high)


def estimated(setup: Setup, start: Setup | None = None, **known: Any) -> Setup:
    """The set-up with more (or less) known of the body, and estimates from it.

    Measured dimensions stay.  Every other one takes its estimate; where nothing
    known bears on it any more it goes back to where it started.

    Args:
        setup: the set-up.
        start: what it started from; None for the demo rider.
        known: what is now known, by its name in :class:`Known`.

    Raises:
        ImpossibleError: the known lengths contradict each other.
    """
    setup = replace(setup, known=replace(setup.known, **known))
    _published(setup.known)
    concerned = {name for each in estimates(setup.known) for name in sided_names(each)}
    names = (concerned | {*dict(setup.spreads)}) - setup.measured
    return _with_estimates(setup, names, start or DEMO)


def as_estimated(setup: Setup, name: str, start: Setup | None = None) -> Setup:
    """The set-up with one leg dimension taken as estimated, not as measured.

    Where there is no estimate it becomes what the set-up started from, the demo
    rider's if that is None.  A name without a side stands for both legs.
    """
    names = {*sided_names(name)}
    return _with_estimates(replace(setup, measured=setup.measured - names), names, start or DEMO)


def unmeasured(known: Known, name: str, start: Setup | None = None) -> float:
    """What a leg dimension is when nobody measured it: an estimate, or what one started from."""
    estimate = estimates(known).get(side_and_name(name)[1])
    return estimate[0] if estimate else (start or DEMO).inputs.value(name)


def kept_as_measured(setup: Setup) -> list[str]:
    """Names of what could be estimated, but stays since it was measured."""
    given = estimates(setup.known)
    return told_together(
        name for name in LEG_NAMES if name in setup.measured and side_and_name(name)[1] in given
    )


def with_stance_of(setup: Setup, point: Setup) -> Setup:
    """The set-up with stance, boots and posture of another.

    The legs stay, what was tried with them, and which foot leads.
    """
    groups = {"stance", "mounts", "posture", BOOTS}
    names = (name for group in groups for name in names_in(group))
    return replace(
        setup,
        inputs=changed(setup.inputs, **{name: point.inputs.value(name) for name in names}),
        apart=(setup.apart - {BOOTS}) | (point.apart & {BOOTS}),
        cuffs=point.cuffs,
        repeats=tuple(each for each in setup.repeats if each[0] not in BOOT_NAMES),
    )


def _with_estimates(setup: Setup, names: set[str], start: Setup) -> Setup:
    """The set-up with these leg dimensions as they are when nobody measured them."""
    given = estimates(setup.known)
    values = {name: unmeasured(setup.known, name, start) for name in names}
    spreads = {name: spread for name, spread in setup.spreads if name not in names}
    spreads |= {
        name: given[side_and_name(name)[1]][1] for name in names if side_and_name(name)[1] in given
    }
    examples = {name for name in names if start.origin(name) == "example"} - {*spreads}
    return replace(
        setup,
        inputs=changed(setup.inputs, **_in_order(setup.inputs, values)),
        spreads=tuple(sorted(spreads.items())),
        examples=(setup.examples - names) | examples,
    )


def _in_order(inputs: Inputs, values: dict[str, float]) -> dict[str, float]:
    """New values such that each knee stays below its hip; what was measured does not move."""
    for side in SIDES:
        hip_name, knee_name = f"{side}_hip_height_mm", f"{side}_knee_height_mm"
        hip = values.get(hip_name, inputs.value(hip_name))
        knee = values.get(knee_name, inputs.value(knee_name))
        if hip - knee >= LEAST_THIGH_MM:
            continue
        if knee_name in values:
            values = {**values, knee_name: hip - LEAST_THIGH_MM}
        elif hip_name in values:
            values = {**values, hip_name: knee + LEAST_THIGH_MM}
    return values
