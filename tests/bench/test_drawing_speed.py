"""How long a drag takes to reach the screen.  Measured, never asserted.

Run with ``sh tests/run.sh --benchmark-only tests/bench``.
"""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import count, cycle
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QImage, QMouseEvent, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.drawing.theme import LIGHT
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.controls.slider import Slider
from app.qt.controls.slider_face import x_of
from app.qt.painting.easel import Easel
from app.qt.painting.lettering import load_fonts
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.rider.setup import Setup, edited
from app.session import Session
from app.window.lifecycle import WindowThreadGC
from app.window.window import Window

ROOT = Path(__file__).parents[2]


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    load_fonts(ASSETS / "fonts")
    made = Window(Session())
    qtbot.addWidget(made)
    made.resize(1280, 800)
    made.show()
    qtbot.waitExposed(made)
    WindowThreadGC(made)  # as the program does once its window stands
    return made


def painted(window: Window) -> None:
    """Run the event loop until the window has been painted."""
    QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.UpdateRequest.value)
    QApplication.processEvents()


def summed_up(benchmark: BenchmarkFixture) -> None:
    times = sorted(benchmark.stats.stats.data)
    benchmark.extra_info["median_ms"] = round(1e3 * median(times), 2)
    benchmark.extra_info["p95_ms"] = round(1e3 * times[int(0.95 * len(times))], 2)


def moved(slider: Slider, x: float) -> None:
    """Let the mouse, its button down, come to a place on a slider."""
    at = QPointF(x, 0.5 * slider.height())
    left, none = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
    event = QMouseEvent(
        QEvent.Type.MouseMove, at, slider.mapToGlobal(at), none, left, Qt.KeyboardModifier(0)
    )
    QApplication.sendEvent(slider, event)


def test_slider_move_to_painted_window(benchmark: BenchmarkFixture, window: Window) -> None:
    """The mouse drags the front binding angle on by a step or two, until all of it is painted."""
    slider = window.panel.rows["front_angle_deg"].slider
    assert slider.scale is not None
    start = x_of(slider.scale, window.session.inputs.front_angle_deg, slider.width())
    places = cycle([*range(-60, 60, 2), *range(60, -60, -2)])
    handle = QPoint(round(start), slider.height() // 2)
    QTest.mousePress(slider, Qt.MouseButton.LeftButton, pos=handle)

    def move() -> None:
        moved(slider, start + next(places))
        painted(window)

    benchmark.pedantic(move, rounds=300, warmup_rounds=20)
    QTest.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=handle)
    summed_up(benchmark)


def test_slider_step_by_keys_to_painted_window(benchmark: BenchmarkFixture, window: Window) -> None:
    """The same by steps of a tenth of a degree, each a step of the history of its own."""
    slider = window.panel.rows["front_angle_deg"].slider
    steps = count()

    def move() -> None:
        slider.setValue(slider.minimum() + 600 + next(steps) % 500)
        painted(window)

    benchmark.pedantic(move, rounds=300, warmup_rounds=20)
    summed_up(benchmark)


@pytest.mark.parametrize("live", [False, True], ids=["nothing kept", "words kept"])
def test_the_same_marks_painted_by_a_bare_painter(
    benchmark: BenchmarkFixture, qtbot: QtBot, live: bool
) -> None:
    """The floor: painting a sheet that is already laid out, and nothing else.

    Once as a painter does by itself, and once with words and dots kept as pictures,
    as the window does.
    """
    load_fonts(ASSETS / "fonts")
    frames = [frame(edited(Setup(), front_angle_deg=0.1 * i)) for i in range(500)]
    area = QRectF(0.0, 0.0, 956.0, 764.0)
    placings = [
        placed(area, {key: scene.window for key, scene in each.scenes.items()}) for each in frames
    ]
    image = QImage(956, 764, QImage.Format.Format_RGB32)
    turns = count()

    def paint() -> None:
        i = next(turns) % len(frames)
        image.fill(0xFFFBFCFD)
        with QPainter(image) as painter:
            paint_sheet(Easel(painter, LIGHT, live=live), placings[i], frames[i])

    benchmark.pedantic(paint, rounds=300, warmup_rounds=20)
    summed_up(benchmark)


def test_a_frame_solved_and_drawn_into_marks(benchmark: BenchmarkFixture) -> None:
    """The pure part of the pass: posture, findings, scenes."""
    setups = [edited(Setup(), front_angle_deg=0.1 * i) for i in range(500)]
    turns = count()
    benchmark.pedantic(
        lambda: frame(setups[next(turns) % len(setups)]), rounds=300, warmup_rounds=20
    )
    summed_up(benchmark)


FIRST_PAINT = """
import os, time
started = time.perf_counter()
from app.__main__ import main
from app.window.sheet import Sheet
painted = Sheet.paintEvent
def first(sheet, event):
    painted(sheet, event)
    print(time.perf_counter() - started, flush=True)
    os._exit(0)
Sheet.paintEvent = first
main([])
"""
"""The program itself, stopped as soon as its drawings are painted for the first time."""


def test_process_start_to_first_paint(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """A new process each time, its interpreter's own start included."""
    places = {f"XDG_{kind}_HOME": str(tmp_path) for kind in ("CONFIG", "DATA", "STATE")}
    environment = {**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"}
    # As with every user, what has been compiled once is kept.
    environment.pop("PYTHONDONTWRITEBYTECODE", None)

    def start() -> None:
        subprocess.run(
            [sys.executable, "-c", FIRST_PAINT], cwd=ROOT, env=environment, check=True,
            capture_output=True,
        )  # fmt: skip

    benchmark.pedantic(start, rounds=7, warmup_rounds=1)
    summed_up(benchmark)


def test_memory_after_5000_redraws(benchmark: BenchmarkFixture, window: Window) -> None:
    """Growth of the process's resident memory over five thousand redraws of one long drag.

    Steps outside a drag would grow the history too, which keeps them on purpose.
    """
    if not sys.platform.startswith("linux"):
        pytest.skip("resident memory is read from /proc")
    slider = window.panel.rows["front_angle_deg"].slider

    def redraw(times: int) -> None:
        for i in range(times):
            slider.setValue(slider.minimum() + 600 + i % 500)
            painted(window)

    window.session.begin_drag()
    redraw(1000)
    before, started = resident(), perf_counter()
    benchmark.pedantic(redraw, args=(5000,), rounds=1)
    benchmark.extra_info["growth_mb"] = round(resident() - before, 2)
    benchmark.extra_info["per_redraw_ms"] = round((perf_counter() - started) / 5.0, 2)


def resident() -> float:
    """Resident memory of this process (MB)."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
