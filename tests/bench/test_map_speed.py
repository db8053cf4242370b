"""How fast the stance map is computed and moved: medians are printed, nothing is asserted of time.

Aims on one core of a common machine: the map of 120 x 100 stances with all its
lines 80 ms, in a thread beside the window; a step of a drag on the page within
a few milliseconds; the labels of a map within a frame.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.features.map.lines import extent_of, map_lines
from app.features.map.page import MapPage
from app.frame import frame
from app.rider.inputs import DEFAULTS
from app.rider.setup import Setup, edited
from app.session import Session
from app.window.window import prepared_application


@pytest.fixture
def page(qtbot: QtBot) -> Iterator[MapPage]:
    prepared_application()
    page = MapPage(Session())
    qtbot.addWidget(page)
    page.resize(956, 300)
    page.show()
    page.show_frame(frame(Setup()), dragging=False)
    qtbot.waitUntil(lambda: bool(page.plot._ground.words), timeout=10_000)
    yield page
    page.close()


def told(benchmark: BenchmarkFixture, what: str) -> None:
    if benchmark.stats is not None:
        print(f"\n{what}: median {1e3 * benchmark.stats.stats.median:.2f} ms")


def test_map_of_120_by_100_stances_with_its_lines(benchmark: BenchmarkFixture) -> None:
    lines = benchmark(map_lines, DEFAULTS, extent_of(42.5, 2.0))
    told(benchmark, "map of 120 x 100 stances with its lines")
    assert len(lines.levels) > 10


def test_labels_of_the_map(benchmark: BenchmarkFixture, page: MapPage) -> None:
    benchmark(page.plot.place_words)
    told(benchmark, f"places of {len(page.plot._ground.words)} labels")
    assert len(page.plot._ground.words) > 10


def test_a_step_of_a_drag_on_the_page(benchmark: BenchmarkFixture, page: MapPage) -> None:
    frames = [frame(edited(Setup(), front_angle_deg=float(a))) for a in range(30, 60)]
    shown: list[float] = []

    def step() -> None:
        moved = frames[len(shown) % len(frames)]
        shown.append(moved.setup.inputs.front_angle_deg)
        page.show_frame(moved, dragging=True)
        QApplication.processEvents()

    benchmark(step)
    told(benchmark, "step of a drag on the page, painted")
    assert page.heading.text().startswith(f"{0.5 * (shown[-1] + 40.0):.1f}°")
