"""What parts bring and what they do not, in sentences."""

from __future__ import annotations

from math import degrees
from typing import Final

from app.words.language import msgid, tr
from app.words.lengths import IN_MM, Lengths
from app.words.sentences import plain
from geometry.hardware.combinations import Combination
from geometry.hardware.order import Rank
from geometry.hardware.parts import PartsList
from geometry.hardware.reachable import Reachable, Reached

_ROUNDS_AWAY: Final = 0.05
"""Degrees that round to nothing in the first decimal."""

POOR_DEG: Final = 2.0
"""Error from which it is said that the parts do not do it (engineering choice, no source)."""


def shortfall(
    parts: PartsList, best: Combination, left: tuple[float, float, float] = (0.0, 0.0, 0.0)
) -> str:
    """What the best combination does not do that parts could do; "" where it does all.

    Args:
        parts: the list.
        best: its best combination.
        left: what would be left on just the lifts and cants to begin with (rad), as in
            :func:`geometry.hardware.combinations.left_by_answer`.
    """
    missing = _missing(best, left)
    if missing < _ROUNDS_AWAY:
        return ""
    if not any(part.count for part in parts.parts):
        return tr("The parts list is empty, so both soles stay flat: add the parts that you have.")
    if parts.largest_stack == 0:
        return tr("The largest stack is 0, so both soles stay flat: allow at least one part.")
    if best.rank is not None:
        return _still_wrong(best.rank, left)
    if missing < POOR_DEG:
        return ""
    said = _FRONT_WANTS if best.errors[0] >= best.errors[1] else _REAR_WANTS
    return tr(said, error=plain(missing))


def _missing(best: Combination, left: tuple[float, float, float]) -> float:
    """How much of what is wanted is not there, in degrees."""
    if best.rank is None:
        return degrees(best.error)
    return degrees(sum(_more(best.rank, left)))


def _more(rank: Rank, left: tuple[float, float, float]) -> list[float]:
    """How far boots, cants and knees are from as good as can be begun with (rad)."""
    return [max(has - least, 0.0) for has, least in zip(rank[:3], left, strict=True)]


def _still_wrong(rank: Rank, left: tuple[float, float, float]) -> str:
    """What stays wrong on the best parts, the worst of it."""
    for said, angle in zip(_WRONG, _more(rank, left), strict=True):
        if degrees(angle) > _ROUNDS_AWAY:
            return tr(said, angle=plain(degrees(angle)))
    return ""


_WRONG: Final = (
    msgid(
        "On none of these parts do both boots stay in range at the middle of the riding bend: "
        "{angle}° are missing. Add a part for lift, or change the binding angles."
    ),
    msgid(
        "No combination brings both cants to where the knees stay in plane: {angle}° are "
        "missing. Add a part of another slope, or allow a larger stack."
    ),
    msgid(
        "On the best of these parts the knees still come out of plane, by {angle}° in all: add "
        "a part of another slope, or allow a larger stack."
    ),
)
_FRONT_WANTS: Final = msgid(
    "These parts come no nearer than {error}° to what the front foot wants: "
    "add a part of another slope, or allow a larger stack."
)
_REAR_WANTS: Final = msgid(
    "These parts come no nearer than {error}° to what the rear foot wants: "
    "add a part of another slope, or allow a larger stack."
)


def trade(found: Reachable, reached: Reached, lengths: Lengths = IN_MM) -> str:
    """What a stance brings against keeping the present one."""
    said = tr(
        _AGAINST_KEPT if found.kept else _AGAINST_PRESENT,
        worst=_worst(reached),
        present=_worst(found.present),
        kept=_worst(found.kept) if found.kept else "",
    )
    return f"{said} {_changes(found.present, reached, lengths)}"


_AGAINST_PRESENT: Final = msgid("Out of plane by {worst} at worst, against {present} as it is.")
_AGAINST_KEPT: Final = msgid(
    "Out of plane by {worst} at worst, against {present} as it is, and {kept} with "
    "the best parts at the present angles and length."
)


def _worst(reached: Reached) -> str:
    return f"{plain(degrees(reached.worst_off_plane))}°"


def _changes(present: Reached, reached: Reached, lengths: Lengths) -> str:
    """What of the stance changes, in a sentence."""
    both = (present.stance, reached.stance)
    fronts, rears = (
        tuple(plain(degrees(mount.angle)) for mount in mounts)
        for mounts in zip(*((each.front, each.rear) for each in both), strict=True)
    )
    long = tuple(lengths.number(float(each.length)) for each in both)
    changes = [
        tr(said, old=old, new=f"{new}{suffix}")
        for said, (old, new), suffix in (
            (msgid("the front angle from {old} to {new}"), fronts, "°"),
            (msgid("the rear angle from {old} to {new}"), rears, "°"),
            (msgid("the stance length from {old} to {new}"), long, lengths.unit.suffix),
        )
        if old != new
    ]
    if not changes:
        return tr("Angles and length stay as they are.")
    return tr("Change {changes}.", changes=", ".join(changes))
