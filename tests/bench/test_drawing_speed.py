"""How long a drag takes to reach the screen.  Measured, never asserted.

Run with ``sh tests/run.sh --benchmark-only tests/bench``.
"""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import count
from pathlib import Path
from statistics import median
from time import perf_counter, process_time, sleep

import pytest
from paced import dragged, p95, paced, painted
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot
from shown_windows import shown_window

from app.drawing.theme import LIGHT
from app.files.resources import ASSETS
from app.frame import frame
from app.qt.painting.easel import Easel
from app.qt.painting.lettering import load_fonts
from app.qt.painting.sheet_painting import paint_sheet, placed
from app.qt.themes import current_theme
from app.rider.setup import Setup, edited
from app.window.lifecycle import WindowThreadGC
from app.window.window import Window

ROOT = Path(__file__).parents[2]


@pytest.fixture
def window(qtbot: QtBot) -> Window:
    made = shown_window(qtbot)
    WindowThreadGC(made)  # as the program does once its window stands
    return made


def test_slider_move_to_painted_window(benchmark: BenchmarkFixture, window: Window) -> None:
    """The mouse drags the front binding angle on by a step or two, until all of it is painted."""
    paced(benchmark, dragged(window), rounds=300)


def test_slider_move_to_painted_window_over_a_bare_painter(
    benchmark: BenchmarkFixture, window: Window
) -> None:
    """How many times what a painter takes for the same marks that keeps nothing; aim 1.6.

    In turns, so that what else the machine does weighs on both.
    """
    move, sheet, theme = dragged(window), window.sheet, current_theme()
    ratio = sheet.devicePixelRatioF()
    image = QImage(sheet.size() * ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    moved: list[float] = []
    bare: list[float] = []

    def both() -> None:
        began = process_time()
        move()
        moved.append(process_time() - began)
        shown, area = window._frame, QRectF(sheet.rect())
        assert shown is not None
        placing = placed(area, {key: each.window for key, each in shown.scenes.items()})
        began = process_time()
        image.fill(QColor(theme.paper))
        with QPainter(image) as painter:
            paint_sheet(Easel(painter, theme), placing, shown)
        bare.append(process_time() - began)

    benchmark.pedantic(both, rounds=300, warmup_rounds=20)
    moved, bare = moved[20:], bare[20:]
    for name, times in (("window", moved), ("bare", bare)):
        benchmark.extra_info[f"{name}_cpu_median_ms"] = round(1e3 * median(times), 2)
        benchmark.extra_info[f"{name}_cpu_p95_ms"] = round(1e3 * p95(times), 2)
    benchmark.extra_info["ratio_of_medians"] = round(median(moved) / median(bare), 2)
    benchmark.extra_info["ratio_of_p95"] = round(p95(moved) / p95(bare), 2)
    quick = [sorted(times)[len(times) // 10] for times in (moved, bare)]
    benchmark.extra_info["ratio_of_the_least_disturbed"] = round(quick[0] / quick[1], 2)


def test_slider_step_by_keys_to_painted_window(benchmark: BenchmarkFixture, window: Window) -> None:
    """The same by steps of a tenth of a degree, each a step of the history of its own."""
    slider = window.panel.rows["front_angle_deg"].slider
    steps = count()

    def move() -> None:
        slider.setValue(slider.minimum() + 600 + next(steps) % 500)
        painted()

    paced(benchmark, move, rounds=300)


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

    paced(benchmark, paint, rounds=300)


def test_a_frame_solved_and_drawn_into_marks(benchmark: BenchmarkFixture) -> None:
    """The pure part of the pass: posture, findings, scenes."""
    setups = [edited(Setup(), front_angle_deg=0.1 * i) for i in range(500)]
    turns = count()

    def solve() -> None:
        frame(setups[next(turns) % len(setups)])

    paced(benchmark, solve, rounds=300)


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
    benchmark.extra_info["median_ms"] = round(1e3 * median(benchmark.stats.stats.data), 1)


def test_memory_of_the_program_at_rest(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """What stays in memory five seconds after a start, without a hand (MB); aim 100."""
    if not sys.platform.startswith("linux"):
        pytest.skip("resident memory is read from /proc")
    places = {f"XDG_{kind}_HOME": str(tmp_path) for kind in ("CONFIG", "DATA", "STATE")}
    environment = {**os.environ, **places, "QT_QPA_PLATFORM": "offscreen"}
    program = "from app.__main__ import main; main([])"

    def rest() -> float:
        with subprocess.Popen([sys.executable, "-c", program], cwd=ROOT, env=environment) as run:
            sleep(5.0)
            here = resident(run.pid)
            run.terminate()
        return here

    taken = [benchmark.pedantic(rest, rounds=1)]
    benchmark.extra_info["resident_mb"] = round(taken[0], 1)


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
            painted()

    window.session.begin_drag()
    redraw(1000)
    before, started = resident(), perf_counter()
    benchmark.pedantic(redraw, args=(5000,), rounds=1)
    benchmark.extra_info["growth_mb"] = round(resident() - before, 2)
    benchmark.extra_info["per_redraw_ms"] = round((perf_counter() - started) / 5.0, 2)


def resident(process: int | str = "self") -> float:
    """Resident memory of a process, this one where none is named (MB)."""
    pages = int(Path(f"/proc/{process}/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6
