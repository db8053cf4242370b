"""The answer in a rider's words; every figure is the rounded one that is put on."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, degrees, floor, isfinite, isnan
from typing import Final

from app.rider.inputs import FIELD, Inputs
from app.stance.answer import (
    ALLOWED,
    BEGUN,
    FLAT,
    GROWING,
    Answer,
    FootAnswer,
    Mount,
)
from app.stance.causes import cause
from app.stance.findings import NEAR_DEG, REMEDY
from app.stance.mending import Mend
from app.stance.needs import STEP_DEG
from app.stance.settled import settled
from app.stance.through import Through, most_out, rounded_left
from app.words.language import msgid, ntr, tr, within
from app.words.lengths import IN_MM, Lengths
from app.words.reasons import reason_sentence
from app.words.sentences import listed, plain
from app.words.units import fixed

NO_ANSWER: Final = "–"

# One angle

_CANT: Final = (msgid("{angle}° inward"), msgid("{angle}° outward"))
_LIFT: Final = (msgid("{angle}° toe lift"), msgid("{angle}° heel lift"))
_SIGNED: Final = {"cant": _CANT, "lift": _LIFT}
_NONE: Final = {"cant": msgid("no cant"), "lift": msgid("no lift")}


def mount_words(kind: str, deg: float) -> str:
    """A "cant" or a "lift" by itself: "0.5° inward", "2.0° heel lift", "no lift"."""
    if isnan(deg):
        return NO_ANSWER
    if not round(deg, 2):
        return tr(_NONE[kind])
    return tr(_SIGNED[kind][deg < 0.0], angle=fixed(abs(deg), 1))


def both_words(mount: Mount) -> str:
    """Lift and cant of a foot: "0.5° inward, no lift"; "flat" for neither."""
    if not (mount.lift_deg or mount.cant_deg):
        return tr("flat: no cant, no lift")
    return ", ".join((mount_words("cant", mount.cant_deg), mount_words("lift", mount.lift_deg)))


def range_words(kind: str, foot: FootAnswer) -> str:
    """A cant or a lift with its likely range: "none (0 to 1.5°)", "1.5° inward (0.5 to 2.5°)".

    Where one begins with less of this angle, the range is that of what it leads to.
    """
    begin = getattr(foot.begin, f"{kind}_deg")
    if isnan(begin):
        return NO_ANSWER
    held = getattr(foot, f"{kind}_held")
    if held == ALLOWED:
        return _all_allowed(kind, begin, getattr(foot.allowed, f"{kind}_deg"))
    if held in {BEGUN, GROWING}:
        later = getattr(foot.later, f"{kind}_deg")
        said = _with_range(kind, later, getattr(foot, f"later_{kind}_range"))
        return tr("{angle}, on the way to {later}", angle=_or_none(kind, begin), later=said)
    return _with_range(kind, begin, getattr(foot, f"{kind}_range"))


def _with_range(kind: str, deg: float, ends: tuple[float, float]) -> str:
    return f"{_or_none(kind, deg)} ({between_words(kind, *shown_range(deg, ends))})"


def _all_allowed(kind: str, deg: float, most: float) -> str:
    """An angle that ends where more is not allowed: by itself, or short of a limit between."""
    if not most:
        return tr("none, since none is allowed", "of cant or lift")
    if round(abs(deg) - most, 6) == 0.0:
        return tr("{angle}, all that is allowed", angle=_or_none(kind, deg))
    return tr("{angle}, with {most}° allowed", angle=_or_none(kind, deg), most=plain(most))


def _or_none(kind: str, deg: float) -> str:
    return mount_words(kind, deg) if round(deg, 2) else tr("none", "of cant or lift")


def shown_range(deg: float, ends: tuple[float, float]) -> tuple[float, float]:
    """The likely range in half degrees, wide enough to hold what is proposed."""
    low, high = (STEP_DEG * round(end / STEP_DEG) + 0.0 for end in ends)
    return min(low, deg), max(high, deg)


def between_words(kind: str, low: float, high: float) -> str:
    """Ends of a range in words; the way is named where both ends do not go it alike."""
    if low == high:
        return tr("sure to half a degree")
    if low < 0.0 < high:
        return tr("{low} to {high}", low=mount_words(kind, low), high=mount_words(kind, high))
    near, far = sorted((abs(low), abs(high)))
    return tr("{low} to {high}°", low=fixed(near, 1) if near else "0", high=fixed(far, 1))


# How sure


_SOURCES: Final = {
    "hip_shift": msgid(
        "Most of the doubt is how far the hips are held to one side: stand on two scales until "
        "both feet carry alike, and look where the hips are."
    ),
    "side_give": msgid(
        "Most of the doubt is what boot and ankle give sideways: stand buckled, tilt the shank "
        "inward and outward, and read both with an inclinometer."
    ),
    "cuff_offset": msgid(
        "Most of the doubt is how the cuffs lean: have them adjusted until both soles lie flat "
        "at your natural spacing."
    ),
    "neutral_spacing": msgid(
        "Most of the doubt is your natural spacing: measure it three times, tab Measuring."
    ),
}
_OTHER_SOURCE: Final = msgid("Most of the doubt is {name}: measure it three times, tab Measuring.")


def source_words(foot: FootAnswer) -> str:
    """Which measurements carry most of the doubt, and how to take the first; "" if none does."""
    if foot.trials or not foot.exists:
        return ""
    names = list(dict.fromkeys(_without_side(name) for name in foot.sources))
    if not names:
        return ""
    said = tr(_SOURCES.get(names[0], _OTHER_SOURCE), name=_label(names[0]))
    if len(names) == 1:
        return said
    after = listed([_label(name) for name in names[1:3]])
    return f"{said} {tr('After that: {names}.', names=after)}"


def _without_side(name: str) -> str:
    return name.removeprefix("front_").removeprefix("rear_")


def _label(name: str) -> str:
    return within((FIELD.get(f"{name}_mm") or FIELD[f"{name}_deg"]).label)


# Why


def why_words(foot: FootAnswer, answer: Answer, inputs: Inputs, lengths: Lengths = IN_MM) -> str:
    """Why this lift and this cant, in one or two sentences.

    Args:
        foot: the foot.
        answer: of both feet.
        inputs: of the rider.
        lengths: writes lengths.
    """
    if not foot.exists:
        return f"{reason_sentence(foot.why_not)} {tr(REMEDY)}"
    said = [_why_cant(foot, answer, inputs, lengths)]
    if foot.lift_trials:
        said.append(
            ntr(
                "This lift is your own: {count} trial has led to it.",
                "This lift is your own: {count} trials have led to it.",
                foot.lift_trials,
            )
        )
    elif foot.begin.lift_deg:
        said.append(_why_lift(foot, answer))
    elif foot.then.boot_out and foot.boot_enough:
        said.append(_why_no_lift(foot, answer))
    return " ".join(said)


def _why_cant(foot: FootAnswer, answer: Answer, inputs: Inputs, lengths: Lengths) -> str:
    bend = _bend(answer)
    if foot.trials:
        return ntr(
            "This cant is your own: {count} trial has led to it.",
            "This cant is your own: {count} trials have led to it.",
            foot.trials,
        )
    pushed = _pushed(foot)
    why = _cause(foot, answer, inputs, lengths)
    if not foot.begin.cant_deg and foot.enough:
        # Where flat soles would not do, it takes what is proposed for both feet.
        said = _STAYS[bool(why), bool(foot.flat.out)]
        return tr(said, cause=why, bend=bend)
    return tr(
        _PUSHED[pushed.worst_deg < 0.0],
        cause=why or tr("Angles and length add up"),
        angle=fixed(most_out(pushed), 1),
        depth=plain(pushed.worst_at_deg),
    )


_STAYS: Final = {
    (False, False): msgid("Without a cant the knee stays in its plane {bend}."),
    (False, True): msgid(
        "With both answers on, the knee stays in its plane {bend} without a cant."
    ),
    (True, False): msgid(
        "{cause}. Boot and ankle give what that asks: the knee stays in its plane {bend}."
    ),
    (True, True): msgid(
        "{cause}. Boot and ankle give what that asks: with both answers on, the knee stays in "
        "its plane {bend}."
    ),
}


def _pushed(foot: FootAnswer) -> Through:
    """The leg on a flat sole, or with the lift on, if only that pushes the knee."""
    alike = foot.flat.worst_deg * foot.bare.worst_deg > 0.0
    return foot.flat if foot.flat.out and alike else foot.bare


_PUSHED: Final = (
    msgid("{cause}: without a cant the knee is pushed inward, by {angle}° at {depth}° of bend."),
    msgid("{cause}: without a cant the knee is pushed outward, by {angle}° at {depth}° of bend."),
)


def _cause(foot: FootAnswer, answer: Answer, inputs: Inputs, lengths: Lengths) -> str:
    """What pushes the knee most without this foot's cant; "" where next to nothing does."""
    pushed = _pushed(foot)
    mounts = FLAT if pushed is foot.flat else answer.mounts
    depth = pushed.worst_at_deg if pushed.out else inputs.bend_to_deg
    bare = replace(
        inputs,
        **(mounts._asdict() | {f"{foot.name}_cant_deg": 0.0}),
        hips_turned_deg=0.0,
        knee_bend_deg=depth,
    )
    stood = settled(bare)
    posture = stood.posture
    leg = posture.front if foot.name == "front" else posture.rear
    wanted = degrees(float(leg.wanted_give))
    if not posture.exists or abs(wanted) < 1.0:
        return ""
    return cause(foot.name, wanted, stood, lengths)


def _why_lift(foot: FootAnswer, answer: Answer) -> str:
    on_flat = rounded_left(foot.flat) < NEAR_DEG
    boot = foot.flat if on_flat else foot.no_lift
    left, depth = rounded_left(boot), plain(0.5 * sum(answer.bend))
    said = _NO_ROOM[int(left > 0.0) - int(left < 0.0)][boot.boot_forward]
    return tr(said, angle=fixed(abs(left), 1), depth=depth)


def _why_no_lift(foot: FootAnswer, answer: Answer) -> str:
    """Why there is none although the boot is past its stop at some depth."""
    left, depth = fixed(rounded_left(foot.then), 1), plain(0.5 * sum(answer.bend))
    return tr(
        "No lift to begin with, since in mid-bend ({depth}°) the boot keeps {angle}° to its stop.",
        angle=left,
        depth=depth,
    )


_NO_ROOM: Final = {
    -1: {
        True: msgid(
            "Without lift the boot is {angle}° past its front stop in mid-bend ({depth}°)."
        ),
        False: msgid(
            "Without lift the boot is {angle}° past its rear stop in mid-bend ({depth}°)."
        ),
    },
    0: {
        True: msgid("Without lift the boot is at its front stop in mid-bend ({depth}°)."),
        False: msgid("Without lift the boot is at its rear stop in mid-bend ({depth}°)."),
    },
    1: {
        True: msgid(
            "Without lift the boot is {angle}° from its front stop in mid-bend ({depth}°)."
        ),
        False: msgid(
            "Without lift the boot is {angle}° from its rear stop in mid-bend ({depth}°)."
        ),
    },
}
"""By whether the boot is past its stop, at it or near it, and whether that is the front one."""


def _bend(answer: Answer) -> str:
    low, high = (plain(end, 0) for end in answer.bend)
    return tr("from {low}° to {high}°", low=low, high=high)


# Over the riding bend


def knee_words(through: Through, answer: Answer) -> str:
    """A knee over the riding bend: "in its plane from 30° to 55°", "pushed inward 3.1° at 55°"."""
    if isnan(through.worst_deg):
        return tr("no posture")
    if not through.out:
        return tr("in its plane {bend}", bend=_bend(answer))
    said = tr(
        _OUTSIDE[through.worst_deg < 0.0],
        angle=fixed(most_out(through), 1),
        depth=plain(through.worst_at_deg),
    )
    return f"{said}; {_still_in(through, answer)}" if _still_in(through, answer) else said


_OUTSIDE: Final = (
    msgid("pushed inward {angle}° at {depth}°"),
    msgid("pushed outward {angle}° at {depth}°"),
)


def _still_in(through: Through, answer: Answer) -> str:
    """Where the knee is in its plane all the same, if that is one end of the bend."""
    low, high = answer.bend
    start, end = through.out[0][0], through.out[-1][1]
    if through.nowhere or len(through.out) > 1 or (start <= low + 1.0 and end >= high - 1.0):
        return ""
    if end >= high - 1e-6:
        return tr("in its plane to {depth}°", depth=floor(start + 1e-6))
    return tr("in its plane from {depth}°", depth=ceil(end - 1e-6))


def boot_words(through: Through, answer: Answer) -> str:
    """A boot over the riding bend: what it has left at the middle, where it is past its stop."""
    left = rounded_left(through)
    if isnan(left):
        return tr("no posture")
    depth = plain(0.5 * sum(answer.bend))
    if left < NEAR_DEG:
        said = tr("{finding} at {depth}°", finding=_stop_words(through), depth=depth)
    else:
        said = tr("{angle}° to its stop at {depth}°", angle=fixed(left, 1), depth=depth)
    past = _boot_past(through, answer)
    return f"{said}, {past}" if past else said


def _stop_words(through: Through) -> str:
    """How near its stop a boot is at the middle of the bend, or how far past it, and which."""
    left = rounded_left(through)
    which = _PAST_STOP if left < 0.0 else _NEAR_STOP if left else _AT_STOP
    return tr(which[through.boot_forward], angle=fixed(abs(left), 1))


_PAST_STOP: Final = {
    True: msgid("{angle}° past its front stop"),
    False: msgid("{angle}° past its rear stop"),
}
_AT_STOP: Final = {True: msgid("at its front stop"), False: msgid("at its rear stop")}
_NEAR_STOP: Final = {
    True: msgid("nearly at its front stop, {angle}° to go"),
    False: msgid("nearly at its rear stop, {angle}° to go"),
}


def _boot_past(through: Through, answer: Answer) -> str:
    """The depths at which the boot is past its stop, where that is not the whole bend."""
    low, high = answer.bend
    said = []
    for start, end in through.boot_out:
        first, last = plain(start, 0), plain(end, 0)
        if start <= low + 1.0 and end >= high - 1.0:
            said.append(tr("past it at every depth"))
        elif start <= low + 1e-6:
            said.append(tr("past it straighter than {high}°", high=last))
        elif end >= high - 1e-6:
            said.append(tr("past it deeper than {low}°", low=first))
        else:
            said.append(tr("past it from {low}° to {high}°", low=first, high=last))
    return tr(" and ").join(said)


# What is left to do


def left_words(foot: FootAnswer, mend: Mend | None = None, lengths: Lengths = IN_MM) -> str:
    """What stays out with the answer on, and what would mend it; "" where all is well."""
    if not foot.exists:
        return ""
    said = []
    if not foot.enough:
        said.append(tr("The knee stays {finding}.", finding=_out_words(foot.then)))
    if not foot.boot_enough:
        said.append(
            tr(
                "The boot stays {finding} at the middle of the bend.",
                finding=_stop_words(foot.then),
            )
        )
    if foot.then.nowhere:
        start, end = foot.then.nowhere[0]
        said.append(
            tr(
                "There is no posture from {low}° to {high}°.",
                low=plain(start, 0),
                high=plain(end, 0),
            )
        )
    # Where a step is still to come, that is what is left after it.
    if said and mend and mend.exists and not foot.goes_on:
        said.append(mend_words(mend, lengths))
    return " ".join(said)


def _out_words(through: Through) -> str:
    """How far a knee is out of its plane, and where."""
    start, end = through.out[0][0], through.out[-1][1]
    return tr(
        "out of its plane by up to {angle}°, from {low}° to {high}° of bend",
        angle=fixed(most_out(through), 1),
        low=plain(start, 0),
        high=plain(end, 0),
    )


def mend_words(mend: Mend, lengths: Lengths = IN_MM) -> str:
    """The changes that would mend what stays out, each by itself."""
    ways = []
    if isfinite(mend.length_mm):
        said = (
            msgid("a stance {by} longer")
            if mend.length_mm > 0.0
            else msgid("a stance {by} shorter")
        )
        ways.append(tr(said, by=lengths.text(abs(mend.length_mm))))
    if isfinite(mend.turn_deg):
        said = (
            msgid("both feet turned {by}° more to the nose")
            if mend.turn_deg > 0.0
            else msgid("both feet turned {by}° more to the tail")
        )
        ways.append(tr(said, by=plain(abs(mend.turn_deg), 0)))
    if isfinite(mend.deepest_deg):
        ways.append(tr("riding no deeper than {depth}°", depth=plain(mend.deepest_deg, 0)))
    if isfinite(mend.tallest_deg):
        ways.append(tr("riding no taller than {depth}°", depth=plain(mend.tallest_deg, 0)))
    *most, last = ways
    listed = tr("{most} or {last}", most=", ".join(most), last=last) if most else last
    return tr("It would be mended by {ways}.", ways=listed)


def next_words(foot: FootAnswer, mend: Mend | None = None, lengths: Lengths = IN_MM) -> str:
    """Why no more at once, the next step, and what even that leaves; "" where no more is needed.

    Args:
        foot: the foot.
        mend: what would mend what is left then.
        lengths: writes lengths.
    """
    said = []
    for kind, held in (("cant", foot.cant_held), ("lift", foot.lift_held)):
        if held in {BEGUN, GROWING}:
            later = getattr(foot.later, f"{kind}_deg")
            most = fixed(abs(getattr(foot.begin, f"{kind}_deg")), 1)
            said.append(tr(_GOES_ON[kind, held], most=most, later=mount_words(kind, later)))
        elif held == ALLOWED:
            allowed = getattr(foot.allowed, f"{kind}_deg")
            said.append(tr(_LIMIT[kind][allowed > 0.0], most=plain(allowed)))
    if foot.goes_on and not foot.is_well_in_the_end:
        said += _left_in_the_end(foot)
        if mend and mend.exists:
            said.append(mend_words(mend, lengths))
    return " ".join(said)


def _left_in_the_end(foot: FootAnswer) -> list[str]:
    """What of knee and boot is not well with all that it comes to later either."""
    end = foot.in_the_end
    said = []
    if end.out:
        said.append(tr("Even then the knee stays {finding}.", finding=_out_words(end)))
    if rounded_left(end) < NEAR_DEG:
        said.append(
            tr(
                "Even then the boot stays {finding} at the middle of the bend.",
                finding=_stop_words(end),
            )
        )
    return said


_GOES_ON: Final = {
    ("cant", BEGUN): msgid(
        "Begin with no more than {most}° of cant on the way to {later}: go on, 2° at most at "
        "a time, once this feels right."
    ),
    ("lift", BEGUN): msgid(
        "Begin with no more than {most}° of lift on the way to {later}: go on, 2° at most at "
        "a time, once this feels right."
    ),
    ("cant", GROWING): msgid(
        "A growing rider begins with no more than {most}° of cant on the way to {later}, since "
        "legs change within a season: measure again before going on."
    ),
    ("lift", GROWING): msgid(
        "A growing rider begins with no more than {most}° of lift on the way to {later}, since "
        "legs change within a season: measure again before going on."
    ),
}
_LIMIT: Final = {
    "cant": (
        msgid("No cant is allowed."),
        msgid("More than {most}° of cant is not allowed."),
    ),
    "lift": (
        msgid("No lift is allowed."),
        msgid("More than {most}° of lift is not allowed."),
    ),
}
"""By whether any is allowed."""


# At the bench


def bench_steps(answer: Answer, inputs: Inputs) -> list[str]:
    """What to do at the bench, from what is on now: lifts first, then cants, 2° at a time."""
    steps = []
    for kind in KINDS:
        for foot in answer.feet:
            way = _way(kind, foot, inputs)
            if way:
                steps.append(tr(_AT_BENCH[foot.name], steps=_way_words(kind, way)))
    return steps


KINDS: Final = ("lift", "cant")
"""In the order in which they are put on."""
_AT_BENCH: Final = {
    "front": msgid("Front: {steps}. Stand still after each; stop if a joint hurts."),
    "rear": msgid("Rear: {steps}. Stand still after each; stop if a joint hurts."),
}


def bench_words(foot: FootAnswer, inputs: Inputs) -> str:
    """The steps at the bench for one foot; "" where there are none."""
    ways = {kind: way for kind in KINDS if (way := _way(kind, foot, inputs))}
    if not ways:
        return ""
    one = msgid("On the board: {steps}. Then stand still; stop if a joint hurts.")
    more = msgid(
        "On the board, in steps of 2° at most: {steps}. Stand still after each; stop if a joint "
        "hurts."
    )
    said = tr("; then ").join(_way_words(kind, way) for kind, way in ways.items())
    return tr(one if sum(map(len, ways.values())) == 1 else more, steps=said)


def _way(kind: str, foot: FootAnswer, inputs: Inputs) -> list[float]:
    return stairs(getattr(inputs, f"{foot.name}_{kind}_deg"), getattr(foot.begin, f"{kind}_deg"))


def _way_words(kind: str, way: list[float]) -> str:
    """One angle in steps: "1.0° inward, 2.5° inward (the little-toe side up)"."""
    said = ", ".join(mount_words(kind, each) for each in way)
    aim = round(way[-1], 2)
    return tr(_RAISED[aim < 0.0], steps=said) if kind == "cant" and aim else said


_RAISED: Final = (
    msgid("{steps} (the little-toe side up)"),
    msgid("{steps} (the big-toe side up)"),
)


MOST_AT_ONCE_DEG: Final = 2.0
"""No step at the bench is larger."""


def stairs(now: float, aim: float) -> list[float]:
    """The angles on the way from one to another, none more than 2° from the one before."""
    if isnan(aim) or round(aim - now, 6) == 0.0:
        return []
    count = ceil(abs(aim - now) / MOST_AT_ONCE_DEG - 1e-9)
    way = MOST_AT_ONCE_DEG if aim > now else -MOST_AT_ONCE_DEG
    return [*(now + way * i for i in range(1, count)), aim]
