"""How long a drag takes to reach the screen.  Measured, never asserted.

Run with ``sh tests/run.sh --benchmark-only tests/bench``.
"""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from itertools import count
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QRectF
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.frame import frame
from app.resources import ASSETS
from app.session import Session
from app.setup import Setup, edited
from app.theme import LIGHT
from app.widgets.easel import Easel
from app.widgets.fonts import load_fonts
from app.widgets.sheet import paint_sheet, placed
from app.widgets.window import Window

ROOT = Path(__file__).parents[2]


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    load_fonts(ASSETS / "fonts")
    made = Window(Session())
    qtbot.addWidget(made)
    made.resize(1280, 800)
    made.show()
    qtbot.waitExposed(made)
    # As the program does once its window stands.
    gc.collect()
    gc.freeze()
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


def test_slider_move_to_painted_window(benchmark: BenchmarkFixture, window: Window) -> None:
    """One step of a binding-angle slider, until everything it changes is painted."""
    slider = window.panel.rows["front_angle_deg"].slider
    steps = count()

    def move() -> None:
        slider.setValue(slider.minimum() + 600 + next(steps) % 500)
        painted(window)

    benchmark.pedantic(move, rounds=300, warmup_rounds=20)
    summed_up(benchmark)


def test_the_same_marks_painted_by_a_bare_painter(
    benchmark: BenchmarkFixture, qtbot: QtBot
) -> None:
    """The floor: painting a sheet that is already laid out, and nothing else."""
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
            paint_sheet(Easel(painter, LIGHT, live=True), placings[i], frames[i])

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
import sys, time
started = time.perf_counter()
from app.widgets.window import Window, prepared_application
from app.session import Session
app = prepared_application()
window = Window(Session())
window.resize(1280, 800)
window.show()
app.processEvents()
window.sheet.grab()
print(time.perf_counter() - started)
window.close()
"""


def test_process_start_to_first_paint(benchmark: BenchmarkFixture) -> None:
    """A new process each time, its interpreter's own start included."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}

    def start() -> None:
        subprocess.run(
            [sys.executable, "-c", FIRST_PAINT], cwd=ROOT, env=environment, check=True,
            capture_output=True,
        )  # fmt: skip

    benchmark.pedantic(start, rounds=7, warmup_rounds=1)
    summed_up(benchmark)


def test_memory_after_5000_redraws(benchmark: BenchmarkFixture, window: Window) -> None:
    """Growth of the process's resident memory over five thousand redraws."""
    if not sys.platform.startswith("linux"):
        pytest.skip("resident memory is read from /proc")
    slider = window.panel.rows["front_angle_deg"].slider

    def redraw(times: int) -> None:
        for i in range(times):
            slider.setValue(slider.minimum() + 600 + i % 500)
            painted(window)

    redraw(1000)
    before, started = resident(), perf_counter()
    benchmark.pedantic(redraw, args=(5000,), rounds=1)
    benchmark.extra_info["growth_mb"] = round(resident() - before, 2)
    benchmark.extra_info["per_redraw_ms"] = round((perf_counter() - started) / 5.0, 2)


def resident() -> float:
    """Resident memory of this process (MB)."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
