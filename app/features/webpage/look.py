"""How the page looks: the styles of the program's drawings as rules, light and dark."""

from __future__ import annotations

from dataclasses import asdict
from typing import Final

from app.drawing.styles import Style, style
from app.drawing.theme import DARK, LIGHT, Theme
from app.stance.findings import STATES

_OF_LEG: Final = (
    *("limb.near", "limb.far", "bone.near", "bone.far", "joint.near", "joint.far", "plan"),
    *("boot", "sole", "mount", "axis", "centre", "thin", "fan", "rest"),
)
_OF_STATE: Final = ("wedge", "trace", "miss")
ROLES: Final = (
    *("board", "plate", "centre", "projection", "dimension", "facing", "pelvis", "pelvis.plan"),
    *("hip", "balance.base", "balance.mass", "balance.point"),
    *(f"{end}.{part}" for end in ("front", "rear") for part in _OF_LEG),
    *(f"{part}.{state}" for part in _OF_STATE for state in STATES),
)
"""The marks that the page draws."""


HATCHED: Final = tuple(role for role in ROLES if style(LIGHT, role).hatch)


def rules() -> str:
    """The rules of both themes; which is in force the reader's device says."""
    return f"{_of(LIGHT)}\n@media (prefers-color-scheme: dark) {{\n{_of(DARK)}\n}}"


def _of(theme: Theme) -> str:
    return f"{_variables(theme)}\n{_of_roles(theme)}"


def _variables(theme: Theme) -> str:
    """The colours of a theme by their names."""
    colours = {name.replace("_", "-"): value for name, value in asdict(theme).items()}
    told = (f"--{name}: {value};" for name, value in colours.items() if isinstance(value, str))
    return f":root {{ {' '.join(told)} }}"


def _of_roles(theme: Theme) -> str:
    return "\n".join(f".{class_of(role)} {{ {_rule(style(theme, role))} }}" for role in ROLES)


def class_of(role: str) -> str:
    """The class that marks of a role have."""
    return role.replace(".", "-").replace(" ", "-")


def _rule(look: Style) -> str:
    told = [f"fill: {look.fill or 'none'};", f"stroke: {look.stroke or 'none'};"]
    if look.stroke:
        told.append(f"stroke-width: {look.width:g}px;")
    if look.dash:
        told.append(f"stroke-dasharray: {' '.join(f'{part:g}' for part in look.dash)};")
    if look.jointed:
        told.append("stroke-linejoin: round;")
    return " ".join(told)
