"""Why something is refused, or why there is no answer, in the user's language and unit.

The geometry and what stands on it give a key and its values: :mod:`geometry.reasons`.
The sentences are made here, from one table.  What a user has typed, as the name of a
part, is put into them as it is.
"""

from __future__ import annotations

from typing import Final, TypeAlias

from app.words.language import msgid, tr, with_decimal_mark
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import as_sentence, listed
from app.words.units import counted
from geometry.reasons import Amount, ImpossibleError, Name, Reason, Span, Value

SENTENCES: Final = {
    # Any input
    "out of range": msgid("{name} is {value}; it must lie between {range}"),
    "not below": msgid("{name} is {value}; it must be less than the {other}, {limit}"),
    "no whole number": msgid("{name} is {value}; it must be a whole number from {range}"),
    # Measuring
    "not measured yet": msgid("{refused}; the {name} is not measured yet, so begin with it"),
    "repeats apart": msgid(
        "the repeats lie {gap} apart, more than {widest}: "
        "find the landmark again and repeat the measurement"
    ),
    # Legs
    "front leg cannot reach": msgid("the front leg cannot reach"),
    "rear leg cannot reach": msgid("the rear leg cannot reach"),
    "held up by the front leg": msgid("the front leg cannot reach, so no posture settles"),
    "held up by the rear leg": msgid("the rear leg cannot reach, so no posture settles"),
    "front knee leaves its plane": msgid(
        "the front knee would leave its hinge plane by more than 40°"
    ),
    "rear knee leaves its plane": msgid(
        "the rear knee would leave its hinge plane by more than 40°"
    ),
    "held up by the front knee": msgid(
        "the front knee would leave its hinge plane by more than 40°, so no posture settles"
    ),
    "held up by the rear knee": msgid(
        "the rear knee would leave its hinge plane by more than 40°, so no posture settles"
    ),
    "too steep": msgid("more than 60° would be needed"),
    "none settles without lift": msgid("no posture settles on soles without lift"),
    "none settles in the bend": msgid("no posture settles in the riding bend"),
    # Board
    "sole below the board": msgid("part of the sole would lie below the top of the board"),
    "sole wider than long": msgid("the sole is wider than it is long; turn its two sizes round"),
    # Parts
    "no whole turn": msgid("{name} is {value}; a full turn must be a whole number of steps"),
    "parts named alike": msgid(
        "two parts are called {part} and slope {slope}; give each its own name"
    ),
    "too many stacks": msgid(
        "the parts can be stacked in more than the {enough} ways that can be gone through; "
        "take a wider step of bearing, fewer parts or a lower stack"
    ),
    "least above most": msgid("the least {name}, {least}, is more than the most, {most}"),
    "no stance length": msgid(
        "the inserts allow no stance length from {range}; they allow {allowed}, one every {grid}"
    ),
    "no pair of angles": msgid(
        "no pair of binding angles in steps of {step} lies within the limits of front angle, "
        "rear angle and splay"
    ),
    "too many candidates": msgid(
        "there are {many} stances on parts, more than the {enough} that can be tried; "
        "set closer limits, or take a wider step of bearing or a lower stack"
    ),
    "too many choices": msgid(
        "there are {many} choices of parts, more than the {enough} that can be compared; "
        "take parts off the list, or allow a lower stack"
    ),
    "none settles": msgid("no posture settles in any of them without bending a boot too far"),
    # The cant or lift to try next
    "no full angle": msgid("no posture settles in this stance"),
    "next to none needed": msgid("this stance asks for next to none"),
    "begin": msgid("no trial tells anything yet: begin here"),
    "found": msgid("your trials have found it"),
    "no more allowed": msgid(
        "your trials ask for more than is allowed, or than a growing rider begins with"
    ),
    "steps tell no more": msgid("steps as wide as these tell no more: this is the best estimate"),
    "all trials": msgid("where all trials together point"),
    "on the way": msgid("2° at most at a time, on the way to where all trials together point"),
    "try again": msgid("where all trials together point, once more to be sure"),
    "trials contradict": msgid(
        "the trials contradict each other: where all of them together point"
    ),
    "beyond full, asking": msgid(
        "your trials point beyond all that the leg asks for: going on needs your consent"
    ),
    "beyond full, agreed": msgid(
        "your trials point beyond all that the leg asks for: one step further, as you agreed"
    ),
    "beyond flat, asking": msgid(
        "the trials point beyond a flat sole: going on needs your consent"
    ),
    "beyond flat, agreed": msgid(
        "the trials point beyond a flat sole: one step further, as you agreed"
    ),
    # A wedge
    "corners too round": msgid(
        "corner radius is {radius}; on {length} by {width} it can be {most} at most"
    ),
    "head falls through": msgid(
        "a screw head of {head} falls through a hole of {hole}: make the hole smaller "
        "or leave the heads on top"
    ),
    "holes are one": msgid("holes {apart} apart are one hole: make it 0, or {least} or more"),
    "wedge too thin": msgid(
        "the wedge would be {found} thin at its lowest place, less than the smallest "
        "thickness of {smallest}: make its centre {needed} high or more"
    ),
    "wedge ends in nothing": msgid(
        "the wedge would end in nothing at its lowest place, less than the smallest "
        "thickness of {smallest}: make its centre {needed} high or more"
    ),
    "too little under a head": msgid(
        "the wedge is too thin for the head of screw {number}: only {found} would be left "
        "under it, less than the smallest thickness of {smallest}: make its centre {needed} high "
        "or more, or leave the heads on top"
    ),
    "nothing under a head": msgid(
        "the wedge is too thin for the head of screw {number}: nothing would be "
        "left under it, less than the smallest thickness of {smallest}: make its centre {needed} "
        "high or more, or leave the heads on top"
    ),
    "hole outside": msgid("hole {number} lies outside the footprint: move it in or leave it out"),
    "hole breaks through": msgid(
        "hole {number} breaks through the outline of the footprint: move it in by {needed} or more"
    ),
    "wall too thin": msgid(
        "hole {number} leaves {found} of wall to the outside, and it needs {least}: "
        "move it in by {needed} or more"
    ),
    "holes in one place": msgid("holes {number} and {other} are in the same place: leave one out"),
    "holes too close": msgid(
        "holes {number} and {other} stand {apart} apart and leave {found} of wall "
        "between them: at {across} across they need {needed} from centre to centre"
    ),
    "holes cut each other": msgid(
        "holes {number} and {other} stand {apart} apart and cut each other: at {across} "
        "across they need {needed} from centre to centre"
    ),
}
"""Half sentences by the keys of reasons, with places for their values."""

NAMES: Final = (
    msgid("hip height", "refused"),
    msgid("knee height", "refused"),
    msgid("ankle height", "refused"),
    msgid("hip spacing", "refused"),
    msgid("natural spacing", "refused"),
    msgid("foot length", "refused"),
    msgid("knee tracking", "refused"),
    msgid("stature", "refused"),
    msgid("inseam", "refused"),
    msgid("sitting knee height", "refused"),
    msgid("age", "refused"),
    msgid("years ahead", "refused"),
    msgid("front binding angle", "refused"),
    msgid("rear binding angle", "refused"),
    msgid("stance length", "refused"),
    msgid("splay", "refused"),
    msgid("insert grid", "refused"),
    msgid("shortest stance length", "refused"),
    msgid("longest stance length", "refused"),
    msgid("number of insert positions", "refused"),
    msgid("largest stack", "refused"),
    msgid("step of the binding angles", "refused"),
    msgid("sole length", "refused"),
    msgid("sole width", "refused"),
    msgid("slope of {part}", "refused"),
    msgid("thickness of {part}", "refused"),
    msgid("count of {part}", "refused"),
    msgid("step of bearing of {part}", "refused"),
)
"""What inputs are called that a user can bring to be refused; others stay English."""

_UNITS: Final = {
    "deg": msgid("deg", "after a figure"),
    "years": msgid("years", "after a figure"),
}

Why: TypeAlias = Reason | Exception | str | None
"""A reason, its key alone, or what was raised; "" or None where there is none."""


def reason_phrase(why: Why, lengths: Lengths = IN_MM) -> str:
    """Half a sentence that says why, in the user's language; "" where there is no reason.

    Args:
        why: the reason; of what was raised for another one, its message.
        lengths: writes the lengths that are measured.
    """
    if isinstance(why, ImpossibleError):
        return "; ".join(reason_phrase(each, lengths) for each in why.reasons)
    if isinstance(why, Exception) or not why:
        return str(why or "")
    reason = Reason(why) if isinstance(why, str) else why
    values = {name: _said(value, lengths) for name, value in reason.values.items()}
    return tr(SENTENCES[reason.key], **values)


def reason_sentence(why: Why, lengths: Lengths = IN_MM) -> str:
    """The same as a whole sentence."""
    return as_sentence(reason_phrase(why, lengths))


def _said(value: Value, lengths: Lengths) -> str:
    """A value of a reason in words; a text is somebody's own and stays as it is."""
    if isinstance(value, Reason):
        return reason_phrase(value, lengths)
    if isinstance(value, Name):
        return tr(value.words, "refused", part=value.part)
    if isinstance(value, tuple):
        return listed([_said(each, lengths) for each in value])
    if isinstance(value, Span):
        low, high = (_said(end, lengths) for end in value.ends)
        ends = msgid("{low} and {high}") if value.between else msgid("{low} to {high}")
        return tr(ends, low=low, high=high)
    if isinstance(value, Amount):
        return lengths.in_reason(value) if value.unit == "mm" else _amount(value)
    return counted(value) if isinstance(value, int) else value


def _amount(amount: Amount) -> str:
    """An amount that is no length to measure, in the unit that it has."""
    said = with_decimal_mark(f"{amount.figure:.6g}")
    if amount.unit in _UNITS and not amount.bare:
        return f"{said} {tr(_UNITS[amount.unit], 'after a figure')}"
    return said + amount.suffix
