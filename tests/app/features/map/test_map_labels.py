"""Where words stand on the map: none on another, none over the edge."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.features.map.labels import CELL, GAP, Box, Wanted, placed

WITHIN = Box(0.0, 0.0, 400.0, 200.0)
HEIGHT = 15.0


def level(y: float, width: float = 60.0, *, beside: bool = False) -> Wanted:
    """A label for a level line across the drawing."""
    return Wanted([np.array([[0.0, y], [400.0, y]])], width, beside)


def overlap(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.top < other.bottom
        and other.top < one.bottom
    )


Drawn = tuple[list[tuple[float, float]], float, bool]
lines = st.lists(
    st.tuples(
        st.lists(
            st.tuples(st.floats(-50.0, 450.0), st.floats(-50.0, 250.0)), min_size=2, max_size=6
        ),
        st.floats(10.0, 150.0),
        st.booleans(),
    ),
    max_size=12,
)


@given(lines, st.floats(0.0, 370.0), st.floats(0.0, 170.0))
def test_no_two_labels_touch_and_none_leaves_the_drawing(
    drawn: list[Drawn], x: float, y: float
) -> None:
    dot = Box(x, y, x + 28.0, y + 28.0)
    labels = [Wanted([np.array(points)], width, beside) for points, width, beside in drawn]
    boxes = [box for box in placed(labels, HEIGHT, WITHIN, [dot], 100.0) if box]
    assert not any(overlap(*pair) for pair in combinations([dot, *boxes], 2))
    for box in boxes:
        assert box.left >= 0.0
        assert box.top >= 0.0
        assert box.right <= 400.0
        assert box.bottom <= 200.0


def test_labels_of_neighbouring_lines_stand_under_each_other() -> None:
    boxes = placed([level(y) for y in (40.0, 80.0, 120.0)], HEIGHT, WITHIN, [], 100.0)
    middles = [0.5 * (box.left + box.right) for box in boxes if box]
    assert middles == pytest.approx([100.0] * 3, abs=4.0)


def test_a_label_keeps_clear_of_the_dot() -> None:
    dot = Box(80.0, 30.0, 120.0, 50.0)
    (box,) = placed([level(40.0)], HEIGHT, WITHIN, [dot], 100.0)
    assert box is not None
    assert not overlap(box, dot)


def test_a_label_goes_where_it_hides_no_other_line() -> None:
    upright = Wanted([np.array([[x, 0.0], [x, 200.0]]) for x in range(40, 200, 10)], 500.0)
    box, none = placed([level(100.0), upright], HEIGHT, WITHIN, [], 100.0)
    assert none is None
    assert box is not None
    assert box.left >= 190.0


def test_a_name_may_stand_beside_its_line() -> None:
    (box,) = placed([level(100.0, beside=True)], HEIGHT, WITHIN, [], 100.0)
    assert box is not None
    assert box.bottom <= 100.0 or box.top >= 100.0


def test_where_there_is_no_room_there_is_no_label() -> None:
    assert placed([level(100.0, 500.0), level(300.0)], HEIGHT, WITHIN, [], 100.0) == [None, None]
    assert placed([Wanted([], 50.0)], HEIGHT, WITHIN, [], 100.0) == [None]


def test_labels_over_each_other_leave_room_between_them() -> None:
    # The first ends where a cell ends, so that the second could begin right there.
    first = 100.0 - (100.0 + 0.5 * HEIGHT) % CELL
    one, other = placed([level(first), level(first + HEIGHT)], HEIGHT, WITHIN, [], 100.0)
    assert one is not None
    assert other is not None
    assert not overlap(Box(one.left, one.top - GAP, one.right, one.bottom + GAP), other)
