"""Steps of a window that are timed until all of it is painted: by the clock and by the processor.

On a machine that does other things too the clock tells of those as well; what the processor
spent on this process alone tells what a step takes where nothing else runs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import cycle
from statistics import median
from time import process_time

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture

from app.qt.controls.slider_face import x_of
from app.window.window import Window


def painted() -> None:
    """Run the event loop until the window has been painted."""
    QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.UpdateRequest.value)
    QApplication.processEvents()


def p95(times: Sequence[float]) -> float:
    """The time that one in twenty is above."""
    return sorted(times)[int(0.95 * len(times))]


def paced(benchmark: BenchmarkFixture, step: Callable[[], None], *, rounds: int = 240) -> None:
    """Time a step, and note its median and its 95th percentile (ms)."""
    spent: list[float] = []

    def timed() -> None:
        began = process_time()
        step()
        spent.append(process_time() - began)

    benchmark.pedantic(timed, rounds=rounds, warmup_rounds=20)
    if benchmark.stats is not None:
        spent = spent[-rounds:]
        clock = benchmark.stats.stats.data
        benchmark.extra_info["median_ms"] = round(1e3 * median(clock), 2)
        benchmark.extra_info["p95_ms"] = round(1e3 * p95(clock), 2)
        benchmark.extra_info["cpu_median_ms"] = round(1e3 * median(spent), 2)
        benchmark.extra_info["cpu_p95_ms"] = round(1e3 * p95(spent), 2)


def dragged(window: Window) -> Callable[[], None]:
    """What moves the mouse on by two pixels, its button held on the front binding angle."""
    slider = window.panel.rows["front_angle_deg"].slider
    assert slider.scale is not None
    start = x_of(slider.scale, window.session.inputs.front_angle_deg, slider.width())
    places = cycle([*range(-60, 60, 2), *range(60, -60, -2)])
    handle = QPoint(round(start), slider.height() // 2)
    left, none = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
    QTest.mousePress(slider, left, pos=handle)

    def move() -> None:
        at = QPointF(start + next(places), 0.5 * slider.height())
        event = QMouseEvent(
            QEvent.Type.MouseMove, at, slider.mapToGlobal(at), none, left, Qt.KeyboardModifier(0)
        )
        QApplication.sendEvent(slider, event)
        painted()

    return move
