"""How long one step of turning the legs about takes.  Measured, never asserted.

Aim: 60 frames a second at 1280 × 800 with the 95th percentile within 12 ms, at
twice the resolution within 16 ms.
"""

from __future__ import annotations

from itertools import count

from paced import paced, painted
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.features.orbit.page import OrbitPage


def test_one_step_of_turning_until_the_window_is_painted(
    benchmark: BenchmarkFixture, qtbot: QtBot
) -> None:
    window = shown_window(qtbot)
    page = window.tray.open_page("All round")
    assert isinstance(page, OrbitPage)
    steps = count()

    def turn() -> None:
        page.view.turned.emit(1.0, 0.2 if next(steps) % 200 < 100 else -0.2)
        painted()

    paced(benchmark, turn, rounds=200)
