"""A window opens where it was closed, and always on a screen that is there."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRect

from app.files.settings import WindowPlace
from app.qt.placing import TITLE_BAR, placed

LAPTOP = QRect(0, 0, 1280, 800)
PROJECTOR = QRect(1280, -200, 1920, 1080)
any_area = st.builds(
    QRect,
    st.integers(-4000, 4000), st.integers(-4000, 4000),
    st.integers(640, 4000), st.integers(480, 3000),
)  # fmt: skip
any_place = st.builds(
    WindowPlace,
    st.integers(-9999, 9999), st.integers(-9999, 9999), st.integers(1, 9999), st.integers(1, 9999),
    st.booleans(),
)  # fmt: skip


def test_a_window_that_fits_stays_where_it_was():
    place = WindowPlace(1300, 100, 1100, 700)
    assert placed(place, [LAPTOP, PROJECTOR]) == place


def test_a_window_comes_back_when_the_projector_has_gone():
    assert placed(WindowPlace(1300, 100, 1100, 700), [LAPTOP]) == WindowPlace(180, 100, 1100, 700)


def test_the_screen_that_shows_most_of_it_keeps_it():
    across = WindowPlace(1000, 100, 1100, 700)
    assert placed(across, [LAPTOP, PROJECTOR]).x == PROJECTOR.x()


def test_a_window_larger_than_the_screen_is_made_smaller():
    assert placed(WindowPlace(-50, -50, 3000, 2000), [LAPTOP]) == WindowPlace(
        0, TITLE_BAR, 1280, 768
    )


@given(place=any_place, areas=st.lists(any_area, min_size=1, max_size=3))
def test_the_whole_window_and_its_title_lie_on_one_screen(place, areas):
    got = placed(place, areas)
    assert any(
        area.x() <= got.x and got.x + got.width <= area.x() + area.width()
        and area.y() <= got.y - TITLE_BAR and got.y + got.height <= area.y() + area.height()
        for area in areas
    )  # fmt: skip
    assert placed(got, areas) == got
    assert got.maximised == place.maximised


def test_on_screens_that_overlap_a_window_stays_on_the_one_that_shows_its_title():
    screens = [QRect(0, 0, 640, 480), QRect(0, -1, 640, 480)]
    got = placed(WindowPlace(0, -1, 1, 1), screens)
    assert placed(got, screens) == got


def test_without_a_screen_there_is_no_place():
    with pytest.raises(ValueError, match="no screen"):
        placed(WindowPlace(0, 0, 10, 10), [])
