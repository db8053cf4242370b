"""Colours of roles: what is far off its plane is loudest, and each leg wears its own hue."""

from __future__ import annotations

import pytest

from app.drawing.styles import style
from app.drawing.theme import DARK, LIGHT, Theme, mixed, printed
from app.stance.findings import DRIFTING, IN_PLANE, OUT_OF_PLANE

BOTH = pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])


def distance(one: str, other: str) -> int:
    """How far two colours lie apart, over red, green and blue."""
    parts = (slice(1, 3), slice(3, 5), slice(5, 7))
    return sum(abs(int(one[part], 16) - int(other[part], 16)) for part in parts)


def test_a_colour_thinned_with_paper_lies_between_them() -> None:
    assert mixed("#204060", "#ffffff", 1.0) == "#204060"
    assert mixed("#204060", "#ffffff", 0.0) == "#ffffff"
    assert mixed("#000000", "#ffffff", 0.2) == "#cccccc"


def test_pictures_leave_the_program_on_white_or_on_their_dark_paper() -> None:
    assert printed(LIGHT).paper == "#ffffff"
    assert printed(LIGHT).ink == LIGHT.ink
    assert printed(DARK) == DARK


@BOTH
def test_the_farther_off_its_plane_the_louder_the_wedge_and_only_a_drift_is_hatched(
    theme: Theme,
) -> None:
    states = (IN_PLANE, DRIFTING, OUT_OF_PLANE)
    wedges = [style(theme, f"wedge.{state}") for state in states]
    loud = [distance(wedge.fill, theme.paper) for wedge in wedges]
    assert loud == sorted(set(loud))
    assert [wedge.hatch for wedge in wedges] == [False, True, False]
    assert [style(theme, f"miss.{state}").width for state in states] == [1.0, 4.0, 4.0]


@BOTH
@pytest.mark.parametrize("leg", ["front", "rear"])
def test_bones_and_words_of_a_leg_wear_its_hue(theme: Theme, leg: str) -> None:
    hue, words = getattr(theme, leg), getattr(theme, f"{leg}_text")
    assert style(theme, f"{leg}.bone.near").stroke == hue
    assert style(theme, f"{leg}.callout").text == words
    far = style(theme, f"{leg}.bone.far").stroke
    assert distance(far, theme.paper) < distance(hue, theme.paper)
