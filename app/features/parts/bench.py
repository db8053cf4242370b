"""What to do with parts at the bench, how true that comes out, and what to beware of."""

from __future__ import annotations

from math import ceil, degrees, radians
from typing import Final

from app.rider.inputs import Inputs
from app.rider.parts import Parts
from app.rider.setup import LONGEST_NAME, Setup
from app.words.bounds import in_one_line
from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry.hardware.parts import Kind, Part
from geometry.hardware.stacks import Built, Setting
from geometry.hardware.tolerances import lift_and_cant_within


def what_to_set(
    built: Built, *, turns_with_binding: bool = True, left: bool | None = None
) -> tuple[str, ...]:
    """What to do for one foot: a sentence for each part, the lowest first.

    Args:
        built: what is to stand under the foot.
        turns_with_binding: whether turnable parts turn along with the binding;
            else it is said where they point on the board, too.
        left: whether it is the left foot, on which hours of a clock run the other way;
            None where no hours are to be told.
    """
    if not built.settings:
        return (tr("Screw the binding on flat, without any part."),)
    return tuple(
        _sentence(setting, number, high_side(setting.bearing, left), turns_with_binding)
        for number, setting in enumerate(built.settings)
    )


def is_left(inputs: Inputs, end: str) -> bool:
    """Whether the "front" or the "rear" foot is the left one."""
    return (inputs.lead_foot == "left") == (end == "front")


def title(part: Part) -> str:
    """Slope and name of a part, as "6° round wedge"."""
    return f"{plain(degrees(part.slope))}° {in_one_line(part.name, LONGEST_NAME)}"


def high_side(bearing: float, left: bool | None = None) -> str:
    """Where a bearing from the toe (rad) lies, for somebody who stands over the binding.

    As "to the outside of the toe, 60° from straight ahead (2 o'clock)", in half degrees.

    Args:
        bearing: from the toe, positive to the little-toe side (rad).
        left: whether it is the left foot; None for no hours of a clock.
    """
    turned = half_degrees(bearing)
    back = 180.0 - abs(turned)
    if not turned or not back:
        said = tr("straight ahead, at the toe") if not turned else tr("straight back, at the heel")
    elif abs(turned) == back:
        said = tr(_SIDEWAYS[turned < 0.0])
    else:
        ahead = abs(turned) < back
        angle = plain(abs(turned) if ahead else back)
        said = tr((_AHEAD if ahead else _BACK)[turned < 0.0], angle=angle)
    if left is None:
        return said
    return tr("{side} ({time})", side=said, time=clock(-turned if left else turned))


_SIDEWAYS: Final = (
    msgid("straight to the outside, the little-toe side"),
    msgid("straight to the inside, the big-toe side"),
)
_AHEAD: Final = (
    msgid("to the outside of the toe, {angle}° from straight ahead"),
    msgid("to the inside of the toe, {angle}° from straight ahead"),
)
_BACK: Final = (
    msgid("to the outside of the heel, {angle}° from straight back"),
    msgid("to the inside of the heel, {angle}° from straight back"),
)
_NEAR_AN_HOUR: Final = 7.5
"""A direction as near to a full hour is told as that hour (degrees)."""


def clock(turned_deg: float) -> str:
    """A direction seen from above as on a clock's face with the toe at 12: "2 o'clock".

    Args:
        turned_deg: clockwise from the toe.
    """
    hours = turned_deg / 30.0 % 12.0
    nearest = round(hours)
    if abs(hours - nearest) * 30.0 <= _NEAR_AN_HOUR:
        return tr("{hour} o'clock", hour=_hour(nearest))
    return tr("{hour}:30 o'clock", hour=_hour(int(hours)))


def _hour(hour: int) -> int:
    return (hour - 1) % 12 + 1


def half_degrees(angle: float) -> float:
    """An angle (rad) in degrees, to the nearest half; -180 is 180."""
    turned = round(2.0 * degrees(angle)) / 2.0
    return 180.0 if turned == -180.0 else turned + 0.0


def true_to(built: Built, parts: Parts) -> str:
    """How true lift and cant come out, in a sentence, rounded up; "" on no parts."""
    if not built.settings:
        return ""
    lift, cant = (_give_or_take(each) for each in within_deg(built, parts))
    return tr("True to {lift} of lift and {cant} of cant.", lift=lift, cant=cant)


def _give_or_take(deg: float) -> str:
    """A tolerance rounded up to a tenth, its sign not to be parted from it."""
    return f"±\N{NO-BREAK SPACE}{plain(ceil(10.0 * deg - 1e-6) / 10.0)}°"


def within_deg(built: Built, parts: Parts) -> tuple[float, float]:
    """How far lift and cant may be off, as true as the parts are (degrees)."""
    lift, cant = lift_and_cant_within(
        built, slope=radians(parts.slope_within_deg), bearing=radians(parts.bearing_within_deg)
    )
    return degrees(lift), degrees(cant)


def caution(built: tuple[Built, Built], setup: Setup, lengths: Lengths = IN_MM) -> str:
    """What to beware of with what is built: its height, and its slopes; "" for nothing."""
    return " ".join(filter(None, (_height(built, setup.parts, lengths), _slopes(built, setup))))


def _height(built: tuple[Built, Built], parts: Parts, lengths: Lengths) -> str:
    highest = parts.highest_mm
    front, rear = (each.height for each in built)
    if highest and max(front, rear) > highest:
        return tr(
            _TOO_HIGH[front < rear],
            height=lengths.text(max(front, rear)),
            highest=lengths.text(highest),
        )
    if not highest and any(len(each.settings) > 1 for each in built):
        return tr(
            "Ask the makers of board and bindings how high parts may stand on each other, and "
            "see that the screws reach."
        )
    return ""


def _slopes(built: tuple[Built, Built], setup: Setup) -> str:
    """That a sole slopes more than rider or maker allow."""
    said = []
    for kind, words in _TOO_STEEP.items():
        most = float(getattr(setup.inputs, f"largest_{kind}_deg"))
        steepest = max(round(abs(degrees(getattr(each, kind))), 1) for each in built)
        if steepest > most:
            said.append(tr(words, angle=plain(steepest), most=plain(most)))
    return " ".join(said)


_TOO_STEEP: Final = {
    "lift": msgid("Caution: {angle}° of lift is more than the {most}° that you allow."),
    "cant": msgid("Caution: {angle}° of cant is more than the {most}° that you allow."),
}
_TOO_HIGH: Final = (
    msgid(
        "Caution: these parts raise the front foot by {height}, more than the {highest} that "
        "the makers allow. Screws and bindings bear more than they are made for."
    ),
    msgid(
        "Caution: these parts raise the rear foot by {height}, more than the {highest} that "
        "the makers allow. Screws and bindings bear more than they are made for."
    ),
)


def way_on_board(on_board: float) -> str:
    """Where a direction on the board (rad) lies, as "15° from the toe edge towards the nose"."""
    turned = half_degrees(on_board)
    away = abs(turned)
    if not away or away == 180.0:
        return tr("straight at the heel edge") if away else tr("straight at the toe edge")
    if away == 90.0:
        return tr("at the nose") if turned > 0.0 else tr("at the tail")
    return tr(_ON_BOARD[turned < 0.0], angle=plain(away))


_ON_BOARD: Final = (
    msgid("{angle}° from the toe edge towards the nose"),
    msgid("{angle}° from the toe edge towards the tail"),
)


def _sentence(setting: Setting, number: int, side: str, turns_with_binding: bool) -> str:
    turnable = setting.part.kind is Kind.TURNABLE
    lowest, upper = _TURN if turnable and turns_with_binding else _TURN_ALONE
    if not turnable:
        lowest, upper = _PUT
    return tr(
        upper if number else lowest,
        part=title(setting.part),
        side=side,
        way=way_on_board(setting.on_board),
    )


_TURN: Final = (
    msgid("Turn the {part} so that its high side lies {side}."),
    msgid("On top of it turn the {part} so that its high side lies {side}."),
)
_TURN_ALONE: Final = (
    msgid("Turn the {part} so that its high side lies {side}; on the board that is {way}."),
    msgid(
        "On top of it turn the {part} so that its high side lies {side}; "
        "on the board that is {way}."
    ),
)
_PUT: Final = (
    msgid("Put in the {part} with its high side {side}."),
    msgid("On top of it put the {part} with its high side {side}."),
)
"""What to do with a part, the lowest one and one on top of it."""
