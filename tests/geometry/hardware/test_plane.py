"""Outlines that meet themselves along an axis, where a gap of nothing is no gap."""

from __future__ import annotations

import pytest

from geometry.hardware.plane import Spot, require_simple

# A side along an axis has no width across it, and the outline must still be refused.
CROSSED = {
    "across x": ((0.0, 0.0), (10.0, 0.0), (5.0, -5.0), (5.0, 5.0)),
    "slanting": ((0.0, 0.0), (10.0, 0.0), (8.0, -5.0), (2.0, 5.0)),
    "in a corner": ((0.0, 0.0), (10.0, 0.0), (10.0, 6.0), (5.0, 0.0), (0.0, 6.0)),
    "lying on it": ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (9.0, 4.0), (9.0, 0.0), (3.0, 0.0)),
}
# Sides in one line that keep apart, as about a notch.
NOTCHED = (
    *((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (6.0, 2.0), (6.0, 0.0)),
    *((10.0, 0.0), (10.0, 5.0), (0.0, 5.0)),
)


def turned(outline: tuple[Spot, ...]) -> tuple[Spot, ...]:
    """The same outline a quarter turn on, along the other axis."""
    return tuple((-y, x) for x, y in outline)


@pytest.mark.parametrize("turn", [tuple, turned])
@pytest.mark.parametrize("outline", CROSSED.values(), ids=CROSSED)
def test_an_outline_that_meets_itself_along_an_axis_is_refused(
    outline: tuple[Spot, ...], turn: type
) -> None:
    with pytest.raises(ValueError, match=r"^the side after corner \d of a plate meets another$"):
        require_simple(turn(outline), "a plate")


@pytest.mark.parametrize("turn", [tuple, turned])
@pytest.mark.parametrize("moved", range(8))
def test_sides_in_one_line_that_keep_apart_do_not_meet(moved: int, turn: type) -> None:
    outline = turn((*NOTCHED[moved:], *NOTCHED[:moved]))
    require_simple(outline, "a plate")
    assert len(set(outline)) == 8
