"""What to do with parts, and what comes of it, in sentences."""

from __future__ import annotations

from math import degrees
from typing import Final

from app.units import figure, unit_of
from app.words import plain
from geometry.hardware.combinations import Combination
from geometry.hardware.parts import Kind, Part, PartsList
from geometry.hardware.reachable import Reachable, Reached
from geometry.hardware.stacks import Built, Setting

_ROUNDS_AWAY: Final = 0.05
"""Degrees that round to nothing in the first decimal."""

POOR_DEG: Final = 2.0
"""Error from which it is said that the parts do not do it (engineering choice, no source)."""


def what_to_set(built: Built, *, turns_with_binding: bool = True) -> tuple[str, ...]:
    """What to do for one foot: a sentence for each part, the lowest first.

    Args:
        built: what is to stand under the foot.
        turns_with_binding: whether turnable parts turn along with the binding;
            else it is said where they point on the board, too.
    """
    if not built.settings:
        return ("Mount the binding flat, without any part.",)
    return tuple(
        _sentence(setting, number, turns_with_binding)
        for number, setting in enumerate(built.settings)
    )


def title(part: Part) -> str:
    """Slope and name of a part, as "6° round wedge"."""
    return f"{plain(degrees(part.slope))}° {part.name}"


def high_side(bearing: float) -> str:
    """Where a bearing from the toe (rad) lies, as "60° outside the toe"."""
    return _direction(
        degrees(bearing),
        ahead="at the toe",
        behind="at the heel",
        sides=("on the little-toe side", "on the big-toe side"),
        between=("outside the toe", "inside the toe"),
    )


def way_on_board(on_board: float) -> str:
    """Where a direction on the board (rad) lies, as "15° from the toe edge towards the nose"."""
    return _direction(
        degrees(on_board),
        ahead="straight at the toe edge",
        behind="straight at the heel edge",
        sides=("at the nose", "at the tail"),
        between=("from the toe edge towards the nose", "from the toe edge towards the tail"),
    )


def shortfall(parts: PartsList, best: Combination) -> str:
    """Why the best combination is not what was wanted; "" where it is."""
    if degrees(best.error) < _ROUNDS_AWAY:
        return ""
    if not any(part.count for part in parts.parts):
        return "The parts list is empty, so both soles stay flat: add the parts that you have."
    if parts.largest_stack == 0:
        return "The largest stack is 0, so both soles stay flat: allow at least one part."
    if degrees(best.error) < POOR_DEG:
        return ""
    foot = "front" if best.errors[0] >= best.errors[1] else "rear"
    return (
        f"These parts come no nearer than {plain(degrees(best.error))}° to what the {foot} foot "
        "wants: add a part of another slope, or allow a larger stack."
    )


def trade(found: Reachable, reached: Reached, length_unit: str = "mm") -> str:
    """What a stance brings against keeping the present one."""
    kept = (
        f", and {_worst(found.kept)} with the best parts at the present angles and length"
        if found.kept
        else ""
    )
    return (
        f"Worst off-plane angle {_worst(reached)}, against {_worst(found.present)} as it is{kept}. "
        f"{_changes(found.present, reached, length_unit)}"
    )


def _sentence(setting: Setting, number: int, turns_with_binding: bool) -> str:
    turnable = setting.part.kind is Kind.TURNABLE
    start = ("turn" if turnable else "put in") if number == 0 else ("turn" if turnable else "put")
    place = "" if number == 0 else "on top of it "
    does = "so that its high side stands" if turnable else "with its high side"
    words = f"{place}{start} the {title(setting.part)} {does} {high_side(setting.bearing)}"
    if turnable and not turns_with_binding:
        words += f"; on the board that is {way_on_board(setting.on_board)}"
    return f"{words[0].upper()}{words[1:]}."


def _direction(
    turned: float, *, ahead: str, behind: str, sides: tuple[str, str], between: tuple[str, str]
) -> str:
    """A direction in words, from straight ahead and positive to the first of the sides."""
    side = 0 if turned > 0.0 else 1
    away = abs(turned)
    if away < _ROUNDS_AWAY:
        return ahead
    if away > 180.0 - _ROUNDS_AWAY:
        return behind
    if abs(away - 90.0) < _ROUNDS_AWAY:
        return sides[side]
    return f"{plain(away)}° {between[side]}"


def _worst(reached: Reached) -> str:
    return f"{plain(degrees(reached.worst_off_plane))}°"


def _changes(present: Reached, reached: Reached, length_unit: str) -> str:
    """What of the stance changes, in a sentence."""
    both, unit = (present.stance, reached.stance), unit_of("mm", length_unit)
    fronts, rears = (
        tuple(plain(degrees(mount.angle)) for mount in mounts)
        for mounts in zip(*((each.front, each.rear) for each in both), strict=True)
    )
    lengths = tuple(figure(round(float(each.length), 1), unit) for each in both)
    changes = [
        f"the {name} from {old} to {new}{suffix}"
        for name, (old, new), suffix in (
            ("front angle", fronts, "°"),
            ("rear angle", rears, "°"),
            ("stance length", lengths, unit.suffix),
        )
        if old != new
    ]
    if not changes:
        return "Angles and length stay as they are."
    return f"Change {', '.join(changes)}."
