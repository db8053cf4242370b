"""Measuring a rider and the boots: what each landmark is, and what repeats of it say.

What is read off the tape is what gets typed.  For most lengths that is the
length itself; the hip joints cannot be reached by a tape, so the front points of
the hip bones stand in for them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees, isnan, radians
from typing import Final

from app.rider.inputs import (
    FIELD,
    SIDES,
    changed,
    default_of,
    model,
    side_and_name,
    sided_names,
)
from app.rider.setup import BOOTS, LEG_NAMES, LEGS, Setup, as_estimated
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_sentence
from app.words.scale import Scale, scale_of
from geometry.reasons import ImpossibleError, Name, Reason, impossible
from geometry.riders.repeats import Repeats, repeats_finding, repeats_of

OF_FRONT_POINTS: Final = 0.72
"""Hip spacing as a share of the distance between the front hip-bone points (Bell,
Brand & Pedersen 1989, Human Movement Science 8:3-16)."""

_HEIGHTS: Final = ("hip_height_mm", "knee_height_mm", "ankle_height_mm")


@dataclass(frozen=True, slots=True)
class Guide:
    """How one dimension of legs or boots is measured.

    Attributes:
        name: its name among the inputs.
        stand: what to stand in, and how.
        tape: where to put the tape, or what else to measure with; a template with a
            place for the share.
        landmark: what to feel for.
        tool: what is measured with, as a heading.
        reading: what is typed, as the label of the field.
        share: the dimension as a share of what is typed.
    """

    name: str
    stand: str
    tape: str
    landmark: str
    tool: str = msgid("Tape")
    reading: str = ""
    share: float = 1.0


GUIDES: Final = (
    Guide(
        "cuff_offset_deg",
        "In the boots, closed as for riding, the feet at your natural spacing, the weight on the "
        "other leg. Let the leg hang straight under its hip, the sole just off the floor.",
        "Somebody else holds the inclinometer across the sole, square to the boot, and reads how "
        "far it tilts. Type a plus where the inner side hangs higher, a minus where the outer.",
        "Both soles hang level once the cuffs fit: then it is 0. A boot fitter can turn most "
        "cuffs; have that done first, since every answer rests on it.",
        tool=msgid("Inclinometer"),
    ),
    Guide(
        "hip_height_mm",
        "Barefoot on a hard floor, feet a hand apart, weight on both legs. Let somebody else "
        "read the tape: bending down moves the hip.",
        "Straight up from the floor, along the outer side of the leg, to the top of the knob.",
        "Lay a flat hand on the side of the hip and turn the leg in and out. The bony knob that "
        "rolls under the hand is level with the hip joint.",
    ),
    Guide(
        "knee_height_mm",
        "Barefoot, leg straight but not pushed back. Find the gap while seated, mark it with a "
        "pen, then stand up.",
        "Straight up from the floor, along the outer side of the leg, to the mark.",
        "With the knee bent, press beside the kneecap on the outer side: a soft gap lies between "
        "the round end of the thigh bone and the flat top of the shin bone.",
    ),
    Guide(
        "ankle_height_mm",
        "Barefoot on a hard floor, weight on both legs.",
        "Straight up from the floor to the middle of the knob on the outer side. A ruler on end "
        "reads better than a tape.",
        "The bony knob on the outer side of the ankle. Feel for its front and its back edge; "
        "the middle lies between them.",
    ),
    Guide(
        "hip_spacing_mm",
        "Standing or lying on your back, belt and waistband out of the way.",
        "Straight from point to point, pulled taut in front of the belly, not around it. Type "
        "this distance: the hip joints lie {share} of it apart.",
        "Put the thumbs on the rims of the hip bones and follow them to the front: on each side "
        "the rim ends in a bony point.",
        reading=msgid("Front points apart"),
        share=OF_FRONT_POINTS,
    ),
    Guide(
        "neutral_spacing_mm",
        "In the boots, closed as for riding, on a flat floor. March on the spot, eyes ahead; "
        "stop, and turn the soles parallel without moving the heels.",
        "From the outer edge of one sole to the inner edge of the other, which is as far as from "
        "middle to middle. Read it at toe and heel.",
        "Legs straight and relaxed below the hips; no pull on the inner or the outer "
        "side of the thighs.",
    ),
    Guide(
        "foot_length_mm",
        "Barefoot, heel against a wall, full weight on the foot.",
        "Along the floor, from the wall to a book that stands upright against the longest toe.",
        "The longest toe is not always the big one: let the book touch whichever comes first.",
    ),
    Guide(
        "knee_tracking_deg",
        "Barefoot on a sheet of paper, the foot's outline drawn on it. Bend the knee slowly to "
        "about 45°, heel down.",
        "Hang a thread with a weight from the kneecap and mark where it points, before and after "
        "the bend. Lay a protractor between that line and the foot's long axis, from mid-heel to "
        "the second toe.",
        "The middle of the kneecap. Type a minus where the knee goes outside the toes.",
        tool=msgid("Thread"),
    ),
    Guide(
        "forward_lean_deg",
        "In the boots, closed as for riding, on a flat floor. Let the knees come forward until "
        "the boots carry you, and press no further.",
        "Hold an inclinometer, a telephone's will do, along the outer side of the shank, from the "
        "knob at the ankle towards the gap at the knee. Read how far it leans forward of plumb.",
        "The shank touches the boot in front and behind alike; heels stay down.",
        tool=msgid("Inclinometer"),
    ),
    Guide(
        "flex_range_deg",
        "As for the forward lean, a hand on the wall. Press the knees forward as hard as you do "
        "when riding, then sit back as hard.",
        "Read the lean of the shank at both ends, as for the forward lean. Type how far the "
        "nearer end is from the forward lean.",
        "The end is where pressing harder hardly bends the boot any further. Heels stay down; "
        "stop before it hurts.",
        tool=msgid("Inclinometer"),
    ),
    Guide(
        "side_give_deg",
        "Seated in the closed boots, knees bent as for riding, soles flat on the floor. Somebody "
        "else moves the knee sideways, in and out, gently.",
        "Hold the inclinometer upright along the front of the shank and read how far it tilts to "
        "either side of where it rests. Type the smaller of the two.",
        "The end is where the sole begins to lift at one edge: no further.",
        tool=msgid("Inclinometer"),
    ),
    Guide(
        "sole_thickness_mm",
        "The boot empty on a table, inner boot and insole in it.",
        "At the heel, from the table up to the rim of the boot, then inside from the same rim "
        "down to the bed. Type the first less the second.",
        "Inside, let a ruler on end come to rest where the heel rests, and hold it upright.",
    ),
    Guide(
        "boot_ramp_deg",
        "The boot empty on a level table, inner boot and insole in it.",
        "Lay the inclinometer on the bed inside, along the foot, and read how much higher the "
        "heel stands. 0 is as good where it cannot be reached: no knee depends on it.",
        "From where the heel rests to where the ball of the foot does.",
        tool=msgid("Inclinometer"),
    ),
)  # fmt: skip
"""In the order in which they are best taken."""

GUIDE: Final = {guide.name: guide for guide in GUIDES}


def guide_of(name: str) -> Guide:
    """How a dimension is measured, by its name with or without a side."""
    return GUIDE[side_and_name(name)[1]]


def reading_label(name: str) -> str:
    """What is typed of a dimension."""
    reading = guide_of(name).reading
    return tr(reading) if reading else FIELD[name].label


def names_measured(setup: Setup) -> tuple[str, ...]:
    """What is measured, in the order of the guides: of either side where its group is apart."""
    apart = {group: setup.is_apart(group) for group in (LEGS, BOOTS)}
    return tuple(
        name
        for guide in GUIDES
        for name in (sided_names(guide.name) if apart[FIELD[guide.name].group] else (guide.name,))
    )


CUFFS_ENTRY: Final = "cuffs"
"""What stands for the boots' cuffs in the list of what is measured."""


def things_to_measure(setup: Setup) -> tuple[str, ...]:
    """All that is seen to before the answers count: the boots' cuffs, then every dimension."""
    return (CUFFS_ENTRY, *names_measured(setup))


def is_seen_to(setup: Setup, name: str) -> bool:
    """Whether a thing to measure has been: by hand, by repeats, or as far as cuffs go."""
    if name == CUFFS_ENTRY:
        return bool(setup.cuffs)
    if repeats_named(setup, name):
        return True
    if FIELD[name].group == BOOTS:
        return setup.inputs.value(name) != default_of(FIELD[name])
    return all(each in setup.measured for each in sided_names(name))


def reading_scale(name: str, lengths: Lengths = IN_MM) -> Scale:
    """The scale on which a reading of the tape is typed."""
    field, share = FIELD[name], guide_of(name).share
    if share == 1.0:
        return scale_of(field, lengths)
    # Whole millimetres, since people are told the range; a little inside, so that no share
    # of a whole millimetre falls out of the dimension's own range.
    low, high = (float(round(end / share)) for end in (field.low + 1.0, field.high - 1.0))
    return scale_of(replace(field, low=low, high=high), lengths)


def repeats_named(setup: Setup, name: str) -> tuple[float, ...]:
    """The repeats of one dimension, oldest first (mm or degrees); none where there are none."""
    return dict(setup.repeats).get(setup.inputs.in_front(name), ())


def readings(setup: Setup, name: str) -> tuple[float, ...]:
    """The repeats as they were read off the tape (mm or degrees)."""
    share = guide_of(name).share
    return tuple(round(value / share, 6) for value in repeats_named(setup, name))


def agreement(setup: Setup, name: str) -> Repeats | None:
    """What the readings say together (mm or rad); None without any."""
    taken = readings(setup, name)
    if not taken:
        return None
    unit = FIELD[name].unit
    return repeats_of([radians(one) for one in taken] if unit == "deg" else taken, unit)


def mean_of(setup: Setup, name: str) -> float | None:
    """The mean of a dimension's repeats (mm or degrees); None without any."""
    taken = repeats_named(setup, name)
    return sum(taken) / len(taken) if taken else None


def mean_in_force(setup: Setup, name: str) -> bool:
    """Whether the mean of the repeats is the value that everything rests on."""
    mean = mean_of(setup, name)
    in_force = setup.inputs.value(name)
    name = setup.inputs.in_front(name)
    by_hand = name in setup.measured or name not in LEG_NAMES
    return mean is not None and by_hand and abs(mean - in_force) < 1e-6


def with_repeat(setup: Setup, name: str, reading: float) -> Setup:
    """The set-up with one more repeat of a dimension, and their mean in force.

    Args:
        setup: the set-up.
        name: of the dimension; without a side it is one of both legs, or boots.
        reading: what was read off the tape (mm or degrees).

    Raises:
        ImpossibleError: the mean does not fit the other lengths; says why.
    """
    taken = (*repeats_named(setup, name), reading * guide_of(name).share)
    return with_mean(_with_repeats(setup, name, taken), name)


def without_repeat(setup: Setup, name: str, which: int) -> Setup:
    """The set-up without one of a dimension's repeats, and the mean of the rest in force.

    With the last one gone, a value that rested on it goes back to the estimate
    or the demo rider's; one that was set by hand stays.

    Raises:
        ImpossibleError: the mean of the rest does not fit the other lengths; says why.
    """
    taken = repeats_named(setup, name)
    left = taken[:which] + taken[which + 1 :]
    without = _with_repeats(setup, name, left)
    if left:
        return with_mean(without, name)
    return as_estimated(without, name) if mean_in_force(setup, name) else without


def with_mean(setup: Setup, name: str) -> Setup:
    """The set-up with the mean of a dimension's repeats in force, as measured.

    Raises:
        ImpossibleError: it does not fit the other lengths; says why.
    """
    mean = mean_of(setup, name)
    if mean is None:
        return setup
    inputs = changed(setup.inputs, **{name: mean})
    try:
        model(inputs)
    except ImpossibleError as error:
        first = _first_to_measure(setup, name, error.reasons[0])
        if not first:
            raise
        raise impossible("not measured yet", refused=error.reasons[0], name=first) from error
    return replace(
        setup,
        inputs=inputs,
        measured=setup.measured | ({*sided_names(name)} & {*LEG_NAMES}),
        examples=setup.examples - {*sided_names(name)},
        apart=setup.apart | ({FIELD[name].group} if side_and_name(name)[0] else set()),
    )


def _with_repeats(setup: Setup, name: str, taken: tuple[float, ...]) -> Setup:
    """The set-up with these repeats, in the order in which dimensions were first measured."""
    every = {**dict(setup.repeats), **dict.fromkeys(sided_names(name), taken)}
    return replace(setup, repeats=tuple((key, values) for key, values in every.items() if values))


def _first_to_measure(setup: Setup, name: str, refused: Reason) -> tuple[Name, ...]:
    """The other heights that a refusal speaks of and that are not measured yet."""
    side, of_leg = side_and_name(setup.inputs.in_front(name))
    others = (
        each
        for each in _HEIGHTS
        if each != of_leg and f"{side or SIDES[0]}_{each}" not in setup.measured
    )
    names = (Name(FIELD[each].title.lower()) for each in others)
    return tuple(each for each in names if each in refused.values.values())


def agreement_words(setup: Setup, name: str, lengths: Lengths = IN_MM) -> tuple[str, ...]:
    """Mean, spread and standard error of a dimension's repeats, a line each."""
    found = agreement(setup, name)
    if found is None:
        return (tr("No repeats yet: three are good."),)
    told = [tr("Mean {mean}", mean=_figure(found, found.mean, lengths))]
    if guide_of(name).share != 1.0:
        mean = reading_words(name, round(mean_of(setup, name) or 0.0, 1), lengths)
        told.append(f"{FIELD[name].label} {mean}")
    if isnan(found.spread):
        return *told, tr("One alone tells no spread: find the landmark anew.")
    spread, error = (
        f"±\u00a0{_figure(found, each, lengths)}" for each in (found.spread, found.standard_error)
    )
    return (
        *told,
        tr("Spread {margin}", margin=spread),
        tr("Standard error {margin}", margin=error),
    )


def finding_words(setup: Setup, name: str, lengths: Lengths = IN_MM) -> str:
    """What is wrong with a dimension's repeats; empty where nothing is."""
    found = agreement(setup, name)
    return reason_sentence(repeats_finding(found), lengths) if found is not None else ""


def in_force_words(setup: Setup, name: str, lengths: Lengths = IN_MM) -> str:
    """The value in force, and in a word where it comes from."""
    value = reading_words(name, round(setup.inputs.value(name), 1), lengths)
    return f"{value} · {_origin_words(setup, name)}"


def _origin_words(setup: Setup, name: str) -> str:
    count = len(repeats_named(setup, name))
    if mean_in_force(setup, name):
        return tr("mean of {count}", count=count) if count > 1 else tr("measured once")
    name = setup.inputs.in_front(name)
    origin = setup.origin(name)
    if name not in LEG_NAMES and setup.inputs.value(name) != default_of(FIELD[name]):
        origin = "measured"
    return tr(_ORIGINS.get(origin, origin))


_ORIGINS: Final = {"default": msgid("demo rider’s"), "measured": msgid("set by hand")}
"""What an origin is called beside its value, where not by its own name."""


def reading_words(name: str, reading: float, lengths: Lengths = IN_MM) -> str:
    """One reading with its unit."""
    return _unbroken(lengths.shown(reading, FIELD[name].unit))


def _figure(found: Repeats, value: float, lengths: Lengths) -> str:
    """A figure of the readings to a tenth: finer is beyond any tape."""
    figure = degrees(value) if found.unit == "deg" else value
    return _unbroken(lengths.shown(round(figure, 1), found.unit))


def _unbroken(amount: str) -> str:
    """An amount whose unit stays with its number at the end of a line."""
    return amount.replace(" ", "\u00a0")
