"""Older layouts of set-up files, each brought to the next by a step of its own.

A step takes all that a file of its layout holds and gives what the next layout
holds; it carries along every key that it does not know.  Steps are kept for
ever, since files are.  One that meets something it cannot take raises
:class:`~app.files.safe_files.RefusalError`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final, TypeAlias

Migration: TypeAlias = Callable[[dict[str, Any]], dict[str, Any]]

_SIDES: Final = ("left", "right")
_OF_LEG: Final = (
    *("hip_height_mm", "knee_height_mm", "ankle_height_mm", "foot_length_mm", "knee_tracking_deg"),
    *("forward_lean_deg", "flex_range_deg", "side_give_deg", "sole_thickness_mm"),
)
"""What layout 1 knew of both legs and boots at once."""
_NEW_OF_LEG: Final = {"cuff_offset_deg": 0.0, "boot_ramp_deg": 0.0}
_NEW: Final = {
    "back_lean_deg": 28.0,
    "weight_ahead_mm": 0.0,
    "bend_from_deg": 30.0,
    "bend_to_deg": 55.0,
    "largest_lift_deg": 9.0,
    "largest_cant_deg": 9.0,
}
"""Inputs that layout 2 brought, with the values that change nothing that was said before."""


def _two_legs(raw: dict[str, Any]) -> dict[str, Any]:
    """Layout 2 has both legs and boots for themselves, and trials know who stood in front.

    Both legs get what was said of them together; what is not as it should be is left
    as it is, for the reader of layout 2 to say so.
    """
    found = dict(raw)
    inputs = raw.get("inputs")
    if isinstance(inputs, dict):
        leg = {name: inputs[name] for name in _OF_LEG if name in inputs}
        rest = {name: value for name, value in inputs.items() if name not in leg}
        sides = {side: {**leg, **_NEW_OF_LEG} for side in _SIDES}
        found["inputs"] = {**_NEW, **rest, **sides}
        lead_foot = inputs.get("lead_foot", "left")
        if isinstance(raw.get("trials"), list):
            found["trials"] = [
                {"lead_foot": lead_foot, **trial} if isinstance(trial, dict) else trial
                for trial in raw["trials"]
            ]
    if isinstance(raw.get("measured"), list):
        found["measured"] = [name for each in raw["measured"] for name in _sided(each)]
    for group in ("spreads", "repeats"):
        if isinstance(raw.get(group), dict):
            found[group] = {
                name: value for key, value in raw[group].items() for name in _sided(key)
            }
    return found


def _sided(name: Any) -> list[Any]:
    """The names in layout 2 of what layout 1 called by one."""
    return [f"{side}_{name}" for side in _SIDES] if name in _OF_LEG else [name]


MIGRATIONS: Final[Mapping[int, Migration]] = {1: _two_legs}
"""By the number of a layout, the step from it to the next."""


def migrated(
    raw: dict[str, Any], schema: int, newest: int, steps: Mapping[int, Migration]
) -> dict[str, Any]:
    """What a file holds, brought from its own layout to the newest, step by step.

    A file of the newest layout, or of one newer still, stays as it is.

    Args:
        raw: all that the file holds.
        schema: number of its layout.
        newest: number of the layout wanted.
        steps: by the number of a layout, the step from it to the next.
    """
    for number in range(schema, newest):
        raw = {**steps[number](raw), "schema": number + 1}
    return raw
